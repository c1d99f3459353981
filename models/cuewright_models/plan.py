"""The plan contract, ``cuewright-plan/1``: what a session asks for, and where it was said."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field

from cuewright_models.base import Evidence, Number, Range, Value
from cuewright_models.estimate import Estimate
from cuewright_models.finding import Finding
from cuewright_models.transcript import SourceKind

CONTRACT: Literal["cuewright-plan/1"] = "cuewright-plan/1"

BlockKind = Literal[
    "warm-up", "mobility", "skill", "strength", "conditioning", "accessory", "cool-down"
]
Unit = Literal["reps", "m", "s", "kcal", "none"]
Who = Literal["women", "men"]
Weekday = Literal["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]


class Source(Value):
    """Where the plan was read from. ``duration_s`` is ``None`` for text without times."""

    name: str
    kind: SourceKind
    sha256: str
    duration_s: float | None = None
    language: str | None = None


class Date(Value):
    """The session's date as far as it was said."""

    year: int | None = None
    month: int | None = None
    day: int | None = None
    weekday: Weekday | None = None
    said: Evidence = ()


class Load(Value):
    """A load; ``who`` is set when it was given for women or for men."""

    low: Number
    high: Number
    unit: Literal["kg", "lb", "%1rm", "rpe"]
    who: Who | None = None


class Effort(Value):
    """One movement and its amount. ``max`` means as many or as long as possible."""

    do: Literal["effort"] = "effort"
    movement: str
    as_said: str
    unit: Unit = "none"
    low: Number | None = None
    high: Number | None = None
    max: bool = False
    per_side: bool = False
    load: tuple[Load, ...] = ()
    alternatives: tuple[str, ...] = ()
    known: bool = True
    """False when the movement is not in the catalogue and stands as heard."""
    said: Evidence = ()


class Rest(Value):
    """Standing rest, in seconds."""

    do: Literal["rest"] = "rest"
    low: Number
    high: Number
    said: Evidence = ()


class Repeat(Value):
    """Rounds of the items; ``rest_s`` is the rest between rounds."""

    do: Literal["repeat"] = "repeat"
    times: Range
    items: tuple[Item, ...]
    rest_s: Number | None = None
    said: Evidence = ()


class Ladder(Value):
    """Rounds whose reps are the rungs, such as 21, 15, 9."""

    do: Literal["ladder"] = "ladder"
    rungs: tuple[int, ...]
    items: tuple[Item, ...]
    said: Evidence = ()


class Slot(Value):
    """One interval's work inside an ``every`` block; ``index`` counts from 1."""

    do: Literal["slot"] = "slot"
    index: int
    items: tuple[Item, ...]
    said: Evidence = ()


Item = Annotated[Effort | Repeat | Ladder | Slot | Rest, Field(discriminator="do")]


class ForTime(Value):
    """Finish the work as fast as possible, inside ``cap_s`` if there is a cap."""

    kind: Literal["for-time"] = "for-time"
    cap_s: Number | None = None


class Amrap(Value):
    """As many rounds or reps as possible in ``duration_s``."""

    kind: Literal["amrap"] = "amrap"
    duration_s: Number | None = None


class Every(Value):
    """Work starts on the clock, ``times`` times, every ``every_s`` seconds."""

    kind: Literal["every"] = "every"
    every_s: Number | None = None
    times: int | None = None
    duration_s: Number | None = None


class Intervals(Value):
    """Fixed work and rest; ``times`` counts rounds through the stations."""

    kind: Literal["intervals"] = "intervals"
    work_s: Number | None = None
    rest_s: Number | None = None
    times: int | None = None


class Sets(Value):
    """Sets with ``rest_s`` between them, not against the clock."""

    kind: Literal["sets"] = "sets"
    rest_s: Number | None = None


class Quality(Value):
    """Done once or in rounds at one's own pace, not scored."""

    kind: Literal["quality"] = "quality"


Structure = Annotated[
    ForTime | Amrap | Every | Intervals | Sets | Quality, Field(discriminator="kind")
]


class StatedTime(Range):
    """How long the coach says a block takes, in seconds."""

    said: Evidence = ()


class Block(Value):
    """One part of the session."""

    id: str
    kind: BlockKind
    name: str | None = None
    structure: Structure
    items: tuple[Item, ...] = ()
    stated_time: tuple[StatedTime, ...] = ()
    said: Evidence = ()


class Target(Range):
    """What the coach wants a station, a round or the whole to take.

    ``about`` is a canonical movement, ``"round"``, ``"total"`` or a block id.
    """

    about: str
    unit: Literal["s", "sets", "rounds", "rpe", "%"]
    said: Evidence = ()


class Option(Range):
    """One way to scale: of ``about``, by ``kind``, to another movement or amount."""

    about: str
    kind: Literal["fewer", "shorter", "lighter", "easier", "harder", "substitute"]
    to: str | None = None
    unit: str | None = None
    said: Evidence = ()


class Cue(Value):
    """A point of performance of one movement."""

    about: str
    text: str
    said: Evidence = ()


class Advice(Value):
    """Pacing and strategy; ``about`` may be ``"total"``."""

    about: str
    text: str
    said: Evidence = ()


class Claim(Range):
    """A further statement that can be checked.

    ``total-time`` in seconds; ``total-reps``, ``total-distance`` and ``restated`` about a
    movement, a block id or ``"total"``; ``rounds`` about a block id; ``equipment`` about
    ``"none"`` or an item of kit; ``in-description`` about what is promised there.
    """

    kind: Literal[
        "total-time",
        "total-reps",
        "total-distance",
        "rounds",
        "equipment",
        "in-description",
        "restated",
    ]
    about: str
    unit: str | None = None
    only: bool = False
    """True on kit named in a list that the coach called complete."""
    said: Evidence = ()


class Unknown(Value):
    """Words that look like work but are in no table, with the nearest known names."""

    heard: str
    nearest: tuple[str, ...] = ()
    said: Evidence = ()


class Repair(Value):
    """A mishearing that was read as something else; the quote stays as heard."""

    heard: str
    meant: str
    said: Evidence = ()


class Doubt(Value):
    """An amount that rests on words which the recogniser was not sure of: check it by ear.

    ``about`` is a canonical movement, a block id, ``"round"``, ``"total"`` or ``"date"``,
    ``where`` which amount of it, ``block`` the block it stands in if it stands in one.
    ``words`` are the doubtful ones among those of the amount, which ``said`` holds.
    """

    about: str
    where: Literal[
        "amount",
        "load",
        "rounds",
        "rungs",
        "rest",
        "cap",
        "length",
        "interval",
        "work",
        "stated-time",
        "target",
        "option",
        "claim",
        "date",
    ]
    block: str | None = None
    words: tuple[str, ...]
    said: Evidence


class Plan(Value):
    """A session as said: the contract that everything downstream reads."""

    contract: Literal["cuewright-plan/1"] = CONTRACT
    source: Source
    title: str | None = None
    date: Date | None = None
    blocks: tuple[Block, ...] = ()
    targets: tuple[Target, ...] = ()
    options: tuple[Option, ...] = ()
    cues: tuple[Cue, ...] = ()
    advice: tuple[Advice, ...] = ()
    claims: tuple[Claim, ...] = ()
    estimate: Estimate | None = None
    findings: tuple[Finding, ...] = ()
    cautions: tuple[str, ...] = ()
    unknown: tuple[Unknown, ...] = ()
    repairs: tuple[Repair, ...] = ()
    warnings: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()


def efforts(items: tuple[Item, ...]) -> Iterator[Effort]:
    """Every effort below ``items``, in the order of performance, repeats not multiplied."""
    for item in items:
        if isinstance(item, Effort):
            yield item
        elif not isinstance(item, Rest):
            yield from efforts(item.items)

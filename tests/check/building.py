"""Small builders: a plan in a line or two, every place it was said told apart."""

from typing import Any

from cuewright.check import RULES
from cuewright_models.base import Evidence, Said
from cuewright_models.finding import Finding
from cuewright_models.plan import (
    Advice,
    Amrap,
    Block,
    Claim,
    Cue,
    Date,
    Effort,
    Every,
    ForTime,
    Intervals,
    Item,
    Ladder,
    Option,
    Plan,
    Quality,
    Repeat,
    Rest,
    Sets,
    Source,
    StatedTime,
    Target,
)

STRUCTURES = {
    "for-time": ForTime,
    "amrap": Amrap,
    "every": Every,
    "intervals": Intervals,
    "sets": Sets,
    "quality": Quality,
}


def said(quote: str, start: float | None = None) -> Evidence:
    """One place, two seconds long."""
    return (Said(start_s=start, end_s=None if start is None else start + 2, quote=quote),)


def ends(number: float | tuple[float | None, float | None] | None) -> dict[str, Any]:
    """A number, or a pair of ends, as ``low`` and ``high``."""
    low, high = number if isinstance(number, tuple) else (number, number)
    return {"low": low, "high": high}


def effort(movement: str, number: Any = None, unit: str = "reps", **more: Any) -> Effort:
    """``effort("row", 250, "m")``."""
    spoken = more.pop("as_said", movement.replace("-", " "))
    place = said(f"{number} {spoken}")
    return Effort(movement=movement, as_said=spoken, unit=unit, said=place, **ends(number), **more)


def rounds(times: Any, *items: Item, **more: Any) -> Repeat:
    """``rounds(4, effort(...), effort(...))``."""
    return Repeat(times=ends(times), items=items, said=said(f"{times} rounds"), **more)


def ladder(rungs: tuple[int, ...], *items: Item) -> Ladder:
    """``ladder((21, 15, 9), effort("push-up"))``."""
    return Ladder(rungs=rungs, items=items, said=said(f"the numbers are {rungs}"))


def rest(seconds: float) -> Rest:
    """Standing rest."""
    return Rest(low=seconds, high=seconds, said=said(f"rest {seconds}"))


def block(name: str, structure: str, *items: Item, **more: Any) -> Block:
    """``block("b2 conditioning", "for-time", ...)``; structure fields as keywords."""
    ident, kind = name.split(" ")
    stated = tuple(
        StatedTime(**ends(length), said=said(f"{name} takes {length}"))
        for length in more.pop("stated", ())
    )
    return Block(
        id=ident,
        kind=kind,
        structure=STRUCTURES[structure](**more),
        items=items,
        stated_time=stated,
        said=said(f"here is {ident}"),
    )


def claim(kind: str, about: str, number: Any = None, unit: str | None = None, **more: Any) -> Claim:
    """``claim("rounds", "b2", 6)``."""
    place = more.pop("said", None) or said(f"{kind} {about} {number}")
    return Claim(kind=kind, about=about, unit=unit, said=place, **ends(number), **more)


def target(about: str, number: Any, unit: str = "s", quote: str = "") -> Target:
    """``target("row", (120, 150))``."""
    return Target(
        about=about, unit=unit, said=said(quote or f"{about} in {number}"), **ends(number)
    )


def cue(about: str) -> Cue:
    """A point of performance."""
    return Cue(about=about, text="slowly", said=said(f"{about}: slowly"))


def option(about: str, kind: str, to: str | None = None) -> Option:
    """A way to scale."""
    return Option(about=about, kind=kind, to=to, said=said(f"{about}: {to or kind}"))


def advice(about: str) -> Advice:
    """Strategy."""
    return Advice(about=about, text="after your usual one", said=said(f"your usual {about}"))


def day(weekday: str | None, year: int | None, month: int | None, number: int | None) -> Date:
    """A date as far as it is said."""
    return Date(year=year, month=month, day=number, weekday=weekday, said=said(f"it's {weekday}"))


def plan(*parts: Any) -> Plan:
    """A plan of blocks, claims, targets, cues, options, advice and a date in any order."""
    fields = {
        "blocks": Block,
        "claims": Claim,
        "targets": Target,
        "cues": Cue,
        "options": Option,
        "advice": Advice,
    }
    sorted_out = {
        key: tuple(p for p in parts if isinstance(p, kind)) for key, kind in fields.items()
    }
    dates = [part for part in parts if isinstance(part, Date)]
    source = Source(name="land-training.vtt", kind="captions", sha256="0" * 64)
    return Plan(source=source, date=dates[0] if dates else None, **sorted_out)


def findings(code: str, made: Plan) -> list[Finding]:
    """What one rule says of a plan."""
    rule = next(rule for rule in RULES if rule.code == code)
    return list(rule.find(made))


def about(code: str, *parts: Any) -> list[str]:
    """What one rule's findings on a plan of these parts are about."""
    return [finding.about for finding in findings(code, plan(*parts))]

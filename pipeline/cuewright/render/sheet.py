"""A plan as one plain sheet in reading order: what every page shows, before its form.

All texts are clean single lines. A page adds its own escaping and layout, nothing else.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from textwrap import shorten

from cuewright.cautions import usual
from cuewright.render import board, timetable, words
from cuewright.render.board import Line
from cuewright.render.mends import Mend, mends
from cuewright.render.timetable import Times
from cuewright_models.base import Evidence, Said
from cuewright_models.finding import Finding, Severity
from cuewright_models.plan import Block, Doubt, Option, Plan, Target

_LONGEST_LABEL = 60
NO_SESSION = "No session was found in this talk."
CHECK = "check by ear"
"""On everything that rests on a word which the recogniser was not sure of."""


@dataclass(frozen=True, slots=True)
class BlockSheet:
    """One block: its name, its work, and how long the coach says it takes."""

    id: str
    heading: str
    said: Evidence
    lines: tuple[Line, ...]
    stated: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Part:
    """A list with its heading, and the sentence that stands there when it is empty."""

    heading: str
    lines: tuple[Line, ...]
    empty: str


@dataclass(frozen=True, slots=True)
class Problem:
    """A finding in words."""

    severity: Severity
    rule: str
    about: str
    message: str
    arithmetic: str
    """``expected …, found …``: what there is of the two."""
    said: Evidence
    suggestion: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """Everything a page shows, in the order in which it shows it."""

    title: str
    date: Line
    source: str
    language: str | None
    blocks: tuple[BlockSheet, ...]
    guidance: tuple[Part, ...]
    times: Times
    problems: tuple[Problem, ...]
    instead: tuple[Part, ...]
    """None when there is nothing to say instead."""
    unread: Part
    repairs: Part
    cautions: tuple[str, ...]


def sheet(plan: Plan) -> Sheet:
    """The plan in words. A plan without blocks gives a sheet without blocks."""
    dates = [doubt for doubt in plan.doubts if doubt.where == "date"]
    return Sheet(
        title=words.clean(plan.title or "") or "untitled session",
        date=_checked(Line(words.date(plan.date), plan.date.said if plan.date else ()), dates),
        source=words.source(plan.source),
        language=plan.source.language,
        blocks=tuple(_block(at, block, plan) for at, block in enumerate(plan.blocks, 1)),
        guidance=(*_doubts(plan), *guidance(plan)),
        times=timetable.times(plan),
        problems=tuple(_problem(finding, plan) for finding in plan.findings),
        instead=_instead(plan),
        unread=_unread(plan),
        repairs=_repairs(plan),
        cautions=tuple(words.clean(text) for text in plan.cautions) or usual(),
    )


def quotes(view: Sheet) -> tuple[Said, ...]:
    """Every quote that the sheet points at, once, in order of time; untimed ones last."""
    found = dict.fromkeys(_quotes(view))
    return tuple(sorted(found, key=_when))


def _when(said: Said) -> tuple[bool, float, float]:
    return said.start_s is None, said.start_s or 0.0, said.end_s or 0.0


def _quotes(view: Sheet) -> Iterator[Said]:
    yield from view.date.said
    for block in view.blocks:
        yield from block.said
        yield from _below((*block.lines, *block.stated))
    for part in (*view.guidance, *view.instead, view.unread, view.repairs):
        yield from _below(part.lines)
    for row in view.times.rows:
        yield from _below((row.stated, row.targets))
    for problem in view.problems:
        yield from problem.said


def _below(lines: Iterable[Line]) -> Iterator[Said]:
    for line in lines:
        yield from line.said
        yield from _below(line.under)


def _block(at: int, block: Block, plan: Plan) -> BlockSheet:
    """The block; a doubt that none of its lines can show stands in its heading."""
    own = [doubt for doubt in plan.doubts if doubt.block == block.id]
    stated = (Line(words.amount(time.low, time.high, "s"), time.said) for time in block.stated_time)
    lines, told = board.lines(block), tuple(line for line in stated if line.text)
    shown = tuple(_below((*lines, *told)))
    return BlockSheet(
        id=block.id,
        heading=_flagged(
            board.heading(at, block), not all(_rests_on(shown, doubt) for doubt in own)
        ),
        said=block.said,
        lines=tuple(_checked(line, own) for line in lines),
        stated=tuple(_checked(line, own) for line in told),
    )


def _checked(line: Line, doubts: Iterable[Doubt]) -> Line:
    """The line, and those under it, with a flag where it rests on a doubtful word."""
    doubts = tuple(doubts)
    return replace(
        line,
        text=_flagged(line.text, any(_rests_on(line.said, doubt) for doubt in doubts)),
        under=tuple(_checked(inner, doubts) for inner in line.under),
    )


def _flagged(text: str, check: bool) -> str:
    """``3 rounds of (check by ear):``; the text as it is where nothing is to be checked."""
    if not check:
        return text
    return f"{text[:-1]} ({CHECK}):" if text.endswith(":") else f"{text} ({CHECK})"


def _rests_on(evidence: Evidence, doubt: Doubt) -> bool:
    """Whether the doubtful words stand in a quote."""
    return any(
        whole.start_s is not None
        and whole.end_s is not None
        and whole.start_s <= (part.start_s or 0) <= (part.end_s or 0) <= whole.end_s
        for whole in evidence
        for part in doubt.said
    )


def _doubts(plan: Plan) -> Iterator[Part]:
    """What is to be checked by ear, if anything is."""
    if plan.doubts:
        lines = tuple(_doubt(doubt, plan) for doubt in plan.doubts)
        yield Part(CHECK.capitalize(), lines, "")


def _doubt(doubt: Doubt, plan: Plan) -> Line:
    """``push-ups in block 2: amount, heard as “15”``."""
    about = _about(doubt.about, plan)
    for at, block in enumerate(plan.blocks, 1):
        if block.id == doubt.block != doubt.about:
            about += f" in block {at}"
    where = "" if doubt.where == "date" else f"{doubt.where.replace('-', ' ')}, "
    quotes = " … ".join(map(words.quote, doubt.said))
    return Line(f"{where}heard as “{quotes}”", doubt.said, label=about)


def _about(name: str, plan: Plan) -> str:
    """What a target or a finding speaks of, in words."""
    for at, block in enumerate(plan.blocks, 1):
        if block.id == name:
            return f"block {at}, {words.clean(block.name) if block.name else block.kind}"
    special = {"total": "whole session", "round": "each round"}
    return special.get(name) or words.movement(name)


def guidance(plan: Plan) -> tuple[Part, ...]:
    """Targets, options, cues and advice, each labelled with what it is about."""

    def labelled(text: str, about: str, said: Evidence) -> Line:
        line = Line(words.clean(text), said, label=_about(about, plan))
        return _checked(line, (doubt for doubt in plan.doubts if doubt.about == about))

    return (
        Part(
            "Targets",
            tuple(labelled(_target(goal), goal.about, goal.said) for goal in plan.targets),
            "No targets were said.",
        ),
        Part(
            "Options",
            tuple(labelled(_option(way), way.about, way.said) for way in plan.options),
            "No options were said.",
        ),
        Part(
            "Cues",
            tuple(labelled(cue.text, cue.about, cue.said) for cue in plan.cues),
            "No cues were said.",
        ),
        Part(
            "Advice",
            tuple(labelled(hint.text, hint.about, hint.said) for hint in plan.advice),
            "No advice on pacing was said.",
        ),
    )


def _target(goal: Target) -> str:
    if goal.unit in ("sets", "rounds"):
        return f"in {words.count(goal, goal.unit[:-1])}"
    return words.amount(goal.low, goal.high, goal.unit) or "amount not said"


def option(way: Option, plan: Plan, *, quoted: bool = True) -> Line:
    """``push-up: push-up on the knees (easier)``; without the coach's words unless ``quoted``."""
    text = _option(way if quoted else way.model_copy(update={"said": ()}))
    return Line(words.clean(text), way.said, label=_about(way.about, plan))


def _option(way: Option) -> str:
    """``lighter, 12 kg``; ``glute bridge instead``; the coach's words where nothing is named."""
    much = words.amount(way.low, way.high, way.unit)
    if way.unit == "reps" and much:
        much += " rep" if much == "1" else " reps"
    other = words.movement(way.to) if way.to else ""
    if way.kind == "substitute":
        how = f"{other or 'something else'} instead"
    else:
        how = f"{other} ({way.kind})" if other else way.kind
    named = [how, much] if much else [how]
    if not (way.to or much) and way.said:
        named.append(f"“{words.clean(way.said[0].quote)}”")
    return ", ".join(named)


def _problem(finding: Finding, plan: Plan) -> Problem:
    return Problem(
        severity=finding.severity,
        rule=words.clean(finding.rule),
        about=_about(finding.about, plan),
        message=words.clean(finding.message),
        arithmetic=_arithmetic(finding),
        said=finding.said,
        suggestion=words.clean(finding.suggestion or ""),
    )


def _arithmetic(finding: Finding) -> str:
    sides = (("expected", finding.expected), ("found", finding.found))
    return ", ".join(f"{word} {words.clean(text)}" for word, text in sides if text)


def _instead(plan: Plan) -> tuple[Part, ...]:
    lines = tuple(map(_mend, mends(plan.findings)))
    return (Part("To say instead", lines, ""),) if lines else ()


def _mend(place: Mend) -> Line:
    """What was said, and what to say there or to do."""
    say = (f"say “{words.clean(text)}”" for text in place.say)
    text = "; ".join((*say, *map(words.clean, place.do)))
    if place.said is None:
        return Line(text)
    quote = shorten(words.clean(place.said.quote), _LONGEST_LABEL, placeholder=" …")
    return Line(text, (place.said,), label=f"“{quote}”")


def _unread(plan: Plan) -> Part:
    heard = []
    for entry in plan.unknown:
        near = ", ".join(words.movement(name) for name in entry.nearest)
        text = f"nearest known: {near}" if near else "nothing like it is known"
        heard.append(Line(text, entry.said, label=f"“{words.clean(entry.heard)}”"))
    warnings = (Line(words.clean(text)) for text in plan.warnings)
    return Part("Not understood", (*heard, *warnings), "Nothing was left over.")


def _repairs(plan: Plan) -> Part:
    read = (
        Line(
            f"read as “{words.clean(entry.meant)}”",
            entry.said,
            label=f"“{words.clean(entry.heard)}”",
        )
        for entry in plan.repairs
    )
    return Part("Misheard words", tuple(read), "No word was read as another.")

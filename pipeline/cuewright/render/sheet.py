"""A plan as one plain sheet in reading order: what every page shows, before its form.

All texts are clean single lines. A page adds its own escaping and layout, nothing else.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from cuewright.render import board, words
from cuewright.render.board import Line
from cuewright.render.cautions import usual
from cuewright_models.base import Evidence, Said
from cuewright_models.estimate import BlockSeconds, Estimate, Seconds
from cuewright_models.finding import Finding, Severity
from cuewright_models.plan import Block, Option, Plan, StatedTime, Target
from cuewright_models.profile import PROFILES

NO_SESSION = "No session was found in this talk."


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
class Cell:
    """One profile's times as ``m:ss``, and what the structure adds in words."""

    low: str
    likely: str
    high: str
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """Times of a block or of the whole: newcomer, regular, advanced, and what was said."""

    name: str
    cells: tuple[Cell, ...]
    stated: Line
    targets: Line
    total: bool = False


@dataclass(frozen=True, slots=True)
class Times:
    """The table of times; without rows, ``notes`` says why."""

    rows: tuple[Row, ...]
    notes: tuple[str, ...]


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
    unread: Part
    repairs: Part
    cautions: tuple[str, ...]


def sheet(plan: Plan) -> Sheet:
    """The plan in words. A plan without blocks gives a sheet without blocks."""
    return Sheet(
        title=words.clean(plan.title or "") or "untitled session",
        date=Line(words.date(plan.date), plan.date.said if plan.date else ()),
        source=_source(plan),
        language=plan.source.language,
        blocks=tuple(_block(at, block) for at, block in enumerate(plan.blocks, 1)),
        guidance=_guidance(plan),
        times=_times(plan),
        problems=tuple(_problem(finding, plan) for finding in plan.findings),
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
    for part in (*view.guidance, view.unread, view.repairs):
        yield from _below(part.lines)
    for row in view.times.rows:
        yield from _below((row.stated, row.targets))
    for problem in view.problems:
        yield from problem.said


def _below(lines: Iterable[Line]) -> Iterator[Said]:
    for line in lines:
        yield from line.said
        yield from _below(line.under)


def _source(plan: Plan) -> str:
    length = plan.source.duration_s
    long = "length not known" if length is None else f"{words.clock(length)} long"
    return f"{words.clean(plan.source.name)} ({plan.source.kind}), {long}"


def _block(at: int, block: Block) -> BlockSheet:
    stated = (Line(words.amount(time.low, time.high, "s"), time.said) for time in block.stated_time)
    return BlockSheet(
        id=block.id,
        heading=_heading(at, block),
        said=block.said,
        lines=board.lines(block),
        stated=tuple(line for line in stated if line.text),
    )


def _heading(at: int, block: Block) -> str:
    name = f": {words.clean(block.name)}" if block.name else ""
    return f"{at}. {block.kind.capitalize()}{name}"


def _about(name: str, plan: Plan) -> str:
    """What a target or a finding speaks of, in words."""
    for at, block in enumerate(plan.blocks, 1):
        if block.id == name:
            return f"block {at}, {words.clean(block.name) if block.name else block.kind}"
    special = {"total": "whole session", "round": "each round", "date": "date", "none": "no kit"}
    return special.get(name) or words.movement(name)


def _guidance(plan: Plan) -> tuple[Part, ...]:
    def labelled(text: str, about: str, said: Evidence) -> Line:
        return Line(words.clean(text), said, label=_about(about, plan))

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


def _option(way: Option) -> str:
    """``lighter, 12 kg``; ``glute bridge instead``; the coach's words where nothing is named."""
    much = words.amount(way.low, way.high, way.unit)
    if way.unit == "reps" and much:
        much += " rep" if much == "1" else " reps"
    other = words.movement(way.to) if way.to else ""
    kind = "instead" if way.kind == "substitute" else way.kind
    how = f"{other} {kind if kind == 'instead' else f'({kind})'}" if other else kind
    named = [how, much] if much else [how]
    if not (way.to or much) and way.said:
        named.append(f"“{words.clean(way.said[0].quote)}”")
    return ", ".join(named)


def _times(plan: Plan) -> Times:
    guess = plan.estimate
    if guess is None:
        return Times((), ("No times were worked out.",))
    headings = {block.id: _heading(at, block) for at, block in enumerate(plan.blocks, 1)}
    by_id = {block.id: block for block in plan.blocks}
    rows = [
        Row(
            headings.get(block.id, block.id),
            tuple(_cell(getattr(block, profile)) for profile in PROFILES),
            *_said_of(by_id.get(block.id), plan),
        )
        for block in guess.blocks
    ]
    return Times((*rows, _total(guess, plan)), _notes(guess))


def _said_of(block: Block | None, plan: Plan) -> tuple[Line, Line]:
    """A block's stated time, and the coach's own target for it."""
    if block is None:
        return _spans([]), _spans([])
    goals = [goal for goal in plan.targets if goal.about == block.id and goal.unit == "s"]
    return _spans(block.stated_time), _spans(goals)


def _spans(given: Sequence[StatedTime | Target]) -> Line:
    """Ranges of seconds on one line, with where they were said."""
    texts = (words.between(one.low, one.high, words.clock) for one in given)
    said = tuple(place for one in given for place in one.said)
    return Line(", ".join(dict.fromkeys(filter(None, texts))) or "not said", said)


def _total(guess: Estimate, plan: Plan) -> Row:
    cells = tuple(_cell(getattr(guess.total, profile)) for profile in PROFILES)
    return Row("Whole session", cells, _stated(guess, plan), _summed(guess), total=True)


def _stated(guess: Estimate, plan: Plan) -> Line:
    if guess.stated is None:
        return Line("not said")
    claims = (
        claim for claim in plan.claims if (claim.kind, claim.about) == ("total-time", "total")
    )
    span = words.between(guess.stated.low_s, guess.stated.high_s, words.clock)
    return Line(span, tuple(said for claim in claims for said in claim.said))


def _summed(guess: Estimate) -> Line:
    """The sum of the station targets; some may have none, and then it is a lower bound."""
    summed = guess.from_targets
    if summed is None:
        return Line("not said")
    span = words.between(summed.low_s, summed.high_s, words.clock)
    return Line(span if summed.complete else f"{span}, some stations without")


def _cell(seconds: Seconds) -> Cell:
    low, likely, high = map(words.clock, (seconds.low_s, seconds.likely_s, seconds.high_s))
    return Cell(low, likely, high, tuple(_extras(seconds)))


def _extras(seconds: Seconds) -> Iterator[str]:
    if not isinstance(seconds, BlockSeconds):
        return
    if seconds.rounds:
        span = words.between(seconds.rounds.low, seconds.rounds.high)
        yield f"{words.number(seconds.rounds.likely)} rounds ({span})"
    if seconds.spare_s is not None:
        yield f"{seconds.spare_s:.0f} s spare"
    if seconds.behind is not None:
        yield f"{100 * seconds.behind:.0f} % fall behind"
    if seconds.finish is not None:
        yield f"{100 * seconds.finish:.0f} % inside the cap"


def _notes(guess: Estimate) -> tuple[str, ...]:
    unknown = ", ".join(words.movement(name) for name in guess.unknown_pace)
    results = guess.basis.results
    basis = f"{results} recorded result{'' if results == 1 else 's'}"
    if not results:
        basis = "common practice, not on recorded results"
    return (
        "Low, likely and high: of ten athletes of that kind, one is faster than low and one "
        "slower than high.",
        f"The paces stand on {basis}.",
        *((f"No pace known for {unknown}; left out of the times.",) if unknown else ()),
    )


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

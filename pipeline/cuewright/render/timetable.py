"""How long the session takes, as a table in words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cuewright.render import words
from cuewright.render.board import Line, heading
from cuewright_models.estimate import (
    BlockEstimate,
    BlockSeconds,
    Estimate,
    Profiles,
    Seconds,
)
from cuewright_models.plan import Block, Effort, Plan, StatedTime, Target
from cuewright_models.profile import PROFILES, Profile


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
    spans: tuple["Span", ...] = ()
    total: bool = False


@dataclass(frozen=True, slots=True)
class Span:
    """A range of seconds to draw; ``likely`` where there is a middle."""

    name: str
    low: float
    high: float
    likely: float | None = None


@dataclass(frozen=True, slots=True)
class Times:
    """The table of times; without rows, ``notes`` says why."""

    rows: tuple[Row, ...]
    notes: tuple[str, ...]


def times(plan: Plan) -> Times:
    """The model's answer per block and in all, beside what the coach said."""
    guess = plan.estimate
    if guess is None:
        return Times((), ("No times were worked out.",))
    headings = {block.id: heading(at, block) for at, block in enumerate(plan.blocks, 1)}
    by_id = {block.id: block for block in plan.blocks}
    rows = [
        Row(
            headings.get(block.id, block.id),
            tuple(_block_cell(by_id.get(block.id), block, profile) for profile in PROFILES),
            *_said_of(by_id.get(block.id), plan),
            spans=(*_models(block), *_said_spans(by_id.get(block.id), plan)),
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
    spans = list(_models(guess.total))
    for name, said in (("stated", guess.stated), ("station targets", guess.from_targets)):
        if said:
            spans.append(Span(name, said.low_s, said.high_s))
    said_lines = _stated(guess, plan), _summed(guess)
    return Row("Whole session", cells, *said_lines, spans=tuple(spans), total=True)


def _models(times: Profiles | BlockEstimate) -> Iterator[Span]:
    for profile in PROFILES:
        seconds = getattr(times, profile)
        yield Span(profile, seconds.low_s, seconds.high_s, seconds.likely_s)


def _said_spans(block: Block | None, plan: Plan) -> Iterator[Span]:
    """What the coach said of the block's time, and wants of it; an open end starts at 0."""
    if block is None:
        return
    goals = [goal for goal in plan.targets if goal.about == block.id and goal.unit == "s"]
    for name, given in (("stated", block.stated_time), ("station targets", goals)):
        for one in given:
            if one.high is not None:
                yield Span(name, one.low or 0.0, one.high)


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


def _cell(seconds: Seconds, notes: tuple[str, ...] = ()) -> Cell:
    low, likely, high = map(words.clock, (seconds.low_s, seconds.likely_s, seconds.high_s))
    return Cell(low, likely, high, (*notes, *_extras(seconds)))


def _block_cell(block: Block | None, answer: BlockEstimate, profile: Profile) -> Cell:
    seconds: BlockSeconds = getattr(answer, profile)
    if seconds.rounds is None:
        return _cell(seconds)
    whole, started = divmod(seconds.rounds.likely, 1)
    done = f"{whole:.0f} rounds + {_reps(block, answer, profile, started)} reps"
    span = words.between(seconds.rounds.low, seconds.rounds.high)
    return _cell(seconds, (f"{done} ({span} rounds)",))


def _reps(block: Block | None, answer: BlockEstimate, profile: Profile, started: float) -> int:
    """Reps done in a part of a round's time, station by station."""
    if block is None:
        return 0
    took = [getattr(item, profile).likely_s for item in answer.items]
    left, reps = started * sum(took), 0.0
    for item, seconds in zip(block.items, took, strict=False):
        if isinstance(item, Effort) and item.unit == "reps" and seconds:
            ends = [end for end in (item.low, item.high) if end is not None]
            sides = 2 if item.per_side else 1
            each = sides * sum(ends) / max(len(ends), 1)
            reps += each * min(max(left / seconds, 0), 1)
        left -= seconds
    return int(reps)


def _extras(seconds: Seconds) -> Iterator[str]:
    if not isinstance(seconds, BlockSeconds):
        return
    if seconds.spare_s is not None:
        yield f"{seconds.spare_s:.0f} s spare"
    if seconds.behind is not None:
        yield f"{100 * seconds.behind:.0f} % fall behind"
    if seconds.finish is not None:
        yield f"{100 * seconds.finish:.0f} % inside the cap"


def _notes(guess: Estimate) -> tuple[str, ...]:
    unknown = ", ".join(map(words.movement, guess.unknown_pace))
    guessed = f"No pace known for {unknown}; a wide guess stands in, and widens the times."
    results = guess.basis.results
    basis = f"{results} recorded result{'' if results == 1 else 's'}"
    if not results:
        basis = "common practice, not on recorded results"
    return (
        "Low, likely and high: of ten athletes of that kind, one is faster than low and one "
        "slower than high.",
        f"The paces stand on {basis}.",
        *((guessed,) if unknown else ()),
    )

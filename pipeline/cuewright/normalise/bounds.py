"""One-sided amounts: "under two minutes", "at least ten", "an hour or more"."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

from cuewright.normalise.context import Phrase, phrases, words
from cuewright.normalise.line import Line
from cuewright.normalise.numbers import figure
from cuewright_models.tokens import Amount

_HEDGES = words("hedges")
_MEASURED_AFTER = words("measured_after", "bound")
_COUNTED = words("counted", "bound")
_ADDING = ("plus", "+")
_OR_EQUAL = phrases("or_equal", "bound")
_JOINTS = {(), ("and",), ("but",)}

Side = str
"""``below``: the number is the most; ``above``: the least."""


def _compared(word: str) -> Iterator[Phrase]:
    """The ways to say "less than" and "less than or equal to"."""
    yield (word, "than")
    for last in ("than", "to"):
        yield (word, "or", "equal", last)
    yield (word, "than", "or", "equal", "to")
    yield ("equal", "to", "or", word, "than")


def _before() -> dict[str, list[tuple[Phrase, Side, str]]]:
    """Phrases by their last word, longest first, each with its side and when it is believed."""
    rows: list[tuple[Phrase, Side, str]] = []
    for key, side, needs in (
        ("below", "below", ""),
        ("above", "above", ""),
        ("below_time", "below", "time"),
        ("above_time", "above", "time"),
        ("above_measured", "above", "measured"),
    ):
        rows += [(phrase, side, needs) for phrase in phrases(key, "bound")]
    for key, side in (("less", "below"), ("more", "above")):
        rows += [(p, side, "") for word in words(key, "bound") for p in _compared(word)]
    rows += [((*p, *e), s, n) for (p, s, n), e in product(rows, _OR_EQUAL) if p[:1] == ("at",)]
    table: dict[str, list[tuple[Phrase, Side, str]]] = {}
    for row in sorted(rows, key=lambda row: (-len(row[0]), row)):
        table.setdefault(row[0][-1], []).append(row)
    return table


def _after() -> dict[str, list[tuple[Phrase, Side, bool]]]:
    """Phrases by their first word, each with its side and whether it must close the clause."""
    table: dict[str, list[tuple[Phrase, Side, bool]]] = {}
    for key, side, last in (
        ("or_less", "below", False),
        ("or_more", "above", False),
        ("last_less", "below", True),
        ("last_more", "above", True),
    ):
        for phrase in phrases(key, "bound"):
            table.setdefault(phrase[0], []).append((phrase, side, last))
    return table


_BEFORE, _AFTER = _before(), _after()


def bounded(line: Line, found: Sequence[Amount]) -> Iterator[Amount]:
    """The amounts with one end opened where the talk opens it, two such ends joined."""
    held: Amount | None = None
    for amount in found:
        floor = held.end if held else 0
        opened = _opened(line, amount, floor)
        if held and (closed := _closed(line, held, opened)):
            held = closed
            continue
        if held:
            yield held
        held = opened
    if held:
        yield held


def _opened(line: Line, found: Amount, floor: int) -> Amount:
    if found.shape not in ("one", "range") or found.low is None or found.high is None:
        return found
    start, side = _said_before(line, found, floor)
    end = found.end
    if side is None:
        end, side = _said_after(line, end)
    if side is None and found.unit is None and line.norms[end] in _COUNTED:
        # "ten reps at most", not "ten reps plus a run"; the span keeps to the number
        side = _said_after(line, end + 1)[1] if line.norms[end + 1] not in _ADDING else None
    if side is None:
        return found
    for extra in _OR_EQUAL[::-1]:
        if line.has(end, extra):
            end += len(extra)
            break
    low, high = (None, found.high) if side == "below" else (found.low, None)
    return Amount(start, end, low, high, found.unit, "range")


def _said_before(line: Line, found: Amount, floor: int) -> tuple[int, Side | None]:
    at = found.start
    while at > floor and line.norms[at - 1] in _HEDGES:
        at -= 1
    for phrase, side, needs in _BEFORE.get(line.before(at), ()):
        start = at - len(phrase)
        if start < floor or not line.has(start, phrase):
            continue
        if any(line.punctuated[start + 1 : at + 1]) or not _believed(line, found, start, needs):
            continue
        return start, side
    return found.start, None


def _believed(line: Line, found: Amount, start: int, needs: str) -> bool:
    if needs == "time":
        return found.unit == "s"
    if needs == "measured":
        return found.unit in ("s", "kg", "lb", "%") or line.before(start) in _MEASURED_AFTER
    return True


def _said_after(line: Line, end: int) -> tuple[int, Side | None]:
    if line.punctuated[end]:
        return end, None
    for phrase, side, last in _AFTER.get(line.norms[end], ()):
        stop = end + len(phrase)
        if not line.has(end, phrase) or figure(line, stop) is not None:
            continue
        if line.norms[stop] == "than":
            if figure(line, stop + 1) is not None:
                continue
            stop += 1
        if not last or line.closed(stop):
            return stop, side
    return end, None


def _closed(line: Line, left: Amount, right: Amount) -> Amount | None:
    """ "at least 20 and at most 30" is one range."""
    ends = (left.low, left.high, right.low, right.high)
    if sum(end is None for end in ends) != 2 or left.unit != right.unit:
        return None
    if (left.low is None) == (right.low is None) or line.stop[right.start]:
        return None
    if tuple(line.norms[left.end : right.start]) not in _JOINTS:
        return None
    low = left.low if left.low is not None else right.low
    high = left.high if left.high is not None else right.high
    if low is None or high is None or low > high:
        return None
    return replace(left, end=right.end, low=low, high=high)

"""Quantities that belong together: ranges, lists, pairs, "by" forms, and their bounds."""

from collections.abc import Sequence
from typing import NamedTuple

from cuewright.normalise.line import Line
from cuewright.normalise.quantities import Quantity, UNITS, Unit
from cuewright_models.tokens import Amount, Shape

_HEDGES = frozenset("about around maybe roughly say approximately like perhaps".split())
_RANGE = {("to",), ("-",), ("through",), ("up", "to"), ("down", "to"), ("or",)}
_LIST_GAPS = {(), ("and",), ("then",), ("and", "then"), ("-",), ("/",)}
_BY = {("by",), ("x",), ("times",)}
_PAIR_UNITS = frozenset(("kg", "lb", "kcal"))

_BELOW = """under; sub; below; max of; maximum of; no more than; not more than; at most; less than;
 fewer than; up to; no higher than; no longer than; lower than; smaller than; shorter than; max;
 maximum; lighter than; faster than; quicker than"""
_ABOVE = """at least; over; more than; no less than; no fewer than; not less than; above;
 greater than; bigger than; higher than; longer than; upwards of; exceed; minimum of; minimum;
 larger than; heavier than"""
_OR_BELOW = "or less; or fewer; and less; or under; or below; or lower; at most; or faster; or quicker; tops"
_OR_ABOVE = "or more; and more; or greater; or over; or above; and up; or higher; or longer; at least; plus; +"


def _phrases(text: str) -> list[tuple[str, ...]]:
    return [tuple(phrase.split()) for phrase in text.split(";")]


def _by_last(*sides: tuple[str, str]) -> dict[str, list[tuple[tuple[str, ...], str]]]:
    table: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for text, side in sides:
        for phrase in _phrases(text):
            table.setdefault(phrase[-1], []).append((phrase, side))
    for entries in table.values():
        entries.sort(key=lambda entry: -len(entry[0]))
    return table


_BEFORE = _by_last((_BELOW, "below"), (_ABOVE, "above"))
_AFTER = [(phrase, "below") for phrase in _phrases(_OR_BELOW)] + [
    (phrase, "above") for phrase in _phrases(_OR_ABOVE)
]
_AFTER_FIRST = frozenset(phrase[0] for phrase, _ in _AFTER)


def joined(line: Line, parts: Sequence[Quantity]) -> list[Amount]:
    """The quantities as amounts, those that belong together as one."""
    out: list[Amount] = []
    at = 0
    while at < len(parts):
        found, used = _by(line, parts, at) or _list(line, parts, at) or _range(line, parts, at) or _pair(
            line, parts, at
        ) or (_plain(parts[at]), 1)
        found = _bounded(line, found, out[-1].end if out else 0)
        if found.shape != "one" or _counts(line, parts[at]):
            out.append(found)
        at += used
    return out


def _plain(part: Quantity) -> Amount:
    shape: Shape = "ordinal" if part.form == "ordinal" else "one"
    unit = part.unit.unit if part.unit else None
    size = _tidy(part.size)
    return Amount(part.start, part.end, size, size, unit, shape)


def _tidy(value: float) -> float:
    return round(value, 6)


def _gap(line: Line, left: Quantity, right: Quantity) -> tuple[str, ...]:
    words = line.norms[left.end : right.start]
    return tuple(word for word in words if word not in _HEDGES)


def _by(line: Line, parts: Sequence[Quantity], at: int) -> tuple[Amount, int] | None:
    """ "4 by 8", "6 x 500 m", "4 by 8 to 10"."""
    values = [parts[at].value]
    used = 1
    while at + used < len(parts) and _gap(line, parts[at + used - 1], parts[at + used]) in _BY:
        if parts[at + used - 1].unit is not None or line.punctuated[parts[at + used].start]:
            break
        values.append(parts[at + used].size)
        used += 1
    if used == 1:
        return None
    rest = _range(line, parts, at + used - 1)
    tail, more = rest or (_plain(parts[at + used - 1]), 1)
    if rest:
        values[-1:] = [value for value in (tail.low, tail.high) if value is not None]
    sizes = tuple(_tidy(value) for value in values)
    return Amount(parts[at].start, tail.end, tail.low, tail.high, tail.unit, "by", sizes), used + more - 1


def _list(line: Line, parts: Sequence[Quantity], at: int) -> tuple[Amount, int] | None:
    """Three or more bare numbers in a row; a unit after the last is for all."""
    used = 1
    while at + used < len(parts) and _continues(line, parts[at + used - 1], parts[at + used]):
        used += 1
    if used < 3:
        return None
    group = parts[at : at + used]
    return _together(group, "list", group[-1].unit), used


def _continues(line: Line, left: Quantity, right: Quantity) -> bool:
    if left.unit is not None or left.form in ("ordinal", "group") or right.form in ("ordinal", "clock"):
        return False
    return _gap(line, left, right) in _LIST_GAPS and not line.stop[right.start]


def _together(group: Sequence[Quantity], shape: Shape, unit: Unit | None) -> Amount:
    factor = unit.factor if unit else 1.0
    sizes = tuple(_tidy(part.value * (part.unit.factor if part.unit else factor)) for part in group)
    return Amount(
        group[0].start, group[-1].end, min(sizes), max(sizes), unit.unit if unit else None, shape, sizes
    )


def _range(line: Line, parts: Sequence[Quantity], at: int) -> tuple[Amount, int] | None:
    """ "eight to ten", "between 20 and 30", "30 seconds to a minute"."""
    if at + 1 >= len(parts):
        return None
    left, right = parts[at], parts[at + 1]
    if "ordinal" in (left.form, right.form):
        return None
    gap = _gap(line, left, right)
    before = line.norms[left.start - 1] if left.start else ""
    between = gap == ("and",) and before == "between"
    dashed = gap == () and line.dash[right.start]
    if not (between or dashed or gap in _RANGE) or line.stop[right.start]:
        return None
    unit = right.unit or left.unit
    if left.unit and right.unit and left.unit.unit != right.unit.unit:
        return None
    low, high = _ends(left, right, unit)
    if gap in (("or",), ("-",)) and not low < high:
        return None
    start = left.start - (between or (before == "from" and gap != ("or",)))
    values = () if low <= high else (low, high)
    amount = Amount(
        start, right.end, min(low, high), max(low, high), unit.unit if unit else None, "range", values
    )
    return amount, 2


def _ends(left: Quantity, right: Quantity, unit: Unit | None) -> tuple[float, float]:
    factor = unit.factor if unit else 1.0
    return (
        _tidy(left.value * (left.unit.factor if left.unit else factor)),
        _tidy(right.value * (right.unit.factor if right.unit else factor)),
    )


def _pair(line: Line, parts: Sequence[Quantity], at: int) -> tuple[Amount, int] | None:
    """ "95/65", "ninety five sixty five pounds"; the unit is for both."""
    if at + 1 >= len(parts):
        return None
    left, right = parts[at], parts[at + 1]
    forms = {left.form, right.form}
    if left.unit is not None or not forms <= {"word", "digits"} or line.split[right.start]:
        return None
    gap = _gap(line, left, right)
    unit = right.unit
    if gap == () and not line.split[right.start]:
        likely = left.value >= 10 and left.value / 3 <= right.value <= left.value
        if not likely or (unit and unit.unit not in _PAIR_UNITS and unit.name != "inch"):
            return None
    elif gap not in (("/",), ("-",)):
        return None
    return _together(parts[at : at + 2], "pair", unit), 2


def _bounded(line: Line, found: Amount, floor: int) -> Amount:
    """ "under two minutes", "at least 10", "ten or more" open one end."""
    if found.shape not in ("one", "range"):
        return found
    start, side = _bound_before(line, found, floor)
    end = found.end
    if side is None and line.norms[end] in _AFTER_FIRST and not line.punctuated[end]:
        end, side = _bound_after(line, end)
    if side is None:
        return found
    low, high = (None, found.high) if side == "below" else (found.low, None)
    return Amount(start, end, low, high, found.unit, "range")


def _bound_before(line: Line, found: Amount, floor: int) -> tuple[int, str | None]:
    at = found.start
    while at > floor and line.norms[at - 1] in _HEDGES:
        at -= 1
    if at <= floor:
        return found.start, None
    for phrase, side in _BEFORE.get(line.norms[at - 1], ()):
        start = at - len(phrase)
        if start < floor or tuple(line.norms[start:at]) != phrase:
            continue
        if any(line.stop[i] for i in range(start + 1, at + 1)):
            continue
        return start, side
    return found.start, None


def _bound_after(line: Line, end: int) -> tuple[int, str | None]:
    for phrase, side in _AFTER:
        stop = end + len(phrase)
        if tuple(line.norms[end:stop]) == phrase:
            if phrase == ("plus",) and (line.norms[stop][:1].isdigit() or line.norms[stop] in UNITS):
                continue
            return stop, side
    return end, None


_ONE_NOT_AFTER = frozenset(
    "this that the no each which every any some another last next other first second third".split()
)
_ONE_NOT_BEFORE = frozenset(
    "of another leg arm side hand foot knee shoulder thing day person people complete".split()
)
_ONE_LABELS = frozenset("number round part station minute week day set lap block interval least just only do".split())
_FUNCTION = frozenset(
    "is was are for on you that and in to the a i we it or at if then so but with as he she they"
    " there here now who which when while can will has because".split()
)
_HALF_NOT_BEFORE = frozenset("kneeling rack court past way moon squat squats turn lift of".split())
_HALF_NOT_AFTER = frozenset("first second other back top bottom front each either last".split())


def _counts(line: Line, part: Quantity) -> bool:
    """Whether a lone number is an amount: "one round", not "the red one"."""
    if part.unit is not None:
        return True
    before = line.norms[part.start - 1] if part.start else ""
    after = line.norms[part.end]
    if part.form == "fraction" and line.norms[part.start] in ("half", "quarter"):
        return after not in _HALF_NOT_BEFORE and before not in _HALF_NOT_AFTER
    if part.form == "word" and part.value == 100 and line.norms[part.start] == "hundred":
        return before not in ("several", "few")
    if line.norms[part.start] != "one" or part.end - part.start > 1:
        return True
    if before in _ONE_LABELS:
        return True
    if before in _ONE_NOT_AFTER or after in _ONE_NOT_BEFORE:
        return False
    if line.punctuated[part.end] or after in _FUNCTION:
        return part.start == 0 or line.punctuated[part.start]
    return not (part.start > 1 and line.norms[part.start - 2] in ("the", "a", "this", "that", "your"))

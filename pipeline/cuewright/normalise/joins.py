"""Quantities that belong together: "by" forms, lists, ranges and pairs.

by    = number ("by" | "x" | "times") (quantity | range)
list  = number number number … [unit], also with "then", commas, dashes, or after
        "ladder of" with a small word that was heard between them
range = quantity ("to" | "-" | "or") quantity | "between" quantity "and" quantity
pair  = number ("/" | nothing) number [unit]
split = number "calories" … "women" … number … "men"
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from cuewright.normalise.context import words
from cuewright.normalise.line import Line
from cuewright.normalise.numbers import SCALE, SMALL
from cuewright.normalise.quantities import UNITS, Quantity, Unit
from cuewright_models.tokens import Amount, AmountUnit, Shape

Gap = tuple[str, ...]

_RANGE: set[Gap] = {("to",), ("-",), ("through",), ("up", "to"), ("down", "to"), ("or",)}
_RISING_ONLY: set[Gap] = {("-",), ("or",), ()}
_LIST: set[Gap] = {(), ("and",), ("then",), ("and", "then"), ("-",), ("/",)}
_LAST: set[Gap] = {("and",), ("then",), ("and", "then")}
_STRAY: set[Gap] = {(), ("and",), ("then",), ("to",), ("on",)}
_LADDER = ("ladder", "of")
_TURNS = ("sets", "rounds")
_THEN: set[Gap] = {(), ("then",)}
_NOT_LISTED = {"ordinal", "group", "clock", "fraction"}
_BY: set[Gap] = {("by",), ("x",), ("times",)}
_PAIR_UNITS = (None, "kg", "lb", "kcal")
_WORK_REST = (("on", "off"), ("work", "rest"))
_LEAST_S = 10
_NO_JOINT = ("", "")
_HEDGES = words("hedges")
_GUESSING = words("guessing") | _HEDGES
_UNSURE = ("maybe", "perhaps", "possibly")
_WHOM = words("whom")
_WHOM_FAR = 12
_WHOM_NEAR = 7
_UNIT_NEAR = 5
_EVERY_NEAR = 6
_MOST_REPEATS = 30  # common practice, no source
_LENGTHS = frozenset(
    (50, 60, 80, 100, 150, 200, 250, 300, 400, 500, 600, 750, 800, 1000, 1200, 1500)
)
_MOST_APART = 3  # "five or fifteen" are two numbers, "ten or twelve" a range; common practice


def joined(line: Line, parts: Sequence[Quantity]) -> Iterator[Amount]:
    """The quantities as amounts, those that belong together as one."""
    parts = _work_and_rest(line, parts)
    at = 0
    while at < len(parts):
        for rule in (_by, _list, _announced, _range, _pair, _split):
            if (found := rule(line, parts, at)) is not None:
                break
        else:
            found = _plain(parts[at]), 1
        yield found[0]
        at += found[1]


def _plain(part: Quantity) -> Amount:
    shape: Shape = "ordinal" if part.form == "ordinal" else "one"
    size = _tidy(part.size)
    return Amount(part.start, part.end, size, size, _name(part.unit), shape)


def _name(unit: Unit | None) -> AmountUnit | None:
    return unit.unit if unit else None


def _tidy(value: float) -> float:
    return round(float(value), 6)


def _gap(line: Line, left: Quantity, right: Quantity) -> Gap:
    if left.end == right.start:
        return ()
    if right.start - left.end > 3:
        return _NO_JOINT
    return tuple(word for word in line.norms[left.end : right.start] if word not in _HEDGES)


def _work_and_rest(line: Line, parts: Sequence[Quantity]) -> Sequence[Quantity]:
    """ "forty seconds on twenty off": both are times; with no unit at all, seconds from ten up."""
    out = list(parts)
    for at, (work, rest) in enumerate(pairwise(parts)):
        if (line.norms[work.end], line.norms[rest.end]) not in _WORK_REST:
            continue
        if _gap(line, work, rest)[1:] not in ((), ("and",)):
            continue
        seconds = UNITS["second"] if min(work.value, rest.value) >= _LEAST_S else None
        unit = work.unit or rest.unit or seconds
        if unit is not None and unit.unit == "s":
            out[at] = out[at]._replace(unit=out[at].unit or unit)
            out[at + 1] = rest._replace(unit=rest.unit or unit)
    return out


def _by(line: Line, parts: Sequence[Quantity], at: int) -> tuple[Amount, int] | None:
    """ "4 by 8", "6 x 500 m", "4 by 8 to 10"."""
    if (several := _several(line, parts, at)) is not None:
        return several, 2
    last = at
    while last + 1 < len(parts) and _multiplies(line, parts[last], parts[last + 1]):
        last += 1
    if last == at:
        return None
    tail, used = _range(line, parts, last) or (_plain(parts[last]), 1)
    ends = [tail.low] if tail.low == tail.high else [tail.low, tail.high]
    counts = [part.value for part in parts[at:last]]
    values = tuple(_tidy(value) for value in (*counts, *ends) if value is not None)
    whole = Amount(parts[at].start, tail.end, tail.low, tail.high, tail.unit, "by", values)
    return whole, last - at + used


def _several(line: Line, parts: Sequence[Quantity], at: int) -> Amount | None:
    """ "Six 400s", "eight fifties": how often, and metres."""
    if at + 1 >= len(parts):
        return None
    count, far = parts[at : at + 2]
    plural = line.norms[far.end - 1] == "s" and far.end - far.start > 1
    if not plural or (count.unit, far.unit) != (None, None) or count.end != far.start:
        return None
    if count.value > _MOST_REPEATS or far.value not in _LENGTHS or count.form == "ordinal":
        return None
    values = (_tidy(count.value), _tidy(far.value))
    return Amount(count.start, far.end, values[1], values[1], "m", "by", values)


def _multiplies(line: Line, left: Quantity, right: Quantity) -> bool:
    if left.unit is not None or "ordinal" in (left.form, right.form):
        return False
    gap = _gap(line, left, right)
    if gap == ("times",) and "every" in line.norms[max(left.start - _EVERY_NEAR, 0) : left.start]:
        return False  # "every three minutes, five times, twenty squats"
    return gap in _BY and not line.punctuated[right.start]


def _list(line: Line, parts: Sequence[Quantity], at: int) -> tuple[Amount, int] | None:
    """Three or more bare numbers in a row; a unit after the last is for all."""
    end = at + 1
    gaps: list[Gap] = []
    while end < len(parts) and _continues(line, parts[at:end], parts[end], gaps):
        end += 1
    if end - at < 3:
        return None
    return _unrun(_together(parts[at:end], "list")), end - at


def _announced(line: Line, parts: Sequence[Quantity], at: int) -> tuple[Amount, int] | None:
    """ "A ladder of 21, on 15 and 9": rungs, though a small word was heard between them."""
    first = parts[at].start
    if tuple(line.norms[max(first - len(_LADDER), 0) : first]) != _LADDER:
        return None
    end = at + 1
    while end < len(parts) and _climbs(line, parts[at:end], parts[end]):
        end += 1
    return (_together(parts[at:end], "list"), end - at) if end - at >= 3 else None


def _climbs(line: Line, rungs: Sequence[Quantity], more: Quantity) -> bool:
    """Whether a number goes on, up or down, from the rungs before it."""
    last = rungs[-1]
    if last.unit is not None or {last.form, more.form} & _NOT_LISTED or last.value == more.value:
        return False
    gap = _gap(line, last, more)
    if gap not in _STRAY or (not gap and line.stop[more.start]):
        return False
    return len(rungs) == 1 or (rungs[0].value > last.value) == (last.value > more.value)


def _unrun(found: Amount) -> Amount:
    """ "2016 12 8 4" is how captions write "20 16 12 8 4"."""
    first, *rest = found.values
    over, under = divmod(first, 100)
    values = (over, under, *rest)
    if first < 1000 or first % 1 or list(values) != sorted(set(values), reverse=True):
        return found
    return replace(found, low=min(values), high=max(values), values=values)


def _continues(line: Line, group: Sequence[Quantity], more: Quantity, gaps: list[Gap]) -> bool:
    last = group[-1]
    if last.unit is not None or {last.form, more.form} & _NOT_LISTED or line.stop[more.start]:
        return False
    if last.value == more.value and len(group) > 2 and len({part.value for part in group}) > 2:
        return False  # "ten, eight, six, four, four sets"
    if len(group) > 2 and line.norms[more.end] in _TURNS:
        return False  # "ten, eight, six, three sets": how many rungs there are is none of them
    gaps.append(_gap(line, last, more))
    if gaps[-1] in _LAST and last.value == more.value:
        return False  # "four and four, eight and eight"
    same_way = _alike(gaps[0], gaps[-1]) or (gaps[0] == () and gaps[-1] in _LAST)
    return gaps[-1] in _LIST and same_way and (len(gaps) < 2 or _alike(gaps[0], gaps[-2]))


def _alike(gap: Gap, other: Gap) -> bool:
    """Whether a list may have both; one "then" of several may be swallowed."""
    return gap == other or {gap, other} <= _THEN


def _together(group: Sequence[Quantity], shape: Shape) -> Amount:
    unit = group[-1].unit
    values = tuple(_tidy(part.in_unit(unit)) for part in group)
    return Amount(
        group[0].start, group[-1].end, min(values), max(values), _name(unit), shape, values
    )


def _range(line: Line, parts: Sequence[Quantity], at: int) -> tuple[Amount, int] | None:
    """ "eight to ten", "between 20 and 30"; a falling one, "10 down to 1", keeps its order."""
    if at + 1 >= len(parts):
        return None
    left, right = parts[at], parts[at + 1]
    opening = _opens_range(line, left, right)
    unit = right.unit or left.unit
    if opening is None or (left.unit and right.unit and left.unit.unit != right.unit.unit):
        return None
    left = _in_hundreds(line, left, right)
    ends = _tidy(left.in_unit(unit)), _tidy(right.in_unit(unit))
    low, high = min(ends), max(ends)
    if _gap(line, left, right) in _RISING_ONLY and not ends[0] < ends[1]:
        return None
    falling = ends if ends[0] > ends[1] else ()
    return Amount(left.start - opening, right.end, low, high, _name(unit), "range", falling), 2


def _in_hundreds(line: Line, left: Quantity, right: Quantity) -> Quantity:
    """The "two" of "two to four hundred" as 200."""
    counted, scale = line.norms[right.start : right.start + 2]
    several = SMALL.get(counted, 0)
    if left.unit is None and scale in SCALE and left.value < several < 20:
        return left._replace(value=left.value * SCALE[scale])
    return left


def _opens_range(line: Line, left: Quantity, right: Quantity) -> int | None:
    """How many words before ``left`` belong to the range, or None if there is none."""
    if "ordinal" in (left.form, right.form) or line.stop[right.start]:
        return None
    gap, before = _gap(line, left, right), line.before(left.start)
    if gap == ("and",):
        return 1 if before == "between" else None
    if gap == ():
        return 0 if _touching_range(line, left, right) else None
    if gap not in _RANGE or (left.form == "fraction" and not left.unit and right.value > 1):
        return None
    if gap == ("or",):
        near = right.value <= _MOST_APART * left.value or left.unit is not None
        return 0 if near else None
    return int(before == "from")


def _touching_range(line: Line, left: Quantity, right: Quantity) -> bool:
    """ "1000 - 5000", "3km-5km", "takes ten fifteen minutes", "ten, maybe twelve"."""
    at = right.start
    if left.end + 1 == at and line.norms[left.end] in _UNSURE:
        return right.value <= _MOST_APART * left.value
    if line.dash[at] or (line.glued[at] and left.end == at):
        return left.unit is None or right.unit is not None
    guess = line.before(left.start) in _GUESSING and right.value <= _MOST_APART * left.value
    return guess and left.unit is None and right.unit is not None and right.unit.unit == "s"


def _pair(line: Line, parts: Sequence[Quantity], at: int) -> tuple[Amount, int] | None:
    """ "95/65", "ninety five sixty five pounds"; the unit is for both."""
    if at + 1 >= len(parts):
        return None
    left, right = parts[at], parts[at + 1]
    if left.unit is not None or line.split[right.start]:
        return None
    if not {left.form, right.form} <= {"word", "digits"}:
        return None
    gap = _gap(line, left, right)
    if gap in (("/",), ("-",)) or (gap == () and _likely_pair(left, right)):
        return _together(parts[at : at + 2], "pair"), 2
    return None


def _split(line: Line, parts: Sequence[Quantity], at: int) -> tuple[Amount, int] | None:
    """ "12 calories on the bike for the women and 15 for the men": one amount, where it starts."""
    left, after = parts[at], at + 1
    while after < len(parts) and line.norms[parts[after].end] == "of":  # "one of the women"
        after += 1
    if after >= len(parts) or not _in_calories(line, left):
        return None
    right = parts[after]
    if _name(right.unit) not in (None, "kcal") or right.start - left.end > _WHOM_FAR:
        return None
    first = _WHOM & set(line.norms[left.end : right.start])
    second = _WHOM & set(line.norms[right.end : right.end + _WHOM_NEAR])
    if not first or not second or first == second:
        return None
    low, high = sorted((_tidy(left.value), _tidy(right.value)))
    return Amount(left.start, left.end, low, high, "kcal", "range"), after - at + 1


def _in_calories(line: Line, part: Quantity) -> bool:
    """ "12 calories", or "calories on the bike, 12"."""
    if part.unit is not None:
        return part.unit is UNITS["calorie"]
    before = line.norms[max(0, part.start - _UNIT_NEAR) : part.start]
    return bool(set(UNITS["calorie"].said) & set(before))


def _likely_pair(left: Quantity, right: Quantity) -> bool:
    """The heavier first, and not far apart: "ninety five sixty five", not "twenty ten metre"."""
    if _name(right.unit) not in _PAIR_UNITS and right.unit is not UNITS["inch"]:
        return False
    # the same number twice is a speaker starting again
    alike = left.form == right.form  # "with a 16 twelve push ups"
    return alike and left.value >= 10 and left.value / _MOST_APART <= right.value < left.value

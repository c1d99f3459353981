"""Numbers with their units: "two minutes", "a minute thirty", "half a mile", "5 ft 2 in"."""

from collections.abc import Iterator
from typing import NamedTuple

from pydantic import BaseModel, ConfigDict

from cuewright.normalise.line import Line
from cuewright.normalise.numbers import HEADS, Figure, Form, figure, run
from cuewright.tables import raw, validated
from cuewright_models.tokens import AmountUnit


class Unit(BaseModel):
    """One row of units.toml."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    name: str
    unit: AmountUnit
    factor: float
    said: list[str]
    letters: list[str] = []


class Quantity(NamedTuple):
    """A number over the tokens ``start:end``, with the unit said beside it."""

    start: int
    end: int
    value: float
    unit: Unit | None
    form: Form

    @property
    def size(self) -> float:
        """The value in the plan's unit."""
        return self.value * self.unit.factor if self.unit else self.value


UNITS = validated(raw("cuewright.normalise", "units.toml"), Unit, where="units.toml")
_SAID = {word: unit for unit in UNITS.values() for word in unit.said}
_LETTERS = {word: unit for unit in UNITS.values() for word in unit.letters}
_SMALLER = {"hour": "minute", "minute": "second"}
_SECOND = UNITS["second"]
_ONE_OF = frozenset(("a", "an", "another"))
_ARTICLES = frozenset(("a", "an", "the"))
# Words that may stand between a number and its unit.
_FILL = frozenset(
    "more additional extra less fewer full whole easy hard good steady solid long short".split()
)
# After these "thirty" in "a minute thirty" is still seconds; before a noun it counts the noun.
_CLOCK_TAIL = frozenset(
    "rest each total for of on off at in per and then between after before to or hold is pace"
    " split so now now. here max maximum tops right okay ok but with if until when we you i".split()
)
_RATE_BEFORE = frozenset(
    "times time once twice strokes beats reps steps calories cals jumps swings".split()
)
_NOT_RATE = frozenset("rest each on off of and break hold plank then per long".split())
# Before "second" these leave no number: "wait a second", "every second".
_IDLE_BEFORE_SECOND = frozenset("wait just hang me got take half".split())


def quantities(line: Line) -> list[Quantity]:
    """Every number or quantity in order, each read on its own, compounds summed."""
    return list(_summed(line, list(_measured(line))))


def _measured(line: Line) -> Iterator[Quantity]:
    norms, at = line.norms, 0
    while at < line.size:
        word = norms[at]
        if word not in HEADS and word not in _SAID and word != "another":
            if not word[0].isdigit():
                at += 1
                continue
        found = _one_of(line, at)
        if found is not None:
            yield found
            at = found.end
            continue
        figures = run(line, at) if word not in _SAID or word in HEADS else []
        if not figures or _label(line, at):
            at += 1
            continue
        for each in _unelided(line, figures):
            yield (last := _with_unit(line, each))
        at = last.end


def _label(line: Line, at: int) -> bool:
    """ "b1" and "b one" name a part; nothing is counted."""
    if not at:
        return False
    before = line.norms[at - 1]
    if line.glued[at] and before.isalpha():
        return len(before) == 1 and before != "x"
    return len(before) == 1 and before in "bcdefg" and not line.split[at]


def _unelided(line: Line, figures: list[Figure]) -> Iterator[Figure]:
    """ "three twenty second holds" are three holds of twenty seconds, not 320."""
    for each in figures:
        if each.form == "word" and 100 < each.value < 1000 and "hundred" not in line.norms[each.start : each.end]:
            unit = _unit(line, each)
            if unit and unit[1].unit == "s":
                yield Figure(each.start, each.start + 1, each.value // 100, "word")
                yield Figure(each.start + 1, each.end, each.value % 100, "word")
                continue
        yield each


def _with_unit(line: Line, each: Figure) -> Quantity:
    if each.form == "clock":
        return Quantity(each.start, each.end, each.value, _SECOND, "clock")
    found = None if each.form == "ordinal" else _unit(line, each)
    if found is None:
        return Quantity(each.start, each.end, each.value, None, each.form)
    return _and_a_half(line, Quantity(each.start, found[0], each.value, found[1], each.form))


def _unit(line: Line, each: Figure) -> tuple[int, Unit] | None:
    """Where the unit after a figure ends, and the unit."""
    norms, at = line.norms, each.end
    if each.form in ("fraction", "group") or _has_fraction(each):
        if norms[at] == "of" and not line.punctuated[at]:
            at += 1
        if norms[at] in _ONE_OF and each.form == "fraction":
            at += 1
        if norms[at] not in _SAID and norms[at] not in _LETTERS:
            at = each.end
    if norms[at] in _FILL and norms[at + 1] in _SAID:
        at += 1
    if line.punctuated[at] or (line.punctuated[each.end]):
        return None
    word = norms[at]
    if word == "per" and norms[at + 1] == "cent":
        return at + 2, _SAID["per cent"]
    if word in _SAID:
        if word == "foot" and norms[each.start] == "one":
            return None
        return at + 1, _SAID[word]
    if word in _LETTERS and _letter_fits(line, each, at):
        return at + 1, _LETTERS[word]
    return None


def _has_fraction(each: Figure) -> bool:
    return each.value % 1 != 0


def _letter_fits(line: Line, each: Figure, at: int) -> bool:
    """ "in" is inches only when written on ("12in") or after "2 1/2"; "the 16s" are bells."""
    word = line.norms[at]
    if word in ("in", "ins"):
        return line.glued[at] or (_has_fraction(each) and each.value > 1)
    if word == "s" and line.glued[at] and each.start:
        return line.norms[each.start - 1] not in ("the", "those", "of", "your", "our")
    return True


def _one_of(line: Line, at: int) -> Quantity | None:
    """ "a minute", "an hour and a half", "another week", "minute and a half"."""
    norms = line.norms
    counted = norms[at] in _ONE_OF
    unit = _SAID.get(norms[at + counted])
    if unit is None:
        return None
    end = at + counted + 1
    if not counted:
        if norms[at - 1 if at else -1] in ("the", "that", "this", "last", "next", "every", "per"):
            return None
        whole = _and_a_half(line, Quantity(at, end, 1, unit, "word"))
        return whole if whole.end > end else None
    if norms[at + 1] == "foot" or (norms[at + 1] == "second" and not _second_is_time(line, at)):
        return None
    if _is_rate(line, at, end):
        return None
    return _and_a_half(line, Quantity(at, end, 1, unit, "word"))


def _second_is_time(line: Line, at: int) -> bool:
    """ "for a second at the top", not "a second round" or "wait a second"."""
    before = line.norms[at - 1] if at else ""
    if before in _IDLE_BEFORE_SECOND:
        return False
    return line.punctuated[at + 2] or line.norms[at + 2] in _CLOCK_TAIL


def _is_rate(line: Line, at: int, end: int) -> bool:
    """ "twenty a minute", "three times a week", "30 k a week"."""
    if not at or line.punctuated[at] or line.norms[end] in _NOT_RATE:
        return False
    before = line.norms[at - 1]
    if line.norms[at] == "another":
        return False
    return (
        before in _RATE_BEFORE
        or before in _SAID
        or before in _LETTERS and before != "in"
        or before[0].isdigit()
        or figure(line, at - 1) is not None and before not in ("half", "quarter")
    )


def _and_a_half(line: Line, found: Quantity) -> Quantity:
    """ "an hour and a quarter", "one hour and half"."""
    at = found.end
    if line.norms[at] != "and" or found.unit is None or line.punctuated[at]:
        return found
    part = figure(line, at + 1)
    if part is None and line.norms[at + 1] in _ONE_OF:
        part = figure(line, at + 2)
    if part is None or part.form != "fraction" or part.value >= 1 or found.value % 1:
        return found
    if _unit(line, part) is not None:
        return found
    return found._replace(end=part.end, value=found.value + part.value)


def _summed(line: Line, parts: list[Quantity]) -> Iterator[Quantity]:
    """Neighbours that make one quantity: "1 hour 15 minutes", "a minute thirty", "5 feet 2"."""
    at = 0
    while at < len(parts):
        whole, last = parts[at], parts[at]
        while at + 1 < len(parts) and (more := _added(line, last, parts[at + 1])) is not None:
            total = whole.size + more.size
            assert whole.unit is not None
            whole = whole._replace(end=more.end, value=total / whole.unit.factor)
            last, at = more, at + 1
        yield whole
        at += 1


def _added(line: Line, whole: Quantity, part: Quantity) -> Quantity | None:
    """``part`` with its unit if it continues ``whole``, else None."""
    joint = part.start - whole.end
    if whole.unit is None or whole.form == "clock" or joint > 1 or line.stop[part.start]:
        return None
    if joint == 1 and line.norms[whole.end] != "and":
        return None
    if part.unit is None:
        part = _elided_unit(line, whole.unit, part)
        if part.unit is None:
            return None
    elif part.unit.unit != whole.unit.unit or part.unit.factor >= whole.unit.factor:
        return None
    elif whole.unit.unit == "s" and not _same_time(line, whole, part):
        return None
    return part


def _same_time(line: Line, whole: Quantity, part: Quantity) -> bool:
    """ "two minutes thirty seconds", but "two minutes, thirty seconds rest" are two."""
    if whole.unit is None or part.size >= whole.unit.factor:
        return False
    return not (line.split[part.start] and line.norms[part.end] in _NOT_RATE)


def _elided_unit(line: Line, whole: Unit, part: Quantity) -> Quantity:
    """ "an hour fifteen", "5 ft 2 in": the smaller unit was left out or is a bare "in"."""
    if whole.name == "foot" and line.norms[part.end] == "in" and part.value < 12:
        return part._replace(end=part.end + 1, unit=UNITS["inch"])
    if whole.name == "yard" and line.norms[part.end] == "in" and part.value < 36:
        return part._replace(end=part.end + 1, unit=UNITS["inch"])
    smaller = _SMALLER.get(whole.name)
    if smaller is None or part.form not in ("word", "digits") or line.split[part.start]:
        return part
    fits = part.value % 1 == 0 and (10 <= part.value < 60)
    tail = line.punctuated[part.end] or line.norms[part.end] in _CLOCK_TAIL
    return part._replace(unit=UNITS[smaller]) if fits and tail else part

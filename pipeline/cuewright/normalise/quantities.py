"""Numbers with their units: "two minutes", "a minute thirty", "half a mile", "5 ft 2 in".

quantity = number [fill] unit ["and" fraction] {["and"] smaller}
         | ("a" | "another") unit ["and" fraction] {["and"] smaller}
         | unit "and" fraction
smaller  = number (smaller-unit | nothing, after hours or minutes)
"""

from collections.abc import Iterator
from typing import NamedTuple

from pydantic import BaseModel, ConfigDict

from cuewright.normalise.context import words
from cuewright.normalise.line import Line
from cuewright.normalise.numbers import HEADS, SMALL, Figure, Form, figure, run
from cuewright.tables import raw, validated
from cuewright_models.tokens import AmountUnit


class Unit(BaseModel):
    """One row of units.toml; ``factor`` of the plan's unit make one of these."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    name: str
    unit: AmountUnit
    factor: float
    said: list[str]
    letters: list[str] = []
    not_before: list[str] = []
    """Words that make a name of it: "inch worms"."""


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

    def in_unit(self, unit: Unit | None) -> float:
        """The value in the plan's unit, taking ``unit`` where none was said."""
        return self._replace(unit=self.unit or unit).size


UNITS = validated(raw("cuewright.normalise", "units.toml"), Unit, where="units.toml")
_SAID = {word: unit for unit in UNITS.values() for word in unit.said}
_LETTERS = {word: unit for unit in UNITS.values() for word in unit.letters}
_SMALLER = {"hour": UNITS["minute"], "minute": UNITS["second"]}
_INCH_IN = {"foot": 12, "yard": 36}
_ONE_OF = ("a", "an", "another")
_DAY_S = 86400
_STARTS = HEADS | _SAID.keys() | {"another"}

_FILL = words("fill")
_RATE_BEFORE = words("rate_before", "article")
_NOT_RATE = words("not_rate", "article")
_IDLE_SECOND = words("idle_second", "article")
_KNOWN = words("known", "article")
_LONG_AFTER = words("long_after", "article")
_BODY_AFTER = words("body_after", "article")
_PLURAL_AFTER = words("after", "plural")
_PLURAL_BEFORE = words("before", "plural")
_PLURAL_OF_AFTER = words("of_after", "plural")
_CLOCK_BEFORE = words("clock_before", "article")
_CLOCK_AFTER = words("clock_after", "article")
_ON_THE_CLOCK = ("on", "the", "clock")
_YEAR_AFTER = words("year_after", "aside")
_LABEL_LETTERS = words("letters", "label")
_LABEL_AFTER = words("after", "label")
_LABEL_JOINED = words("joined", "label")


def quantities(line: Line) -> list[Quantity]:
    """Every number or quantity in order, compounds summed."""
    return list(_summed(line, list(_measured(line))))


def _measured(line: Line) -> Iterator[Quantity]:
    norms, at = line.norms, 0
    while at < line.size:
        word = norms[at]
        if word not in _STARTS and not word[0].isdigit():
            at += 1
            continue
        found = _one_of(line, at)
        parts = [found] if found else [_with_unit(line, each) for each in _numbers(line, at)]
        yield from parts
        at = parts[-1].end if parts else at + 1


def _numbers(line: Line, at: int) -> Iterator[Figure]:
    """The numbers that start at ``at``, unless they only name something."""
    if _is_label(line, at):
        return
    figures = run(line, at)
    if len(figures) == 2 and _is_year(line, *figures):
        century, year = figures
        yield Figure(at, year.end, century.value * 100 + year.value, "word")
        return
    for each in figures:
        yield from _held_apart(line, each)


def _is_year(line: Line, century: Figure, year: Figure) -> bool:
    """ "in nineteen sixty eight"."""
    spoken = century.value in (19, 20) and 10 <= year.value <= 99
    return spoken and line.before(century.start) in _YEAR_AFTER and line.closed(year.end)


def _is_label(line: Line, at: int) -> bool:
    """ "b1", "b one is", "OAO-1", "several hundred": nothing is counted."""
    before = line.before(at)
    if line.glued[at] and before.isalpha():
        named = before in SMALL or before in _SAID or before in _LETTERS or before in _LABEL_JOINED
        return not named
    if line.norms[at] == "hundred":
        return before in ("several", "few")
    if before not in _LABEL_LETTERS or line.split[at] or not line.closed(at + 1):
        return False
    return line.before(at - 1) not in _LABEL_AFTER


def _held_apart(line: Line, each: Figure) -> Iterator[Figure]:
    """ "three twenty second holds" are three holds of twenty seconds, not 320."""
    at = each.start + 1
    if _is_elided(line, each):
        unit = _unit(line, each)
        if unit is not None and unit[1].unit == "s":
            yield Figure(each.start, at, each.value // 100, "word")
            each = Figure(at, each.end, each.value % 100, "word")
    yield each


def _with_unit(line: Line, each: Figure) -> Quantity:
    if each.form == "clock":
        return Quantity(each.start, each.end, each.value, UNITS["second"], "clock")
    found = None if each.form == "ordinal" else _unit(line, each)
    if found is None and _is_clock(line, each):
        return _with_unit(line, each._replace(value=_clock_s(each.value), form="clock"))
    if found is None:
        several = line.norms[each.end] == "s" and line.glued[each.end]
        return Quantity(each.start, each.end + several, each.value, None, each.form)
    return _and_a_part(line, Quantity(each.start, found[0], each.value, found[1], each.form))


def _is_clock(line: Line, each: Figure) -> bool:
    """ "one forty five rest", "two thirty on the clock"."""
    if not _is_elided(line, each) or each.value % 100 >= 60:
        return False
    shown = line.has(each.end, _ON_THE_CLOCK)
    return shown or line.norms[each.end] in _CLOCK_BEFORE or line.before(each.start) in _CLOCK_AFTER


def _clock_s(said: float) -> float:
    """145, from "one forty five", in seconds."""
    minutes, seconds = divmod(said, 100)
    return minutes * 60 + seconds


def _is_elided(line: Line, each: Figure) -> bool:
    """Whether a figure was said without its "hundred": "two fifty"."""
    first, second = line.norms[each.start : each.start + 2]
    short = each.form == "word" and SMALL.get(first, 10) < 10 and second in SMALL
    return short and 100 < each.value < 1000


def _unit(line: Line, each: Figure) -> tuple[int, Unit] | None:
    """Where the unit after a figure ends, and the unit."""
    norms, at = line.norms, _unit_start(line, each)
    if line.punctuated[at] or line.punctuated[each.end]:
        return None
    word = norms[at]
    if word == "per" and norms[at + 1] == "cent":
        return at + 2, _SAID["per cent"]
    if word in _SAID:
        return (at + 1, _SAID[word]) if _measures(line, each, at) else None
    if word in _LETTERS and _letter_fits(line, each, at):
        return at + 1, _minute_or(line, at)
    return None


def _measures(line: Line, each: Figure, at: int) -> bool:
    """Not so of "five inch worms", "one foot", "on two feet"."""
    unit, first = _SAID[line.norms[at]], line.norms[each.start]
    if unit.name == "foot" and (first == "one" or (first == "two" and _is_body(line, each))):
        return False
    return line.norms[at + 1] not in unit.not_before


def _is_body(line: Line, each: Figure) -> bool:
    return line.before(each.start) in _BODY_AFTER


def _unit_start(line: Line, each: Figure) -> int:
    """Past "more", and past the "of an" of "a couple of minutes", "three quarters of an hour"."""
    norms, at = line.norms, each.end
    if each.form in ("fraction", "group") or each.value % 1:
        at += norms[at] == "of"
        at += each.value % 1 != 0 and norms[at] in _ONE_OF
    if norms[at] in _FILL:
        at += 1
    return at if norms[at] in _SAID or norms[at] in _LETTERS else each.end


def _letter_fits(line: Line, each: Figure, at: int) -> bool:
    """ "in" is inches only written on ("12in") or after "2 1/2"; "the 16s" are not seconds."""
    if line.norms[at] in ("in", "ins"):
        return line.glued[at] or (each.value > 1 and each.value % 1 != 0)
    if line.norms[at] == "s" and line.glued[at]:
        return not _is_several(line, each, at)
    return True


def _is_several(line: Line, each: Figure, at: int) -> bool:
    """ "the 16s", "six 500s", "a pair of 24s", "the under 12s", "53s for the men"."""
    before = line.before(each.start)
    if each.value >= 100 or before in _PLURAL_AFTER or before in SMALL or before.isdigit():
        return True
    if before == "of":
        return line.before(each.start - 1) in _PLURAL_OF_AFTER
    if before in ("under", "over"):
        return line.glued[each.start] or line.before(each.start - 1) in _PLURAL_AFTER
    return line.norms[at + 1] in _PLURAL_BEFORE or line.has(at + 1, ("for", "the"))


def _minute_or(line: Line, at: int) -> Unit:
    """The unit of a letter: "m" is minutes in "1h30m" and "1m30s"."""
    if line.norms[at] == "m" and line.glued[at]:
        after_hours = line.glued[at - 1] and line.before(at - 1) == "h"
        if after_hours or (line.glued[at + 1] and line.norms[at + 1].isdigit()):
            return UNITS["minute"]
    return _LETTERS[line.norms[at]]


def _one_of(line: Line, at: int) -> Quantity | None:
    """ "a minute", "an hour and a half", "another week", "minute and a half", "a k"."""
    counted = line.norms[at] in _ONE_OF
    said = at + counted
    if counted and line.norms[said] in _FILL:
        said += 1
    unit = _SAID.get(line.norms[said])
    if counted and line.norms[said] == "k" and line.closed(said + 1):
        unit = _LETTERS["k"]
    if unit is None or unit.unit == "%":
        return None
    one = Quantity(at, said + 1, 1, unit, "word")
    if not counted:
        whole = _and_a_part(line, one)
        return whole if whole.end > one.end and line.before(at) not in _KNOWN else None
    if unit.name == "foot" or (line.norms[said] == "second" and not _is_a_time(line, at, said)):
        return None
    if unit.factor >= _DAY_S and unit.unit == "s" and not _is_long_time(line, at):
        return None
    return None if _is_rate(line, at, one.end) else _and_a_part(line, one)


def _is_a_time(line: Line, at: int, said: int) -> bool:
    """ "for a second at the top", not "a second round" or "wait a second"."""
    return line.before(at) not in _IDLE_SECOND and line.closed(said + 1)


def _is_long_time(line: Line, at: int) -> bool:
    """ "for a week", "another day"; not "fifty squats a day", "call it a day"."""
    return line.norms[at] == "another" or line.split[at] or line.before(at) in _LONG_AFTER


def _is_rate(line: Line, at: int, end: int) -> bool:
    """ "twenty a minute", "three times a week", "30 k a week"."""
    if not at or line.split[at] or line.norms[at] == "another" or line.norms[end] in _NOT_RATE:
        return False
    before = line.norms[at - 1]
    if before in _RATE_BEFORE or before in _SAID or before in ("k", "m") or before[0].isdigit():
        return True
    return before in SMALL


def _and_a_part(line: Line, found: Quantity) -> Quantity:
    """ "an hour and a quarter", "one hour and half"; not "a mile and a half mile"."""
    at = found.end
    if line.norms[at] != "and" or line.punctuated[at] or found.value % 1:
        return found
    part = figure(line, at + 1)
    if part is None and line.norms[at + 1] in _ONE_OF:
        part = figure(line, at + 2)
    if part is None or part.form != "fraction" or part.value >= 1 or _unit(line, part):
        return found
    return found._replace(end=part.end, value=found.value + part.value)


def _summed(line: Line, parts: list[Quantity]) -> Iterator[Quantity]:
    """Neighbours that make one quantity: "1 hour 15 minutes", "a minute thirty", "5 ft 2 in"."""
    at = 0
    while at < len(parts):
        whole = last = parts[at]
        at += 1
        while at < len(parts) and (more := _added(line, last, parts[at])) is not None:
            factor = whole.unit.factor if whole.unit else 1.0
            whole = whole._replace(end=more.end, value=(whole.size + more.size) / factor)
            last, at = more, at + 1
        yield whole


def _added(line: Line, whole: Quantity, part: Quantity) -> Quantity | None:
    """``part`` with its unit if it continues ``whole``, else None."""
    joint = part.start - whole.end
    if whole.unit is None or whole.form == "clock" or joint > 1 or line.stop[part.start]:
        return None
    if joint and line.norms[whole.end] != "and":
        return None
    if part.unit is None:
        return _with_smaller(line, whole.unit, part)
    smaller = part.unit.unit == whole.unit.unit and part.unit.factor < whole.unit.factor
    return part if smaller and (part.unit.unit != "s" or _same_time(line, whole, part)) else None


def _same_time(line: Line, whole: Quantity, part: Quantity) -> bool:
    """ "two minutes thirty seconds".

    Two times are "two minutes, thirty seconds rest" and "for two minutes and thirty seconds of".
    """
    if whole.unit is None or part.size >= whole.unit.factor:
        return False
    if line.before(whole.start) == "for" and line.norms[part.end] == "of":
        return False
    return not line.split[part.start] or line.norms[part.end] not in _NOT_RATE


def _with_smaller(line: Line, whole: Unit, part: Quantity) -> Quantity | None:
    """ "an hour fifteen", "5 ft 2 in": the smaller unit was left out, or is a bare "in"."""
    if part.value < _INCH_IN.get(whole.name, 0) and line.norms[part.end] == "in":
        return part._replace(end=part.end + 1, unit=UNITS["inch"])
    smaller = _SMALLER.get(whole.name)
    if smaller is None or part.form not in ("word", "digits") or line.split[part.start]:
        return None
    if part.value % 1 or not 10 <= part.value < 60 or not line.closed(part.end):
        return None
    return part._replace(unit=smaller)

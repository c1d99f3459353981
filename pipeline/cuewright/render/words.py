"""How amounts, times, movements and structures are said in writing.

Every page uses these words, so a session reads the same wherever it is shown. Arguments
are seconds, metres, whole counts and kcal; an amount of ``None`` is said as not said.
"""

import re
import unicodedata
from collections.abc import Callable
from functools import cache

from cuewright.clock import clock as clock
from cuewright.movements.catalogue import catalogue
from cuewright.tables import raw
from cuewright_models.base import Range, Said, Value, tidy
from cuewright_models.plan import (
    Amrap,
    Date,
    Effort,
    Every,
    ForTime,
    Intervals,
    Load,
    Sets,
    Source,
    Structure,
)

DASH = "\u2013"
"""Between the ends of a range."""
BY = "\u00d7"
"""Between sets and reps."""

_HIDDEN = frozenset({"Cc", "Cs", "Co", "Cn"})
# Marks that turn the direction of the text that follows them, beyond their own line.
_TURNS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)
_REMARKS = re.compile(
    r",? ?(?:amount|rest|times through) not said"
    r"| \((?:(?:time|number|interval) not said|not in the catalogue)\)"
)
_MAX = {"s": "max-time", "m": "max-distance", "kcal": "max kcal"}


class Names(Value):
    """The table ``names.toml``."""

    written: dict[str, str]
    plural: dict[str, str]
    distance: dict[str, str]


@cache
def _names() -> Names:
    return Names.model_validate(raw("cuewright.render", "names.toml"))


def clean(text: str) -> str:
    """Free text on one line, without control signs and marks that turn other text round."""
    return " ".join("".join(sign for sign in text if _shown(sign)).split())


def heard(said: Said) -> list[tuple[str, bool]]:
    """The words of a quote, clean, each with whether the recogniser was not sure of it."""
    split = ((clean(word), at in said.doubtful) for at, word in enumerate(said.quote.split()))
    return [(word, doubtful) for word, doubtful in split if word]


def quote(said: Said) -> str:
    """A quote on one line, with ``(?)`` after a word that the recogniser was not sure of."""
    return " ".join(f"{word} (?)" if doubtful else word for word, doubtful in heard(said))


def _shown(sign: str) -> bool:
    return sign.isspace() or (sign not in _TURNS and unicodedata.category(sign) not in _HIDDEN)


def source(given: Source) -> str:
    """Where a plan was read from: ``talk.vtt (captions), 6:43 long``."""
    length = given.duration_s
    long = "length not known" if length is None else f"{clock(length)} long"
    return f"{clean(given.name)} ({given.kind}), {long}"


def time(seconds: float) -> str:
    """A length of time: ``40 s`` below a minute, ``3:00`` from there."""
    return f"{number(seconds)} s" if seconds < 60 else clock(seconds)


def moment(said: Said) -> str:
    """Where something was said, as ``m:ss``; empty when the source carries no times."""
    return "" if said.start_s is None else clock(int(said.start_s))


def number(value: float) -> str:
    """``10`` for 10.0, ``7.5`` for 7.5."""
    return str(tidy(value))


def between(low: float | None, high: float | None, say: Callable[[float], str] = number) -> str:
    """A range, with a dash, ``up to`` or ``at least``; empty when neither end was said."""
    if low is None or high is None:
        given = high if low is None else low
        if given is None:
            return ""
        return f"{'up to' if low is None else 'at least'} {say(given)}"
    return say(low) if low == high else f"{say(low)}{DASH}{say(high)}"


def amount(low: float | None, high: float | None, unit: str | None) -> str:
    """An amount with its unit; empty when it was not said."""
    if unit == "s":
        return _seconds(low, high)
    if unit == "m":
        return _metres(low, high)
    text = between(low, high)
    if not text or unit in (None, "none", "reps"):
        return text
    if unit == "rpe":
        return f"effort {text} of 10"
    return f"{text} % of best" if unit in ("%", "%1rm") else f"{text} {unit}"


def _seconds(low: float | None, high: float | None) -> str:
    """Seconds in one form on both sides of a range."""
    if low is not None and high is not None and low < high < 60:
        return f"{between(low, high)} s"
    longest = max(low or 0, high or 0)
    return between(low, high, time if longest < 60 else clock)


def _metres(low: float | None, high: float | None) -> str:
    if low is not None and low == high:
        named = _names().distance.get(f"{low:.1f}")
        if named:
            return named
        if low >= 3000 and low % 1000 == 0:
            return f"{number(low / 1000)} km"
    text = between(low, high)
    return f"{text} m" if text else ""


def movement(name: str, *, many: bool = False) -> str:
    """A catalogue name in words: ``kettlebell-swing`` as kettlebell swing or swings."""
    text = clean(name)
    if " " in text:  # not a catalogue name, so as it stands
        return text
    text = f" {text.replace('-', ' ')} "
    for plain, written in _names().written.items():
        text = text.replace(f" {plain} ", f" {written} ")
    text = text.strip()
    return _plural(text) if many else text


def _plural(text: str) -> str:
    irregular = _names().plural.get(text)
    if irregular:
        return irregular
    if re.search(r"[^aeiou]y$", text):
        return f"{text[:-1]}ies"
    return f"{text}es" if re.search(r"(s|x|z|ch|sh)$", text) else f"{text}s"


def effort(item: Effort, *, bare: bool = False, single: bool = False) -> str:
    """One effort as on a board: ``20 kettlebell swings, women 16 kg / men 24 kg``.

    ``bare`` leaves out an amount that the line above already gives; ``single`` keeps the
    movement in the singular, as in five by five back squat.
    """
    many = not single and _many(item)
    if item.known:
        name = movement(item.movement, many=many)
    else:
        name = f"{clean(item.as_said or item.movement)} (not in the catalogue)"
    much = amount(item.low, item.high, item.unit)
    others = "".join(f" or {movement(other, many=many)}" for other in item.alternatives)
    text = name if bare else _measured(item, much, name)
    text += others + (" each side" if item.per_side else "") + loads(item.load)
    return text if bare or item.max or much else f"{text}, amount not said"


def _many(item: Effort) -> bool:
    if item.unit == "reps":
        most = item.high if item.high is not None else item.low
        return item.max or most is None or most > 1
    known = catalogue().get(item.movement)
    return known is not None and known.counted_in[0] == "reps"


def _measured(item: Effort, much: str, name: str) -> str:
    if item.max and much:
        return f"max {name} in {much}" if item.unit == "s" else f"max {name}, {much}"
    if item.max:
        return f"{_MAX.get(item.unit, 'max')} {name}"
    return f"{much} {name}" if much else name


def loads(given: tuple[Load, ...]) -> str:
    """Loads after an effort: ``, women 16 kg / men 24 kg`` or `` at 75 % of best``."""
    weights = [_load(load) for load in given if load.unit in ("kg", "lb")]
    shares = [_load(load) for load in given if load.unit not in ("kg", "lb")]
    return (f", {' / '.join(weights)}" if weights else "") + (
        f" at {' / '.join(shares)}" if shares else ""
    )


def _load(load: Load) -> str:
    text = amount(load.low, load.high, load.unit)
    return f"{load.who} {text}" if load.who else text


def unremarked(text: str) -> str:
    """A line without what pages remark on what was left unsaid."""
    return _REMARKS.sub("", text)


def minutes(low_s: float, high_s: float) -> str:
    """A rough length in whole minutes: ``40 min``."""
    low, high = max(1, round(low_s / 60)), max(1, round(high_s / 60))
    return f"{between(low, high)} min"


def count(times: Range, one: str) -> str:
    """``4 rounds``, ``1 round``; ``rounds (number not said)``."""
    text = between(times.low, times.high)
    if not text:
        return f"{one}s (number not said)"
    return f"{text} {one}" if text == "1" else f"{text} {one}s"


def structure(how: Structure) -> str:
    """How the work is run, as the line above it; empty for work at one's own pace."""
    match how:
        case ForTime(cap_s=cap):
            return "for time" if cap is None else f"for time, cap {time(cap)}"
        case Amrap(duration_s=length):
            return "as many rounds as possible " + (
                "(time not said)" if length is None else f"in {time(length)}"
            )
        case Every():
            return _every(how)
        case Intervals():
            return _intervals(how)
        case Sets(rest_s=None):
            return "in sets, rest not said"
        case _:
            return ""


def _every(how: Every) -> str:
    start = "on the clock (interval not said)"
    if how.every_s is not None:
        start = f"every {time(how.every_s)}"
    if how.times is not None:
        return f"{start}, {how.times} times"
    return f"{start} for {time(how.duration_s)}" if how.duration_s is not None else start


def _intervals(how: Intervals) -> str:
    work = "work (time not said)" if how.work_s is None else f"{time(how.work_s)} work"
    rest = "rest (time not said)" if how.rest_s is None else f"{time(how.rest_s)} rest"
    if not how.rest_s and how.rest_s is not None:
        rest = "no rest"
    if how.times is None:
        return f"{work} / {rest}, times through not said"
    return f"{work} / {rest}, {'once' if how.times == 1 else f'{how.times} times'} through"


def date(given: Date | None) -> str:
    """``Thursday 12 November``: the parts that were said, or ``date not said``."""
    if given is None:
        return "date not said"
    month = _MONTHS[given.month - 1] if given.month and 1 <= given.month <= 12 else given.month
    parts = (given.weekday and given.weekday.capitalize(), given.day, month, given.year)
    return " ".join(str(part) for part in parts if part) or "date not said"

"""Number words and digits to values, with no thought of what they count.

number   = whole ["point" digits | ["and"] fraction] | fraction | ordinal | clock | [n] "dozen"
whole    = below-hundred ["hundred" [["and"] below-hundred]] ["thousand" [["and"] whole]]
fraction = "half" | "a quarter" | "three quarters" | "3/4" | "½"
"""

from collections.abc import Iterator
from typing import Any, Literal, NamedTuple

from cuewright.normalise.line import Line
from cuewright.tables import raw

Form = Literal["word", "digits", "fraction", "ordinal", "clock", "group", "plural"]

_TABLE: dict[str, Any] = raw("cuewright.normalise", "numbers.toml")
SMALL: dict[str, int] = _TABLE["small"]
ORDINAL: dict[str, int] = _TABLE["ordinal"]
_PLURAL: dict[str, int] = _TABLE["plural"]
_PART: dict[str, int] = _TABLE["part"]
_SIGN: dict[str, float] = _TABLE["sign"]
_GROUP: dict[str, int] = _TABLE["group"]
_ONES = {word: value for word, value in SMALL.items() if 1 <= value <= 9}
SCALE = {"hundred": 100, "thousand": 1000}
_TENS = frozenset(range(20, 100, 10))
_OH = ("oh", "o")
_ARTICLE = ("a", "an")

HEADS = frozenset((*SMALL, *ORDINAL, *_PLURAL, *_PART, *_SIGN, *_GROUP, *SCALE, *_ARTICLE, "point"))
"""Words that a number can start with; digits are the other way."""


class Figure(NamedTuple):
    """One number over the tokens ``start:end``; a clock's value is in seconds."""

    start: int
    end: int
    value: float
    form: Form


def run(line: Line, at: int) -> list[Figure]:
    """The numbers that follow each other from token ``at`` without a word or a pause between.

    "one fifty" is one figure, 150; "nine fifteen twenty one" is three.
    """
    figures: list[Figure] = []
    while (found := figure(line, at)) is not None:
        if figures and found.form == "ordinal":
            break
        figures.append(found)
        at = found.end
        if line.split[at] or found.form == "ordinal":
            break
        if line.norms[at] in _OH and line.norms[at + 1] in _ONES:
            figures.append(Figure(at, at + 2, _ONES[line.norms[at + 1]], "word"))
            at += 2
    return figures if len(figures) < 2 else list(_elided(line, figures))


def figure(line: Line, at: int) -> Figure | None:
    """The number that starts at token ``at``, or None."""
    word = line.norms[at]
    if word not in HEADS and not word[:1].isdigit():
        return None
    found = _clock_or_ordinal(word, at) or _group(line, at) or _fraction(line, at)
    if found is None:
        found = _point(line, at) if word == "point" else _number(line, at)
    return found and _dozens(line, found)


def _elided(line: Line, figures: list[Figure]) -> Iterator[Figure]:
    """Join "two" and "twenty five" where the hundred was left out."""
    at = 0
    while at < len(figures):
        here, after = figures[at], figures[at + 1] if at + 1 < len(figures) else None
        if after and _hundred_left_out(line, here, after, alone=len(figures) == 2):
            yield Figure(here.start, after.end, here.value * 100 + after.value, "word")
            at += 2
        else:
            yield here
            at += 1


def _hundred_left_out(line: Line, here: Figure, after: Figure, *, alone: bool) -> bool:
    """ "two fifty", but not "nine fifteen", which is how a list goes."""
    if here.form != "word" or here.end - here.start > 1 or not 1 <= here.value <= 9:
        return False
    if line.norms[after.start] in _OH:
        return True
    if after.form != "word" or not 10 <= after.value <= 99 or after.value % 1:
        return False
    return after.value > 3 * here.value or (alone and after.value >= 20)


def _clock_or_ordinal(word: str, at: int) -> Figure | None:
    if word in _PLURAL:
        return Figure(at, at + 1, _PLURAL[word], "plural")
    if word in ORDINAL:
        return Figure(at, at + 1, ORDINAL[word], "ordinal")
    if ":" in word:
        return Figure(at, at + 1, _seconds(word), "clock")
    if word[0].isdigit() and word[-1].isalpha():
        return Figure(at, at + 1, float(word[:-2]), "ordinal")
    return None


def _seconds(clock: str) -> float:
    """1:30 and 0:45:10 in seconds."""
    total = 0.0
    for part in clock.split(":"):
        total = total * 60 + float(part)
    return total


def _group(line: Line, at: int) -> Figure | None:
    """ "a dozen", "a couple", "couple of", "half a dozen"."""
    norms, start, scale = line.norms, at, 1.0
    if norms[at] == "half":
        at, scale = at + 1, 0.5
    at += norms[at] in _ARTICLE
    value = _GROUP.get(norms[at])
    if value is None or (scale != 1.0 and value != 12):
        return None
    return Figure(start, at + 1, value * scale, "group")


def _dozens(line: Line, found: Figure) -> Figure:
    """ "two dozen" from "two", "a couple of hundred" from "a couple"."""
    couple = found.form == "group" and found.value == _GROUP["couple"]
    at = found.end + (couple and line.norms[found.end] == "of")
    word = line.norms[at]
    if word in ("dozen", "dozens") and (couple or found.form in ("word", "digits")):
        return Figure(found.start, at + 1, found.value * 12, "group")
    if couple and word in SCALE:
        return Figure(found.start, at + 1, found.value * SCALE[word], "group")
    return found


def _fraction(line: Line, at: int) -> Figure | None:
    """ "half", "a quarter", "three quarters", "one eighth", "½", "3/4"."""
    word, follows = line.norms[at : at + 2]
    if word in _SIGN:
        return Figure(at, at + 1, _SIGN[word], "fraction")
    if word in ("half", "quarter"):
        return Figure(at, at + 1, 1 / _PART[word], "fraction")
    if follows not in _PART or line.split[at + 1]:
        return _slashed(line, at)
    sure = follows not in ORDINAL
    if word in _ARTICLE and (sure or line.norms[at + 2] == "of"):
        return Figure(at, at + 2, 1 / _PART[follows], "fraction")
    count = _ONES.get(word)
    if count is not None and (sure or count == 1):
        return Figure(at, at + 2, count / _PART[follows], "fraction")
    return None


def _slashed(line: Line, at: int) -> Figure | None:
    """ "1/2", "3/4"; "12/15" and "95/65" are pairs, not fractions."""
    over, sign, under, more = line.norms[at : at + 4]
    if sign != "/" or under not in ("2", "3", "4", "8") or not over.isdigit() or more == "/":
        return None
    count, part = int(over), int(under)
    if not 0 < count < part or (part > 3 and count % 2 == 0):
        return None
    return Figure(at, at + 3, count / part, "fraction")


def _number(line: Line, at: int) -> Figure | None:
    """A whole number with its ordinal ending, its decimals or its fraction."""
    found = _whole(line, at)
    if found is None or line.split[found.end]:
        return found
    return _ordinal_after(line, found) or _decimals(line, found) or _mixed(line, found)


def _whole(line: Line, at: int) -> Figure | None:
    base = _below_thousand(line, at)
    if base is None or line.norms[base.end] != "thousand":
        return base
    rest = _remainder(line, base.end + 1, 1000)
    if rest is None:
        return Figure(at, base.end + 1, base.value * 1000, base.form)
    return Figure(at, rest.end, base.value * 1000 + rest.value, base.form)


def _below_thousand(line: Line, at: int) -> Figure | None:
    """ "twenty one", "18", "two hundred and fifty", "eighteen hundred", "a hundred"."""
    norms = line.norms
    article = norms[at] in _ARTICLE
    if norms[at + article] in SCALE:
        base = Figure(at, at + article, 1, "word")
    elif (plain := _below_hundred(line, at)) is not None:
        base = plain
    else:
        return None
    if base.end > at and line.punctuated[base.end]:
        return base
    if norms[base.end] == "hundreds" and base.end > at:
        return Figure(at, base.end + 1, base.value * 100, "plural")
    if norms[base.end] != "hundred":
        return base
    rest = _remainder(line, base.end + 1, 100)
    if rest is None:
        return Figure(at, base.end + 1, base.value * 100, base.form)
    return Figure(at, rest.end, base.value * 100 + rest.value, base.form)


def _remainder(line: Line, at: int, below: int) -> Figure | None:
    """What may follow "hundred" or "thousand": a smaller number with no scale of its own."""
    if line.split[at]:
        return None
    joined = line.norms[at] == "and"
    at += joined
    if line.norms[at] in _ARTICLE or (line.norms[at][:1].isdigit() and not joined):
        return None
    rest = _below_thousand(line, at) if below == 1000 else _below_hundred(line, at)
    if rest is None or not 0 < rest.value < below or rest.value % 1:
        return None
    after = line.norms[rest.end]
    if after in SCALE or (after in _PART and after not in ORDINAL):
        return None
    if rest.value < 10 and SMALL.get(after, 0) >= 10 and not line.split[rest.end]:
        return None  # "five hundred two fifty"
    return rest


def _below_hundred(line: Line, at: int) -> Figure | None:
    """ "twenty one", "fifteen", "20 one"; digits as they stand."""
    word, follows = line.norms[at : at + 2]
    form: Form = "word" if word in SMALL else "digits"
    if form == "digits" and not (word[:1].isdigit() and word[-1].isdigit() and ":" not in word):
        return None
    value = float(word) if form == "digits" else SMALL[word]
    if value not in _TENS or line.split[at + 1]:
        return Figure(at, at + 1, value, form)
    if _PLURAL.get(follows, 10) < 10:
        return Figure(at, at + 2, value + _PLURAL[follows], "plural")
    if follows in _ONES and not _starts_next(line, at):
        return Figure(at, at + 2, value + _ONES[follows], "word")
    return Figure(at, at + 1, value, form)


def _starts_next(line: Line, at: int) -> bool:
    """ "five" belongs to the next number in "seven fifty | five hundred"."""
    return line.norms[at + 2] in SCALE and line.before(at) in _ONES and not line.split[at]


def _ordinal_after(line: Line, found: Figure) -> Figure | None:
    """ "twenty fifth", "two hundredth"; never "thirty second", which is a time."""
    word = line.norms[found.end]
    place = ORDINAL.get(word)
    if place is None or found.form != "word" or word == "second":
        return None
    if place == 100 and found.value < 100:
        return Figure(found.start, found.end + 1, found.value * 100, "ordinal")
    room = 10 if found.value % 100 else 100
    if place >= room or found.value % 10 or found.value < 20:
        return None
    return Figure(found.start, found.end + 1, found.value + place, "ordinal")


def _decimals(line: Line, found: Figure) -> Figure | None:
    """ "two point five", "200 point seventy one"."""
    if line.norms[found.end] != "point" or found.value % 1:
        return None
    digits, end = _spelled(line, found.end + 1)
    if not digits:
        return None
    return Figure(found.start, end, float(f"{found.value:.0f}.{digits}"), found.form)


def _point(line: Line, at: int) -> Figure | None:
    """ "point 77", only where a clause starts."""
    digits, end = _spelled(line, at + 1)
    return Figure(at, end, float(f"0.{digits}"), "word") if digits and line.split[at] else None


def _spelled(line: Line, at: int) -> tuple[str, int]:
    """Digits after a spoken point, and where they end."""
    digits = ""
    while SMALL.get(line.norms[at], 10) < 10 and not (digits and line.split[at]):
        digits, at = digits + str(SMALL[line.norms[at]]), at + 1
    if not digits and (found := _below_hundred(line, at)) and not found.value % 1:
        return f"{found.value:.0f}", found.end
    return digits, at


def _mixed(line: Line, found: Figure) -> Figure:
    """ "two and a half", "one and three quarters", "2 1/2", "2½"."""
    joined = line.norms[found.end] == "and"
    at = found.end + joined
    written = line.norms[at] in _SIGN or line.norms[at + 1] == "/"
    part = (_part_after_and(line, at) if joined else None) or _fraction(line, at)
    if part is None or part.value >= 1 or found.value % 1 or not (joined or written):
        return found
    return Figure(found.start, part.end, found.value + part.value, found.form)


def _part_after_and(line: Line, at: int) -> Figure | None:
    """ "a half", "a fourth", where a whole number went before."""
    article, word = line.norms[at : at + 2]
    if article not in _ARTICLE or word not in _PART:
        return None
    if word in ORDINAL and not line.closed(at + 2):
        return None
    return Figure(at, at + 2, 1 / _PART[word], "fraction")

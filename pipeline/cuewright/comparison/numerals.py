"""Numbers as they are written, and other numbers written the same way."""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import NamedTuple

from cuewright.comparison.difference import Number
from cuewright.comparison.equal import same
from cuewright.comparison.surface import Span
from cuewright.tables import raw
from cuewright_models.base import Value, tidy

_HALF = 0.5
_NAMED = 20
"""Up to here a number that was a word stays one."""


class Numerals(Value):
    """The table ``numerals.toml``."""

    words: Mapping[str, float]
    s: Mapping[str, float]
    m: Mapping[str, float]


@cache
def _table() -> Numerals:
    return Numerals.model_validate(raw("cuewright.comparison", "numerals.toml"))


@cache
def _pattern() -> re.Pattern[str]:
    named = "|".join(sorted(_table().words, key=len, reverse=True))
    return re.compile(
        rf"(?<![\w.,:&#])(?P<clock>\d{{1,2}}:\d\d)(?!\d)|(?P<half>\bhalf an hour\b)"
        rf"|(?<!&#)(?<![\d.])(?P<figure>\d{{1,3}}(?:,\d{{3}})+|\d+(?:\.\d+)?)"
        rf"|\b(?P<word>{named})\b(?!')",
        re.IGNORECASE,
    )


class Numeral(NamedTuple):
    """A number at a place of the text."""

    span: Span
    text: str
    value: float
    kind: str


def numerals(text: str, start: int, end: int) -> Iterator[Numeral]:
    """Every number that is written in ``start:end``, a clock's time in seconds."""
    for found in _pattern().finditer(text, start, end):
        kind = found.lastgroup or "figure"
        yield Numeral(Span(*found.span()), found[0], _value(kind, found[0]), kind)


def _value(kind: str, text: str) -> float:
    if kind == "clock":
        minutes, seconds = text.split(":")
        return 60 * int(minutes) + int(seconds)
    if kind == "half":
        return 1800
    return _table().words[text.lower()] if kind == "word" else float(text.replace(",", ""))


def rewritten(numeral: Numeral, number: Number) -> str | None:
    """The numeral with the new number, if it is the old one in one of the units."""
    if numeral.kind in ("clock", "half"):
        if number.unit != "s" or not same(numeral.value, number.old, "s"):
            return None
        minutes, seconds = divmod(round(number.new), 60)
        half = f"{tidy(number.new / 60)} minutes"
        return half if numeral.kind == "half" else f"{minutes}:{seconds:02d}"
    for factor in _factors(number.unit):
        if same(numeral.value * factor, number.old, number.unit):
            return _written(numeral, number.new / factor, exact=factor == 1)
    return None


def _factors(unit: str) -> tuple[float, ...]:
    if unit == "s":
        return tuple(_table().s.values())
    return tuple(_table().m.values()) if unit == "m" else (1.0,)


def _written(numeral: Numeral, value: float, *, exact: bool) -> str | None:
    """The value in figures, or as a word where it was one; ``None`` if it would not be whole."""
    near = round(value)
    if not exact and abs(value - near) > 0.01 * max(value, 1) and (2 * value) % 1 > 0.02:
        return None
    shown = near if abs(value - near) <= 0.01 * max(value, 1) and not exact else value
    if numeral.kind == "word" and numeral.text.lower() not in ("a", "an"):
        return _word(numeral.text, shown)
    text = f"{tidy(shown)}"
    return f"{tidy(shown):,}" if "," in numeral.text and shown >= 1000 else text


def _word(like: str, value: float) -> str:
    counts = {"once": 1, "twice": 2}
    if like.lower() in counts:
        named = {1: "once", 2: "twice"}.get(int(value), f"{tidy(value)} times")
    else:
        words = {number: word for word, number in _table().words.items() if word not in
                 ("a", "an", *counts)}  # fmt: skip
        named = words.get(value, str(tidy(value))) if value <= _NAMED else str(tidy(value))
    return named.capitalize() if like[0].isupper() else named

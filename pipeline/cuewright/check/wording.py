"""Amounts as a reader wants them in a finding."""

import re
from collections.abc import Iterable
from math import isfinite

from cuewright_models.base import Range, tidy


def subject(about: str) -> str:
    """What a finding is about, to start a sentence with: ``The whole``, ``Block b2``."""
    if about == "total":
        return "The whole"
    is_block = re.fullmatch(r"b\d+", about)
    return f"Block {about}" if is_block else about.replace("-", " ").capitalize()


def spoken(about: str) -> str:
    """What a finding is about as a coach says it: ``the whole session``, ``this part``."""
    known = {"total": "the whole session", "round": "each round"}
    if re.fullmatch(r"b\d+", about):
        return "this part"
    return known.get(about) or f"the {about.replace('-', ' ')}"


def heard(as_said: str) -> str:
    """A movement as the coach said it, without the stop or comma that was heard with it."""
    return as_said.strip(" .,;:?!…")


def listed(names: Iterable[str]) -> str:
    """``box jump``, ``box jump and row``, ``box jump, thruster and row``."""
    *before, last = (name.replace("-", " ") for name in names)
    return f"{', '.join(before)} and {last}" if before else last


def sentence(text: str) -> str:
    """The text with a capital at its start."""
    return text[:1].upper() + text[1:]


def duration(seconds: float) -> str:
    """75 as ``1 min 15 s``, 4500 as ``1 h 15 min``."""
    if not isfinite(seconds):
        return "no finite time"
    minutes, rest = divmod(round(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    parts = ((hours, "h"), (minutes, "min"), (rest, "s"))
    return " ".join(f"{count} {unit}" for count, unit in parts if count) or "0 s"


def times(count: float | None, what: str) -> str:
    """``4 x 250 m``; what is done once stands alone."""
    return what if count in (None, 1) else f"{count:g} \N{MULTIPLICATION SIGN} {what}"


def amount(number: float, unit: str | None) -> str:
    """A number with its unit: ``1,500 m``, ``29 min``, ``4 rounds``."""
    if unit == "s":
        return duration(number)
    word = unit or "reps"
    if number == 1:
        word = {"rounds": "round", "sets": "set", "reps": "rep"}.get(word, word)
    shown = f"{tidy(number):,}" if isfinite(number) else "no finite number of"
    return f"{shown} {word}".replace(" %", "%")


def span(value: Range, unit: str | None) -> str:
    """A range in words: ``22 min to 25 min``, ``at most 2 min``, ``4 rounds``."""
    low, high = value.low, value.high
    if low is None or high is None:
        if high is not None:
            return f"at most {amount(high, unit)}"
        return "not said" if low is None else f"at least {amount(low, unit)}"
    if low == high:
        return amount(low, unit)
    return f"{amount(low, unit)} to {amount(high, unit)}"

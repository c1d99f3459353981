"""Movement names by their sound: what a recogniser hears when it does not know the word."""

import re
from collections.abc import Sequence
from functools import cache

from rapidfuzz.fuzz import ratio

from cuewright.movements.catalogue import catalogue
from cuewright.phrases import stem

_LONGEST = 4
"""Words in a misheard name, at most."""
_LEAST_ALIKE = 40.0
"""Per cent of letters that two words of one sound share at least: not "leg" and "walk"."""
_ALIKE = str.maketrans(
    {"c": "k", "q": "k", "g": "k", "j": "k", "d": "t", "b": "p", "v": "f", "z": "s", "x": "s"}
)
_SILENT = re.compile(r"[aeiouyhw']")
_DOUBLE = re.compile(r"(.)\1+")


def skeleton(words: str) -> str:
    """The consonants of words run together, voiced and unvoiced alike: "cattle bell" ktlpl."""
    hard = words.replace("ph", "f").replace("ck", "k").replace("tch", "k").replace("ch", "k")
    return _DOUBLE.sub(r"\1", _SILENT.sub("", hard.translate(_ALIKE)))


def meant(norms: Sequence[str]) -> tuple[int, str] | None:
    """The movement name that the words at the start of ``norms`` sound like, and their number.

    Word for word: one at least is right as it stands, every other has the same two or more
    consonants. ``None`` where nothing fits or the words are a movement already.
    """
    for length in range(min(_LONGEST, len(norms)), 1, -1):
        heard = norms[:length]
        name = _names().get(skeleton("".join(heard)))
        words = name.split() if name is not None else []
        if len(words) != length or name is None:
            continue
        right = [stem(one) == stem(other) for one, other in zip(heard, words, strict=True)]
        if all(right):
            return None
        if any(right) and all(
            same or _sounds_like(one, other)
            for same, one, other in zip(right, heard, words, strict=True)
        ):
            return length, name
    return None


def _sounds_like(one: str, other: str) -> bool:
    sound = skeleton(one)
    return len(sound) > 1 and sound == skeleton(other) and ratio(one, other) >= _LEAST_ALIKE


@cache
def _names() -> dict[str, str]:
    """Names of two words or more in the plural by their sound; ambiguous sounds are left out."""
    out: dict[str, str] = {}
    twice: set[str] = set()
    for row in catalogue().values():
        for name in (row.name.replace("-", " "), *row.said):
            words = name.lower().replace("-", " ")
            if len(words.split()) < 2:
                continue
            for form in (words, words if words.endswith("s") else words + "s"):
                key = skeleton(form.replace(" ", ""))
                if key in out and catalogue_name(out[key]) != row.name:
                    twice.add(key)
                out.setdefault(key, form)
    return {key: name for key, name in out.items() if key not in twice}


@cache
def _owners() -> dict[str, str]:
    return {
        " ".join(stem(w) for w in name.lower().replace("-", " ").split()): row.name
        for row in catalogue().values()
        for name in (row.name.replace("-", " "), *row.said)
    }


def catalogue_name(name: str) -> str:
    """The movement that a name, singular or plural, belongs to."""
    return _owners().get(" ".join(stem(w) for w in name.split()), name)

"""Movement names by their sound: what a recogniser hears when it does not know the word."""

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from rapidfuzz.fuzz import ratio

from cuewright.movements.catalogue import catalogue, derived
from cuewright.phrases import stem

_LONGEST = 4
"""Words in a misheard name, at most."""
_LEAST_ALIKE = 40.0
"""Per cent of letters that two words of one sound share at least: not "leg" and "walk"."""
_HARD = (("ph", "f"), ("ck", "k"), ("tch", "k"), ("ch", "k"))
"""Letters that are one sound together."""
_ALIKE = str.maketrans("cqgjdbvzx", "kkkktpfss")
"""Voiced letters as unvoiced ones."""
_SILENT = re.compile(r"[aeiouyhw']")
_DOUBLE = re.compile(r"(.)\1+")


@lru_cache(maxsize=50_000)
def skeleton(words: str) -> str:
    """The consonants of words run together, voiced and unvoiced alike: "cattlebell" ktlpl."""
    for letters, sound in _HARD:
        words = words.replace(letters, sound)
    return _DOUBLE.sub(r"\1", _SILENT.sub("", words.translate(_ALIKE)))


def meant(norms: Sequence[str]) -> tuple[int, str] | None:
    """The movement name that the words at the start of ``norms`` sound like, and their number.

    Word for word: one at least is right as it stands, every other has the same two or more
    consonants. ``None`` where nothing fits or the words are a movement already.
    """
    for length in range(min(_LONGEST, len(norms)), 1, -1):
        heard = norms[:length]
        name = _names().get(skeleton("".join(heard)), "")
        said = name.split()
        if len(said) != length:
            continue
        right = [stem(one) == stem(other) for one, other in zip(heard, said, strict=True)]
        if all(right):
            return None
        alike = (_sounds_like(one, other) for one, other in zip(heard, said, strict=True))
        if any(right) and all(same or near for same, near in zip(right, alike, strict=True)):
            return length, name
    return None


def is_name(norms: Sequence[str]) -> bool:
    """Whether words are a movement's name as they stand."""
    return " ".join(map(stem, norms)) in _owners()


def catalogue_name(name: str) -> str:
    """The movement that a name, singular or plural, belongs to; else the name itself."""
    return _owners().get(_stems(name), name)


def _sounds_like(one: str, other: str) -> bool:
    sound = skeleton(one)
    return len(sound) > 1 and sound == skeleton(other) and ratio(one, other) >= _LEAST_ALIKE


@derived
def _names() -> dict[str, str]:
    """Names of two words or more by their sound; those that two movements share are left out."""
    out: dict[str, str] = {}
    shared: set[str] = set()
    for movement, name in _said():
        if " " not in name:
            continue
        for form in (name, name if name.endswith("s") else name + "s"):
            sound = skeleton(form.replace(" ", ""))
            if catalogue_name(out.setdefault(sound, form)) != movement:
                shared.add(sound)
    return {sound: name for sound, name in out.items() if sound not in shared}


@derived
def _owners() -> dict[str, str]:
    return {_stems(name): movement for movement, name in _said()}


def _said() -> Iterator[tuple[str, str]]:
    """Every movement with each of its names, in lower case and without hyphens."""
    for row in catalogue().values():
        for name in (row.name, *row.said):
            yield row.name, name.lower().replace("-", " ")


def _stems(name: str) -> str:
    return " ".join(map(stem, name.split()))

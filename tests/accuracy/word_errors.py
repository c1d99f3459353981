"""How many words a recogniser got wrong, however numbers and compound words are written."""

import re
from collections.abc import Iterator, Sequence

from rapidfuzz.distance import Levenshtein

from cuewright.normalise.numbers import ORDINAL, SCALE, SMALL

# Units as spoken and as written, and the other side of the Atlantic; common usage, no source.
_SAME = {
    "metre": "meter",
    "metres": "meters",
    "kilometre": "kilometer",
    "kilometres": "kilometers",
    "okay": "ok",
    "programme": "program",
    "colour": "color",
    "percent": "%",
}
_NUMERALS = SMALL.keys() | ORDINAL.keys()
_WORD = re.compile(r"\d+(?::\d\d)+|\d[\d,]*(?:\.\d+)?(?:st|nd|rd|th)?|[^\W\d_]+(?:'[^\W\d_]+)*|%")


def rate(reference: str, heard: str) -> float:
    """Wrong, missing and further words for each word of ``reference``, 0 when none is wrong."""
    said, got = plain(reference), plain(heard)
    return sum(_wrong(*differing) for _, *differing in _apart(said, got)) / max(len(said), 1)


def wrong_words(reference: str, heard: Sequence[str]) -> set[int]:
    """The places in ``heard`` of words that were not said; left out words have none."""
    said = plain(reference)
    parts = [(part, at) for at, word in enumerate(heard) for part in plain(word)]
    got = [part for part, _ in parts]
    return {
        parts[at][1] for places, *differ in _apart(said, got) if _wrong(*differ) for at in places
    }


def _apart(said: list[str], got: list[str]) -> Iterator[tuple[range, list[str], list[str]]]:
    """The stretches in which the two differ: the places in ``got``, and the words of each."""
    first = other = 0
    for same in Levenshtein.opcodes(said, got).as_matching_blocks():
        yield range(other, same.b), said[first : same.a], got[other : same.b]
        first, other = same.a + same.size, same.b + same.size


def _wrong(said: Sequence[str], got: Sequence[str]) -> int:
    """Words that differ; "push ups" and "pushups" do not."""
    return 0 if "".join(said) == "".join(got) else max(len(said), len(got))


def plain(text: str) -> list[str]:
    """The words in lower case, numbers in digits: "Twenty-one push-ups" is 21, push, ups."""
    words = _WORD.findall(text.lower().replace("\u2019", "'"))
    return list(_numbers([_SAME.get(word, word).replace(",", "") for word in words]))


def _numbers(words: Sequence[str]) -> Iterator[str]:
    """The words with each run of number words as one in digits."""
    at = 0
    while at < len(words):
        size, number = _number(words[at:])
        yield number if size else words[at]
        at += size or 1


def _number(words: Sequence[str]) -> tuple[int, str]:
    """How many words from the first on are one number, and that in digits."""
    if words[0] == "a" and len(words) > 1 and words[1] in SCALE:
        words = ("one", *words[1:])
    whole, part, size = 0, 0, 0
    while size < len(words):
        word = words[size]
        if word in SMALL and _fits(part, SMALL[word]):
            part += SMALL[word]
        elif word in ORDINAL and _fits(part, ORDINAL[word]):
            return size + 1, _th(whole + part + ORDINAL[word])
        elif word in SCALE and size:
            part, whole = (part * 100, whole) if word == "hundred" else (0, (whole + part) * 1000)
        elif not (
            word == "and" and whole + part >= 100 and _NUMERALS & {*words[size + 1 : size + 2]}
        ):
            break
        size += 1
    return size, str(whole + part)


def _fits(before: int, more: int) -> bool:
    """Whether "more" goes on a number: twenty one, a hundred twenty; not fifteen nine."""
    if before % 100 == 0:
        return before >= 100 or before == 0
    return before % 100 >= 20 and before % 10 == 0 and 0 < more < 10


def _th(number: int) -> str:
    ends = {1: "st", 2: "nd", 3: "rd"}
    return f"{number}{'th' if 10 <= number % 100 <= 20 else ends.get(number % 10, 'th')}"

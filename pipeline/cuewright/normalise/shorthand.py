"""Written shorthand to the words that it stands for: "5 rds", "30s", 4', 10-9-8…1."""

import re
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise

from cuewright.tables import raw

_CURLY = str.maketrans("\u2019\u2018\u201c\u201d\u2032\u2033\u00d7\u2013\u2011", "''\"\"'\"x--")
_PARTS = re.compile(r"([(\[*_]*)(.*?)([)\].,;:!?*_]*)", re.DOTALL)
_RUNGS = re.compile(r"(\d+)[-,](\d+)[-,]?(?:\d+[-,]?)*(?:\u2026|\.{2,3})[-,]?(\d+)")
_MOST_RUNGS = 40
_DASHES = ("-", "\u2013", "\u2014")


def longhand(written: Sequence[str]) -> list[str]:
    """Each written word as the words that it stands for; most stay as they are."""
    return list(_longhand(written))


def _longhand(written: Sequence[str]) -> Iterator[str]:
    for at, (word, after) in enumerate(pairwise((*written, ""))):
        if word in _DASHES and _is_named(written, at):
            yield ":"
        elif word[:3].lower() == "min" and at and written[at - 1].lower() == "every":
            yield f"1 {word}"
        elif word.lower() == "x" and after.lower() == "max":
            yield "sets of"
        else:
            yield _read(word, after)


def _is_named(written: Sequence[str], at: int) -> bool:
    """ "Minute 1 - 15 squats": the dash after the number of an interval is a colon."""
    return at > 1 and written[at - 1].isdigit() and written[at - 2].lower() in _named()


def _read(word: str, after: str) -> str:
    if word.isalpha() and len(word) > _longest():
        return word
    plain = word.translate(_CURLY)
    if (rungs := _rungs(plain)) is not None:
        return rungs
    tall = after.lower().strip(".,;:()") in _tall()
    lead, core, tail = _split(plain.replace('"', " inches", 1) if tall else plain)
    known = _words().get(core.lower())
    if known is not None:
        return lead + known + tail
    return lead + _opened(core) + tail if any(map(str.isdigit, core)) else word


def _split(word: str) -> tuple[str, str, str]:
    """The punctuation before, the word and the punctuation after it."""
    found = _PARTS.fullmatch(word)
    return (found[1], found[2], found[3]) if found else ("", word, "")


def _opened(core: str) -> str:
    for pattern, meant in _inside():
        core = pattern.sub(meant, core)
    return core


def _rungs(word: str) -> str | None:
    """ "10-9-8…1" with all its rungs."""
    found = _RUNGS.fullmatch(word.rstrip(":,;"))
    if found is None:
        return None
    top, second, last = (int(group) for group in found.groups())
    step = second - top
    if not step or (last - top) % step or not 2 < (last - top) // step < _MOST_RUNGS:
        return None
    return "-".join(map(str, range(top, last + (1 if step > 0 else -1), step)))


@cache
def _words() -> dict[str, str]:
    return dict(raw("cuewright.normalise", "shorthand.toml")["words"])


@cache
def _longest() -> int:
    return max(map(len, _words()))


@cache
def _tall() -> frozenset[str]:
    return frozenset(raw("cuewright.normalise", "shorthand.toml")["tall"])


@cache
def _named() -> frozenset[str]:
    return frozenset(raw("cuewright.normalise", "shorthand.toml")["named"])


@cache
def _inside() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple(_rows())


def _rows() -> Iterator[tuple[re.Pattern[str], str]]:
    for pattern, meant in raw("cuewright.normalise", "shorthand.toml")["inside"].items():
        yield re.compile(pattern, re.IGNORECASE), meant

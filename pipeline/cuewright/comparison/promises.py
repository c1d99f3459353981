"""What the coach says stands in the description, and does not."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from textwrap import shorten

from cuewright.comparison.difference import Difference
from cuewright.comparison.stations import Station
from cuewright.render import words
from cuewright.tables import raw
from cuewright_models.base import Value
from cuewright_models.plan import Claim
from cuewright_models.tokens import Reading

_LINK = re.compile(r"https?://|www\.|\.com\b|\]\(", re.IGNORECASE)
_MOST = 160
"""Signs of a promise that are quoted."""
_WORD = re.compile(r"[\w']+")


class Promises(Value):
    """The table ``promises.toml``."""

    empty: tuple[str, ...]
    places: tuple[str, ...]
    kept: Mapping[str, tuple[str, ...]]


@cache
def _table() -> Promises:
    return Promises.model_validate(raw("cuewright.comparison", "promises.toml"))


def promises(
    claims: Iterable[Claim], text: str, written: Sequence[Station], reading: Reading
) -> Iterator[Difference]:
    """A difference for each promise of which the description has nothing."""
    there = {_stem(word) for word in _words(text)}
    for claim in claims:
        quote = " ".join(said.quote for said in claim.said)
        if claim.kind != "in-description" or not set(_words(quote)) & set(_table().places):
            continue
        promised = _promised(quote, claim.about)
        if not _kept(claim.about, promised, there, text, written, reading):
            yield _unkept(claim)


def _words(text: str) -> list[str]:
    return _WORD.findall(text.lower().replace("\u2019", "'"))


def _stem(word: str) -> str:
    return word.removesuffix("'s").removesuffix("s")


def _promised(quote: str, about: str) -> list[str]:
    """The words that say what is promised, without the name that it is about."""
    names = {_stem(word) for word in about.split("-")} | {_stem(about)}
    told = (word for word in _words(quote) if word not in _table().empty)
    return [word for word in told if _stem(word) not in names and not word.isdigit()]


def _kept(
    about: str,
    promised: list[str],
    there: set[str],
    text: str,
    written: Sequence[Station],
    reading: Reading,
) -> bool:
    """Whether one of the promised words is there, or what may stand for it."""
    if any(_stem(word) in there for word in promised):
        return True
    wanted = {sign for word in promised for sign in _table().kept.get(_stem(word), ())}
    if "#link" in wanted and _LINK.search(text):
        return True
    if "#load" in wanted:
        return any(s.effort.load for s in written if about in (s.effort.movement, "description"))
    if promised:
        return False
    return about == "description" or any(m.name == about for m in reading.movements)


def _unkept(claim: Claim) -> Difference:
    quote = shorten(" ".join(said.quote for said in claim.said), _MOST, placeholder=" …")
    return Difference(
        rule="promise-unkept",
        about=claim.about,
        message=f"The talk says “{words.clean(quote)}”, and there is nothing of it.",
        expected=words.clean(quote),
        found="nothing of it",
        suggestion="Write what was promised; only the coach knows it.",
        heard=claim.said,
    )

"""Mishearings as captions show them: what was meant, in the writing of what was heard."""

import re
from collections.abc import Iterator, Sequence

from cuewright.normalise.mishearings import repair
from cuewright.normalise.spellings import respell
from cuewright.normalise.tokens import tokens
from cuewright_models.spoken import Mended
from cuewright_models.tokens import Swap, Token
from cuewright_models.transcript import Transcript

_AROUND = re.compile(r"^(\W*).*?(\W*)$", re.DOTALL)


def mended(heard: Transcript) -> tuple[Mended, ...]:
    """The words that were misheard, as far as they are whole words, in order."""
    read, swaps = repair(respell(tokens(heard)))
    return tuple(_written(heard, *words, swap) for swap in swaps if (words := _words(read, swap)))


def _words(read: Sequence[Token], swap: Swap) -> tuple[int, int] | None:
    """The words under a repair; ``None`` where it changes a part of one."""
    first, last = read[swap.start].first, read[swap.end - 1].last
    before, after = read[: swap.start][-1:], read[swap.end : swap.end + 1]
    shared = [*(t for t in before if t.last > first), *(t for t in after if t.first < last)]
    return None if shared else (first, last)


def _written(heard: Transcript, first: int, last: int, swap: Swap) -> Mended:
    told = " ".join(word.text for word in heard.words[first:last])
    return Mended(first=first, last=last, heard=told, meant=_as_heard(swap.meant, told))


def _as_heard(meant: str, told: str) -> str:
    """``meant`` with the capital and the punctuation of the words it stands for."""
    found = _AROUND.match(told)
    opens, closes = found.groups() if found else ("", "")
    letters = next(_letters(told), "")
    return opens + (meant[:1].upper() + meant[1:] if letters.isupper() else meant) + closes


def _letters(text: str) -> Iterator[str]:
    return (sign for sign in text if sign.isalpha())

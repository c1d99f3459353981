"""Transcript words to tokens: lower case, hyphens opened, punctuation set aside."""

import re
from collections.abc import Iterator
from functools import lru_cache

from cuewright.normalise.shorthand import longhand
from cuewright_models.tokens import Token
from cuewright_models.transcript import Transcript

# In order: 1,000 · 1:30 or 0:45:10 · 7.5 or 10th · a word with its apostrophes · a fraction
# sign · one sign that carries meaning between or after numbers.
_PIECE = re.compile(
    r"\d{1,3}(?:,\d{3})+(?!\d)|\d+:\d\d(?::\d\d)?|\d+(?:\.\d+)?(?:(?:st|nd|rd|th)\b)?"
    r"|[^\W\d_]+(?:'[^\W\d_]+)*|[½¼¾⅓⅔]|[-/%+@&'\"]"
)
_STOPS = {stop: stop for stop in ".?!…,;:—"} | {"\u2013": "—"}
"""Punctuation that a token keeps; an en dash is read as the long one."""
# Curly quotes, the multiplication sign, the minus sign and the hyphen that does not break.
_CURLY = str.maketrans("\u2019\u2018\u201c\u201d\u00d7\u2212\u2011", "''\"\"x--")
_SIGNS = frozenset("-/%+@&'\"")
_MAX_PAUSE_S = 60.0


def tokens(heard: Transcript) -> list[Token]:
    """Every word of the talk as tokens, in order; words of bare punctuation only mark."""
    starts = frozenset(heard.breaks) | frozenset(heard.turns)
    ends = frozenset(line.last for line in heard.outline)
    out: list[Token] = []
    previous_end: float | None = None
    fresh = True
    written = [word.text for word in heard.words]
    texts = longhand(written) if heard.outline else written
    for position, (_, start_s, end_s, _) in enumerate(heard.words):
        text = texts[position]
        fresh = fresh or position in starts
        pause = 0.0
        if start_s is not None and previous_end is not None and start_s > previous_end:
            pause = min(start_s - previous_end, _MAX_PAUSE_S)
        previous_end = end_s if end_s is not None else previous_end
        pieces, stop = _read(text)
        for norm in pieces:
            out.append(Token(norm, position, position + 1, "", pause, fresh))
            pause, fresh = 0.0, False
        if not stop and position + 1 in ends and out and not out[-1].after:
            stop = "."  # a line is a sentence, whether it has a stop or not
        if stop and out:
            out[-1] = out[-1]._replace(after=stop)
    return out


@lru_cache(maxsize=50_000)
def _read(text: str) -> tuple[tuple[str, ...], str]:
    """The readable parts of one word, and the punctuation that closes it."""
    if text.isalpha():  # most words of an automatic caption
        return (text.lower(),), ""
    return tuple(_pieces(text.translate(_CURLY).lower())), _stop(text)


def _stop(text: str) -> str:
    """The punctuation that closes a word, or stands alone as a dash."""
    tail = text.translate(_CURLY).rstrip("\"')]*_")
    if tail.endswith(("...", "…")):
        return "…"
    if tail.endswith(("--", " -")) or tail == "-":
        return "—"
    return _STOPS.get(tail[-1:], "")


def _pieces(text: str) -> Iterator[str]:
    """The readable parts of a text; a sign counts only beside a digit."""
    found = [match.group() for match in _PIECE.finditer(text)]
    for piece, before, follows in zip(found, ("", *found), (*found[1:], ""), strict=False):
        if piece in _SIGNS:
            yield from _sign(piece, before, follows)
        else:
            yield piece.replace(",", "") if piece[:1].isdigit() else piece


def _sign(sign: str, before: str, follows: str) -> Iterator[str]:
    """A sign as it is read between two pieces, if at all."""
    between = sign in "-/" and follows[:1].isdigit()
    if sign == "&":
        yield "and"
    elif sign in "+@%" or (before[-1:].isdigit() and (sign in "'\"" or between)):
        yield sign

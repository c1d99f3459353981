"""Transcript words to tokens: lower case, hyphens opened, punctuation set aside."""

import re
from collections.abc import Iterator

from cuewright_models.tokens import Token
from cuewright_models.transcript import Transcript, Word

# In order: 1,000 · 1:30 or 0:45:10 · 7.5 or 10th · a word with its apostrophes · a fraction
# sign · one sign that carries meaning between or after numbers.
_PIECE = re.compile(
    r"\d{1,3}(?:,\d{3})+(?!\d)|\d+:\d\d(?::\d\d)?|\d+(?:\.\d+)?(?:(?:st|nd|rd|th)\b)?"
    r"|[^\W\d_]+(?:'[^\W\d_]+)*|[½¼¾⅓⅔]|[-/%+@&×'\"]"
)
_STOPS = {".": ".", "?": "?", "!": "!", "…": "…", ",": ",", ";": ";", ":": ":", "—": "—", "–": "—"}
_CURLY = str.maketrans({"’": "'", "‘": "'", "“": '"', "”": '"', "×": "x", "−": "-", "\u2011": "-"})
_SIGNS = frozenset("-/%+@&'\"")
_MAX_PAUSE_S = 60.0


def tokens(heard: Transcript) -> list[Token]:
    """Every word of the talk as tokens, in order; words of bare punctuation only mark."""
    starts = frozenset(heard.breaks) | frozenset(heard.turns)
    out: list[Token] = []
    previous_end: float | None = None
    fresh = True
    for position, word in enumerate(heard.words):
        fresh = fresh or position in starts
        pause = _pause(word, previous_end)
        previous_end = word.end_s if word.end_s is not None else previous_end
        text = word.text
        if text.isalpha():  # most words of an automatic caption
            out.append(Token(text.lower(), position, position + 1, "", pause, fresh))
            fresh = False
            continue
        stop = _stop(text)
        pieces = list(_pieces(text.translate(_CURLY).lower()))
        for count, norm in enumerate(pieces, 1):
            after = stop if count == len(pieces) else ""
            out.append(Token(norm, position, position + 1, after, pause, fresh))
            pause, fresh = 0.0, False
        if not pieces and out and stop:
            out[-1] = out[-1]._replace(after=stop)
    return out


def _pause(word: Word, previous_end: float | None) -> float:
    if word.start_s is None or previous_end is None:
        return 0.0
    return min(max(word.start_s - previous_end, 0.0), _MAX_PAUSE_S)


def _stop(text: str) -> str:
    """The punctuation that closes a word, or stands alone as a dash."""
    tail = text.rstrip("\"'”’)]*_")
    if tail.endswith(("...", "…")):
        return "…"
    if tail.endswith(("--", " -")) or tail == "-":
        return "—"
    return _STOPS.get(tail[-1:], "")


def _pieces(text: str) -> Iterator[str]:
    """The readable parts of one word; a sign counts only beside a digit."""
    found = list(_PIECE.finditer(text))
    for at, match in enumerate(found):
        piece = match.group()
        if piece in _SIGNS:
            before = found[at - 1].group() if at else ""
            follows = found[at + 1].group() if at + 1 < len(found) else ""
            if piece in "&+@":
                yield "and" if piece == "&" else piece
            elif before[-1:].isdigit() and (
                piece in "%'\"" or (piece in "-/" and follows[:1].isdigit())
            ):
                yield piece
            elif piece == "%":
                yield piece
            continue
        yield piece.replace(",", "") if piece[:1].isdigit() else piece

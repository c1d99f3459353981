"""The name at the head of a written session."""

import re

from cuewright.parse.board import Board
from cuewright.parse.written.lines import Stated
from cuewright.parse.written.words import is_part
from cuewright_models.transcript import Transcript

_ENDS = re.compile(
    r"\s*[(|\[]|[:,]\s|:$|\s[-/\u00b7\u2013\u2014]+\s|[.!]+$|\s?[\u2300-\u2bff\U0001f300-\U0001faff]\ufe0f?"
)
_QUOTES = "\"'\u201c\u201d\u2018\u2019*_ "
_LONGEST = 8
_SMALL = ("a", "and", "at", "in", "of", "on", "the", "to")
"""Words of a name that have no capital."""


def named(heard: Transcript, board: Board, first: Stated) -> str | None:
    """The first part of the line that is no date and no amount; capitals as in a name."""
    text = " ".join(word.text for word in heard.words[first.line.first : first.line.last])
    for part in _ENDS.split(text):
        name = part.strip(_QUOTES)
        if name and len(name.split()) <= _LONGEST and not (_is_date(name, board) or is_part(name)):
            return name.title() if name.isupper() or name.islower() else name
    return None


def opening_name(heard: Transcript) -> str | None:
    """The name that a description in sentences begins with: "Softly Back, a class", "X is a"."""
    name: list[str] = []
    for at, word in enumerate(heard.words[: _LONGEST + 1]):
        if word.text in ("is", "was"):
            return " ".join(name) or None
        if not (word.text[:1].isupper() or (name and word.text in _SMALL)):
            return None
        name.append(word.text.rstrip(",:"))
        if word.text.endswith((",", ":")):
            return " ".join(name) if at else None
    return None


def _is_date(name: str, board: Board) -> bool:
    dated = {board.norm(at) for day in board.reading.dates for at in range(day.start, day.end)}
    words = re.findall(r"\w+", name.lower())
    return bool(words) and all(word in dated or word.isdigit() for word in words)

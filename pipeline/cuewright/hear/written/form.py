"""Whether a text is a session written down, by its form alone."""

import re
from collections.abc import Sequence

from cuewright_models.outline import Line
from cuewright_models.transcript import Word

_DENSE = re.compile(
    r"\b(?:\d+\s?rft|rft|rds|amrap\s?\d+|e\d*mom|\d+\s?[x\u00d7]\s?\d+|\d+/\d+\s?(?:kg|lb|cal))\b"
    r"|\b\d+(?:-\d+){2,}\b|\bx\s?\d+\b|\d['\"\u2019\u201d]",
    re.IGNORECASE,
)
_LABEL = re.compile(r"(?:\S+ ){0,3}\S+: ")
"""A few words and a colon, before what they are about."""
_TALK = frozenset((
    "i", "i'm", "i'll", "i've", "we", "we're", "we'll", "we've", "okay", "ok", "so", "um", "uh",
    "er", "gonna", "going", "it's", "that's", "there's", "you're", "you'll", "you've", "let's",
    "because", "really", "actually", "know", "think", "yeah", "well", "want", "what", "like",
))  # fmt: skip
"""Words of people who talk; a written session has hardly any."""
_MOST_TALK = 0.05
_NAME = 4
"""Words of a line that only names something."""
_SHORT = 12
"""Words of a line that is no sentence."""


def is_session(words: Sequence[Word], lines: Sequence[Line]) -> bool:
    """Whether lines are laid out as a session is: most of the words in lists, tables, figures."""
    if not lines:
        return False
    spoken = sum(word.text.lower().strip(".,!?").replace("\u2019", "'") in _TALK for word in words)
    if spoken > max(1, _MOST_TALK * len(words)):
        return False
    shaped = [line for line in lines if _is_shaped(words, line)]
    inside = sum(line.last - line.first for line in shaped)
    labelled = sum(_LABEL.match(_text(words, line)) is not None for line in shaped)
    marked = any(line.kind != "text" for line in lines) or labelled > 1 or _is_dense(words)
    most = 2 * len(shaped) >= len(lines) or 3 * inside >= len(words)
    return marked and most and any(map(_has_figure, words))


def _is_shaped(words: Sequence[Word], line: Line) -> bool:
    if line.kind in ("header", "row", "heading"):
        return True
    length = line.last - line.first
    if line.kind == "item":
        return length <= 4 * _SHORT
    text = _text(words, line)
    figures = len(re.findall(r"\d+", text))
    if _DENSE.search(text) is not None and 4 * figures >= length:
        return True
    if _LABEL.match(text) is not None and 6 * figures >= length:
        return True
    ends = text.rstrip().endswith((".", "?", "!"))
    told = figures > 0 or text.endswith(":") or length <= _NAME
    return length <= _SHORT and not ends and told


def _text(words: Sequence[Word], line: Line) -> str:
    return " ".join(word.text for word in words[line.first : line.last])


def _is_dense(words: Sequence[Word]) -> bool:
    """Whether it is written in figures: every third word has one, or a shorthand stands in it."""
    text = " ".join(word.text for word in words[:400])
    figures = sum(map(_has_figure, words))
    return _DENSE.search(text) is not None or 5 * figures >= len(words)


def _has_figure(word: Word) -> bool:
    return any(map(str.isdigit, word.text))

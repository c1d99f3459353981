"""Intervals of an ``every`` block that have work of their own: "first minute", "odds"."""

from collections.abc import Iterator

from cuewright.parse.board import Board
from cuewright.parse.drafts import Draft, Group
from cuewright.parse.spans import Row
from cuewright.parse.structures import Mark
from cuewright.parse.words import words

_NAMED = words("slots", "named")
_AFTER = words("slots", "after")
_IS = ("is", "it's")
_LEADING = ("", "and", "then", "so")
_ON_THE = (["on", "the"], ["in", "the"], ["for", "the"])
_HALVES = words("slots", "halves")
_NUMBERS = words("placing", "numbers")
_TELLING = _HALVES | _NAMED | {"minute"}


def slot_names(board: Board, row: Row) -> Iterator[Mark]:
    """Where "first one", "minute two", "odd minutes" and the like name an interval."""
    for span in row.spans:
        if span.letter != "o" and span.word not in _TELLING:
            continue
        after = board.norm(span.end)
        if span.letter == "o":
            alone = bool(board.reading.tokens[span.end - 1].after)
            at = board.norms(span.start - 2, span.start)
            names = span.start <= row.start + 1 or after in _AFTER or alone or at in _ON_THE
        else:
            leads = board.norm(span.start - 1) in _LEADING
            lone = span.word == "minute" and after in _IS and leads
            names = lone or span.word in _HALVES or (span.word in _NAMED and after in _NUMBERS)
        if names:
            yield Mark("slot", span.start, span.end)


def slot(draft: Draft) -> None:
    """What follows is the work of the next interval."""
    if draft.clock == "every":
        before = sum(isinstance(item, Group) for item in draft.top.items)
        draft.add(Group("slot", index=1 + before))

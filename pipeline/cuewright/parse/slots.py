"""Intervals of an ``every`` block that have work of their own: "first minute", "odds"."""

from collections.abc import Iterator
from itertools import pairwise
from operator import itemgetter

from cuewright.parse.board import Board
from cuewright.parse.drafts import Draft, Group, Work
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
_THINGS = words("rounds", "things") | words("slots", "things")


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


def divided_up(board: Board, draft: Draft) -> None:
    """Intervals whose heading was not heard, where other words tell how many there are.

    Work before the first heading is that of an interval of its own. Where the coach counts one
    more thing than has a heading, the fullest stretch between two efforts parts them.
    """
    if draft.clock != "every" or not _slots(draft):
        return
    told, starts, count = _things(board, draft), _starts(draft), len(_slots(draft))
    fits = starts % (count + 1) == 0
    if fits and (told == count + 1 or starts % count):
        _lead(draft)
    if fits and told == len(_slots(draft)) + 1 and not _part(draft):
        _count(_slots(draft), told)
    turns, count = draft.counted, len(_slots(draft))
    together = count > 1 and (told == count or (turns or 0) <= count)
    if turns and together and draft.times == turns and draft.duration_s is None:
        draft.times = turns * count  # "round all of them four times"


def _slots(draft: Draft) -> list[Group]:
    """The intervals that have work."""
    return [i for i in draft.top.items if isinstance(i, Group) and i.kind == "slot" and i.items]


def _lead(draft: Draft) -> None:
    """Work that stands before the first interval is the first of them."""
    items, loose = draft.top.items, list[Work | Group]()
    while items and isinstance(items[0], Work):
        loose.append(items.pop(0))
    if any(isinstance(work, Work) and not work.bare for work in loose):
        items.insert(0, Group("slot", items=loose))
    else:
        items[:0] = loose


def _things(board: Board, draft: Draft) -> int:
    """How many things take turns: "there are four stations", "three different things"."""
    first, last = draft.places[0][0], draft.places[-1][1]
    for amount in board.reading.amounts:
        if first <= amount.start < last and amount.shape == "one" and amount.unit is None:
            after = board.norms(amount.end, amount.end + 2)
            if not _THINGS.isdisjoint(after[:1] if after[:1] == ["of"] else after):
                return int(amount.low or 0)
    return 0


def _starts(draft: Draft) -> int:
    """How often the clock starts; 0 where that is not told."""
    if draft.times is None and draft.every_s and draft.duration_s:
        return round(draft.duration_s / draft.every_s)
    return draft.times or 0


def _count(slots: list[Group], told: int) -> None:
    """Number the intervals as the coach does, so that the one that was lost keeps its place."""
    said = [group.said for group in slots]
    if said == sorted({*said}) and said[0] > 0 and said[-1] <= told:
        for group in slots:
            group.index = group.said


def _part(draft: Draft) -> bool:
    """Part one interval in two where its efforts stand furthest from each other."""
    gaps = [
        (after.bound.first - before.bound.last, group, at)
        for group in _slots(draft)
        for at, (before, after) in enumerate(pairwise(group.items), 1)
        if isinstance(before, Work) and before.bound and not before.bare
        if isinstance(after, Work) and after.bound and not after.bare
    ]
    if not gaps:
        return False
    _, group, at = max(gaps, key=itemgetter(0))
    place = draft.top.items.index(group) + 1
    draft.top.items.insert(place, Group("slot", items=group.items[at:]))
    del group.items[at:]
    return True


def slot(draft: Draft, mark: Mark) -> None:
    """What follows is the work of the next interval."""
    if draft.clock == "every":
        if draft.open is None or draft.open.kind != "slot" or draft.open.items:
            draft.add(Group("slot"))
        if mark.amounts and draft.open is not None:
            draft.open.said = int(mark.amounts[0].low or 0)

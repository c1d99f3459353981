"""A cool-down that nobody announced: the stretches at the end of the last work."""

from collections.abc import Sequence

from cuewright.movements.catalogue import catalogue
from cuewright.parse.drafts import Draft, Group, Work

_EASY = frozenset(("walk", "jog"))


def wound_down(drafts: Sequence[Draft]) -> list[Draft]:
    """The drafts, with stretches that end the last work block as a block of their own."""
    out = list(drafts)
    work = [d for d in out if d.section == "work" and d.top.items]
    if not work or any(d.section == "cool-down" for d in out):
        return out
    last = work[-1]
    end = last.top.items[-1] if last.top.items else None
    group = end if isinstance(end, Group) and end.kind == "repeat" else last.top
    tail = _tail(group)
    kept = len(group.items) - len(tail)
    if last.clock == "intervals":  # a stretch with a time of its own is no station
        tail = [w for w in tail if w.amount is not None and w.amount.low != last.work_s]
        kept = len(group.items) - len(tail)
    if not tail or (kept == 0 and group is last.top and len(work) == 1):
        return out
    del group.items[kept:]
    places = [p for p in last.places if tail[0].bound is not None and p[1] > tail[0].bound.first]
    last.places = [p for p in last.places if p not in places]
    out.insert(
        out.index(last) + 1,
        Draft("cool-down", "cool-down", top=Group(items=list(tail)), places=places),
    )
    return [d for d in out if d.top.items]


def _tail(group: Group) -> list[Work]:
    """The longest run of stretches, after an easy walk or not, at the end of a group."""
    tail: list[Work] = []
    for item in reversed(group.items):
        if not isinstance(item, Work) or item.bound is None:
            break
        row = catalogue()[item.bound.movement]
        if "mobility" not in row.patterns and item.bound.movement not in _EASY:
            break
        tail.insert(0, item)
    if not any("mobility" in catalogue()[w.bound.movement].patterns for w in tail if w.bound):
        return []
    return tail

"""A cool-down that nobody announced: the stretches at the end of the last work."""

from collections.abc import Sequence

from cuewright.parse.drafts import Draft, Group, Work
from cuewright.parse.ground import ON_FOOT
from cuewright.parse.likeness import stretches


def wound_down(drafts: Sequence[Draft]) -> list[Draft]:
    """The drafts, with stretches that end the last work block as a block of their own."""
    out = list(drafts)
    work = [draft for draft in out if draft.section == "work" and draft.top.items]
    if not work or any(draft.section == "cool-down" for draft in out):
        return out
    last = work[-1]
    group = _last_group(last)
    tail = _tail(group)
    if last.clock == "intervals":  # a stretch with a time of its own is no station
        tail = [w for w in tail if w.amount is not None and w.amount.low != last.work_s]
    alone = len(tail) == len(group.items) and group is last.top and len(work) == 1
    if not tail or alone:
        return out
    out.insert(out.index(last) + 1, _split_off(last, group, tail))
    return [draft for draft in out if draft.top.items]


def _last_group(draft: Draft) -> Group:
    """The repeat that ends a block, or the block's own line."""
    end = draft.top.items[-1]
    return end if isinstance(end, Group) and end.kind == "repeat" else draft.top


def _tail(group: Group) -> list[Work]:
    """The longest run of stretches, after an easy walk or not, at the end of a group."""
    tail: list[Work] = []
    for item in reversed(group.items):
        if not isinstance(item, Work) or item.rest:
            break
        if not stretches(item.movement) and item.movement not in ON_FOOT:
            break
        tail.insert(0, item)
    return tail if any(stretches(work.movement) for work in tail) else []


def _split_off(draft: Draft, group: Group, tail: Sequence[Work]) -> Draft:
    """A cool-down of the last items of a group, with the places where they were said."""
    del group.items[len(group.items) - len(tail) :]
    first = tail[0].bound.first if tail[0].bound else 0
    places = [place for place in draft.places if place[1] > first]
    draft.places = [place for place in draft.places if place not in places]
    return Draft("cool-down", "cool-down", top=Group(items=list(tail)), places=places)

"""Drafts to blocks of the plan: shared amounts given out, units settled, structure named."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from cuewright.movements.catalogue import catalogue
from cuewright.parse.drafts import Draft, Group, Work, rest_after
from cuewright.parse.efforts import Bound
from cuewright.parse.likeness import stretches
from cuewright_models.base import Said
from cuewright_models.plan import (
    Amrap,
    Block,
    BlockKind,
    Effort,
    Every,
    ForTime,
    Intervals,
    Item,
    Ladder,
    Quality,
    Repeat,
    Rest,
    Sets,
    Slot,
    Structure,
    Unit,
)
from cuewright_models.tokens import Amount

Quote = Callable[[int, int], Said]
"""Evidence for a half-open range of tokens."""

_ORDER: dict[BlockKind, int] = {"warm-up": 0, "mobility": 0, "cool-down": 2}
"""What comes before the work and after it, whenever it is told."""
_NEAR_RUNGS = 40
"""Tokens between a movement and the rungs it climbs, at most."""
_FEWEST_METRES = 50
"""From here a bare number beside a run or a row is metres."""
_FEWEST_SECONDS, _TICK = 25, 5
"""From here a bare number beside a stretch or a hold is seconds, which come in fives."""


def build(drafts: Sequence[Draft], quote: Quote) -> tuple[Block, ...]:
    """The blocks in the order in which they are performed, numbered b1, b2 and so on."""
    made = [block for draft in drafts if (block := _block(draft, quote)) is not None]
    made.sort(key=lambda block: _ORDER.get(block.kind, 1))
    return tuple(b.model_copy(update={"id": f"b{i}"}) for i, b in enumerate(made, 1))


def _block(draft: Draft, quote: Quote) -> Block | None:
    items = _Maker(draft, quote).items(draft.top)
    if draft.rungs and not _laddered(draft.top):
        items = _with_ladder(items, draft.rungs)
    if not items:
        return None
    return Block(
        id="b0",
        kind=_kind(draft),
        structure=_structure(draft),
        items=tuple(items),
        said=tuple(quote(start, end) for start, end in _joined(draft.places)),
    )


def _kind(draft: Draft) -> BlockKind:
    """The block's kind; a work block that only stretches is a cool-down."""
    named = draft.movements
    if draft.kind == "conditioning" and draft.clock is None and named and not draft.named:
        return "cool-down" if all(map(stretches, named)) else draft.kind
    return draft.kind


def _with_ladder(items: Sequence[Item], rungs: tuple[int, ...]) -> list[Item]:
    """The items with those that have no amount as one ladder, where the first of them stood."""
    flat = [i for item in items for i in (item.items if isinstance(item, Repeat) else (item,))]
    loose = [item for item in flat if _climbs(item)]
    if not loose:
        return flat
    first = flat.index(loose[0])
    ladder = Ladder(rungs=rungs, items=tuple(loose), said=loose[0].said)
    return [*flat[:first], ladder, *(item for item in flat[first:] if not _climbs(item))]


def _laddered(group: Group) -> bool:
    """Whether the layout shows what stands on the ladder."""
    inner = (item for item in group.items if isinstance(item, Group))
    return group.kind == "ladder" or any(map(_laddered, inner))


def _climbs(item: Item) -> bool:
    return isinstance(item, Effort) and item.low is None and not item.max


def _joined(places: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Places that touch as one, so that a block is quoted in few pieces."""
    out: list[tuple[int, int]] = []
    for start, end in places:
        if out and out[-1][1] == start:
            out[-1] = (out[-1][0], end)
        else:
            out.append((start, end))
    return out


def _structure(draft: Draft) -> Structure:
    match draft.clock:
        case "amrap":
            return Amrap(duration_s=draft.duration_s)
        case "every":
            return _every(draft)
        case "intervals":
            return _intervals(draft)
        case "for-time":
            return ForTime(cap_s=draft.cap_s)
    after = rest_after(draft.top.items)
    if draft.sets or (draft.section == "work" and after is not None):
        return Sets(rest_s=draft.rest_s if draft.rest_s is not None else after)
    return Quality()


def _every(draft: Draft) -> Every:
    """A clock with its starts and its length, each from the other where one was not said."""
    every, times, duration = draft.every_s, draft.times, draft.duration_s
    if every and duration and not times:
        times = round(duration / every)
    elif every and times and not duration:
        duration = every * times
    return Every(every_s=every, times=times, duration_s=duration)


def _intervals(draft: Draft) -> Intervals:
    rounds = [i.times.low for i in draft.top.items if isinstance(i, Group) and i.times]
    times = draft.times or int(next((n for n in rounds if n), 1))
    return Intervals(work_s=draft.work_s, rest_s=draft.rest_s, times=times)


@dataclass(slots=True)
class _Maker:
    """Makes the items of one block."""

    draft: Draft
    quote: Quote

    def items(self, group: Group) -> list[Item]:
        """The plan's items of a group; bare efforts that nothing fills are dropped."""
        out: list[Item] = []
        for item in group.items:
            if isinstance(item, Group):
                slots = sum(isinstance(i, Slot) for i in out)
                out.extend(self._group(item, index=item.index or slots + 1))
            elif item.bound is None and item.amount is not None:
                out.append(self._rest(item.amount))
            elif (effort := self._effort(item)) is not None:
                out.append(effort)
        while out and isinstance(out[-1], Rest) and group.kind == "line":
            out.pop()  # a breather between two blocks belongs to neither
        return out

    def _group(self, group: Group, *, index: int) -> list[Item]:
        """A repeat or a slot, or its items alone where the clock or a single round says so."""
        rest_s, inner = group.rest_s, self.items(group)
        if group.kind == "repeat" and inner and isinstance(last := inner[-1], Rest):
            rest_s = last.low
            inner.pop()
        if not inner:
            return []
        said = (self.quote(*group.places[0]),) if group.places else ()
        if group.kind == "ladder":
            return [Ladder(rungs=group.rungs, items=tuple(inner), said=inner[0].said)]
        if group.kind == "slot":
            return [Slot(index=index, items=tuple(inner), said=said)]
        if group.times is None or self.draft.clock in ("amrap", "intervals", "every"):
            return inner
        if group.times.low == group.times.high == 1:
            return inner
        own = None if self._rests_between_sets(rest_s) else rest_s
        return [Repeat(times=group.times, items=tuple(inner), rest_s=own, said=said)]

    def _rests_between_sets(self, rest_s: float | None) -> bool:
        """Whether the block's structure holds the rest of its repeats."""
        slow = self.draft.clock is None and self.draft.section == "work"
        return slow and (self.draft.sets or rest_s is not None)

    def _rest(self, amount: Amount) -> Rest:
        low, high = _ends(amount)
        return Rest(low=low or 0, high=high or 0, said=(self.quote(amount.start, amount.end),))

    def _effort(self, work: Work) -> Effort | None:
        """The effort with its amount, or with that of the clock, the ladder or the list."""
        bound, amount, draft = work.bound, work.amount, self.draft
        if bound is None:
            return None
        if draft.clock == "intervals" and draft.work_s:
            return self._made(bound, "s", draft.work_s, draft.work_s)
        if bound.max:
            return self._made(bound, unit(amount, bound.movement))
        if amount is None and draft.rungs and not work.kept:
            return self._rung(bound)
        amount = amount or draft.share
        if amount is None:
            return self._made(bound, "none") if work.kept else None
        told: Unit = "s" if _is_held(bound, amount) else unit(amount, bound.movement)
        return self._made(bound, told, *_ends(amount))

    def _rung(self, bound: Bound) -> Effort | None:
        """An effort that climbs the ladder; its rungs are counted whole, not by the side."""
        if all(abs(at - bound.first) > _NEAR_RUNGS for at in self.draft.climbed):
            return None
        return self._made(replace(bound, per_side=False), "reps")

    def _made(
        self, bound: Bound, unit: Unit, low: float | None = None, high: float | None = None
    ) -> Effort:
        return Effort(
            movement=bound.movement,
            as_said=self.quote(bound.start, bound.end).quote,
            unit=unit,
            low=low,
            high=high,
            max=bound.max and low is None,
            per_side=bound.per_side,
            alternatives=bound.alternatives,
            said=(self.quote(bound.first, bound.last),),
        )


def _ends(amount: Amount) -> tuple[float | None, float | None]:
    """The lowest and the highest of an amount; an open end is closed by the other."""
    if amount.shape in ("pair", "list") and amount.values:
        return min(amount.values), max(amount.values)
    low = amount.low if amount.low is not None else amount.high
    return low, amount.high if amount.high is not None else low


def _is_held(bound: Bound, amount: Amount) -> bool:
    """ "Pigeon stretch for 45 each side": seconds that were not heard, not "thirty planks"."""
    row = catalogue().get(bound.movement)
    if row is None or amount.unit is not None or amount.start < bound.end:
        return False
    low = amount.low or 0
    return row.counted_in[0] == "s" and low >= _FEWEST_SECONDS and low % _TICK == 0


def unit(amount: Amount | None, movement: str) -> Unit:
    """The unit of an amount beside a movement; "a 400" beside a run is metres."""
    row = catalogue().get(movement)
    counted = row.counted_in if row is not None else ("reps",)
    if amount is None and counted[0] == "s":
        return "s"
    if amount is None or amount.unit is None:
        big = amount is not None and (amount.low or 0) >= _FEWEST_METRES
        if big and "m" in counted and "reps" not in counted[:1]:
            return "m"
        return "reps"
    if amount.unit in ("s", "m", "kcal"):
        return amount.unit
    return "reps"

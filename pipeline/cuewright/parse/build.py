"""Drafts to blocks of the plan: shared amounts given out, units settled, structure named."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from cuewright.movements.catalogue import catalogue
from cuewright.parse.blocks import kind_of
from cuewright.parse.drafts import Draft, Group, Work, rest_after
from cuewright_models.base import Said
from cuewright_models.plan import (
    Amrap,
    Block,
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

_ORDER = {"warm-up": 0, "mobility": 0, "cool-down": 2}
_NEAR_RUNGS = 40
"""Tokens between a movement and the rungs it climbs, at most."""
_FEWEST_METRES = 50
"""From here a bare number beside a run or a row is metres."""


def build(drafts: Sequence[Draft], quote: Quote) -> tuple[Block, ...]:
    """The blocks in the order in which they are performed."""
    made = [block for draft in drafts if (block := _block(draft, quote)) is not None]
    made.sort(key=lambda block: _ORDER.get(block.kind, 1))
    return tuple(b.model_copy(update={"id": f"b{i}"}) for i, b in enumerate(made, 1))


def _block(draft: Draft, quote: Quote) -> Block | None:
    maker = _Maker(draft, quote)
    items = maker.items(draft.top)
    if draft.rungs:
        items = [i for item in items for i in (item.items if isinstance(item, Repeat) else (item,))]
    if draft.rungs and (
        loose := [i for i in items if isinstance(i, Effort) and i.low is None and not i.max]
    ):
        first = items.index(loose[0])
        ladder = Ladder(rungs=draft.rungs, items=tuple(loose), said=loose[0].said)
        others = [(at, i) for at, i in enumerate(items) if i not in loose]
        items = [
            *(i for at, i in others if at < first),
            ladder,
            *(i for at, i in others if at > first),
        ]
    if not items:
        return None
    structure = _structure(draft)
    return Block(
        id="b0",
        kind=kind_of(draft),
        name=draft.name,
        structure=structure,
        items=tuple(items),
        said=tuple(quote(a, b) for a, b in _joined(draft.places)),
    )


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
    if draft.clock == "amrap":
        return Amrap(duration_s=draft.duration_s)
    if draft.clock == "every":
        return _every(draft)
    if draft.clock == "intervals":
        rounds = [i.times.low for i in draft.top.items if isinstance(i, Group) and i.times]
        times = draft.times or int(next((n for n in rounds if n), 1))
        return Intervals(work_s=draft.work_s, rest_s=draft.rest_s, times=times)
    if draft.clock == "for-time":
        return ForTime(cap_s=draft.cap_s)
    if draft.sets or (draft.section == "work" and rest_after(draft.top.items) is not None):
        return Sets(
            rest_s=draft.rest_s if draft.rest_s is not None else rest_after(draft.top.items)
        )
    return Quality()


def _every(draft: Draft) -> Every:
    every, times, duration = draft.every_s, draft.times, draft.duration_s
    if every and duration and not times:
        times = round(duration / every)
    elif every and times and not duration:
        duration = every * times
    return Every(every_s=every, times=times, duration_s=duration)


@dataclass(slots=True)
class _Maker:
    draft: Draft
    quote: Quote

    def items(self, group: Group) -> list[Item]:
        """The plan's items of a group; bare efforts that nothing fills are dropped."""
        out: list[Item] = []
        for item in group.items:
            if isinstance(item, Group):
                made = self._group(item)
                if made and isinstance(made[0], Slot):
                    made[0] = made[0].model_copy(
                        update={"index": 1 + sum(isinstance(i, Slot) for i in out)}
                    )
                out.extend(made)
            elif item.rest and item.amount is not None:
                out.append(self._rest(item.amount))
            elif (effort := self._effort(item, group)) is not None:
                out.append(effort)
        while out and isinstance(out[-1], Rest) and group.kind == "line":
            out.pop()  # a breather between two blocks belongs to neither
        return out

    def _group(self, group: Group) -> list[Item]:
        rest_s = group.rest_s
        inner = self.items(group)
        if group.kind == "repeat" and inner and isinstance(inner[-1], Rest):
            rest_s = inner.pop().low  # type: ignore[union-attr]
        if not inner:
            return []
        said = (self.quote(*group.places[0]),) if group.places else ()
        if group.kind == "slot":
            return [Slot(index=group.index, items=tuple(inner), said=said)]
        if group.times is None or self.draft.clock in ("amrap", "intervals", "every"):
            return inner
        if group.times.low == group.times.high == 1:
            return inner
        slow = self.draft.clock is None and self.draft.section == "work"
        rest = None if slow and (self.draft.sets or rest_s is not None) else rest_s
        return [Repeat(times=group.times, items=tuple(inner), rest_s=rest, said=said)]

    def _rest(self, amount: Amount) -> Rest:
        low, high = _ends(amount)
        return Rest(low=low or 0, high=high or 0, said=(self.quote(amount.start, amount.end),))

    def _effort(self, work: Work, group: Group) -> Effort | None:
        bound, draft = work.bound, self.draft
        if bound is None:
            return None
        amount, maximal = work.amount, bound.max
        said = (self.quote(bound.first, bound.last),)
        names = dict(movement=bound.movement, as_said=self.quote(bound.start, bound.end).quote)
        if draft.clock == "intervals" and draft.work_s:
            return Effort(
                **names, unit="s", low=draft.work_s, high=draft.work_s, per_side=bound.per_side,
                alternatives=bound.alternatives, said=said,
            )  # fmt: skip
        if draft.rungs and amount is None and not maximal and not work.kept:
            if all(abs(at - bound.first) > _NEAR_RUNGS for at in draft.climbed):
                return None
            return Effort(**names, unit="reps", alternatives=bound.alternatives, said=said)
        if amount is None and not maximal:
            amount = draft.share
        if amount is None and not maximal:
            return Effort(**names, per_side=bound.per_side, said=said) if work.kept else None
        low, high = _ends(amount) if amount is not None else (None, None)
        return Effort(
            **names,
            unit=unit(amount, bound.movement),
            low=None if maximal else low,
            high=None if maximal else high,
            max=maximal,
            per_side=bound.per_side,
            alternatives=bound.alternatives,
            said=said,
        )


def _ends(amount: Amount) -> tuple[float | None, float | None]:
    if amount.shape in ("pair", "list") and amount.values:
        return min(amount.values), max(amount.values)
    low = amount.low if amount.low is not None else amount.high
    return low, amount.high if amount.high is not None else low


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

"""Weights that were written down: each is for the work of its line.

One in a line without that work, "Bells: 24/16 kg", is for all of it that has none of its own.
Of a pair the heavier is for men, the lighter for women. Common practice, no source.
"""

from collections.abc import Callable, Iterator, Sequence

from cuewright.parse.loads import takes_load, told
from cuewright.parse.names import Names
from cuewright_models.divided import Clause, Divided
from cuewright_models.plan import Block, Effort, Item, Load, Rest, efforts
from cuewright_models.tokens import Reading, starting_in
from cuewright_models.transcript import Transcript

_Ends = tuple[float, float]
_Key = tuple[int | None, str]
"""A line and a movement; no line for all that have no weight of their own."""


def with_written_loads(
    blocks: Sequence[Block], divided: Divided, names: Names, heard: Transcript
) -> tuple[Block, ...]:
    """The blocks with each effort's weights; a cell of weights is for all work of its row."""
    rows = {line.number for line in heard.outline if line.kind == "row"}
    worked: dict[int | None, list[str]] = {}
    for block in blocks:
        for effort in efforts(block.items):
            worked.setdefault(_line(effort), []).append(effort.movement)
    found: dict[_Key, list[Load]] = {}
    for clause, loads in told(divided, names, exact=True):
        line = heard.lines[divided.reading.tokens[clause.start].first]
        if line in rows and _alone(clause, names):
            apart = [(name, load) for name in worked.get(line, ()) for _, load in loads]
            loads = [each for each in apart if takes_load(each[0])] or loads
        here = worked.get(line, ())
        _keep(found, [((line if name in here else None, name), load) for name, load in loads])
    return _each_with(blocks, lambda effort: _of(effort, found))


def _alone(clause: Clause, names: Names) -> bool:
    """Whether a clause, as a cell of a table, names no movement beside its weights."""
    return not starting_in(names.named, clause.start, clause.end)


def _keep(found: dict[_Key, list[Load]], loads: Sequence[tuple[_Key, Load]]) -> None:
    """Add loads that are told together; for several lines, what was told first stands."""
    before = {key: {load.who for load in held} for key, held in found.items()}
    for key, load in dict.fromkeys(loads):
        if key[0] is not None or load.who not in before.get(key, ()):
            found.setdefault(key, []).append(load)


def _of(effort: Effort, found: dict[_Key, list[Load]]) -> tuple[Load, ...]:
    mine = found.get((_line(effort), effort.movement))
    return tuple(mine or found.get((None, effort.movement), []))


def _line(effort: Effort) -> int | None:
    return effort.said[0].line if effort.said else None


def _each_with(
    blocks: Sequence[Block], loads: Callable[[Effort], tuple[Load, ...]]
) -> tuple[Block, ...]:
    """The blocks, each effort with what ``loads`` gives it."""

    def loaded(item: Item) -> Item:
        if isinstance(item, Rest):
            return item
        if isinstance(item, Effort):
            return item.model_copy(update={"load": loads(item)})
        return item.model_copy(update={"items": tuple(map(loaded, item.items))})

    return tuple(b.model_copy(update={"items": tuple(map(loaded, b.items))}) for b in blocks)


def parted(blocks: Sequence[Block], reading: Reading) -> tuple[Block, ...]:
    """The blocks with a load for each of a written pair."""
    pairs = {
        (min(amount.values), max(amount.values))
        for amount in reading.amounts
        if amount.shape == "pair" and len(amount.values) == 2
    }
    return _each_with(
        blocks, lambda effort: tuple(part for load in effort.load for part in _each(load, pairs))
    )


def _each(load: Load, pairs: set[_Ends]) -> Iterator[Load]:
    if load.who is not None or load.low == load.high or (load.low, load.high) not in pairs:
        yield load
        return
    yield load.model_copy(update={"low": load.high, "who": "men"})
    yield load.model_copy(update={"high": load.low, "who": "women"})

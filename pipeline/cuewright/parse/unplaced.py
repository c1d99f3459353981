"""Work that was understood and stands in no block: a known name beside an amount or in a list."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence

from cuewright.parse.build import Quote
from cuewright.parse.likeness import akin, head
from cuewright_models.divided import Divided
from cuewright_models.plan import Block, Unknown, efforts
from cuewright_models.tokens import Amount, Mention

_BESIDE = 2
"""Tokens between a name and its amount, at most."""
_LIST = 25
"""Tokens after "four things" in which they may be named."""
_TIMED = 14
"""Tokens after a name in which its time may still come."""
_WORK_S = 20.0
"""The least time that is work, not a tempo."""
_THINGS = frozenset(
    ["things", "exercises", "moves", "movements", "stations", "jobs", "spots", "stretches"]
)
_STOPS = (".", "?", "!")
_DONE = ("warm-up", "work", "cool-down")


def unplaced(divided: Divided, blocks: Sequence[Block], quote: Quote) -> Iterator[Unknown]:
    """Each movement that is asked for somewhere and is in no block, with its first place."""
    every = [effort for block in blocks for effort in efforts(block.items)]
    done = {name for effort in every for name in (effort.movement, *effort.alternatives)}
    starts = [clause.start for clause in divided.clauses]
    asked = _Asked(divided, starts)
    for mention in divided.reading.movements:
        short = "-".join(divided.reading.stems[mention.start : mention.end]) == head(mention.name)
        told = akin(mention.name, done) if short else mention.name in done
        if not told and asked.for_(mention):
            done.add(mention.name)
            heard = " ".join(t.norm for t in divided.reading.tokens[mention.start : mention.end])
            said = (quote(mention.start, mention.end),)
            yield Unknown(heard=heard, nearest=(mention.name,), said=said)


class _Asked:
    """Tells work from talk about it, by the words around a name."""

    def __init__(self, divided: Divided, starts: Sequence[int]) -> None:
        self._divided = divided
        self._starts = starts
        kept = [a for a in divided.reading.amounts if a.shape not in ("ordinal", "date", "other")]
        self._amounts = kept
        self._places = [amount.start for amount in kept]

    def for_(self, mention: Mention) -> bool:
        clause = self._divided.clauses[bisect_right(self._starts, mention.start) - 1]
        if clause.role == "example":
            return False
        if clause.role in ("prescription", "restatement") and clause.section in _DONE:
            return True
        near = self._near(mention.start - _LIST, mention.end + _TIMED)
        return any(self._counts(amount, mention) for amount in near)

    def _near(self, start: int, end: int) -> list[Amount]:
        first, last = bisect_left(self._places, start), bisect_left(self._places, end)
        return self._amounts[first:last]

    def _counts(self, amount: Amount, mention: Mention) -> bool:
        """Whether an amount makes work of a movement near it."""
        tokens = self._divided.reading.tokens
        if amount.end <= mention.start:
            after = tokens[amount.end].norm if amount.end < len(tokens) else ""
            beside = mention.start - amount.end <= _BESIDE and amount.unit != "kg"
            return after in _THINGS or (beside and tokens[amount.end - 1].after not in _STOPS)
        if amount.start < mention.end:
            return False
        timed = amount.unit == "s" and (amount.low or 0) >= _WORK_S
        counted = amount.unit in (None, "m") and amount.start - mention.end <= _BESIDE
        return timed or counted

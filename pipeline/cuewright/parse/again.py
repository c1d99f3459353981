"""A block's rounds, or how long it runs, told once more in its own words: "so twice through that".

The first number told stands in the plan; these are what it must agree with.
"""

from collections.abc import Iterator, Sequence

from cuewright.parse.build import Quote
from cuewright.parse.corrections import corrections, taken_back
from cuewright.parse.likeness import akin
from cuewright.parse.marks import Marks
from cuewright.parse.subjects import Places
from cuewright.parse.sums import EASY
from cuewright.tables import raw
from cuewright_models.divided import Divided
from cuewright_models.plan import (
    Amrap,
    Block,
    Claim,
    Every,
    Intervals,
    Item,
    Ladder,
    Repeat,
    efforts,
)
from cuewright_models.tokens import Amount, Reading, norm_at, starting_in

_AFTER = 20
"""Tokens after a block's words that still belong to it, at most."""
_BEFORE = 10
"""Tokens before a number in which it may be said that it is another's."""
_LISTED = 6
"""Tokens before a count in which the work that it is of is listed."""
_THIS_TIME = 32
"""Tokens from another day's rounds to those of today, at most."""
_SHORTEST = 120
"""Seconds; less is no length of a block."""


class Again:
    """Reads the numbers of a block that were told more than once."""

    def __init__(
        self,
        divided: Divided,
        blocks: Sequence[Block],
        places: Places,
        marks: Marks,
        quote: Quote,
    ) -> None:
        self._tokens = divided.reading.tokens
        self._reading = reading = divided.reading
        gone = taken_back(reading, corrections(reading))
        told = (a for a in reading.amounts if a.shape == "one" and a.start not in gone)
        self._amounts = [amount for amount in told if amount.low]
        self._blocks = blocks
        self._marks = marks
        self._quote = quote
        self._words: dict[str, frozenset[str]] = {
            key: frozenset(said) for key, said in raw("cuewright.parse", "again.toml").items()
        }
        self._movements = reading.movements
        self._homes = list(_homes(blocks, places, reading))

    def claims(self) -> Iterator[Claim]:
        """Every number told again, as a claim about its block."""
        yield from self._than_before()
        for block, start, end, last in self._homes:
            if isinstance(block.structure, Amrap):
                yield from self._lengths(block, start, last)
            if isinstance(block.structure, Every) and block.structure.duration_s:
                yield from self._met_in(block, start, last)
            if not isinstance(block.structure, Amrap) and not any(
                isinstance(item, Ladder) for item in block.items
            ):
                yield from self._rounds(block, start, end, last)

    def _rounds(self, block: Block, start: int, end: int, last: int) -> Iterator[Claim]:
        """Counts of all the rounds; what an effort has is its own, said again.

        Behind the block's words, what another block has is of that one.
        """
        own = {effort.low for effort in efforts(block.items)}
        own_names = {effort.movement for effort in efforts(block.items)}
        others = {times for other in self._blocks if other != block for times in turns(other)}
        for count, first, stop in self._counts(block, start, last):
            if self._strange(block, first):
                continue
            again = self._norm(first - 1) == "again" and count in own
            elsewhere = first >= end and count in others and not self._just_named(own_names, first)
            if not again and not elsewhere and not self._of_others(first):
                for about in self._about(block, first, stop):
                    yield self._turned(about, count, first, stop)

    def _just_named(self, names: set[str], at: int) -> bool:
        """Whether a block's work was listed right before a count: "rows, planks, five times"."""
        listed = starting_in(self._movements, at - _LISTED, at)
        return len(listed) > 1 and all(akin(mention.name, names) for mention in listed)

    def _turned(self, about: str, count: float, start: int, end: int) -> Claim:
        said = (self._quote(start, end),)
        return Claim(kind="restated", about=about, unit="rounds", low=count, high=count, said=said)

    def _about(self, block: Block, start: int, stop: int) -> Iterator[str]:
        """The block; each of its movements where each thing is done so often."""
        behind = [self._norm(stop), self._norm(stop + 1)] == ["of", "everything"]
        before = [self._norm(at) for at in range(start - 4, start)]
        each = "each" in before[:-1] and before[-1] in self._words["each-thing"]
        parted = behind or (each and isinstance(block.structure, Every))
        if not parted:
            yield block.id
        else:
            yield from dict.fromkeys(effort.movement for effort in efforts(block.items))

    def _than_before(self) -> Iterator[Claim]:
        """ "Last month we did four rounds, so today it's five": what it is this time."""
        for amount in self._amounts:
            if amount.unit is not None or self._norm(amount.end) not in self._words["rounds"]:
                continue
            led = any(
                self._marks.inside(name, amount.start - _BEFORE, amount.start)
                for name in ("other-day", "others", "days-back")
            )
            today = self._today(amount.end) if led else None
            home = self._last_told(amount.start)
            if today is not None and home is not None:
                yield self._turned(home.id, today.low or 0, today.start, today.end)

    def _today(self, at: int) -> Amount | None:
        """The number that "so it's", "now it is" or "today it's" gives, soon after a token."""
        for amount in starting_in(self._amounts, at, at + _THIS_TIME):
            lead = [self._norm(amount.start - back) for back in (3, 2, 1)]
            said = lead[2] == "it's" and lead[1] in self._words["this-time"]
            said = said or (lead[1:] == ["it", "is"] and lead[0] in self._words["this-time"])
            if said and amount.unit is None and not self._counts_else(amount.end):
                return amount
        return None

    def _counts_else(self, at: int) -> bool:
        """Whether something other than rounds is counted: "five squats", "five of those"."""
        named = bool(starting_in(self._movements, at, at + 2))
        return named or self._norm(at) in self._words["counts-else"]

    def _last_told(self, at: int) -> Block | None:
        """The block spoken of last, if it goes round and is not to get warm."""
        before = [(start, block) for block, start, _, _ in self._homes if start < at]
        last = max(before, key=lambda each: each[0])[1] if before else None
        return last if last and last.kind not in EASY and any(turns(last)) else None

    def _strange(self, block: Block, at: int) -> bool:
        """Whether "do that three times" points back to work that the block does not hold."""
        if self._norm(at - 1) not in ("that", "it"):
            return False
        told = starting_in(self._reading.movements, at - _AFTER, at)
        mine = {effort.movement for effort in efforts(block.items)}
        return bool(told) and not akin(told[-1].name, mine)

    def _counts(self, block: Block, start: int, end: int) -> Iterator[tuple[float, int, int]]:
        for amount in starting_in(self._amounts, start, end):
            if amount.unit is None and self._of_all(block, amount.start, amount.end):
                yield amount.low or 0, amount.start, amount.end + 1
        for at in range(start, min(end, len(self._tokens))):
            if self._norm(at) == "twice" and self._that(at):
                yield 2, at - 1, at + 1

    def _that(self, at: int) -> bool:
        """Whether what was just told is named right before a count: "do that", "through it"."""
        before, done = self._norm(at - 1), self._norm(at - 2)
        if before not in ("it", "that"):
            return before in self._words["that"]
        by_you = done != "do" or self._norm(at - 3) in self._words["you"]
        return done in self._words["done"] and by_you

    def _of_all(self, block: Block, start: int, end: int) -> bool:
        """Whether a count is of all the rounds of what was just told."""
        before, after = self._norm(start - 1), self._norm(end)
        then, last = self._norm(end + 1), self._norm(end + 2)
        if after == "times":
            return then in self._words["through"] or self._that(start)
        if after in self._words["rounds"]:
            whole = then == "of" and last in self._words["those"] and after != "lots"
            return whole or before in self._words["makes"] or then in self._words["everybody"]
        clocked = isinstance(block.structure, Every) and before in self._words["are"]
        return after == "of" and (
            (then == "them" and clocked) or (then == "those" and last == "and")
        )

    def _lengths(self, block: Block, start: int, end: int) -> Iterator[Claim]:
        own = {effort.low for effort in efforts(block.items) if effort.unit == "s"}
        for amount in starting_in(self._amounts, start, end):
            long = amount.unit == "s" and (amount.low or 0) >= _SHORTEST and amount.low not in own
            if long and self._runs(amount.start, amount.end) and not self._of_others(amount.start):
                yield self._lasting(block, amount)

    def _met_in(self, block: Block, start: int, end: int) -> Iterator[Claim]:
        """ "Four times in the twelve minutes": the length of what a clock starts."""
        for amount in starting_in(self._amounts, start, end):
            before = [self._norm(amount.start - back) for back in (3, 2, 1)]
            if amount.unit == "s" and before == ["times", "in", "the"]:
                yield self._lasting(block, amount)

    def _lasting(self, block: Block, amount: Amount) -> Claim:
        return Claim(
            kind="total-time",
            about=block.id,
            unit="s",
            low=amount.low,
            high=amount.high,
            said=(self._quote(amount.start, amount.end),),
        )

    def _runs(self, start: int, end: int) -> bool:
        """Whether a time is that of the clock: "in eight minutes", "eight minutes of"."""
        before, after = self._norm(start - 1), self._norm(end)
        if after in self._words["no-length"]:
            return False
        return before in self._words["within"] or after in self._words["clock"]

    def _of_others(self, at: int) -> bool:
        """Whether the number is another day's, another's, or an option's."""
        start = self._marks.around(at, at, _BEFORE)[0]
        told = ("others", "other-day", "recap-ends", "against-again")
        return any(self._marks.inside(name, start, at + 3) for name in told)

    def _norm(self, at: int) -> str:
        return norm_at(self._tokens, at)


def _homes(
    blocks: Sequence[Block], places: Places, reading: Reading
) -> Iterator[tuple[Block, int, int, int]]:
    """Each block with the tokens of its own words, and to where it is still spoken of."""
    starts = sorted(start for spans in places.values() for start, _ in spans)
    for block in blocks:
        mine = {effort.movement for effort in efforts(block.items)}
        for start, end in places.get(block.id, ()):
            last = min(end + _AFTER, len(reading.tokens))
            named = starting_in(reading.movements, end, last)
            others = [mention.start for mention in named if not akin(mention.name, mine)]
            following = [other for other in starts if other >= end]
            yield block, start, end, min([last, *others, *following])


def turns(block: Block) -> Iterator[float]:
    """Every count of rounds that a block has."""
    if isinstance(block.structure, (Every, Intervals)) and block.structure.times:
        yield block.structure.times
    yield from _repeated(block.items)


def _repeated(items: Sequence[Item]) -> Iterator[float]:
    for item in items:
        if isinstance(item, Repeat):
            yield from (end for end in (item.times.low, item.times.high) if end)
            yield from _repeated(item.items)

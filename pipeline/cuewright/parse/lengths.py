"""How long the session and its blocks are said to take."""

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from cuewright.parse.build import Quote
from cuewright.parse.marks import Marks
from cuewright.parse.subjects import Places
from cuewright.parse.sums import words
from cuewright_models.divided import Divided
from cuewright_models.plan import Block, Claim, Every, Intervals, StatedTime, Target
from cuewright_models.tokens import Amount, Mention, norm_at, starting_in

_EASY = ("warm-up", "mobility", "cool-down")
_LEAST_SESSION_S = 900.0
_LEAST_NAMED_S = 420.0
"""The same where it is called the session's right beside."""
_LONGEST_S = 4 * 3600.0
_LEAST_BLOCK_S = 100.0
_AROUND = 14
"""Tokens on either side of a time in which it may be said what it is the length of."""
_NEAR = 4
"""Tokens between a time and words that may say other things too, at most."""
_AFTER = 20
"""Tokens after a block's own words in which its length may still be said."""
_AFTER_CLOCK = 40
"""The same after a block that a clock runs."""
_LONG_BLOCK_S = 1800.0
"""What takes longer is the session, unless a part is named."""
_ENDS = 6
"""Tokens around a time at either end of a talk in which it may be said that it is the session's."""
_BESIDE = 3
"""Tokens after a time in which it may be said that it is of something else."""
_FRAME = 5
"""Tokens from "first move" to "to", and from there to "last stretch", at most."""
_MOVING = ("cues", "scaling", "pacing")
_THE = ("the", "that", "this", "your", "our")
_KNOWN = {"the", "those", "these", "that"}
"""Before a time that was said before: "over the 16 minutes"."""


@dataclass(frozen=True, slots=True)
class Length:
    """A time over the tokens ``start:end``, said of the block ``about`` or of the whole."""

    about: str
    amount: Amount
    start: int
    end: int


class Told:
    """Where each block was told, asked often."""

    def __init__(self, places: Places) -> None:
        spans = sorted((*span, block) for block, spans in places.items() for span in spans)
        self._starts = [start for start, _, _ in spans]
        self._ends = list(accumulate((end for _, end, _ in spans), max))
        self._blocks = [block for _, _, block in spans]

    def block_at(self, at: int) -> str | None:
        """The block that was last spoken of at or before a token."""
        nth = bisect_right(self._starts, at) - 1
        return self._blocks[nth] if nth >= 0 else None

    def all_before(self, at: int) -> bool:
        """Whether a token stands after the words of every block."""
        return bool(self._ends) and at >= self._ends[-1]

    def inside(self, at: int, reach: int) -> bool:
        """Whether a token stands in the words of a block, or up to ``reach`` after them."""
        nth = bisect_right(self._starts, at) - 1
        return nth >= 0 and at < self._ends[nth] + reach


def lengths(
    divided: Divided,
    blocks: Sequence[Block],
    places: Places,
    marks: Marks,
    wanted: set[int],
) -> Iterator[Length]:
    """Every length said, in order; the times that start at ``wanted`` are targets, not lengths.

    What a clock runs takes as long as it takes, so "you're looking at 14 minutes" is no wish there.
    """
    reader = _Reader(divided, blocks, places, marks)
    for amount in divided.reading.amounts:
        if _may_last(amount) and not reader.no_length(amount):
            length = reader.length(amount, wished=amount.start in wanted)
            if length is not None:
                yield length


def without_lengths(
    wanted: Sequence[Target], found: Sequence[Length], blocks: Sequence[Block]
) -> tuple[Target, ...]:
    """The targets less those that are the length of the session, or of what a clock runs."""
    work = [block.id for block in blocks if block.kind not in _EASY]
    clocked = {"total", *(block.id for block in blocks if _clocked(block))}
    told = {(one.about, one.amount.low, one.amount.high) for one in found if one.about in clocked}
    told |= {("total", low, high) for about, low, high in told if work == [about]}
    return tuple(t for t in wanted if t.unit != "s" or (t.about, t.low, t.high) not in told)


def _may_last(amount: Amount) -> bool:
    seconds = amount.high or amount.low or 0
    return amount.unit == "s" and _LEAST_BLOCK_S <= seconds <= _LONGEST_S


def _clocked(block: Block) -> bool:
    return isinstance(block.structure, (Every, Intervals))


def _interval(block: Block) -> float:
    """The seconds from one start to the next; endless where no clock runs."""
    match block.structure:
        case Every(every_s=every):
            return every or math.inf
        case Intervals(work_s=work, rest_s=rest):
            return (work or 0) + (rest or 0)
    return math.inf


_SUMMED = 4
"""Tokens that "that's", "which makes" and the like run to."""


class _Reader:
    """Tells what a time is the length of: the whole session, or the block last spoken of."""

    def __init__(
        self, divided: Divided, blocks: Sequence[Block], places: Places, marks: Marks
    ) -> None:
        self._tokens = divided.reading.tokens
        self._blocks = {block.id: block for block in blocks}
        self._movements = divided.reading.movements
        self._told = Told(places)
        self._marks = marks

    def no_length(self, amount: Amount) -> bool:
        """Whether words around a time say that it is none, or one of another day."""
        first, last = self._marks.around(amount.start, amount.end, _AROUND)
        known = norm_at(self._tokens, amount.start - 1) in _KNOWN
        near = max(amount.start - _NEAR, first, self._led_from(amount))
        before = self._marks.inside("against-length", near, amount.start)
        after = norm_at(self._tokens, amount.end) in words()["no-length"]
        after = after and norm_at(self._tokens, amount.end + 1) not in _THE
        elsewhere = self._marks.inside("other-day", first, amount.start)
        known = known or self._of_a_place(amount)
        return known or bool(before or elsewhere) or (after and last > amount.end)

    def _led_from(self, amount: Amount) -> int:
        """Where "that's" begins, right before a time: what stands before it is summed up."""
        for lead in ("so-long", "clock-sum"):
            for mention in self._marks.inside(lead, amount.start - _SUMMED, amount.start):
                if mention.end == amount.start:
                    return mention.start
        return 0

    def _of_a_place(self, amount: Amount) -> bool:
        """ "We've got the shed for an hour"."""
        led = norm_at(self._tokens, amount.start - 1) == "for"
        return led and norm_at(self._tokens, amount.start - 3) in _THE

    def length(self, amount: Amount, *, wished: bool) -> Length | None:
        """What is said to take ``amount``, if anything is."""
        here = self._told.block_at(amount.start)
        block = self._blocks.get(here or "")
        long = (amount.high or amount.low or 0) >= self._least_session(amount)
        whole = self._whole(amount, wished=wished) if long else ()
        if whole:
            return _told("total", amount, whole)
        if wished:
            return self._of_clock(amount, block)
        return (
            self._of_block(amount, block)
            or self._of_clock(amount, block)
            or (self._of_session(amount) if long else None)
        )

    def _least_session(self, amount: Amount) -> float:
        """Seconds from which a time may be the session's."""
        near = self._marks.around(amount.start, amount.end, _NEAR)
        named = self._marks.inside("session", *near)
        return _LEAST_NAMED_S if named else _LEAST_SESSION_S

    def _whole(self, amount: Amount, *, wished: bool) -> Sequence[Mention]:
        """Words around a time that speak of the whole session, and of no part of it."""
        around = self._marks.around(amount.start, amount.end, _AROUND)
        framed = list(self._framed(*around))
        if wished:
            if norm_at(self._tokens, amount.start - 1) == "want":
                return ()  # "start to finish I want twenty minutes"
            return [*framed, *self._marks.inside("session-is", *around)]
        whole = [*self._marks.inside("session", *around), *framed, *self._at_the_ends(amount)]
        if self._marks.inside("block", *around):
            return ()
        either = self._marks.inside("session-or-part", *around)
        outer = self._marks.section(amount.start) in ("open", "close") and not self._fresh(amount)
        return [*whole, *either] if whole or outer else ()

    def _at_the_ends(self, amount: Amount) -> Sequence[Mention]:
        """Before anything is prescribed, or once all is: "we've fifty minutes, no more"."""
        if self._told.block_at(amount.start) is not None and not self._told.all_before(
            amount.start
        ):
            return ()
        near = self._marks.around(amount.start, amount.end, _ENDS)
        if self._marks.inside("elsewhere-long", near[0], min(near[1], amount.end + _BESIDE)):
            return ()
        return self._marks.inside("session-weak", *near)

    def _framed(self, start: int, end: int) -> Iterator[Mention]:
        """ "First move to last stretch", "lights on to lights off"."""
        for at in range(start, end):
            if self._tokens[at].norm in words()["to"]:
                before = self._words(max(at - _FRAME, start), at)
                after = self._words(at + 1, min(at + 1 + _FRAME, end))
                if before & words()["opens"] and after & words()["closes"]:
                    yield Mention(max(at - _FRAME, start), at + 1, "frame")

    def _words(self, start: int, end: int) -> frozenset[str]:
        return frozenset(token.norm for token in self._tokens[start:end])

    def _of_block(self, amount: Amount, block: Block | None) -> Length | None:
        around = self._marks.around(amount.start, amount.end, _AROUND)
        near = self._marks.around(amount.start, amount.end, _NEAR)
        part = self._marks.inside("block", *around)
        if block is None or part:
            return _told(block.id, amount, part) if block else None
        just = [
            *self._marks.inside("so-long", near[0], amount.start),
            *self._marks.inside("session-or-part", *near),
            *self._marks.inside("sum-up", *near),
        ]
        return _told(block.id, amount, just) if just and self._fresh(amount) else None

    def _fresh(self, amount: Amount) -> bool:
        """Whether a time can be the length of the block that has just been told."""
        short = (amount.high or amount.low or 0) < _LONG_BLOCK_S
        return short and self._told.inside(amount.start, reach=_AFTER)

    def _of_clock(self, amount: Amount, block: Block | None) -> Length | None:
        """A time soon after what a clock runs, said as what comes out: "so twelve minutes"."""
        fresh = self._told.inside(amount.start, reach=_AFTER_CLOCK)
        if block is None or not fresh or (amount.high or 0) < 2 * _interval(block):
            return None
        if self._marks.section(amount.start) in _MOVING:
            return None
        near = self._marks.around(amount.start, amount.end, _NEAR)
        by = self._marks.inside("clock-sum-after", amount.end, near[1])
        within = self._told.inside(amount.start, reach=0)
        leads = ("so-long",) if within else ("so-long", "clock-sum")
        if self._alone(amount):
            by = [*by, Mention(amount.start, amount.end, "alone")]
        by = [*by, *(m for lead in leads for m in self._marks.inside(lead, near[0], amount.start))]
        return _told(block.id, amount, by) if by else None

    def _alone(self, amount: Amount) -> bool:
        """Whether a time opens a sentence that no movement follows: "Twenty minutes, that is."."""
        first, last = self._marks.around(amount.start, amount.end, _AROUND)
        named = starting_in(self._movements, first, last)
        return first == amount.start and last - amount.end <= _FRAME and not named

    def _of_session(self, amount: Amount) -> Length | None:
        around = self._marks.around(amount.start, amount.end, _AROUND)
        near = self._marks.around(amount.start, amount.end, _NEAR)
        by = [*self._marks.inside("session-or-part", *around), *self._marks.inside("sum-up", *near)]
        return _told("total", amount, by) if by else None


def _told(about: str, amount: Amount, by: Sequence[Mention]) -> Length:
    start = min([amount.start, *(m.start for m in by)])
    return Length(about, amount, start, max([amount.end, *(m.end for m in by)]))


def session_claims(found: Sequence[Length], quote: Quote) -> Iterator[Claim]:
    """The stated lengths of the whole session."""
    for length in found:
        if length.about == "total":
            low, high = length.amount.low, length.amount.high
            said = (quote(length.start, length.end),)
            yield Claim(kind="total-time", about="total", unit="s", low=low, high=high, said=said)


def with_stated_times(
    blocks: Sequence[Block], found: Sequence[Length], quote: Quote
) -> tuple[Block, ...]:
    """The blocks, each with every time that the coach said it takes."""
    return tuple(
        block.model_copy(update={"stated_time": tuple(_times(block, found, quote))})
        for block in blocks
    )


def _times(block: Block, found: Sequence[Length], quote: Quote) -> Iterator[StatedTime]:
    for length in found:
        if length.about == block.id:
            yield StatedTime(
                low=length.amount.low,
                high=length.amount.high,
                said=(quote(length.start, length.end),),
            )

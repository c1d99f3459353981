"""How long the session and its blocks are said to take."""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from cuewright.parse.build import Quote
from cuewright.parse.marks import Marks
from cuewright.parse.subjects import Places
from cuewright_models.divided import Divided
from cuewright_models.plan import Block, Claim, StatedTime
from cuewright_models.tokens import Amount, Mention

_LEAST_SESSION_S = 900.0
_LONGEST_S = 4 * 3600.0
_LEAST_BLOCK_S = 100.0
_AROUND = 14
"""Tokens on either side of a time in which it may be said what it is the length of."""
_NEAR = 4
"""Tokens between a time and words that may say other things too, at most."""
_AFTER = 20
"""Tokens after a block's own words in which its length may still be said."""
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

    def inside(self, at: int, reach: int) -> bool:
        """Whether a token stands in the words of a block, or up to ``reach`` after them."""
        nth = bisect_right(self._starts, at) - 1
        return nth >= 0 and at < self._ends[nth] + reach


def lengths(divided: Divided, places: Places, marks: Marks, wanted: set[int]) -> Iterator[Length]:
    """Every length said, in order; the times that start at ``wanted`` are targets, not lengths."""
    tokens, told = divided.reading.tokens, Told(places)
    for amount in divided.reading.amounts:
        before = tokens[amount.start - 1].norm if amount.start else ""
        if not _may_last(amount) or amount.start in wanted or before in _KNOWN:
            continue
        if marks.inside("against-length", max(amount.start - _NEAR, 0), amount.start):
            continue
        length = _length(amount, told, marks)
        if length is not None:
            yield length


def _may_last(amount: Amount) -> bool:
    seconds = amount.high or amount.low or 0
    return amount.unit == "s" and _LEAST_BLOCK_S <= seconds <= _LONGEST_S


def _length(amount: Amount, told: Told, marks: Marks) -> Length | None:
    """What a time is the length of: the whole session, or the block last spoken of."""
    around = marks.around(amount.start, amount.end, _AROUND)
    near = marks.around(amount.start, amount.end, _NEAR)
    whole, part = marks.inside("session", *around), marks.inside("block", *around)
    either, up = marks.inside("session-or-part", *around), marks.inside("sum-up", *near)
    so = marks.inside("so-long", near[0], amount.start)
    here = told.block_at(amount.start)
    long = (amount.high or amount.low or 0) >= _LEAST_SESSION_S
    outer = marks.section(amount.start) in ("open", "close")
    close = marks.inside("session-or-part", *near)
    just = [*so, *close, *up] if here and told.inside(amount.start, reach=_AFTER) else []
    if part and here is not None:
        return _told(here, amount, part)
    if long and (whole or (outer and either)):
        return _told("total", amount, [*whole, *either, *up])
    if just and here is not None:
        return _told(here, amount, just)
    return _told("total", amount, [*either, *up]) if long and (either or up) else None


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

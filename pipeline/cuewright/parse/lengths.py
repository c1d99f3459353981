"""How long the session and its blocks are said to take."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cuewright.parse.build import Quote
from cuewright.parse.marks import Marks
from cuewright.parse.subjects import Places
from cuewright_models.divided import Divided
from cuewright_models.plan import Block, Claim, StatedTime
from cuewright_models.tokens import Amount

_LEAST_SESSION_S = 900.0
_LONGEST_S = 4 * 3600.0
_LEAST_BLOCK_S = 100.0
_AROUND = 14
"""Tokens on either side of a time in which it may be said what it is the length of."""
_POINTS = frozenset("it's is be this take takes we've that's it".split())
_HEDGES = frozenset("about around roughly a an just only all at nearly nice even".split())


@dataclass(frozen=True, slots=True)
class Length:
    """A time over the tokens ``start:end``, said of the block ``about`` or of the whole."""

    about: str
    amount: Amount
    start: int
    end: int


def lengths(divided: Divided, places: Places, marks: Marks, wanted: set[int]) -> Iterator[Length]:
    """Every length said, in order; the times that start at ``wanted`` are targets, not lengths."""
    for amount in divided.reading.amounts:
        seconds = amount.high or amount.low or 0
        if amount.unit != "s" or amount.start in wanted or not _LEAST_BLOCK_S <= seconds <= _LONGEST_S:
            continue
        low, high = marks.sentence(amount.start)
        low, high = max(low, amount.start - _AROUND), min(high, amount.end + _AROUND)
        if marks.inside("against-length", max(low, amount.start - 4), amount.start):
            continue
        whole = marks.inside("session", low, high)
        part = [m for m in marks.inside("block", low, high) if _said_of(m.end, m.start, amount)]
        about = _about(divided, amount, bool(whole), bool(part), places)
        if about is not None:
            ends = [amount.end, *(m.end for m in (*whole, *part))]
            yield Length(about, amount, min([amount.start, *(m.start for m in (*whole, *part))]), max(ends))


def _said_of(end: int, start: int, amount: Amount) -> bool:
    return start >= amount.end or amount.start - end <= _AROUND


def _about(
    divided: Divided, amount: Amount, whole: bool, part: bool, places: Places
) -> str | None:
    """What a time is the length of: the whole session, or the block last spoken of."""
    here = block_at(places, amount.start)
    long = (amount.high or amount.low or 0) >= _LEAST_SESSION_S
    if part and here is not None and not (whole and long and not _inside(places, amount.start)):
        return here
    if whole and long:
        return "total"
    return None


def block_at(places: Places, at: int) -> str | None:
    """The block that was last spoken of at or before a token."""
    found = [(start, block) for block, spans in places.items() for start, _ in spans if start <= at]
    return max(found)[1] if found else None


def _inside(places: Places, at: int) -> bool:
    return any(start <= at < end for spans in places.values() for start, end in spans)


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

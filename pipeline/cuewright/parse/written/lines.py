"""The lines of a written session with all that the grammar finds in them."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from cuewright.parse import spans
from cuewright.parse.board import Board
from cuewright.parse.efforts import Bound, efforts
from cuewright.parse.kit import specific
from cuewright.parse.spans import Row, Span
from cuewright.parse.structures import Mark, marks
from cuewright.parse.written.words import kind_of, parts
from cuewright_models.outline import Line
from cuewright_models.plan import BlockKind
from cuewright_models.tokens import Amount, Mention, Token, starting_in

_STOPS = (".", "?", "!")
_REACH = 8
"""Tokens of a heading in which the part is named."""
_LONGEST = 6
"""Tokens of a movement's name, at most."""
_HALVES = {"odd": 1.0, "odds": 1.0, "even": 2.0, "evens": 2.0}
_LAPS = ("min", "mins", "minute", "minutes")
_LEAST_ON = 10
"""Seconds; less is no work between rests."""
_AMOUNTS = frozenset("ntdcp")


@dataclass(frozen=True, slots=True)
class Piece:
    """A sentence of a line, or a part of one that names a movement of its own."""

    start: int
    end: int
    row: Row
    marks: tuple[Mark, ...]
    efforts: tuple[Bound, ...]


@dataclass(frozen=True, slots=True)
class Stated:
    """One line over the tokens ``start:end``; ``kind`` is what its first words call a part."""

    line: Line
    start: int
    end: int
    pieces: tuple[Piece, ...]
    kind: BlockKind | None
    leading: bool
    """Whether the part is named by the very first words."""
    calls: tuple[Mention, ...]
    """Phrases that set the clock, or that stand before or after rounds."""
    leads: bool
    """True where the next line stands deeper."""
    runs_on: bool
    """True where it ends as what follows it is its own: "2 rounds of:"."""
    ends: bool
    """True where a gap, a heading or nothing follows."""

    @property
    def marks(self) -> list[Mark]:
        return [mark for piece in self.pieces for mark in piece.marks]

    @property
    def efforts(self) -> list[Bound]:
        return [bound for piece in self.pieces for bound in piece.efforts]

    def called(self, name: str) -> bool:
        """Whether a phrase stands in the line."""
        return any(call.name == name for call in self.calls)


def stated(board: Board, outline: Sequence[Line]) -> Iterator[Stated]:
    """Each line that has words that can be read, in order."""
    tokens = board.reading.tokens
    firsts = [token.first for token in tokens]
    named = parts().longest(board.reading.stems)
    for at, line in enumerate(outline):
        start, end = bisect_left(firsts, line.first), bisect_left(firsts, line.last)
        if start == end:
            continue
        following = outline[at + 1] if at + 1 < len(outline) else None
        here = starting_in(named, start, end)
        apart = line.names if line.kind == "heading" else line.brackets
        here = [m for m in here if not _inside(apart, tokens[m.start].first)]
        calls = (*starting_in(board.phrases, start, end), *here)
        yield Stated(
            line=line,
            start=start,
            end=end,
            pieces=tuple(_pieces(board, line, start, end)),
            kind=_kind(board, here, start, reach=_REACH if line.kind == "heading" else 2),
            leading=_kind(board, here, start, reach=0) is not None,
            calls=tuple(call for call in calls if not call.name.startswith(("kind ", "first "))),
            leads=following is not None and following.depth > line.depth,
            runs_on=tokens[end - 1].after == ":" or tokens[end - 1].norm == "of",
            ends=following is None or following.gap or following.kind == "heading",
        )


def _kind(board: Board, named: Sequence[Mention], start: int, *, reach: int) -> BlockKind | None:
    """The part that a phrase names within ``reach`` tokens from the start."""
    for mention in named:
        kind = kind_of(mention.name)
        near = mention.start - start <= reach and not _in_name(board, mention)
        if kind is not None and near:
            return kind
    return None


def _inside(ranges: Sequence[tuple[int, int]], word: int) -> bool:
    return any(first <= word < last for first, last in ranges)


def _in_name(board: Board, mention: Mention) -> bool:
    """Whether a word is of a movement's name: the stretch of "lat stretch"."""
    near = board.named(mention.start - _LONGEST, mention.end)
    return any(movement.end > mention.start for movement in near)


def _pieces(board: Board, line: Line, start: int, end: int) -> Iterator[Piece]:
    tokens = board.reading.tokens
    parted = set(line.parts) if line.kind not in ("row", "header") else set()
    cuts = [start]
    for at in range(start + 1, end):
        stopped = tokens[at - 1].after in (*_STOPS, ";")
        apart = tokens[at].first in parted and tokens[at].first != tokens[at - 1].first
        if stopped or (apart and board.named(cuts[-1], at) and board.named(at, end)):
            cuts.append(at)
    names = line.names if line.kind == "heading" else ()  # # Finisher "Row to Row"
    called = frozenset(at for at in range(start, end) if _inside(names, tokens[at].first))
    for first, last in zip(cuts, (*cuts[1:], end), strict=True):
        yield piece(board, first, last, without=called)


def piece(board: Board, start: int, end: int, without: frozenset[int] = frozenset()) -> Piece:
    """What the grammar finds in the tokens ``start:end``, less those ``without``."""
    tokens = board.reading.tokens
    row = spans.row(board.reading, start, end, without=without, rounds=board.rounds)
    found = tuple(marks(row, tokens))
    found = (
        *found,
        *_turns(row, found),
        *_recoveries(row, found),
        *_written_slots(row, tokens),
        *_of_most(row),
    )
    found = (*found, *_on_off(row, found))
    found = tuple(sorted(found, key=lambda mark: mark.start))
    bound = tuple(
        replace(each, movement=specific(each.movement, board.kit))
        for each in efforts(row, found, tokens)
    )
    return Piece(start, end, row, found, bound)


def _turns(row: Row, found: Sequence[Mark]) -> Iterator[Mark]:
    """ "10 push-ups x 4", "every 90 s x 8": how often, where it is not a movement's amount."""
    taken = {at for mark in found for at in range(mark.start, mark.end)}
    for at, span in enumerate(row.spans[:-1]):
        number = row.spans[at + 1]
        if span.word != "x" or number.letter != "n" or number.start in taken:
            continue
        if not _own_amount(row.spans, at) and number.amount is not None:
            yield Mark("turns", span.start, number.end, (number.amount,))


def _recoveries(row: Row, found: Sequence[Mark]) -> Iterator[Mark]:
    """ "4 x 4 min / 3 min": what stands behind the work of each interval is its rest."""
    for mark in found:
        if mark.kind != "by" or mark.amounts[0].unit not in ("s", "m"):
            continue
        after = next((span for span in row.spans if span.start >= mark.end), None)
        if after is not None and after.letter == "t" and after.start == mark.end:
            yield Mark("rest", after.start, after.end, (after.amount,) if after.amount else ())


def _written_slots(row: Row, tokens: Sequence[Token]) -> Iterator[Mark]:
    """ "Odd: 12 swings", "even: 10 push-ups"."""
    for at, span in enumerate(row.spans):
        if span.word in _HALVES and _opens(row.spans[at + 1 :], tokens[span.end - 1]):
            index = _HALVES[span.word]
            yield Mark("slot", span.start, span.end, (Amount(span.start, span.end, index, index),))


def _opens(following: Sequence[Span], token: Token) -> bool:
    """Whether work, or the word minutes, follows: an "Odd Lane" is no interval."""
    told = following[0] if following else None
    return token.after == ":" or (told is not None and (told.letter != "." or told.word in _LAPS))


def _of_most(row: Row) -> Iterator[Mark]:
    """ "3 x max push-ups": sets of as many as possible."""
    for number, times, most in zip(row.spans, row.spans[1:], row.spans[2:], strict=False):
        if number.letter == "n" and times.word == "x" and most.letter == "x" and number.amount:
            yield Mark("sets", number.start, times.end, (number.amount,))


def _on_off(row: Row, found: Sequence[Mark]) -> Iterator[Mark]:
    """ "45/15 x 3": seconds on and off, where nothing is named that they could be of."""
    counted = any(mark.kind in ("turns", "rounds") for mark in found)
    pair = next((span for span in row.spans if span.letter == "p"), None)
    if pair is None or pair.amount is None or not counted or "M" in row.letters[:2]:
        return
    on, off = pair.amount.values
    if on >= _LEAST_ON and not (on % 5 or off % 5):
        both = tuple(Amount(pair.start, pair.end, x, x, "s") for x in (on, off))
        yield Mark("intervals", pair.start, pair.end, both)


def _own_amount(row: Sequence[Span], at: int) -> bool:
    """Whether the number after an "x" is of what stands before it: "get-up x 2", "3 sets x 12"."""
    before = row[at - 1].letter if at else ""
    if before == "M":
        return at < 2 or row[at - 2].letter not in _AMOUNTS
    return before == "S"

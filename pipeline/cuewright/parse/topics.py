"""A stretch of talk as one line of words, in which movements and amounts are numbered marks.

``@2`` stands for the third movement of the stretch and ``#0`` for its first amount, so
that a rule about talk reads as a regular expression: ``instead of .*@(\\d+)``.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from cuewright.parse.names import Named, Names
from cuewright_models.divided import Clause, Divided
from cuewright_models.tokens import Amount, Token

_DETERMINERS = frozenset(("the", "those", "these", "your", "of", "on"))
_MOMENT_S = 2
"""Seconds that are only a manner of speaking: "for a second"."""
_NO_AMOUNTS = ("date", "other", "ordinal")


@dataclass(frozen=True)
class Piece:
    """The tokens ``start:end`` with the movements and amounts in them."""

    start: int
    end: int
    line: str
    named: tuple[Named, ...]
    amounts: tuple[Amount, ...]
    clauses: tuple[Clause, ...]
    scaling: bool = False
    """Whether it stands where the talk is about scaling: then less is enough to tell an offer."""


class Talk:
    """The tokens of a divided talk, its movements as this session means them, and its clauses."""

    def __init__(self, divided: Divided, names: Names) -> None:
        self.tokens: Sequence[Token] = divided.reading.tokens
        self.stems = divided.reading.stems
        self.clauses = divided.clauses
        self.session = frozenset(names.session)
        self.named = tuple(sorted((*names.named, *self._plurals(names))))
        self._amounts = [a for a in divided.reading.amounts if a.shape not in _NO_AMOUNTS]
        self._clause_ends = [c.end for c in divided.clauses]
        self._starts = [n.start for n in self.named]
        self._amount_starts = [a.start for a in self._amounts]
        self._said = [_spelt(token.norm, token.after) for token in self.tokens]
        self._pieces: dict[tuple[int, int], Piece] = {}

    def _plurals(self, names: Names) -> Iterator[Named]:
        """ "The hops": the one movement of the work whose name ends so."""
        lasts = [name.split("-")[-1] for name in names.work]
        homes = {
            last: name
            for last, name in zip(lasts, names.work, strict=True)
            if lasts.count(last) == 1
        }
        taken = {at for named in names.named for at in range(named.start, named.end)}
        for at in range(1, len(self.tokens)):
            stem, norm = self.stems[at], self.tokens[at].norm
            if stem == norm or stem not in homes or at in taken:
                continue
            first = bool(self.tokens[at - 1].after)
            if first or self.tokens[at - 1].norm in _DETERMINERS:
                yield Named(at, at + 1, homes[stem], homes[stem])

    @cached_property
    def stops(self) -> bool:
        """Whether the source sets stops at the ends of its sentences."""
        return sum(t.after in (".", "?", "!") for t in self.tokens) > len(self.tokens) * 0.02

    def clause(self, at: int) -> Clause:
        """The clause that holds the token ``at``."""
        return self.clauses[bisect_right(self._clause_ends, at)]

    def counts(self, at: int) -> bool:
        """Whether a token is part of an amount."""
        nth = bisect_right(self._amount_starts, at) - 1
        return nth >= 0 and at < self._amounts[nth].end

    def counted(self, named: Named, *, reach: int = 3) -> bool:
        """Whether an amount stands beside a movement, with no stop between."""
        first = bisect_left(self._amount_starts, named.start - reach)
        last = bisect_right(self._amount_starts, named.end + reach)
        for amount in self._amounts[first:last]:
            if amount.unit == "s" and (amount.low or 0) <= _MOMENT_S:
                continue
            ahead = amount.end <= named.start
            if ahead and self.tokens[named.start - 1].norm in ("the", "your"):
                continue
            gap = (amount.end, named.start) if ahead else (named.end, amount.start)
            if gap[1] - gap[0] <= reach and not self._stopped(*gap):
                return True
        return False

    def _stopped(self, start: int, end: int) -> bool:
        return any(token.after in (".", "?", "!", ";") for token in self.tokens[start - 1 : end])

    def within(self, start: int, end: int) -> tuple[Named, ...]:
        """The movements named in the tokens ``start:end``."""
        first = bisect_left(self._starts, start)
        last = bisect_left(self._starts, end)
        return self.named[first:last]

    def piece(self, start: int, end: int) -> Piece:
        """The tokens ``start:end`` as one line; where it ends is asked of a piece repeatedly."""
        if (start, end) not in self._pieces:
            self._pieces[start, end] = self._laid_out(start, end)
        return self._pieces[start, end]

    def _laid_out(self, start: int, end: int) -> Piece:
        named = [n for n in self.within(start, end) if n.end <= end]
        covered = {at for n in named for at in range(n.start, n.end)}
        amounts = [
            a for a in self._amounts_from(start, end)
            if a.end <= end and covered.isdisjoint(range(a.start, a.end))
        ]  # fmt: skip
        first = bisect_right(self._clause_ends, start)
        last = bisect_right(self._clause_ends, end - 1)
        line = " ".join(self._words(start, end, named, amounts))
        clauses = tuple(self.clauses[first : last + 1])
        return Piece(start, end, line, tuple(named), tuple(amounts), clauses)

    def _amounts_from(self, start: int, end: int) -> Sequence[Amount]:
        first = bisect_left(self._amount_starts, start)
        return self._amounts[first : bisect_left(self._amount_starts, end)]

    def _words(
        self, start: int, end: int, named: Sequence[Named], amounts: Sequence[Amount]
    ) -> Iterator[str]:
        marks = {n.start: (f"@{i}", n.end) for i, n in enumerate(named)}
        marks |= {a.start: (f"#{i}", a.end) for i, a in enumerate(amounts)}
        at = start
        for place in sorted(marks):
            if place >= at:
                yield from self._said[at:place]
                mark, at = marks[place]
                yield _spelt(mark, self.tokens[at - 1].after)
        yield from self._said[at:end]


def _spelt(word: str, after: str) -> str:
    """A word or mark as the line has it, with the punctuation that follows."""
    word = "them" if word == "em" else word
    return f"{word} {after}" if after else word

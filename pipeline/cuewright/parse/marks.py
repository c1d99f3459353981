"""The phrases of a table where they stand in a talk."""

from bisect import bisect_right
from functools import cache

from cuewright.phrases import Phrases
from cuewright.tables import raw
from cuewright_models.divided import Divided, Section
from cuewright_models.tokens import Mention, starting_in

_STOPS = (".", "?", "!")
_SILENCE_S = 1.2
"""A silence that ends a sentence where no full stop is written: common practice, no source."""


class Marks:
    """Every phrase by its name, and the clause around any token."""

    def __init__(self, divided: Divided, table: str) -> None:
        self._tokens = divided.reading.tokens
        self._clauses = divided.clauses
        self._starts = [clause.start for clause in divided.clauses]
        self._found: dict[str, list[Mention]] = {}
        for mention in _phrases(table).everywhere(divided.reading.stems):
            self._found.setdefault(mention.name, []).append(mention)

    def inside(self, name: str, start: int, end: int) -> list[Mention]:
        """The phrases called ``name`` that lie in ``start:end``."""
        found = self._found.get(name, [])
        return [m for m in starting_in(found, start, end) if m.end <= end]

    def all(self, name: str) -> list[Mention]:
        """Every phrase called ``name``, in order; of those that overlap the longest."""
        kept: list[Mention] = []
        taken: set[int] = set()
        for mention in sorted(self._found.get(name, []), key=lambda m: (m.start - m.end, m.start)):
            places = range(mention.start, mention.end)
            if taken.isdisjoint(places):
                taken.update(places)
                kept.append(mention)
        return sorted(kept, key=_start)

    def clause(self, at: int) -> tuple[int, int]:
        """The tokens of the clause that a token belongs to."""
        clause = self._clauses[bisect_right(self._starts, at) - 1]
        return clause.start, clause.end

    def section(self, at: int) -> Section:
        """The part of the talk that a token belongs to."""
        return self._clauses[bisect_right(self._starts, at) - 1].section

    def around(self, start: int, end: int, reach: int) -> tuple[int, int]:
        """The tokens up to ``reach`` on either side of ``start:end`` that nothing parts."""
        first, last = start, end
        while first > max(start - reach, 0) and not self._parted(first):
            first -= 1
        limit = min(end + reach, len(self._tokens))
        while last < limit and not self._parted(last):
            last += 1
        return first, last

    def _parted(self, at: int) -> bool:
        """Whether a full stop or a long silence stands before a token."""
        silent = at < len(self._tokens) and self._tokens[at].pause_s >= _SILENCE_S
        return silent or self._tokens[at - 1].after in _STOPS


def _start(mention: Mention) -> int:
    return mention.start


@cache
def _phrases(table: str) -> Phrases:
    rows = raw("cuewright.parse", table)
    return Phrases({name: row["said"] for name, row in rows.items() if "said" in row})

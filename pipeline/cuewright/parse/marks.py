"""The phrases of claims.toml where they stand in a talk."""

from bisect import bisect_left, bisect_right
from functools import cache

from cuewright.phrases import Phrases
from cuewright.tables import raw
from cuewright_models.divided import Clause, Divided
from cuewright_models.tokens import Mention


class Marks:
    """Every phrase by its name, and the clause around any token."""

    def __init__(self, divided: Divided) -> None:
        self._clauses = divided.clauses
        self._starts = [clause.start for clause in divided.clauses]
        self._found: dict[str, list[Mention]] = {}
        for mention in _phrases().everywhere(divided.reading.stems):
            self._found.setdefault(mention.name, []).append(mention)

    def inside(self, name: str, start: int, end: int) -> list[Mention]:
        """The phrases called ``name`` that lie in ``start:end``."""
        found = self._found.get(name, [])
        first = bisect_left(found, start, key=lambda m: m.start)
        return [m for m in found[first:] if m.end <= end]

    def all(self, name: str) -> list[Mention]:
        """Every phrase called ``name``, in order."""
        return self._found.get(name, [])

    def clause(self, at: int) -> Clause:
        """The clause that a token belongs to."""
        return self._clauses[bisect_right(self._starts, at) - 1]

    def sentence(self, at: int) -> tuple[int, int]:
        """The tokens of that clause."""
        clause = self.clause(at)
        return clause.start, clause.end


@cache
def _phrases() -> Phrases:
    table = raw("cuewright.parse", "claims.toml")
    return Phrases({name: row["said"] for name, row in table.items() if "said" in row})

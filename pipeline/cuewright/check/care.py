"""Which movements want care from whoever tells a session, and their names in a row."""

from collections.abc import Iterable
from functools import cache

from cuewright.movements.catalogue import catalogue, derived
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.movement import Movement


class Care(Value):
    """A row of care.toml, whose head explains the fields; ``rank`` 0 is the worst."""

    name: str
    what: str
    rank: int = 0
    flags: tuple[str, ...] = ()
    patterns: tuple[str, ...] = ()
    impact: str | None = None
    skill: int = 1
    never: tuple[str, ...] = ()
    newcomers: bool = False

    def fits(self, row: Movement) -> bool:
        """Whether the movement is of this kind."""
        return (
            row.skill >= self.skill
            and self.impact in (None, row.impact)
            and not (self.flags and set(self.flags).isdisjoint(row.flags))
            and not (self.patterns and set(self.patterns).isdisjoint(row.patterns))
            and set(self.never).isdisjoint(row.patterns)
        )


@cache
def rows() -> tuple[Care, ...]:
    """Every row of care.toml, worst first."""
    table = validated(raw("cuewright.check", "care.toml"), Care, where="care.toml")
    return tuple(row.model_copy(update={"rank": rank}) for rank, row in enumerate(table.values()))


@derived
def care(name: str) -> Care | None:
    """Why the movement wants care; ``None`` when it does not, or is not known."""
    row = catalogue().get(name)
    return next((each for each in rows() if each.fits(row)), None) if row else None


def worst_first(names: Iterable[str]) -> list[str]:
    """Every name once, those that want most care first, else in the order given."""
    return sorted(dict.fromkeys(names), key=_rank)


def _rank(name: str) -> int:
    found = care(name)
    return found.rank if found else len(rows())

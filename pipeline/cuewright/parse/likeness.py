"""When two efforts are one and the same, said twice or in two steps."""

from collections.abc import Set
from typing import TYPE_CHECKING

from cuewright.movements.catalogue import catalogue

if TYPE_CHECKING:
    from cuewright.parse.drafts import Work

_SMALL_WORDS = ("up", "down", "out")


def same(one: "Work", other: "Work") -> bool:
    """Whether two efforts ask for the same movement and amount, or ``one`` only names it."""
    if one.rest or other.rest or one.movement != other.movement:
        return False
    if one.amount is None or other.amount is None:
        return one.amount is None
    return (one.amount.low, one.amount.high, one.amount.unit) == (
        other.amount.low,
        other.amount.high,
        other.amount.unit,
    )


def named_first(bare: "Work", work: "Work") -> bool:
    """Whether a movement was named just before it got its amount."""
    return bare.bare and not work.bare and bare.movement == work.movement


def akin(movement: str, there: Set[str]) -> bool:
    """Whether a movement, or one with the same head word, is there: "rows" for band rows."""
    return movement in there or head(movement) in {head(name) for name in there}


def head(movement: str) -> str:
    """The word of a movement's name that others only describe: ``row`` of ``band-row``."""
    words = movement.split("-")
    return "-".join(words[-2:]) if words[-1] in _SMALL_WORDS else words[-1]


def stretches(movement: str) -> bool:
    """Whether a movement only loosens up."""
    return "mobility" in catalogue()[movement].patterns


def loosens_up(movement: str) -> bool:
    """Whether a movement stretches or moves about, as in a warm-up."""
    return not {"mobility", "locomotion"}.isdisjoint(catalogue()[movement].patterns)

"""Which movements of a talk and of a description may be one and the same."""

from cuewright.check.kinship import alike, related, short_for
from cuewright.movements.catalogue import catalogue
from cuewright_models.plan import Effort

SAME, SHORT, KIN = 10.0, 8.0, 4.0


def likeness(talk: Effort, other: Effort) -> float:
    """How well the movement of a description fits that of the talk; 0 where it does not.

    A shorter name of the same is as good ("split squat", with the back foot on a bench), and
    so is one of those that the coach lets choose. A variant is kin: it may be meant, and
    then it differs.
    """
    one, two = talk.movement, other.movement
    if one == two:
        return SAME
    if two in talk.alternatives or one in other.alternatives or _short(one, two):
        return SHORT
    return KIN if two in related(one) else 0.0


def one_thing(talk: Effort, other: Effort) -> bool:
    """Whether two movements need no correction."""
    return likeness(talk, other) >= SHORT


def _short(one: str, two: str) -> bool:
    if short_for(two, one):
        return True
    row = catalogue().get(one)
    return row is not None and "locomotion" in row.patterns and two in alike(one)

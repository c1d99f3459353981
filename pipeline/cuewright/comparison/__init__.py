"""The plan of a talk beside that of its description: what differs, and the text made true."""

from typing import NamedTuple

from cuewright.comparison.align import aligned
from cuewright.comparison.difference import Difference
from cuewright.comparison.promises import promises
from cuewright.comparison.shape import shape
from cuewright.comparison.stations import stations
from cuewright.comparison.whole import whole
from cuewright.comparison.work import work
from cuewright_models.plan import Plan
from cuewright_models.tokens import Reading

__all__ = ["Difference", "Side", "differences", "stations"]


class Side(NamedTuple):
    """A talk or a description: its plan, its words as read, and its text."""

    plan: Plan
    reading: Reading
    text: str = ""


def differences(talk: Side, other: Side) -> list[Difference]:
    """What the description ``other`` says otherwise than the talk; empty if it is true."""
    written = stations(other.plan)
    found = aligned(stations(talk.plan), written)
    return [
        *whole(talk.plan, other.plan, talk.reading),
        *work(found, talk.reading, other.reading),
        *shape(found),
        *promises(talk.plan.claims, other.text, written, other.reading),
    ]

"""The plan of a talk beside that of its description: what differs, and the text made true."""

from typing import NamedTuple

from cuewright.compare.align import aligned
from cuewright.compare.difference import Difference
from cuewright.compare.promises import promises
from cuewright.compare.shape import shape
from cuewright.compare.stations import stations
from cuewright.compare.whole import whole
from cuewright.compare.work import work
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

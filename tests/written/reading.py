"""A written text, read as ``cuewright plan`` reads a file that holds it."""

from io import BytesIO

from cuewright.flow import plan_of
from cuewright.hear import read
from cuewright_models.plan import Plan
from cuewright_models.transcript import Transcript


def taken_down(text: str) -> Transcript:
    """The text as a transcript."""
    return read("-", stdin=BytesIO(text.encode()))


def plan(text: str) -> Plan:
    """The text as a checked plan."""
    return plan_of(taken_down(text))

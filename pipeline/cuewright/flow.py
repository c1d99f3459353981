"""The stages in order: read this first."""

from pathlib import Path

from cuewright.divide import divide
from cuewright.hear import read
from cuewright.normalise import normalise
from cuewright.parse import parse
from cuewright_models.plan import Plan
from cuewright_models.transcript import Transcript


def plan_of(heard: Transcript) -> Plan:
    """Everything that happens to a talk once it has been heard, in order."""
    reading = normalise(heard)
    divided = divide(reading)
    return parse(heard, divided)


def read_plan(source: str | Path) -> Plan:
    """The checked plan of the talk in ``source``; raises UnreadableSource with one sentence."""
    return plan_of(read(source))

"""What to record anew, or to put on the screen: one entry for each place in the talk."""

from collections.abc import Iterable
from dataclasses import dataclass

from cuewright_models.base import Said
from cuewright_models.finding import Finding


@dataclass(frozen=True, slots=True)
class Mend:
    """One place in the talk. ``said`` is ``None`` for what has no place."""

    said: Said | None
    say: tuple[str, ...]
    """Sentences to say there instead."""
    do: tuple[str, ...]
    """What to do where the words are the coach's to choose."""


def mends(findings: Iterable[Finding]) -> tuple[Mend, ...]:
    """In the order of the recording; what has no time comes last.

    Where a finding points at several places, the last it names is the one to mend.
    """
    places: dict[Said | None, list[Finding]] = {}
    for finding in findings:
        if finding.say or finding.suggestion:
            place = finding.said[-1] if finding.said else None
            places.setdefault(place, []).append(finding)
    return tuple(_mend(place, places[place]) for place in sorted(places, key=when))


def when(place: Said | None) -> tuple[bool, float]:
    """For sorting places by time, untimed ones last and as they come."""
    if place is None or place.start_s is None:
        return True, 0.0
    return False, place.start_s


def _mend(place: Said | None, findings: list[Finding]) -> Mend:
    say = dict.fromkeys(finding.say for finding in findings if finding.say)
    do = dict.fromkeys(f.suggestion for f in findings if f.suggestion and not f.say)
    return Mend(place, tuple(say), tuple(do))

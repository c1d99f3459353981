"""Cues: stretches of text with a start and an end, and their way into one script."""

import math
from dataclasses import dataclass, field
from itertools import pairwise

from cuewright.hear.script import Script, Stamp

CHARACTERS_PER_S = 15.0
"""Speed of speech where a source leaves the end open: 150 words a minute, common practice."""

_EARLY, _LATE = 10.0, 60.0
"""Seconds: where a second file was put under the first, times fall from late to early."""


@dataclass(slots=True)
class Cue:
    """Plain text, ``\\n`` between lines, spoken from ``start_s`` to ``end_s``.

    Places in ``stamps``, ``voices`` and ``confidence`` count characters from its start.
    """

    start_s: float | None
    end_s: float | None
    text: str
    stamps: list[Stamp] = field(default_factory=list)
    voices: list[tuple[int, str]] = field(default_factory=list)
    confidence: dict[int, float] = field(default_factory=dict)

    def without_head(self, length: int) -> "Cue":
        """The cue less its first ``length`` characters."""
        return Cue(
            self.start_s,
            self.end_s,
            self.text[length:],
            [(place - length, second) for place, second in self.stamps if place >= length],
            [(max(0, place - length), voice) for place, voice in self.voices],
            {place - length: p for place, p in self.confidence.items() if place >= length},
        )

    def add(self, other: "Cue") -> None:
        """Put the lines of a cue of the same time under the lines of this one."""
        place = len(self.text) + 1
        self.text += "\n" + other.text
        self.stamps = []  # two word clocks at once cannot both be kept
        self.voices += [(place + at, voice) for at, voice in other.voices]
        self.confidence |= {place + at: c for at, c in other.confidence.items()}
        self.end_s = max(self.end_s or 0.0, other.end_s or 0.0)


def to_script(name: str, cues: list[Cue]) -> Script:
    """All cues in order of time, each with its own stretch of the clock."""
    cues, warnings = in_order(name, cues)
    script = Script("", warnings=warnings)
    pieces, place, now = [], 0, 0.0
    for cue in cues:
        end = place + len(cue.text)
        if cue.start_s is not None and cue.end_s is not None:
            stamps = [(0, cue.start_s), *cue.stamps, (len(cue.text), cue.end_s)]
            for at, second in stamps:
                now = max(now, min(second, cue.end_s))
                if not script.clock or script.clock[-1][0] < place + at:
                    script.clock.append((place + at, now))
            script.duration_s = now
        script.voices += [(place + at, voice) for at, voice in cue.voices]
        script.confidence |= {place + at: p for at, p in cue.confidence.items()}
        pieces.append(cue.text)
        place = end + 2
    script.text = "\n\n".join(pieces)
    return script


def in_order(name: str, cues: list[Cue]) -> tuple[list[Cue], list[str]]:
    """The cues by start, none reaching into the next, and what had to be mended."""
    warnings: list[str] = []
    timed = [cue for cue in cues if cue.start_s is not None]
    if not timed:
        return cues, warnings
    if len(timed) < len(cues):
        warnings.append(f"Parts of {name} have no times; theirs were estimated.")
        _fill_in(cues)
    if _put_parts_in_a_row(cues):
        warnings.append(f"Times in {name} start again at 0:00; the parts were put in a row.")
    if any(_start(a) > _start(b) for a, b in pairwise(cues)):
        warnings.append(f"Times in {name} run backwards; its cues were put in order of time.")
        cues = sorted(cues, key=_start)
    if any(cue.end_s is not None and cue.end_s < _start(cue) for cue in cues):
        warnings.append(f"{name} has cues that end before they start; their ends were estimated.")
    cues = _merged(cues)
    for cue, following in zip(cues, [*cues[1:], None], strict=False):
        _close(cue, following)
    return cues, warnings


def _fill_in(cues: list[Cue]) -> None:
    """Let a cue without a start follow the one before it."""
    now = 0.0
    for cue in cues:
        if cue.start_s is None:
            cue.start_s, cue.end_s, cue.stamps = now, None, []
        now = _start(cue) + len(cue.text) / CHARACTERS_PER_S
        if cue.end_s is not None and cue.end_s >= cue.start_s:
            now = cue.end_s


def _put_parts_in_a_row(cues: list[Cue]) -> bool:
    """Let each part of a file that was put together start where the one before it ends."""
    starts = [0.0, *map(_start, cues), math.inf]
    offset = 0.0
    for place, cue in enumerate(cues):
        before, here, after = starts[place : place + 3]
        if before > _LATE and here < _EARLY and here <= after < _LATE:
            offset = max(_start(cues[place - 1]), cues[place - 1].end_s or 0.0)
        if offset:
            cue.start_s = here + offset
            cue.end_s = None if cue.end_s is None else cue.end_s + offset
            cue.stamps = [(at, second + offset) for at, second in cue.stamps]
    return offset > 0


def _merged(cues: list[Cue]) -> list[Cue]:
    """Cues of one start as one cue, with a text that stands twice in it once."""
    merged: list[Cue] = []
    texts: set[str] = set()
    for cue in cues:
        if not merged or merged[-1].start_s != cue.start_s:
            merged.append(cue)
            texts = {cue.text}
        elif cue.text not in texts:
            texts.add(cue.text)
            merged[-1].add(cue)
    return merged


def _start(cue: Cue) -> float:
    return cue.start_s or 0.0


def _close(cue: Cue, following: Cue | None) -> None:
    start = _start(cue)
    if cue.end_s is None or cue.end_s < start:
        cue.end_s = start + len(cue.text) / CHARACTERS_PER_S
    if following and start <= _start(following) < cue.end_s:
        # Players keep a line on the screen while the next one is spoken.
        cue.end_s = _start(following)

"""Captions that roll: each cue shows the line before once more."""

from itertools import pairwise

from cuewright.hear.cues import Cue

_SHARE = 1 / 4
"""Share of cues that must carry a line over and add one, before repeats are no speech."""

_ENOUGH = 10
"""Characters of one carried line that are unlikely to be said twice in a row."""

_LINES = 6


def unroll(cues: list[Cue]) -> list[Cue]:
    """The cues with every line once, where the file rolls; otherwise as they are."""
    if len(cues) < 2:
        return cues
    repeats = [0, *(_repeated(a.text, b.text) for a, b in pairwise(cues))]
    carried = [r for cue, r in zip(cues, repeats, strict=True) if 0 < r < len(cue.text)]
    if len(carried) < _SHARE * (len(cues) - 1) or (
        len(carried) < 2 and max(carried, default=0) < _ENOUGH
    ):
        return cues
    shown = [cue.without_head(length) for cue, length in zip(cues, repeats, strict=True)]
    return [cue for cue in shown if cue.text.strip()]


def _repeated(before: str, after: str) -> int:
    """How many characters of ``after`` stood already as last lines in ``before``."""
    lines = before.split("\n")[-_LINES:]
    for first in range(len(lines)):
        tail = "\n".join(lines[first:])
        rest = after[len(tail) :]
        if tail and after.startswith(tail) and not rest[:1].strip():
            return len(after) - len(rest.lstrip())
    return 0

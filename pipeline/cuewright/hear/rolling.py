"""Captions that roll: each cue shows the line before once more."""

from cuewright.hear.cues import Cue

_SHARE = 1 / 3
"""Share of cues that must repeat before repeats are taken for rolling and not for speech."""

_LINES = 6


def unroll(cues: list[Cue]) -> list[Cue]:
    """The cues with every line once, where the file rolls; otherwise as they are."""
    repeats = [0, *(_repeated(a.text, b.text) for a, b in zip(cues, cues[1:], strict=False))]
    if sum(map(bool, repeats)) < max(2, _SHARE * (len(cues) - 1)):
        return cues
    shown: list[Cue] = []
    for cue, length in zip(cues, repeats, strict=True):
        rest = cue.without_head(length)
        if rest.text.strip():
            shown.append(rest)
        elif shown and cue.end_s is not None:
            shown[-1].end_s = max(shown[-1].end_s or 0.0, cue.end_s)
    return shown


def _repeated(before: str, after: str) -> int:
    """How many characters of ``after`` stood already as last lines in ``before``."""
    lines = before.split("\n")[-_LINES:]
    for first in range(len(lines)):
        tail = "\n".join(lines[first:])
        if tail and after.startswith(tail) and not after[len(tail) : len(tail) + 1].strip():
            return len(tail)
    return 0

"""Sections over the whole talk: the best path through the evidence of its clauses."""

from collections import Counter
from collections.abc import Sequence

from cuewright.divide.evidence import SECTIONS, table
from cuewright_models.divided import Section

_STAY = 0.0
_MOVE = -2.5
_HEAD = 8
"""Clauses from the start within which an opening is likely."""
_MOVES: dict[tuple[Section, Section], float] = {
    **{("open", section): -1.5 for section in SECTIONS if section != "open"},
    **{(section, "open"): -4.0 for section in SECTIONS if section != "open"},
    **{("close", section): -5.0 for section in SECTIONS if section != "close"},
    **{("recap", section): -1.5 for section in SECTIONS if section != "recap"},
}


def sections(found: Sequence[Counter[str]]) -> list[Section]:
    """One section a clause; ``found`` are the clauses' labels."""
    if not found:
        return []
    scores: dict[Section, float] = {s: (0.0 if s == "open" else -4.0) for s in SECTIONS}
    paths: list[dict[Section, Section]] = []
    for place, counts in enumerate(found):
        came: dict[Section, Section] = {}
        fresh: dict[Section, float] = {}
        for section in SECTIONS:
            best = max(SECTIONS, key=lambda s: scores[s] + _move(s, section))  # noqa: B023
            came[section] = best
            fresh[section] = scores[best] + _move(best, section) + _speaks(counts, section)
            if section == "open" and place >= _HEAD:
                fresh[section] -= 0.3
            if section == "close" and place < len(found) - 12:
                fresh[section] -= 0.7
        scores = fresh
        paths.append(came)
    last = max(SECTIONS, key=lambda s: scores[s])
    out = [last]
    for came in reversed(paths[1:]):
        out.append(came[out[-1]])
    return out[::-1]


def _move(before: Section, after: Section) -> float:
    return _STAY if before == after else _MOVES.get((before, after), _MOVE)


def _speaks(counts: Counter[str], section: Section) -> float:
    rows = table()
    return sum(rows[label].section.get(section, 0.0) * n for label, n in counts.items())

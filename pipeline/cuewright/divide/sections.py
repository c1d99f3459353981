"""Sections over the whole talk: the best path through the evidence of its clauses."""

from collections import Counter
from collections.abc import Sequence

from cuewright.divide.evidence import SECTIONS, table
from cuewright_models.divided import Section

_STAY = 0.0
_MOVE = -2.5
_EASED = -0.7
_USUAL: dict[Section, tuple[float, float]] = {"warm-up": (0.0, 0.55), "cool-down": (0.3, 1.0)}
"""Shares of the talk where a warm-up and a cool-down usually stand."""
_UNUSUAL = 0.15
_TOO_EARLY = 6.0
"""What speaks against a recap before anything is prescribed."""
_LATER = 1e-4
_HEAD = 8
"""Clauses from the start within which an opening is likely."""
_MOVES: dict[tuple[Section, Section], float] = {
    **{("open", section): -1.5 for section in SECTIONS if section != "open"},
    **{(section, "open"): -4.0 for section in SECTIONS if section != "open"},
    **{("close", section): -5.0 for section in SECTIONS if section != "close"},
    **{(section, "cool-down"): -4.0 for section in SECTIONS if section != "cool-down"},
    **{(section, "recap"): -4.0 for section in SECTIONS if section != "recap"},
    **{("recap", section): -1.0 for section in SECTIONS if section != "recap"},
    ("open", "cool-down"): -6.0,
    **{(section, "warm-up"): -3.0 for section in SECTIONS if section != "warm-up"},
    ("warm-up", "work"): -1.5,
    ("warm-up", "cool-down"): -7.0,
    ("cool-down", "work"): -4.0,
    ("cool-down", "warm-up"): -5.0,
}


def sections(found: Sequence[Counter[str]]) -> list[Section]:
    """One section a clause; ``found`` are the clauses' labels."""
    if not found:
        return []
    scores: dict[Section, float] = {s: (0.0 if s == "open" else -4.0) for s in SECTIONS}
    first = next((i for i, counts in enumerate(found) if counts["prescribes"]), len(found))
    paths: list[dict[Section, Section]] = []
    for place, counts in enumerate(found):
        eased = counts["onward"] > 0 or (place > 0 and found[place - 1]["over"] > 0)
        came: dict[Section, Section] = {}
        fresh: dict[Section, float] = {}
        for section in SECTIONS:
            best = max(SECTIONS, key=lambda s: scores[s] + _move(s, section, eased, place))  # noqa: B023
            came[section] = best
            fresh[section] = (
                scores[best] + _move(best, section, eased, place) + _speaks(counts, section)
            )
            if section == "open" and place >= _HEAD:
                fresh[section] -= 0.3
            if (
                section in _USUAL
                and not _USUAL[section][0] <= place / len(found) <= _USUAL[section][1]
            ):
                fresh[section] -= _UNUSUAL
            if section == "recap" and place <= first:
                fresh[section] -= _TOO_EARLY
            if section == "close" and place < 0.8 * len(found):
                fresh[section] -= 0.7
        scores = fresh
        paths.append(came)
    last = max(SECTIONS, key=lambda s: scores[s])
    out = [last]
    for came in reversed(paths[1:]):
        out.append(came[out[-1]])
    return out[::-1]


def _move(before: Section, after: Section, eased: bool, place: int) -> float:
    """The cost of moving on; words such as "now the" or "and you're warm" ease it to work.

    Of two places that are as good, the later wins: a part runs on until the next is named.
    """
    if before == after:
        return _STAY
    cost = _EASED if eased and after == "work" else _MOVES.get((before, after), _MOVE)
    return cost + place * _LATER


def _speaks(counts: Counter[str], section: Section) -> float:
    rows = table()
    return sum(rows[label].section.get(section, 0.0) * n for label, n in counts.items())

"""Sections over the whole talk: the best path through the evidence of its clauses.

Arrays run over clauses, then over sections in the order of ``SECTIONS``.
"""

from collections import Counter
from collections.abc import Sequence
from functools import cache
from typing import get_args

import numpy as np
from numpy.typing import NDArray

from cuewright.divide import evidence
from cuewright_models.divided import Section

Scores = NDArray[np.float64]

SECTIONS: tuple[Section, ...] = get_args(Section)
_AT = {section: at for at, section in enumerate(SECTIONS)}
_FIRST = -4.0
"""What speaks against beginning with anything but the opening."""
_MOVE = -2.5
"""The cost of moving on where ``_MOVES`` has no other."""
_EASED = -0.7
"""The cost of moving on to work after words such as "now the" or "and you're warm"."""
_WARMED = 0.8
"""What speaks against a warm-up once it is said to be over."""
_HEADED = 0.8
"""What a cool-down is easier to move to where it is named."""
_WORK = ("header-work", "first-work", "for-work", "onward-work")
"""Labels of clauses that name a piece of work; a warm-up ends there rather than earlier."""
_LATER = 1e-4
"""Added for each clause: of two places as good the later wins, as a part runs on."""
_MOVES: dict[tuple[Section, Section], float] = {
    **{("open", section): -1.5 for section in SECTIONS},
    **{(section, "open"): -4.0 for section in SECTIONS},
    **{("close", section): -5.0 for section in SECTIONS},
    **{(section, "cool-down"): -4.0 for section in SECTIONS},
    **{(section, "recap"): -4.0 for section in SECTIONS},
    **{("recap", section): -1.0 for section in SECTIONS},
    ("open", "cool-down"): -6.0,
    **{(section, "warm-up"): -3.0 for section in SECTIONS},
    ("warm-up", "work"): -1.5,
    ("warm-up", "cool-down"): -7.0,
    ("cool-down", "work"): -4.0,
    ("cool-down", "warm-up"): -5.0,
}
"""The cost of moving from one section to another; later rows win."""
_STAYS = np.eye(len(SECTIONS), dtype=bool)
_USUAL: dict[Section, tuple[float, float]] = {"warm-up": (0.0, 0.55), "cool-down": (0.3, 1.0)}
"""Shares of the talk where a warm-up and a cool-down usually stand."""
_UNUSUAL = 0.15
_HEAD = 8
"""Clauses from the start within which an opening is likely."""
_LATE_OPEN = 0.3
_TAIL = 0.8
"""Share of the talk from which a close is likely."""
_EARLY_CLOSE = 0.7
_TOO_EARLY = 6.0
"""What speaks against a recap before anything is prescribed."""


def sections(found: Sequence[Counter[str]]) -> list[Section]:
    """One section a clause; ``found`` are the clauses' labels."""
    if not found:
        return []
    scores, came = forward(speaks(found) - against(found), costs(found))
    path = [int(scores[-1].argmax())]
    for before in came[:0:-1]:
        path.append(int(before[path[-1]]))
    return [SECTIONS[at] for at in reversed(path)]


def forward(points: Scores, moves: Scores) -> tuple[Scores, NDArray[np.int_]]:
    """What the best path to each section of each clause weighs, and the section before on it.

    ``points`` are those of the clauses, ``moves`` what ``costs`` gives.
    """
    scores, came = np.zeros(points.shape), np.zeros(points.shape, dtype=int)
    so_far = beginnings()
    for place, move in enumerate(moves):
        paths = so_far[:, None] + move
        came[place] = paths.argmax(axis=0)
        so_far = scores[place] = paths.max(axis=0) + points[place]
    return scores, came


def beginnings() -> Scores:
    """What it costs to come to the first clause from each section."""
    return np.where(np.array(SECTIONS) == "open", 0.0, _FIRST)


def speaks(found: Sequence[Counter[str]]) -> Scores:
    """What the labels of each clause say for each section."""
    table = weights()
    out = np.zeros((len(found), len(SECTIONS)))
    for place, counts in enumerate(found):
        for label, count in counts.items():
            out[place] += table[label] * count
    return out


def against(found: Sequence[Counter[str]]) -> Scores:
    """What the place of a clause in the talk says against each section."""
    count = len(found)
    places = np.arange(count)
    first = next((at for at, counts in enumerate(found) if counts["prescribes"]), count)
    out = np.zeros((count, len(SECTIONS)))
    out[_HEAD:, _AT["open"]] = _LATE_OPEN
    out[: first + 1, _AT["recap"]] = _TOO_EARLY
    out[places < _TAIL * count, _AT["close"]] = _EARLY_CLOSE
    out[_warmed(found), _AT["warm-up"]] += _WARMED
    for section, (low, high) in _USUAL.items():
        share = places / count
        out[(share < low) | (share > high), _AT[section]] = _UNUSUAL
    return out


def _warmed(found: Sequence[Counter[str]]) -> list[bool]:
    """Whether the warm-up is over at each clause, and none is named again."""
    out, over = [], False
    for counts in found:
        over = over and not (counts["header-warm-up"] or counts["before-all"])
        out.append(over)
        over = over or counts["over"] > 0
    return out


def costs(found: Sequence[Counter[str]]) -> Scores:
    """What it costs at each clause to move from one section (second axis) to another (third)."""
    over = [False, *(counts["over"] > 0 for counts in found)]
    eased = [_ease(counts, over=over[at]) for at, counts in enumerate(found)]
    later = np.arange(len(found))[:, None, None] * _LATER
    return np.where(_STAYS, 0.0, _moves()[np.array(eased, dtype=int)] + later)


def _ease(counts: Counter[str], *, over: bool) -> int:
    """Which of the costs of ``_moves`` a clause has; ``over`` after the end of a warm-up."""
    if counts["header-cool-down"]:
        return 3
    if counts["onward"] or over:
        return 2
    return int(any(counts[label] for label in _WORK))


@cache
def _moves() -> Scores:
    """The costs of ``_MOVES`` from rows to columns.

    First as they are, then where work is named, where the talk moves on to it, and where a
    cool-down is named.
    """
    usual = np.array([[_MOVES.get((a, b), _MOVE) for b in SECTIONS] for a in SECTIONS])
    named, eased = usual.copy(), usual.copy()
    named[_AT["warm-up"], _AT["work"]] = _EASED
    eased[:, _AT["work"]] = _EASED
    last = usual.copy()
    last[:, _AT["cool-down"]] += _HEADED
    return np.stack((usual, named, eased, last))


@cache
def weights() -> dict[str, Scores]:
    """The weights of each label of ``evidence.toml``."""
    return {
        label: np.array([row.section.get(section, 0.0) for section in SECTIONS])
        for label, row in evidence.table().items()
    }

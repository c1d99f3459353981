"""Why a divided talk is divided so: what weighed most, and what came second.

Worked out only when asked for. The choices are those of the divided talk; the weights
come from the functions that made them.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

import numpy as np

from cuewright.divide.evidence import table
from cuewright.divide.roles import prior, scores
from cuewright.divide.sections import (
    SECTIONS,
    Scores,
    against,
    beginnings,
    costs,
    forward,
    speaks,
    weights,
)
from cuewright_models.divided import Clause, Divided, Role
from cuewright_models.explained import ExplainedClause, Reason, RoleChoice, SectionChoice
from cuewright_models.transcript import Transcript

_SAME = 1e-9
"""Weights no further apart than this differ only by the order in which they were added."""


def explain(heard: Transcript, divided: Divided) -> tuple[ExplainedClause, ...]:
    """Each clause of the talk with the reasons for its section and its role, in order."""
    tokens, clauses = divided.reading.tokens, divided.clauses
    found = [Counter(dict(clause.labels)) for clause in clauses]
    return tuple(
        ExplainedClause(
            said=heard.quote(tokens[clause.start].first, tokens[clause.end - 1].last),
            section=section,
            role=_role(clause, counts),
        )
        for clause, counts, section in zip(clauses, found, _sections(clauses, found), strict=True)
    )


def _sections(clauses: Sequence[Clause], found: Sequence[Counter[str]]) -> Iterator[SectionChoice]:
    if not found:
        return
    placed, moves, lost = against(found), costs(found), _lost(found)
    path = [SECTIONS.index(clause.section) for clause in clauses]
    moved = [(beginnings() + moves[0, :, path[0]]).max()]
    moved += [move[a, b] for move, (a, b) in zip(moves[1:], pairwise(path), strict=True)]
    how = ["beginning with it", *(f"moving on from {clause.section}" for clause in clauses)]
    for place, at in enumerate(path):
        reasons = {label: weights()[label][at] * n for label, n in found[place].items()}
        reasons |= {"its place in the talk": -placed[place, at], how[place]: moved[place]}
        behind = lost[place] - lost[place, at]
        behind[at] = np.inf
        yield SectionChoice(
            chosen=SECTIONS[at],
            because=_heaviest(reasons.items()),
            runner_up=SECTIONS[behind.argmin()],
            lost_by=max(behind.min(), 0.0),
        )


def _lost(found: Sequence[Counter[str]]) -> Scores:
    """How much less than the best path the best one weighs that leads through each section."""
    points, moves = speaks(found) - against(found), costs(found)
    through, _ = forward(points, moves)
    onward = np.zeros(len(SECTIONS))
    for place in range(len(found) - 2, -1, -1):
        onward = (moves[place + 1] + points[place + 1] + onward).max(axis=1)
        through[place] += onward
    lost: Scores = through.max(axis=1, keepdims=True) - through
    return lost


def _role(clause: Clause, counts: Counter[str]) -> RoleChoice:
    weighed = scores(counts, clause.section)
    mine = weighed.pop(clause.role, -np.inf)
    second = max(weighed, key=lambda role: weighed[role], default=None)
    ahead = None if second is None else mine - weighed[second]
    runs_on = ahead is not None and ahead < -_SAME
    return RoleChoice(
        chosen=clause.role,
        because=_heaviest(_spoken(clause, counts)),
        runs_on=runs_on,
        runner_up=second,
        lost_by=None if runs_on or ahead is None else max(ahead, 0.0),
    )


def _spoken(clause: Clause, counts: Counter[str]) -> Iterator[tuple[str, float]]:
    """What speaks for the role of a clause: its section, and each label once."""
    role: Role = clause.role
    yield f"being in {clause.section}", prior(clause.section).get(role, 0.0)
    for label in counts:
        yield label, table()[label].role.get(role, 0.0)


def _heaviest(reasons: Iterable[tuple[str, float]]) -> tuple[Reason, ...]:
    """The reasons that weigh anything, the heaviest first, for and against alike."""
    ordered = sorted(reasons, key=lambda reason: (-abs(reason[1]), reason[0]))
    return tuple(Reason(what=what, weight=float(w)) for what, w in ordered if abs(w) > _SAME)

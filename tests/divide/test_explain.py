"""Reasons for sections and roles: they add up to what decided, and name the true second."""

from collections import Counter
from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from readings import heard

from cuewright.divide import divide
from cuewright.divide.evidence import table
from cuewright.divide.explain import explain
from cuewright.divide.roles import roles, scores
from cuewright.divide.sections import (
    SECTIONS,
    against,
    beginnings,
    costs,
    forward,
    sections,
    speaks,
)
from cuewright.normalise import normalise
from cuewright_models.divided import Clause, Divided
from cuewright_models.explained import ExplainedClause

TALK = (
    "Good evening Withy Reach. Right, warm up first. Jog for three minutes. Then ten air squats. "
    "Now the main piece, it's for time. Four rounds. Row 500 metres. Fifteen swings. Ten push ups. "
    "If you are new to push ups, do them from your knees. The cap is 18 minutes. "
    "Cool down. Walk for five minutes. Stretch for a minute each side. Thanks, see you next week."
)
WORD = "word"
"""Each clause of the talks below is this one word; only its labels count."""


def explained(found: list[Counter[str]], linked: list[bool] | None = None) -> list[ExplainedClause]:
    """The reasons of a talk whose clauses have these labels."""
    talk = heard(" ".join([WORD] * len(found)))
    parts = sections(found)
    given = roles(found, parts, linked or [False] * len(found))
    clauses = tuple(
        Clause(at, at + 1, part, role, tuple(sorted(counts.items())))
        for at, (counts, part, role) in enumerate(zip(found, parts, given, strict=True))
    )
    return list(explain(talk, Divided(reading=normalise(talk), clauses=clauses)))


def weight(found: list[Counter[str]], path: tuple[int, ...]) -> float:
    """What one path weighs, added up step by step."""
    points, moves = speaks(found) - against(found), costs(found)
    total = (beginnings() + moves[0, :, path[0]]).max()
    total += sum(moves[at, a, b] for at, (a, b) in enumerate(pairwise(path), 1))
    return float(total + sum(points[at, part] for at, part in enumerate(path)))


labels = st.dictionaries(st.sampled_from(sorted(table())), st.integers(1, 3), max_size=4)
talks = st.lists(labels.map(Counter), min_size=1, max_size=3)


@settings(deadline=None, max_examples=60, derandomize=True)
@given(talks)
def test_the_second_is_the_best_of_all_other_readings_of_the_talk(
    found: list[Counter[str]],
) -> None:
    """Against every path there is, tried one by one."""
    paths = {path: weight(found, path) for path in product(range(len(SECTIONS)), repeat=len(found))}
    best = max(paths.values())
    for at, clause in enumerate(explained(found)):
        through = [
            max(w for path, w in paths.items() if path[at] == part) for part in range(len(SECTIONS))
        ]
        chosen, second = clause.section.chosen, clause.section.runner_up
        assert second != chosen
        assert through[SECTIONS.index(chosen)] == pytest.approx(best)
        others = [w for part, w in zip(SECTIONS, through, strict=True) if part != chosen]
        assert through[SECTIONS.index(second)] == pytest.approx(max(others))
        assert clause.section.lost_by == pytest.approx(best - max(others), abs=1e-9)


@settings(deadline=None, max_examples=100, derandomize=True)
@given(st.lists(st.tuples(labels.map(Counter), st.booleans()), min_size=1, max_size=30))
def test_reasons_add_up_to_what_decided(said: list[tuple[Counter[str], bool]]) -> None:
    found = [counts for counts, _ in said]
    clauses = explained(found, [link for _, link in said])
    best = forward(speaks(found) - against(found), costs(found))[0][-1].max()
    assert sum(r.weight for c in clauses for r in c.section.because) == pytest.approx(best)
    for counts, clause in zip(found, clauses, strict=True):
        weighed = scores(counts, clause.section.chosen)
        mine = sum(reason.weight for reason in clause.role.because)
        assert mine == pytest.approx(weighed.get(clause.role.chosen, 0.0), abs=1e-9)
        others = [w for role, w in weighed.items() if role != clause.role.chosen]
        if clause.role.runs_on:
            assert weighed[clause.role.runner_up] == pytest.approx(max(others))
        elif others:
            assert clause.role.lost_by == pytest.approx(mine - max(others), abs=1e-9)
        else:
            assert clause.role.runner_up is clause.role.lost_by is None


def test_a_talk_is_explained_as_it_was_divided() -> None:
    talk = heard(TALK)
    divided = divide(normalise(talk))
    clauses = explain(talk, divided)
    assert [(c.section.chosen, c.role.chosen) for c in clauses] == [
        (c.section, c.role) for c in divided.clauses
    ]
    assert " ".join(c.said.quote for c in clauses) == TALK
    assert [c.said.start_s for c in clauses] == sorted(c.said.start_s for c in clauses)
    assert explain(talk, divided) == clauses


def test_the_heaviest_reason_comes_first() -> None:
    talk = heard(TALK)
    (clause,) = [c for c in explain(talk, divide(normalise(talk))) if c.said.quote == "Cool down."]
    first = clause.section.because[0]
    assert (first.what, first.weight) == ("header-cool-down", 5)
    assert "moving on from scaling" in [reason.what for reason in clause.section.because]


def test_a_role_that_runs_on_says_so() -> None:
    found = [
        Counter({"header-work": 1, "prescribes": 1}),
        Counter({"sum": 1}),
        Counter({"prescribes": 1}),
    ]
    *_, last = explained(found, [False, False, True])
    assert (last.section.chosen, last.role.chosen) == ("work", "claim")
    assert (last.role.runs_on, last.role.runner_up) == (True, "prescription")
    assert last.role.lost_by is None


def test_nothing_said_nothing_explained() -> None:
    assert explained([]) == []

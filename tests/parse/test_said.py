"""Options, targets and cues in the many ways that coaches say them: the tables of ``said/``."""

import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from parse.telling import plan

from cuewright_models.plan import Plan

TABLES = Path(__file__).parent / "said"


def _number(value: float | None) -> str:
    return "-" if value is None else f"{value:g}"


def _options(plan: Plan) -> set[str]:
    return {f"{o.about} {o.kind} {o.to or '-'}" for o in plan.options}


def _targets(plan: Plan) -> set[str]:
    return {f"{t.about} {t.unit} {_number(t.low)} {_number(t.high)}" for t in plan.targets}


def _cues(plan: Plan) -> set[str]:
    return {cue.about for cue in plan.cues}


READ: dict[str, Callable[[Plan], set[str]]] = {
    "options": _options,
    "targets": _targets,
    "cues": _cues,
}


def _cases() -> Iterator[Any]:
    """Every phrase of every table: what it is read as, the talk, the facts."""
    for what in READ:
        table = tomllib.loads((TABLES / f"{what}.toml").read_text("utf-8"))
        for row in table["means"]:
            for said in row["said"]:
                talk = f"{table['frames'][row['frame']]} {table['lead']} {said}"
                yield pytest.param(what, talk, set(row["facts"]), id=f"{what}: {said}")


@pytest.mark.parametrize(("what", "talk", "facts"), list(_cases()))
@pytest.mark.parametrize("captions", [False, True], ids=["text", "captions"])
def test_said(what: str, talk: str, facts: set[str], captions: bool) -> None:
    assert READ[what](plan(talk, captions=captions)) == facts

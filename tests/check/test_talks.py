"""Short talks in which a rule must speak, and near misses in which it must not.

One table of ``talks/`` for each rule, named by its code. Add a talk in a coach's own words
under ``fires`` or ``silent``, or a whole talk without a mistake to ``clean.toml``; nothing
here need be touched. The examples on each rule's page are talks too.
"""

import tomllib
from pathlib import Path

import pytest

from cuewright.check import RULES
from cuewright.flow import read_plan

CLEAN = tomllib.loads((Path(__file__).parent / "clean.toml").read_text("utf-8"))["talks"]
TABLES = sorted((Path(__file__).parent / "talks").glob("*.toml"))


def talks(kind: str) -> list[object]:
    """Every talk of one kind with the code of its rule."""
    return [
        pytest.param(table.stem, talk, id=f"{table.stem}-{nth}")
        for table in TABLES
        for nth, talk in enumerate(tomllib.loads(table.read_text("utf-8"))[kind], 1)
    ]


def examples(kind: str) -> list[object]:
    """Every example of one kind on the page of a rule, with its code."""
    return [
        pytest.param(rule.code, talk, id=f"{rule.code}-example-{nth}")
        for rule in RULES
        for nth, talk in enumerate(getattr(rule, kind), 1)
    ]


def found(talk: str, folder: Path) -> set[str]:
    """The codes of the findings on a talk."""
    file = folder / "talk.txt"
    file.write_text(talk, "utf-8")
    return {finding.rule for finding in read_plan(file).findings}


@pytest.mark.parametrize(("code", "talk"), [*talks("fires"), *examples("fires")])
def test_the_rule_fires(code: str, talk: str, tmp_path: Path) -> None:
    assert code in found(talk, tmp_path)


@pytest.mark.parametrize(("code", "talk"), [*talks("silent"), *examples("silent")])
def test_the_rule_stays_silent(code: str, talk: str, tmp_path: Path) -> None:
    assert code not in found(talk, tmp_path)


@pytest.mark.parametrize("talk", CLEAN)
def test_a_talk_without_a_mistake_raises_no_finding(talk: str, tmp_path: Path) -> None:
    assert found(talk, tmp_path) == set()


def test_every_rule_has_its_talks() -> None:
    assert {table.stem for table in TABLES} == {rule.code for rule in RULES}


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.stem)
def test_a_rule_has_six_talks_of_either_kind(table: Path) -> None:
    told = tomllib.loads(table.read_text("utf-8"))
    assert all(len(set(told[kind])) >= 6 for kind in ("fires", "silent"))

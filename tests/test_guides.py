"""What the guides say is so: paths exist, examples work, outputs are current."""

import re
import tomllib
from pathlib import Path

import pytest
import readme
from sessions import block, plan, reps

from cuewright.movements.catalogue import catalogue
from cuewright.movements.own import MORE, NEW, extended
from cuewright.tables import raw
from cuewright_models.movement import Movement

ROOT = Path(__file__).parents[1]
GUIDES = ("README.md", "DEVELOPERS.md")


def text(guide: str) -> str:
    return (ROOT / guide).read_text("utf-8")


def fenced(guide: str, language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", text(guide), re.DOTALL | re.MULTILINE)


@pytest.mark.parametrize("guide", GUIDES)
def test_paths_named_in_a_guide_exist(guide: str) -> None:
    named = re.findall(r"(?<![\w./])((?:pipeline|models|tests|samples|\.ci)/[\w./-]*)", text(guide))
    named += re.findall(r"\]\(([\w./-]+)\)", text(guide))
    assert named
    assert [path for path in named if not (ROOT / path).exists()] == []


def test_tables_in_the_guide_are_tables() -> None:
    tables = [tomllib.loads(table) for table in fenced("DEVELOPERS.md", "toml")]
    assert len(tables) == 5


def test_the_movement_in_the_guide_would_fit_the_catalogue() -> None:
    ((name, row),) = tomllib.loads(fenced("DEVELOPERS.md", "toml")[0]).items()
    movement = Movement(name=name, **row)
    assert name not in catalogue()
    assert {*movement.easier, *movement.harder, *movement.swap} <= set(catalogue())


def test_one_s_own_movements_in_the_guide_are_taken(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(fenced("README.md", "toml")[0], "utf-8")
    assert set(extended(path).marks.values()) == {NEW, MORE}


def test_the_mishearings_in_the_guide_could_be_added() -> None:
    added = tomllib.loads(fenced("DEVELOPERS.md", "toml")[4])
    table = raw("cuewright.normalise", "mishearings.toml")
    fields = {field for row in table.values() for field in row}
    assert set(table).isdisjoint(added)
    assert {field for row in added.values() for field in row} <= fields


def test_the_rule_in_the_guide_speaks_and_stays_silent() -> None:
    (code,) = fenced("DEVELOPERS.md", "python")
    made: dict = {"__name__": "rest_missing"}
    exec(compile(code, "DEVELOPERS.md", "exec"), made)
    rule = made["RULE"]
    (found,) = rule.find(plan(block("sets", reps("back-squat", 5))))
    assert (found.rule, found.about) == ("rest-missing", "b1")
    assert list(rule.find(plan(block("sets", reps("back-squat", 5), rest_s=120)))) == []


def test_outputs_in_the_readme_are_current() -> None:
    now = text("README.md")
    assert readme.renewed(now, "run") == now, "run python tests/readme.py --write"


def test_the_two_commands_are_one_line_each_and_the_checks_run_the_second() -> None:
    first, second = (block.strip() for block in fenced("README.md", "sh"))
    assert "\n" not in first + second
    assert all(line.startswith("python3 -m venv .venv && ") for line in (first, second))
    *_, install, tests = second.split(" && ")
    ci = (ROOT / ".ci/run").read_text("utf-8")
    assert install.removeprefix(".venv/bin/pip ") in ci
    assert f"step {tests.removeprefix('.venv/bin/')}\n" in ci

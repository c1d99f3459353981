"""`movements`, `explain`, `schema`, `--version` and the names that Python code uses."""

import json
import tomllib

import jsonschema
import pytest
from cli.running import LOW_WATER, ROOT, run, sentence

import cuewright
from cuewright.check import RULES
from cuewright.movements.catalogue import catalogue


def test_every_movement_is_listed_in_80_columns() -> None:
    lines = run("movements").stdout.splitlines()
    assert [line.split()[0] for line in lines] == sorted(catalogue())
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize("name", ["pull-up", "Pull Ups", "pullup", "strict pull up"])
def test_a_movement_is_found_by_any_of_its_names(name: str) -> None:
    assert run("movements", name).stdout.startswith("pull-up\n")


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_every_movement_can_be_shown(name: str) -> None:
    assert run("movements", name).stdout.startswith(f"{name}\n")


def test_unknown_movement() -> None:
    result = run("movements", "pull-upp")
    assert result.exit_code == 2
    assert "did you mean pull-up" in sentence(result)
    assert run("movements", "zzzz").exit_code == 2


def test_every_rule_is_listed_and_explained() -> None:
    listed = run("explain").stdout
    for rule in RULES:
        assert f"{rule.code} ({rule.severity})\n  {rule.question}\n" in listed
        assert rule.why in " ".join(run("explain", rule.code).stdout.split())


def test_unknown_rule() -> None:
    result = run("explain", "total-said-thrice")
    assert result.exit_code == 2
    assert "did you mean total-said-twice" in result.stderr


def test_schema_is_a_json_schema_that_plans_fit() -> None:
    # The draft's own meta-schema, json-schema.org/draft/2020-12, as the jsonschema package has it.
    schema = json.loads(run("schema").stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    plan = json.loads(run("plan", LOW_WATER, "--json").stdout)
    assert list(validator.iter_errors(plan)) == []
    assert list(validator.iter_errors(plan | {"contract": "other"})) != []


def test_version_is_that_of_the_project() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert run("--version").stdout == f"cuewright {project['version']}\n"


def test_every_public_name_is_there() -> None:
    assert all(getattr(cuewright, name) is not None for name in cuewright.__all__)
    assert set(cuewright.__all__) <= set(dir(cuewright))
    with pytest.raises(AttributeError, match="nonsense"):
        _ = cuewright.nonsense

"""The page as JSON, checked against the contract's schema by jsonschema."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from render.sessions import GOLD, HOSTILE, gold, hostile, plan, rich

from cuewright.render import FORMS, jsonfile
from cuewright_models.plan import Plan

SCHEMA = Plan.model_json_schema(mode="serialization")


def check(given: Plan) -> None:
    text = jsonfile.page(given)
    Draft202012Validator.check_schema(SCHEMA)
    Draft202012Validator(SCHEMA).validate(json.loads(text))
    assert Plan.model_validate_json(text) == given
    assert jsonfile.page(Plan.model_validate_json(text)) == text


@pytest.mark.parametrize("path", GOLD, ids=lambda path: path.name.split(".")[0])
def test_the_corpus_is_valid_and_comes_back(path: Path) -> None:
    check(gold(path))


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_come_back(text: str) -> None:
    check(hostile(text))


def test_form() -> None:
    text = jsonfile.page(rich())
    check(rich())
    assert text.startswith('{\n "contract": "cuewright-plan/1",\n "source": {\n  "name"')
    assert text.endswith("\n}\n")
    assert "\u05e9" in jsonfile.page(hostile("\u05e9"))


def test_every_form_has_its_own_suffix_and_makes_a_page() -> None:
    suffixes = [form.suffix for form in FORMS.values()]
    assert len(set(suffixes)) == len(suffixes)
    for form in FORMS.values():
        assert form.page(plan()).endswith("\n")

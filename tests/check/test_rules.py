"""Every rule has all its parts, and no rule cries wolf over the corpus."""

import json
from pathlib import Path
from typing import Any, get_args

import pytest
from check.building import block, claim, effort, plan, rounds

from cuewright.check import RULES, UnknownRule, check, explain
from cuewright.check.rule import Rule
from cuewright.movements.catalogue import catalogue
from cuewright.tables import raw
from cuewright_models.finding import Severity
from cuewright_models.plan import Plan

TESTS = Path(__file__).parents[1]
FOLDER = TESTS.parent / "pipeline" / "cuewright" / "check" / "rules"
GOLDS = sorted([*(TESTS / "corpus").glob("*.gold.json"), *(TESTS / "talks").glob("*.gold.json")])

# The rule names of the plan contract, cuewright-plan/1.
CONTRACT = """
    total-said-twice total-vs-targets total-vs-model target-vs-model target-said-twice
    sets-vs-amount cap-vs-model interval-overfull rounds-said-twice ladder-vs-rounds
    sum-claim-wrong interval-sum-wrong amount-implausible unit-missing side-missing load-missing
    cue-without-work work-without-cue option-missing option-changes-intent equipment-vs-claim
    date-vs-weekday warm-up-missing warm-up-gap volume-caution
""".split()

# What gold cannot show: it has no claims, so these stay silent whatever it lists.
FROM_CLAIMS = {
    "total-said-twice", "rounds-said-twice", "ladder-vs-rounds", "sum-claim-wrong",
    "interval-sum-wrong", "equipment-vs-claim",
}  # fmt: skip


def test_codes_are_those_of_the_contract() -> None:
    codes = [rule.code for rule in RULES]
    assert set(codes) <= set(CONTRACT)
    assert len(set(codes)) == len(codes)


def test_every_file_is_a_listed_rule_named_by_its_code() -> None:
    files = {path.stem.replace("_", "-") for path in FOLDER.glob("*.py")} - {"--init--"}
    assert files == {rule.code for rule in RULES}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.code)
def test_every_rule_has_all_its_parts(rule: Rule) -> None:
    assert rule.question.endswith("?")
    assert rule.why.endswith(".")
    assert rule.leaves_alone.endswith(".")
    assert rule.fires
    assert rule.silent
    assert rule.severity in get_args(Severity)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.code)
def test_the_page_of_a_rule_shows_them(rule: Rule) -> None:
    page = explain(rule.code)
    for part in (rule.code, rule.question, rule.why, *rule.fires, *rule.silent, rule.leaves_alone):
        assert part in page


def test_a_misspelt_code_is_answered_with_the_nearest() -> None:
    with pytest.raises(UnknownRule, match="did you mean total-said-twice"):
        explain("total-said-twise")


def test_findings_come_in_the_order_of_the_rules_and_complete() -> None:
    made = plan(
        block("b1 conditioning", "for-time", rounds(4, effort("row", 250, "m"))),
        claim("total-time", "total", 1200),
        claim("total-time", "total", 3000),
        claim("rounds", "b1", 6),
        claim("total-distance", "row", 2500, "m"),
    )
    found = check(made)
    assert [finding.rule for finding in found] == [
        "total-said-twice", "rounds-said-twice", "sum-claim-wrong", "warm-up-missing",
    ]  # fmt: skip
    for finding in found:
        assert finding.said
        assert finding.expected
        assert finding.found
        assert finding.message.endswith(".")
        assert (finding.suggestion or "").endswith(".")


def test_kit_is_spelt_as_in_the_catalogue() -> None:
    known = {kit for row in catalogue().values() for kit in row.kit}
    table = raw("cuewright.check", "kit.toml")
    assert {*table, *(like for row in table.values() for like in row.get("like", ()))} <= known


def test_limits_name_what_the_catalogue_has() -> None:
    rows = catalogue().values()
    known = {
        "movements": {row.name for row in rows},
        "patterns": {pattern for row in rows for pattern in row.patterns},
        "flags": {flag for row in rows for flag in row.flags},
        "kit": {kit for row in rows for kit in row.kit},
    }
    for limit in raw("cuewright.check", "limits.toml").values():
        for field, names in known.items():
            assert set(limit.get(field, ())) <= names


def filled(gold: dict[str, Any]) -> Plan:
    """A gold file as a plan: the fields that it leaves out are empty."""
    return Plan.model_validate(
        {
            "source": {"name": "talk", "kind": "captions", "sha256": "0" * 64},
            "title": gold.get("title"),
            "date": gold.get("date"),
            "blocks": [with_names(block) for block in gold["blocks"]],
            "targets": gold.get("targets", []),
            "options": gold.get("options", []),
            "cues": [{"text": "", **each} for each in gold.get("cues", [])],
        }
    )


def with_names(part: Any) -> Any:
    """``part`` with ``as_said`` wherever an effort lacks it."""
    if isinstance(part, list):
        return [with_names(each) for each in part]
    if not isinstance(part, dict):
        return part
    named = {key: with_names(value) for key, value in part.items()}
    if named.get("do") == "effort":
        named.setdefault("as_said", named["movement"])
    return named


@pytest.mark.parametrize("path", GOLDS, ids=lambda path: path.name.removesuffix(".gold.json"))
def test_exactly_the_gold_findings_that_gold_can_show(path: Path) -> None:
    gold = json.loads(path.read_text("utf-8"))
    listed = {(each["rule"], each["about"]) for each in gold.get("findings", [])}
    found = {(finding.rule, finding.about) for finding in check(filled(gold))}
    assert found == {(rule, about) for rule, about in listed if rule not in FROM_CLAIMS}

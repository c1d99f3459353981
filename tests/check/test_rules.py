"""Every rule has all its parts, and no rule cries wolf over the corpus."""

import json
from pathlib import Path
from typing import Any, get_args

import pytest
import rules as document
from check.building import block, claim, effort, plan, rounds, said, target

from cuewright.check import RULES, UnknownRule, check, explain
from cuewright.check.rule import Rule
from cuewright.movements.catalogue import catalogue
from cuewright.tables import raw
from cuewright_models.finding import Severity
from cuewright_models.plan import Claim, Plan, Target

TESTS = Path(__file__).parents[1]
FOLDER = TESTS.parent / "pipeline" / "cuewright" / "check" / "rules"
GOLDS = sorted([*TESTS.glob("corpus/*.gold.json"), *TESTS.glob("talks/*.gold.json")])


def name_of(path: Path) -> str:
    """The talk's name."""
    return path.name.removesuffix(".gold.json")


# The rule names of the plan contract, cuewright-plan/1.
CONTRACT = [
    "total-said-twice",
    "total-vs-targets",
    "total-vs-model",
    "target-vs-model",
    "target-said-twice",
    "sets-vs-amount",
    "cap-vs-model",
    "interval-overfull",
    "rounds-said-twice",
    "ladder-vs-rounds",
    "sum-claim-wrong",
    "interval-sum-wrong",
    "amount-implausible",
    "unit-missing",
    "side-missing",
    "load-missing",
    "cue-without-work",
    "work-without-cue",
    "option-missing",
    "option-changes-intent",
    "equipment-vs-claim",
    "date-vs-weekday",
    "warm-up-missing",
    "warm-up-gap",
    "volume-caution",
]


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
    page = " ".join(explain(rule.code).split())
    for part in (rule.code, rule.question, rule.why, *rule.fires, *rule.silent, rule.leaves_alone):
        assert part in page


def test_a_page_is_80_columns_wide() -> None:
    assert all(len(line) <= 80 for rule in RULES for line in explain(rule.code).splitlines())


def test_the_document_of_the_rules_is_current() -> None:
    written = document.DOCUMENT.read_text("utf-8")
    assert written == document.document(), "run python tests/rules.py --write"


def test_rules_that_can_hurt_people_come_first() -> None:
    codes = [rule.code for rule in RULES]
    first = ["amount-implausible", "volume-caution", "warm-up-missing", "warm-up-gap"]
    assert [code for code in codes if code in first] == codes[:4] == first


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
        "warm-up-missing", "total-said-twice", "rounds-said-twice", "sum-claim-wrong",
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


# Rules that need what gold leaves out: claims, block lengths, and the words around a target.
FROM_WORDS = {
    "total-said-twice",
    "target-said-twice",
    "rounds-said-twice",
    "ladder-vs-rounds",
    "sum-claim-wrong",
    "interval-sum-wrong",
    "equipment-vs-claim",
    "total-vs-targets",
}

# Rules about what was left unsaid: gold lists contradictions, and has no words to look in.
UNSAID = {
    "unit-missing",
    "side-missing",
    "load-missing",
    "work-without-cue",
    "option-missing",
    "option-changes-intent",
}


def judged(plan: Plan) -> list[tuple[str, str]]:
    """The findings on a plan that gold can judge."""
    return [(each.rule, each.about) for each in check(plan) if each.rule not in UNSAID]


@pytest.mark.parametrize("path", GOLDS, ids=name_of)
def test_no_false_alarm_over_gold(path: Path) -> None:
    gold = json.loads(path.read_text("utf-8"))
    listed = {(each["rule"], each["about"]) for each in gold.get("findings", [])}
    found = set(judged(filled(gold)))
    assert found <= listed
    assert {(rule, about) for rule, about in listed if rule not in FROM_WORDS} <= found


def minutes(about: str, low: float, high: float | None = None) -> Claim:
    """How long a block or the whole is said to take."""
    return claim("total-time", about, (low * 60, (high or low) * 60))


# What each coach claims in the talk, by hand; right claims stand beside the wrong ones.
CLAIMED: dict[str, list[Claim | Target]] = {
    "a-cold-start": [
        minutes("total", 50),
        minutes("b2", 18),
        minutes("b3", 15),
        claim("total-distance", "row", 3000),
        claim("total-reps", "kettlebell-swing", 72),
        claim("restated", "row", 500, "m"),
    ],
    "a-penny-ladder": [
        claim("rounds", "b1", 5),
        claim("total-reps", "burpee", 42),
        claim("total-distance", "shuttle-run", 500),
    ],
    "a-ten-to-eight": [minutes("b3", 4), claim("restated", "row", 300, "m")],
    "a-weir-and-back": [
        minutes("total", 40),
        minutes("total", 60),
        claim("equipment", "none", said=said("no kit at all today", 30)),
        claim("rounds", "b2", 5),
    ],
    "b-marooned": [claim("rounds", "b2", 6), claim("rounds", "b1", 4), minutes("b1", 12)],
    "b-musical-benches": [
        claim("equipment", "none"),
        minutes("b2", 25),
        claim("rounds", "b2", 3),
        claim("rounds", "b3", 3),
    ],
    "b-tow-path": [
        minutes("b2", 16, 18),
        claim("total-distance", "run", 6437.4, said=said("four miles, give or take a step")),
        claim("rounds", "b2", 4),
    ],
    "b-wet-then-dry": [
        minutes("total", 70),
        minutes("total", 120),
        minutes("b2", 10),
        target("swim", 55, quote="those 50s in about 55 seconds each"),
        target("swim", (None, 40), quote="each 50 is to be done in under 40 seconds"),
    ],
    "d1-boathouse-circuit": [
        claim("rounds", "b2", 4),
        claim("total-reps", "step-up", 72),
        claim("total-reps", "kettlebell-swing", 80),
        claim("total-reps", "sit-up", 60),
        claim("total-distance", "row", 1500),
        claim("total-distance", "run", 1800),
    ],
    "d1-living-room-clock": [
        claim("equipment", "none", said=said("not a single piece of equipment", 30)),
        claim("equipment", "rope", said=said("grab your skipping rope", 85)),
        minutes("b2", 20),
        claim("rounds", "b2", 3),
    ],
    "d1-runners-strength": [
        minutes("total", 40),
        claim("rounds", "b1", 1),
        claim("rounds", "b2", 3),
        claim("rounds", "b3", 3),
        claim("rounds", "b4", 3),
    ],
    "d1-year-nine-pairs": [claim("rounds", "b1", 6), claim("total-reps", "push-up", 60)],
    "d2-bell-to-bell": [
        minutes("total", 75),
        minutes("b2", 45),
        claim("equipment", "rope", only=True),
        claim("equipment", "punch bag", only=True),
        claim("rounds", "b2", 2),
        claim("rounds", "b3", 4),
    ],
    "d2-grip-tax": [
        minutes("total", 60),
        minutes("b3", 24),
        claim("rounds", "b3", 12),
        claim("rounds", "b3", 4),
        *(claim("equipment", kit, only=True) for kit in ("pull-up bar", "rings", "band")),
    ],
    "d2-long-division": [claim("total-reps", "total", 450)],
    "d2-plan-b": [
        minutes("total", 50),
        minutes("total", 35),
        claim("equipment", "dumbbell", only=True),
        claim("equipment", "bench", only=True),
        claim("restated", "b2", 6, "rounds"),
        claim("restated", "push-press", 15, "reps"),
        claim("restated", "reverse-lunge", 14, "reps"),
        claim("rounds", "b1", 2),
        claim("rounds", "b3", 4),
        claim("restated", "b4", 3, "sets"),
    ],
    "d2-stairwell": [
        minutes("total", 50),
        minutes("total", 75),
        claim("restated", "farmer-carry", 60, "m"),
        claim("rounds", "b3", 4),
    ],
    "d2-tollbooth": [
        minutes("total", 70),
        minutes("b1", 6),
        claim("total-reps", "kettlebell-swing", 90),
        claim("total-reps", "pull-up", 36),
        claim("equipment", "kettlebell", only=True),
        claim("equipment", "pull-up bar", only=True),
        claim("rounds", "b3", 6),
    ],
}


@pytest.mark.parametrize("path", [path for path in GOLDS if name_of(path) in CLAIMED], ids=name_of)
def test_exactly_the_gold_findings_with_what_was_claimed(path: Path) -> None:
    gold = json.loads(path.read_text("utf-8"))
    claimed = CLAIMED[name_of(path)]
    made = filled(gold)
    targets = tuple(each for each in claimed if isinstance(each, Target)) or made.targets
    claims = tuple(each for each in claimed if isinstance(each, Claim))
    found = judged(made.model_copy(update={"claims": claims, "targets": targets}))
    listed = [(each["rule"], each["about"]) for each in gold.get("findings", [])]
    assert sorted(found) == sorted(listed)

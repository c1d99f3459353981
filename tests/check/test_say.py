"""What a finding would have the coach say instead, said in its place, mends the talk."""

import tomllib
from pathlib import Path

import pytest
from check.test_properties import ANY
from hypothesis import given
from strategies import plans

from cuewright.check import check
from cuewright.flow import read_plan
from cuewright_models.finding import Finding
from cuewright_models.plan import Plan

TALKS = Path(__file__).parent / "talks"
KNOWN = (
    "date-vs-weekday",
    "equipment-vs-claim",
    "interval-sum-wrong",
    "ladder-vs-rounds",
    "rounds-said-twice",
    "sum-claim-wrong",
    "total-vs-targets",
    "warm-up-missing",
)
"""Rules that know the right words; what others have the coach say has a blank in it."""
TOLD = [
    pytest.param(code, talk, id=f"{code}-{nth}")
    for code in KNOWN
    for nth, talk in enumerate(tomllib.loads((TALKS / f"{code}.toml").read_text("utf-8"))["fires"])
]


def findings(talk: str, folder: Path) -> list[Finding]:
    file = folder / "talk.txt"
    file.write_text(talk, "utf-8")
    return list(read_plan(file).findings)


@pytest.mark.parametrize(("code", "talk"), TOLD)
def test_said_in_its_place_it_makes_the_finding_go_away(
    code: str, talk: str, tmp_path: Path
) -> None:
    before = findings(talk, tmp_path)
    finding = next(each for each in before if each.rule == code)
    assert finding.say
    wrong = finding.said[-1].quote
    assert wrong in talk
    after = findings(talk.replace(wrong, f" {finding.say} "), tmp_path)
    assert (code, finding.about) not in {(each.rule, each.about) for each in after}
    errors = {each.rule for each in after if each.severity == "error"}
    assert errors <= {each.rule for each in before}


@ANY
@given(plans())
def test_it_is_one_sentence_that_a_coach_can_say(plan: Plan) -> None:
    for say in (finding.say for finding in check(plan) if finding.say):
        assert say == " ".join(say.split())
        assert say.endswith(".")
        assert "None" not in say
        assert not {block.id for block in plan.blocks} & set(say.replace(",", "").split())

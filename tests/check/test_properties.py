"""What must hold of the findings on any plan."""

from collections.abc import Iterator

from hypothesis import HealthCheck, given, settings
from strategies import plans

from cuewright.check import RULES, check
from cuewright_models.base import Said, Value
from cuewright_models.plan import Plan

ANY = settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def places(value: object) -> Iterator[Said]:
    """Every quote in a value, however deep."""
    if isinstance(value, Said):
        yield value
    elif isinstance(value, Value):
        for _, field in value:
            yield from places(field)
    elif isinstance(value, tuple):
        for each in value:
            yield from places(each)


@ANY
@given(plans())
def test_findings_are_whole_and_quote_only_the_talk(plan: Plan) -> None:
    codes = [rule.code for rule in RULES]
    found = check(plan)
    assert found == check(plan)
    assert [codes.index(f.rule) for f in found] == sorted(codes.index(f.rule) for f in found)
    for finding in found:
        assert finding.message.endswith(".")
        assert finding.expected != finding.found
        assert set(finding.said) <= set(places(plan))


@ANY
@given(plans(wild=True))
def test_no_number_stops_the_check(plan: Plan) -> None:
    check(plan)


@ANY
@given(plans())
def test_a_plan_in_which_nothing_is_said_twice_has_no_contradictions(plan: Plan) -> None:
    bare = plan.model_copy(
        update={"targets": (), "claims": (), "cues": (), "options": (), "date": None}
    )
    bare = bare.model_copy(
        update={"blocks": tuple(b.model_copy(update={"stated_time": ()}) for b in plan.blocks)}
    )
    rules = {finding.rule for finding in check(bare)}
    assert rules <= {
        "amount-implausible", "volume-caution", "warm-up-missing", "warm-up-gap",
        "option-missing", "load-missing", "interval-sum-wrong", "unit-missing", "side-missing",
    }  # fmt: skip

"""What must hold of the estimate of any plan."""

from collections.abc import Iterator
from math import isfinite

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strategies import plans

from cuewright.estimate import estimate
from cuewright.movements.catalogue import catalogue
from cuewright_models.estimate import BlockSeconds, Estimate, ItemEstimate, Seconds
from cuewright_models.plan import Block, Effort, Item, Plan, Quality, Repeat, Rest, Source
from cuewright_models.profile import PROFILES

ANY = settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def every_seconds(answer: Estimate) -> Iterator[Seconds]:
    """Each low, likely, high in the answer, however deep."""
    waiting: list[ItemEstimate] = []
    for profile in PROFILES:
        yield getattr(answer.total, profile)
        yield from (getattr(block, profile) for block in answer.blocks)
    for block in answer.blocks:
        waiting.extend(block.items)
    while waiting:
        item = waiting.pop()
        yield from (getattr(item, profile) for profile in PROFILES)
        waiting.extend(item.items)


def nested_alike(items: tuple[Item, ...], answers: tuple[ItemEstimate, ...]) -> bool:
    """Whether the answers nest as the items do."""
    return len(items) == len(answers) and all(
        nested_alike(() if isinstance(item, Effort | Rest) else item.items, answer.items)
        for item, answer in zip(items, answers, strict=True)
    )


@ANY
@given(plans())
def test_the_answer_is_in_order_and_has_the_plan_s_shape(plan: Plan) -> None:
    answer = estimate(plan)
    for seconds in every_seconds(answer):
        assert 0 <= seconds.low_s <= seconds.likely_s <= seconds.high_s
    assert [block.id for block in answer.blocks] == [block.id for block in plan.blocks]
    for block, answered in zip(plan.blocks, answer.blocks, strict=True):
        assert nested_alike(block.items, answered.items)
        for profile in PROFILES:
            check_structure_s_own(getattr(answered, profile))


def check_structure_s_own(seconds: BlockSeconds) -> None:
    for share in (seconds.behind, seconds.finish):
        assert share is None or 0 <= share <= 1
    if seconds.rounds:
        assert seconds.rounds.low <= seconds.rounds.likely <= seconds.rounds.high


@ANY
@given(plans(wild=True))
def test_any_plan_that_the_models_allow_gets_finite_seconds(plan: Plan) -> None:
    answer = estimate(plan)
    assert all(isfinite(s.low_s) and isfinite(s.high_s) for s in every_seconds(answer))
    assert Estimate.model_validate_json(answer.model_dump_json())


def worked(movement: str, unit: str, amount: float, times: int) -> Plan:
    effort = Effort(movement=movement, as_said=movement, unit=unit, low=amount, high=amount)
    repeat = Repeat(times={"low": times, "high": times}, items=(effort,))
    block = Block(id="b1", kind="conditioning", structure=Quality(), items=(repeat,))
    return Plan(source=Source(name="talk", kind="text", sha256=""), blocks=(block,))


@ANY
@given(st.sampled_from(sorted(catalogue())), st.data())
def test_a_fitter_athlete_is_never_slower(movement: str, data: st.DataObject) -> None:
    unit = data.draw(st.sampled_from(catalogue()[movement].counted_in))
    amount = data.draw(st.integers(1, 400))
    total = estimate(worked(movement, unit, amount, data.draw(st.integers(1, 6)))).total
    assert total.newcomer.likely_s >= total.regular.likely_s >= total.advanced.likely_s


@ANY
@given(st.sampled_from(sorted(catalogue())), st.data())
def test_more_work_never_takes_less_time(movement: str, data: st.DataObject) -> None:
    unit = data.draw(st.sampled_from(catalogue()[movement].counted_in))
    less, more = sorted((data.draw(st.integers(1, 400)), data.draw(st.integers(1, 400))))
    short, long = (estimate(worked(movement, unit, n, 3)).total for n in (less, more))
    assert short.regular.likely_s <= long.regular.likely_s

"""Mistakes planted in random plans: each rule finds its own, and not the near miss.

A planter draws two plans that differ in the figure or the fact that decides: one in which the
rule must speak of what was planted, and one in which it must not.
"""

from collections.abc import Callable
from datetime import date

import pytest
from check.building import (
    advice,
    block,
    claim,
    cue,
    day,
    effort,
    findings,
    ladder,
    option,
    plan,
    rounds,
    said,
    target,
)
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strategies import WEEKDAYS, plans

from cuewright.movements.catalogue import catalogue
from cuewright_models.plan import Block, Plan, efforts

Draw = st.DrawFn
Planted = tuple[Plan, Plan, str]
"""With the mistake, without it, and what a finding on it is about."""
Planter = Callable[[Draw, tuple[Block, ...]], Planted]

ANY = settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def main(*items: object, structure: str = "for-time", **more: object) -> Block:
    """The planted block."""
    return block("b9 conditioning", structure, *items, **more)


def without(movement: str, others: tuple[Block, ...]) -> tuple[Block, ...]:
    """The blocks that hold no movement which could be taken for this one."""
    rows = catalogue()
    near = {movement, *rows[movement].easier, *rows[movement].harder}
    near |= {row.name for row in rows.values() if movement in (*row.easier, *row.harder)}
    words = set(movement.split("-"))
    near |= {row.name for row in rows.values() if words & set(row.name.split("-"))}
    return tuple(
        each
        for each in others
        if not near & {name for e in efforts(each.items) for name in (e.movement, *e.alternatives)}
    )


def total_said_twice(draw: Draw, others: tuple[Block, ...]) -> Planted:
    about, length = draw(st.sampled_from(["total", "b9"])), draw(st.integers(10, 120)) * 60
    first = claim("total-time", about, length)
    far = claim("total-time", about, length * draw(st.floats(1.2, 3)) + 120)
    near = claim("total-time", about, length * draw(st.floats(1, 1.1)))
    made = (main(effort("burpee", 10)), first, *others)
    return plan(*made, far), plan(*made, near), about


def total_vs_targets(draw: Draw, others: tuple[Block, ...]) -> Planted:
    seconds, times = draw(st.integers(20, 300)), draw(st.integers(1, 10))
    total = seconds * times
    made = (
        main(rounds(times, effort("burpee", 10))),
        target("burpee", seconds),
        *without("burpee", others),
    )
    short = target("b9", total * draw(st.floats(0.1, 0.9)))
    fits = target("b9", (total, total * draw(st.floats(1, 3))))
    return plan(*made, short), plan(*made, fits), "total"


def target_said_twice(draw: Draw, others: tuple[Block, ...]) -> Planted:
    seconds = draw(st.integers(60, 3000))
    made = (main(effort("burpee", 10)), target("b9", seconds), *others)
    far = target("b9", seconds * draw(st.floats(1.1, 4)) + 2)
    near = target("b9", seconds * draw(st.floats(1, 1.05)))
    return plan(*made, far), plan(*made, near), "b9"


def rounds_said_twice(draw: Draw, others: tuple[Block, ...]) -> Planted:
    times = draw(st.integers(2, 20))
    other = draw(st.integers(2, 20).filter(lambda number: number != times))
    kind = draw(st.sampled_from(["rounds", "restated"]))
    made = (main(rounds(times, effort("burpee", 10))), *others)
    wrong = claim(kind, "b9", other, "rounds")
    return plan(*made, wrong), plan(*made, claim(kind, "b9", times, "rounds")), "b9"


def ladder_vs_rounds(draw: Draw, others: tuple[Block, ...]) -> Planted:
    rungs = draw(st.lists(st.integers(1, 50), min_size=2, max_size=10).map(tuple))
    other = draw(st.integers(1, 12).filter(lambda number: number != len(rungs)))
    made = (main(ladder(rungs, effort("burpee"))), *others)
    right = claim("rounds", "b9", len(rungs))
    return plan(*made, claim("rounds", "b9", other)), plan(*made, right), "b9"


def sum_claim_wrong(draw: Draw, others: tuple[Block, ...]) -> Planted:
    times, reps = draw(st.integers(2, 10)), draw(st.integers(5, 50))
    made = (main(rounds(times, effort("burpee", reps))), *without("burpee", others))
    more = round(times * reps * draw(st.floats(1.1, 3))) + 1
    counted = draw(st.sampled_from([reps, times * reps]))  # one round, or all
    wrong, right = (claim("total-reps", "burpee", number, "reps") for number in (more, counted))
    return plan(*made, wrong), plan(*made, right), "burpee"


def interval_sum_wrong(draw: Draw, others: tuple[Block, ...]) -> Planted:
    every, times = draw(st.integers(30, 300)), draw(st.integers(2, 30))
    length = every * times
    made = (main(effort("burpee", 5), structure="every", every_s=every, times=times), *others)
    far = claim("total-time", "b9", length * draw(st.floats(1.05, 2)) + 31)
    near = claim("total-time", "b9", length + draw(st.integers(-30, 30)))
    return plan(*made, far), plan(*made, near), "b9"


# What is asked of nobody, and what of some: the longest lists, a marathon, far beyond the full
# score of service tests (USMC); the rest common practice, no source.
MOST = [
    ("pull-up", "reps", 200),
    ("burpee", "reps", 500),
    ("air-squat", "reps", 600),
    ("bear-crawl", "m", 500),
    ("run", "m", 42_195),
    ("plank", "s", 1800),
]


def amount_implausible(draw: Draw, others: tuple[Block, ...]) -> Planted:
    movement, unit, most = draw(st.sampled_from(MOST))
    rest = without(movement, others)
    far = effort(movement, most * draw(st.floats(1.01, 100)), unit)
    hard = effort(movement, most * draw(st.floats(0.01, 1)), unit)
    return plan(main(far), *rest), plan(main(hard), *rest), movement


def cue_without_work(draw: Draw, others: tuple[Block, ...]) -> Planted:
    names = ["turkish-get-up", "rope-climb", "battle-rope", "sled-push", "wall-sit", "box-jump"]
    movement = draw(st.sampled_from(names))
    spoken = draw(st.sampled_from([cue(movement), option(movement, "fewer")]))
    made = (main(effort("shoulder-tap", 10)), spoken, *without(movement, others))
    done = block("b8 accessory", "quality", effort(movement, 10))
    return plan(*made), plan(*made, done), movement


def equipment_vs_claim(draw: Draw, others: tuple[Block, ...]) -> Planted:
    needing = ["kettlebell-swing", "pull-up", "row", "sled-push", "medicine-ball-slam", "dip"]
    movement = draw(st.sampled_from(needing))
    made = (main(effort(movement, 10)), *others)
    none = claim("equipment", "none", said=said("no kit at all"))
    kit = catalogue()[movement].kit[0]
    but = claim("equipment", kit, said=said(f"no kit at all but a {kit}"))
    only = claim("equipment", kit, only=True)
    right = draw(st.sampled_from([(), (none, but), (only,)]))
    return plan(*made, none), plan(*made, *right), movement


def date_vs_weekday(draw: Draw, others: tuple[Block, ...]) -> Planted:
    when = draw(st.dates(date(2000, 1, 1), date(2099, 12, 31)))
    right = WEEKDAYS[when.weekday()]
    wrong = draw(st.sampled_from(WEEKDAYS).filter(lambda name: name != right))
    good = draw(st.sampled_from([(right, when.year), (wrong, None), (None, when.year)]))
    true, near = (
        day(name, year, when.month, when.day) for name, year in ((wrong, when.year), good)
    )
    return plan(true, *others), plan(near, *others), "date"


def warm_up_missing(draw: Draw, others: tuple[Block, ...]) -> Planted:
    clock = draw(st.sampled_from(["for-time", "amrap", "every", "intervals"]))
    rest = tuple(each for each in others if each.kind not in ("warm-up", "mobility"))
    made = (main(effort("burpee", 10), structure=clock), *rest)
    kind = draw(st.sampled_from(["warm-up", "mobility"]))
    here = block(f"b8 {kind}", "quality", effort("air-squat", 10))
    right = draw(st.sampled_from([here, advice("warm-up"), claim("in-description", "warm-up")]))
    return plan(*made), plan(right, *made), "total"


def warm_up_gap(draw: Draw, others: tuple[Block, ...]) -> Planted:
    clock = draw(st.sampled_from(["for-time", "amrap", "every"]))
    legs, arms = ["jog", "air-squat", "leg-swing"], ["arm-circle", "arm-swing", "halo"]
    presses, jumps = ["pull-up", "push-press", "wall-walk"], ["box-jump", "deadlift", "sprint"]
    cases = [(presses, legs, arms), (jumps, arms, legs)]
    hard, left_out, readied = draw(st.sampled_from(cases))
    movement = draw(st.sampled_from(hard))
    rest = tuple(each for each in others if each.kind not in ("warm-up", "mobility"))
    gap, fit = (
        block("b8 warm-up", "quality", effort(draw(st.sampled_from(names)), 10))
        for names in (left_out, readied)
    )
    made = main(effort(movement, 10), structure=clock)
    return plan(gap, made, *rest), plan(fit, made, *rest), "b9"


def volume_caution(draw: Draw, others: tuple[Block, ...]) -> Planted:
    # 100 pull-ups, 200 push-ups and 300 squats: common practice, no source.
    movement, least = draw(
        st.sampled_from([("pull-up", 100), ("push-up", 200), ("air-squat", 300)])
    )
    times = draw(st.integers(1, 10))
    rest = tuple(each for each in others if each.kind in ("warm-up", "mobility", "cool-down"))
    more = main(rounds(times, effort(movement, -(-least // times) + draw(st.integers(0, 50)))))
    less = main(rounds(times, effort(movement, draw(st.integers(1, (least - 1) // times)))))
    right = draw(st.sampled_from([(less,), (more, option(movement, "fewer"))]))
    return plan(more, *rest), plan(*right, *rest), movement


PLANTERS: list[Planter] = [
    amount_implausible,
    volume_caution,
    warm_up_missing,
    warm_up_gap,
    total_said_twice,
    total_vs_targets,
    target_said_twice,
    rounds_said_twice,
    ladder_vs_rounds,
    sum_claim_wrong,
    interval_sum_wrong,
    cue_without_work,
    equipment_vs_claim,
    date_vs_weekday,
]


@pytest.mark.parametrize("planter", PLANTERS, ids=lambda planter: planter.__name__)
@ANY
@given(data=st.data(), other=plans())
def test_the_mistake_is_found_and_the_near_miss_is_not(
    planter: Planter, data: st.DataObject, other: Plan
) -> None:
    code = planter.__name__.replace("_", "-")
    wrong, right, about = planter(data.draw, other.blocks)
    assert about in [finding.about for finding in findings(code, wrong)]
    assert about not in [finding.about for finding in findings(code, right)]

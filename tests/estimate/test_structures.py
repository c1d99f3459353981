"""Each structure's own arithmetic, from pieces whose seconds are known."""

import pytest
from sessions import block, effort, held, ladder, plan, repeat, reps, rest

from cuewright.estimate import estimate
from cuewright.paces.figures import figures
from cuewright_models.estimate import BlockEstimate, Seconds
from cuewright_models.plan import Block, Effort, Range, Slot


def answer(of: Block) -> BlockEstimate:
    return estimate(plan(of)).blocks[0]


def likely(of: Block) -> float:
    return answer(of).regular.likely_s


def close(seconds: float) -> object:
    """The same up to the draws' last hundredth."""
    return pytest.approx(seconds, abs=0.05)


def ends(seconds: Seconds) -> tuple[float, float, float]:
    return seconds.low_s, seconds.likely_s, seconds.high_s


MINUTE = held("plank", 60)
NEXT = 4  # seconds on to the next movement on the spot, pace.toml


def test_work_by_the_clock_costs_its_seconds() -> None:
    assert ends(answer(block("quality", MINUTE)).regular) == (60, 60, 60)


def test_each_side_counts_twice() -> None:
    one = likely(block("quality", reps("clamshell", 10)))
    both = likely(block("quality", reps("clamshell", 10, per_side=True)))
    assert both == pytest.approx(2 * one)
    assert likely(block("quality", held("side-plank", 30, per_side=True))) == 60


def test_a_range_spreads_from_its_low_to_its_high_end() -> None:
    # Each athlete stays somewhere in the range: 10 % of them in its lowest tenth.
    spread = ends(answer(block("quality", held("plank", 40, 60))).regular)
    assert spread == pytest.approx((42, 50, 58), abs=0.01)


def test_rounds_with_rest_between_them() -> None:
    assert likely(block("quality", repeat(3, MINUTE, rest_s=30))) == 3 * 60 + 2 * 30


def test_rounds_without_rest_cost_the_way_back() -> None:
    assert likely(block("quality", repeat(3, MINUTE))) == close(3 * 60 + 2 * NEXT)


def test_a_standing_rest_takes_in_the_ways_beside_it() -> None:
    assert likely(block("quality", MINUTE, rest(30), MINUTE)) == 150


def test_sets_rest_between_sets_and_between_exercises() -> None:
    two = block("sets", repeat(3, MINUTE), repeat(2, MINUTE), rest_s=90)
    assert likely(two) == 5 * 60 + 4 * 90


def test_sets_without_a_stated_rest_take_the_usual_one() -> None:
    usual = figures().rest["strength"].likely
    assert likely(block("sets", repeat(5, MINUTE), kind="strength")) == close(5 * 60 + 4 * usual)


def test_a_ladder_does_each_rung() -> None:
    rungs = (5, 4, 3)
    whole = likely(block("quality", ladder(rungs, reps("air-squat", None))))
    singly = [likely(block("quality", reps("air-squat", rung))) for rung in rungs]
    assert whole == pytest.approx(sum(singly) + 2 * NEXT, rel=0.03)


def test_items_inside_are_timed_for_one_go() -> None:
    outer = answer(block("quality", repeat(4, MINUTE, rest_s=10))).items[0]
    assert outer.regular.likely_s == 4 * 60 + 3 * 10
    assert outer.items[0].regular.likely_s == 60


def test_intervals_are_rounds_of_stations_of_work_and_rest() -> None:
    stations = [held(name, 40) for name in ("air-squat", "push-up", "plank")]
    timed = answer(block("intervals", *stations, work_s=40, rest_s=20, times=3)).regular
    assert ends(timed) == (3 * 3 * 60 - 20, 3 * 3 * 60, 3 * 3 * 60)


def test_intervals_without_a_work_period_take_the_stations_own() -> None:
    stations = [held("plank", 30), held("wall-sit", 50)]
    assert likely(block("intervals", *stations, rest_s=10, times=2)) == 2 * (30 + 50 + 20)


def test_an_interval_clock_runs_to_its_end() -> None:
    timed = answer(block("every", held("plank", 40), every_s=60, times=10)).regular
    assert ends(timed) == (600, 600, 600)
    assert (timed.spare_s, timed.behind) == (20, 0)


def test_the_fullest_interval_decides_the_spare_seconds() -> None:
    slots = [Slot(index=n + 1, items=(held("plank", s),)) for n, s in enumerate((20, 45, 30))]
    assert answer(block("every", *slots, every_s=60, times=9)).regular.spare_s == 15


def test_an_overfull_interval_leaves_everybody_behind() -> None:
    timed = answer(block("every", held("plank", 80), every_s=60, times=5)).regular
    assert (timed.spare_s, timed.behind) == (-20, 1)


def test_the_number_of_intervals_may_come_from_the_duration() -> None:
    assert likely(block("every", MINUTE, every_s=120, duration_s=600)) == 600


def test_an_amrap_runs_its_time_and_counts_its_rounds() -> None:
    timed = answer(block("amrap", held("plank", 56), duration_s=600)).regular
    assert ends(timed) == (600, 600, 600)
    assert timed.rounds is not None
    assert 8 < timed.rounds.likely < 10  # a round is 60 s with the way back; rounds drift


def test_an_amrap_without_a_clock_has_no_rounds() -> None:
    timed = answer(block("amrap", MINUTE)).regular
    assert timed.rounds is None
    assert timed.likely_s == 60


def test_a_cap_clips_and_says_who_finishes() -> None:
    work = repeat(10, reps("burpee", 15))
    free = answer(block("for-time", work)).regular
    capped = answer(block("for-time", work, cap_s=free.likely_s)).regular
    assert capped.high_s == capped.likely_s == pytest.approx(free.likely_s)
    assert capped.finish == pytest.approx(0.5)
    assert answer(block("for-time", work, cap_s=free.high_s)).regular.finish == pytest.approx(
        0.9, abs=0.001
    )
    assert answer(block("for-time", work)).regular.finish is None


def test_rounds_drift_against_the_clock_only() -> None:
    rounds = repeat(10, reps("air-squat", 10), rest_s=0)
    assert likely(block("for-time", rounds)) > likely(block("quality", rounds))


def test_large_sets_break_up() -> None:
    ten, fifty = (likely(block("quality", reps("push-up", n))) for n in (10, 50))
    assert fifty > 5 * ten


def test_a_change_of_kit_or_place_costs_more() -> None:
    squat, swing = held("air-squat", 30), held("kettlebell-swing", 30)
    same, kit, place = (
        likely(block("quality", squat, other)) - 60
        for other in (held("push-up", 30), swing, held("run", 30))
    )
    assert same < kit < place


def test_blocks_are_joined_by_a_change() -> None:
    one = block("quality", MINUTE)
    two = block("quality", MINUTE, id="b2")
    assert estimate(plan(one, two)).total.regular.likely_s == close(2 * 60 + 120)


def test_an_unknown_pace_is_listed_and_widens_the_total() -> None:
    strange = Effort(movement="oar-twirl", as_said="oar twirls", unit="reps", low=10, high=10)
    answered = estimate(plan(block("quality", repeat(2, strange, rest_s=0), MINUTE)))
    assert answered.unknown_pace == ("oar-twirl",)
    low, mid, high = ends(answered.total.regular)
    each = figures().unknown["reps"]
    assert low == pytest.approx(60 + 20 * each.low, abs=5)
    assert mid == pytest.approx(60 + 20 * each.likely, abs=5)
    assert high == pytest.approx(60 + 20 * each.high, abs=5)


def test_an_unknown_movement_by_the_clock_needs_no_pace() -> None:
    timed = estimate(plan(block("quality", held("oar-twirl", 30))))
    assert timed.unknown_pace == ()
    assert timed.total.regular.likely_s == 30


@pytest.mark.parametrize("unit", ["kcal", "m"])
def test_a_unit_without_a_pace_is_listed(unit: str) -> None:
    assert estimate(plan(block("quality", effort("push-up", unit, 20)))).unknown_pace == (
        "push-up",
    )


def test_an_amount_not_said_takes_a_wide_guess_and_not_nothing() -> None:
    unsaid = Effort(movement="walk", as_said="walk back")
    with_it, without = (
        estimate(plan(block("quality", repeat(1, *items)))).total.regular
        for items in ((unsaid,), ())
    )
    assert ends(without) == (0, 0, 0)
    guess = figures().seconds["unsaid"]
    assert ends(with_it) == pytest.approx((guess.low, guess.likely, guess.high), abs=0.1)


def test_as_many_as_possible_costs_a_set_to_failure() -> None:
    failure = Effort(movement="push-up", as_said="push-ups", unit="reps", max=True)
    assert 15 < likely(block("quality", failure)) < 90


def test_repeats_of_a_range_spread_too() -> None:
    rounds = repeat(1, MINUTE, rest_s=0).model_copy(update={"times": Range(low=3, high=5)})
    spread = ends(answer(block("quality", rounds)).regular)
    assert spread == pytest.approx((192, 240, 288), abs=0.1)


def test_an_empty_plan_takes_no_time() -> None:
    assert ends(estimate(plan()).total.newcomer) == (0, 0, 0)


def test_a_station_for_each_side_is_two_work_periods() -> None:
    sides = held("side-plank", 30, per_side=True)
    assert likely(block("intervals", sides, work_s=30, rest_s=10, times=2)) == 2 * 2 * 40


def test_a_rest_between_rounds_of_intervals_is_added() -> None:
    timed = block("intervals", MINUTE, MINUTE, rest(90), work_s=60, rest_s=30, times=3)
    assert likely(timed) == 3 * (2 * 90 + 90)


def test_work_outside_the_slots_is_in_every_interval() -> None:
    slots = [Slot(index=n + 1, items=(held("plank", 20),)) for n in range(2)]
    timed = answer(block("every", held("air-squat", 25), *slots, every_s=60, times=8)).regular
    assert timed.spare_s == close(60 - 25 - NEXT - 20)


def test_a_set_that_ends_in_its_own_rest_gets_no_other() -> None:
    assert likely(block("sets", repeat(3, MINUTE, rest(45)), rest_s=90)) == 3 * (60 + 45)


def test_an_interval_filled_with_as_many_as_possible_has_no_spare_seconds() -> None:
    most = Effort(movement="burpee", as_said="burpees", unit="reps", max=True)
    timed = answer(block("every", most, every_s=60, times=5)).regular
    assert (timed.spare_s, timed.behind) == (None, None)

"""The coach's own totals and targets."""

from sessions import block, held, ladder, metres, plan, repeat, reps, rest

from cuewright.estimate import estimate
from cuewright_models.estimate import FromTargets, StatedTotal
from cuewright_models.plan import Claim, Item, Plan, Target


def claim(low: float | None, high: float | None, about: str = "total") -> Claim:
    return Claim(kind="total-time", about=about, low=low, high=high, unit="s")


def target(about: str, low: float | None, high: float | None, unit: str = "s") -> Target:
    return Target(about=about, unit=unit, low=low, high=high)


def stated(*claims: Claim, targets: tuple[Target, ...] = ()) -> StatedTotal | None:
    return estimate(plan(claims=claims, targets=targets)).stated


def test_nothing_stated() -> None:
    assert stated() is None


def test_a_claim_comes_before_a_target() -> None:
    wanted = target("total", 1200, 1500)
    assert stated(targets=(wanted,)) == StatedTotal(low_s=1200, high_s=1500)
    assert stated(claim(2700, 2700), targets=(wanted,)) == StatedTotal(low_s=2700, high_s=2700)


def test_claims_that_agree_are_joined_and_others_left_out() -> None:
    claims = claim(2400, 2700), claim(2700, 3000), claim(5400, 5400)
    assert stated(*claims) == StatedTotal(low_s=2400, high_s=3000)


def test_open_ends() -> None:
    assert stated(claim(None, 3600)) == StatedTotal(low_s=0, high_s=3600)
    assert stated(claim(2400, None)) is None


def test_only_the_whole_session_counts() -> None:
    assert stated(claim(600, 600, about="b1"), targets=(target("total", 7, 8, "rpe"),)) is None


def boathouse(*targets: Target) -> Plan:
    """Run, four rounds of three stations, run."""
    rounds = repeat(4, metres("row", 250), reps("step-up", 18), reps("sit-up", 15))
    return plan(
        block("quality", held("jog", 180), repeat(2, reps("air-squat", 10)), kind="warm-up"),
        block("for-time", metres("run", 1200), rounds, metres("run", 600), id="b2"),
        targets=targets,
    )


RUNS = (target("run", 360, 360), target("run", 180, 180))


def test_each_place_takes_its_own_target_and_a_round_stands_for_its_stations() -> None:
    summed = estimate(boathouse(*RUNS, target("round", 300, 300))).from_targets
    assert summed == FromTargets(low_s=1740, high_s=1740, complete=False)  # 360 + 4 x 300 + 180


def test_stations_without_a_target_leave_the_sum_a_lower_bound() -> None:
    summed = estimate(boathouse(*RUNS, target("row", 60, 75))).from_targets
    assert summed == FromTargets(low_s=540 + 4 * 60, high_s=540 + 4 * 75, complete=False)


def whole(*items: Item, targets: tuple[Target, ...]) -> FromTargets | None:
    return estimate(plan(block("for-time", *items), targets=targets)).from_targets


def test_a_sum_is_complete_when_every_station_has_a_target_or_a_clock() -> None:
    rounds = repeat(3, metres("row", 500), held("plank", 60), rest_s=30)
    summed = whole(rounds, rest(45), targets=(target("row", 120, 150),))
    low, high = 3 * (120 + 60) + 2 * 30 + 45, 3 * (150 + 60) + 2 * 30 + 45
    assert summed == FromTargets(low_s=low, high_s=high, complete=True)


def test_a_rung_is_a_round() -> None:
    summed = whole(ladder((9, 6, 3), reps("burpee", None)), targets=(target("burpee", None, 40),))
    assert summed == FromTargets(low_s=0, high_s=120, complete=True)


def test_a_target_about_the_block_stands_for_it() -> None:
    summed = whole(metres("row", 2000), targets=(target("b1", 480, 540),))
    assert summed == FromTargets(low_s=480, high_s=540, complete=True)


def test_targets_of_other_kinds_and_about_other_things_make_no_sum() -> None:
    others = target("row", 2, 3, "sets"), target("burpee", 30, 40)
    assert whole(metres("row", 500), targets=others) is None


def test_timed_work_for_each_side_counts_twice() -> None:
    side = held("side-plank", 30, per_side=True)
    summed = whole(side, metres("row", 500), targets=(target("row", 120, 120),))
    assert summed == FromTargets(low_s=180, high_s=180, complete=True)


def test_a_block_with_a_clock_takes_its_clock() -> None:
    every = block("every", metres("row", 250), every_s=90, times=8)
    summed = estimate(plan(every, targets=(target("row", 50, 60),))).from_targets
    assert summed == FromTargets(low_s=720, high_s=720, complete=True)

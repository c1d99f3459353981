"""The catalogue's paces and the time model against published figures.

Each check names its source. Between-person spread is 20 to 25 % and the best repeatability
of a three-minute rep test is 3 % (Tai et al. 2022, Int J Environ Res Public Health
19(10):5928), so the checks are bands, not points.
"""

from bisect import bisect_right

import pytest
from sessions import block, effort, metres, plan, repeat, reps

from cuewright.estimate import estimate
from cuewright.paces.figures import figures
from cuewright_models.estimate import BlockSeconds
from cuewright_models.movement import Pace
from cuewright_models.plan import Effort
from cuewright_models.profile import PROFILES, Profile


def pace(movement: str) -> Pace:
    row = figures().movement[movement]
    found = row.reps or row.m
    assert found
    return found


def alone(work: Effort, profile: Profile = "regular") -> BlockSeconds:
    """The effort by itself, against the clock."""
    return getattr(estimate(plan(block("for-time", work))).blocks[0], profile)


def done_in(seconds: float, movement: str, profile: Profile = "regular") -> int:
    """The most reps whose likely time is within ``seconds``."""
    return bisect_right(
        range(1, 1000), seconds, key=lambda n: alone(reps(movement, n), profile).likely_s
    )


# Repetitions


def test_self_chosen_push_up_pace_lies_between_fast_and_typical() -> None:
    # 1.20 s (men), 1.40 s (women): Rozenek et al. 2022, J Strength Cond Res
    # 36(12):3324-3329 (sources 1.30, 1.31).
    assert pace("push-up").fast <= 1.20 < 1.40 <= pace("push-up").typical


def test_the_slowest_push_up_is_within_the_cadence_test() -> None:
    # 20 a minute, 3.0 s: Keefer et al., NCUR 2021 (source 1.01).
    assert pace("push-up").slow <= 3.0


def test_push_ups_in_two_minutes_lie_between_pass_and_maximum() -> None:
    # Men 17-21: 42 reps is 60 points, 71 is 100; women 19 and 42: US Army FM 7-22 (2012),
    # appendix A (sources 1.60, 1.66).
    assert 42 <= done_in(120, "push-up") <= 71
    assert 19 <= done_in(120, "push-up", "newcomer") <= 42


@pytest.mark.parametrize("profile", PROFILES)
def test_nobody_beats_the_fastest_rewarded_push_ups_and_sit_ups(profile: Profile) -> None:
    # 67 push-ups (0.90 s) and 58 sit-ups (1.03 s) in a minute: US Air Force fitness
    # assessment 2021 (sources 1.85, 1.86).
    assert alone(reps("push-up", 67), profile).low_s >= 60
    assert alone(reps("sit-up", 58), profile).low_s >= 60


def test_sit_ups_in_two_minutes_lie_between_pass_and_maximum() -> None:
    # 17-21: 53 reps is 60 points (2.26 s), 78 is 100 (1.54 s): US Army FM 7-22 (2012),
    # appendix A (source 1.71). Theirs are with the feet held; ours may be slower.
    assert pace("sit-up").fast <= 1.54 < pace("sit-up").typical <= 2.26
    assert done_in(120, "sit-up") <= 78


def test_burpees_in_three_minutes_lie_in_the_average_band() -> None:
    # Average bands: men 47-66, women 37-60, at full effort, students of 18-25:
    # Podstawski et al. 2019, J Hum Kinet 69:137-147, doi 10.2478/hukin-2019-0021 (1.36).
    assert 37 <= done_in(180, "burpee", "regular") <= 60
    assert 47 <= done_in(180, "burpee", "advanced") <= 66


def test_nobody_beats_the_best_of_ten_thousand_students_at_burpees() -> None:
    # 82 in 3 minutes, 2.20 s: the same study (source 1.37).
    assert alone(reps("burpee", 82), "advanced").low_s >= 180


def test_chair_stands_of_young_and_old_lie_within_the_range_of_paces() -> None:
    # Medians 1.20 and 1.28 s at 20-24, 2.0 and 2.2 s at 75-79: Strassmann et al. 2013,
    # Int J Public Health 58:949-953, doi 10.1007/s00038-013-0504-z (sources 1.38, 1.39).
    stand = pace("sit-to-stand")
    assert stand.fast <= 1.20 < stand.typical < 2.0 < 2.2 <= stand.slow


def test_kettlebell_swings_over_twelve_minutes() -> None:
    # 265 (SD 68) with 16 kg, pauses included: Farrar, Mayhew & Koch 2010, J Strength Cond
    # Res 24(4):1034-1036, doi 10.1519/JSC.0b013e3181d15516 (source 1.41).
    assert 265 - 68 <= done_in(720, "kettlebell-swing") <= 265 + 68


def test_rope_turns_a_minute() -> None:
    # Moderate 100-120, fast 120-160: Compendium of Physical Activities, 15550 and 15551
    # (source 1.49).
    rope = pace("single-under")
    assert 60 / 160 <= rope.fast <= 60 / 120
    assert 60 / 120 <= rope.typical <= 60 / 100


def test_curl_ups_in_a_minute() -> None:
    # Average at 20-29: 21 to 36: Canadian Standardized Test of Fitness, 3rd ed. (1.103).
    assert 60 / 36 <= pace("crunch").typical <= 60 / 21


def test_step_ups_at_the_cadences_of_the_step_tests() -> None:
    # 24 cycles a minute (YMCA) and 30 (Harvard, Brouha 1942/43) (sources 1.11, 1.13).
    assert pace("step-up").fast <= 60 / 30 <= 60 / 24 <= pace("step-up").slow


def test_bench_press_at_the_cadence_of_the_fixed_load_test() -> None:
    # 30 reps a minute: YMCA Fitness Testing and Assessment Manual, 4th ed. 2000 (1.08).
    assert pace("bench-press").fast == pytest.approx(2.0)


def test_marching_steps() -> None:
    # 120 steps a minute at quick time (US Army TC 3-21.5, attribution from memory), 100 as
    # active rest (Bellissimo et al. 2022, Front Physiol 13:824154) (sources 1.20, 1.22).
    assert (pace("march").fast, pace("march").typical) == (60 / 120, 60 / 100)


def test_sets_of_ten_last_as_long_as_the_usual_tempo() -> None:
    # 8-12 reps at 1-2 s up and 1-2 s down last 16 to 48 s: ACSM position stand 2009
    # (sources 4.12, 4.15).
    for lift in ("back-squat", "bench-press", "deadlift", "strict-press"):
        assert 16 <= alone(reps(lift, 8)).likely_s <= 48


# Distances


def test_twice_the_distance_takes_the_riegel_factor() -> None:
    # 2^1.06 = 2.08493: Riegel 1981, American Scientist 69(3):285-290,
    # https://en.wikipedia.org/wiki/Peter_Riegel (sources 2.01, 2.02); 1 s is the start.
    five, ten = (alone(metres("run", far)).likely_s - 1 for far in (5000, 10_000))
    assert ten / five == pytest.approx(2.08493, abs=1e-5)


def test_two_miles_lie_between_pass_and_maximum() -> None:
    # Men 17-21: 15:54 passes, 13:00 is the maximum; the slowest pass up to 46 years is
    # 18:42: US Army FM 7-22 (2012), appendix A (sources 1.75, 1.77).
    far = metres("run", 2 * 1609.344)
    assert 780 <= alone(far, "advanced").likely_s <= 954
    assert 780 <= alone(far, "regular").likely_s <= 1122


def test_five_kilometres_on_the_road() -> None:
    # Median of US men 2013: 28:46 (source 2.33, secondary); mean of all finishers 2010:
    # 36:35 (source 2.34, secondary). Regular runners are ahead of the median, newcomers
    # between it and the mean.
    far = metres("run", 5000)
    assert alone(far, "regular").likely_s < 28 * 60 + 46 < alone(far, "newcomer").likely_s
    assert alone(far, "newcomer").likely_s < 36 * 60 + 35


@pytest.mark.parametrize(
    ("far", "record_s"),
    [
        # World Athletics, men, as of 2024 (sources 2.24 to 2.30; 5000 m from memory).
        (100, 9.58),
        (200, 19.19),
        (400, 43.03),
        (800, 100.91),
        (1500, 206.00),
        (1609.344, 223.13),
        (5000, 755.36),
        (10_000, 1571.00),
    ],
)
@pytest.mark.parametrize("movement", ["run", "sprint", "jog", "hill-sprint", "shuttle-run"])
def test_nobody_beats_a_world_record(movement: str, far: float, record_s: float) -> None:
    for profile in PROFILES:
        assert alone(metres(movement, far), profile).low_s > record_s


def test_a_400_inside_mixed_work() -> None:
    # 2:00 to 2:30 for a regular athlete (common practice, no source).
    rounds = repeat(5, metres("run", 400), reps("air-squat", 15), reps("push-up", 10))
    run = estimate(plan(block("for-time", rounds))).blocks[0].items[0].items[0]
    assert 120 <= run.regular.likely_s <= 150


def test_two_kilometres_on_the_rowing_machine() -> None:
    # 7:00 is the best score, 9:20 the lowest pass, men 17-19: US Navy readiness test
    # (source 1.90).
    far = metres("row", 2000)
    assert alone(far, "advanced").low_s >= 420
    assert 420 <= alone(far, "regular").likely_s <= 560


def test_kcal_on_the_rowing_machine_follow_from_its_power() -> None:
    # P = 2.80 / pace^3 (source 2.41); 2:00 for 500 m is 202.55 W (source 2.42). The
    # machine's kcal an hour, 4 x 0.8604 x watts + 300, is from memory.
    def kcal_s(pace_100m: float) -> float:
        watts = 2.80 / (pace_100m / 100) ** 3
        return 3600 / (4 * 0.8604 * watts + 300)

    assert pytest.approx(202.55, abs=0.005) == 2.80 / (120 / 500) ** 3
    ten = alone(effort("row", "kcal", 10)).likely_s
    assert ten == pytest.approx(10 * kcal_s(pace("row").typical), rel=0.05)


def test_walking_speeds() -> None:
    # Over-65s cross streets at 1.16 m/s in the mean: Gates et al. 2006, Transportation
    # Research Record (source 2.35).
    assert pace("walk").typical < 100 / 1.16 < pace("walk").slow

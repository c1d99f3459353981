"""Published sessions whose stated length follows from their parts."""

import pytest
from sessions import block, held, plan, repeat, reps, rest

from cuewright.estimate import estimate
from cuewright_models.estimate import BlockSeconds
from cuewright_models.plan import Block
from cuewright_models.profile import PROFILES


def seconds(of: Block) -> BlockSeconds:
    answered = estimate(plan(of)).blocks[0]
    assert answered.newcomer == answered.regular == answered.advanced
    return answered.regular


@pytest.mark.parametrize(
    ("times", "work_s", "rest_s", "work_ends_s", "rest_ends_s"),
    [
        # Tabata et al. 1996, Med Sci Sports Exerc 28(10): 7 to 8 sets (source 5.01).
        (8, 20, 10, 230, 240),
        (7, 20, 10, 200, 210),
        # Helgerud et al. 2007, doi 10.1249/mss.0b013e3180304570 (source 5.04).
        (4, 240, 180, 25 * 60, 28 * 60),
        # Gibala et al. 2012, J Physiol 590:1077-1084 (source 5.07).
        (10, 60, 60, 19 * 60, 20 * 60),
        # Bayati et al. 2011, J Sports Sci Med 10:571-576 (source 5.08).
        (5, 30, 240, 18 * 60 + 30, 22 * 60 + 30),
        # Hov et al. 2022, doi 10.1111/sms.14251 (source 5.06).
        (10, 30, 210, 36 * 60 + 30, 40 * 60),
        # Schnettler 2009, Univ. Wisconsin-La Crosse: 15:15 for 20 minutes (source 5.14).
        (40, 15, 15, 20 * 60 - 15, 20 * 60),
    ],
)
def test_interval_protocols(
    times: int, work_s: float, rest_s: float, work_ends_s: float, rest_ends_s: float
) -> None:
    """Low ends with the last work second, likely and high with the rest after it."""
    of = block("intervals", held("burpee", work_s), work_s=work_s, rest_s=rest_s, times=times)
    timed = seconds(of)
    assert (timed.low_s, timed.likely_s, timed.high_s) == (work_ends_s, rest_ends_s, rest_ends_s)


def test_the_eleven_minute_session() -> None:
    # 1 min warm-up, 5 x 60 s with 60 s of walking between, 1 min cool-down = 11:00:
    # Archila et al. 2021, PMC8136567 (source 5.13).
    bouts = ("burpee", "high-knees", "jumping-lunge", "high-knees", "jump-squat")
    parts = (
        block("quality", held("march", 60), kind="warm-up"),
        block("intervals", *(held(name, 60) for name in bouts), work_s=60, rest_s=60, times=1),
        block("quality", held("march", 60), kind="cool-down"),
    )
    assert sum(seconds(part).low_s for part in parts) == 11 * 60


def test_two_sets_of_five_bouts() -> None:
    # 2 x 5 x (60 s + 60 s) = 20:00: Bellissimo et al. 2022, Front Physiol 13:824154 (5.12).
    bouts = [held("burpee", 60)] * 5
    assert seconds(block("intervals", *bouts, work_s=60, rest_s=60, times=2)).likely_s == 1200


def test_eight_events_and_the_walks_between_them() -> None:
    # Eight events within 10:20 with seven walks of about 20 s leave 8:00 for the events:
    # candidate physical ability test, Corpus Christi fire department (source 10.12).
    events = [held("stair-machine", 60)]
    for _ in range(7):
        events += [rest(20), held("farmer-carry", 60)]
    assert seconds(block("for-time", *events)).likely_s == 10 * 60 + 20


def test_twelve_stations_with_ten_second_changes() -> None:
    # 12 x 30 s + 11 x 10 s = 7:50, which summaries of the article call 7 or 8 minutes:
    # Klika & Jordan 2013, ACSM's Health Fit J 17(3):8-13 (source 10.03; 30 s from memory).
    stations = [held("jumping-jack", 30)] * 12
    assert seconds(block("intervals", *stations, work_s=30, rest_s=10, times=1)).low_s == 470


def test_the_three_sprint_session() -> None:
    # 2 min + 3 x 20 s with 2 min between + 3 min = 10:00: Gillen et al. 2016, PLoS ONE
    # 11(4):e0154075 (source 5.10, from memory).
    sprints = repeat(3, held("bike", 20), rest_s=120)
    whole = block("quality", held("march", 120), rest(0), sprints, rest(0), held("march", 180))
    assert seconds(whole).likely_s == 600


def test_four_sets_with_three_minutes_between_rest_nine() -> None:
    # 4 x 10 at 70 %, 3 min rest: Magosso et al. 2013, JEPonline 16(5):57-62 (source 4.20).
    def sets(count: int) -> Block:
        return block("sets", repeat(count, reps("leg-press", 10)), kind="strength", rest_s=180)

    one, four = (estimate(plan(sets(count))).blocks[0] for count in (1, 4))
    for profile in PROFILES:
        work_s = getattr(one, profile).likely_s
        # The sets after the first are a little longer, for three minutes do not give all back.
        assert getattr(four, profile).likely_s == pytest.approx(4 * work_s + 9 * 60, rel=0.05)


def test_a_start_every_minute_is_feasible_for_a_hundred_fast_and_a_hundred_slow() -> None:
    # 100 m fast (15-20 s) and 100 m slow (30-40 s), a start every minute for 25 minutes:
    # 45-60 s of work fits (source 5.16, a column; sum recomputed).
    work = held("sprint", 15, 20), rest(35)
    timed = seconds(block("every", *work, every_s=60, times=25))
    assert timed.likely_s == 25 * 60
    assert timed.spare_s is not None
    assert 0 <= timed.spare_s <= 15

"""Other paces and other amounts than those of the talk."""

import pytest
from sessions import block, effort, metres, plan, repeat, reps

from cuewright.estimate import estimate
from cuewright.estimate.whatif import BadQuestion, changed, paces_of
from cuewright_models.plan import Effort

PLAN = plan(
    block("quality", reps("air-squat", 10), kind="warm-up"),
    block(
        "for-time",
        metres("run", 1000),
        repeat(5, reps("burpee", 15), effort("row", "kcal", 12), reps("oar-twirl", 8)),
        id="b2",
        cap_s=1800,
    ),
    block("every", reps("push-up", 10), id="b3", every_s=60, times=10),
)


@pytest.mark.parametrize(
    ("asked", "given"),
    [
        ("run=5:00/km", {("run", "m"): 30.0}),
        ("run=8:00/mile", {("run", "m"): 480 / 16.09344}),
        ("run = 2:00/400m", {("run", "m"): 30.0}),
        ("runs=300/km", {("run", "m"): 30.0}),
        ("burpees=4/rep", {("burpee", "reps"): 4.0}),
        ("row=5.5/kcal", {("row", "kcal"): 5.5}),
        ("oar-twirl=3/rep", {("oar-twirl", "reps"): 3.0}),
    ],
)
def test_a_pace_is_read(asked: str, given: dict[tuple[str, str], float]) -> None:
    assert paces_of([asked], PLAN) == pytest.approx(given)


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("run", "is no pace"),
        ("run=fast/km", "is no pace"),
        ("run=5:00", "is no pace"),
        ("run=-5:00/km", "is no pace"),
        ("run=5:00/furlong", "is no pace"),
        ("=5:00/km", "is no pace"),
        ("run=0/km", "a pace of nothing"),
        ("run=5:00/0m", "a pace of nothing"),
        ("run=1:00/km", "faster than anybody"),
        ("burpee=0.1/rep", "faster than anybody"),
        ("swim=2:00/100m", "There is no swim in this session"),
        ("burpy=3/rep", "did you mean burpee"),
        ("row=2:00/500m", "goes by the kcal"),
    ],
)
def test_a_pace_that_cannot_be_is_one_sentence(asked: str, told: str) -> None:
    with pytest.raises(BadQuestion, match=told):
        paces_of([asked], PLAN)


def test_a_pace_that_is_given_holds_for_everybody() -> None:
    answer = estimate(plan(block("for-time", metres("run", 1000))), paces={("run", "m"): 30.0})
    alike = {answer.total.newcomer, answer.total.regular, answer.total.advanced}
    (same,) = alike
    assert same.likely_s == pytest.approx(301, abs=0.01)
    assert same.high_s - same.low_s < 30
    assert answer.unknown_pace == ()


def test_a_pace_makes_an_unknown_movement_known() -> None:
    assert estimate(PLAN, paces={("oar-twirl", "reps"): 3.0}).unknown_pace == ()


def test_amounts_change_where_they_are_asked_to() -> None:
    made = changed(PLAN, ["b2.rounds=3", "b2.burpees=10", "b2.cap=20:00", "b3.rounds=12"])
    assert made.blocks[0] == PLAN.blocks[0]
    run, rounds = made.blocks[1].items
    assert run == PLAN.blocks[1].items[0]
    assert (rounds.times.low, rounds.times.high) == (3, 3)
    assert [e.high for e in rounds.items if isinstance(e, Effort)] == [10, 12, 8]
    assert made.blocks[1].structure.cap_s == 1200
    assert made.blocks[2].structure.times == 12
    assert changed(PLAN, ["b2.rest=1:30"]).blocks[1].items[1].rest_s == 90


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("rounds=4", "changes nothing"),
        ("b9.rounds=4", "There is no block b9 in this plan; its blocks are b1, b2, b3"),
        ("b2.rounds=none", "is no amount"),
        ("b2.rounds=0", "above zero"),
        ("b2.rounds=-1", "is no amount"),
        ("b2.rounds=2.5", "rounds are whole"),
        ("b2.rounds=99999", "1000 at most"),
        ("b1.rounds=2", "nothing that"),
        ("b1.cap=3:00", "has no cap"),
        ("b1.burpee=3", "nothing that"),
        ("b1.burpy=3", "did you mean burpee"),
    ],
)
def test_an_amount_that_cannot_be_is_one_sentence(asked: str, told: str) -> None:
    with pytest.raises(BadQuestion, match=told):
        changed(PLAN, [asked])

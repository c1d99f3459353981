"""Versions of a session that meet its targets or a total, for each profile."""

from pathlib import Path

import pytest
from sessions import block, effort, ladder, metres, plan, repeat, reps, rest

from cuewright.errors import CuewrightError
from cuewright.estimate import estimate
from cuewright.estimate.goals import station_goals
from cuewright.estimate.places import within
from cuewright.estimate.scale import LEEWAY, STATIONS, versions
from cuewright.estimate.whatif import BadQuestion
from cuewright.flow import read_plan, scaled
from cuewright.movements.catalogue import catalogue
from cuewright_models.plan import Effort, Option, Plan, Target

TESTS = Path(__file__).parents[1]
TALKS = sorted(
    path
    for folder in ("corpus", "talks")
    for path in (TESTS / folder).iterdir()
    if path.suffix in (".vtt", ".srt", ".txt", ".json") and ".gold" not in path.name
)
SAID = plan(
    block("quality", reps("air-squat", 10), kind="warm-up"),
    block(
        "for-time",
        metres("run", 1200),
        repeat(4, metres("row", 250), reps("toes-to-bar", 18), reps("sit-up", 15)),
        id="b2",
    ),
    targets=(
        Target(about="run", unit="s", low=300, high=360),
        Target(about="round", unit="s", low=170, high=190),
    ),
    options=(Option(about="toes-to-bar", kind="easier", to="v-up"),),
)


def made(of: Plan, place: tuple[int, ...], version: Plan) -> Effort:
    return dict(within(version))[place]


def test_targets_are_met_for_each_in_numbers_that_a_coach_would_say() -> None:
    for version in versions(SAID, STATIONS):
        assert [goal.why for goal in version.goals] == [None, None]
        run, round_ = version.goals
        assert 300 <= run.likely_s <= 360
        assert 0.85 * 180 <= round_.likely_s <= 1.15 * 180
        for _, item in within(version.plan):
            if isinstance(item, Effort) and item.unit == "m":
                assert item.low == item.high
                assert item.low % 50 == 0
            elif isinstance(item, Effort) and item.low > 12:
                assert item.low % 5 == 0


def test_a_fitter_athlete_is_given_more() -> None:
    runs = [made(SAID, (1, 0), version.plan).low for version in versions(SAID, STATIONS)]
    assert runs == sorted(runs)
    assert runs[0] < runs[2]


def test_beyond_one_s_skill_comes_the_easier_movement_the_coach_s_own_first() -> None:
    newcomer, regular, advanced = (
        made(SAID, (1, 1, 1), version.plan).movement for version in versions(SAID, STATIONS)
    )
    assert catalogue()["toes-to-bar"].skill == 3
    assert regular == "v-up"
    assert catalogue()[newcomer].skill == 1 or newcomer == "toes-to-bar"
    assert advanced == "toes-to-bar"


@pytest.mark.parametrize("minutes", [20, 30, 45])
def test_a_total_is_met(minutes: int) -> None:
    for version in versions(SAID, str(minutes)):
        likely = getattr(estimate(version.plan).total, version.profile).likely_s
        assert likely == pytest.approx(60 * minutes, rel=LEEWAY)
        assert version.plan.blocks[0] == SAID.blocks[0]  # the warm-up stays


def test_the_version_is_a_checked_plan_again() -> None:
    for version in scaled(SAID, "30"):
        again = Plan.model_validate_json(version.plan.model_dump_json())
        assert again.model_dump_json() == version.plan.model_dump_json()
        assert again.estimate
        assert again.cautions
        assert f"{version.profile} athlete to 30" in again.warnings[-1]
        assert version.changes


@pytest.mark.parametrize("to", ["0", "-5", "nan", "inf", "soon", "", "99999"])
def test_what_is_no_length_is_one_sentence(to: str) -> None:
    with pytest.raises(BadQuestion, match="is no length"):
        versions(SAID, to)


def test_a_talk_without_targets_says_so() -> None:
    with pytest.raises(BadQuestion, match="has a target in seconds"):
        versions(plan(block("for-time", reps("burpee", 10))), STATIONS)


def test_less_than_what_cannot_change_says_why() -> None:
    long = plan(block("quality", rest(1200), kind="warm-up"), *SAID.blocks[1:])
    for version in versions(long, "10"):
        assert version.goals[0].why
        assert "cannot be changed takes" in version.goals[0].why


def test_work_without_amounts_says_why() -> None:
    rungs = block("for-time", ladder((9, 6, 3), effort("burpee", "reps", None)))
    target = Target(about="b1", unit="s", low=2000, high=2400)
    for version in versions(plan(rungs, targets=(target,)), STATIONS):
        assert version.goals[0].why == "nothing in it has an amount that could be changed"


@pytest.mark.parametrize("talk", TALKS, ids=lambda path: path.stem)
def test_every_talk_lands_near_its_targets_or_says_why(talk: Path) -> None:
    said = read_plan(talk)
    if not station_goals(said):
        with pytest.raises(BadQuestion, match="has a target in seconds"):
            versions(said, STATIONS)
        return
    for version in versions(said, STATIONS):
        for goal in version.goals:
            low = 0 if goal.low_s is None else goal.low_s
            aim = (low + goal.high_s) / 2 if low else goal.high_s
            near = low <= goal.likely_s <= goal.high_s or goal.likely_s == pytest.approx(
                aim, rel=LEEWAY
            )
            assert near or goal.why


def test_nobody_is_no_crowd() -> None:
    with pytest.raises(CuewrightError, match="0 athletes cannot be drawn"):
        estimate(SAID, draws=0)

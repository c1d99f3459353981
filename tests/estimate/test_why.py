"""The parts of the times add up to the times."""

import pytest
from sessions import block, held, metres, plan, repeat, reps

from cuewright.estimate import estimate
from cuewright.estimate.why import why_time
from cuewright_models.profile import PROFILES, Profile
from cuewright_models.timing import ItemTiming

SESSION = plan(
    block("quality", held("row", 180), reps("lateral-lunge", 6, per_side=True), kind="warm-up"),
    block(
        "for-time",
        metres("run", 400),
        repeat(4, reps("push-up", 20), reps("air-squat", 15), reps("oar-twirl", 8)),
        id="b2",
    ),
)


def inside(items: tuple[ItemTiming, ...]) -> list[ItemTiming]:
    return [one for item in items for one in (item, *inside(item.items))]


@pytest.mark.parametrize("profile", PROFILES)
def test_the_parts_of_each_item_add_up(profile: Profile) -> None:
    why = why_time(SESSION, profile)
    for item in (one for part in why.blocks for one in inside(part.items) if not one.items):
        parts = item.work_s + item.breaks_s + item.drift_s
        assert parts == pytest.approx(item.seconds, rel=1e-4)
    assert why.seconds == pytest.approx(sum(b.seconds for b in why.blocks) + why.between_s)


@pytest.mark.parametrize("profile", PROFILES)
def test_the_whole_is_near_the_likely_total(profile: Profile) -> None:
    likely = getattr(estimate(SESSION).total, profile).likely_s
    assert why_time(SESSION, profile).seconds == pytest.approx(likely, rel=0.08)


def test_each_part_is_told_where_it_belongs() -> None:
    warm_up, work = why_time(SESSION, "regular").blocks
    row, lunges = warm_up.items
    assert (row.what, row.seconds, row.pace_s) == ("row", 180, None)
    assert (lunges.amount, lunges.pace_s) == (12, 2.4)
    run, rounds = work.items
    push, squat, twirl = rounds.items
    assert run.drift_s == 0 < push.drift_s
    assert push.breaks > 0 == squat.breaks
    assert push.breaks_s == pytest.approx(push.breaks * 7)
    assert (push.way_s, rounds.way_s) == (0, 10)
    assert (squat.known, twirl.known) == (True, False)


def test_a_pace_that_is_given_is_the_one_told() -> None:
    given = why_time(SESSION, "newcomer", {("oar-twirl", "reps"): 4.0})
    twirl = given.blocks[1].items[1].items[2]
    assert (twirl.known, twirl.pace_s) == (True, 4.0)

"""What can hurt somebody: how much of one thing, and what the warm-up leaves out."""

import pytest
from check.building import (
    about,
    advice,
    block,
    claim,
    effort,
    findings,
    ladder,
    option,
    plan,
    rounds,
)

from cuewright.estimate import estimate
from cuewright.movements.catalogue import catalogue
from cuewright.tables import raw
from cuewright_models.plan import Block, Load, Unknown

EASY = block("b1 warm-up", "quality", effort("jog", 180, "s"), effort("air-squat", 10))
ARMS = block("b1 warm-up", "quality", effort("arm-circle", 10), effort("neck-stretch", 10))


def main(*items: object, structure: str = "for-time", **more: object) -> Block:
    """The main piece, after one other block."""
    return block("b2 conditioning", structure, *items, **more)


# volume-caution


@pytest.mark.parametrize(
    ("movement", "least", "unit"),
    [
        # Above the 120 to 140 contacts of the advanced (NSCA, from memory).
        ("box-jump", 141, "reps"),
        ("depth-jump", 141, "reps"),
        # Above sets of 12, 10 and 8 (Mjolsnes et al. 2004, from memory).
        ("nordic-curl", 31, "reps"),
        # Common practice, no source.
        ("pull-up", 100, "reps"),
        ("chin-up", 100, "reps"),
        ("jumping-pull-up", 75, "reps"),
        ("push-up", 200, "reps"),
        ("air-squat", 300, "reps"),
        ("reverse-lunge", 200, "reps"),
        ("walking-lunge", 400, "m"),
        ("push-press", 150, "reps"),
        ("handstand-push-up", 60, "reps"),
        ("hip-extension-sit-up", 60, "reps"),
        ("sprint", 1500, "m"),
        ("run", 16000, "m"),
    ],
)
def test_much_of_one_thing_starts_at(movement: str, least: float, unit: str) -> None:
    assert about("volume-caution", main(effort(movement, least, unit))) == [movement]
    assert about("volume-caution", main(effort(movement, least - 1, unit))) == []


def test_rounds_rungs_and_blocks_are_added_up() -> None:
    first = main(rounds(3, effort("pull-up", 15)))
    second = block("b3 conditioning", "for-time", ladder((25, 20, 15), effort("chin-up")))
    (finding,) = findings("volume-caution", plan(EASY, first, second))
    assert finding.found == "105 reps of pull up and chin up"
    assert len(finding.said) == 2
    assert "Univ. of Maryland 2024" in finding.message


def test_the_least_of_a_range_counts() -> None:
    assert about("volume-caution", main(rounds((5, 10), effort("pull-up", 12)))) == []


def test_warm_ups_are_left_out() -> None:
    made = block("b1 warm-up", "quality", effort("air-squat", 300))
    assert about("volume-caution", made) == []


def test_a_sum_that_was_read_as_work_is_not_counted_again() -> None:
    # "Twenty lunges each leg, three rounds, so 120 lunges in total."
    each_leg, in_all = effort("reverse-lunge", 20, per_side=True), effort("reverse-lunge", 120)
    assert about("volume-caution", main(rounds(3, each_leg, in_all))) == []
    assert about("volume-caution", main(rounds(3, each_leg, effort("reverse-lunge", 60)))) == []
    assert about("volume-caution", main(rounds(3, each_leg, effort("reverse-lunge", 50)))) != []


def test_only_the_worst_is_told() -> None:
    made = main(effort("pull-up", 110), effort("push-up", 400), effort("air-squat", 310))
    assert about("volume-caution", made) == ["push-up"]


@pytest.mark.parametrize("offered", ["pull-up", "total", "round"])
def test_a_way_to_do_less_is_enough(offered: str) -> None:
    assert about("volume-caution", main(effort("pull-up", 120)), option(offered, "fewer")) == []


def test_a_lighter_weight_is_not_less() -> None:
    made = main(effort("thruster", 200)), option("thruster", "lighter")
    assert about("volume-caution", *made) == ["thruster"]


def test_a_way_to_do_less_of_another_thing_is_not_enough() -> None:
    made = main(effort("pull-up", 120), effort("row", 500, "m")), option("row", "fewer")
    assert about("volume-caution", *made) == ["pull-up"]


@pytest.mark.parametrize("movement", ["burpee", "single-under", "jumping-jack", "step-up"])
def test_light_hops_burpees_and_step_ups_have_no_row(movement: str) -> None:
    assert about("volume-caution", main(effort(movement, 250))) == []


@pytest.mark.parametrize(("minutes", "told"), [(40, ["pull-up"]), (10, [])])
def test_rounds_that_nobody_counted_are_the_time_model_s(minutes: int, told: list[str]) -> None:
    made = plan(EASY, main(effort("pull-up", 5), structure="amrap", duration_s=60 * minutes))
    assert findings("volume-caution", made) == []
    timed = made.model_copy(update={"estimate": estimate(made)})
    found = findings("volume-caution", timed)
    assert [each.about for each in found] == told
    assert all(each.found.startswith("at least") for each in found if each.found)


def test_every_volume_names_its_source_and_what_the_catalogue_has() -> None:
    rows = catalogue().values()
    patterns = {pattern for row in rows for pattern in row.patterns}
    for volume in raw("cuewright.check", "volumes.toml").values():
        assert volume["source"].strip()
        assert volume["short"].strip()
        assert {*volume.get("movements", ())} <= set(catalogue())
        assert {*volume.get("patterns", ()), *volume.get("never", ())} <= patterns
        assert {*volume.get("flags", ())} <= {flag for row in rows for flag in row.flags}


# warm-up-gap


def test_shoulders_that_nothing_readied() -> None:
    (finding,) = findings("warm-up-gap", plan(EASY, main(effort("push-press", 10))))
    assert finding.about == "b2"
    assert "the shoulders for push press" in finding.message
    assert [said.quote for said in finding.said] == ["here is b1", "10 push press"]


def test_legs_that_nothing_readied() -> None:
    assert about("warm-up-gap", ARMS, main(effort("box-jump", 10))) == ["b2"]
    assert about("warm-up-gap", ARMS, main(effort("sprint", 100, "m"))) == ["b2"]


@pytest.mark.parametrize("movement", ["row", "jog", "bike", "march", "lunge-with-rotation"])
def test_a_general_warm_up_readies_the_legs(movement: str) -> None:
    easy = block("b1 warm-up", "quality", effort(movement, 180, "s"))
    assert about("warm-up-gap", easy, main(effort("box-jump", 10))) == []


@pytest.mark.parametrize("movement", ["row", "inchworm", "jumping-jack", "push-up", "arm-swing"])
def test_many_things_ready_the_shoulders(movement: str) -> None:
    easy = block("b1 warm-up", "quality", effort(movement, 10))
    assert about("warm-up-gap", easy, main(effort("pull-up", 10))) == []


def test_a_load_makes_work_hard() -> None:
    lunges = effort("reverse-lunge", 10)
    assert about("warm-up-gap", ARMS, main(lunges)) == []
    loaded = lunges.model_copy(update={"load": (Load(low=20, high=20, unit="kg"),)})
    assert about("warm-up-gap", ARMS, main(loaded)) == ["b2"]


def test_one_finding_for_the_session() -> None:
    made = main(effort("box-jump", 10)), block("b3 conditioning", "amrap", effort("deadlift", 5))
    assert about("warm-up-gap", ARMS, *made) == ["b2"]


def test_work_done_before_readies_too() -> None:
    lifts = block("b2 strength", "sets", rounds(5, effort("strict-press", 5)))
    press = block("b3 conditioning", "for-time", effort("push-press", 10))
    assert about("warm-up-gap", EASY, lifts, press) == []


def test_sets_against_no_clock_are_built_up_to() -> None:
    lifts = block("b2 strength", "sets", rounds(5, effort("strict-press", 5)))
    assert about("warm-up-gap", EASY, lifts) == []


def test_no_warm_up_is_another_rule_s() -> None:
    assert about("warm-up-gap", main(effort("push-press", 10))) == []


def test_stretches_after_the_work_are_no_warm_up() -> None:
    after = block("b3 mobility", "quality", effort("calf-stretch", 30, "s"))
    assert about("warm-up-gap", main(effort("push-press", 10)), after) == []


def test_a_warm_up_elsewhere_may_hold_it() -> None:
    press = main(effort("push-press", 10))
    assert about("warm-up-gap", EASY, press, advice("warm-up")) == []
    assert about("warm-up-gap", EASY, press, claim("in-description", "warm-up")) == []


def test_a_warm_up_that_was_not_understood_may_hold_it() -> None:
    press = main(effort("push-press", 10))
    odd = effort("grommet-flip", 10, known=False)
    assert about("warm-up-gap", block("b1 warm-up", "quality", odd), press) == []
    assert about("warm-up-gap", block("b1 warm-up", "quality"), press) == []
    heard = plan(EASY, press).model_copy(update={"unknown": (Unknown(heard="grommets"),)})
    assert findings("warm-up-gap", heard) == []


def test_a_warm_up_that_speaks_of_the_arms_is_believed() -> None:
    quote = EASY.said[0].model_copy(update={"quote": "March and swing your arms."})
    easy = EASY.model_copy(update={"said": (quote,)})
    assert about("warm-up-gap", easy, main(effort("push-press", 10))) == []


def test_areas_name_what_the_catalogue_has() -> None:
    patterns = {pattern for row in catalogue().values() for pattern in row.patterns}
    for area in raw("cuewright.check", "prepares.toml").values():
        assert {*area["also"], *area.get("sprints", ())} <= set(catalogue())
        assert {*area["loaded_by"], *area["readied_by"]} <= patterns

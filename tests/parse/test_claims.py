"""What else is said that can be checked, and what the check makes of it."""

import pytest
from parse.telling import EVENING, evening, parted, plan

from cuewright_models.plan import Plan, efforts


def _claims(plan: Plan, kind: str) -> list[tuple[str, float | None, float | None]]:
    return [(c.about, c.low, c.high) for c in plan.claims if c.kind == kind]


def _rules(plan: Plan) -> set[str]:
    return {finding.rule for finding in plan.findings if finding.severity == "error"}


@pytest.mark.parametrize(
    ("said", "seconds"),
    [
        ("Start to finish it's 45 minutes.", 2700),
        ("Door to door we're here for about an hour.", 3600),
        ("It's half an hour altogether.", 1800),
        ("It takes about forty minutes.", 2400),
        ("This is a fifty minute session.", 3000),
        ("From the first stroke to the last stretch it's an hour and a quarter.", 4500),
        ("You'll be here an hour and ten, all up.", 4200),
    ],
)
def test_the_length_of_the_session(said: str, seconds: float) -> None:
    told = evening(first=f"Evening all, welcome to Withy Reach. {said}")
    assert _claims(told, "total-time") == [("total", seconds, seconds)]


def test_two_lengths_are_both_kept_and_found_to_disagree() -> None:
    told = evening(
        first="Evening all. Start to finish it's 40 minutes.",
        last="That's it. All in, it's an hour and a quarter, start to finish. See you there.",
    )
    assert [low for _, low, _ in _claims(told, "total-time")] == [2400, 4500]
    assert "total-said-twice" in _rules(told)


STATIONS = (
    "Warm up, three minutes of easy jogging. Then the main piece. Forty seconds of work and twenty "
    "seconds of rest, and there are three stations: push ups, jumping jacks and mountain climbers, "
    "and we go through all three four times."
)


def test_the_length_of_a_block_stands_with_the_block() -> None:
    told = plan(f"{STATIONS} So that block, with the rests in, is twenty minutes.")
    (block,) = [b for b in told.blocks if b.structure.kind == "intervals"]
    assert [(time.low, time.high) for time in block.stated_time] == [(1200, 1200)]
    assert "interval-sum-wrong" in _rules(told)  # 12 x (40 s + 20 s) are 12 minutes


def test_the_right_length_of_a_block_raises_no_finding() -> None:
    told = plan(f"{STATIONS} So that block, with the rests in, is twelve minutes.")
    assert "interval-sum-wrong" not in _rules(told)


@pytest.mark.parametrize("captions", [False, True])
def test_sums_in_a_row(captions: bool) -> None:
    said = "If you like your numbers, by the end that's 75 swings, 60 step ups and 40 push ups."
    told = evening(last=said, captions=captions)
    assert _claims(told, "total-reps") == [
        ("kettlebell-swing", 75, 75),
        ("step-up", 60, 60),
        ("push-up", 40, 40),
    ]
    wrong = [f.about for f in told.findings if f.rule == "sum-claim-wrong"]
    assert wrong == ["push-up"]  # 5 x 9


def test_a_sum_of_all_reps() -> None:
    told = evening(last="Leaving out the run and the row, that's 180 reps per person.")
    assert _claims(told, "total-reps") == [("total", 180, 180)]
    assert "sum-claim-wrong" not in _rules(told)  # 5 x (15 + 12 + 9)


def test_rounds_in_a_summing_up() -> None:
    told = evening(last="So to sum up: you run, then it's six rounds of the swings, then you row.")
    (block,) = [b for b in told.blocks if b.structure.kind == "for-time"]
    assert (block.id, 6, 6) in _claims(told, "rounds")
    assert "rounds-said-twice" in _rules(told)


def test_rounds_of_last_week_are_no_claim() -> None:
    told = evening(last="In other words, run and row. Last week it was six rounds of the swings.")
    assert _claims(told, "rounds") == []


def test_rounds_beside_a_list_of_rungs() -> None:
    told = plan(
        "Warm up, three minutes of easy jogging. Then the main piece, a ladder, for time, sit ups "
        "and push ups. Four rounds: 20, 15, 10. So 20 sit ups and 20 push ups, then 15, then 10."
    )
    assert [low for _, low, _ in _claims(told, "rounds")] == [4]
    assert "ladder-vs-rounds" in _rules(told)


def test_no_kit_at_all() -> None:
    told = evening(first="Evening all. You don't need a single piece of equipment for this one.")
    assert _claims(told, "equipment") == [("none", None, None)]
    assert "equipment-vs-claim" in _rules(told)


@pytest.mark.parametrize(
    ("said", "whole"),
    [
        ("What you need: a kettlebell, a box and a rower, and that's the whole list.", True),
        ("Kit. A kettlebell, a box and a rower. There's no other kit tonight.", True),
        ("You'll need a kettlebell, a box and a rower.", False),
    ],
)
def test_a_list_of_kit(said: str, whole: bool) -> None:
    told = evening(first=f"Evening all. {said}")
    kit = [(c.about, c.only) for c in told.claims if c.kind == "equipment"]
    assert sorted(kit) == [("box", whole), ("kettlebell", whole), ("rowing machine", whole)]
    assert "equipment-vs-claim" not in _rules(told)


def test_a_whole_list_that_lacks_something() -> None:
    told = evening(first="Evening all. All you need is a box and a rower, that's it.")
    assert "equipment-vs-claim" in _rules(told)  # the swings


def test_kit_that_somebody_may_lack_is_no_claim() -> None:
    told = evening(last="Options. If you've got no equipment at home, jump instead of the swings.")
    assert _claims(told, "equipment") == []


def test_what_is_promised_in_the_description() -> None:
    told = evening(last="I've put the heights for the step ups in the description.")
    assert _claims(told, "in-description") == [("step-up", None, None)]


def test_every_claim_says_where() -> None:
    told = evening(
        first="Evening all. Start to finish it's 45 minutes. You'll need a kettlebell and a box.",
        last="By the end that's 75 swings. To sum up, run, five rounds, row.",
    )
    assert told.claims
    assert all(place.quote for claim in told.claims for place in claim.said)


def test_work_that_was_not_placed_is_listed_and_not_called_forgotten() -> None:
    told = evening(
        last="Planks, five goes of 40 seconds. Okay, how to move. Planks, squeeze your glutes and "
        "tuck your ribs."
    )
    placed = {effort.movement for block in told.blocks for effort in efforts(block.items)}
    assert "plank" in placed or any(entry.nearest == ("plank",) for entry in told.unknown)
    assert "cue-without-work" not in _rules(told)


def test_amounts_on_either_side_of_a_full_stop_are_not_of_each_other() -> None:
    told = evening(last="One more time. Swings, five fifteens. Step ups, five twelves. Push ups.")
    assert _claims(told, "restated") == []


@pytest.mark.parametrize("kit", ["two water bottles", "a tin of beans in each hand"])
def test_bottles_and_tins_stand_in_for_dumbbells(kit: str) -> None:
    told = plan(f"All you need is {kit}, nothing else. Then three sets of ten bent over rows.")
    assert "equipment-vs-claim" not in _rules(told)


@pytest.mark.parametrize(
    "told",
    [
        "Whole class is forty minutes.",
        "So the entire session is fifty-five minutes.",
        "This practice is half an hour.",
    ],
)
def test_the_length_of_everything_is_no_work(told: str) -> None:
    """A movement named last without an amount does not take the length of the session."""
    heard = plan(
        "Get warm: three minutes of jogging. Main piece, three rounds of ten squats and ten "
        f"push-ups. At the end, a minute of child's pose, then the pigeon stretch. {told}"
    )
    assert all((effort.high or 0) <= 180 for b in heard.blocks for effort in efforts(b.items))


def test_a_day_named_before_a_silence_is_not_the_day_of_a_length_after_it() -> None:
    bye, length = "See you on Thursday at the slipway", "The whole session is 55 minutes"
    told = parted(EVENING, bye, length, silence_s=1.6)
    assert [c.low for c in told.claims if c.kind == "total-time" and c.about == "total"] == [3300]
    in_one_breath = parted(EVENING, f"{bye} {length}", silence_s=1.6)
    assert not [c for c in in_one_breath.claims if c.about == "total"]


@pytest.mark.parametrize(
    ("said", "seconds"),
    [
        ("A quick one, ten minutes start to finish.", 600),
        ("The whole session is twelve minutes.", 720),
        ("It's door to door in eight minutes.", 480),
    ],
)
def test_a_session_called_so_may_be_short(said: str, seconds: float) -> None:
    told = evening(first=f"Evening all, welcome to Withy Reach. {said}")
    assert ("total", seconds, seconds) in _claims(told, "total-time")


def test_a_short_time_is_no_session_for_words_further_off() -> None:
    told = evening(first="The start to finish line is where you warm your hands for ten minutes.")
    assert not [claim for claim in _claims(told, "total-time") if claim[0] == "total"]

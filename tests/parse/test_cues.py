"""Points of performance and pacing, read from short talks of the rowing club's land training."""

import pytest
from parse.told import WORK, told

LOOKS = "Here is how I want it to look. "


def coached(text: str) -> list[str]:
    """What the cues of a talk are about."""
    return [cue.about for cue in told(text).cues]


@pytest.mark.parametrize(
    ("text", "about"),
    [
        ("Swings: hips snap, arms loose, and let the bell float.", "kettlebell-swing"),
        ("On the row, push with the legs first and keep your back long.", "row"),
        ("And the plank, ribs down and squeeze your legs.", "plank"),
        ("When you row, send your hands away before the knees come up.", "row"),
        ("Box jumps. Land softly, whole foot on the box, and stand up tall.", "box-jump"),
    ],
)
def test_a_topic_with_words_for_the_body_is_a_cue(text: str, about: str) -> None:
    assert coached(WORK + LOOKS + text) == [about]


def test_each_topic_ends_the_cue_before_it() -> None:
    plan = told(
        f"{WORK}{LOOKS}Push-ups, elbows in and chest to the floor. Lunges, long step, "
        "back knee kisses the ground. Pull-ups, chin over the bar and arms straight at the bottom."
    )
    assert [cue.about for cue in plan.cues] == ["push-up", "walking-lunge", "pull-up"]
    assert "ground" not in plan.cues[0].text


def test_without_punctuation_topics_still_part_the_cues() -> None:
    talk = (
        "okay the main piece is four rounds of twelve push ups ten box jumps and "
        "twenty walking lunges right technique push ups hands under your shoulders and "
        "body straight like an oar "
        "box jumps land quiet and stand up tall lunges big step and keep your chest up"
    )
    assert coached(talk) == ["push-up", "box-jump", "walking-lunge"]


def test_a_cue_may_follow_its_prescription() -> None:
    text = (
        "Right, the main piece. Turkish get-ups, two each side. Now, eyes on the bell the whole "
        "way up, push the floor away and keep your shoulder packed. "
        "Then three rounds of ten push-ups."
    )
    assert coached(text) == ["turkish-get-up"]


@pytest.mark.parametrize(
    "text",
    [
        "Push-ups, you all know those.",
        "Nobody ever won this on the row.",
        "If the swings hurt your back, do glute bridges instead.",
    ],
)
def test_talk_about_a_movement_is_not_always_a_cue(text: str) -> None:
    assert coached(WORK + text) == []


def test_pacing_is_advice() -> None:
    (advice,) = told(f"{WORK}Pacing. Go out steady and save something for the last round.").advice
    assert advice.about == "total"
    assert "steady" in advice.text


def test_a_warm_up_elsewhere_is_advice_about_the_warm_up() -> None:
    (advice,) = told(f"After your usual warm-up, we begin. {WORK}").advice
    assert (advice.about, advice.said[0].quote) == ("warm-up", "your usual warm-up,")


def test_a_talk_that_names_no_movement_has_no_cues() -> None:
    assert coached("Evening all. Keep your chest up and your heels down.") == []

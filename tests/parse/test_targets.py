"""What the coach wants a station, a round or the whole to take or to feel like."""

import pytest
from parse.telling import evening, plan

from cuewright_models.plan import Plan

Fact = tuple[str, str, float | None, float | None]


def _facts(plan: Plan) -> list[Fact]:
    return [(t.about, t.unit, t.low, t.high) for t in plan.targets]


WANTED: list[tuple[str, list[Fact]]] = [
    ("I want each round done in four minutes.", [("round", "s", 240, 240)]),
    ("A round should take you about four minutes.", [("round", "s", 240, 240)]),
    ("Take four minutes over each round.", [("round", "s", 240, 240)]),
    ("You're looking at four to five minutes a round.", [("round", "s", 240, 300)]),
    ("Each round, call it four minutes.", [("round", "s", 240, 240)]),
    ("I want you off the rower in under two minutes.", [("row", "s", None, 120)]),
    ("The run shouldn't take you more than four minutes.", [("run", "s", None, 240)]),
    ("Get the run done in four minutes.", [("run", "s", 240, 240)]),
    ("The 500, I want that in two minutes.", [("row", "s", 120, 120)]),
    ("I'd want you spending about four minutes on the run.", [("run", "s", 240, 240)]),
    ("I'd like the swings done in two sets.", [("kettlebell-swing", "sets", 2, 2)]),
    ("The swings should be unbroken.", [("kettlebell-swing", "sets", 1, 1)]),
    ("I want the whole piece done in 22 to 25 minutes.", [("total", "s", 1320, 1500)]),
    ("On the clock I'm looking for 20 to 24 minutes.", [("total", "s", 1200, 1440)]),
    ("You should be finished inside 25 minutes.", [("total", "s", None, 1500)]),
    ("I'd like you at about a four out of ten, all the way through.", [("total", "rpe", 4, 4)]),
    ("I want every round at about seven out of ten.", [("round", "rpe", 7, 7)]),
    ("Keep the goblet squats at a seven out of ten.", [("goblet-squat", "rpe", 7, 7)]),
    ("I want the whole caper done in 22 to 25 minutes.", [("total", "s", 1320, 1500)]),
    ("Each of the five rounds should take you four minutes.", [("round", "s", 240, 240)]),
    ("Each round ought to cost you two twenty to two forty.", [("round", "s", 140, 160)]),
    ("The strength part should feel like a seven out of ten.", [("b3", "rpe", 7, 7)]),
    ("For part two, I'd say a six, maybe a seven out of ten.", [("b3", "rpe", 6, 7)]),
    ("Split the swings into three goes.", [("kettlebell-swing", "sets", 3, 3)]),
    ("Don't take longer than four minutes over the run.", [("run", "s", None, 240)]),
    ("I want each round in three minutes, no, four minutes.", [("round", "s", 240, 240)]),
    (
        "The goblet squats I want at a seven out of ten. The push ups can go to an eight.",
        [("goblet-squat", "rpe", 7, 7), ("push-up", "rpe", 8, 8)],
    ),
    (
        "How long should it take you? The run, about four and a half minutes. Each round, three "
        "minutes. The row, two minutes, and I'd like the swings done in two sets.",
        [
            ("run", "s", 270, 270),
            ("round", "s", 180, 180),
            ("row", "s", 120, 120),
            ("kettlebell-swing", "sets", 2, 2),
        ],
    ),
]


@pytest.mark.parametrize(("said", "facts"), WANTED)
@pytest.mark.parametrize("captions", [False, True], ids=["text", "captions"])
def test_what_is_wanted(said: str, facts: list[Fact], captions: bool) -> None:
    talk = f"Okay, so what do I want from you? Okay. {said}"
    assert _facts(evening(last=talk, captions=captions)) == facts


def test_what_is_wanted_goes_on_after_the_first() -> None:
    said = "The run I want in four minutes, each round in three minutes and the row in two minutes."
    facts = [("run", "s", 240, 240), ("round", "s", 180, 180), ("row", "s", 120, 120)]
    assert _facts(evening(last=said)) == facts


@pytest.mark.parametrize(
    "said",
    [
        "Last year somebody did the run in three minutes.",
        "If you're at five minutes on the run, slow down.",
        "I want you to rest two minutes after the row.",
        "There's a cap of 40 minutes on it.",
        "What I don't want is a 50 second first round.",
        "It's a fifty minute session, start to finish.",
        "Don't go unbroken on the swings.",
        "So four things at 45 seconds is three minutes a round.",
        "That one was a nine out of ten, it was a beautiful nine.",
    ],
)
def test_what_is_not_wanted(said: str) -> None:
    assert _facts(evening(last=said)) == []


def test_a_target_said_again_stands_once_with_both_places() -> None:
    said = "I want each round in four minutes. Let me say that again. Each round in four minutes."
    (target,) = evening(last=said).targets
    assert len(target.said) == 2


def test_a_target_quotes_what_it_is_for_and_how_long() -> None:
    (target,) = evening(last="I'd like the swings done in two sets.").targets
    assert target.said[0].quote == "I'd like the swings done in two sets."


def test_rounds_are_wanted_where_their_number_is_open() -> None:
    amrap = (
        "The main piece is as many rounds as you can in 14 minutes of ten push ups and ten swings."
    )
    told = plan(f"{amrap} I'm looking for five to six rounds.")
    assert _facts(told) == [("total", "rounds", 5, 6)]
    assert _facts(evening(last="I'm looking for five to six rounds.")) == []


def test_a_part_is_known_by_its_shape() -> None:
    ladder = "The main piece is for time. 21, 15, 9 of push ups and goblet squats."
    strength = "After that, strength. Three sets of eight deadlifts, rest two minutes between sets."
    told = plan(
        f"{ladder} {strength} Okay. I'd like the whole countdown done in six to eight minutes."
    )
    assert _facts(told) == [("b1", "s", 360, 480)]

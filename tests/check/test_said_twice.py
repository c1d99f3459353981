"""Totals, targets, rounds and rungs that are said twice."""

from typing import Any

import pytest
from check.building import (
    about,
    block,
    claim,
    effort,
    findings,
    ladder,
    plan,
    rounds,
    said,
    target,
)

ROW = effort("row", 250, "m")
SWING = effort("kettlebell-swing", 20)
PUSH_UP = effort("push-up", 10)


@pytest.mark.parametrize(
    ("parts", "expected"),
    [
        pytest.param(
            [claim("total-time", "total", 3000), claim("total-time", "total", 4500)],
            ["total"],
            id="fifty minutes, an hour and a quarter",
        ),
        pytest.param(
            [
                claim("total-time", "total", 3000, said=said("about fifty minutes")),
                claim("total-time", "total", 2100, said=said("thirty five minutes")),
            ],
            ["total"],
            id="rough, but far apart",
        ),
        pytest.param(
            [
                claim("total-time", "total", (2400, 2700)),
                claim("total-time", "total", 3600),
                claim("total-time", "total", 3600),
            ],
            ["total"],
            id="three times, one finding",
        ),
        pytest.param(
            [block("b2 conditioning", "for-time", ROW, stated=[720, 1200])],
            ["b2"],
            id="one block, two lengths",
        ),
        pytest.param(
            [
                block("b2 conditioning", "for-time", ROW, stated=[720]),
                claim("total-time", "b2", 1200),
            ],
            ["b2"],
            id="a block's length as a claim",
        ),
    ],
)
def test_two_lengths_of_one_thing(parts: list[Any], expected: list[str]) -> None:
    assert about("total-said-twice", *parts) == expected


@pytest.mark.parametrize(
    "parts",
    [
        pytest.param([claim("total-time", "total", 3600)], id="said once"),
        pytest.param(
            [claim("total-time", "total", 3600), claim("total-time", "total", 3300)],
            id="an hour, fifty-five minutes",
        ),
        pytest.param(
            [
                claim("total-time", "total", 3600, said=said("about an hour")),
                claim("total-time", "total", 3000),
            ],
            id="about an hour, fifty minutes",
        ),
        pytest.param(
            [claim("total-time", "total", 3600), target("total", 1500)],
            id="the session and the wanted time of the piece",
        ),
        pytest.param(
            [claim("total-time", "total", (None, 3600)), claim("total-time", "total", 2400)],
            id="under an hour",
        ),
        pytest.param(
            [
                block("b1 warm-up", "quality", stated=[300]),
                block("b2 conditioning", "for-time", stated=[1200]),
            ],
            id="two blocks",
        ),
    ],
)
def test_lengths_that_go_together(parts: list[Any]) -> None:
    assert about("total-said-twice", *parts) == []


def test_every_place_is_quoted_with_its_figure() -> None:
    first, second = claim("total-time", "total", 3000), claim("total-time", "total", 4500)
    (finding,) = findings("total-said-twice", plan(first, second))
    assert finding.said == first.said + second.said
    assert (finding.expected, finding.found) == ("50 min", "1 h 15 min")
    assert finding.severity == "error"


PIECE = block(
    "b2 conditioning",
    "for-time",
    effort("run", 1200, "m"),
    rounds(4, ROW, SWING),
    effort("run", 600, "m"),
)


@pytest.mark.parametrize(
    ("targets", "expected"),
    [
        pytest.param([target("row", 120), target("row", 240)], ["row"], id="one row"),
        pytest.param(
            [target("kettlebell-swing", 2, "sets"), target("kettlebell-swing", 4, "sets")],
            ["kettlebell-swing"],
            id="sets",
        ),
        pytest.param(
            [target("run", 360), target("run", 180), target("run", 600)],
            ["run"],
            id="three targets, two runs",
        ),
        pytest.param(
            [
                target("row", 125, quote="each of those 250s in 2:05"),
                target("row", 115, quote="see each 250 in 1:55"),
            ],
            ["row"],
            id="near, exact",
        ),
        pytest.param(
            [target("b2", 7, "rpe"), target("b2", 9, "rpe")], ["b2"], id="two marks for one block"
        ),
        pytest.param(
            [target("round", 180), target("round", 300)], ["round"], id="one thing in rounds"
        ),
    ],
)
def test_more_targets_than_efforts(targets: list[Any], expected: list[str]) -> None:
    assert about("target-said-twice", PIECE, *targets) == expected


@pytest.mark.parametrize(
    "targets",
    [
        pytest.param([target("run", 360), target("run", 180)], id="a target for each run"),
        pytest.param([target("row", 120), target("row", (120, 150))], id="ranges that touch"),
        pytest.param([target("row", (None, 120)), target("row", 90)], id="under two minutes"),
        pytest.param(
            [
                target("round", 300, quote="the first round in five"),
                target("round", 240, quote="the last in four"),
            ],
            id="two of the rounds",
        ),
        pytest.param([target("round", 6, "rpe"), target("round", 9, "rpe")], id="growing effort"),
        pytest.param([target("b2", 7, "rpe"), target("b2", 8, "rpe")], id="a mark apart"),
        pytest.param([target("row", 120), target("row", 2, "sets")], id="a time and sets"),
        pytest.param([target("row", 60, quote="about a minute"), target("row", 50)], id="roughly"),
    ],
)
def test_targets_that_may_all_hold(targets: list[Any]) -> None:
    assert about("target-said-twice", PIECE, *targets) == []


SWIMS = (
    block("b2 conditioning", "every", effort("swim", 50, "m"), every_s=75, times=8),
    block("b3 conditioning", "sets", effort("swim", 100, "m"), effort("swim", 50, "m")),
)


def test_targets_told_by_the_same_amount_are_for_the_same_effort() -> None:
    fifty = target("swim", 55, quote="those 50s in about 55 seconds each")
    again = target("swim", (None, 40), quote="each 50 in under 40 seconds")
    longer = target("swim", 120, quote="the 100 in two minutes")
    assert about("target-said-twice", *SWIMS, fifty, again) == ["swim"]
    assert about("target-said-twice", *SWIMS, fifty, longer) == []


FIVE = block(
    "b2 conditioning", "for-time", rounds(5, effort("run", 200, "m"), effort("push-press", 12))
)
SQUATS = block("b2 strength", "sets", rounds(3, effort("split-squat", 8, per_side=True)))
CORE = block("b4 accessory", "sets", rounds(2, effort("dead-bug", 8, per_side=True)))
CLOCK = block(
    "b3 conditioning",
    "intervals",
    effort("bag-work", 180, "s"),
    effort("up-down", 180, "s"),
    work_s=180,
    rest_s=60,
    times=2,
)


@pytest.mark.parametrize(
    ("parts", "expected"),
    [
        pytest.param([FIVE, claim("restated", "b2", 6, "rounds")], ["b2"], id="five, then six"),
        pytest.param([CORE, claim("rounds", "b4", 3)], ["b4"], id="two sets, then three times"),
        pytest.param(
            [CORE, claim("restated", "dead-bug", 3, "sets")], ["b4"], id="by its movement"
        ),
        pytest.param([FIVE, claim("rounds", "total", 6)], ["b2"], id="the only rounds there are"),
        pytest.param([CLOCK, claim("rounds", "b3", 3)], ["b3"], id="times through the stations"),
        pytest.param(
            [FIVE, claim("restated", "push-press", 15, "reps")], ["push-press"], id="reps"
        ),
        pytest.param(
            [
                FIVE,
                claim("restated", "b2", 6, "rounds"),
                claim("restated", "push-press", 15, "reps"),
            ],
            ["b2"],
            id="both, one finding",
        ),
        pytest.param([FIVE, claim("restated", "run", 400, "m")], ["run"], id="metres"),
    ],
)
def test_restated_with_another_number(parts: list[Any], expected: list[str]) -> None:
    assert about("rounds-said-twice", *parts) == expected


@pytest.mark.parametrize(
    "parts",
    [
        pytest.param([FIVE, claim("rounds", "b2", 5)], id="the same number"),
        pytest.param([FIVE, claim("restated", "push-press", 60, "reps")], id="all rounds together"),
        pytest.param([SQUATS, claim("restated", "split-squat", 16, "reps")], id="both sides"),
        pytest.param(
            [
                FIVE,
                block("b3 accessory", "sets", effort("push-press")),
                claim("restated", "push-press", 15, "reps"),
            ],
            id="an amount not said",
        ),
        pytest.param(
            [
                block("b2 conditioning", "for-time", rounds(2, ladder((20, 15), PUSH_UP))),
                claim("rounds", "b2", 4),
            ],
            id="rungs",
        ),
        pytest.param([CLOCK, claim("rounds", "b3", 4)], id="every bell counted"),
        pytest.param([FIVE, CORE, claim("rounds", "total", 3)], id="which rounds is not clear"),
        pytest.param(
            [FIVE, claim("rounds", "b2", 3, said=FIVE.said)], id="prescribed in these very words"
        ),
        pytest.param(
            [block("b2 conditioning", "for-time", ROW), claim("rounds", "b2", 4)],
            id="no rounds prescribed",
        ),
        pytest.param(
            [
                block("b2 conditioning", "amrap", rounds(3, ROW), PUSH_UP, duration_s=600),
                claim("restated", "push-press", 15, "reps"),
            ],
            id="a movement not there",
        ),
        pytest.param(
            [
                block("b2 conditioning", "for-time", effort("run", 1609.344, "m")),
                claim("restated", "run", 1600, "m"),
            ],
            id="a mile called 1,600",
        ),
        pytest.param(
            [
                FIVE,
                block("b3 accessory", "sets", effort("push-press", 15)),
                claim("restated", "push-press", 15, "reps"),
            ],
            id="the other push presses",
        ),
        pytest.param(
            [
                block("b2 conditioning", "every", effort("burpee", 6), every_s=60, times=8),
                claim("rounds", "b2", 8),
            ],
            id="minutes as rounds",
        ),
    ],
)
def test_restated_in_other_words(parts: list[Any]) -> None:
    assert about("rounds-said-twice", *parts) == []


def test_the_prescription_and_the_restatement_are_quoted() -> None:
    again = claim("restated", "b2", 6, "rounds")
    amount = claim("restated", "push-press", 15, "reps")
    (finding,) = findings("rounds-said-twice", plan(FIVE, again, amount))
    assert {place.quote for place in finding.said} == {
        "5 rounds",
        "restated b2 6",
        "restated push-press 15",
    }
    assert (finding.expected, finding.found) == ("5 rounds", "6 rounds")


STEPS = block(
    "b1 conditioning",
    "for-time",
    ladder((20, 16, 12, 8, 4), effort("push-up"), effort("air-squat")),
)


@pytest.mark.parametrize(
    ("parts", "expected"),
    [
        pytest.param([STEPS, claim("rounds", "b1", 6)], ["b1"], id="five rungs, six rounds"),
        pytest.param([STEPS, claim("restated", "b1", 4, "rounds")], ["b1"], id="restated"),
        pytest.param([STEPS, claim("rounds", "b1", (6, 7))], ["b1"], id="a range"),
    ],
)
def test_rungs_that_are_not_the_rounds(parts: list[Any], expected: list[str]) -> None:
    assert about("ladder-vs-rounds", *parts) == expected
    assert about("rounds-said-twice", *parts) == []


@pytest.mark.parametrize(
    "parts",
    [
        pytest.param([STEPS], id="no number of rounds"),
        pytest.param([STEPS, claim("rounds", "b1", 5)], id="as many"),
        pytest.param([STEPS, claim("restated", "b1", 12, "reps")], id="reps of a rung"),
        pytest.param(
            [
                block("b1 conditioning", "for-time", rounds(2, ladder((20, 15), PUSH_UP))),
                claim("rounds", "b1", 4),
            ],
            id="twice through",
        ),
        pytest.param([STEPS, FIVE, claim("rounds", "b2", 5)], id="rounds of another block"),
    ],
)
def test_rungs_that_are(parts: list[Any]) -> None:
    assert about("ladder-vs-rounds", *parts) == []

"""Sums, interval lengths and station targets, each recomputed from the plan."""

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
    rest,
    rounds,
    said,
    target,
)

from cuewright_models.plan import Slot

PIECE = block(
    "b2 conditioning",
    "for-time",
    effort("run", 1200, "m"),
    rounds(4, effort("row", 250, "m"), effort("step-up", 18)),
    effort("run", 600, "m"),
)
CHIPPER = block(
    "b2 conditioning",
    "for-time",
    effort("row", 1000, "m"),
    effort("air-squat", 80),
    effort("sit-up", 70),
    effort("kettlebell-swing", 50),
)
STEPS = block("b1 conditioning", "for-time", ladder((20, 16, 12, 8, 4), effort("push-up")))
TURNS = block(
    "b2 conditioning",
    "every",
    *(
        Slot(index=number, items=(effort(movement, 5),))
        for number, movement in enumerate(("pull-up", "push-up", "air-squat"), start=1)
    ),
    every_s=60,
    times=12,
)
SIDES = block("b2 strength", "sets", rounds(3, effort("split-squat", 10, per_side=True)))


@pytest.mark.parametrize(
    ("parts", "expected"),
    [
        pytest.param([PIECE, claim("total-distance", "row", 1500, "m")], ["row"], id="four 250s"),
        pytest.param(
            [CHIPPER, claim("total-reps", "total", 150, "reps")], ["total"], id="200 reps"
        ),
        pytest.param(
            [TURNS, claim("total-reps", "pull-up", 60)], ["pull-up"], id="four turns of 5"
        ),
        pytest.param(
            [
                CHIPPER,
                block("b3 conditioning", "amrap", effort("burpee", 5), duration_s=480),
                claim("total-reps", "total", 150),
            ],
            ["total"],
            id="beside work without an end",
        ),
        pytest.param([CHIPPER, claim("total-reps", "b2", 250, "reps")], ["b2"], id="by block"),
        pytest.param(
            [STEPS, claim("total-reps", "push-up", 50, "reps")], ["push-up"], id="rungs: 60"
        ),
        pytest.param([PIECE, claim("total-reps", "step-up", 90, "reps")], ["step-up"], id="72"),
        pytest.param(
            [SIDES, claim("total-reps", "split-squat", 90)],
            ["split-squat"],
            id="neither one side nor both",
        ),
    ],
)
def test_a_sum_that_nothing_gives(parts: list[Any], expected: list[str]) -> None:
    assert about("sum-claim-wrong", *parts) == expected


@pytest.mark.parametrize(
    "parts",
    [
        pytest.param([PIECE, claim("total-distance", "row", 1000, "m")], id="right"),
        pytest.param([PIECE, claim("total-distance", "run", 1800, "m")], id="two runs"),
        pytest.param([PIECE, claim("total-reps", "step-up", 18)], id="one round"),
        pytest.param([STEPS, claim("total-reps", "push-up", 60)], id="rungs"),
        pytest.param([SIDES, claim("total-reps", "split-squat", 60)], id="both sides"),
        pytest.param([SIDES, claim("total-reps", "split-squat", 30)], id="one side"),
        pytest.param(
            [CHIPPER, claim("total-reps", "total", 200, said=said("nearly 200"))], id="all"
        ),
        pytest.param(
            [
                block("b1 warm-up", "quality", effort("air-squat", 20)),
                CHIPPER,
                claim("total-reps", "total", 220),
            ],
            id="with the warm-up",
        ),
        pytest.param(
            [
                block("b2 conditioning", "amrap", effort("push-up", 10), duration_s=600),
                claim("total-reps", "push-up", 100),
            ],
            id="as many as possible",
        ),
        pytest.param(
            [
                block("b2 strength", "sets", rounds(3, effort("pull-up", max=True))),
                claim("total-reps", "pull-up", 30),
            ],
            id="to the limit",
        ),
        pytest.param([TURNS, claim("total-reps", "pull-up", 20)], id="each turn"),
        pytest.param(
            [
                CHIPPER,
                block("b3 accessory", "quality", effort("crunch", unit="none")),
                claim("total-reps", "total", 300),
            ],
            id="neither an amount nor a unit said",
        ),
        pytest.param(
            [
                CHIPPER,
                block("b3 accessory", "quality", effort("crunch")),
                claim("total-reps", "total", 300),
            ],
            id="an amount not said",
        ),
        pytest.param(
            [
                block("b2 conditioning", "for-time", rounds(4, effort("run", 400, "m"))),
                claim("total-distance", "run", 1609.3, "m"),
            ],
            id="four laps called a mile",
        ),
        pytest.param(
            [
                block("b1 warm-up", "quality", effort("jog", 1200, "m")),
                PIECE,
                claim("total-distance", "run", 3000, "m"),
            ],
            id="running, the jog too",
        ),
        pytest.param([PIECE, claim("total-distance", "ski", 2000, "m")], id="not in the session"),
        pytest.param(
            [
                block("b2 conditioning", "for-time", rounds((3, 5), effort("burpee", 10))),
                claim("total-reps", "burpee", 40),
            ],
            id="inside the range",
        ),
    ],
)
def test_a_sum_that_some_way_of_counting_gives(parts: list[Any]) -> None:
    assert about("sum-claim-wrong", *parts) == []


def test_the_sum_is_shown() -> None:
    (finding,) = findings("sum-claim-wrong", plan(PIECE, claim("total-distance", "row", 1500, "m")))
    assert finding.expected == "4 \N{MULTIPLICATION SIGN} 250 = 1,000 m"
    assert finding.found == "1,500 m"


def clocked(work: float, pause: float, count: int, stations: int, *stated: float) -> Any:
    """An intervals block with its stated lengths."""
    items = [effort("high-knees", work, "s") for _ in range(stations)]
    return block(
        "b2 conditioning",
        "intervals",
        *items,
        stated=stated,
        work_s=work,
        rest_s=pause,
        times=count,
    )


# Published protocols and their spans in seconds, without and with the last rest.
PROTOCOLS = [
    pytest.param(20, 10, 8, (230, 240), id="8 x 20/10 s: Tabata et al. 1996; McRae et al. 2012"),
    pytest.param(240, 180, 4, (1500, 1680), id="4 x 4/3 min: Helgerud et al. 2007"),
    pytest.param(60, 60, 10, (1140, 1200), id="10 x 60/60 s: Gibala et al. 2012"),
    pytest.param(30, 210, 10, (2190, 2400), id="10 x 30 s/3.5 min: Hov et al. 2022"),
    pytest.param(30, 240, 5, (1110, 1350), id="5 x 30 s/4 min: Bayati et al. 2011"),
    pytest.param(15, 15, 40, (1185, 1200), id="15/15 s for 20 min: Schnettler 2009"),
]


@pytest.mark.parametrize(("work", "pause", "count", "spans"), PROTOCOLS)
def test_published_spans_agree(work: int, pause: int, count: int, spans: tuple[int, int]) -> None:
    for span in (*spans, work * count):
        assert about("interval-sum-wrong", clocked(work, pause, count, 1, span)) == []


@pytest.mark.parametrize(("work", "pause", "count", "spans"), PROTOCOLS)
def test_a_length_beyond_a_published_span_does_not(
    work: int, pause: int, count: int, spans: tuple[int, int]
) -> None:
    assert about("interval-sum-wrong", clocked(work, pause, count, 1, spans[1] * 1.25)) == ["b2"]


def test_rest_between_rounds_counts() -> None:
    """2 x 5 x (60 + 60 s) is 20 minutes, 22 with two between (Bellissimo et al. 2022)."""
    bouts = [effort("burpee", 60, "s") for _ in range(5)]
    clock: dict[str, Any] = {"work_s": 60, "rest_s": 60, "times": 2, "stated": [1320]}
    with_rest = block("b2 conditioning", "intervals", *bouts, rest(120), **clock)
    without = block("b2 conditioning", "intervals", *bouts, **clock)
    assert about("interval-sum-wrong", with_rest) == []
    assert about("interval-sum-wrong", without) == ["b2"]


def test_a_start_every_minute_is_as_long_as_its_minutes() -> None:
    """A start every minute for 25 minutes: 25 starts (military fitness column)."""
    clock: dict[str, Any] = {"every_s": 60, "times": 25}
    sprint = effort("sprint", 100, "m")
    for stated, expected in ((1500, []), (1800, ["b2"])):
        made = block("b2 conditioning", "every", sprint, stated=[stated], **clock)
        assert about("interval-sum-wrong", made) == expected
    at_odds = block("b2 conditioning", "every", sprint, **clock, duration_s=1800)
    assert about("interval-sum-wrong", at_odds) == ["b2"]


@pytest.mark.parametrize(
    ("made", "expected"),
    [
        pytest.param(clocked(40, 20, 3, 6, 1200), ["b2"], id="a nice even twenty minutes, 18"),
        pytest.param(clocked(180, 60, 2, 5, 2700), ["b2"], id="45 minutes, 40"),
        pytest.param(clocked(180, 60, 2, 5, 1800), [], id="the work alone"),
        pytest.param(clocked(40, 20, 3, 6), [], id="no length stated"),
        pytest.param(
            block("b2 conditioning", "amrap", effort("burpee", 5), duration_s=600, stated=[900]),
            [],
            id="no intervals",
        ),
        pytest.param(
            block(
                "b2 conditioning",
                "intervals",
                effort("plank", 40, "s"),
                work_s=40,
                times=3,
                stated=[900],
            ),
            [],
            id="rest not said",
        ),
    ],
)
def test_block_lengths(made: Any, expected: list[str]) -> None:
    assert about("interval-sum-wrong", made) == expected


LIST = block("b2 conditioning", "for-time", effort("row", 500, "m"), effort("kettlebell-swing", 30))


@pytest.mark.parametrize(
    "parts",
    [
        pytest.param(
            [
                PIECE,
                target("run", 360),
                target("round", 300),
                target("run", 180),
                target("total", (1320, 1500)),
            ],
            id="6 + 4 x 5 + 3 = 29, not 22 to 25",
        ),
        pytest.param(
            [
                LIST,
                target("row", 120),
                target("kettlebell-swing", 120),
                target("total", (600, 720)),
            ],
            id="4, not 10 to 12",
        ),
        pytest.param(
            [PIECE, target("row", 60), target("step-up", 90), target("total", 540)],
            id="stations of a round, four times",
        ),
        pytest.param(
            [PIECE, target("round", 900), claim("total-time", "total", 3000)],
            id="longer than the whole session",
        ),
        pytest.param(
            [PIECE, target("round", 360), claim("total-time", "b2", (960, 1080))],
            id="the piece's own length",
        ),
        pytest.param(
            [PIECE, target("round", 300), target("total", 900), target("total", 1080)],
            id="above every stated total",
        ),
    ],
)
def test_targets_that_do_not_fit(parts: list[Any]) -> None:
    assert about("total-vs-targets", *parts) == ["total"]


@pytest.mark.parametrize(
    "parts",
    [
        pytest.param(
            [
                PIECE,
                target("run", 360),
                target("round", 200),
                target("run", 180),
                target("total", (1320, 1500)),
            ],
            id="fits",
        ),
        pytest.param(
            [PIECE, target("round", 300), target("total", (1800, 2100))],
            id="the runs have no target",
        ),
        pytest.param(
            [PIECE, target("round", 300), claim("total-time", "total", 3600)],
            id="the session is longer than the piece",
        ),
        pytest.param([PIECE, target("round", 2, "sets"), target("total", 60)], id="sets"),
        pytest.param([PIECE, target("round", (None, 400)), target("total", 1500)], id="under"),
        pytest.param(
            [PIECE, target("round", 300), target("row", 60), target("total", 1260)],
            id="a round holds its row",
        ),
        pytest.param(
            [
                LIST,
                block("b3 conditioning", "for-time", effort("row", 500, "m")),
                target("row", 900),
                claim("total-time", "total", 600),
            ],
            id="which row is not clear",
        ),
        pytest.param(
            [
                PIECE,
                block("b3 conditioning", "for-time", rounds(3, effort("burpee", 5))),
                target("round", 600),
                claim("total-time", "total", 900),
            ],
            id="which round is not clear",
        ),
        pytest.param(
            [
                PIECE,
                block("b3 conditioning", "for-time", effort("burpee", 50)),
                target("run", 360),
                target("total", 300),
            ],
            id="the total of which piece is not clear",
        ),
        pytest.param(
            [PIECE, target("run", 360), target("round", 300), target("run", 180)], id="no total"
        ),
    ],
)
def test_targets_that_fit_or_cannot_be_judged(parts: list[Any]) -> None:
    assert about("total-vs-targets", *parts) == []


def test_the_multiplication_is_shown() -> None:
    parts = [target("run", 360), target("round", 300), target("run", 180)]
    total = target("total", (1320, 1500))
    (finding,) = findings("total-vs-targets", plan(PIECE, *parts, total))
    assert finding.found == "6 min + 4 \N{MULTIPLICATION SIGN} 5 min + 3 min = 29 min"
    assert finding.expected == "22 min to 25 min"
    assert {place.quote for place in finding.said} == {
        place.quote for each in (*parts, total) for place in each.said
    }

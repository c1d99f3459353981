"""Stated times, caps, sets and intervals beside the time model."""

import json
from pathlib import Path
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
from check.test_rules import GOLDS, filled, name_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strategies import plans

from cuewright.check import check
from cuewright.check.fastest import fastest_s, least_s
from cuewright.check.shares import aloud, needing_more, takes, tenths, told, up
from cuewright.check.wording import sentence
from cuewright.estimate import estimate
from cuewright.movements.catalogue import catalogue
from cuewright.tables import raw
from cuewright_models.estimate import Profiles, Seconds
from cuewright_models.plan import Block, Effort, Plan, Slot, Unknown

SOME = settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
MODEL = (
    "total-vs-model",
    "target-vs-model",
    "sets-vs-amount",
    "cap-vs-model",
    "interval-overfull",
)


def timed(*parts: Any) -> Plan:
    """A plan of these parts with its times, few athletes being enough."""
    return answered(plan(*parts))


def answered(made: Plan) -> Plan:
    """The plan with its times."""
    return made.model_copy(update={"estimate": estimate(made, draws=400)})


def spoken(code: str, *parts: Any) -> list[tuple[str, str]]:
    """What one rule's findings on a timed plan are about, and how severe."""
    return [(each.about, each.severity) for each in findings(code, timed(*parts))]


WARM = block("b1 warm-up", "quality", effort("jog", 180, "s"))
PIECE = block(
    "b2 conditioning",
    "for-time",
    rounds(5, effort("run", 400, "m"), effort("burpee", 20)),
)
CHIPPER = block("b2 conditioning", "for-time", effort("row", 1000, "m"), effort("burpee", 60))
UNSAID = block(
    "b2 conditioning", "for-time", rounds(5, effort("run", None, "none"), effort("burpee", 20))
)
RUNGS = block("b2 conditioning", "for-time", ladder((21, 15, 9), effort("burpee")))


# Shares and floors


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.0, "hardly any"),
        (0.04, "hardly any"),
        (0.1, "one in ten"),
        (0.52, "half of the"),
        (0.86, "nine in ten"),
        (1.0, "nearly all"),
    ],
)
def test_a_share_in_tenths(share: float, words: str) -> None:
    assert tenths(share) == words


@pytest.mark.parametrize(
    ("limit", "words"),
    [
        (99, "at least nine in ten"),
        (100, "more than half of the"),
        (150, "fewer than half of the"),
        (200, "at most one in ten"),
    ],
)
def test_what_three_percentiles_tell_of_a_limit(limit: float, words: str) -> None:
    assert needing_more(Seconds(low_s=100, likely_s=150, high_s=200), limit) == words


def three(newcomer: float, regular: float, advanced: float) -> Profiles:
    """Profiles whose percentiles lie a tenth around these seconds."""
    ends = {"newcomer": newcomer, "regular": regular, "advanced": advanced}
    return Profiles(
        **{
            name: Seconds(low_s=0.9 * middle, likely_s=middle, high_s=1.1 * middle)
            for name, middle in ends.items()
        }
    )


def test_profiles_of_the_same_share_are_told_together() -> None:
    def share(seconds: Seconds) -> str:
        return needing_more(seconds, 300)

    assert told(share, three(600, 500, 400)) == (
        "at least nine in ten athletes, newcomers to advanced,"
    )
    assert told(share, three(600, 500, 290)) == (
        "at least nine in ten newcomers and regular athletes, and fewer than half of the advanced "
        "athletes"
    )
    assert told(share, three(600, 310, 320)) == (
        "at least nine in ten newcomers, and more than half of the regular athletes and "
        "advanced athletes"
    )


@pytest.mark.parametrize(("seconds", "spoken_s"), [(61, 65), (118, 120), (121, 135), (601, 660)])
def test_figures_are_rounded_up_to_what_one_says(seconds: float, spoken_s: float) -> None:
    assert up(seconds) == spoken_s


def test_a_range_is_rounded_outwards() -> None:
    assert takes(three(900, 700, 600)) == "10 min to 13 min"
    assert aloud(three(900, 700, 600)) == "10 to 13 minutes"
    assert aloud(three(90, 70, 60)) == "60 to 80 seconds"
    assert aloud(three(300, 150, 90)) == "2 minutes 15 to 2 minutes 45"


@pytest.mark.parametrize(
    ("one", "seconds"),
    [
        pytest.param(effort("run", 400, "m"), 43.03, id="World Athletics, men's record"),
        pytest.param(effort("row", 500, "m"), 70.0, id="record on a machine, from memory"),
        pytest.param(effort("plank", 45, "s"), 45, id="the clock"),
        pytest.param(effort("grommet-flip", 10), 1.3, id="unknown: a turn of a rope"),
        pytest.param(effort("thruster", 10), 6.0, id="as slow as the slower pattern"),
        pytest.param(effort("run", None, "none"), 0, id="not said"),
    ],
)
def test_what_nobody_beats(one: Effort, seconds: float) -> None:
    assert fastest_s(one, one.low) == pytest.approx(seconds)


def test_floors_add_up_over_rounds_and_rungs() -> None:
    once = least_s([effort("run", 400, "m")])
    assert least_s([rounds(3, effort("run", 400, "m"), rest_s=60)]) == pytest.approx(3 * once + 120)
    assert least_s(RUNGS.items) == pytest.approx(45 * fastest_s(effort("burpee", 1), 1))


def test_every_floor_is_of_a_pattern_that_exists() -> None:
    patterns = {pattern for row in catalogue().values() for pattern in row.patterns}
    assert set(raw("cuewright.check", "fastest.toml")["reps"]) <= patterns | {"any"}


def test_a_finding_starts_with_a_capital_and_keeps_the_rest() -> None:
    assert sentence("more than half") == "More than half"
    assert sentence("") == ""


# The rules on plans


@pytest.mark.parametrize("code", MODEL)
def test_without_an_estimate_nothing_is_said(code: str) -> None:
    parts = [WARM, PIECE, target("total", 60), target("burpee", 5), target("burpee", 1, "sets")]
    assert about(code, *parts) == []


@pytest.mark.parametrize(
    ("parts", "expected"),
    [
        pytest.param([PIECE, target("total", 720)], [("total", "warning")], id="piece"),
        pytest.param([PIECE, target("total", 240)], [("total", "error")], id="beyond records"),
        pytest.param([PIECE, target("total", (None, 720))], [("total", "warning")], id="under"),
        pytest.param([PIECE, claim("total-time", "total", 600)], [("total", "warning")], id="all"),
        pytest.param([PIECE, claim("total-time", "b2", 600)], [("b2", "warning")], id="block"),
        pytest.param([PIECE, target("b2", 600)], [("b2", "warning")], id="target of a block"),
        pytest.param([RUNGS, target("total", 60)], [("total", "warning")], id="ladder"),
        pytest.param([PIECE, target("total", (900, 1400))], [], id="some can"),
        pytest.param([PIECE, claim("total-time", "total", 3600)], [], id="with the chat"),
        pytest.param([UNSAID, target("total", 240)], [], id="an amount not said"),
        pytest.param(
            [PIECE, target("total", 720), target("round", 240)], [], id="own figures say so"
        ),
        pytest.param(
            [PIECE, target("total", 600), target("total", 1500)], [], id="the other one can"
        ),
    ],
)
def test_totals(parts: list[Any], expected: list[tuple[str, str]]) -> None:
    assert spoken("total-vs-model", WARM, *parts) == expected


def test_a_rest_heard_as_the_length_is_none() -> None:
    jumps = block(
        "b2 strength", "sets", rounds(4, effort("back-squat", 5)), rest_s=120, stated=(120,)
    )
    assert spoken("total-vs-model", WARM, jumps) == []
    shorter = jumps.model_copy(
        update={"structure": jumps.structure.model_copy(update={"rest_s": 90})}
    )
    assert spoken("total-vs-model", WARM, shorter) == [("b2", "warning")]


def test_a_total_told_in_the_words_of_a_target_is_that_target() -> None:
    words = "the main event start to finish in ten minutes"
    whole = claim("total-time", "total", 600, said=said(words))
    assert spoken("total-vs-model", WARM, PIECE, whole) == [("total", "warning")]
    assert ("total", "warning") not in spoken(
        "total-vs-model", WARM, PIECE, whole, target("b3", 600, quote=words)
    )


def test_a_total_quotes_the_figure_and_the_work_and_says_what_to_say() -> None:
    (found,) = findings("total-vs-model", timed(WARM, PIECE, target("total", 720)))
    assert [place.quote for place in found.said] == ["total in 720", "here is b2"]
    assert found.message == (
        "At least nine in ten athletes, newcomers to advanced, need more than the stated 12 min."
    )
    assert found.expected == "12 min"
    assert (found.say or "").startswith("The whole piece takes 1")
    assert (found.say or "").endswith(" minutes.")


@pytest.mark.parametrize(
    ("parts", "expected"),
    [
        pytest.param([CHIPPER, target("burpee", 60)], [("burpee", "warning")], id="too much"),
        pytest.param([CHIPPER, target("row", 60)], [("row", "error")], id="beyond the record"),
        pytest.param([CHIPPER, target("burpee", 3600)], [("burpee", "warning")], id="a fraction"),
        pytest.param([PIECE, target("round", 60)], [("round", "warning")], id="round"),
        pytest.param([PIECE, target("run", 30)], [("run", "error")], id="in rounds"),
        pytest.param([CHIPPER, target("burpee", (240, 300))], [], id="some can"),
        pytest.param([CHIPPER, target("burpee", (None, 3600))], [], id="under an hour"),
        pytest.param([CHIPPER, target("burpee", 8, "rpe")], [], id="an effort"),
        pytest.param([UNSAID, target("run", 5)], [], id="an amount not said"),
        pytest.param([RUNGS, target("burpee", 5)], [], id="rungs differ"),
        pytest.param([CHIPPER, target("burpee", 60), target("burpee", 260)], [], id="said twice"),
        pytest.param(
            [CHIPPER, target("burpee", 3600, quote="the whole lot in an hour")], [], id="the whole"
        ),
        pytest.param([CHIPPER, target("b2", 240)], [], id="a block that needs more: total"),
        pytest.param(
            [CHIPPER, target("burpee", 60), target("row", 40)],
            [("burpee", "warning")],
            id="one for each block",
        ),
    ],
)
def test_targets(parts: list[Any], expected: list[tuple[str, str]]) -> None:
    assert spoken("target-vs-model", WARM, *parts) == expected


def test_a_sprint_may_be_a_hill_sprint_and_each_of_them() -> None:
    hills = block(
        "b2 conditioning", "quality", effort("hill-sprint", 5), effort("sprint", 300, "m")
    )
    assert spoken("target-vs-model", WARM, hills, target("sprint", 20)) == []
    flat = block("b2 conditioning", "quality", effort("sprint", 300, "m"))
    assert spoken("target-vs-model", WARM, flat, target("sprint", 20)) == [("sprint", "error")]


def test_a_side_may_be_meant() -> None:
    lunges = block("b2 conditioning", "for-time", effort("split-squat", 20, per_side=True))
    both = timed(WARM, lunges).estimate.blocks[1].advanced.low_s
    assert spoken("target-vs-model", WARM, lunges, target("split-squat", 0.7 * both)) == []
    assert spoken("target-vs-model", WARM, lunges, target("split-squat", 0.3 * both))


def test_an_error_says_what_the_records_come_to() -> None:
    (found,) = findings("target-vs-model", timed(WARM, PIECE, target("run", 30)))
    assert found.message.endswith("need more. Not even records are faster than 43 s.")


@pytest.mark.parametrize(
    ("cap", "more", "expected"),
    [
        pytest.param(600, [], [("b2", "warning")], id="nobody"),
        pytest.param(230, [], [("b2", "error")], id="beyond records"),
        pytest.param(7200, [], [("b2", "warning")], id="everybody by far"),
        pytest.param(1500, [], [], id="some"),
        pytest.param(7200, [target("total", (900, 1400))], [], id="the coach knows"),
        pytest.param(7200, [target("round", 200)], [], id="by the round"),
        pytest.param(None, [], [], id="no cap"),
    ],
)
def test_caps(cap: float | None, more: list[Any], expected: list[tuple[str, str]]) -> None:
    capped = PIECE.model_copy(
        update={"structure": PIECE.structure.model_copy(update={"cap_s": cap})}
    )
    assert spoken("cap-vs-model", WARM, capped, *more) == expected


def test_words_not_understood_may_be_the_work_that_fills_a_cap() -> None:
    small = block("b2 conditioning", "for-time", effort("air-squat", 20), cap_s=1800)
    made = timed(WARM, small)
    assert [f.about for f in findings("cap-vs-model", made)] == ["b2"]
    unsure = made.model_copy(update={"unknown": (Unknown(heard="b2", said=said("is b2")),)})
    assert findings("cap-vs-model", unsure) == []


def every(every_s: float, *items: Any) -> Block:
    """Ten intervals."""
    return block("b2 conditioning", "every", *items, every_s=every_s, times=10)


@pytest.mark.parametrize(
    ("work", "expected"),
    [
        pytest.param(every(60, effort("burpee", 30)), [("b2", "warning")], id="too much"),
        pytest.param(every(60, effort("run", 600, "m")), [("b2", "error")], id="beyond records"),
        pytest.param(
            every(
                60,
                Slot(index=1, items=(effort("wall-ball", 50),)),
                Slot(index=2, items=(effort("push-up", 5),)),
            ),
            [("b2", "warning")],
            id="one of the slots",
        ),
        pytest.param(every(60, effort("burpee", 8)), [], id="fits"),
        pytest.param(every(60, effort("burpee", max=True)), [], id="to the limit"),
        pytest.param(every(60, effort("run", None, "none")), [], id="not said"),
        pytest.param(every(60, effort("burpee", 20), effort("burpee", 20)), [], id="told twice"),
        pytest.param(every(60, effort("jog", 60, "s"), effort("burpee", 8)), [], id="by itself"),
        pytest.param(
            every(60, effort("cat-cow", 30), Slot(index=1, items=(effort("burpee", 8),))),
            [],
            id="beside a slot",
        ),
    ],
)
def test_intervals(work: Block, expected: list[tuple[str, str]]) -> None:
    assert spoken("interval-overfull", WARM, work) == expected


def test_an_interval_tells_who_is_behind_and_by_how_much() -> None:
    (found,) = findings("interval-overfull", timed(WARM, every(60, effort("burpee", 30))))
    assert found.message.startswith("In the fullest interval nearly all ")
    assert "the middle regular athlete lacks" in found.message
    assert found.expected == "work that fits in 1 min"


@pytest.mark.parametrize(
    ("parts", "expected"),
    [
        pytest.param([80, 2], ["pull-up"], id="too many in one"),
        pytest.param([80, 8], [], id="in eight"),
        pytest.param([80, (None, 1)], ["pull-up"], id="at most one"),
        pytest.param([12, 1], [], id="some can"),
        pytest.param([None, 2], [], id="not said"),
    ],
)
def test_sets_of_pull_ups(parts: list[Any], expected: list[str]) -> None:
    amount, sets = parts
    work = block("b2 conditioning", "for-time", effort("pull-up", amount))
    found = spoken("sets-vs-amount", WARM, work, target("pull-up", sets, "sets"))
    assert [each for each, _ in found] == expected


@pytest.mark.parametrize(
    ("reps", "sets", "fires"),
    [(5, 3, True), (5, 1, False), (20, 3, False), (5, 2, True), (8, 3, False)],
)
def test_sets_of_few_push_ups(reps: int, sets: int, fires: bool) -> None:
    work = block("b2 conditioning", "for-time", effort("push-up", reps), effort("run", 400, "m"))
    assert bool(spoken("sets-vs-amount", WARM, work, target("push-up", sets, "sets"))) == fires


def test_sets_of_sets_are_left_alone() -> None:
    work = block("b2 strength", "sets", rounds(3, effort("push-up", 5)), rest_s=60)
    assert spoken("sets-vs-amount", WARM, work, target("push-up", 3, "sets")) == []


@pytest.mark.parametrize("path", GOLDS, ids=name_of)
def test_nothing_is_said_over_gold(path: Path) -> None:
    made = answered(filled(json.loads(path.read_text("utf-8"))))
    assert [finding for finding in check(made) if finding.rule in MODEL] == []


# Random plans


REPS = ("burpee", "air-squat", "kettlebell-swing", "wall-ball", "sit-up", "box-jump")
FAR = ("run", "row")


@st.composite
def works(draw: st.DrawFn) -> tuple[Any, ...]:
    """Two or three known efforts of known amounts."""
    far = effort(draw(st.sampled_from(FAR)), draw(st.sampled_from((200, 400, 800))), "m")
    names = draw(st.lists(st.sampled_from(REPS), min_size=1, max_size=2, unique=True))
    return (far, *(effort(name, draw(st.integers(8, 40))) for name in names))


@st.composite
def pieces(draw: st.DrawFn, **more: Any) -> Block:
    """A piece for time, in rounds or once through."""
    inside, times = draw(works()), draw(st.integers(1, 6))
    items = inside if times == 1 else (rounds(times, *inside),)
    return block("b2 conditioning", "for-time", *items, **more)


@st.composite
def around(draw: st.DrawFn) -> tuple[Block, ...]:
    """What else may stand in a session, besides the piece."""
    seconds = draw(st.integers(60, 600))
    hold = effort("hamstring-stretch", draw(st.integers(20, 90)), "s", per_side=True)
    easy = block("b3 cool-down", "quality", effort("walk", seconds, "s"), hold)
    return (WARM, *draw(st.sampled_from(((), (easy,)))))


def with_piece(others: tuple[Block, ...], piece: Block) -> tuple[Block, ...]:
    """The piece after the warm-up."""
    return (others[0], piece, *others[1:])


@SOME
@given(around(), pieces(), st.floats(0.2, 0.8), st.floats(1.0, 2.0))
def test_a_total_is_spoken_of_just_when_nobody_reaches_it(
    others: tuple[Block, ...], piece: Block, short: float, enough: float
) -> None:
    blocks = with_piece(others, piece)
    advanced = timed(*blocks).estimate.blocks[1].advanced.low_s
    assert spoken("total-vs-model", *blocks, target("total", short * advanced - 5))
    assert spoken("total-vs-model", *blocks, target("total", enough * advanced)) == []


@SOME
@given(around(), pieces(), st.floats(0.2, 0.7), st.floats(4, 10), st.data())
def test_a_target_is_spoken_of_just_when_it_is_of_other_work(
    others: tuple[Block, ...], piece: Block, short: float, far: float, data: st.DataObject
) -> None:
    blocks = with_piece(others, piece)
    answer = timed(*blocks).estimate.blocks[1]
    inside = getattr(piece.items[0], "items", piece.items)
    parts = answer.items if inside is piece.items else answer.items[0].items
    nth = data.draw(st.integers(0, len(inside) - 1))
    name, part = inside[nth].movement, parts[nth]
    right = data.draw(st.floats(part.advanced.low_s, 2 * part.newcomer.high_s))
    for wrong in (short * part.advanced.low_s - 5, far * part.newcomer.high_s):
        assert spoken("target-vs-model", *blocks, target(name, max(wrong, 1)))
    assert spoken("target-vs-model", *blocks, target(name, right)) == []


@SOME
@given(around(), pieces(), st.floats(0.2, 0.7), st.floats(2.5, 6))
def test_a_cap_is_spoken_of_just_when_nobody_or_everybody_meets_it(
    others: tuple[Block, ...], piece: Block, short: float, far: float
) -> None:
    answer = timed(*with_piece(others, piece)).estimate.blocks[1]

    def capped(cap: float) -> list[tuple[str, str]]:
        shape = piece.structure.model_copy(update={"cap_s": cap})
        return spoken(
            "cap-vs-model", *with_piece(others, piece.model_copy(update={"structure": shape}))
        )

    assert capped(short * answer.advanced.low_s)
    assert capped(far * answer.newcomer.high_s)
    assert capped(answer.advanced.likely_s) == []
    assert capped(answer.newcomer.high_s) == []


@SOME
@given(around(), works(), st.floats(0.2, 0.95), st.floats(1.05, 3))
def test_an_interval_is_spoken_of_just_when_most_regular_athletes_are_late(
    others: tuple[Block, ...], inside: tuple[Any, ...], short: float, enough: float
) -> None:
    long = timed(*with_piece(others, every(10_000, *inside))).estimate.blocks[1].regular
    likely = 10_000 - (long.spare_s or 0)
    overfull = with_piece(others, every(short * likely, *inside))
    assert spoken("interval-overfull", *overfull)
    roomy = with_piece(others, every(enough * likely, *inside))
    assert spoken("interval-overfull", *roomy) == []


@SOME
@given(around(), st.integers(1, 3), st.integers(40, 80), st.integers(8, 15), st.integers(2, 5))
def test_sets_are_spoken_of_just_when_the_amount_does_not_go_with_them(
    others: tuple[Block, ...], sets: int, far: int, near: int, rounds_: int
) -> None:
    def told_of(reps: int) -> list[tuple[str, str]]:
        work = rounds(rounds_, effort("pull-up", reps), effort("run", 400, "m"))
        piece = block("b2 conditioning", "for-time", work)
        return spoken("sets-vs-amount", *with_piece(others, piece), target("pull-up", sets, "sets"))

    assert told_of(far * sets)
    assert told_of(near * sets) == []


@SOME
@given(plans(wild=True))
def test_no_number_stops_the_check_of_a_timed_plan(made: Plan) -> None:
    for finding in check(answered(made)):
        assert finding.message.endswith(".")


@SOME
@given(plans())
def test_findings_of_a_timed_plan_are_whole(made: Plan) -> None:
    for finding in check(answered(made)):
        assert finding.expected != finding.found
        assert finding.rule not in MODEL or (finding.say and finding.say.endswith("."))

"""The session as a line of time."""

import xml.etree.ElementTree as ET

import pytest
from sessions import block, metres, plan, repeat, reps

from cuewright.estimate import estimate
from cuewright.render import html
from cuewright.render.timeline import timeline
from cuewright.render.timetable import times
from cuewright_models.plan import Claim, Plan, Target

TALK = plan(
    block("quality", reps("air-squat", 20), kind="warm-up"),
    block("for-time", metres("run", 800), repeat(4, reps("burpee", 12)), id="b2"),
    claims=(Claim(kind="total-time", about="total", low=1500, high=1800, unit="s"),),
    targets=(Target(about="burpee", low=40, high=60, unit="s"),),
)


def timed(of: Plan) -> Plan:
    return of.model_copy(update={"estimate": estimate(of)})


def test_blocks_lie_one_after_the_other_to_scale() -> None:
    given = timed(TALK)
    line = timeline(times(given))
    assert line
    first, second = line.boxes
    assert first.x + first.width < second.x
    ratio = [b.regular.likely_s for b in given.estimate.blocks]
    assert second.width / first.width == pytest.approx(ratio[1] / ratio[0], rel=0.02)
    assert all(box.low <= box.x + box.width <= box.high + 0.2 for box in line.boxes)
    assert max(lane.high for lane in line.lanes) <= line.width


def test_the_three_views_have_their_lanes() -> None:
    line = timeline(times(timed(TALK)))
    assert line
    names = [lane.name for lane in line.lanes]
    assert names == ["newcomer", "regular", "advanced", "stated", "station targets"]
    assert [lane.likely is None for lane in line.lanes] == [False] * 3 + [True] * 2
    assert "stated 25:00" in line.told


def test_the_picture_is_whole_and_needs_no_colour() -> None:
    page = html.page(timed(TALK))
    svg = ET.fromstring(page[page.index("<svg") : page.index("</svg>") + 6])
    assert svg.attrib["aria-label"]
    colours = {name for one in svg.iter() for name in one.attrib if name in ("fill", "stroke")}
    assert not colours  # lines, dots and hatching in the page's one ink


def test_no_session_draws_nothing() -> None:
    assert timeline(times(timed(plan()))) is None
    assert "<svg" not in html.page(timed(plan()))


def test_an_amrap_is_told_in_rounds_and_reps() -> None:
    work = block("amrap", reps("burpee", 10), metres("row", 250), duration_s=600)
    given = timed(plan(work))
    rounds = given.estimate.blocks[0].regular.rounds
    (note,) = times(given).rows[0].cells[1].notes
    whole, rest = note.split(" rounds + ", 1)
    assert int(whole) == int(rounds.likely)
    assert 0 <= int(rest.split(" reps")[0]) <= 10


def test_half_a_round_of_one_movement_is_half_its_reps() -> None:
    made = timed(plan(block("amrap", reps("burpee", 20), duration_s=600)))
    rounds = {"low": 3, "likely": 4.5, "high": 6}
    answer = made.estimate.model_dump()
    answer["blocks"][0]["regular"]["rounds"] = rounds
    half = made.model_validate(made.model_dump() | {"estimate": answer})
    assert times(half).rows[0].cells[1].notes[0].startswith("4 rounds + 10 reps (3")

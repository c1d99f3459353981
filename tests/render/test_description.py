"""The post under the video: it says what the plan says, in the room there is."""

import re
import tempfile
from collections.abc import Iterable
from itertools import pairwise
from pathlib import Path
from random import Random

import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from render.sessions import gold
from roundtrip.comparing import asked
from roundtrip.speaking import session

from cuewright import read_plan
from cuewright.cautions import brief
from cuewright.flow import read_description
from cuewright.movements.catalogue import catalogue
from cuewright.render import description
from cuewright.render.chapters import APART_S, chapters
from cuewright.render.kitlist import needed
from cuewright_models.base import Said
from cuewright_models.plan import (
    Block,
    Claim,
    Cue,
    Date,
    Effort,
    Load,
    Option,
    Plan,
    Quality,
    Source,
    Target,
    efforts,
)

FOLDERS = [Path(__file__).parents[1] / folder for folder in ("corpus", "talks")]
GOLDS = sorted(path for folder in FOLDERS for path in folder.glob("*.gold.json"))
ROOM = 100_000
LOW_WATER = Path(__file__).parents[1] / "talks/a-low-water.vtt"


def talk_of(path: Path) -> Path:
    name = path.name.removesuffix(".gold.json")
    return next(path.parent / f"{name}{end}" for end in (".vtt", ".srt", ".json", ".txt")
                if (path.parent / f"{name}{end}").exists())  # fmt: skip


def read_back(text: str) -> Plan:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "talk.description.md"
        file.write_text(text, "utf-8")
        return read_description(file)


def told(plan: Plan) -> dict[str, object]:
    """What a post and its plan have in common."""
    done = [effort for block in plan.blocks for effort in efforts(block.items)]
    date = plan.date
    return {
        "title": (plan.title or "").casefold(),
        "date": date and (date.weekday, date.day, date.month, date.year),
        "kinds": [block.kind for block in plan.blocks],
        "blocks": [asked(block) for block in plan.blocks],
        "others": [effort.alternatives for effort in done],
        "loads": [loads(effort.load) for effort in done],
        "targets": sorted(str((t.about, t.unit, t.low, t.high)) for t in plan.targets),
    }


def loads(given: Iterable[Load]) -> list[str]:
    return sorted(str((load.who, load.low, load.high, load.unit)) for load in given)


@pytest.mark.parametrize("path", GOLDS, ids=lambda path: path.name.removesuffix(".gold.json"))
@pytest.mark.parametrize("source", ["gold", "talk"])
def test_the_post_of_a_talk_says_what_its_plan_says(path: Path, source: str) -> None:
    plan = gold(path) if source == "gold" else read_plan(talk_of(path))
    assert told(read_back(description.page(plan, ROOM))) == told(plan)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_the_post_of_any_session_is_read_back(seed: int) -> None:
    plan = session(Random(seed)).plan
    assert told(read_back(description.page(plan, ROOM))) == told(plan)


@st.composite
def wanted(draw: st.DrawFn) -> Target:
    """A target that a coach may have, of the whole, of a round or of the main work."""
    unit = draw(st.sampled_from(["s", "sets", "rounds", "rpe", "%"]))
    low, high = sorted(draw(st.tuples(st.integers(1, 10), st.integers(1, 10))))
    scale = {"s": 60, "%": 10}.get(unit, 1)
    about = draw(st.sampled_from(["total", "round", "b1", "b2"]))
    return Target(about=about, unit=unit, low=low * scale, high=high * scale)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(wanted(), max_size=3, unique=True),
    st.builds(Date, year=st.none() | st.integers(2020, 2030), month=st.integers(1, 12),
              day=st.integers(1, 28), weekday=st.none() | st.sampled_from(strategies.WEEKDAYS)),
)  # fmt: skip
def test_targets_and_date_are_read_back(targets: list[Target], date: Date) -> None:
    plan = session(Random(len(targets))).plan
    plan = plan.model_copy(update={"targets": tuple(targets), "date": date})
    assert told(read_back(description.page(plan, ROOM))) == told(plan)


@pytest.mark.parametrize("unit", ["reps", "m", "s", "kcal", "none"])
def test_every_movement_is_read_back(unit: str) -> None:
    amount = None if unit == "none" else 20
    items = tuple(
        Effort(movement=name, as_said=name, unit=unit, low=amount, high=amount)
        for name in catalogue()
    )
    back = read_back(description.page(built(*items), ROOM))
    assert [(e.movement, e.unit) for b in back.blocks for e in efforts(b.items)] == [
        (item.movement, unit) for item in items
    ]


@settings(max_examples=60, deadline=None)
@given(strategies.plans(), st.integers(1, 6000))
def test_no_plan_is_longer_than_asked_or_without_cautions(plan: Plan, limit: int) -> None:
    shortest = len(shortened(plan))
    if limit < shortest:
        with pytest.raises(description.TooLong, match=r"^[^\n]*\.$"):
            description.page(plan, limit)
        limit = shortest
    text = description.page(plan, limit)
    assert len(text) <= limit
    assert all(caution in text for caution in brief())


@settings(max_examples=30, deadline=None)
@given(strategies.plans())
def test_the_session_and_its_targets_stand_in_the_shortest_post(plan: Plan) -> None:
    whole = description.page(plan, ROOM)
    shortest = shortened(plan)
    kept = whole.partition("\n## Scaling")[0].partition("\n## Points")[0]
    assert shortest.startswith(kept.partition("\n## Take care")[0].rstrip("\n"))


def shortened(plan: Plan) -> str:
    """The shortest post that there is."""
    low, high = 0, len(description.page(plan, ROOM))
    while low + 1 < high:
        middle = (low + high) // 2
        try:
            description.page(plan, middle)
            high = middle
        except description.TooLong:
            low = middle
    return description.page(plan, high)


def test_it_is_shortened_in_the_order_that_is_stated() -> None:
    plan = read_plan(LOW_WATER)
    seen = []
    for limit in range(len(description.page(plan)), len(shortened(plan)) - 1, -1):
        text = description.page(plan, limit)
        cues, ways = (text.partition(head)[2].partition("\n## ")[0].count("\n- ")
                      for head in ("## Points of performance", "## Scaling"))  # fmt: skip
        seen.append((cues, ways, text.count("\n0:00 ")))
    assert list(dict.fromkeys(seen)) == [
        *((cues, 4, 1) for cues in range(6, -1, -1)),
        *((0, ways, 1) for ways in range(3, -1, -1)),
        (0, 0, 0),
    ]


def built(*items: Effort, **more: object) -> Plan:
    block = Block(id="b1", kind="conditioning", structure=Quality(), items=items)
    source = Source(name="talk.txt", kind="text", sha256="0" * 64)
    return Plan(source=source, title="Low Water", blocks=(block,), **more)


def swings(**more: object) -> Effort:
    return Effort(movement="kettlebell-swing", as_said="swings", unit="reps", low=9, high=9, **more)


def test_options_lose_the_coachs_words_before_they_go() -> None:
    way = Option(about="kettlebell-swing", kind="lighter", said=(Said(quote="take the wee one"),))
    plan = built(swings(), options=(way,))
    whole = description.page(plan)
    assert "- Kettlebell swing: lighter, “take the wee one”" in whole
    assert "- Kettlebell swing: lighter\n" in description.page(plan, len(whole) - 1)


@settings(max_examples=100, deadline=None)
@given(strategies.plans(), st.none() | st.floats(0, 4000))
def test_chapters_begin_at_nothing_rise_and_stand_apart(plan: Plan, end: float | None) -> None:
    source = plan.source.model_copy(update={"duration_s": end})
    found = chapters(plan.model_copy(update={"source": source}))
    timed = [said for block in plan.blocks for said in block.said if said.start_s is not None]
    if end is None:
        assert bool(found) == bool(timed)
    assert all(each.name for each in found)
    assert [each.start_s for each in found[:1]] in ([], [0.0])
    assert all(b.start_s - a.start_s >= APART_S for a, b in pairwise(found))
    assert end is None or all(each.start_s + APART_S <= end for each in found[1:])


def test_the_chapters_of_a_talk_are_its_blocks_and_parts() -> None:
    text = description.page(read_plan(LOW_WATER))
    lines = text.partition("## Chapters\n\n")[2].splitlines()
    assert [re.sub(r"^\d+:\d\d ", "", line) for line in lines] == [
        "Welcome", "Warm-up", "Conditioning", "Targets", "Accessory", "Cool-down",
        "Points of performance", "Scaling",
    ]  # fmt: skip


def test_a_talk_without_times_has_no_chapters() -> None:
    assert "Chapters" not in description.page(built(swings()))


@pytest.mark.parametrize(
    ("items", "kit"),
    [
        ([Effort(movement="burpee", as_said="burpees")], ()),
        ([swings(), swings()], ("kettlebell",)),
        ([Effort(movement="row", as_said="row", alternatives=("run",))], ()),
    ],
)
def test_kit_is_what_the_movements_need(items: list[Effort], kit: tuple[str, ...]) -> None:
    assert needed(built(*items)) == kit
    assert f"You need: {', '.join(kit) or 'no kit'}\n" in description.page(built(*items))


def test_of_several_kinds_of_kit_the_one_announced_is_meant() -> None:
    press = Effort(movement="push-press", as_said="push press")
    assert " or " in needed(built(press))[0]
    said = Claim(kind="equipment", about="dumbbell")
    assert needed(built(press, claims=(said,))) == ("dumbbell",)


def test_a_point_is_told_once_for_a_movement_and_without_its_name() -> None:
    cues = (
        Cue(about="kettlebell-swing", text="Three more minutes of this."),
        Cue(about="kettlebell-swing", text="Swings. Hinge, and let the bell float. " + "So. " * 60),
        Cue(about="burpee", text="Step out."),
    )
    text = description.page(built(swings(), cues=cues))
    assert "- Kettlebell swing: Hinge, and let the bell float. So." in text
    assert "Three more" not in text
    assert "Step out" not in text
    assert max(map(len, text.partition("## Points")[2].partition("## Take")[0].splitlines())) < 150


def test_a_plan_without_a_session_says_so() -> None:
    plan = Plan(source=Source(name="talk.txt", kind="text", sha256="0" * 64))
    text = description.page(plan)
    assert "No session was found in this talk." in text
    assert all(caution in text for caution in brief())


def test_options_are_read_back() -> None:
    ways = (
        Option(about="kettlebell-swing", kind="lighter", low=12, high=12, unit="kg"),
        Option(about="kettlebell-swing", kind="substitute", to="deadlift"),
        Option(about="kettlebell-swing", kind="fewer", low=5, high=6, unit="reps"),
        Option(about="total", kind="fewer", low=3, high=3, unit="rounds"),
        Option(about="kettlebell-swing", kind="easier", said=(Said(quote="bend 3 knees"),)),
    )
    back = read_back(description.page(built(swings(), options=ways)))
    assert [way.model_copy(update={"said": ()}) for way in back.options] == [
        way.model_copy(update={"said": ()}) for way in ways
    ]

"""How single things are said in writing."""

import tomllib
from pathlib import Path

import pytest
from render.sessions import GOLD, gold, plan

from cuewright.movements.catalogue import catalogue
from cuewright.render import board, words
from cuewright.render.board import Line
from cuewright.render.sheet import sheet
from cuewright_models.base import Range, Said
from cuewright_models.plan import Block, Date, Load, efforts

BOARDS = tomllib.loads(Path(__file__).with_name("boards.toml").read_text("utf-8"))


def written(lines: tuple[Line, ...], depth: int = 0) -> list[str]:
    """Lines as text, two spaces a level."""
    out = []
    for line in lines:
        out.append("  " * depth + f"{line.label} {line.text}".strip())
        out += written(line.under, depth + 1)
    return out


@pytest.mark.parametrize("case", BOARDS.values(), ids=BOARDS)
def test_a_block_reads_as_a_coach_would_write_it(case: dict[str, object]) -> None:
    given = {"id": "b1", "kind": "conditioning", **case}
    expected = str(given.pop("board")).strip("\n")
    assert "\n".join(written(board.lines(Block.model_validate(given)))) == expected


def test_a_slot_keeps_every_place_of_its_work() -> None:
    here, there = Said(start_s=1, quote="five"), Said(start_s=2, quote="plank")
    items = [
        {"do": "effort", "movement": name, "as_said": name, "said": [said]}
        for name, said in (("push-up", here), ("plank", there))
    ]
    how = {"kind": "every", "every_s": 60, "times": 4}
    one = {"id": "b1", "kind": "skill", "structure": how}
    slot = {"do": "slot", "index": 1, "items": items}
    (head,) = board.lines(Block.model_validate({**one, "items": [slot]}))
    assert head.under[0].said == (here, there)


@pytest.mark.parametrize(
    ("seconds", "expected"),
    [(0, "0:00"), (9, "0:09"), (59.6, "1:00"), (60, "1:00"), (754, "12:34"), (3599, "59:59"),
     (3600, "1:00:00"), (7325, "2:02:05")],
)  # fmt: skip
def test_clock(seconds: float, expected: str) -> None:
    assert words.clock(seconds) == expected


def test_a_moment_is_the_second_that_has_begun() -> None:
    assert words.moment(Said(start_s=59.9, quote="now")) == "0:59"
    assert words.moment(Said(quote="now")) == ""


@pytest.mark.parametrize(
    ("low", "high", "unit", "expected"),
    [
        (None, None, "m", ""),
        (None, 90, "s", "up to 1:30"),
        (30, None, "s", "at least 30 s"),
        (45, 90, "s", "0:45\u20131:30"),
        (20, 30, "s", "20\u201330 s"),
        (5000, 5000, "m", "5 km"),
        (804.7, 804.7, "m", "half mile"),
        (22.9, 22.9, "m", "22.9 m"),
        (12.5, 12.5, "kg", "12.5 kg"),
        (95, 95, "%", "95 % of best"),
        (7, 8, "rpe", "effort 7\u20138 of 10"),
        (10, 10, "reps", "10"),
        (None, None, None, ""),
    ],
)
def test_amount(low: float | None, high: float | None, unit: str | None, expected: str) -> None:
    assert words.amount(low, high, unit) == expected


@pytest.mark.parametrize(
    ("name", "one", "many"),
    [
        ("kettlebell-swing", "kettlebell swing", "kettlebell swings"),
        ("v-up", "V-up", "V-ups"),
        ("turkish-get-up", "Turkish get-up", "Turkish get-ups"),
        ("push-press", "push press", "push presses"),
        ("chest-fly", "chest fly", "chest flies"),
        ("toes-to-bar", "toes to bar", "toes to bar"),
        ("lunge-with-rotation", "lunge with rotation", "lunges with rotation"),
        ("rear-foot-elevated-split-squat", "rear-foot-elevated split squat",
         "rear-foot-elevated split squats"),
        ("deep-breathing", "deep breathing", "deep breaths"),
        ("childs-pose", "child's pose", "child's poses"),
        ("hi-knees, sort of", "hi-knees, sort of", "hi-knees, sort of"),
    ],
)  # fmt: skip
def test_movement(name: str, one: str, many: str) -> None:
    assert (words.movement(name), words.movement(name, many=True)) == (one, many)


def test_every_irregular_name_is_in_use() -> None:
    names = {words.movement(name) for name in catalogue()}
    assert set(words._names().plural) <= names
    used = " ".join(names)
    assert [text for text in words._names().written.values() if text not in used] == []


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        ({"weekday": "thursday", "day": 12, "month": 11}, "Thursday 12 November"),
        ({"year": 2026, "month": 6, "day": 3}, "3 June 2026"),
        ({"weekday": "monday"}, "Monday"),
        ({"day": 31, "month": 13}, "31 13"),
        ({}, "date not said"),
    ],
)
def test_date(given: dict[str, object], expected: str) -> None:
    assert words.date(Date.model_validate(given)) == expected


def test_loads_for_everybody_and_for_one_group() -> None:
    all_, women = Load(low=24, high=24, unit="kg"), Load(low=16, high=16, unit="kg", who="women")
    assert words.loads((all_, women)) == ", 24 kg / women 16 kg"
    assert words.loads(()) == ""


def test_counts() -> None:
    assert words.count(Range(low=1, high=1), "round") == "1 round"
    assert words.count(Range(low=2, high=3), "set") == "2\u20133 sets"
    assert words.count(Range(), "set") == "sets (number not said)"


def test_clean_drops_what_steers_a_terminal_or_turns_text_round() -> None:
    assert words.clean("\x00 a\x1b[31mb\u202ec\n d\x9b ") == "a[31mbc d"
    assert words.clean("\u05e9\u05dc\u05d5\u05dd \U0001f6a3\U0001f3fd\u200d\u2640\ufe0f") != ""


@pytest.mark.parametrize("path", GOLD, ids=lambda path: path.name.split(".")[0])
def test_every_effort_of_the_corpus_is_on_its_board(path: Path) -> None:
    for block in gold(path).blocks:
        text = "\n".join(written(board.lines(block)))
        for effort in efforts(block.items):
            assert words.movement(effort.movement).split()[0] in text
            if effort.low is not None and effort.unit in ("reps", "m", "kcal"):
                assert words.amount(effort.low, effort.high, effort.unit) in text


def test_a_block_without_work_keeps_its_structure() -> None:
    bare = plan({"id": "b1", "kind": "skill", "structure": {"kind": "amrap", "duration_s": 60}})
    assert written(board.lines(bare.blocks[0])) == ["as many rounds as possible in 1:00"]


@pytest.mark.parametrize(
    ("option", "expected"),
    [
        ({"kind": "lighter", "low": 12, "high": 12, "unit": "kg"}, "lighter, 12 kg"),
        ({"kind": "fewer", "low": 1, "high": 1, "unit": "reps"}, "fewer, 1 rep"),
        ({"kind": "fewer", "low": 3, "high": 3, "unit": "rounds"}, "fewer, 3 rounds"),
        ({"kind": "shorter", "low": 800, "high": 800, "unit": "m"}, "shorter, 800 m"),
        ({"kind": "harder", "to": "pike-push-up"}, "pike push-up (harder)"),
        ({"kind": "substitute", "to": "step-up", "low": 20, "high": 20, "unit": "reps"},
         "step-up instead, 20 reps"),
        ({"kind": "substitute", "said": [{"quote": "whatever you like"}]},
         "something else instead, \u201cwhatever you like\u201d"),
    ],
)  # fmt: skip
def test_an_option_in_words(option: dict[str, object], expected: str) -> None:
    view = sheet(plan(options=({"about": "push-up", **option},)))
    (line,) = next(part for part in view.guidance if part.heading == "Options").lines
    assert (line.label, line.text) == ("push-up", expected)

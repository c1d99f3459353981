"""The page on a terminal."""

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from render.sessions import GOLD, HOSTILE, SOURCE, block, effort, gold, hostile, plan, rich
from rich.cells import cell_len

from cuewright.render import terminal
from cuewright_models.plan import Plan

ORDER = (
    *("Low Water", "1. Warm-up", "2. Strength", "3. Conditioning: Low Water", "4. Accessory"),
    *("Targets", "Options", "Cues", "Advice", "Times (likely, and below it low to high)"),
    *("Findings", "Not understood", "Misheard words", "Cautions"),
)
CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")


def fits(text: str, width: int) -> bool:
    """No line is wider than ``width`` cells, and none holds a control sign."""
    lines = text.split("\n")
    return all(cell_len(line) <= width and not CONTROL.search(line) for line in lines)


def test_the_parts_stand_in_order() -> None:
    lines = [line.split("  ")[0] for line in terminal.page(rich()).splitlines()]
    assert [line for line in lines if line in ORDER] == list(ORDER)


@pytest.mark.parametrize(
    "line",
    [
        "Thursday 12 November >> 0:12",
        "low-water.vtt (captions), 6:52 long",
        "      20 kettlebell swings, women 16 kg / men 24 kg >> 0:50 3:25",
        "      heron stands (not in the catalogue), amount not said >> 0:55",
        "  the coach says it takes 5:00\u20136:00 >> 1:48",
        "  5 \u00d7 5 back squat at 75 % of best, rest 3:00 >> 2:01 2:04",
        "    2) 8 push-ups \u00b7 10 hollow rocks >> 2:23 2:25",
        " - kettlebell swing: in 2 sets >> 5:00",
        " - whole session: effort 7\u20138 of 10 >> 5:04",
        " - step-up: glute bridge instead >> 3:50",
        " - push-up: incline push-up (easier) >> 3:56",
        " - back squat: lighter, \u201cgo lighter if you're new\u201d >> 3:59",
        "   27:20\u201338:10     23:10\u201329:20     20:00\u201324:10                   at 1:14",
        "   1:02:00         52:00           46:00          45:00          29:00, some",
        " - No pace known for heron stand; a wide guess stands in, and widens the times.",
        "  ERROR sum-claim-wrong (row)",
        "    expected 4 x 250 m = 1000 m, found 1500 m",
        "    \u201cand 1500 metres on the erg\u201d >> 1:28",
        "    Suggestion: Say 1000 metres, or row 375 m a round.",
        " - \u201cheron stands\u201d: nearest known: tree pose, wall sit >> 0:55",
        " - \u201ccattle bell\u201d: read as \u201ckettlebell\u201d >> 0:50",
    ],
)
def test_a_line_at_80_columns(line: str) -> None:
    """What follows ``>>`` stands at the right edge."""
    left, _, right = line.partition(" >> ")
    expected = left + right.rjust(80 - cell_len(left)) if right else line
    assert expected in terminal.page(rich()).splitlines()


@pytest.mark.parametrize("path", GOLD, ids=lambda path: path.name.split(".")[0])
def test_the_corpus_fits_80_columns(path: Path) -> None:
    assert fits(terminal.page(gold(path)), 80)


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("width", [40, 80])
def test_hostile_words_fit_and_stay_words(text: str, width: int) -> None:
    page = terminal.page(hostile(text), width=width)
    assert fits(page, width)
    assert "\x1b" not in page


@settings(derandomize=True, max_examples=60, deadline=None)
@given(st.text())
def test_any_words_fit(heard: str) -> None:
    assert fits(terminal.page(hostile(heard)), 80)


def test_markup_of_the_terminal_library_is_only_text() -> None:
    assert "[bold]markup[/bold] [/] :rowboat:" in terminal.page(hostile(HOSTILE[9]))


def test_colour_changes_nothing_but_escape_sequences() -> None:
    coloured = terminal.page(rich(), colour=True)
    assert "\x1b[" in coloured
    plain = re.sub(r"\x1b\[[0-9;]*m", "", coloured)
    assert [line.rstrip() for line in plain.splitlines()] == terminal.page(rich()).splitlines()


def test_a_talk_without_a_session() -> None:
    page = terminal.page(plan())
    assert page.startswith("untitled session\ndate not said\nlow-water.vtt (captions), 6:52 long\n")
    assert "No session was found in this talk." in page
    assert "Stop at once" in page


def test_a_length_that_is_not_known() -> None:
    source = {**SOURCE, "kind": "text", "duration_s": None}
    page = terminal.page(Plan.model_validate({"source": source}))
    assert "low-water.vtt (text), length not known" in page


def test_many_places_are_cut_short() -> None:
    said = [{"start_s": second, "quote": "five"} for second in range(60, 66)]
    page = terminal.page(plan(block({"kind": "quality"}, effort("push-up", 5, said=said))))
    assert re.search(r"5 push-ups +1:00 1:01 1:02 \u2026\n", page)

"""The page of reasons: its words, its width, and nothing that a terminal would obey."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from cuewright.render.explained import page
from cuewright_models.base import Said
from cuewright_models.explained import (
    Explained,
    ExplainedClause,
    Reason,
    RoleChoice,
    SectionChoice,
)
from cuewright_models.plan import Source

CONTROL = re.compile(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
LONG = "ten push ups and then " * 9


def section(*because: tuple[str, float], lost_by: float = 3.25) -> SectionChoice:
    reasons = tuple(Reason(what=what, weight=weight) for what, weight in because)
    return SectionChoice(chosen="work", because=reasons, runner_up="cues", lost_by=lost_by)


def role(*because: tuple[str, float], **more: object) -> RoleChoice:
    reasons = tuple(Reason(what=what, weight=weight) for what, weight in because)
    usual = {"runs_on": False, "runner_up": "cue", "lost_by": 1.0} | more
    return RoleChoice(chosen="prescription", because=reasons, **usual)


def explained(
    quote: str = "ten push ups",
    start_s: float | None = 62.0,
    part: SectionChoice | None = None,
    purpose: RoleChoice | None = None,
    name: str = "talk.vtt",
) -> Explained:
    clause = ExplainedClause(
        said=Said(start_s=start_s, quote=quote),
        section=part or section(("prescribes", 1.5)),
        role=purpose or role(("prescribes", 2.0)),
    )
    source = Source(name=name, kind="captions", sha256="", duration_s=90)
    return Explained(source=source, clauses=(clause,))


def test_a_clause_has_its_time_words_section_and_role() -> None:
    assert page(explained()).splitlines() == [
        "talk.vtt (captions), 1:30 long",
        "",
        "1:02  ten push ups",
        "      work          prescribes +1.5; cues 3.25 behind",
        "      prescription  prescribes +2; cue 1 behind",
    ]


@pytest.mark.parametrize(
    ("part", "says"),
    [
        (section(lost_by=0.00001), "nothing new, so work goes on; cues weighs the same"),
        (section(("a", 5), ("b", -1.5), ("c", 0.3), ("d", 0.1)), "a +5, b -1.5, c +0.3, …; cues"),
    ],
)
def test_reasons_for_a_section(part: SectionChoice, says: str) -> None:
    assert f"work          {says}" in page(explained(part=part))


@pytest.mark.parametrize(
    ("purpose", "says"),
    [
        (role(), "nothing in it speaks; cue 1 behind"),
        (role(("a", 1), runner_up=None, lost_by=None), "a +1; nothing speaks for another"),
        (
            role(runs_on=True, runner_up="cue", lost_by=None),
            "goes on with the clause before; by itself it would be cue",
        ),
    ],
)
def test_reasons_for_a_role(purpose: RoleChoice, says: str) -> None:
    assert f"prescription  {says}" in page(explained(purpose=purpose))


def test_text_without_times_starts_at_the_edge() -> None:
    lines = page(explained(start_s=None)).splitlines()
    assert lines[2:4] == ["ten push ups", "work          prescribes +1.5; cues 3.25 behind"]


def test_long_words_are_shortened() -> None:
    line = page(explained(LONG)).splitlines()[2]
    assert line.startswith("1:02  ten push ups and then ten")
    assert line.endswith("…")
    assert cell_len(line) == 80


def test_a_talk_of_no_words_is_its_heading() -> None:
    empty = explained().model_copy(update={"clauses": ()})
    assert page(empty) == "talk.vtt (captions), 1:30 long\n"


def test_colour_only_when_asked_for() -> None:
    assert "\x1b" not in page(explained())
    assert "\x1b[" in page(explained(), colour=True)


@settings(deadline=None, derandomize=True)
@given(st.text(max_size=200), st.text(min_size=1, max_size=60), st.sampled_from([40, 80, 100]))
def test_any_words_fit_the_width(quote: str, name: str, width: int) -> None:
    part = section(*((f"header-cool-down-{n}", -1.25 * n) for n in range(1, 5)))
    text = page(explained(quote, part=part, name=name), width=width)
    assert not CONTROL.search(text)
    assert all(cell_len(line) <= width for line in text.split("\n"))

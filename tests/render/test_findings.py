"""Findings on a terminal: heads for scripts, proof within the width."""

import json
import re

import pytest
from render.sessions import HOSTILE
from rich.cells import cell_len

from cuewright.render import findings, instead, words
from cuewright.render.mends import mends
from cuewright_models.base import Said
from cuewright_models.finding import Finding


def finding(*said: Said, **fields: object) -> Finding:
    given = {"rule": "total-said-twice", "severity": "error", "about": "total", "message": "m"}
    return Finding(**given | {"said": said} | fields)


def at(start: float | None, quote: str = "twenty minutes") -> Said:
    return Said(start_s=start, quote=quote)


def squeezed(lines: list[str]) -> list[str]:
    """The lines without the spaces that set columns apart."""
    return [re.sub(" +", " ", line) for line in lines]


def heads(*found: Finding) -> list[str]:
    return findings.heads("talk.vtt", found).splitlines()


def test_the_order_is_that_of_the_recording_and_untimed_ones_come_last() -> None:
    found = [
        finding(at(None), message="untimed"),
        finding(at(90), at(30), message="second"),
        finding(message="nowhere"),
        finding(at(None), at(10), message="first"),
    ]
    assert [line.rpartition(" ")[2] for line in heads(*found)] == [
        "first", "second", "untimed", "nowhere",
    ]  # fmt: skip
    assert heads(*found)[0].startswith("talk.vtt:0:10: ")
    assert heads(*found)[2].startswith("talk.vtt: ")


def test_every_quote_stands_below_with_its_time() -> None:
    found = finding(at(90, "an hour"), at(30, "fifty minutes"), expected="50 min", found="1 h",
                    suggestion="Keep one.")  # fmt: skip
    assert findings.page("talk.vtt", [found]) == (
        "talk.vtt:0:30: error total-said-twice (total): m\n"
        "    0:30        “fifty minutes”\n"
        "    1:30        “an hour”\n"
        "    expected    50 min\n"
        "    found       1 h\n"
        "    suggestion  Keep one.\n"
    )


def test_a_whole_block_is_quoted_by_its_beginning() -> None:
    quote = " ".join(f"word{n}" for n in range(200))
    page = findings.page("talk.vtt", [finding(at(5, quote), at(9, "short"))])
    lines = page.splitlines()
    assert lines[1].endswith("word0") or "“word0 word1 " in lines[1]
    assert lines[2].endswith(" …”")
    assert lines[2].split()[-2].removeprefix("word").isdigit()
    assert lines[3].strip() == "0:09        “short”"


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("width", [40, 80, 100])
def test_whatever_was_heard_stays_inside_the_width_and_is_no_markup(text: str, width: int) -> None:
    found = finding(at(5, text), message=text, expected=text, found=text, suggestion=text, say=text)
    proof = findings.page(text, [found], width=width).splitlines()[1:]
    listed = instead.page("talk.vtt", [found], width=width).splitlines()
    assert max(map(cell_len, [*proof, *listed])) <= width
    assert all(words.clean(line) == line.strip() for line in squeezed([*proof, *listed]))
    (row,) = findings.rows(text, [found]).splitlines()
    assert json.loads(row)["message"] == text


def test_a_head_is_one_line_unless_somebody_watches() -> None:
    found = finding(at(5), message="long " * 40)
    assert findings.page("t", [found]).splitlines()[0].count("long") == 40
    watched = findings.page("t", [found], whole_heads=False)
    assert max(map(len, watched.splitlines())) <= 80


def test_colour_only_when_asked_for() -> None:
    assert "\x1b[" not in findings.page("t", [finding(at(5))])
    assert "\x1b[" in findings.page("t", [finding(at(5))], colour=True)


def test_nothing_found_is_nothing_printed() -> None:
    assert findings.page("t", []) == findings.heads("t", []) == instead.page("t", []) == ""


@pytest.mark.parametrize(
    ("count", "talks", "accepted", "text"),
    [
        ({"error": 3, "warning": 1, "note": 2}, 2, 0, "3 errors, 1 warning, 2 notes in 2 talks."),
        ({"note": 1}, 1, 0, "1 note in 1 talk."),
        ({}, 1, 0, "No findings in 1 talk."),
        ({}, 2, 1, "No findings in 2 talks; 1 accepted finding not shown."),
    ],
)
def test_the_summary(count: dict[str, int], talks: int, accepted: int, text: str) -> None:
    assert findings.summary(count, talks, accepted) == text


def test_one_entry_for_each_place_to_mend_in_order() -> None:
    end, middle = at(90, "an hour"), at(40, "five rounds")
    found = [
        finding(at(30), end, say="It takes 50 min."),
        finding(middle, suggestion="Say which."),
        finding(at(35), end, say="It takes 50 min.", suggestion="Keep one."),
        finding(end, suggestion="Cut it."),
        finding(suggestion="Add a warm-up."),
        finding(at(1), message="nothing to say of it"),
    ]
    assert [(m.said, m.say, m.do) for m in mends(found)] == [
        (middle, (), ("Say which.",)),
        (end, ("It takes 50 min.",), ("Cut it.",)),
        (None, (), ("Add a warm-up.",)),
    ]


def test_the_list_of_what_to_say() -> None:
    found = [finding(at(90, "an hour"), say="It takes 50 min."), finding(suggestion="Warm up.")]
    assert instead.page("talk.vtt", found) == (
        "talk.vtt\n    1:30  “an hour”\n     say  It takes 50 min.\n      do  Warm up.\n"
    )

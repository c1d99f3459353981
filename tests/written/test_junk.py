"""Texts that hold no session, too much of one, or that somebody's editor has mangled."""

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from written.notation import blocks
from written.reading import plan, taken_down

from cuewright.errors import UnreadableSource
from cuewright.flow import plan_of, read_description
from cuewright_models.transcript import Transcript

SESSION = "## Work\n- 400 m run\n- 10 burpees\n"


@pytest.mark.parametrize(
    "text",
    [
        "# My holidays\n\n- sun\n- sea\n- sand 2 times\n",
        "1. Open the box\n2. Take out 3 screws\n",
        "| a | b |\n|---|---|\n| 1 | 2 |\n",
        "Chapters\n0:00 Hello\n1:30 Goodbye\n",
        "- [ ] buy milk 2 l\n- [x] post 1 letter\n",
        "Price list: 10 EUR, 20 EUR\n- 5 EUR a day\n",
        "Tel: 01 23 45\nRoom: 12\n",
    ],
)
def test_a_text_without_a_session_is_an_empty_plan(text: str) -> None:
    assert plan(text).blocks == ()


@pytest.mark.parametrize("text", ["", " \n\t\n", "---\n***\n", "- \n- \n", "<p></p><ul></ul>"])
def test_a_text_without_words_is_refused_in_one_sentence(text: str, tmp_path: Path) -> None:
    file = tmp_path / "post.md"
    file.write_text(text)
    with pytest.raises(UnreadableSource) as refused:
        read_description(file)
    assert str(refused.value).endswith(".")
    assert "\n" not in str(refused.value)


def test_a_megabyte_of_lists_is_refused_in_one_sentence() -> None:
    with pytest.raises(UnreadableSource) as refused:
        taken_down(SESSION * (1_000_000 // len(SESSION)))
    assert str(refused.value).endswith("give one session at a time.")


def test_a_year_of_sessions_is_read() -> None:
    assert len(plan(SESSION * 365).blocks) == 365


def test_damaged_markup_still_has_its_words() -> None:
    text = "<ul><li>400 m run<li>10 burpees</ul></div></p><table><tr><td>5 pull-ups"
    assert blocks(plan(text)) == ["conditioning quality: run 400 m, burpee 10, pull-up 5"]


def test_smart_quotes_and_blanks_change_nothing() -> None:
    plain = plan("- 5' easy row\n- 30\" plank\n- child's pose 1 min\n")
    smart = plan("- 5\u2019 easy\u00a0row\n- 30\u201d\u202fplank\n- child\u2019s pose 1\u00a0min\n")
    assert blocks(smart) == blocks(plain)


def test_windows_line_ends_and_a_byte_order_mark_change_nothing(tmp_path: Path) -> None:
    file = tmp_path / "post.txt"
    file.write_bytes(b"\xef\xbb\xbf" + SESSION.replace("\n", "\r\n").encode())
    assert blocks(read_description(file)) == blocks(plan(SESSION))


def test_the_line_is_in_the_plan_of_a_written_session_alone() -> None:
    written = json.loads(plan(SESSION).model_dump_json())
    spoken = json.loads(plan("We do ten burpees, and then you run 400 metres.").model_dump_json())
    assert written["blocks"][0]["items"][0]["said"][0]["line"] == 2
    assert '"line"' not in json.dumps(spoken)


def test_sentences_know_their_lines_as_a_description(tmp_path: Path) -> None:
    file = tmp_path / "post.md"
    file.write_text("Softly Back, 40 minutes.\n\nThe main part has no clock. Do 10 burpees, then\n"
                    "rest. We run for 400 metres after that.\n")  # fmt: skip
    found = read_description(file)
    assert [said.line for block in found.blocks for said in block.said]
    assert all(said.line for block in found.blocks for said in block.said)


def heard_or_refused(text: str) -> Transcript | str:
    """The text as a transcript, or the sentence that says why there is none."""
    try:
        return taken_down(text)
    except UnreadableSource as refused:
        return str(refused)


@pytest.mark.parametrize(
    ("first", "title"),
    [
        ("**Do Not Disturb** is a quiet workout. Do 10 burpees.", "Do Not Disturb"),
        ("Softly Back, Wednesday evening class. Do 10 burpees.", "Softly Back"),
        ("Marooned is for people with a bar. Do 10 burpees.", "Marooned"),
        ("Weir and Back: out and home. Do 10 burpees.", "Weir and Back"),
        ("Hello, this is my session. Do 10 burpees.", None),
        ("We do 10 burpees. Then you run 400 metres and rest.", None),
    ],
)
def test_sentences_begin_with_the_name(first: str, title: str | None, tmp_path: Path) -> None:
    file = tmp_path / "post.md"
    file.write_text(first)
    assert read_description(file).title == title


@settings(max_examples=60, deadline=None)
@given(st.text(alphabet="-*#|0123456789x/'\" \n:()ABab.…run squat rounds min EMOM", max_size=200))
def test_no_text_breaks_the_reader(text: str) -> None:
    heard = heard_or_refused(text)
    if isinstance(heard, str):
        assert heard.endswith(".")
    else:
        assert plan_of(heard).contract

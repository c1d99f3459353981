"""A session that is written in the comments of a file of captions."""

from pathlib import Path

import pytest
from written.notation import blocks

from cuewright import read_plan
from cuewright.errors import UnreadableSource
from cuewright.flow import read_description

SPOKEN = """\
00:01.000 --> 00:06.000
Good evening. First a warm-up: two rounds of ten air squats and ten push-ups.

NOTE - 99 burpees

00:07.000 --> 00:12.000
Then for time, five rounds of fifteen burpees and a 400 metre run.
"""
WRITTEN = ["warm-up quality: jog 180 s", "conditioning for-time: 4x(run 400 m, burpee 15)"]
HEARD = ["warm-up quality: 2x(air-squat 10, push-up 10)",
         "conditioning for-time: 5x(burpee 15, run 400 m)"]  # fmt: skip
SESSION = "Warm-up: 3 min jog\n{apart}4 rounds for time:\n- 400 m run\n- 15 burpees\n"
HEADS = [
    "WEBVTT\n\nNOTE\n" + SESSION.format(apart="\nNOTE\n"),
    "WEBVTT\n\nNOTE " + SESSION.format(apart=""),
    "WEBVTT - Low Water\nLanguage: en\n\nNOTE\n" + SESSION.format(apart="\nNOTE "),
    "WEBVTT\n\nNOTE made by hand\n\nNOTE\n" + SESSION.format(apart="\nNOTE\n"),
    "WEBVTT\n" + SESSION.format(apart=""),
    "WEBVTT\n\nSTYLE\n::cue { color: red }\n\nNOTE\n" + SESSION.format(apart=""),
]


@pytest.mark.parametrize("head", HEADS)
def test_the_description_is_read_and_the_talk_as_before(head: str, tmp_path: Path) -> None:
    file = tmp_path / "talk.vtt"
    file.write_text(f"{head}\n{SPOKEN}")
    assert blocks(read_description(file)) == WRITTEN
    assert blocks(read_plan(file)) == HEARD


def test_evidence_has_the_line_of_the_file(tmp_path: Path) -> None:
    file = tmp_path / "talk.vtt"
    file.write_text(f"{HEADS[0]}\n{SPOKEN}")
    lines = file.read_text().splitlines()
    said = [said for block in read_description(file).blocks for said in block.said]
    assert [lines[each.line - 1].split()[-1] for each in said] == ["jog", "time:"]


@pytest.mark.parametrize("head", ["WEBVTT\n", "WEBVTT\n\nNOTE Filmed at the boathouse.\n"])
def test_captions_without_a_written_session_are_refused(head: str, tmp_path: Path) -> None:
    file = tmp_path / "talk.vtt"
    file.write_text(f"{head}\n{SPOKEN}")
    with pytest.raises(UnreadableSource, match="no session is written in its notes"):
        read_description(file)

"""``cuewright compare`` as somebody uses it."""

import json
from pathlib import Path

import pytest
from cli.running import run, sentence

TALK = """WEBVTT

00:01.000 --> 00:06.000
Good evening. First a warm-up: two rounds of ten air squats and ten inchworms.

00:07.000 --> 00:12.000
Then for time, five rounds of fifteen burpees and a 400 metre run.
"""
TRUE = """\
Warm-up, 2 rounds:
- 10 air squats
- 10 inchworms

5 rounds for time:
- 15 burpees
- 400 m run
"""
WRONG = TRUE.replace("15 burpees", "12 burpees")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "talk.vtt").write_text(TALK, "utf-8")
    (tmp_path / "true.md").write_text(TRUE, "utf-8")
    (tmp_path / "post.md").write_text(WRONG, "utf-8")
    return tmp_path


def test_a_true_description_is_fine(folder: Path) -> None:
    done = run("compare", folder / "talk.vtt", folder / "true.md")
    assert done.exit_code == 0
    assert done.stdout == "The description says what the talk says.\n"


def test_a_difference_is_found_at_its_line_with_its_time(folder: Path) -> None:
    done = run("compare", folder / "talk.vtt", folder / "post.md")
    assert done.exit_code == 1
    head = done.stdout.splitlines()[0]
    assert head.startswith(f"{folder / 'post.md'}:6: error description-differs (burpee): ")
    assert "said 0:0" in done.stdout
    assert "line 6" in done.stdout
    assert "   6 - - 12 burpees\n   6 + - 15 burpees\n" in done.stdout
    assert "\x1b" not in done.stdout


def test_quiet_prints_one_line_each(folder: Path) -> None:
    done = run("compare", folder / "talk.vtt", folder / "post.md", "--quiet")
    assert len(done.stdout.splitlines()) == 1


def test_json_is_one_object(folder: Path) -> None:
    done = run("compare", folder / "talk.vtt", folder / "post.md", "--json")
    made = json.loads(done.stdout)
    assert [(f["rule"], f["about"]) for f in made["findings"]] == [
        ("description-differs", "burpee")
    ]
    assert made["corrected"] == TRUE


def test_html_stands_alone(folder: Path) -> None:
    (folder / "post.md").write_text(WRONG + "\n<script>alert(1)</script> & more\n", "utf-8")
    done = run("compare", folder / "talk.vtt", folder / "post.md", "--format", "html")
    assert done.stdout.startswith("<!DOCTYPE html>")
    assert "<script" not in done.stdout
    assert "<del>12 </del>" in done.stdout
    assert "<ins>15 </ins>" in done.stdout
    assert "://" not in done.stdout


def test_write_saves_beside_and_never_over_other_words(folder: Path) -> None:
    call = ("compare", folder / "talk.vtt", folder / "post.md", "--write", "--quiet")
    assert run(*call).exit_code == 1
    beside = folder / "post.corrected.md"
    assert beside.read_text("utf-8") == TRUE
    assert (folder / "post.md").read_text("utf-8") == WRONG
    assert run(*call).exit_code == 1  # the same words may be written again
    beside.write_text("by hand", "utf-8")
    done = run(*call)
    assert done.exit_code == 2
    assert "--overwrite" in sentence(done)
    assert beside.read_text("utf-8") == "by hand"
    assert run(*call, "--overwrite").exit_code == 1
    assert beside.read_text("utf-8") == TRUE


def test_in_place_keeps_every_backup(folder: Path) -> None:
    call = ("compare", folder / "talk.vtt", folder / "post.md", "--in-place", "--yes", "--quiet")
    for name in ("post.md.bak", "post.md.bak.2"):
        (folder / "post.md").write_bytes(WRONG.replace("\n", "\r\n").encode())
        assert run(*call).exit_code == 1
        assert (folder / "post.md").read_bytes() == TRUE.replace("\n", "\r\n").encode()
        assert (folder / name).read_bytes() == WRONG.replace("\n", "\r\n").encode()


def test_in_place_without_a_terminal_needs_yes(folder: Path) -> None:
    done = run("compare", folder / "talk.vtt", folder / "post.md", "--in-place")
    assert done.exit_code == 2
    assert "--yes" in sentence(done)
    assert (folder / "post.md").read_text("utf-8") == WRONG


def test_nothing_is_written_where_nothing_differs(folder: Path) -> None:
    done = run("compare", folder / "talk.vtt", folder / "true.md", "--in-place", "--yes")
    assert done.exit_code == 0
    assert sorted(path.name for path in folder.iterdir()) == ["post.md", "talk.vtt", "true.md"]


def test_a_description_comes_through_standard_input(folder: Path) -> None:
    done = run("compare", folder / "talk.vtt", "-", stdin=WRONG.encode())
    assert done.exit_code == 1


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (("--write", "--in-place", "--yes"), "leave one out"),
        (("--json", "--format", "html"), "leave one out"),
    ],
)
def test_options_that_contradict(more: tuple[str, ...], told: str, folder: Path) -> None:
    done = run("compare", folder / "talk.vtt", folder / "post.md", *more)
    assert done.exit_code == 2
    assert told in sentence(done)


@pytest.mark.parametrize(
    "text", ["", "See you on Sunday.\n", "like and share " * 70_000, "- ten push-ups\n" * 70_000]
)
def test_no_session_is_one_sentence(text: str, folder: Path) -> None:
    (folder / "post.md").write_text(text, "utf-8")
    done = run("compare", folder / "talk.vtt", folder / "post.md")
    assert done.exit_code == 2
    sentence(done)


def test_a_missing_file_is_one_sentence(folder: Path) -> None:
    done = run("compare", folder / "talk.vtt", folder / "none.md")
    assert done.exit_code == 2
    assert "does not exist" in sentence(done)

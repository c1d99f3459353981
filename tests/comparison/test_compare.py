"""A talk of the invented club beside descriptions of it: what differs, and what does not."""

import codecs
from pathlib import Path

import pytest

from cuewright import compare
from cuewright.errors import UnreadableSource
from cuewright_models.comparison import Comparison

TALK = """\
Hello, this session is called Slack Water. We warm up with a three minute easy jog and ten
air squats.

Then the main piece is four rounds for time, with a twenty minute cap: two hundred and fifty
metres on the rower, fifteen kettlebell swings and twelve push-ups.

We cool down with a pigeon stretch, forty five seconds each side, and one minute of child's
pose.
"""
TRUE = """\
# Slack Water

**Warm-up**

- 3 min easy jog
- 10 air squats

**Main: 4 rounds for time, 20 min cap**

- 250 m row
- 15 kettlebell swings
- 12 push-ups

**Cool-down**

- Pigeon stretch, 45 s each side
- 1 min child's pose
"""


@pytest.fixture
def beside(tmp_path: Path):  # type: ignore[no-untyped-def]
    """The comparison of the talk with a description."""
    talk = tmp_path / "talk.txt"
    talk.write_text(TALK, "utf-8")

    def compared(text: str | bytes) -> Comparison:
        path = tmp_path / "post.md"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return compare(talk, path)

    return compared


def told(made: Comparison) -> list[tuple[str, str]]:
    return [(finding.rule, finding.about) for finding in made.findings]


def test_a_true_description_has_no_finding_and_no_edit(beside) -> None:  # type: ignore[no-untyped-def]
    made = beside(TRUE)
    assert told(made) == []
    assert made.corrected == made.given
    assert made.edits == ()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("1 min child's pose", "60 s child's pose"),
        ("250 m row", "0.25 km row"),
        ("250 m row", "250 metres on the erg"),
        ("3 min easy jog", "3' easy jog"),
        ("12 push-ups", "12 press-ups"),
        ("20 min cap", "20' cap"),
        ("Pigeon stretch, 45 s each side", "Pigeon stretch, 45 s per side"),
        ("15 kettlebell swings", "15 KB swings"),
        ("**Cool-down**", "**Wind down**"),
        ("# Slack Water\n\n", ""),
        ("- 12 push-ups\n", "- 12 push-ups\n\nScale as you like.\n"),
    ],
)
def test_what_does_not_matter_is_not_told(old: str, new: str, beside) -> None:  # type: ignore[no-untyped-def]
    assert old in TRUE
    assert told(beside(TRUE.replace(old, new))) == []


WRONG = [
    ("250 m row", "200 m row", ("description-differs", "row")),
    ("12 push-ups", "15 push-ups", ("description-differs", "push-up")),
    ("3 min easy jog", "5 min easy jog", ("description-differs", "jog")),
    ("45 s each side", "30 s each side", ("description-differs", "pigeon-stretch")),
    ("4 rounds for time", "5 rounds for time", ("description-differs", "structure")),
    ("20 min cap", "25 min cap", ("description-differs", "structure")),
    ("- 15 kettlebell swings\n", "", ("description-missing", "kettlebell-swing")),
    ("- 12 push-ups\n", "- 12 push-ups\n- 10 burpees\n", ("description-extra", "burpee")),
    ("# Slack Water", "# Spring Flood", ("description-differs", "title")),
    (
        "- 15 kettlebell swings\n- 12 push-ups\n",
        "- 12 push-ups\n- 15 kettlebell swings\n",
        ("description-differs", "order"),
    ),
]


@pytest.mark.parametrize(("old", "new", "finding"), WRONG)
def test_one_difference_is_named_and_mended(
    old: str,
    new: str,
    finding: tuple[str, str],
    beside,  # type: ignore[no-untyped-def]
) -> None:
    assert old in TRUE
    made = beside(TRUE.replace(old, new))
    assert told(made) == [finding]
    assert made.remaining == ()
    assert told(beside(made.corrected)) == []


@pytest.mark.parametrize(
    ("old", "new"), [row[:2] for row in WRONG if row[2][0].endswith("differs")]
)
def test_the_smallest_edit_gives_the_true_text_back(old: str, new: str, beside) -> None:  # type: ignore[no-untyped-def]
    assert beside(TRUE.replace(old, new)).corrected == TRUE


def test_edits_are_places_of_the_given_text(beside) -> None:  # type: ignore[no-untyped-def]
    made = beside(TRUE.replace("250 m", "200 m"))
    assert [(edit.old, edit.new) for edit in made.edits] == [("200", "250")]
    edit = made.edits[0]
    assert made.given[edit.start : edit.end] == "200"
    assert made.given.splitlines()[edit.line - 1] == "- 200 m row"


def test_both_sides_are_quoted(beside) -> None:  # type: ignore[no-untyped-def]
    finding = beside(TRUE.replace("12 push-ups", "15 push-ups")).findings[0]
    spoken, written = finding.said
    assert spoken.line is None
    assert written.line == TRUE.splitlines().index("- 12 push-ups") + 1
    assert "twelve push-ups" in spoken.quote
    assert (finding.expected, finding.found) == ("12 push-ups", "15 push-ups")


@pytest.mark.parametrize(
    ("mark", "encoding", "end"),
    [
        (codecs.BOM_UTF8, "utf-8", "\r\n"),
        (b"", "cp1252", "\n"),
        (codecs.BOM_UTF16_LE, "utf-16-le", "\r\n"),
        (b"", "utf-8", "\r"),
    ],
)
def test_encoding_and_line_ends_stay(mark: bytes, encoding: str, end: str, beside) -> None:  # type: ignore[no-untyped-def]
    from cuewright.hear import spelling

    true = (TRUE + "\nSee you in the café.\n").replace("\n", end)
    wrong = true.replace("250 m", "200 m")
    given = mark + wrong.encode(encoding)
    made = beside(given)
    assert told(made) == [("description-differs", "row")]
    assert spelling(given).of(made.corrected) == mark + true.encode(encoding)


def test_smart_signs_and_hard_spaces_are_kept(beside) -> None:  # type: ignore[no-untyped-def]
    true = TRUE.replace("child's", "child\u2019s").replace("250 m", "250\u00a0m")
    assert told(beside(true)) == []
    assert beside(true.replace("250\u00a0m", "200\u00a0m")).corrected == true


def test_a_page_of_a_web_editor_is_mended_in_its_tags(beside) -> None:  # type: ignore[no-untyped-def]
    page = (
        "<h1>Slack Water</h1><p><strong>Warm-up</strong></p><ul><li>3&nbsp;min easy jog</li>"
        "<li>10 air squats</li></ul>\n<p><strong>Main: 4 rounds for time, 20 min cap</strong></p>"
        "<ul><li>200&nbsp;m row</li><li>15 kettlebell swings</li><li>12 push-ups</li></ul>\n"
        "<p><strong>Cool-down</strong></p><ul><li>Pigeon stretch 45 s each side</li>"
        "<li>1 min child&#39;s pose</li></ul>"
    )
    made = beside(page)
    assert told(made) == [("description-differs", "row")]
    assert made.corrected == page.replace("200&nbsp;m", "250&nbsp;m")


@pytest.mark.parametrize(
    "text", ["See you all on Sunday.\n", "Thanks for watching, like and share!"]
)
def test_no_session_is_one_sentence(text: str, beside) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(UnreadableSource, match=r"^No session was found in post\.md; [^.]+\.$"):
        beside(text)


def test_an_empty_description_is_one_sentence(beside) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(UnreadableSource, match="is empty"):
        beside("")

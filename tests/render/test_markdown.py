"""The page as Markdown, read back with markdown-it, a CommonMark reference parser."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from render.sessions import GOLD, HOSTILE, gold, hostile, plan, rich

from cuewright.render import markdown, words

READER = MarkdownIt("commonmark").enable("table")
PLAIN = {
    *("inline", "text", "softbreak", "code_inline", "hr"),
    *("heading_open", "heading_close", "paragraph_open", "paragraph_close"),
    *("bullet_list_open", "bullet_list_close", "ordered_list_open", "ordered_list_close"),
    *("list_item_open", "list_item_close", "strong_open", "strong_close", "text_special"),
    *(f"{part}_{end}" for part in ("table", "thead", "tbody", "tr", "th", "td")
      for end in ("open", "close")),
}  # fmt: skip


def read(page: str) -> tuple[list[str], set[str]]:
    """The texts of the page as a reader shows them, and every kind of mark in it."""
    tokens = READER.parse(page)
    inner = [token for outer in tokens for token in outer.children or ()]
    texts = [
        "".join(token.content for token in outer.children)
        for outer in tokens
        if outer.type == "inline" and outer.children
    ]
    return texts, {token.type for token in (*tokens, *inner)}


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_are_shown_letter_by_letter(text: str) -> None:
    texts, kinds = read(markdown.page(hostile(text)))
    shown = words.clean(text)
    assert texts[0] == shown
    assert f"\u201c{shown}\u201d: read as \u201c{shown}\u201d (0:03)" in texts
    assert kinds <= PLAIN
    assert "ordered_list_open" not in kinds


@settings(derandomize=True, max_examples=60, deadline=None)
@given(st.text(min_size=1).filter(words.clean))
def test_any_words_are_shown_letter_by_letter(heard: str) -> None:
    texts, kinds = read(markdown.page(hostile(heard)))
    assert texts[0] == words.clean(heard)
    assert kinds <= PLAIN


def test_nesting_is_read_as_nesting() -> None:
    levels = {
        token.content: token.level for token in READER.parse(markdown.page(rich())) if token.content
    }
    outer = levels["4 rounds of: (0:44)"]
    assert levels["250 m row (0:45)"] == outer + 2
    assert levels["600 m run (0:58)"] == outer


def test_slots_are_a_numbered_list() -> None:
    page = markdown.page(rich())
    assert "  1) 40 s plank (2:20)\n  2) 8 push-ups \u00b7 10 hollow rocks (2:23, 2:25)\n" in page
    assert "ordered_list_open" in read(page)[1]


@pytest.mark.parametrize(
    "line",
    [
        "# Low Water",
        "- Thursday 12 November (0:12)",
        "## 3\\. Conditioning: Low Water (0:31)",
        "    - 20 kettlebell swings, women 16 kg / men 24 kg (0:50, 3:25)",
        "The coach says it takes 5:00\u20136:00 (1:48).",
        "- **block 3, Low Water**: 22:00\u201325:00 (1:14)",
        "| **Whole session** | 56:40 \u2013 1:02:00 \u2013 1:09:10 "
        "| 48:20 \u2013 52:00 \u2013 57:00 "
        "| 43:20 \u2013 46:00 \u2013 49:40 | 45:00 (0:20) | 29:00, some stations without |",
        "- **error** `sum-claim-wrong` (row): The rows add up to 1000 m, not 1500 m.",
        "  - expected 4 x 250 m = 1000 m, found 1500 m",
        "  - \u201cand 1500 metres on the erg\u201d (1:28)",
    ],
)
def test_a_line(line: str) -> None:
    assert line in markdown.page(rich()).splitlines()


@pytest.mark.parametrize("path", GOLD, ids=lambda path: path.name.split(".")[0])
def test_the_corpus_is_plain_markdown(path: Path) -> None:
    page = markdown.page(gold(path))
    assert read(page)[1] <= PLAIN
    assert page.endswith("\n")
    assert not page.endswith("\n\n")


def test_a_talk_without_a_session() -> None:
    texts, _ = read(markdown.page(plan()))
    assert texts[0] == "untitled session"
    assert "No session was found in this talk." in texts


def test_what_to_say_instead_only_where_there_is_something() -> None:
    finding = {"rule": "r", "severity": "error", "about": "total", "message": "m"}
    said = {"said": [{"start_s": 90, "quote": "an *hour*"}], "say": "It takes 50 min."}
    text = markdown.page(plan(findings=[finding | said]))
    assert "## To say instead\n\n- **“an \\*hour\\*”**: say “It takes 50 min.” (1:30)\n" in text
    assert "To say instead" not in markdown.page(plan(findings=[finding]))

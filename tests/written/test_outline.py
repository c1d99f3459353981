"""The lines of a written text: kinds, depths, labels, parts, and the words without marks."""

import pytest
from written.reading import taken_down

from cuewright.hear.written import recognise
from cuewright.hear.written import taken_down as outline_of
from cuewright_models.outline import Line


def lines(text: str) -> list[tuple[str, int, str, str]]:
    """Kind, depth, label and words of each line."""
    taken = outline_of(text)
    return [
        (x.kind, x.depth, x.label, " ".join(w.text for w in taken.words[x.first : x.last]))
        for x in taken.lines
    ]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("- 400 m run", ("item", 1, "", "400 m run")),
        ("* run", ("item", 1, "", "run")),
        ("• run", ("item", 1, "", "run")),
        ("\u2013 run", ("item", 1, "", "run")),
        ("✅ run", ("item", 1, "", "run")),
        ("1️⃣ run", ("item", 1, "", "run")),
        ("3. run", ("item", 1, "3", "run")),
        ("3) run", ("item", 1, "3", "run")),
        ("(3) run", ("item", 1, "3", "run")),
        ("A) run", ("item", 1, "A", "run")),
        ("A1. run", ("item", 1, "A1", "run")),
        ("A2 run", ("item", 1, "A2", "run")),
        ("Part B: run", ("item", 1, "part B", "run")),
        ("## Warm-up", ("heading", 0, "##", "Warm-up")),
        ("## Warm-up ##", ("heading", 0, "##", "Warm-up")),
        ("**Warm-up:** 10 squats", ("heading", 0, "", "Warm-up: 10 squats")),
        ("**Low Tide** is a session", ("text", 0, "", "Low Tide is a session")),
        ("**Squats** 5 x 5", ("heading", 0, "", "Squats 5 x 5")),
        ("WARM UP", ("heading", 0, "", "WARM UP")),
        ("Warm up:", ("heading", 0, "", "Warm up:")),
        ("4 rounds of:", ("text", 0, "", "4 rounds of:")),
        ("*Knees:* bridges", ("text", 0, "", "Knees: bridges")),
        ("10 push-ups, `slow`", ("text", 0, "", "10 push-ups, slow")),
        ("see [the page](https://example.org/x)", ("text", 0, "", "see the page")),
        ("400M RUN", ("text", 0, "", "400M RUN")),
    ],
)
def test_a_line_without_its_marks(text: str, expected: tuple[str, int, str, str]) -> None:
    assert lines(text) == [expected]


def test_lists_nest_by_their_indent() -> None:
    text = "- a\n  - b\n    - c\n  - d\n- e\ntext"
    assert [depth for _, depth, _, _ in lines(text)] == [1, 2, 3, 2, 1, 0]


def test_tabs_and_odd_indents_nest_too() -> None:
    assert [depth for _, depth, _, _ in lines("1. a\n\t- b\n   2. c\n")] == [1, 2, 2]


def test_a_table_has_a_head_and_columns() -> None:
    taken = outline_of("| # | Movement | Load |\n|---|:-:|--:|\n| 1 | Row | |\n| | Run | 9 kg |")
    assert [line.kind for line in taken.lines] == ["header", "row", "row"]
    assert [line.columns for line in taken.lines] == [(0, 1, 2), (0, 1), (1, 2)]


def test_gaps_and_rules_part_lines() -> None:
    taken = outline_of("a\n\nb\n---\nc\nd")
    assert [line.gap for line in taken.lines] == [False, True, True, False]


def test_lines_are_numbered_as_in_the_source() -> None:
    assert [line.number for line in outline_of("\n\na b\n\n- c\r\n- d\u2028e").lines] == [
        3,
        5,
        6,
        7,
    ]


def test_signs_that_stand_alone_part_a_line() -> None:
    taken = outline_of("10 squats / 5 push-ups + 200 m run")
    assert taken.lines[0].parts == (3, 6)


def test_round_brackets_are_known() -> None:
    assert outline_of("10 burpees (step back) now").lines[0].brackets == ((2, 4),)


def test_a_web_editor_has_lists_tables_and_breaks() -> None:
    text = (
        "<h2>Work</h2>\n<ul><li>400&nbsp;m run</li><li>two<ol><li>x</li></ol></li></ul>"
        "<table><tr><th>a</th><th>b</th></tr><tr><td>c</td><td></td></tr></table>a<br>b &amp; c"
    )
    assert [(kind, words) for kind, _, _, words in lines(text)] == [
        ("heading", "Work"),
        ("item", "400 m run"),
        ("item", "two"),
        ("item", "x"),
        ("row", "a b"),
        ("row", "c"),
        ("text", "a"),
        ("text", "b & c"),
    ]


def test_scripts_and_styles_of_a_page_are_not_words() -> None:
    assert lines("<p>a</p><script>10 burpees</script><style>p{}</style><p>b</p>")[1][3] == "b"


@pytest.mark.parametrize(
    "spoken",
    [
        "Okay so today we're going to do five rounds of ten burpees.",
        "- Hi everyone.\n- So today we've got 10 burpees.\n- And then you're going to run.",
        "We settle in with 10 slow breaths, then 8 cat-cows, and after that we march.",
        "Do 2 sets of 10 glute bridges, then rest. We end with 1 minute of child's pose.",
        "",
        "Thanks for watching.",
        "# My day\nI went to the river and saw ducks.",
    ],
)
def test_sentences_are_left_to_the_spoken_grammar(spoken: str) -> None:
    assert not recognise(outline_of(spoken))


def test_every_word_has_the_line_it_stands_in() -> None:
    heard = taken_down("# Low Tide\n\n- 400 m run\n- 10 burpees\n")
    numbers = {heard.words[at].text: heard.lines[at] for at in range(len(heard.words))}
    assert numbers["Tide"] == 1
    assert (numbers["run"], numbers["burpees"]) == (3, 4)
    assert heard.outline[0] == Line(0, 2, 1, "heading", 0, "#")
    assert heard.quote(2, 5).line == 3

"""Where clauses begin, shown by a bar."""

import pytest
from readings import reading

from cuewright.divide.clauses import clauses, linked, punctuated


def cut(text: str, pauses: dict[int, float] | None = None) -> str:
    read = reading(text, pauses)
    norms = [token.norm for token in read.tokens]
    return " | ".join(" ".join(norms[start:end]) for start, end in clauses(read))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ten swings okay five push ups", "ten swings | okay five push ups"),
        ("row for a minute and then ten swings", "row for a minute | and then ten swings"),
        ("stand right there by the rack", "stand right there by the rack"),
        ("lie on the right and breathe", "lie on the right and breathe"),
        ("do it so that the boat is level", "do it so that the boat is level"),
        ("if you are new then use a band", "if you are new then use a band"),
        ("okay so now ten swings", "okay so now ten swings"),
    ],
)
def test_discourse_words_cut_talk_without_punctuation(text: str, expected: str) -> None:
    assert cut(text) == expected


def test_a_list_of_numbers_is_not_cut() -> None:
    assert (
        cut("a ladder of 21, to. 15 and 9 burpees. Go.")
        == "a ladder of 21 to 15 and 9 burpees | go"
    )


def test_a_pause_cuts() -> None:
    assert cut("ten swings five push ups", {2: 0.5}) == "ten swings | five push ups"
    assert cut("ten swings five push ups", {2: 0.2}) == "ten swings five push ups"


def test_a_word_that_was_not_heard_leaves_no_end() -> None:
    assert cut("ten leg swings side then row", {3: 0.5}) == "ten leg swings side | then row"
    assert cut("stretch for thirty each leg", {3: 0.5}) == "stretch for thirty each leg"
    assert cut("ten swings each one counts", {2: 0.5}) == "ten swings | each one counts"
    assert cut("ten swings side plank", {2: 0.5}) == "ten swings | side plank"


def test_with_punctuation_only_stops_cut() -> None:
    text = "Ten swings, okay, five push ups. Right, row."
    assert cut(text, {2: 2.0}) == "ten swings okay five push ups | right row"


def test_heads_cut_unless_a_clause_begins_beside_them() -> None:
    read = reading("ten swings and for the finisher row okay the cool down")
    assert clauses(read, [3]) == [(0, 2), (2, 7), (7, 11)]
    assert clauses(read, [8]) == [(0, 7), (7, 11)]


def test_a_clause_linked_by_and() -> None:
    read = reading("and five push ups and then row")
    assert linked(read, [(0, 4), (4, 7)]) == [True, False]


def test_a_talk_with_few_stops_is_not_punctuated() -> None:
    assert punctuated(reading("Ten swings. Then row.").tokens)
    assert not punctuated(reading("ten swings then row " * 20 + "the end.").tokens)

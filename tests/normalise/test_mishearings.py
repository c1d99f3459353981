"""What was heard, what was meant, and where it is believed."""

import pytest
from normalise.saying import heard

from cuewright.normalise.mishearings import is_number, repair
from cuewright.normalise.spellings import respell


def meant(text: str) -> str:
    tokens, _ = repair(heard(text))
    return " ".join(token.norm for token in tokens)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ten squads", "ten squats"),
        ("the other squads", "the other squads"),
        ("swing the cattle bell", "swing the kettlebell"),
        ("reverse lunches", "reverse lunges"),
        ("we have lunches", "we have lunches"),
        ("hallow hold", "hollow hold"),
        ("a hallow sound", "a hallow sound"),
        ("for sets of eight", "four sets of eight"),
        ("tracing for sets of rules", "tracing for sets of rules"),
        ("ten hello", "ten halo"),
        ("then hip flexor forty five seconds", "then hip flexor stretch forty five seconds"),
        ("hamstring for a minute each side", "hamstring stretch for a minute each side"),
        ("I pulled my hamstring two weeks ago", "i pulled my hamstring two weeks ago"),
        ("a calf stretch for 30 seconds", "a calf stretch for 30 seconds"),
        ("the third is mount in climbers", "the third is mountain climbers"),
        ("in the foreth minute you row", "in the fourth minute you row"),
        ("the forth round is the worst", "the fourth round is the worst"),
        ("go forth and row", "go forth and row"),
        ("and minute free 12 press ups", "and minute three 12 press ups"),
        ("you have a minute free at the end", "you have a minute free at the end"),
    ],
)
def test_a_mishearing_is_believed_where_its_context_fits(text: str, expected: str) -> None:
    assert meant(text) == expected


def test_once_believed_it_is_believed_in_the_whole_talk() -> None:
    assert meant("the squads then ten squads") == "the squats then ten squats"


def test_a_lone_everyday_word_is_believed_only_where_it_fits() -> None:
    assert meant("ten hello and hello everybody") == "ten halo and hello everybody"


def test_the_end_of_a_sentence_is_no_context() -> None:
    assert meant("I want ten. Squads wait here") == "i want ten squads wait here"


def test_repairs_are_kept_with_their_places() -> None:
    tokens, (swap,) = repair(heard("one cattle bell"))
    assert (swap.heard, swap.meant) == ("cattle bell", "kettlebell")
    assert (swap.start, swap.end) == (1, 2)
    assert (tokens[1].first, tokens[1].last) == (1, 3)


def test_a_name_is_read_by_its_sound_after_a_number() -> None:
    tokens, (swap,) = repair(heard("ten bosh ups"))
    assert [token.norm for token in tokens] == ["ten", "push", "ups"]
    assert swap.heard == "bosh ups"
    assert repair(heard("the bosh ups"))[1] == []


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ten pushups.", "ten push ups"),
        ("a dead lift", "a deadlift"),
        ("press ups", "push ups"),
        ("dead tired", "dead tired"),
    ],
)
def test_one_spelling(text: str, expected: str) -> None:
    tokens = respell(heard(text))
    assert " ".join(token.norm for token in tokens) == expected
    assert tokens[-1].after == ("." if text.endswith(".") else "")


def test_what_is_a_number() -> None:
    assert all(map(is_number, ("seventeen", "hundred", "12")))
    assert not any(map(is_number, ("first", "many", "2nd")))

"""Mishearings as captions show them."""

import pytest

from cuewright.normalise.mended import mended
from cuewright_models.transcript import Transcript, Word


def repairs(text: str) -> list[tuple[int, int, str, str]]:
    words = tuple(Word(word, nth, nth + 0.5) for nth, word in enumerate(text.split()))
    talk = Transcript(name="talk", kind="recording", sha256="", words=words)
    return [(each.first, each.last, each.heard, each.meant) for each in mended(talk)]


@pytest.mark.parametrize(
    ("text", "first", "last", "meant"),
    [
        ("then 20 cattle bells, and rest", 2, 4, "kettlebells,"),
        ("Cattle bells are by the door.", 0, 2, "Kettlebells"),
        ("take the (cattle bell)!", 2, 4, "(kettlebell)!"),
        ("then 10 walking lunches.", 2, 4, "walking lunges."),
        ("a cattle-bell for all", 1, 2, "kettlebell"),
    ],
)
def test_what_was_meant_is_written_as_what_was_heard(
    text: str, first: int, last: int, meant: str
) -> None:
    heard = " ".join(text.split()[first:last])
    assert repairs(text) == [(first, last, heard, meant)]


@pytest.mark.parametrize("text", ["20 kettlebells and rest", "a cattle bell-to-bell race", ""])
def test_nothing_is_mended_where_nothing_is_wrong_or_only_a_part_of_a_word(text: str) -> None:
    assert repairs(text) == []

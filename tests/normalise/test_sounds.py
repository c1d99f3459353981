"""Names by their sound."""

import pytest

from cuewright.normalise.sounds import catalogue_name, meant, skeleton


@pytest.mark.parametrize(
    ("words", "sound"),
    [("cattlebell", "ktlpl"), ("kettlebell", "ktlpl"), ("phase", "fs"), ("box", "ps"), ("aye", "")],
)
def test_skeletons_are_consonants_voiced_and_unvoiced_alike(words: str, sound: str) -> None:
    assert skeleton(words) == sound


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("box chumps", (2, "box jumps")),
        ("bosh ups", (2, "push ups")),
        ("push ups", None),
        ("good morning everyone", None),
        ("ten minutes", None),
        ("ups", None),
    ],
)
def test_what_words_sound_like(said: str, expected: tuple[int, str] | None) -> None:
    assert meant(said.split()) == expected


def test_a_name_belongs_to_its_movement() -> None:
    assert catalogue_name("push ups") == "push-up"
    assert catalogue_name("no such name") == "no such name"

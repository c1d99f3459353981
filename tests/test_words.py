"""The word lists of the tables: lower case, single words where words are read, none twice."""

from collections.abc import Iterator
from importlib.resources import files
from typing import Any

import pytest

from cuewright.divide.evidence import table
from cuewright.movements.catalogue import catalogue
from cuewright.tables import raw

WORDS = [
    ("cuewright.parse", "words.toml"),
    ("cuewright.parse", "kit.toml"),
    ("cuewright.divide", "clauses.toml"),
    ("cuewright.divide", "features.toml"),
    ("cuewright.normalise", "words.toml"),
]
PHRASES = [
    ("cuewright.parse", "blocks.toml"),
    ("cuewright.divide", "evidence.toml"),
    ("cuewright.normalise", "everyday.toml"),
    ("cuewright.normalise", "mishearings.toml"),
]


def lists(table: dict[str, Any], place: str = "") -> Iterator[tuple[str, list[str]]]:
    """Every list of strings below a table, by its place."""
    for key, value in table.items():
        if isinstance(value, dict):
            yield from lists(value, f"{place}{key}.")
        elif isinstance(value, list):
            yield place + key, value


@pytest.mark.parametrize(("package", "name"), WORDS + PHRASES)
def test_lists_are_lower_case_and_hold_nothing_twice(package: str, name: str) -> None:
    found = dict(lists(raw(package, name)))
    assert found
    for place, said in found.items():
        assert [word for word in said if word != word.lower() or word != word.strip()] == [], place
        assert sorted(said) == sorted(set(said)), place


@pytest.mark.parametrize(("package", "name"), WORDS)
def test_words_are_single_words(package: str, name: str) -> None:
    for place, said in lists(raw(package, name)):
        if place not in ("corrections.phrases", "stretch"):
            assert [word for word in said if " " in word] == [], place


def test_a_word_has_one_letter() -> None:
    said = [
        word for words in raw("cuewright.parse", "words.toml")["letters"].values() for word in words
    ]
    assert sorted(said) == sorted(set(said))


def test_letters_are_single_and_not_those_of_amounts() -> None:
    letters = raw("cuewright.parse", "words.toml")["letters"]
    assert all(len(letter) == 1 for letter in letters)
    assert set(letters).isdisjoint("ntdck%lpbo2#M.")


def test_openers_that_are_held_back_are_openers() -> None:
    clauses = raw("cuewright.divide", "clauses.toml")
    assert {*clauses["not_before"], *clauses["not_after"]} <= set(clauses["openers"])


def test_movements_that_the_words_name_are_in_the_catalogue() -> None:
    assert set(raw("cuewright.parse", "words.toml")["ground"]["easy"]) <= set(catalogue())
    for end in raw("cuewright.divide", "features.toml")["stretches"]:
        assert any(name.endswith(end) for name in catalogue()), end


def test_every_label_that_features_give_has_weights() -> None:
    source = files("cuewright.divide").joinpath("features.py").read_text("utf-8")
    given = {line.split('"')[1] for line in source.splitlines() if 'yield "' in line}
    assert given
    assert given <= set(table())

"""The word lists of words.toml."""

from functools import cache
from typing import Any

from cuewright.tables import raw


def words(group: str, key: str) -> frozenset[str]:
    """A list of words by the table that it stands in and its key."""
    return frozenset(_table()[group][key])


@cache
def letters() -> dict[str, str]:
    """The letter that stands for each word of the grammar."""
    return {word: letter for letter, said in _table()["letters"].items() for word in said}


@cache
def _table() -> dict[str, Any]:
    return raw("cuewright.parse", "words.toml")

"""The word lists of context.toml."""

from typing import Any

from cuewright.tables import raw

_TABLE: dict[str, Any] = raw("cuewright.normalise", "context.toml")

Phrase = tuple[str, ...]


def words(key: str, group: str | None = None) -> frozenset[str]:
    """A list of single words, by its key and the table it stands in."""
    return frozenset(_text(key, group).split())


def phrases(key: str, group: str | None = None) -> list[Phrase]:
    """A list of phrases parted by semicolons."""
    return [tuple(phrase.split()) for phrase in _text(key, group).split(";")]


def _text(key: str, group: str | None) -> str:
    table = _TABLE[group] if group else _TABLE
    return str(table[key])

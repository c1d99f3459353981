"""The tables of ``words.toml``."""

from functools import cache
from typing import cast

from cuewright.phrases import Phrases
from cuewright.tables import raw
from cuewright_models.plan import BlockKind


@cache
def listed(name: str) -> frozenset[str]:
    """One list of words."""
    return frozenset(raw("cuewright.parse.written", "words.toml")[name])


@cache
def parts() -> Phrases:
    """What names a part of a session, and what stands before or after its rounds."""
    table = raw("cuewright.parse.written", "words.toml")
    return Phrases(
        {
            **table["kinds"],
            "opening": table["opening"],
            "closing": table["closing"],
            "next": table["next"],
        }
    )


def kind_of(name: str) -> BlockKind | None:
    """The block's kind that a label of ``parts`` stands for, if any."""
    return None if name in ("opening", "closing", "next") else cast(BlockKind, name)


@cache
def _part_names() -> frozenset[str]:
    kinds = raw("cuewright.parse.written", "words.toml")["kinds"]
    return frozenset(name for names in kinds.values() for name in names)


def is_part(name: str) -> bool:
    """Whether a name is only what any session calls a part of it: "Session", "Warm-up"."""
    return name.lower().replace("-", " ") in _part_names()


@cache
def goal_of(words: str) -> str | None:
    """``total``, ``round`` or ``block``, if words before a colon mean one of these."""
    table = raw("cuewright.parse.written", "words.toml")["goals-about"]
    return next((about for about, said in table.items() if words in said), None)


@cache
def column_of(word: str) -> str:
    """What the head of a column says of its cells, empty for the movement or its amount."""
    columns = raw("cuewright.parse.written", "words.toml")["columns"]
    return next((what for what, words in columns.items() if word in words), "")

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
def column_of(word: str) -> str:
    """What the head of a column says of its cells, empty for the movement or its amount."""
    columns = raw("cuewright.parse.written", "words.toml")["columns"]
    return next((what for what, words in columns.items() if word in words), "")

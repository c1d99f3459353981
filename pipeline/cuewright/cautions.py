"""The usual cautions, from ``cautions.toml``, where each names its source."""

from functools import cache

from cuewright.tables import raw, validated
from cuewright_models.base import Value


class Caution(Value):
    """One caution and the text it stands on."""

    name: str
    text: str
    source: str
    brief: str = ""
    """The same in a sentence, where room is short; empty for what the others then stand for."""


def usual() -> tuple[str, ...]:
    """The texts in the order of the table, at least one."""
    return tuple(row.text for row in _rows())


def brief() -> tuple[str, ...]:
    """The short texts, for a post, at least one."""
    return tuple(row.brief for row in _rows() if row.brief)


@cache
def _rows() -> tuple[Caution, ...]:
    table = raw("cuewright", "cautions.toml")
    return tuple(validated(table, Caution, where="cautions.toml").values())

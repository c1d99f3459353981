"""The usual cautions, from ``cautions.toml``, where each names its source."""

from functools import cache

from cuewright.tables import raw, validated
from cuewright_models.base import Value


class Caution(Value):
    """One caution and the text it stands on."""

    name: str
    text: str
    source: str


@cache
def usual() -> tuple[str, ...]:
    """The texts in the order of the table, at least one."""
    table = raw("cuewright", "cautions.toml")
    return tuple(row.text for row in validated(table, Caution, where="cautions.toml").values())

"""The kit that a talk is about, and what it makes of a short movement name."""

from collections import Counter
from collections.abc import Sequence
from functools import cache

from pydantic import Field

from cuewright.movements.catalogue import catalogue
from cuewright.tables import raw, validated
from cuewright_models.base import Value

_FEWEST = 3
"""Times that a kit has to be named before it lends its name to movements."""


class Kit(Value):
    """One row of ``kit.toml``; the file's head says what the fields mean."""

    name: str
    said: tuple[str, ...]
    unless: tuple[str, ...]
    of: tuple[str, ...]
    named: dict[str, str] = Field(default_factory=dict)


def specific(movement: str, tally: Counter[str]) -> str:
    """The variant of a general movement that fits the kit of the talk: cleans with kettlebells."""
    for kit, row in _table().items():
        rivals = any(tally[other] for other in row.unless)
        if movement not in (*row.of, *row.named) or tally[kit] < _FEWEST or rivals:
            continue
        name = row.named.get(movement, f"{kit}-{movement}")
        return name if name in catalogue() else movement
    return movement


def kit_named(stems: Sequence[str]) -> Counter[str]:
    """How often each kit that lends its name, or keeps others from it, is spoken of."""
    kits = _kits()
    return Counter(kits[stem] for stem in stems if stem in kits)


@cache
def _kits() -> dict[str, str]:
    """Each word for a kit with the kit that it means."""
    said = {word: kit for kit, row in _table().items() for word in row.said}
    return said | {word: word for row in _table().values() for word in row.unless}


@cache
def _table() -> dict[str, Kit]:
    return validated(raw("cuewright.parse", "kit.toml"), Kit, where="kit.toml")

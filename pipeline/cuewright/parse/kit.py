"""The kit that a talk is about, and what it makes of a short movement name."""

from collections import Counter
from collections.abc import Sequence
from functools import cache

from cuewright.movements.catalogue import catalogue
from cuewright.tables import raw

_FEWEST = 3
"""Times that a kit has to be named before it lends its name to movements."""


def specific(movement: str, tally: Counter[str]) -> str:
    """The variant of a general movement that fits the kit of the talk: cleans with kettlebells."""
    for kit, row in _table().items():
        rivals = any(tally[other] for other in row["unless"])
        if movement in row["of"] and tally[kit] >= _FEWEST and not rivals:
            name = f"{kit}-{movement}"
            return name if name in catalogue() else movement
    return movement


def kit_named(stems: Sequence[str]) -> Counter[str]:
    """How often each kit that lends its name, or keeps others from it, is spoken of."""
    kits = _kits()
    return Counter(kits[stem] for stem in stems if stem in kits)


@cache
def _kits() -> dict[str, str]:
    """Each word for a kit with the kit that it means."""
    said = {word: kit for kit, row in _table().items() for word in row["said"]}
    return said | {word: word for row in _table().values() for word in row["unless"]}


@cache
def _table() -> dict[str, dict[str, list[str]]]:
    return raw("cuewright.parse", "kit.toml")

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
    for prefix, row in _table().items():
        if (
            movement in row["of"]
            and tally[prefix] >= _FEWEST
            and not any(tally[o] for o in row["unless"])
        ):
            name = f"{prefix}-{movement}"
            return name if name in catalogue() else movement
    return movement


def kit_named(stems: Sequence[str]) -> Counter[str]:
    """How often each kit that lends its name is spoken of."""
    words = {word: prefix for prefix, row in _table().items() for word in row["said"]}
    words |= {word: word for row in _table().values() for word in row["unless"]}
    return Counter(words[stem] for stem in stems if stem in words)


@cache
def _table() -> dict[str, dict[str, list[str]]]:
    return raw("cuewright.parse", "kit.toml")

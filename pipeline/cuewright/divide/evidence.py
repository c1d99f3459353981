"""What speaks for each section and role: the phrases and features of every clause."""

from collections import Counter
from collections.abc import Sequence
from functools import cache

from cuewright.movements.catalogue import catalogue
from cuewright.phrases import Phrases
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.divided import Role, Section
from cuewright_models.tokens import Reading

SECTIONS: tuple[Section, ...] = (
    "open", "warm-up", "work", "cool-down", "targets", "cues", "scaling", "pacing", "recap", "close",
)  # fmt: skip
_STRUCTURE_WORDS = frozenset(
    "round rounds set sets emom amrap circuit circuits ladder superset rep reps clock stations".split()
)
Cut = tuple[int, int]
_MOST = 3
"""Further hits of one label in one clause add nothing."""


class Evidence(Value):
    """One row of ``evidence.toml``; the file's head says what the fields mean."""

    name: str
    said: tuple[str, ...] = ()
    section: dict[Section, float] = {}
    role: dict[Role, float] = {}


@cache
def table() -> dict[str, Evidence]:
    """The weights, validated."""
    return validated(raw("cuewright.divide", "evidence.toml"), Evidence, where="evidence.toml")


@cache
def _phrases() -> Phrases:
    return Phrases({row.name: row.said for row in table().values() if row.said})


def heads(reading: Reading) -> list[int]:
    """The places where a phrase announces a part of the talk."""
    return [m.start for m in _phrases().everywhere(reading.stems) if m.name.startswith("header-")]


def labels(reading: Reading, clauses: Sequence[Cut]) -> list[Counter[str]]:
    """For each clause, how often each label of the table speaks in it (at most thrice)."""
    found = [Counter[str]() for _ in clauses]
    owner = [i for i, c in enumerate(clauses) for _ in range(*c)]
    seen: set[tuple[str, int]] = set()
    for mention in _phrases().everywhere(reading.stems):
        if (mention.name, mention.start) not in seen:
            seen.add((mention.name, mention.start))
            found[owner[mention.start]][mention.name] += 1
    _hold(reading, clauses, owner, found)
    for counts in found:
        for label in counts:
            counts[label] = min(counts[label], _MOST)
        if not counts:
            counts["plain"] = 1
    return found


def _hold(
    reading: Reading, clauses: Sequence[Cut], owner: list[int], found: list[Counter[str]]
) -> None:
    """Count the features that are not phrases: amounts beside movements, structure words."""
    rows = catalogue()
    ends = {a.end: a for a in reading.amounts if a.shape != "ordinal"}
    starts = {a.start: a for a in reading.amounts if a.shape != "ordinal"}
    for mention in reading.movements:
        counts, clause = found[owner[mention.start]], clauses[owner[mention.start]]
        before = next((ends[at] for at in range(mention.start, mention.start - 4, -1) if at in ends), None)
        after = next((starts[at] for at in range(mention.end, mention.end + 4) if at in starts), None)
        if before or after:
            counts["prescribes"] += 1
            if "mobility" in rows[mention.name].patterns:
                counts["stretches"] += 1
        elif mention.start - clause[0] <= 2:
            counts["topic"] += 1
        else:
            counts["names"] += 1
    for amount in reading.amounts:
        counts = found[owner[amount.start]]
        if amount.unit == "s" and counts["wanted"]:
            counts["timed"] += 1
        if amount.unit == "s" and (amount.low is None or _within(reading, amount.start)):
            counts["within"] += 1
        if amount.end < len(reading.tokens) and reading.tokens[amount.end].norm in _STRUCTURE_WORDS:
            counts["structures"] += 1
        if amount.shape in ("list", "by") and amount.unit is None:
            counts["structures"] += 1
    for at, token in enumerate(reading.tokens):
        if token.norm in ("emom", "amrap", "every") and token.norm != "every":
            found[owner[at]]["structures"] += 1


_ROUGHLY = frozenset("about around roughly just maybe".split())


def _within(reading: Reading, at: int) -> bool:
    """Whether "in" or "inside" stands before a time, hedged or not."""
    while at and reading.tokens[at - 1].norm in _ROUGHLY:
        at -= 1
    return at > 0 and reading.tokens[at - 1].norm in ("in", "inside", "within")

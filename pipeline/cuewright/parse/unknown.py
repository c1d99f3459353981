"""Work that stands in no table: a number and a name, kept as heard, with its nearest names."""

from collections.abc import Iterator
from functools import cache

from rapidfuzz import process
from rapidfuzz.distance import JaroWinkler

from cuewright.movements.catalogue import catalogue, derived
from cuewright.parse.build import Quote
from cuewright.tables import raw
from cuewright_models.divided import Clause, Divided
from cuewright_models.plan import Unknown
from cuewright_models.tokens import Amount, starting_in

_LONGEST = 3
"""Words in a name, at most."""
_NEAREST = 3
"""Known names to offer, at most."""
_ALIKE = 0.75
"""Likeness from which a known name is offered: 0 nothing in common, 1 the same."""


def unknown(divided: Divided, quote: Quote) -> tuple[Unknown, ...]:
    """What looks like prescribed work but is in no table, in the order said."""
    known = frozenset(at for m in divided.reading.movements for at in range(m.start, m.end))
    return tuple(
        Unknown(
            heard=" ".join(t.norm for t in divided.reading.tokens[amount.end : end]),
            nearest=nearest(" ".join(divided.reading.stems[amount.end : end])),
            said=(quote(amount.start, end),),
        )
        for clause in divided.clauses
        if clause.role == "prescription" and clause.section in ("warm-up", "work", "cool-down")
        for amount, end in _named(clause, divided, known)
    )


def nearest(name: str) -> tuple[str, ...]:
    """Known movements with a name like this one, the likest first."""
    found = process.extract(
        name, _forms(), scorer=JaroWinkler.similarity, score_cutoff=_ALIKE, limit=4 * _NEAREST
    )
    return tuple(dict.fromkeys(owner for _, _, owner in found))[:_NEAREST]


def _named(clause: Clause, divided: Divided, known: frozenset[int]) -> Iterator[tuple[Amount, int]]:
    """Counts that a plural name follows which is no known movement, and where the name ends."""
    for amount in starting_in(divided.reading.amounts, clause.start, clause.end):
        if amount.unit is not None or amount.shape not in ("one", "range"):
            continue
        end = _end(amount, clause, divided, known)
        if end is not None:
            yield amount, end


def _end(amount: Amount, clause: Clause, divided: Divided, known: frozenset[int]) -> int | None:
    """The end of the name after a count, where its last word is a plural."""
    reading, small = divided.reading, _small()
    for end in range(amount.end + 1, min(amount.end + _LONGEST, clause.end) + 1):
        token = reading.tokens[end - 1]
        if token.norm in small or end - 1 in known or not token.norm.isalpha():
            return None
        if reading.stems[end - 1] != token.norm and end not in known:
            return end
        if token.after:
            return None
    return None


@cache
def _small() -> frozenset[str]:
    return frozenset(raw("cuewright.parse", "unknown.toml")["words"])


@derived
def _forms() -> dict[str, str]:
    """Each movement by one of its names, to be compared with."""
    return {row.name: row.name.replace("-", " ") for row in catalogue().values()}

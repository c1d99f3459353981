"""Words of the trade for a recogniser to expect: a coach's own movements, then ours.

The recogniser reads such hints before every window. It takes 223 pieces of words and
silently drops the rest, so the most wanted come first and the list stays well below.
"""

from collections.abc import Iterable, Iterator

from cuewright.movements.catalogue import catalogue, derived
from cuewright_models.movement import Movement

MOST_TERMS = 40
_MOST_SIGNS = 560
"""Letters and signs in all: the rarest of words take a piece for every two and a half of them."""
_STYLE = ("3 rounds", "12 reps", "400 metres", "90 seconds")
"""Amounts as they are to be written, so that digits stay digits."""


@derived
def hints() -> str:
    """At most ``MOST_TERMS`` terms of the catalogue in use, separated by commas."""
    chosen: list[str] = list(_STYLE)
    for term in dict.fromkeys(_terms()):
        if len(chosen) == MOST_TERMS or len(", ".join([*chosen, term])) > _MOST_SIGNS:
            break
        chosen.append(term)
    return ", ".join(chosen)


def _terms() -> Iterator[str]:
    """Names, the coach's own first, then those that captions are known to get wrong."""
    known = catalogue()
    own = [known[name] for name in known.marks]
    yield from _named(own, said=True)
    yield from _named((row for row in known.values() if row.misheard), said=False)


def _named(rows: Iterable[Movement], *, said: bool) -> Iterator[str]:
    for row in rows:
        yield row.name.replace("-", " ")
        if said:
            yield from row.said

"""Where in the talk each block of the plan was said."""

from collections.abc import Sequence

from cuewright.parse.build import Quote
from cuewright.parse.drafts import Draft
from cuewright.parse.subjects import Places
from cuewright_models.base import Said
from cuewright_models.plan import Block

_Key = tuple[float | None, str]


def places(drafts: Sequence[Draft], blocks: Sequence[Block], quote: Quote) -> Places:
    """The token ranges of each block by its id: those of the draft that it was built from."""
    found: dict[str, list[tuple[int, int]]] = {}
    left: dict[_Key, list[tuple[str, Draft]]] = {}
    for draft in drafts:
        if draft.places:
            first = quote(*draft.places[0])
            left.setdefault(_key(first), []).append((first.quote, draft))
    for block in blocks:
        mine = next((same for said in block.said if (same := _take(left, said)) is not None), None)
        if mine is not None:
            found[block.id] = mine.places
    return found


def _key(said: Said) -> _Key:
    """When a quote starts and its first word: equal for quotes that start at one place."""
    return said.start_s, said.quote.split(" ", 1)[0]


def _take(left: dict[_Key, list[tuple[str, Draft]]], said: Said) -> Draft | None:
    """The first draft left that a quote starts with, taken out."""
    same = left.get(_key(said), [])
    for nth, (quote, draft) in enumerate(same):
        if said.quote.startswith(quote):
            del same[nth]
            return draft
    return None

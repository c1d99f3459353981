"""Where in the talk each block of the plan was said."""

from collections.abc import Sequence

from cuewright.parse.build import Quote
from cuewright.parse.drafts import Draft
from cuewright.parse.subjects import Places
from cuewright_models.plan import Block


def places(drafts: Sequence[Draft], blocks: Sequence[Block], quote: Quote) -> Places:
    """The token ranges of each block by its id: those of the draft that it was built from."""
    found: dict[str, list[tuple[int, int]]] = {}
    left = [draft for draft in drafts if draft.places]
    for block in blocks:
        mine = next((draft for draft in left if _said_in(draft, block, quote)), None)
        if mine is not None:
            left.remove(mine)
            found[block.id] = mine.places
    return found


def _said_in(draft: Draft, block: Block, quote: Quote) -> bool:
    first = quote(*draft.places[0])
    return any(
        said.start_s == first.start_s and said.quote.startswith(first.quote) for said in block.said
    )

"""Claims: what else is said that can be checked against the plan."""

from collections.abc import Iterator, Sequence

from cuewright.parse.again import Again
from cuewright.parse.build import Quote
from cuewright.parse.equipment import kit_claims
from cuewright.parse.lengths import Length, session_claims
from cuewright.parse.marks import Marks
from cuewright.parse.recaps import Recaps
from cuewright.parse.subjects import Places, Subjects
from cuewright.parse.sums import Sums
from cuewright_models.divided import Divided
from cuewright_models.plan import Block, Claim

_REACH = 20
"""Tokens before "in the description" in which it may be said what is there."""


def claims(
    divided: Divided,
    blocks: Sequence[Block],
    subjects: Subjects,
    places: Places,
    marks: Marks,
    found: Sequence[Length],
    quote: Quote,
) -> tuple[Claim, ...]:
    """Every claim of a talk, by kind; ``found`` are the lengths that were said."""
    sums = Sums(divided, blocks, subjects, marks, quote)
    recaps = Recaps(divided, blocks, subjects, places, marks, sums, quote)
    return (
        *session_claims(found, quote),
        *sums.claims(),
        *recaps.rounds(),
        *recaps.amounts(),
        *recaps.lengths(),
        *Again(divided, blocks, places, marks, quote).claims(),
        *kit_claims(divided, marks, quote),
        *_promises(subjects, marks, quote),
    )


def _promises(subjects: Subjects, marks: Marks, quote: Quote) -> Iterator[Claim]:
    """What the coach says is written down, or is done, elsewhere."""
    for mention in marks.all("promise"):
        start = max(marks.clause(mention.start)[0], mention.start - _REACH)
        named = [s for s in subjects.within(start, mention.start) if s.kind == "movement"]
        about = named[-1].about if named else "description"
        said = (quote(start, mention.end),)
        yield Claim(kind="in-description", about=about, said=said)
    for mention in marks.all("elsewhere"):
        said = (quote(mention.start, mention.end),)
        yield Claim(kind="in-description", about="warm-up", said=said)

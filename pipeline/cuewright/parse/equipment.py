"""What the coach says of kit: what is needed, whether that is all, or that nothing is."""

from collections.abc import Iterator
from functools import cache

from cuewright.parse.build import Quote
from cuewright.parse.marks import Marks
from cuewright.phrases import Phrases
from cuewright.tables import raw
from cuewright_models.divided import Divided
from cuewright_models.plan import Claim
from cuewright_models.tokens import Mention

_LIST = 30
"""Tokens that a list of kit runs to, at most."""
_NEAR = 25
"""Tokens between a list and the words that call it complete, at most."""


def kit_claims(divided: Divided, marks: Marks, quote: Quote) -> Iterator[Claim]:
    """The ``equipment`` claims of a talk, in the order said."""
    nouns = _kit().longest(divided.reading.stems)
    none = [m for m in marks.all("kit-none") if not _excepted(divided, m)]
    for mention in none:
        yield Claim(kind="equipment", about="none", said=(quote(mention.start, mention.end),))
    seen: set[int] = set()
    for start, end, only in _lists(divided, marks, none):
        for noun in nouns:
            if start <= noun.start < end and noun.start not in seen:
                seen.add(noun.start)
                said = (quote(min(start, noun.start), max(end, noun.end)),)
                yield Claim(kind="equipment", about=noun.name, only=only, said=said)


def _excepted(divided: Divided, mention: Mention) -> bool:
    """ "No kit apart from a rope", "no kit on the boats" are lists or talk of other things."""
    after = [t.norm for t in divided.reading.tokens[mention.end : mention.end + 1]]
    return bool({"apart", "but", "except", "other", "order", "list", "bag"} & set(after))


def _lists(
    divided: Divided, marks: Marks, none: list[Mention]
) -> Iterator[tuple[int, int, bool]]:
    """The places where kit is listed, and whether the list is called complete."""
    for head in marks.all("kit-list"):
        following = [t.norm for t in divided.reading.tokens[head.end : head.end + 1]]
        if following in (["to"], ["if"]) or any(m.start <= head.start < m.end for m in none):
            continue
        limit = head.end + _LIST
        done = [
            *marks.inside("kit-complete", head.start, limit + _NEAR),
            *marks.inside("kit-whole", head.start, limit + _NEAR),
        ]
        end = min((m.end for m in done if m.start >= head.end), default=_run(divided, marks, head.end))
        whole = bool(done) and (end <= limit + _NEAR)
        yield head.start, min(max(end, head.end), limit + _NEAR), whole
    for mention in marks.all("kit-whole"):
        yield max(mention.start - _NEAR, 0), _run(divided, marks, mention.end), True
    for mention in none:
        start, end = marks.clause(mention.start)
        yield max(start, mention.start), min(end, mention.end + _LIST // 2), False


def _run(divided: Divided, marks: Marks, start: int) -> int:
    """Where an unfinished list ends: with its clause, or the next when it only heads one."""
    if start >= len(divided.reading.tokens):
        return start
    begin, end = marks.clause(start - 1)
    if start >= end - 1 and end < len(divided.reading.tokens):
        end = marks.clause(end)[1]
    return min(end, start + _LIST)


@cache
def _kit() -> Phrases:
    table = raw("cuewright.parse", "claims.toml")
    return Phrases(table["kit"])

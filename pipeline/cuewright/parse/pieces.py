"""The talk cut where offers start and end."""

import re
from collections.abc import Iterator

from cuewright.parse.offering import has, place_of, table
from cuewright.parse.topics import Talk

_LONGEST = 60
_PATIENCE = 25
"""Tokens within which a condition gets its offer."""
_RUNS_ON = frozenset(("then", "before", "after", "so", "because"))
_ASKS = frozenset(("what", "how", "who", "why", "which", "any", "do"))


def pieces(talk: Talk) -> Iterator[tuple[int, int]]:
    """The talk in pieces of one offer at most."""
    start = 0
    for at in range(1, len(talk.tokens)):
        if _ends(talk, start, at):
            yield start, at
            start = at
    yield start, len(talk.tokens)


def _ends(talk: Talk, start: int, at: int) -> bool:
    """Whether a piece that began at ``start`` ends before the token ``at``."""
    before = talk.tokens[at - 1]
    if talk.stops:
        if before.after == "?":
            asks = talk.tokens[start].norm in _ASKS
            line = talk.piece(start, at).line
            return asks or not (has("trouble", line) or has("elsewhere", line))
        return before.after in (".", "!", ";") or _starts(talk, start, at)
    fresh = talk.clause(at).start == at and talk.tokens[at].norm not in _RUNS_ON
    return (
        at - start > _LONGEST or (fresh and not _waits(talk, start, at)) or _starts(talk, start, at)
    )


def _starts(talk: Talk, start: int, at: int) -> bool:
    """Whether an offer starts at ``at`` inside a sentence."""
    rows = table()
    before = talk.tokens[at - 1]
    words = " ".join(t.norm for t in talk.tokens[at : at + 5])
    if before.norm in rows["not_after"]:
        return False
    if talk.tokens[at].norm == "if":
        if any(re.match(rf"if {pattern}", words) for pattern in rows["not_open"]):
            return False
        joined = before.norm in ("and", "or", "but", "so")
        return not talk.stops or joined or has("topic_only", talk.piece(start, at).line)
    if talk.stops:
        return False
    opens = any(re.match(rf"{p}\b", words) for p in rows["opens"])
    return (opens or _topic(talk, at)) and _done(talk, start, at)


def _topic(talk: Talk, at: int) -> bool:
    """Whether a movement becomes the topic at ``at``: "push ups you can", "on the plank you"."""
    rows, tokens = table(), talk.tokens
    if tokens[at].norm in ("for", "on", "with") and tokens[at - 1].norm not in rows["clings"]:
        article = at + 1 < len(tokens) and tokens[at + 1].norm in ("the", "your")
        return article and bool(talk.within(at + 2, at + 3))
    named = talk.within(at, at + 1)
    if not named or tokens[at - 1].norm in rows["holds"] or named[0].end >= len(tokens):
        return False
    last = named[0].end - 1
    plural = tokens[last].norm != talk.stems[last]
    free = all(token.norm not in rows["holds"] for token in tokens[max(at - 3, 0) : at])
    return tokens[last + 1].norm in rows["topic_then"] or (plural and free)


def _waits(talk: Talk, start: int, at: int) -> bool:
    """Whether the stretch up to ``at`` says what is wrong and not yet what to do."""
    line = talk.piece(start, at).line
    trouble = place_of("trouble", line)
    return trouble is not None and at - start < _PATIENCE and not has("acts", line[trouble:])


def _done(talk: Talk, start: int, at: int) -> bool:
    """Whether the stretch up to ``at`` has its offer already."""
    line = talk.piece(start, at).line
    trouble = place_of("trouble", line)
    if trouble is None:
        return not line.startswith("if ")
    return has("acts", line[trouble:])

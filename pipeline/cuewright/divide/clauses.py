"""Where one clause ends and the next begins: stops, pauses, lines and discourse words."""

from collections.abc import Iterable, Iterator, Sequence, Set
from functools import cache
from itertools import pairwise

from cuewright.tables import raw
from cuewright_models.base import Value
from cuewright_models.tokens import Reading, Token

PAUSE_S = 0.35
"""A silence this long ends a clause in talk without punctuation."""
_LONG_S = 1.2
"""From here a silence is longer than a word."""
_PUNCTUATED = 1 / 40
"""Stops per word from which a talk counts as punctuated."""
_STOPS = frozenset(".?!;")
_GOES_ON = ("then", "finally", "now")
"""After "and" these begin something new."""
_SHORTEST = 3
"""Tokens of the clause before that "and" needs, and more than two openers in a row have."""

Cut = tuple[int, int]
"""A clause as the half-open range of its tokens."""


class Openers(Value):
    """The words of ``clauses.toml``, which says what they do."""

    openers: frozenset[str]
    lead_in: frozenset[str]
    after_and: frozenset[str]
    never_first: frozenset[str]
    halves: frozenset[str]
    not_before: dict[str, frozenset[str]]
    not_after: dict[str, frozenset[str]]


def clauses(reading: Reading, heads: Iterable[int] = ()) -> list[Cut]:
    """The talk cut into clauses that cover every token, in order.

    ``heads`` are the tokens at which a phrase announces a part of the talk; without
    punctuation they cut too.
    """
    tokens = reading.tokens
    spoken = not punctuated(tokens)
    named = frozenset(mention.start for mention in reading.movements)
    found = {0, *_cuts(tokens, named, spoken=spoken), len(tokens)} - _inside_lists(reading)
    if spoken:
        for at in heads:
            start = _led_in(tokens, at)
            told = at > 0 and tokens[at - 1].norm == "an"  # "that's always an option"
            if not told and found.isdisjoint(range(min(start, at - 2), at + 1)):
                found.add(start)
    cuts = sorted(found)
    return [(a, b) for a, b in pairwise(cuts) if a < b]


def _inside_lists(reading: Reading) -> set[int]:
    """Tokens within a list of numbers, where a stop was heard that nobody made."""
    lists = (amount for amount in reading.amounts if amount.shape == "list")
    return {at for amount in lists for at in range(amount.start + 1, amount.end)}


def _led_in(tokens: Sequence[Token], at: int) -> int:
    """Where a heading at ``at`` begins, with the small words before it: "and for the"."""
    start = at
    while start and tokens[start - 1].norm in _openers().lead_in:
        start -= 1
    return start


def linked(reading: Reading, cuts: Sequence[Cut]) -> list[bool]:
    """For each clause, whether it begins with "and" (not "and then")."""
    tokens = reading.tokens
    return [
        tokens[a].norm == "and" and not (a + 1 < b and tokens[a + 1].norm in _GOES_ON)
        for a, b in cuts
    ]


def punctuated(tokens: Sequence[Token]) -> bool:
    """Whether the source sets stops at the ends of its sentences."""
    stops = sum(token.after in _STOPS and token.after != ";" for token in tokens)
    return stops > len(tokens) * _PUNCTUATED


def _cuts(tokens: Sequence[Token], named: Set[int], *, spoken: bool) -> Iterator[int]:
    """Tokens at which a clause begins; pauses and openers count where the talk is ``spoken``.

    ``named`` are the tokens at which a movement's name starts.
    """
    last = 0
    for at in range(1, len(tokens)):
        token = tokens[at]
        written = tokens[at - 1].after in _STOPS or token.starts
        paused = token.pause_s >= PAUSE_S and (at in named or not _goes_on(tokens, at))
        if written or (spoken and (paused or _opens(tokens, at, last))):
            last = at
            yield at


def _goes_on(tokens: Sequence[Token], at: int) -> bool:
    """Whether a short silence before a word is one that was not heard, as none starts with it."""
    word, table = tokens[at].norm, _openers()
    if tokens[at].pause_s >= _LONG_S:
        return False
    half = at + 1 < len(tokens) and tokens[at + 1].norm in table.halves
    return word in table.never_first or (word == "each" and half)


def _opens(tokens: Sequence[Token], at: int, last: int) -> bool:
    """Whether a discourse word starts a clause at ``at``; ``last`` is where this one began."""
    word, table = tokens[at].norm, _openers()
    if word != "and" and word not in table.openers:
        return False
    before = tokens[at - 1].norm
    after = tokens[at + 1].norm if at + 1 < len(tokens) else ""
    if word == "and":
        return after in table.after_and and at - last > _SHORTEST
    if before in table.not_after.get(word, ()) or after in table.not_before.get(word, ()):
        return False
    if at - last < _SHORTEST and (before == "and" or before in table.openers):
        return False
    return not (word == "then" and "if" in {t.norm for t in tokens[last : min(last + 3, at)]})


@cache
def _openers() -> Openers:
    return Openers.model_validate(raw("cuewright.divide", "clauses.toml"))

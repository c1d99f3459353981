"""Movements named in the talk, less the words that only look like one."""

from collections.abc import Iterator, Sequence
from functools import cache

from cuewright.movements.catalogue import catalogue, derived
from cuewright.normalise.mishearings import NUMBERS
from cuewright.phrases import Phrases
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.movement import Movement
from cuewright_models.tokens import CalendarDate, Mention, Token, norm_at

_STOPS = frozenset(".?!;")
_NEAR = 3
"""Tokens around an everyday word within which its amount stands."""


class Everyday(Value):
    """One row of ``everyday.toml``; the file's head says what the fields mean."""

    name: str
    spelt: tuple[str, ...] = ()
    not_after: tuple[str, ...] = ()
    not_before: tuple[str, ...] = ()
    unless_measured: tuple[str, ...] = ()
    needs_amount: bool = False
    needs_word: tuple[str, ...] = ()


def movements(
    tokens: Sequence[Token],
    stems: Sequence[str],
    days: Sequence[CalendarDate],
    *,
    by_line: bool = False,
) -> list[Mention]:
    """Every movement named, longest name first, without overlaps, in order.

    ``stems`` are those of the tokens; ``days`` are dates, in which nothing is a movement.
    With ``by_line`` no name runs on into the next line.
    """
    spoken = frozenset(stems)
    dated = {at for day in days for at in range(day.start, day.end)}
    rows = catalogue()
    return [
        mention
        for mention in _phrases().longest(stems, lambda m: _unbroken(m, tokens, by_line=by_line))
        if mention.name in rows
        and dated.isdisjoint(range(mention.start, mention.end))
        and _meant(mention, tokens, spoken)
    ]


def _unbroken(mention: Mention, tokens: Sequence[Token], *, by_line: bool) -> bool:
    """Whether no stop or comma parts the words: "rope, slams" is not one movement."""
    if tokens[mention.start].norm == "stretches":  # "two stretches, the couch and the pigeon"
        return False
    if by_line and any(tokens[at].starts for at in range(mention.start + 1, mention.end)):
        return False
    return not any(tokens[at].after for at in range(mention.start, mention.end - 1))


def _meant(mention: Mention, tokens: Sequence[Token], spoken: frozenset[str]) -> bool:
    """Whether an everyday word stands here as a movement; after a number it does."""
    start, end = mention.start, mention.end
    row = _everyday().get(" ".join(token.norm for token in tokens[start:end]))
    if row is None:
        return True
    if row.needs_word and spoken.isdisjoint(row.needs_word):
        return False
    if row.spelt and tokens[start].norm not in row.spelt:
        return False
    if not row.spelt and start and _measures(tokens[start - 1]):
        return True
    before = norm_at(tokens, start - 1) if start and not tokens[start - 1].after else ""
    if start > 1 and before == "of" and _measures(tokens[start - 2]):
        return True
    if {before, f"{norm_at(tokens, start - 2)} {before}"} & set(row.not_after):
        return False
    if _leads_on(row, tokens, end, planned=before == "to"):
        return False
    return not row.needs_amount or any(map(_measures, _around(mention, tokens)))


def _leads_on(row: Everyday, tokens: Sequence[Token], end: int, *, planned: bool) -> bool:
    """Whether the words after make an everyday word of it; "running for two minutes" does not.

    ``planned`` after "to", as in "the clock is going to run for two minutes".
    """
    if end >= len(tokens) or tokens[end - 1].after in (*_STOPS, ":"):
        return False
    after = tokens[end].norm
    measured = after in row.unless_measured and not planned
    if measured and any(map(_measures, tokens[end + 1 : end + 1 + _NEAR])):
        return False
    return bool({after, f"{after} {norm_at(tokens, end + 1)}"} & set(row.not_before))


def _around(mention: Mention, tokens: Sequence[Token]) -> Iterator[Token]:
    yield from tokens[max(mention.start - _NEAR, 0) : mention.start]
    yield from tokens[mention.end : mention.end + _NEAR]


def _measures(token: Token) -> bool:
    """Whether a token is a number or a unit."""
    return token.norm[:1].isdigit() or token.norm in _measure_words()


@cache
def _measure_words() -> frozenset[str]:
    return NUMBERS | frozenset(raw("cuewright.normalise", "words.toml")["measures"])


@derived
def _phrases() -> Phrases:
    kit = raw("cuewright.movements", "kit.toml")
    names = {row.name: tuple(_said(row)) for row in catalogue().values()}
    return Phrases(names | {f"kit {item}": said for item, said in kit.items()})


def _said(row: Movement) -> Iterator[str]:
    """The names of a movement; those of a stretch are said as what to do, too."""
    leads = raw("cuewright.normalise", "words.toml")["stretch"]
    for name in (row.name.replace("-", " "), *row.said):
        yield name
        if name.endswith(" stretch"):
            yield from (f"{lead} {name.removesuffix(' stretch')}" for lead in leads)


@cache
def _everyday() -> dict[str, Everyday]:
    return validated(raw("cuewright.normalise", "everyday.toml"), Everyday, where="everyday.toml")

"""Movements named in the talk, less the words that only look like one."""

from collections.abc import Iterator, Sequence
from functools import cache

from cuewright.movements.catalogue import catalogue
from cuewright.phrases import Phrases
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.tokens import CalendarDate, Mention, Token


class Everyday(Value):
    """One row of ``everyday.toml``; the file's head says what the fields mean."""

    name: str
    spelt: tuple[str, ...] = ()
    not_after: tuple[str, ...] = ()
    not_before: tuple[str, ...] = ()
    needs_amount: bool = False
    needs_word: tuple[str, ...] = ()


def movements(
    tokens: Sequence[Token], stems: Sequence[str], days: Sequence[CalendarDate]
) -> list[Mention]:
    """Every movement named, longest name first, without overlaps, in order."""
    spoken = frozenset(stems)
    dated = {at for day in days for at in range(day.start, day.end)}
    rows = catalogue()
    return [
        mention
        for mention in _phrases().longest(stems, lambda m: _unbroken(m, tokens))
        if mention.name in rows
        and dated.isdisjoint(range(mention.start, mention.end))
        and _meant(mention, tokens, spoken)
    ]


def _unbroken(mention: Mention, tokens: Sequence[Token]) -> bool:
    """Whether no stop or comma parts the words: "rope, slams" is not one movement."""
    return not any(tokens[at].after for at in range(mention.start, mention.end - 1))


def _meant(mention: Mention, tokens: Sequence[Token], spoken: frozenset[str]) -> bool:
    """Whether an everyday word stands here as a movement."""
    row = _everyday().get(" ".join(t.norm for t in tokens[mention.start : mention.end]))
    if row is None:
        return True
    if row.needs_word and spoken.isdisjoint(row.needs_word):
        return False
    norm = tokens[mention.start].norm
    if not row.spelt and any(
        _number(t.norm) for t in tokens[max(mention.start - 1, 0) : mention.start]
    ):
        return True
    before = tokens[mention.start - 1].norm if mention.start else ""
    after = tokens[mention.end].norm if mention.end < len(tokens) else ""
    return (
        (not row.spelt or norm in row.spelt)
        and before not in row.not_after
        and after not in row.not_before
        and (not row.needs_amount or any(_number(t.norm) for t in _around(mention, tokens)))
    )


def _around(mention: Mention, tokens: Sequence[Token]) -> Iterator[Token]:
    yield from tokens[max(mention.start - 3, 0) : mention.start]
    yield from tokens[mention.end : mention.end + 3]


_NUMBERS = frozenset(
    "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
    "mile miles metre metres meter meters yard yards k lap laps eighteen twenty thirty forty fifty sixty eighty hundred minute minutes second seconds".split()
)


def _number(norm: str) -> bool:
    return norm[:1].isdigit() or norm in _NUMBERS


@cache
def _phrases() -> Phrases:
    kit = raw("cuewright.movements", "kit.toml")
    names = {row.name: (row.name.replace("-", " "), *row.said) for row in catalogue().values()}
    return Phrases(names | {f"kit {item}": said for item, said in kit.items()})


@cache
def _everyday() -> dict[str, Everyday]:
    rows = validated(raw("cuewright.normalise", "everyday.toml"), Everyday, where="everyday.toml")
    return rows

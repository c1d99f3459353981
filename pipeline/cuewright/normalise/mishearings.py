"""Mishearings: heard and meant, believed only where the context fits; all repairs kept."""

from collections.abc import Iterator, Sequence
from functools import cache

from cuewright.movements.catalogue import catalogue
from cuewright.normalise.sounds import meant
from cuewright.phrases import stem
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.tokens import Swap, Token

NUMBER = "#"
_WORDS = frozenset(
    "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
    "sixteen seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety "
    "hundred".split()
)


class Mishearing(Value):
    """One row of ``mishearings.toml``; the file's head says what the fields mean."""

    name: str
    meant: str
    after: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    spreads: bool = True


def respell(tokens: Sequence[Token]) -> list[Token]:
    """One spelling for compound words ("pushup", "dead lift"); says nothing, as it means the same."""
    out: list[Token] = []
    at = 0
    table = _spellings()
    while at < len(tokens):
        for length, heard, meant in table.get(tokens[at].norm, ()):
            if _reads(tokens, at, heard):
                out.extend(_replace(tokens[at : at + length], meant))
                at += length
                break
        else:
            out.append(tokens[at])
            at += 1
    return out


def repair(tokens: Sequence[Token]) -> tuple[list[Token], list[Swap]]:
    """The tokens with mishearings read as meant, and the repairs in order."""
    believed = {row.name for row in _believed(tokens)}
    sounded = _sounded(tokens)
    out: list[Token] = []
    swaps: list[Swap] = []
    at = 0
    table = _mishearings()
    while at < len(tokens):
        for heard, row in (*table.get(tokens[at].norm, ()), *sounded.get(tokens[at].norm, ())):
            if _reads(tokens, at, heard) and (
                (row.spreads and row.name in believed) or _fits(row, tokens, at, len(heard))
            ):
                meant = tuple(row.meant.split())
                swaps.append(Swap(len(out), len(out) + len(meant), row.name, row.meant))
                out.extend(_replace(tokens[at : at + len(heard)], meant))
                at += len(heard)
                break
        else:
            out.append(tokens[at])
            at += 1
    return out, swaps


def _sounded(
    tokens: Sequence[Token],
) -> dict[str, list[tuple[tuple[str, ...], Mishearing]]]:
    """What sounds like a movement right after a number, to be read so in the whole talk."""
    found: dict[str, list[tuple[tuple[str, ...], Mishearing]]] = {}
    for at in range(1, len(tokens) - 1):
        if not is_number(tokens[at - 1].norm) or tokens[at - 1].after:
            continue
        norms = _together(tokens, at)
        known = any(_reads(tokens, at, heard) for heard, _ in _mishearings().get(norms[0], ()))
        match = None if known else meant(norms)
        if match is not None:
            heard = tuple(norms[: match[0]])
            row = Mishearing(name=" ".join(heard), meant=match[1])
            found.setdefault(heard[0], []).append((heard, row))
    return found


def _together(tokens: Sequence[Token], at: int) -> list[str]:
    """Up to four words from ``at`` that no stop parts."""
    out = []
    for token in tokens[at : at + 4]:
        out.append(token.norm)
        if token.after:
            break
    return out


def _believed(tokens: Sequence[Token]) -> Iterator[Mishearing]:
    table = _mishearings()
    for at, token in enumerate(tokens):
        for heard, row in table.get(token.norm, ()):
            if row.spreads and _reads(tokens, at, heard) and _fits(row, tokens, at, len(heard)):
                yield row


def _fits(row: Mishearing, tokens: Sequence[Token], at: int, length: int) -> bool:
    if not row.after and not row.before:
        return True
    before = tokens[at - 1] if at and not _stops(tokens[at - 1]) else None
    after = tokens[at + length] if at + length < len(tokens) else None
    return (before is not None and _among(before, row.after)) or (
        after is not None and _among(after, row.before)
    )


def _stops(token: Token) -> bool:
    return token.after in (".", "?", "!")


def _among(token: Token, words: tuple[str, ...]) -> bool:
    return token.norm in words or (NUMBER in words and is_number(token.norm))


def is_number(norm: str) -> bool:
    """Whether a token is a number in words or digits; ordinals are not."""
    return norm in _WORDS or norm.isdigit()


def _reads(tokens: Sequence[Token], at: int, heard: tuple[str, ...]) -> bool:
    return len(tokens) - at >= len(heard) and all(
        tokens[at + i].norm == word for i, word in enumerate(heard)
    )


def _replace(heard: Sequence[Token], meant: Sequence[str]) -> Iterator[Token]:
    """The meant words over the heard ones: the first takes what is left over, the rest one each."""
    lead = max(len(heard) - len(meant) + 1, 1)
    for i, word in enumerate(meant):
        first = 0 if i == 0 else min(lead + i - 1, len(heard) - 1)
        last = lead if i == 0 else first + 1
        yield heard[first]._replace(
            norm=word,
            last=heard[last - 1].last,
            after=heard[-1].after if i == len(meant) - 1 else "",
        )


@cache
def _spellings() -> dict[str, list[tuple[int, tuple[str, ...], tuple[str, ...]]]]:
    table: dict[str, list[tuple[int, tuple[str, ...], tuple[str, ...]]]] = {}
    for name, meant in raw("cuewright.normalise", "spellings.toml").items():
        heard = tuple(name.split())
        table.setdefault(heard[0], []).append((len(heard), heard, tuple(str(meant).split())))
    for rows in table.values():
        rows.sort(reverse=True)
    return table


@cache
def _mishearings() -> dict[str, list[tuple[tuple[str, ...], Mishearing]]]:
    """Rows by their first heard word, longest first; the catalogue's own names come last."""
    rows = list(
        validated(
            raw("cuewright.normalise", "mishearings.toml"), Mishearing, where="mishearings.toml"
        ).values()
    )
    named = {row.name for row in rows}
    for movement in catalogue().values():
        for name in movement.misheard:
            for heard, meant in _forms(name, movement.name.replace("-", " ")):
                if heard not in named:
                    named.add(heard)
                    rows.append(Mishearing(name=heard, meant=meant, after=(NUMBER,)))
    table: dict[str, list[tuple[tuple[str, ...], Mishearing]]] = {}
    for row in rows:
        heard_words = tuple(row.name.split())
        table.setdefault(heard_words[0], []).append((heard_words, row))
    for entries in table.values():
        entries.sort(key=lambda entry: -len(entry[0]))
    return table


def _forms(heard: str, meant: str) -> Iterator[tuple[str, str]]:
    yield heard, meant
    if stem(heard.split()[-1]) == heard.split()[-1]:
        yield heard + "s", meant + "s"

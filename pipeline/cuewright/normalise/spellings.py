"""One spelling for compound words ("pushup", "dead lift"): silent, as it means the same."""

from collections.abc import Iterator, Sequence
from functools import cache

from cuewright.tables import raw
from cuewright_models.tokens import Token

Words = tuple[str, ...]


def respell(tokens: Sequence[Token]) -> list[Token]:
    """The tokens with the spellings of ``spellings.toml``, the longest first."""
    out: list[Token] = []
    at = 0
    table = _spellings()
    while at < len(tokens):
        for heard, meant in table.get(tokens[at].norm, ()):
            if reads(tokens, at, heard):
                out.extend(replaced(tokens[at : at + len(heard)], meant))
                at += len(heard)
                break
        else:
            out.append(tokens[at])
            at += 1
    return out


def reads(tokens: Sequence[Token], at: int, heard: Words) -> bool:
    """Whether the words ``heard`` stand at a token."""
    if len(heard) == 1:
        return tokens[at].norm == heard[0]
    return tuple(token.norm for token in tokens[at : at + len(heard)]) == heard


def replaced(heard: Sequence[Token], meant: Sequence[str]) -> Iterator[Token]:
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
def _spellings() -> dict[str, list[tuple[Words, Words]]]:
    """What is heard and what is meant, by the first word heard, the longest first."""
    table: dict[str, list[tuple[Words, Words]]] = {}
    for name, meant in raw("cuewright.normalise", "spellings.toml").items():
        heard = tuple(name.split())
        table.setdefault(heard[0], []).append((heard, tuple(str(meant).split())))
    for rows in table.values():
        rows.sort(key=lambda row: -len(row[0]))
    return table

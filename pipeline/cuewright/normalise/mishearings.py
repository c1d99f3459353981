"""Mishearings: heard and meant, believed only where the context fits; all repairs kept."""

from collections.abc import Iterable, Iterator, Sequence

from cuewright.movements.catalogue import catalogue, derived
from cuewright.normalise.numbers import SMALL
from cuewright.normalise.sounds import is_name, meant
from cuewright.normalise.spellings import Words, reads, replaced
from cuewright.phrases import stem
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.tokens import Swap, Token, norm_at

NUMBERS = frozenset(SMALL) | {"hundred"}
"""Words for whole numbers that can stand alone."""
NUMBER = "#"
"""Stands for any number in the lists of ``mishearings.toml``."""
_LONGEST = 4
"""Words of a movement's name that are looked up by their sound, at most."""


class Mishearing(Value):
    """One row of ``mishearings.toml``; the file's head says what the fields mean."""

    name: str
    meant: str
    after: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    spreads: bool = True


Table = dict[str, list[tuple[Words, Mishearing]]]
"""Mishearings by the first word heard."""


def repair(tokens: Sequence[Token]) -> tuple[list[Token], list[Swap]]:
    """The tokens with mishearings read as meant, and the repairs in order."""
    believed = {row.name for row in _believed(tokens)}
    table = _mishearings()
    table = table | {word: [*table.get(word, ()), *rows] for word, rows in _sounded(tokens).items()}
    out: list[Token] = []
    swaps: list[Swap] = []
    at = 0
    while at < len(tokens):
        norm = tokens[at].norm
        for heard, row in table.get(norm, ()):
            known = row.spreads and row.name in believed
            fits = known or _fits(row, tokens, at, len(heard))
            if fits and reads(tokens, at, heard) and not _right(tokens, at, len(heard)):
                words = row.meant.split()
                swaps.append(Swap(len(out), len(out) + len(words), row.name, row.meant))
                out.extend(replaced(tokens[at : at + len(heard)], words))
                at += len(heard)
                break
        else:
            out.append(tokens[at])
            at += 1
    return out, swaps


def _right(tokens: Sequence[Token], at: int, heard: int) -> bool:
    """Whether more words than were ``heard`` wrong are a movement's name as they stand."""
    norms = _together(tokens, at)
    return any(is_name(norms[:length]) for length in range(len(norms), heard, -1))


def is_number(norm: str) -> bool:
    """Whether a token is a number in words or digits; ordinals are not."""
    return norm in NUMBERS or norm.isdigit()


def _believed(tokens: Sequence[Token]) -> Iterator[Mishearing]:
    """Rows that fit somewhere in the talk, and so are believed in all of it."""
    table = _mishearings()
    for at, token in enumerate(tokens):
        for heard, row in table.get(token.norm, ()):
            if row.spreads and reads(tokens, at, heard) and _fits(row, tokens, at, len(heard)):
                yield row


def _sounded(tokens: Sequence[Token]) -> Table:
    """What sounds like a movement right after a number, to be read so in the whole talk."""
    found: Table = {}
    for at in range(1, len(tokens) - 1):
        if not is_number(tokens[at - 1].norm) or tokens[at - 1].after:
            continue
        if is_number(tokens[at].norm) or any(
            reads(tokens, at, heard) for heard, _ in _mishearings().get(tokens[at].norm, ())
        ):
            continue
        norms = _together(tokens, at)
        match = meant(norms)
        if match is not None:
            heard = tuple(norms[: match[0]])
            row = Mishearing(name=" ".join(heard), meant=match[1])
            found.setdefault(heard[0], []).append((heard, row))
    return found


def _together(tokens: Sequence[Token], at: int) -> list[str]:
    """A few words from ``at`` that no punctuation parts."""
    out = []
    for token in tokens[at : at + _LONGEST]:
        out.append(token.norm)
        if token.after:
            break
    return out


def _fits(row: Mishearing, tokens: Sequence[Token], at: int, length: int) -> bool:
    """Whether the words around ``length`` tokens are among those that a row asks for."""
    if not row.after and not row.before:
        return True
    if at and tokens[at - 1].after not in (".", "?", "!") and _among(tokens[at - 1], row.after):
        return True
    return any(_stands(tokens, at + length, phrase.split()) for phrase in row.before)


def _stands(tokens: Sequence[Token], at: int, phrase: Sequence[str]) -> bool:
    """Whether a phrase starts at a token; a number in it may be of several words."""
    for word in phrase:
        if not (norm_at(tokens, at) == word or (word == NUMBER and _counts(tokens, at))):
            return False
        at += 1
        while word == NUMBER and _counts(tokens, at):
            at += 1
    return True


def _counts(tokens: Sequence[Token], at: int) -> bool:
    return is_number(norm_at(tokens, at))


def _among(token: Token, words: tuple[str, ...]) -> bool:
    return token.norm in words or (NUMBER in words and is_number(token.norm))


@derived
def _mishearings() -> Table:
    """The rows of the table, the longest first; the catalogue's own names come last."""
    table: Table = {}
    for row in _rows():
        heard = tuple(row.name.split())
        table.setdefault(heard[0], []).append((heard, row))
    for entries in table.values():
        entries.sort(key=lambda entry: -len(entry[0]))
    return table


def _rows() -> Iterable[Mishearing]:
    own = raw("cuewright.normalise", "mishearings.toml")
    rows = validated(own, Mishearing, where="mishearings.toml")
    for movement in catalogue().values():
        for name in movement.misheard:
            for heard, said in _forms(name, movement.name.replace("-", " ")):
                lone = " " not in heard  # "ten hello" is ten halos, yet later ones may greet
                row = Mishearing(name=heard, meant=said, after=(NUMBER,), spreads=not lone)
                rows.setdefault(heard, row)
    return rows.values()


def _forms(heard: str, said: str) -> Iterator[tuple[str, str]]:
    """A misheard name in the singular and the plural."""
    yield heard, said
    last = heard.split()[-1]
    if stem(last) == last:
        yield heard + "s", said + "s"

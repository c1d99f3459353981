"""An offer, and what speaks for one: the expressions of options.toml, asked of a line."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any, Literal, NamedTuple

from cuewright.movements.catalogue import catalogue
from cuewright.parse.topics import Piece
from cuewright.tables import raw
from cuewright_models.tokens import Amount

Kind = Literal["fewer", "shorter", "lighter", "easier", "harder", "substitute"]


@dataclass(frozen=True, slots=True)
class Offer:
    """One option over the tokens ``start:end``."""

    start: int
    end: int
    about: str
    kind: Kind
    to: str | None = None
    amount: Amount | None = None
    unit: str | None = None


_BOUND = re.compile(r"\\b(?=[a-z]|[^@#]*$)")
"""A bound before a word; before a mark such as ``#0`` it says that the mark does not match."""
_AT_ONCE = 8
"""Characters within which what is wrong starts a line that has no "if"."""


@cache
def table() -> dict[str, Any]:
    """The table as it stands in options.toml."""
    return raw("cuewright.parse", "options.toml")


def any_of(said: str | Sequence[str]) -> re.Pattern[str]:
    """One expression for a list of them."""
    return re.compile(said if isinstance(said, str) else "|".join(f"(?:{one})" for one in said))


@cache
def expression(key: str) -> re.Pattern[str]:
    """The expression of the table, or all those of a list as one, from where a word starts."""
    said = table()[key]
    found = any_of([_unbound(one) for one in ([said] if isinstance(said, str) else said)])
    return re.compile(rf"(?<![^ ])(?:{found.pattern})")


def _unbound(said: str) -> str:
    """An expression less the bound in front, which says nothing where a word starts.

    Without it most expressions are given up at their first letter.
    """
    return said.removeprefix(r"\b") if _BOUND.match(said) else said


@cache
def expressions(key: str) -> tuple[re.Pattern[str], ...]:
    """The expressions of a list, one by one."""
    return tuple(re.compile(one) for one in table()[key])


@lru_cache(maxsize=4096)
def find(key: str, line: str) -> re.Match[str] | None:
    """The first match in a line of the expressions of a key; pieces ask for it repeatedly."""
    return expression(key).search(line)


def has(key: str, line: str) -> bool:
    """Whether one of the expressions of a list is found in a line."""
    return find(key, line) is not None


def place_of(key: str, line: str) -> int | None:
    """Where the first match of a list starts in a line."""
    match = find(key, line)
    return match.start() if match else None


def plainly(piece: Piece) -> bool:
    """Whether a piece makes an offer without naming another movement."""
    at_once = wrong(piece)
    told = at_once is not None and at_once.start() <= _AT_ONCE
    return asked(piece) or offered(piece) or told


def wrong(piece: Piece) -> re.Match[str] | None:
    """What a piece says is wrong with the work, with the athlete or with the place."""
    return find("trouble", piece.line) or (find("hitch", piece.line) if piece.scaling else None)


def asked(piece: Piece) -> bool:
    """Whether a piece sets a condition or addresses some of those who listen."""
    return asks(piece.line) or (piece.scaling and has("calls", piece.line))


def offered(piece: Piece) -> bool:
    """Whether a piece has words that offer, whatever is wrong."""
    return has("offers", piece.line) or (piece.scaling and has("gives", piece.line))


def dares(piece: Piece) -> bool:
    """Whether a piece speaks to those who want it harder."""
    return has("harder", piece.line) or (piece.scaling and has("dares", piece.line))


def answered(piece: Piece, acts: str = "acts") -> bool:
    """Whether something is to be done about what is wrong."""
    return _done_about(wrong(piece), acts)


def acts_on(line: str) -> bool:
    """Whether something is to be done about what is plainly wrong in a line."""
    return _done_about(find("trouble", line))


def _done_about(wrong: re.Match[str] | None, acts: str = "acts") -> bool:
    """Whether there is something to do after what is wrong, or before "if"."""
    if wrong is None:
        return False
    line = wrong.string
    before = line.find(" if ")
    ahead = 0 < before < wrong.start() and has(acts, line[:before])
    return ahead or has(acts, line[wrong.end() :])


def asks(line: str) -> bool:
    """Whether a line sets a plain condition or addresses some of those who listen."""
    return has("asks", line)


def makes_variant(line: str, to: str | None = None, about: str = "") -> bool:
    """Whether a phrase of the table makes another movement of one, or makes ``about`` ``to``."""
    return any(
        row.said.search(line)
        for row in variants()
        if to is None or (to == row.to and about.endswith(row.of))
    )


class Variant(NamedTuple):
    """What makes the movement ``to`` of those whose names end with one of ``of``."""

    to: str
    of: tuple[str, ...]
    said: re.Pattern[str]
    kind: Kind | None = None
    firm: bool = False


@cache
def variants() -> tuple[Variant, ...]:
    rows = table()["variant"]
    return tuple(
        Variant(
            row["to"],
            tuple(row["of"]),
            any_of(row["said"]),
            row.get("kind"),
            row.get("firm", False),
        )
        for row in rows
    )


def akin(one: str, other: str) -> bool:
    """Whether two movements share a word that names them: squats, push-ups."""
    shared = (set(one.split("-")) & set(other.split("-"))) - set(table()["shared"])
    return bool(shared) or (one.split("-")[-2:] == other.split("-")[-2:])


def related(one: str, other: str) -> bool:
    """Whether the catalogue has one movement for the other, or for the same kind of work."""
    row, to = catalogue().get(one), catalogue().get(other)
    if row is None or to is None or one == other:
        return False
    near = other in row.easier + row.swap + row.harder or one in to.easier + to.swap + to.harder
    return near or akin(one, other) or not set(row.patterns).isdisjoint(to.patterns)


def loaded(name: str) -> bool:
    row = catalogue().get(name)
    return row is not None and not set(row.kit).isdisjoint(table()["loads"])

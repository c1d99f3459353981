"""An offer, and what speaks for one: the expressions of options.toml, asked of a line."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any, Literal, NamedTuple

from cuewright.movements.catalogue import catalogue
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
    found = any_of(table()[key])
    return re.compile(rf"(?<!\S)(?:{found.pattern})")


@cache
def expressions(key: str) -> tuple[re.Pattern[str], ...]:
    """The expressions of a list, one by one."""
    return tuple(re.compile(one) for one in table()[key])


@lru_cache(maxsize=512)
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


def plainly(line: str) -> bool:
    """Whether a line makes an offer without naming another movement."""
    at_once = place_of("trouble", line)
    return asks(line) or has("offers", line) or (at_once is not None and at_once <= _AT_ONCE)


def acts_on(line: str) -> bool:
    """Whether something is to be done about what is wrong: after it, or before "if"."""
    trouble = find("trouble", line)
    if trouble is None:
        return False
    before = line.find(" if ")
    ahead = 0 < before < trouble.start() and has("acts", line[:before])
    return ahead or has("acts", line[trouble.end() :])


def asks(line: str) -> bool:
    """Whether a line sets a condition or addresses some of those who listen."""
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


@cache
def variants() -> tuple[Variant, ...]:
    rows = table()["variant"]
    return tuple(Variant(row["to"], tuple(row["of"]), any_of(row["said"])) for row in rows)


def akin(one: str, other: str) -> bool:
    """Whether two movements share a word that names them: squats, push-ups."""
    shared = (set(one.split("-")) & set(other.split("-"))) - set(table()["shared"])
    return bool(shared) or (one.split("-")[-2:] == other.split("-")[-2:])


def loaded(name: str) -> bool:
    row = catalogue().get(name)
    return row is not None and not set(row.kit).isdisjoint(table()["loads"])

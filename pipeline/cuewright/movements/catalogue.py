"""The movement catalogue: what each movement is called, needs and costs."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache, wraps
from typing import Any, ParamSpec, TypeVar

from cuewright.errors import BadTable
from cuewright.tables import raw, validated
from cuewright_models.movement import Movement

Given = ParamSpec("Given")
Made = TypeVar("Made")

REDUCE = "reduce"
"""Stands among ``easier`` and ``swap`` for less of the same."""


class Catalogue(dict[str, Movement]):
    """Movements by canonical name.

    ``marks`` says of movements from a coach's own file what is the coach's in them.
    ``memo`` holds what is worked out from the rows, and so goes when they go.
    """

    def __init__(self, rows: Mapping[str, Movement], marks: Mapping[str, str] | None = None):
        super().__init__(rows)
        self.marks = dict(marks or {})
        self.memo: dict[object, Any] = {}


_in_use: ContextVar[Catalogue | None] = ContextVar("catalogue in use", default=None)


def catalogue() -> Catalogue:
    """The catalogue in use: the shipped one, except inside ``using``."""
    return _in_use.get() or shipped()


@contextmanager
def using(rows: Catalogue) -> Iterator[None]:
    """Inside, ``rows`` is the catalogue, for this thread or task alone."""
    before = _in_use.set(rows)
    try:
        yield
    finally:
        _in_use.reset(before)


def derived(make: Callable[Given, Made]) -> Callable[Given, Made]:
    """What a function works out from the catalogue, kept for each catalogue by itself."""

    @wraps(make)
    def kept(*args: Given.args, **kwargs: Given.kwargs) -> Made:
        memo, key = catalogue().memo, (make, *args)
        if key not in memo:
            memo[key] = make(*args, **kwargs)
        made: Made = memo[key]
        return made

    return kept


@cache
def shipped() -> Catalogue:
    """The catalogue that comes with the program.

    Raises BadTable when a row names a movement that is not in the catalogue.
    """
    rows = validated(raw("cuewright.movements", "movements.toml"), Movement, where="movements.toml")
    check_links(rows.values(), rows, where="movements.toml")
    return Catalogue(rows)


def check_links(rows: Iterable[Movement], known: Mapping[str, Movement], *, where: object) -> None:
    """Raises BadTable for the first row that names a movement which is not ``known``."""
    for row in rows:
        for other in (*row.easier, *row.harder, *row.swap):
            if other != REDUCE and other not in known:
                raise BadTable(
                    f"{where}: [{row.name}] names {other:.60}, which is not in the table; "
                    "add it or correct the name."
                )

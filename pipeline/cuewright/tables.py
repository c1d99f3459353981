"""TOML tables as validated rows."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from cuewright.errors import BadTable

Row = TypeVar("Row", bound=BaseModel)

_PLAINLY = {
    "extra_forbidden": "there is no such field",
    "tuple_type": "a list in square brackets is needed",
    "model_type": "a table in curly brackets is needed",
    "string_type": "words in quotation marks are needed",
    "path_type": "a path in quotation marks is needed",
}
"""What is wrong, by pydantic's name for it, where its own words speak of Python."""


@cache  # reading the largest takes longer than making a plan
def raw(package: str, name: str) -> dict[str, Any]:
    """The table ``name`` that stands in ``package``, as TOML gives it; nobody may change it."""
    return tomllib.loads(files(package).joinpath(name).read_text("utf-8"))


def validated(table: dict[str, Any], row: type[Row], *, where: str) -> dict[str, Row]:
    """Each entry of ``table`` as a ``row``; its key becomes the field ``name``.

    Raises BadTable with the entry, the field and the reason for the first misfit.
    """
    rows = {}
    for key, fields in table.items():
        try:
            rows[key] = row.model_validate({"name": key, **fields})
        except ValidationError as error:
            raise BadTable(f"{where}: [{key}] {misfit(error)}; correct that line.") from None
    return rows


def misfit(error: ValidationError) -> str:
    """The first field that does not fit, and why; items of a list are not counted."""
    first = error.errors()[0]
    place = ".".join(part for part in first["loc"] if isinstance(part, str))
    reason = _PLAINLY.get(first["type"], first["msg"].removeprefix("Value error, "))
    return f"{place}: {reason}" if place else reason

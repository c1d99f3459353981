"""TOML tables as validated rows."""

import tomllib
from importlib.resources import files
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from cuewright.errors import BadTable

Row = TypeVar("Row", bound=BaseModel)


def raw(package: str, name: str) -> dict[str, Any]:
    """The table ``name`` that stands in ``package``, as TOML gives it."""
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
            first = error.errors()[0]
            place = ".".join(str(part) for part in first["loc"])
            raise BadTable(
                f"{where}: [{key}] {place}: {first['msg']}; correct that line."
            ) from None
    return rows

"""A coach's own movements and words, added to the shipped catalogue.

The file has the shape of ``movements.toml``. One rule: a table whose name the catalogue
has adds its ``said`` and ``misheard`` to that movement and may hold nothing else; any
other table is a new movement, and says at least its ``patterns``.
"""

import os
from pathlib import Path
from typing import Any

from cuewright.errors import BadTable
from cuewright.movements import fitting
from cuewright.movements.catalogue import Catalogue, check_links, shipped
from cuewright.reading import table
from cuewright.tables import validated
from cuewright_models.movement import Movement

NEW, MORE = "yours", "with your words"
"""What the catalogue's marks say of a movement of the file."""


def usual_file() -> Path | None:
    """``movements.toml`` in the user's own configuration folder, if there is one."""
    from platformdirs import user_config_path  # the commands alone ask for it

    path = user_config_path("cuewright") / "movements.toml"
    return path if os.path.exists(path) else None


def extended(path: str | Path) -> Catalogue:
    """The shipped catalogue with the movements and words of a coach's own file.

    Raises BadTable with one sentence for a file that cannot be read, and for the first
    table or name that does not fit.
    """
    where = str(path)
    given = table(where, "movements")
    if not given:
        raise BadTable(f"{where} is empty; add a movement to it, or do without the file.")
    for name, fields in given.items():
        fitting.check_table(where, name, fields)
    merged = {name: _merged(name, fields) for name, fields in given.items()}
    rows = validated(merged, Movement, where=where)
    fitting.check_rows(where, rows)
    known = shipped() | rows
    check_links(rows.values(), known, where=where)
    return Catalogue(known, {name: MORE if name in shipped() else NEW for name in rows})


def _merged(name: str, fields: dict[str, Any]) -> dict[str, Any]:
    """A table's fields; its words come after those that the catalogue has for the name."""
    fields = {field: _straight(value) for field, value in fields.items()}
    if name not in shipped():
        return fields
    row = shipped()[name].model_dump(exclude={"name"}, exclude_unset=True)
    more = {field: value for field, value in fields.items() if not isinstance(value, list)}
    words = {f: [*row.get(f, ()), *fields[f]] for f in fields if f not in more}
    return row | words | more


def _straight(value: Any) -> Any:
    """Words with the apostrophe that tokens have."""
    if not isinstance(value, list):
        return value
    return [one.replace("\u2019", "'") if isinstance(one, str) else one for one in value]

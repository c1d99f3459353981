"""The movement catalogue: what each movement is called, needs and costs."""

from functools import cache

from cuewright.errors import BadTable
from cuewright.tables import raw, validated
from cuewright_models.movement import Movement

Catalogue = dict[str, Movement]


@cache
def catalogue() -> Catalogue:
    """The shipped catalogue by canonical name.

    Raises BadTable when a row names a movement that is not in the catalogue.
    """
    rows = validated(raw("cuewright.movements", "movements.toml"), Movement, where="movements.toml")
    for row in rows.values():
        for other in (*row.easier, *row.harder, *row.swap):
            if other != "reduce" and other not in rows:
                raise BadTable(
                    f"movements.toml: [{row.name}] names {other}, which is not in the table; "
                    "add it or correct the name."
                )
    return rows

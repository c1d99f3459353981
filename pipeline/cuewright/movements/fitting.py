"""Whether a coach's own movements fit the catalogue, each misfit as one sentence."""

import re
from collections.abc import Iterable, Mapping

from cuewright.errors import BadTable
from cuewright.movements.catalogue import REDUCE, shipped
from cuewright.tables import raw
from cuewright_models.movement import Movement

_WORDS = ("said", "misheard")
"""What a coach may add to a movement that the catalogue has."""
_FIELDS = tuple(field for field in Movement.model_fields if field != "name")
_NAME = re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*")
_SPOKEN = re.compile(r"(?=.*[^\W\d_])[^\W_]+(?:(?:'| +|-)[^\W_]+)*")
_LONGEST = 60
"""Letters in a name, at most."""


def check_table(where: str, name: str, fields: object) -> None:
    """Raises BadTable for what is no table, a bad name, or a field that may not stand there."""
    if not isinstance(fields, dict):
        raise BadTable(
            f"{where}: {_short(name)} belongs to no movement; put a line such as "
            "[towel-row] above it."
        )
    if name == REDUCE or len(name) > _LONGEST or not _NAME.fullmatch(name):
        raise BadTable(
            f"{where}: [{_short(name)}] is no name for a movement; use small letters, with "
            f"hyphens between words and {_LONGEST} signs at most, such as [towel-row]."
        )
    for field in fields:
        if field not in _FIELDS:
            raise BadTable(
                f"{where}: [{name}] has an unknown field {_short(field)}; "
                f"the fields are {', '.join(_FIELDS)}."
            )
        if name in shipped() and field not in _WORDS:
            raise BadTable(
                f"{where}: [{name}] is in the catalogue already, so only said and misheard "
                f"can be added to it; leave out {field}, or choose another name."
            )


def check_rows(where: str, rows: Mapping[str, Movement]) -> None:
    """Raises BadTable for an unknown pattern or flag, and for a name that is taken or unfit."""
    for row in rows.values():
        _check_kinds(where, row, "patterns", row.patterns)
        _check_kinds(where, row, "flags", row.flags)
        if not row.patterns:
            known = ", ".join(_kinds("patterns"))
            raise BadTable(f"{where}: [{row.name}] has no patterns; say what it trains: {known}.")
        if row.name in (*row.easier, *row.harder, *row.swap):
            raise BadTable(f"{where}: [{row.name}] names itself; name another movement there.")
    spoken = {row.name: (row.name.replace("-", " "), *row.said) for row in rows.values()}
    misheard = {row.name: row.misheard for row in rows.values()}
    owners = _owners()
    _claim(where, spoken, owners)
    _claim(where, misheard, dict(owners))
    _claim(where, misheard, _claimed((row.name, row.misheard) for row in shipped().values()))


def _check_kinds(where: str, row: Movement, field: str, given: Iterable[str]) -> None:
    """Rules and tables go by the catalogue's own patterns and flags."""
    known = _kinds(field)
    for kind in given:
        if kind not in known:
            raise BadTable(
                f"{where}: [{row.name}] has {_short(kind)} among its {field}, which is not "
                f"known; known are {', '.join(known)}."
            )


def _kinds(field: str) -> list[str]:
    return sorted({kind for row in shipped().values() for kind in getattr(row, field)})


def _owners() -> dict[str, str]:
    """Who each spoken name of the catalogue belongs to, kit included."""
    kit = _claimed(raw("cuewright.movements", "kit.toml").items())
    rows = shipped().values()
    return kit | _claimed((row.name, (row.name.replace("-", " "), *row.said)) for row in rows)


def _claimed(names: Iterable[tuple[str, Iterable[str]]]) -> dict[str, str]:
    return {_alike(name): owner for owner, said in names for name in said}


def _claim(where: str, names: Mapping[str, Iterable[str]], owners: dict[str, str]) -> None:
    """Give each name to its movement; raises BadTable when it is another's or cannot be heard."""
    for movement, said in names.items():
        for name in said:
            if len(name) > _LONGEST or not _SPOKEN.fullmatch(name):
                raise BadTable(
                    f"{where}: [{movement}] cannot be called {_short(name)!r}; use words of "
                    f"letters, with digits if need be, {_LONGEST} signs at most."
                )
            owner = owners.setdefault(_alike(name), movement)
            if owner != movement:
                raise BadTable(
                    f"{where}: [{movement}] cannot be called {name!r}, which already "
                    f"belongs to {owner}; choose another name."
                )


def _alike(name: str) -> str:
    """The form under which the reader takes names to be the same."""
    from cuewright.phrases import stem  # loads spaCy, which a list of movements can do without

    return " ".join(map(stem, name.lower().replace("-", " ").split()))


def _short(name: str) -> str:
    return name if len(name) <= _LONGEST else f"{name[:_LONGEST]}…"

"""What a folder of talks is checked by: ``cuewright.toml``, or a table in ``pyproject.toml``.

The file nearest to a talk holds, in the talk's own folder or one above it; in one folder
``cuewright.toml`` comes first. Paths in it are relative to it.
"""

import os
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from pydantic import ConfigDict, ValidationError

from cuewright.check import UnknownRule
from cuewright.check.choice import Limit, checked
from cuewright.errors import BadTable
from cuewright.reading import table
from cuewright.tables import misfit
from cuewright_models.base import Value

OWN, SHARED = "cuewright.toml", "pyproject.toml"


class Settings(Value):
    """The keys of the file. ``select`` empty is every rule."""

    model_config = ConfigDict(alias_generator=lambda name: name.replace("_", "-"))

    select: tuple[str, ...] = ()
    ignore: tuple[str, ...] = ()
    fail_on: Limit = "error"
    movements: Path | None = None
    baseline: Path | None = None


def settings_for(source: str) -> Settings:
    """What holds for a talk, for standard input what holds in the current folder.

    Raises BadTable as ``load``.
    """
    here = Path(os.path.abspath("-" if source == "-" else source)).parent
    for folder in (here, *here.parents):
        if os.path.exists(folder / OWN):
            return load(folder / OWN)
        if os.path.exists(folder / SHARED) and _shared(folder / SHARED) is not None:
            return load(folder / SHARED)
    return Settings()


def load(path: Path) -> Settings:
    """The settings in a file.

    Raises BadTable with one sentence that names the file and the key that does not fit.
    """
    fields = _shared(path) if path.name == SHARED else table(str(path), "settings")
    if not isinstance(fields, dict):
        raise BadTable(f"{path} has no [tool.cuewright]; add that table, or name another file.")
    _check_keys(path, fields)
    try:
        found = Settings.model_validate(fields)
    except ValidationError as error:
        raise BadTable(f"{path}: {misfit(error)}; correct that line.") from None
    _check_codes(path, found)
    paths = {"movements": found.movements, "baseline": found.baseline}
    # One name for one file, or two talks would each write their own version of it.
    known = {key: Path(os.path.abspath(path.parent / way)) for key, way in paths.items() if way}
    return found.model_copy(update=known)


def _shared(path: Path) -> Any:
    """Our table in a file that others share; ``None`` if there is none."""
    tool = table(str(path), "settings").get("tool")
    return tool.get("cuewright") if isinstance(tool, dict) else None


def _check_keys(path: Path, fields: dict[str, Any]) -> None:
    keys = [key.replace("_", "-") for key in Settings.model_fields]
    for key in fields:
        if key not in keys:
            nearest, *_ = get_close_matches(key, keys, n=1, cutoff=0)
            raise BadTable(f"{path}: there is no key {key[:60]!r}; did you mean {nearest}?")


def _check_codes(path: Path, found: Settings) -> None:
    for key, words in (("select", found.select), ("ignore", found.ignore)):
        try:
            checked(words)
        except UnknownRule as error:
            raise BadTable(f"{path}: {key}: {error}") from None

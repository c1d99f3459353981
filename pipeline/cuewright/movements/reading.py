"""A user's TOML file as a table, or one sentence that says why not."""

import re
import tomllib
from typing import Any

from cuewright.errors import BadTable

MAX_BYTES = 1_000_000
"""Larger files are refused: the shipped catalogue is a tenth of this."""


def table(path: str) -> dict[str, Any]:
    """What stands in the file.

    Raises BadTable for a file that is missing, forbidden, empty or too large, and for one
    that is not UTF-8 or no TOML, with the line.
    """
    text = _text(path)
    try:
        found = tomllib.loads(text)
    except RecursionError:
        raise BadTable(f"{path} is not TOML (nested too deeply); correct it.") from None
    except ValueError as error:  # also numbers with too many digits
        raise BadTable(f"{path} is not TOML {_place(str(error), text)}; correct it.") from None
    if not found:
        raise BadTable(f"{path} is empty; add a movement to it, or do without the file.")
    return found


def _text(path: str) -> str:
    try:
        with open(path, "rb") as stream:
            data = stream.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        raise BadTable(_why(path, error)) from None
    if len(data) > MAX_BYTES:
        raise BadTable(f"{path} is larger than 1 MB; give a file of movements alone.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadTable(f"{path} is not UTF-8 text; save it as UTF-8.") from None


def _why(path: str, error: OSError | ValueError) -> str:
    match error:
        case FileNotFoundError():
            return f"{path} does not exist; check the name and the folder."
        case IsADirectoryError():
            return f"{path} is a folder; give the file of movements inside it."
        case PermissionError():
            return f"{path} may not be read by you; change its permissions or copy it."
        case OSError():
            reason = (error.strerror or "unknown fault").lower()
            return f"{path} cannot be opened ({reason}); check the name and the disk."
    return "A file name cannot hold a NUL character; correct the name."


def _place(reason: str, text: str) -> str:
    """Where and why reading stopped: ``at line 3 (unclosed array)``; else the last line."""
    found = re.search(r"\(at line (\d+), column \d+\)", reason)
    line = found[1] if found else str(max(len(text.splitlines()), 1))
    why = re.sub(r"\s*\(at [^()]*\)$", "", reason)
    return f"at line {line} ({why[:1].lower()}{why[1:]})"

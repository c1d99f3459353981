"""A user's own small file, as text or as a table, or one sentence that says why not.

``what`` is what such a file holds, as the sentence has it: ``movements``, ``settings``.
"""

import re
import tomllib
from typing import Any

from cuewright.errors import BadTable

MAX_BYTES = 1_000_000
"""Larger files are refused: the shipped catalogue is a tenth of this."""


def table(path: str, what: str) -> dict[str, Any]:
    """What stands in the TOML file.

    Raises BadTable as ``text`` does, and for a file that is no TOML, with the line.
    """
    held = text(path, what)
    try:
        return tomllib.loads(held)
    except RecursionError:
        raise BadTable(f"{path} is not TOML (nested too deeply); correct it.") from None
    except ValueError as error:  # also numbers with too many digits
        raise BadTable(f"{path} is not TOML {_place(str(error), held)}; correct it.") from None


def text(path: str, what: str) -> str:
    """The words of the file.

    Raises BadTable for a file that is missing, forbidden, too large or not UTF-8.
    """
    try:
        with open(path, "rb") as stream:
            data = stream.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        raise BadTable(_why(path, what, error)) from None
    if len(data) > MAX_BYTES:
        raise BadTable(f"{path} is larger than 1 MB; give a file of {what} alone.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadTable(f"{path} is not UTF-8 text; save it as UTF-8.") from None


def _why(path: str, what: str, error: OSError | ValueError) -> str:
    match error:
        case FileNotFoundError():
            return f"{path} does not exist; check the name and the folder."
        case IsADirectoryError():
            return f"{path} is a folder; give the file of {what} inside it."
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

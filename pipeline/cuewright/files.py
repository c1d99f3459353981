"""Whole files only: written under another name beside the target, then renamed."""

import errno
import os
from pathlib import Path
from secrets import token_hex

from cuewright.errors import CuewrightError


def write(path: Path | str, text: str) -> None:
    """Put ``text`` into ``path`` as UTF-8, replacing what is there: all of it or nothing.

    Missing folders are made. Raises CuewrightError when the place cannot be written to,
    the disk is full or a folder has that name.
    """
    put(path, text.encode("utf-8"))


def put(path: Path | str, data: bytes) -> None:
    """As ``write``, of bytes as they are."""
    target = Path(path)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        _replace(target, data)
    except OSError as error:
        raise CuewrightError(_reason(target, error)) from error


def _replace(target: Path, data: bytes) -> None:
    """A rename is whole only inside one file system, so the other name is a neighbour."""
    made = target.parent / f".{token_hex(8)}.part"
    try:
        with made.open("xb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        made.replace(target)
    except BaseException:
        made.unlink(missing_ok=True)
        raise


def _reason(target: Path, error: OSError) -> str:
    match error:
        case PermissionError():
            return f"{target}: no permission to write there; choose another folder."
        case IsADirectoryError() | NotADirectoryError() | FileExistsError():
            return f"{target}: a folder or file is in the way; remove it or choose another name."
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return f"{target}: no space left on the disk; free some or choose another folder."
    return f"{target}: cannot be written ({error.strerror}); choose another name or folder."

"""What was heard of a recording, kept so that nothing is heard twice.

A window is a line of a file named by the recording's content, the model and the options;
once all are there, they become one file of their own.
"""

import hashlib
import json
import os
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from pydantic import ValidationError

from cuewright import files
from cuewright.errors import CuewrightError
from cuewright_models.base import Value
from cuewright_models.hearing import Hearing, LeftOut, Piece

if TYPE_CHECKING:
    from collections.abc import Mapping


class Done(Value):
    """A window that was heard: where its search began, where it starts, what was said."""

    block: int
    start: int
    end: int
    language: str
    pieces: tuple[Piece, ...]
    left_out: tuple[LeftOut, ...]


class Kept:
    """The lines of one recording under one set of options."""

    def __init__(self, folder: Path, key: "Mapping[str, str | int | None]") -> None:
        """``key`` is all that decides what is heard."""
        told = json.dumps(dict(key), sort_keys=True)
        name = hashlib.sha256(told.encode()).hexdigest()[:32]
        self._lines = folder / f"{name}.windows"
        self._whole = folder / f"{name}.json"

    def finished(self) -> Hearing | None:
        """The whole of it, if it was heard to the end."""
        try:
            return Hearing.model_validate_json(self._whole.read_bytes())
        except (OSError, ValidationError):
            return None

    def windows(self) -> list[Done]:
        """The windows heard so far, in order; a line that was cut off is none."""
        found = {done.start: done for done in self._read()}
        return [found[start] for start in sorted(found)]

    def _read(self) -> Iterator[Done]:
        try:
            lines = self._lines.read_bytes().split(b"\n")
        except OSError:
            return
        for line in lines:
            try:
                yield Done.model_validate_json(line)
            except ValidationError:
                continue

    def add(self, done: Done) -> None:
        """Keep one window; it is on the disk when this returns."""
        line = b"\n" + done.model_dump_json().encode() + b"\n"  # a cut line before it ends here
        try:
            self._lines.parent.mkdir(parents=True, exist_ok=True)
            with self._lines.open("ab") as out:
                out.write(line)
                out.flush()
                os.fsync(out.fileno())
        except OSError as error:
            raise CuewrightError(
                f"What was heard cannot be kept in {self._lines.parent} "
                f"({error.strerror}); make room there, or use --no-cache."
            ) from error

    def finish(self, hearing: Hearing) -> None:
        """Keep the whole in place of its windows."""
        files.write(self._whole, hearing.model_dump_json() + "\n")
        self._lines.unlink(missing_ok=True)

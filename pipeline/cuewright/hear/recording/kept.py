"""What was heard of a recording, kept so that nothing is heard twice.

A window is a line of a file named by the recording's content, the model and the options;
once all are there, they become one file of their own.
"""

import errno
import hashlib
import json
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from pydantic import ValidationError

from cuewright import files
from cuewright.errors import CuewrightError
from cuewright_models.base import Value
from cuewright_models.hearing import Hearing, LeftOut, Piece

if TYPE_CHECKING:
    from collections.abc import Mapping

_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)


class Done(Value):
    """The window ``number`` from 0 on: where its search began, where it starts, what was said."""

    number: int
    block: int
    start: int
    end: int
    language: str
    pieces: tuple[Piece, ...]
    left_out: tuple[LeftOut, ...]


class Kept:
    """The lines of one recording under one set of options.

    ``trouble`` is a sentence once it shows that nothing can be kept; no more is tried then.
    """

    def __init__(self, folder: Path | None, key: "Mapping[str, str | int | None]") -> None:
        """``key`` is all that decides what is heard; without a ``folder`` nothing is kept."""
        told = json.dumps(dict(key), sort_keys=True)
        name = hashlib.sha256(told.encode()).hexdigest()[:32]
        self._folder = folder
        self._lines = (folder or Path()) / f"{name}.windows"
        self._whole = (folder or Path()) / f"{name}.json"
        self.trouble: str | None = None

    def finished(self) -> Hearing | None:
        """The whole of it, if it was heard to the end."""
        try:
            return Hearing.model_validate_json(self._whole.read_bytes()) if self._folder else None
        except (OSError, ValidationError):
            return None

    def windows(self) -> list[Done]:
        """The windows heard so far without a gap, in order; a line that was cut off is none."""
        found = {done.number: done for done in self._read()}
        heard: list[Done] = []
        while (done := found.get(len(heard))) is not None:
            heard.append(done)
        return heard

    def _read(self) -> Iterator[Done]:
        try:
            lines = self._lines.read_bytes().split(b"\n") if self._folder else []
        except OSError:
            return
        for line in lines:
            try:
                yield Done.model_validate_json(line)
            except ValidationError:
                continue

    def add(self, done: Done) -> None:
        """Keep one window; it is on the disk when this returns.

        Raises CuewrightError when there is no room; what was kept before stays.
        """
        line = b"\n" + done.model_dump_json().encode() + b"\n"  # a cut line before it ends here
        with self._writing() as able:
            if able:
                self._lines.parent.mkdir(parents=True, exist_ok=True)
                with self._lines.open("ab") as out:
                    out.write(line)
                    out.flush()
                    os.fsync(out.fileno())

    def finish(self, hearing: Hearing) -> None:
        """Keep the whole in place of its windows; raises as ``add`` does."""
        with self._writing() as able:
            if able:
                files.write(self._whole, hearing.model_dump_json() + "\n")
                self._lines.unlink(missing_ok=True)

    @contextmanager
    def _writing(self) -> Iterator[bool]:
        """A disk that is full can be mended, one that is not ours need not stop anybody."""
        try:
            yield self._folder is not None and self.trouble is None
        except (OSError, CuewrightError) as error:
            fault = error if isinstance(error, OSError) else error.__cause__
            if isinstance(fault, OSError) and fault.errno in _FULL:
                raise CuewrightError(
                    f"There is no room in {self._folder} to keep what was heard; make some and "
                    "go on with the same command, or use --no-cache."
                ) from error
            why = (getattr(fault, "strerror", None) or "unknown fault").lower()
            self.trouble = (
                f"What was heard could not be kept in {self._folder} ({why}); "
                "the next time all is listened to again."
            )

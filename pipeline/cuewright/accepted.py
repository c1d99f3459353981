"""Findings that were accepted: a file of them, so that an archive sees only new ones.

A finding is known again by its talk, its rule, what it is about and the words it quotes,
not by times or by how the rule words it. Talks are named relative to the file.
"""

import os
import re
import unicodedata
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Literal

from pydantic import ValidationError

from cuewright import files
from cuewright.errors import BadTable
from cuewright.reading import text
from cuewright.tables import misfit
from cuewright_models.base import Value
from cuewright_models.finding import Finding

Key = tuple[str, str, str, tuple[str, ...]]


class Entry(Value):
    """One accepted finding; ``why`` is whatever the one who accepted it wrote there."""

    file: str
    rule: str
    about: str
    said: tuple[str, ...] = ()
    why: str | None = None

    @property
    def key(self) -> Key:
        """By what it is known again."""
        return self.file, self.rule, self.about, tuple(sorted({*map(_plain, self.said)}))


class Accepted(Value):
    """What the file holds."""

    format: Literal["cuewright-accepted/1"] = "cuewright-accepted/1"
    accepted: tuple[Entry, ...] = ()


def load(path: Path) -> Accepted:
    """What is accepted in the file. Raises BadTable with one sentence if it cannot be read."""
    held = text(str(path), "accepted findings")
    try:
        return Accepted.model_validate_json(held)
    except ValidationError as error:
        raise BadTable(
            f"{path} holds no accepted findings ({misfit(error)}); mend it, or name another file."
        ) from None


def save(path: Path, accepted: Accepted) -> None:
    """Write the file whole or not at all, sorted. Raises CuewrightError with one sentence."""
    entries = tuple(sorted(accepted.accepted, key=lambda entry: entry.key))
    files.write(path, Accepted(accepted=entries).model_dump_json(indent=1) + "\n")


def name(source: str, path: Path) -> str:
    """The talk's name in the file at ``path``: its way from there, ``-`` for standard input."""
    if source == "-":
        return source
    try:
        way = os.path.relpath(source, path.parent)
    except ValueError:  # another drive
        way = os.path.abspath(source)
    return _written(Path(way).as_posix())


def fresh(accepted: Accepted, file: str, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings of a talk that are not accepted yet."""
    known = {entry.key for entry in _of(accepted, file)}
    return tuple(finding for finding in findings if _entry(file, finding).key not in known)


def gone(accepted: Accepted, file: str, findings: Iterable[Finding]) -> tuple[Entry, ...]:
    """What is accepted of a talk and is not among all its findings any more."""
    present = {_entry(file, finding).key for finding in findings}
    return tuple(entry for entry in _of(accepted, file) if entry.key not in present)


def renewed(
    accepted: Accepted, file: str, findings: Iterable[Finding], wanted: Iterable[Finding]
) -> Accepted:
    """The ``wanted`` findings of a talk accepted too, and those dropped that are gone.

    ``findings`` is all that the talk has. What was accepted keeps its reason, and other
    talks keep what they have.
    """
    left = gone(accepted, file, findings)
    before = [entry for entry in _of(accepted, file) if entry not in left]
    mine = _once((*before, *(_entry(file, finding) for finding in wanted)))
    others = (entry for entry in accepted.accepted if entry.file != file)
    return Accepted(accepted=(*others, *mine))


def _of(accepted: Accepted, file: str) -> Iterator[Entry]:
    return (entry for entry in accepted.accepted if entry.file == file)


def _once(entries: Iterable[Entry]) -> Iterable[Entry]:
    """Each finding once, the one that says why before one that does not."""
    kept: dict[Key, Entry] = {}
    for entry in entries:
        if entry.key not in kept or (entry.why and not kept[entry.key].why):
            kept[entry.key] = entry
    return kept.values()


def _entry(file: str, finding: Finding) -> Entry:
    said = dict.fromkeys(_written(place.quote) for place in finding.said)
    return Entry(file=file, rule=finding.rule, about=_written(finding.about), said=tuple(said))


def _plain(quote: str) -> str:
    """The words alone: captions made anew change case, points and line ends."""
    return " ".join(re.findall(r"\w+", unicodedata.normalize("NFKC", quote).casefold()))


def _written(words: str) -> str:
    """Words as UTF-8 can hold them: a file's name may have signs that it cannot."""
    return words.encode(errors="replace").decode()

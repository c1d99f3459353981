"""A talk and the description under it: where they disagree, and the description made true."""

from __future__ import annotations

from cuewright_models.base import Value
from cuewright_models.finding import Finding
from cuewright_models.plan import Source


class Edit(Value):
    """Characters ``start:end`` of the given description, ``old``, which become ``new``."""

    start: int
    end: int
    line: int
    """The line of ``start``, from 1."""
    old: str
    new: str


class Comparison(Value):
    """What ``cuewright compare`` gives.

    ``given`` and ``corrected`` are the texts of the description with the line ends of the
    file; they are the same where nothing differs. ``remaining`` are findings that no edit
    could take away; they need a writer.
    """

    talk: Source
    description: Source
    findings: tuple[Finding, ...] = ()
    given: str = ""
    corrected: str = ""
    edits: tuple[Edit, ...] = ()
    remaining: tuple[Finding, ...] = ()
    warnings: tuple[str, ...] = ()
    """Full sentences about how the two were read."""

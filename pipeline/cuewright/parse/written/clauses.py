"""A written session divided by its lines: the sections of its blocks, work and asides."""

from bisect import bisect_right
from collections.abc import Sequence
from typing import NamedTuple, cast

from cuewright_models.divided import Clause, Divided, Role, Section

_ASIDES: dict[Role, Section] = {
    "option": "scaling", "target": "targets", "cue": "cues", "advice": "pacing",
}  # fmt: skip
"""Where a talk would say what a line says beside the work."""


class Part(NamedTuple):
    """The tokens ``start:end`` of a line, which ask for ``work`` or do not."""

    start: int
    end: int
    section: str
    work: bool
    offered: bool = False
    """Whether it stands in a list of options."""


def clauses(divided: Divided, parts: Sequence[Part]) -> Divided:
    """The clauses with the section of their line; work is prescribed, nothing else is."""
    out: list[Clause] = []
    starts = [part.start for part in parts]
    for clause in divided.clauses:
        at = bisect_right(starts, clause.start) - 1
        part = parts[at]
        if at < 0 or clause.start >= part.end:
            out.append(_as(clause, "open", _unasked(clause)))
            continue
        role: Role = "prescription" if part.work else _unasked(clause)
        role = "option" if part.offered else role
        section = cast(Section, part.section) if part.work else _ASIDES.get(role, "open")
        out.append(_as(clause, section, role))
    return Divided(divided.reading, tuple(out))


def _as(clause: Clause, section: Section, role: Role) -> Clause:
    return Clause(clause.start, clause.end, section, role, clause.labels)


def _unasked(clause: Clause) -> Role:
    return "talk" if clause.role == "prescription" else clause.role

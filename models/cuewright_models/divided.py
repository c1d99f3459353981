"""The talk cut into clauses, each with the part of the talk it belongs to and its role."""

from dataclasses import dataclass
from typing import Literal

from cuewright_models.tokens import Reading

Section = Literal[
    "open", "warm-up", "work", "cool-down", "targets", "cues", "scaling", "pacing", "recap", "close"
]
Role = Literal[
    "prescription", "restatement", "target", "option", "cue", "advice", "claim", "example", "talk"
]


@dataclass(frozen=True, slots=True)
class Clause:
    """The half-open range of tokens ``start:end``; ``labels`` is the evidence and its counts."""

    start: int
    end: int
    section: Section
    role: Role
    labels: tuple[tuple[str, int], ...] = ()

    def has(self, label: str) -> bool:
        return any(name == label for name, _ in self.labels)


@dataclass(frozen=True, slots=True)
class Divided:
    """Clauses in order; they cover every token of the reading."""

    reading: Reading
    clauses: tuple[Clause, ...]

"""The board that a session is written up on, and the talk that it is taken from."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from cuewright.parse.calls import round_words
from cuewright.parse.corrections import corrections, taken_back
from cuewright.parse.drafts import Draft
from cuewright.parse.kit import kit_named
from cuewright.parse.spans import Row, row
from cuewright_models.divided import Clause, Divided, Section
from cuewright_models.tokens import Mention, Reading, norm_at, starting_in

NEAR = 25
"""Tokens within which two things are said together."""


@dataclass(slots=True)
class Board:
    """The drafts of the blocks so far, in the order said; the talk itself never changes."""

    reading: Reading
    clauses: tuple[Clause, ...]
    without: frozenset[int]
    """Tokens that were taken back."""
    rounds: frozenset[str]
    """What this coach calls a round, beside the words that all do."""
    kit: Counter[str]
    """How often each kit is spoken of."""
    phrases: tuple[Mention, ...] = ()
    """The phrases of ``blocks.toml`` in the talk."""
    drafts: list[Draft] = field(default_factory=list)
    overruled: Section | None = None
    """A section of the talk that holds work, as a block named in it shows."""

    @property
    def draft(self) -> Draft:
        """The block that is being said."""
        return self.drafts[-1]

    def start(self, draft: Draft) -> Draft:
        """Write what follows under a new block."""
        self.drafts.append(draft)
        return draft

    def norm(self, at: int) -> str:
        """The word at a token, empty before the first and after the last."""
        return norm_at(self.reading.tokens, at)

    def norms(self, start: int, end: int) -> list[str]:
        """The words of the tokens ``start:end``."""
        return [token.norm for token in self.reading.tokens[max(start, 0) : end]]

    def named(self, start: int, end: int) -> Sequence[Mention]:
        """The movements whose names begin in ``start:end``."""
        movements = self.reading.movements
        return starting_in(movements, start, end)

    def row(self, start: int, end: int) -> Row:
        """The tokens ``start:end`` as spans, less what was taken back."""
        return row(self.reading, start, end, without=self.without, rounds=self.rounds)


def wiped(divided: Divided) -> Board:
    """An empty board for a talk."""
    reading = divided.reading
    return Board(
        reading=reading,
        clauses=divided.clauses,
        without=taken_back(reading, corrections(reading)),
        rounds=round_words(reading),
        kit=kit_named(reading.stems),
    )

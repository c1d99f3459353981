"""What a stretch of talk is about: a movement, a round, the whole session or a block of it."""

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal

from cuewright.parse.names import Names
from cuewright.phrases import Phrases, stem
from cuewright.tables import raw
from cuewright_models.divided import Divided
from cuewright_models.plan import Block, Ladder, efforts
from cuewright_models.tokens import Amount, Reading

Kind = Literal["movement", "round", "partial", "total", "block", "pronoun"]
Places = Mapping[str, Sequence[tuple[int, int]]]
"""The token ranges in which each block was said, by its id."""
_EASY = ("warm-up", "mobility", "cool-down")
_FAR = 60
"""Tokens back to what a pronoun means, at most."""
_DETERMINERS = {
    "the", "each", "every", "those", "these", "that", "your", "of", "this", "them", "two", "per",
}  # fmt: skip
_PARTS = {"part", "bit", "piece", "block", "section", "thing"}
_SHAPES = {"ladder", "pyramid"}


@dataclass(frozen=True, slots=True)
class Subject:
    """Something spoken of over the tokens ``start:end``; ``about`` is what a plan calls it."""

    start: int
    end: int
    kind: Kind
    about: str


class Subjects:
    """Everything spoken of in a talk, in order."""

    def __init__(
        self, divided: Divided, blocks: Sequence[Block], names: Names, places: Places
    ) -> None:
        self._reading = divided.reading
        self._blocks = blocks
        self._names = names
        self._places = places
        self._work = [block for block in blocks if block.kind not in _EASY]
        self.worked = frozenset(names.work)
        self.all = self._found()
        self._starts = [subject.start for subject in self.all]

    def within(self, start: int, end: int) -> list[Subject]:
        """The subjects that begin in ``start:end``, in order."""
        return self.all[bisect_left(self._starts, start) : bisect_left(self._starts, end)]

    def meant(self, at: int) -> Subject | None:
        """What a pronoun at ``at`` stands for: what was last spoken of before it."""
        back = reversed(self.within(max(at - _FAR, 0), at))
        return next((s for s in back if s.kind in ("movement", "round", "block")), None)

    def prescribed(self, at: int) -> bool:
        """Whether a token stands in the words that prescribe a block."""
        return any(a <= at < b for spans in self._places.values() for a, b in spans)

    def seconds_of(self, about: str) -> set[float | None]:
        """The times that the session asks of a movement."""
        every = [e for block in self._blocks for e in efforts(block.items)]
        return {e.high for e in every if e.movement == about and e.unit == "s"}

    def _found(self) -> list[Subject]:
        """All subjects without overlaps; the longer one stands."""
        readings = (self._movements, self._plurals, self._distances, self._amounts, self._phrases)
        found = sorted(
            (subject for reading in readings for subject in reading()),
            key=lambda s: (s.start - s.end, s.kind == "pronoun", s.start),
        )
        taken: set[int] = set()
        kept = []
        for subject in found:
            if taken.isdisjoint(range(subject.start, subject.end)):
                taken.update(range(subject.start, subject.end))
                kept.append(subject)
        return sorted(kept, key=lambda subject: subject.start)

    def _movements(self) -> Iterator[Subject]:
        for named in self._names.named:
            yield Subject(named.start, named.end, "movement", named.name)

    def _plurals(self) -> Iterator[Subject]:
        """ "the presses": the first movement of the work whose name ends so."""
        tokens, stems = self._reading.tokens, self._reading.stems
        last = {stem(name.split("-")[-1]): name for name in reversed(self._names.work)}
        for at in range(1, len(tokens)):
            plural = tokens[at].norm != stems[at] and stems[at] in last
            if plural and tokens[at - 1].norm in _DETERMINERS:
                yield Subject(at, at + 1, "movement", last[stems[at]])

    def _distances(self) -> Iterator[Subject]:
        """ "the mile": a movement told by a distance without a number."""
        tokens = self._reading.tokens
        for at in range(1, len(tokens)):
            metres = _distances().get(tokens[at].norm)
            if metres and tokens[at - 1].norm in _DETERMINERS:
                movement = self._of_length(metres)
                if movement is not None:
                    yield Subject(at, at + 1, "movement", movement)

    def _amounts(self) -> Iterator[Subject]:
        """ "each 500": a movement told by its distance."""
        tokens = self._reading.tokens
        for amount in self._reading.amounts:
            before = tokens[amount.start - 1].norm if amount.start else ""
            movement = self._by_amount(amount) if before in _DETERMINERS else None
            if movement is not None:
                yield Subject(amount.start, amount.end, "movement", movement)

    def _by_amount(self, amount: Amount) -> str | None:
        if amount.unit not in (None, "m") or amount.shape != "one" or not amount.low:
            return None
        return self._of_length(amount.low)

    def _of_length(self, wanted: float) -> str | None:
        for block in self._work:
            for effort in efforts(block.items):
                metres = effort.unit == "m" and effort.low
                if metres and abs(metres - wanted) <= 0.01 * metres:
                    return effort.movement
        return None

    def _phrases(self) -> Iterator[Subject]:
        for mention in _phrases().everywhere(self._reading.stems):
            if mention.name == "block":
                about = self.block_of(mention.start, mention.end)
                if about is not None:
                    yield Subject(mention.start, mention.end, "block", about)
            else:
                about = "" if mention.name == "pronoun" else mention.name
                yield Subject(mention.start, mention.end, mention.name, about)  # type: ignore[arg-type]
        yield from self._parts()
        for at, token in enumerate(self._reading.tokens):
            if token.norm == "rounds" and not any(a.end == at for a in self._reading.amounts):
                yield Subject(at, at + 1, "round", "round")

    def _parts(self) -> Iterator[Subject]:
        """ "the grass part", "the bench bit": a block by a word that was said in it."""
        tokens = self._reading.tokens
        for at in range(2, len(tokens)):
            if tokens[at].norm in _PARTS and tokens[at - 2].norm == "the":
                about = self.block_of(at - 1, at)
                if about is not None:
                    yield Subject(at - 2, at + 1, "block", about)

    def block_of(self, start: int, end: int) -> str | None:
        """What a part is called as a target: its block, or the total when it is all the work."""
        found = self.block_id(start, end)
        return "total" if found is not None and len(self._work) == 1 else found

    def block_id(self, start: int, end: int) -> str | None:
        """The working block in whose prescription the words ``start:end`` were said first."""
        stems = [word for word in self._reading.stems[start:end] if word not in ("the", "whole")]
        if not stems:
            return None
        if _SHAPES & set(stems):
            shaped = [b.id for b in self._work if any(isinstance(i, Ladder) for i in b.items)]
            if len(shaped) == 1:
                return shaped[0]
        for block in self._work:
            if any(_holds(self._reading, place, stems) for place in self._places.get(block.id, ())):
                return block.id
        return None


def _holds(reading: Reading, place: tuple[int, int], stems: Sequence[str]) -> bool:
    """Whether the words stand in a place in this order."""
    said = reading.stems[place[0] : place[1]]
    width = len(stems)
    return any(list(said[at : at + width]) == list(stems) for at in range(len(said) - width + 1))


@cache
def _phrases() -> Phrases:
    table = raw("cuewright.parse", "subjects.toml")
    return Phrases({name: row["said"] for name, row in table.items() if "said" in row})


@cache
def _distances() -> dict[str, float]:
    """The metres of a distance that is said without a number."""
    table: dict[str, float] = raw("cuewright.parse", "subjects.toml")["metres"]
    return table

"""What a stretch of talk is about: a movement, a round, the whole session or a block of it."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import accumulate
from typing import Any, Literal

from cuewright.parse.names import Names
from cuewright.phrases import Phrases, stem
from cuewright.tables import raw
from cuewright_models.divided import Divided
from cuewright_models.plan import Amrap, Block, Every, Ladder, Repeat, efforts
from cuewright_models.tokens import Amount

Kind = Literal["movement", "round", "partial", "total", "block", "pronoun"]
Places = Mapping[str, Sequence[tuple[int, int]]]
"""The token ranges in which each block was said, by its id."""
_EASY = ("warm-up", "mobility", "cool-down")
_FAR = 60
"""Tokens back to what a pronoun means, at most."""
_DETERMINERS = {
    "the", "each", "every", "those", "these", "that", "your", "of", "this", "them", "two", "per",
}  # fmt: skip
_LEAD = 30
"""Tokens before a block's first words in which it may be announced by a name."""
_HEAD = 10
"""Tokens on either side of a block's start that head it."""
_SHORT = 3
"""Letters of a word that names nothing."""


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
        self._prescribed = _Spans(span for spans in places.values() for span in spans)
        self._announced = {block.id: _Spans(self._with_leads(block.id)) for block in self._work}
        self._headed = {block.id: _Spans(self._heading(block.id)) for block in self._work}
        self._homes: dict[tuple[str, ...], str | None] = {}
        self._where = _positions(divided.reading.stems)
        self._seconds = _seconds(blocks)
        done = [effort for block in self._work for effort in efforts(block.items)]
        self._measured = frozenset(effort.movement for effort in done if effort.unit == "m")
        self.worked = frozenset(names.work)
        self.known = frozenset(names.known)
        self.eased = frozenset(names.session) - self.worked
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
        return self._prescribed.hold(at)

    def seconds_of(self, about: str) -> frozenset[float | None]:
        """The times that the session asks of a movement."""
        return self._seconds.get(about, frozenset())

    def open_ended(self) -> str | None:
        """The one block that is done for as many rounds as possible."""
        found = [block.id for block in self._work if isinstance(block.structure, Amrap)]
        return self._alone(found[0]) if len(found) == 1 else None

    def told_at(self, at: int) -> Subject | None:
        """The movement of the block that was being told at ``at``, if it has only one."""
        for block in self._work:
            spans = self._places.get(block.id, ())
            if any(start <= at < end + _LEAD for start, end in spans):
                names = {effort.movement for effort in efforts(block.items)} - {"walk"}
                return Subject(at, at, "movement", names.pop()) if len(names) == 1 else None
        return None

    def home(self, at: int) -> Subject | None:
        """The block of work that was being told at ``at``."""
        found = None
        for block in self._work:
            spans = self._places.get(block.id, ())
            if any(start <= at < end + _LEAD for start, end in spans):
                found = Subject(at, at, "block", self._alone(block.id))
        return found

    def goes_on(self, home: Subject) -> bool:
        """Whether more work follows a block."""
        return home.about in [block.id for block in self._work[:-1]]

    def turn(self, at: int) -> Subject | None:
        """The round of a clock with several movements a start, told at ``at``."""
        home = self.home(at)
        block = next((b for b in self._work if home and b.id == home.about), None)
        if block is None and home is not None and len(self._work) == 1:
            block = self._work[0]
        if block is None or not isinstance(block.structure, Every):
            return None
        several = len({effort.movement for effort in efforts(block.items)}) > 1
        return Subject(at, at, "round", "round") if several else None

    def only(self) -> Subject | None:
        """The one movement of the main work, where it has no other."""
        names = self.worked - {"walk"}
        return Subject(0, 0, "movement", next(iter(names))) if len(names) == 1 else None

    def measured(self, about: str) -> bool:
        """Whether the session asks for a movement in metres."""
        return about in self._measured

    def theme(self, start: int, end: int) -> Subject | None:
        """The last "the boxing" in ``start:end``: a block by a word that only it was told with."""
        tokens = self._reading.tokens
        for at in range(end - 1, start, -1):
            named = len(tokens[at].norm) > _SHORT and tokens[at].norm not in _words()["not-theme"]
            if named and tokens[at - 1].norm in ("the", "that"):
                homes = [b.id for b in self._work if self._told(b.id, [self._reading.stems[at]])]
                if len(homes) == 1:
                    return Subject(at - 1, at + 1, "block", self._alone(homes[0]))
        return None

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
        tokens, table = self._reading.tokens, _distances()
        for at in range(1, len(tokens)):
            metres = table.get(tokens[at].norm)
            if metres and tokens[at - 1].norm in _DETERMINERS:
                movement = self._of_length(metres)
                if movement is not None:
                    yield Subject(at, at + 1, "movement", movement)

    def _amounts(self) -> Iterator[Subject]:
        """ "each 500": a movement told by its distance."""
        tokens = self._reading.tokens
        for amount in self._reading.amounts:
            before = tokens[amount.start - 1].norm if amount.start else ""
            several = amount.end < len(tokens) and tokens[amount.end].norm == "s"
            named = several or before in _DETERMINERS
            movement = self._by_amount(amount) if named else None
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
        yield from self._wholes()
        yield from self._shapes()
        yield from self._rounds()
        yield from self._named_rounds()

    def _rounds(self) -> Iterator[Subject]:
        """ "The rounds", "each of the five rounds"; "five rounds" alone is work."""
        tokens = self._reading.tokens
        counts = {amount.end: amount.start for amount in self._reading.amounts}
        for at, token in enumerate(tokens):
            if token.norm != "rounds":
                continue
            first = counts.get(at)
            before = [t.norm for t in tokens[max((first or 0) - 3, 0) : first or 0]]
            if first is None:
                yield Subject(at, at + 1, "round", "round")
            elif before[-2:-1] == ["of"] and before[0] in ("each", "all", "every"):
                yield Subject(first, at + 1, "round", "round")

    def _named_rounds(self) -> Iterator[Subject]:
        """ "Each street", where five streets are the rounds."""
        reading = self._reading
        counts = {times for block in self._work for times in _rounds_of(block)}
        nouns = {
            reading.stems[amount.end]
            for amount in reading.amounts
            if amount.unit is None and amount.low in counts and amount.end < len(reading.stems)
            if reading.tokens[amount.end].norm != reading.stems[amount.end]
            and reading.stems[amount.end] not in _words()["no-rounds"]
        }
        for at in range(1, len(reading.tokens)):
            if reading.stems[at] in nouns and reading.tokens[at - 1].norm in (
                "each",
                "every",
                "per",
            ):
                yield Subject(at - 1, at + 1, "round", "round")

    def _parts(self) -> Iterator[Subject]:
        """ "the grass part", "the weights corner", "part two": a block by a word said in it."""
        tokens, table = self._reading.tokens, _words()
        for at in range(1, len(tokens)):
            if tokens[at].norm not in table["parts"]:
                continue
            if tokens[at - 1].norm == "this" and (home := self.home(at)):
                yield Subject(at - 1, at + 1, "block", home.about)
            if at > 1 and tokens[at - 2].norm in table["this"] and not tokens[at - 1].after:
                rank = table["order"].get(tokens[at - 1].norm)
                about = self.block_of(at - 1, at + 1) or (
                    self._ranked(rank) if rank else self.block_of(at - 1, at)
                )
                if about is not None:
                    yield Subject(at - 2, at + 1, "block", about)

    def _wholes(self) -> Iterator[Subject]:
        """ "the whole caper": everything, by whatever name."""
        tokens = self._reading.tokens
        for at in range(1, len(tokens) - 1):
            if tokens[at].norm not in ("whole", "entire"):
                continue
            before, after = tokens[at - 1].norm, tokens[at + 1].norm
            if before in _words()["this"] and after not in _words()["not-whole"]:
                yield Subject(at - 1, at + 2, "total", "total")

    def _shapes(self) -> Iterator[Subject]:
        """ "The countdown", "the whole ladder": a block by its shape."""
        tokens, table = self._reading.tokens, _words()
        for at in range(1, len(tokens)):
            if tokens[at].norm in table["shapes"]:
                first = at - 1 if tokens[at - 1].norm in ("whole", "entire") else at
                about = self.block_of(at, at + 1) if first else None
                if about is not None and tokens[first - 1].norm in table["this"]:
                    yield Subject(first - 1, at + 1, "block", about)

    def _ranked(self, rank: int) -> str | None:
        """The block of work that is done as the ``rank``-th."""
        return self._alone(self._work[rank - 1].id) if rank <= len(self._work) else None

    def block_of(self, start: int, end: int) -> str | None:
        """What a part is called as a target: its block, or the total when it is all the work."""
        found = self.block_id(start, end)
        return None if found is None else self._alone(found)

    def _alone(self, block: str) -> str:
        return "total" if len(self._work) == 1 else block

    def block_id(self, start: int, end: int) -> str | None:
        """The working block in whose prescription the words ``start:end`` were said first."""
        stems = [word for word in self._reading.stems[start:end] if word not in ("the", "whole")]
        if not stems:
            return None
        for shape in _words()["shapes"].keys() & set(stems):
            shaped = [b.id for b in self._work if _is(b, _words()["shapes"][shape])]
            if len(shaped) == 1:
                return shaped[0]
        key = tuple(stems)
        if key not in self._homes:
            self._homes[key] = self._home_of(stems)
        return self._homes[key]

    def _home_of(self, stems: Sequence[str]) -> str | None:
        """The first block that is headed by the words, else the first told with them."""
        at = self._said(stems)
        for told in (self._headed, self._announced):
            found = next((b.id for b in self._work if any(map(told[b.id].hold, at))), None)
            if found is not None:
                return found
        return None

    def _told(self, block: str, stems: Sequence[str]) -> bool:
        """Whether the words stand in this order where a block was announced or told."""
        return any(map(self._announced[block].hold, self._said(stems)))

    def _said(self, stems: Sequence[str]) -> list[int]:
        """Every place of the words in this order."""
        width = len(stems)
        return [
            at
            for at in self._where.get(stems[0], ())
            if list(self._reading.stems[at : at + width]) == list(stems)
        ]

    def _heading(self, block: str) -> Iterator[tuple[int, int]]:
        """The words right around a block's start, where it is mostly called by its name."""
        for start, _ in list(self._places.get(block, ()))[:1]:
            yield max(start - _HEAD, 0), start + _HEAD

    def _with_leads(self, block: str) -> Iterator[tuple[int, int]]:
        """A block's places, the first with the words that announce it."""
        for nth, (start, end) in enumerate(self._places.get(block, ())):
            yield (self._prescribed.end_before(start, _LEAD) if nth == 0 else start), end


class _Spans:
    """Half-open ranges of tokens, asked often."""

    def __init__(self, spans: Iterable[tuple[int, int]]) -> None:
        self._spans = sorted(spans)
        self._starts = [start for start, _ in self._spans]
        self._ends = list(accumulate((end for _, end in self._spans), max))

    def hold(self, at: int) -> bool:
        nth = bisect_right(self._starts, at) - 1
        return nth >= 0 and at < self._ends[nth]

    def end_before(self, at: int, reach: int) -> int:
        """``at`` less ``reach``, or the end of the range before it if that is nearer."""
        nth = bisect_left(self._starts, at) - 1
        return max(at - reach, 0, min(self._ends[nth], at) if nth >= 0 else 0)


def _rounds_of(block: Block) -> Iterator[float]:
    """The rounds of a block's repeats."""
    for item in block.items:
        if isinstance(item, Repeat) and item.times.low:
            yield item.times.low


def _positions(stems: Sequence[str]) -> dict[str, list[int]]:
    found: dict[str, list[int]] = {}
    for at, word in enumerate(stems):
        found.setdefault(word, []).append(at)
    return found


def _seconds(blocks: Sequence[Block]) -> dict[str, frozenset[float | None]]:
    found: dict[str, set[float | None]] = {}
    for block in blocks:
        for effort in efforts(block.items):
            if effort.unit == "s":
                found.setdefault(effort.movement, set()).add(effort.high)
    return {movement: frozenset(times) for movement, times in found.items()}


def _is(block: Block, shape: str) -> bool:
    """Whether a block is of a structure, or has a rung list."""
    if shape == "ladder":
        return any(isinstance(item, Ladder) for item in block.items)
    return block.structure.kind == shape


@cache
def _words() -> dict[str, Any]:
    """The single words of subjects.toml, by what they do."""
    table: dict[str, Any] = raw("cuewright.parse", "subjects.toml")["words"]
    return {key: frozenset(said) if isinstance(said, list) else said for key, said in table.items()}


@cache
def _phrases() -> Phrases:
    table = raw("cuewright.parse", "subjects.toml")
    return Phrases({name: row["said"] for name, row in table.items() if "said" in row})


@cache
def _distances() -> dict[str, float]:
    """The metres of a distance that is said without a number."""
    table: dict[str, float] = raw("cuewright.parse", "subjects.toml")["metres"]
    return table

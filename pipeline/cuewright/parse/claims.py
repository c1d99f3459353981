"""Claims: what else is said that can be checked, apart from the length of things and kit.

Sums over all rounds, rounds and amounts said over again, and what is promised in the
description.
"""

from collections.abc import Iterator, Sequence

from cuewright.movements.catalogue import catalogue
from cuewright.parse.build import Quote
from cuewright.parse.equipment import kit_claims
from cuewright.parse.lengths import Length, session_claims
from cuewright.parse.marks import Marks
from cuewright.parse.subjects import Places, Subject, Subjects
from cuewright_models.divided import Divided
from cuewright_models.plan import Block, Claim, Ladder, Repeat, efforts
from cuewright_models.tokens import Amount

_EASY = ("warm-up", "mobility", "cool-down")
_CUE = 12
"""Tokens between a sum and the words that call it one, at most."""
_ROW = 6
"""Tokens from one sum of a row of sums to the next, at most."""
_OF = 5
"""Tokens from an amount to what it is of, at most."""
_JOINS = frozenset("of on the your".split())
_KNOWN = frozenset("the those these them first last".split())
_RECAP = 45
"""Tokens that a summing up runs to."""
_ROUNDS = frozenset("round rounds times goes laps sets circuits".split())
_COUNTS = {"once": 1.0, "twice": 2.0, "thrice": 3.0}
_SOME = frozenset("first last final opening other next least most another not".split())


def claims(
    divided: Divided,
    blocks: Sequence[Block],
    subjects: Subjects,
    places: Places,
    marks: Marks,
    found: Sequence[Length],
    quote: Quote,
) -> tuple[Claim, ...]:
    """Every claim of a talk, by kind; ``found`` are the lengths that were said."""
    reader = Reader(divided, blocks, subjects, places, marks, quote)
    return (
        *session_claims(found, quote),
        *reader.sums(),
        *reader.rounds(),
        *reader.amounts(),
        *kit_claims(divided, marks, quote),
        *reader.promises(),
    )


class Reader:
    """Reads the claims that need the plan beside the talk."""

    def __init__(
        self,
        divided: Divided,
        blocks: Sequence[Block],
        subjects: Subjects,
        places: Places,
        marks: Marks,
        quote: Quote,
    ) -> None:
        self.tokens = divided.reading.tokens
        self.counts = [a for a in divided.reading.amounts if a.shape == "one" and a.low]
        self.efforts = [e for block in blocks for e in efforts(block.items)]
        self.divided = divided
        self.blocks = blocks
        self.subjects = subjects
        self.places = places
        self.marks = marks
        self.quote = quote

    # --- sums -----------------------------------------------------------------------------

    def sums(self) -> Iterator[Claim]:
        """Totals of reps or metres: the first beside words that say so, then its row."""
        last = -_ROW
        for amount in self.counts:
            claim = self._sum(amount)
            if claim is None:
                continue
            if any(e.movement == claim.about and e.low == claim.low for e in self.efforts):
                continue
            if self._cued(amount) or amount.start - last <= _ROW:
                last = self._end_of_sum(amount)
                yield claim

    def _sum(self, amount: Amount) -> Claim | None:
        about, unit, end = self._summed(amount)
        if about is None or amount.low is None:
            return None
        kind = "total-distance" if unit == "m" else "total-reps"
        said = (self.quote(amount.start, end),)
        return Claim(
            kind=kind,  # type: ignore[arg-type]
            about=about, unit=unit, low=amount.low, high=amount.high, said=said,
        )  # fmt: skip

    def _summed(self, amount: Amount) -> tuple[str | None, str, int]:
        """What an amount is of, in which unit, and where that ends."""
        unit = "m" if amount.unit == "m" else "reps"
        if amount.unit not in (None, "m") or self._norm(amount.start - 1) in _KNOWN:
            return None, unit, amount.end
        after = self._norm(amount.end)
        near = [
            s
            for s in self.subjects.within(amount.end, amount.end + _OF)
            if s.kind == "movement" and self._joined(amount.end, s.start)
        ]
        if near:
            return near[0].about, unit, near[0].end
        if unit == "reps" and after in ("rep", "reps", "repetitions"):
            return "total", unit, amount.end + 1
        return None, unit, amount.end

    def _end_of_sum(self, amount: Amount) -> int:
        return self._summed(amount)[2]

    def _cued(self, amount: Amount) -> bool:
        return bool(self.marks.inside("sum", *self.marks.around(amount.start, amount.end, _CUE)))

    def _joined(self, start: int, end: int) -> bool:
        """Whether nothing but "of", "on the" and the like stands between ``start`` and ``end``."""
        between = self.tokens[start:end]
        parted = any(token.after for token in self.tokens[start - 1 : end - 1])
        return not parted and all(token.norm in _JOINS for token in between)

    # --- rounds and amounts said over again --------------------------------------------------

    def rounds(self) -> Iterator[Claim]:
        """Rounds in a summing up, and those stated beside a list of rungs."""
        for start, end in self._recaps():
            for at, stop, count in self._turns(start, end):
                about = self._block_of_turns(at, stop, start, end)
                if about is not None:
                    yield self._rounds(about, count, at, stop)
        for block in self.blocks:
            if any(isinstance(item, Ladder) for item in block.items):
                yield from self._beside_rungs(block)

    def _rounds(self, about: str, count: float, start: int, end: int) -> Claim:
        return Claim(
            kind="rounds", about=about, unit="rounds", low=count, high=count,
            said=(self.quote(start, end),),
        )  # fmt: skip

    def _beside_rungs(self, block: Block) -> Iterator[Claim]:
        for start, end in self.places.get(block.id, ()):
            for at, stop, count in self._turns(start, end):
                if self._norm(stop - 1) in ("round", "rounds"):
                    yield self._rounds(block.id, count, at, stop)

    def _recaps(self) -> Iterator[tuple[int, int]]:
        """The stretches of talk in which the work is said over again."""
        heads = [(m.start, m.end + _RECAP) for m in self.marks.all("recap")]
        restated = [(c.start, c.end) for c in self.divided.clauses if c.role == "restatement"]
        done = 0
        for start, end in sorted((*heads, *restated)):
            limit = min(end, len(self.tokens))
            ends = self.marks.inside("recap-ends", max(start, done), limit)
            stop = min([limit, *(m.start for m in ends)])
            if stop > max(start, done):
                yield max(start, done), stop
                done = stop

    def _turns(self, start: int, end: int) -> Iterator[tuple[int, int, float]]:
        """Counts of rounds: "five rounds", "three times", "twice"."""
        for amount in self.counts:
            following = self._norm(amount.end)
            if start <= amount.start and amount.end < end and following in _ROUNDS:
                if amount.unit is None and self._norm(amount.start - 1) not in _SOME and amount.low:
                    yield amount.start, amount.end + 1, amount.low
        for at in range(start, end):
            if self.tokens[at].norm in _COUNTS and self._norm(at + 1) not in ("a", "as", "more"):
                yield at, at + 1, _COUNTS[self.tokens[at].norm]

    def _block_of_turns(self, at: int, stop: int, start: int, end: int) -> str | None:
        """The block that a count of rounds is about: "rounds of the run", "the core twice"."""
        after = self._norm(stop) in ("of", "on", "at")
        kinds = ("movement", "block")
        if after:
            named = [s for s in self.subjects.within(stop, min(stop + _OF + 1, end)) if s.kind in kinds]
            noun = next((i for i in range(stop + 1, min(stop + 4, end)) if self._norm(i - 1) == "the"), None)
            found = named[0] if named else None
        else:
            named = [s for s in self.subjects.within(max(at - _OF, start), at) if s.kind in kinds]
            found, noun = (named[-1] if named else None), None
        if found is not None:
            return self._home(found)
        if noun is not None:
            return self.subjects.block_id(noun, noun + 1)
        return self._sole(self._norm(stop - 1))

    def _home(self, subject: Subject) -> str | None:
        """The one working block that a movement or a part belongs to."""
        if subject.kind == "block":
            return self.subjects.block_id(subject.start, subject.end)
        homes = [b for b in self.blocks if any(e.movement == subject.about for e in efforts(b.items))]
        work = [block for block in homes if block.kind not in _EASY]
        homes = work or homes
        return homes[0].id if len(homes) == 1 else None

    def _sole(self, word: str) -> str | None:
        """The only working block that goes round, or the only one in sets."""
        if word not in ("round", "rounds", "set", "sets"):
            return None
        in_sets = word in ("set", "sets")
        turning = [
            block.id
            for block in self.blocks
            if block.kind not in _EASY
            and (block.structure.kind == "sets") == in_sets
            and (block.structure.kind == "intervals" or any(isinstance(i, Repeat) for i in block.items))
        ]
        return turning[0] if len(turning) == 1 else None

    def amounts(self) -> Iterator[Claim]:
        """Amounts of movements said over again in a summing up."""
        own = [place for spans in self.places.values() for place in spans]
        for start, end in self._recaps():
            for amount in self.counts:
                if not start <= amount.start < end or any(a <= amount.start < b for a, b in own):
                    continue
                about, unit, stop = self._summed(amount)
                if about in catalogue() and not self._cued(amount):
                    yield Claim(
                        kind="restated", about=str(about), unit=unit, low=amount.low,
                        high=amount.high, said=(self.quote(amount.start, stop),),
                    )  # fmt: skip

    # --- promises -------------------------------------------------------------------------

    def promises(self) -> Iterator[Claim]:
        """What the coach says is written down, or is done, elsewhere."""
        for mention in self.marks.all("promise"):
            start = max(self.marks.clause(mention.start)[0], mention.start - _CUE)
            named = [s for s in self.subjects.within(start, mention.start) if s.kind == "movement"]
            about = named[-1].about if named else "description"
            said = (self.quote(start, mention.end),)
            yield Claim(kind="in-description", about=about, said=said)
        for mention in self.marks.all("elsewhere"):
            said = (self.quote(mention.start, mention.end),)
            yield Claim(kind="in-description", about="warm-up", said=said)

    def _norm(self, at: int) -> str:
        return self.tokens[at].norm if 0 <= at < len(self.tokens) else ""

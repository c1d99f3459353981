"""The work said over again: rounds and amounts in a summing up, rounds beside a rung list."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import pairwise

from cuewright.movements.catalogue import catalogue
from cuewright.parse.build import Quote
from cuewright.parse.marks import Marks
from cuewright.parse.subjects import Places, Subject, Subjects
from cuewright.parse.sums import EASY, Sums, words
from cuewright_models.divided import Divided
from cuewright_models.plan import Amrap, Block, Claim, Effort, Ladder, Repeat, efforts
from cuewright_models.tokens import Amount, norm_at, starting_in

_RECAP = 45
"""Tokens that a summing up runs to."""
_BESIDE = 5
"""Tokens between a count of rounds and what goes round, at most."""
_SUMMED = 60
"""Tokens after a rung list in which its rounds may be counted."""
_CLOSE = 4
"""Tokens from a count to what says that it is of the warm-up, at most."""
_IN_ALL = ("in all", "in total", "all told", "all up")
_PAIR = 2
_BACK = 12
"""Tokens before a count in which it may be said that it is another day's."""
_RUNGS = ("round", "rounds", "sets")
"""What the rungs of a list are counted in."""
_SHORTEST = 120
"""Seconds; less is no length of a block."""
_MAKES = {"that's", "makes", "is", "it's", "so", "total"}
_AT_ONCE = {"singles": 1.0, "doubles": 2.0, "triples": 3.0}
"""Lifts of one set, as lifters call them."""
_COUNTS = {"once": 1.0, "twice": 2.0, "thrice": 3.0}

Turns = tuple[int, int, float]
"""A count of rounds over the tokens ``start:end``."""


class Recaps:
    """Reads the stretches of talk in which the work is said over again."""

    def __init__(
        self,
        divided: Divided,
        blocks: Sequence[Block],
        subjects: Subjects,
        places: Places,
        marks: Marks,
        sums: Sums,
        quote: Quote,
    ) -> None:
        self._tokens = divided.reading.tokens
        self._blocks = blocks
        self._subjects = subjects
        self._places = places
        self._sums = sums
        self._quote = quote
        self._marks = marks
        self._recaps = list(_stretches(divided, marks))
        self._starts = [amount.start for amount in sums.counts]
        self._products = [
            amount
            for amount in divided.reading.amounts
            if amount.shape == "by" and amount.unit is None and len(amount.values) == _PAIR
        ]
        self._times = [
            amount
            for amount in divided.reading.amounts
            if amount.shape == "one" and amount.unit == "s" and (amount.low or 0) >= _SHORTEST
        ]
        self._done: dict[str, list[tuple[Block, Effort]]] = {}
        for block in blocks:
            for effort in efforts(block.items):
                self._done.setdefault(effort.movement, []).append((block, effort))
        self._turning = {
            in_sets: [block.id for block in blocks if _turns_over(block, in_sets=in_sets)]
            for in_sets in (False, True)
        }

    def rounds(self) -> Iterator[Claim]:
        """Rounds in a summing up, and those stated beside a list of rungs."""
        for start, end in self._recaps:
            for turns in self._turns(start, end):
                about = self._going_round(turns, start, end)
                if about is not None:
                    yield self._claim(about, turns)
            yield from self._lots(start, end)
            yield from self._by(start, end)
        yield from self._in_all()
        yield from self._announced()
        for block in self._blocks:
            if any(isinstance(item, Ladder) for item in block.items):
                yield from self._beside_rungs(block)
                yield from self._after_rungs(block)

    def amounts(self) -> Iterator[Claim]:
        """Amounts of movements in a summing up."""
        for start, end in self._recaps:
            for amount in self._counts(start, end):
                if self._subjects.prescribed(amount.start):
                    continue
                counted = self._sums.counted(amount)
                if counted and self._run_together(amount, counted.about):
                    continue
                if counted and counted.about in catalogue() and not self._sums.totals(amount):
                    yield Claim(
                        kind="restated",
                        about=counted.about,
                        unit=counted.unit,
                        low=amount.low,
                        high=amount.high,
                        said=(self._quote(amount.start, counted.end),),
                    )

    def _counts(self, start: int, end: int) -> list[Amount]:
        """The counts that begin in ``start:end``."""
        first, last = bisect_left(self._starts, start), bisect_left(self._starts, end)
        return self._sums.counts[first:last]

    def _run_together(self, amount: Amount, movement: str) -> bool:
        """Whether "sixty six" may be two numbers: "carry sixty, six flights"."""
        mine = {effort.low for _, effort in self._done.get(movement, ())}
        return amount.end - amount.start > 1 and (amount.low or 0) % 10 in mine

    def _claim(self, about: str, turns: Turns) -> Claim:
        start, end, count = turns
        said = (self._quote(start, end),)
        return Claim(kind="rounds", about=about, unit="rounds", low=count, high=count, said=said)

    def _lots(self, start: int, end: int) -> Iterator[Claim]:
        """ "Eight four hundreds", "six triples": so many times the amount of one block."""
        counts = self._counts(start, end)
        for count in counts:
            reps = _AT_ONCE.get(norm_at(self._tokens, count.end))
            homes = self._going(reps, "reps") if reps and count.unit is None else set()
            if len(homes) == 1:
                yield self._claim(homes.pop(), (count.start, count.end + 1, count.low or 0))
        for count, metres in pairwise(counts):
            if count.end == metres.start and count.unit is None:
                homes = self._going(metres.low, "m")
                if len(homes) == 1:
                    yield self._claim(homes.pop(), (count.start, metres.end, count.low or 0))

    def _in_all(self) -> Iterator[Claim]:
        """ "So that's four rounds in all", wherever it is said."""
        for turns in self._turns(0, len(self._tokens)):
            behind = " ".join(norm_at(self._tokens, turns[1] + at) for at in (0, 1))
            if behind in _IN_ALL and not self._subjects.prescribed(turns[0]):
                about = self._sole(turns[0], norm_at(self._tokens, turns[1] - 1))
                if about is not None:
                    yield self._claim(about, turns)

    def lengths(self) -> Iterator[Claim]:
        """ "Eight minutes of misery": in a summing up, the one clock that runs open-ended."""
        open_ended = [block.id for block in self._blocks if isinstance(block.structure, Amrap)]
        for start, end in self._recaps if len(open_ended) == 1 else ():
            for amount in starting_in(self._times, start, end):
                behind = self._named(amount.end, min(amount.end + _BESIDE, end))
                of = norm_at(self._tokens, amount.end) == "of"
                if of and not behind and not self._subjects.prescribed(amount.start):
                    yield Claim(
                        kind="total-time",
                        about=open_ended[0],
                        unit="s",
                        low=amount.low,
                        high=amount.high,
                        said=(self._quote(amount.start, amount.end),),
                    )

    def _announced(self) -> Iterator[Claim]:
        """ "Three easy rounds, then two little rounds of balance", before any work is told.

        They are the blocks that go round, in their order, where there are as many of both.
        """
        turning = [block.id for block in self._blocks if _turns_over(block, in_sets=False)]
        first = min((start for spans in self._places.values() for start, _ in spans), default=0)
        ahead = [turns for turns in map(self._ahead, self._counts(0, first)) if turns]
        if len(ahead) == len(turning):
            yield from map(self._claim, turning, ahead)

    def _ahead(self, amount: Amount) -> Turns | None:
        """A count of rounds with a word between or none: "three rounds", "two quick rounds"."""
        others = self._marks.inside("other-day", amount.start - _BACK, amount.start)
        for end in (amount.end, amount.end + 1) if not others else ():
            if amount.unit is None and norm_at(self._tokens, end) == "rounds":
                return amount.start, end + 1, amount.low or 0
        return None

    def _by(self, start: int, end: int) -> Iterator[Claim]:
        """ "Five by five squats": so many sets of so many reps of one movement."""
        for amount in starting_in(self._products, start, end):
            named = self._named(amount.end, min(amount.end + _BESIDE, end))
            named = [subject for subject in named if subject.start == amount.end]
            named = named or self._shortened(amount.end)
            if not named or named[0].kind != "movement":
                continue
            home, (sets, reps) = self._home(named[0]), amount.values
            if home is not None and not self._subjects.prescribed(amount.start):
                yield self._claim(home, (amount.start, named[0].end, sets))
                yield Claim(
                    kind="restated",
                    about=named[0].about,
                    unit="reps",
                    low=reps,
                    high=reps,
                    said=(self._quote(amount.start, named[0].end),),
                )

    def _shortened(self, at: int) -> list[Subject]:
        """The one movement of the session that begins with a word: "bench", "deadlift"."""
        word = norm_at(self._tokens, at)
        found = [name for name in self._done if word and name.split("-")[0] == word]
        return [Subject(at, at + 1, "movement", found[0])] if len(found) == 1 else []

    def _going(self, much: float | None, unit: str) -> set[str]:
        """The blocks that repeat an effort of so much; reps where they have no other."""
        return {
            block.id
            for found in self._done.values()
            for block, effort in found
            if effort.unit == unit and effort.low == much
            if any(isinstance(item, Repeat) for item in block.items)
            if unit == "m" or len(list(efforts(block.items))) == 1
        }

    def _beside_rungs(self, block: Block) -> Iterator[Claim]:
        for start, end in self._places.get(block.id, ()):
            for turns in self._turns(start, end):
                if self._of_rungs(turns):
                    yield self._claim(block.id, turns)

    def _of_rungs(self, turns: Turns) -> bool:
        """Whether rounds may be those of a rung list: not "three rounds of ten lunges"."""
        other = norm_at(self._tokens, turns[1]) == "of" and self._counts(turns[1], turns[1] + 3)
        return norm_at(self._tokens, turns[1] - 1) in _RUNGS and not other

    def _after_rungs(self, block: Block) -> Iterator[Claim]:
        """ "So that's five rounds", soon after the rungs and before any other block."""
        spans = self._places.get(block.id, ())
        end = max((end for _, end in spans), default=0)
        stop = end
        while spans and stop < min(end + _SUMMED, len(self._tokens)):
            if self._subjects.prescribed(stop):
                break
            stop += 1
        for turns in self._turns(end, stop):
            before = {token.norm for token in self._tokens[max(turns[0] - 2, 0) : turns[0]]}
            if self._of_rungs(turns) and before & _MAKES:
                yield self._claim(block.id, turns)

    def _turns(self, start: int, end: int) -> Iterator[Turns]:
        """Counts of rounds: "five rounds", "three times", "twice"."""
        for amount in self._counts(start, end):
            inside = amount.end < end and amount.unit is None
            some = norm_at(self._tokens, amount.start - 1) in words()["some"]
            if inside and not some and norm_at(self._tokens, amount.end) in words()["rounds"]:
                yield amount.start, amount.end + 1, amount.low or 0
        for at in range(start, end):
            if norm_at(self._tokens, at) in _COUNTS and norm_at(self._tokens, at + 1) not in (
                "a",
                "as",
                "more",
            ):
                yield at, at + 1, _COUNTS[norm_at(self._tokens, at)]

    def _going_round(self, turns: Turns, start: int, end: int) -> str | None:
        """The block that a count is about: "rounds of the run", "the core twice", "five rounds"."""
        at, stop, _ = turns
        once = norm_at(self._tokens, stop - 1) in _COUNTS  # "mobility once through, the jumps"
        links = ("of", "on", "at") if once else ("of", "on", "at", "through", "round", "around")
        if norm_at(self._tokens, stop) in links:
            named = self._named(stop, min(stop + _BESIDE + 1, end))
            if named:
                return self._home(named[0])
            noun = stop + 2 if norm_at(self._tokens, stop + 1) == "the" else None
            return self._subjects.block_id(noun, noun + 1) if noun and noun < end else None
        if self._of_easy(at, stop):
            return None
        named = self._named(max(at - _BESIDE, start), at)
        return self._home(named[-1]) if named else self._sole(at, norm_at(self._tokens, stop - 1))

    def _of_easy(self, at: int, stop: int) -> bool:
        """ "Two rounds to get warm", "warm-up, two rounds"."""
        after = {token.norm for token in self._tokens[stop : stop + _CLOSE]}
        before = [token.norm for token in self._tokens[max(at - _CLOSE, 0) : at]]
        led = "then" not in before and not words()["easy"].isdisjoint(before)
        return led or not words()["easy"].isdisjoint(after)

    def _named(self, start: int, end: int) -> list[Subject]:
        found = self._subjects.within(start, end)
        return [subject for subject in found if subject.kind in ("movement", "block")]

    def _home(self, subject: Subject) -> str | None:
        """The one block, a working one if there is, that a movement or a part belongs to."""
        if subject.kind == "block":
            return self._subjects.block_id(subject.start, subject.end)
        homes = {block.id: block for block, _ in self._done.get(subject.about, ())}
        working = [block.id for block in homes.values() if block.kind not in EASY]
        found = working or [*homes]
        return found[0] if len(found) == 1 else None

    def _sole(self, at: int, word: str) -> str | None:
        """The only working block told so far that goes round, or the only one in sets."""
        if word not in ("round", "rounds", "set", "sets", "laps", "circuits"):
            return None
        turning = self._turning[word in ("set", "sets")]
        turning = [block for block in turning if self._begun(block, at)] or turning
        return turning[0] if len(turning) == 1 else None

    def _begun(self, block: str, at: int) -> bool:
        return any(start < at for start, _ in self._places.get(block, ()))


def _turns_over(block: Block, *, in_sets: bool) -> bool:
    """Whether a working block is done in rounds, or with ``in_sets`` in sets."""
    kind = block.structure.kind
    if block.kind in EASY or (kind == "sets") != in_sets:
        return False
    return kind == "intervals" or any(isinstance(item, Repeat) for item in block.items)


def _stretches(divided: Divided, marks: Marks) -> Iterator[tuple[int, int]]:
    """Where the work is said over again; talk of other days and of options ends it."""
    heads = [(mention.start, mention.end + _RECAP) for mention in marks.all("recap")]
    again = [(c.start, c.end) for c in divided.clauses if c.role == "restatement"]
    done = 0
    for start, end in sorted((*heads, *again)):
        start, limit = max(start, done), min(end, len(divided.reading.tokens))
        stop = min([limit, *(m.start for m in marks.inside("recap-ends", start, limit))])
        if stop > start:
            yield start, stop
            done = stop

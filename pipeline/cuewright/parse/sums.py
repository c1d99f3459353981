"""Totals over all rounds: "that's 72 step-ups by the end, and 1,800 metres of running"."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from typing import NamedTuple

from cuewright.parse.build import Quote
from cuewright.parse.marks import Marks
from cuewright.parse.subjects import Subjects
from cuewright.tables import raw
from cuewright_models.divided import Divided
from cuewright_models.plan import Block, Claim, efforts
from cuewright_models.tokens import Amount, Token, norm_at, starting_in

_CUE = 12
"""Tokens between a sum and the words that call it one, at most."""
_ROW = 6
"""Tokens from one sum of a row of sums to the next, at most."""
_TURNS = frozenset(("round", "rounds", "laps", "lap", "sets", "set", "times", "goes"))
_IS = frozenset(("is", "are", "makes"))
EASY = ("warm-up", "mobility", "cool-down")
"""Kinds of block that are no work."""
_OF = 5
"""Tokens from an amount to what it is of, at most."""


class Counted(NamedTuple):
    """What an amount is of, in which unit, and the token after both."""

    about: str
    unit: str
    end: int


class Sums:
    """Reads amounts of something that words beside them call a total."""

    def __init__(
        self,
        divided: Divided,
        blocks: Sequence[Block],
        subjects: Subjects,
        marks: Marks,
        quote: Quote,
    ) -> None:
        self._tokens = divided.reading.tokens
        self._single = {
            (effort.movement, effort.low) for block in blocks for effort in efforts(block.items)
        }
        self._movements = {movement for movement, _ in self._single}
        metres = {
            effort.movement
            for block in blocks
            if block.kind not in EASY
            for effort in efforts(block.items)
            if effort.unit == "m"
        }
        self._metres = frozenset(metres)
        self._only_metres = metres.pop() if len(metres) == 1 else None
        """The one movement that the work measures in metres."""
        self._subjects = subjects
        self._marks = marks
        self._quote = quote
        told = (_exact(self._tokens, amount) for amount in divided.reading.amounts)
        self.counts = [amount for amount in told if amount.shape == "one" and amount.low]

    def claims(self) -> Iterator[Claim]:
        """Each total: the first of a row stands beside words that say so.

        An amount that the session asks for at one go is no total.
        """
        last = -_ROW
        for amount in self.counts:
            by_verb = self._by_verb(amount)
            counted = by_verb or self.counted(amount)
            if counted is None or (counted.about, amount.low) in self._single:
                continue
            some = by_verb is None and self._of_some_rounds(amount, counted.about)
            if some or self._of_others(amount):
                continue
            if by_verb or self.totals(amount) or amount.start - last <= _ROW:
                last = counted.end
                yield Claim(
                    kind="total-distance" if counted.unit == "m" else "total-reps",
                    about=counted.about,
                    unit=counted.unit,
                    low=amount.low,
                    high=amount.high,
                    said=(self._quote(amount.start, counted.end),),
                )

    def _by_verb(self, amount: Amount) -> Counted | None:
        """ "You'll have stood up 24 times", "32 times you've stood up": a movement by its verb."""
        if amount.unit is not None or norm_at(self._tokens, amount.end) != "times":
            return None
        norms = [token.norm for token in self._tokens]
        start, end = max(amount.start - _OF, 0), amount.end + 1
        before, behind = norms[start : amount.start], norms[end : end + _OF]
        for verb, movement in verbs().items():
            width = len(verb)
            done = before[-width - 1 :] if before[-width:] == [*verb] else behind[: width + 1]
            told = done[1:] == [*verb] and done[0] in words()["have"]
            if told and movement in self._movements:
                return Counted(movement, "reps", end)
        return None

    def _of_others(self, amount: Amount) -> bool:
        """Whether somebody else did it, or on another day."""
        start = self._marks.around(amount.start, amount.end, _CUE)[0]
        told = ("others", "other-day")
        return any(self._marks.inside(name, start, amount.start) for name in told)

    def _of_some_rounds(self, amount: Amount, about: str) -> bool:
        """ "After two rounds you'll have done …", "by the end of round two"."""
        start = self._marks.around(amount.start, amount.end, _CUE)[0]
        if any(subject.kind == "partial" for subject in self._subjects.within(start, amount.start)):
            return True
        for turns in starting_in(self.counts, start, amount.start):
            some = norm_at(self._tokens, turns.end) in _TURNS and turns.low
            if some and (about, (amount.low or 0) / some) in self._single:
                return True
        before = [token.norm for token in self._tokens[start : amount.start]]
        return any(
            word in words()["part-way"] and not _TURNS.isdisjoint(before[at + 1 : at + 4])
            for at, word in enumerate(before)
        )

    def totals(self, amount: Amount) -> bool:
        """Whether words near an amount call it a total."""
        return bool(self._marks.inside("sum", *self._marks.around(amount.start, amount.end, _CUE)))

    def counted(self, amount: Amount) -> Counted | None:
        """What an amount is of: a movement right behind it, or reps of anything."""
        before = norm_at(self._tokens, amount.start - 1)
        known = before in words()["known"] or before in words()["counts-off"]
        if known or amount.unit not in (None, "m"):
            return None
        unit = amount.unit or "reps"
        for subject in self._subjects.within(amount.end, amount.end + _OF):
            if subject.kind == "movement" and self._joined(amount.end, subject.start):
                return Counted(subject.about, unit, subject.end)
        of = self._total_of(amount, unit)
        if of is not None and self.totals(amount):
            return Counted(of, unit, amount.end)
        if unit == "reps" and norm_at(self._tokens, amount.end) in words()["reps"]:
            return Counted("total", unit, amount.end + 1)
        return None

    def _total_of(self, amount: Amount, unit: str) -> str | None:
        """ "Your rowing total is 1,500 metres", or metres where one movement has all of them."""
        before = self._subjects.within(amount.start - _OF, amount.start)
        named = [subject for subject in before if subject.kind == "movement"]
        if named:
            between = {t.norm for t in self._tokens[named[-1].end : amount.start]}
            links = _IS if unit == "m" else frozenset()
            plain = between <= links and named[-1].about in self._metres
            right = "total" in between or plain
            return named[-1].about if right else None
        apart = unit == "m" and not self._subjects.prescribed(amount.start)
        return self._only_metres if apart else None

    def _joined(self, start: int, end: int) -> bool:
        """Whether nothing but "of", "on the" and the like stands in ``start:end``."""
        parted = any(token.after for token in self._tokens[start - 1 : end])
        return not parted and all(t.norm in words()["joins"] for t in self._tokens[start:end])


def _exact(tokens: Sequence[Token], amount: Amount) -> Amount:
    """ "Adds up to fifty" is fifty, not at most fifty."""
    bound = amount.low is None and norm_at(tokens, amount.start) == "up"
    if bound and norm_at(tokens, amount.start - 1) in words()["adds"]:
        return replace(amount, low=amount.high, shape="one")
    return amount


@cache
def verbs() -> dict[tuple[str, ...], str]:
    """The movements of claims.toml that are told by a verb, by its words."""
    table: dict[str, list[str]] = raw("cuewright.parse", "claims.toml")["done-by"]
    return {tuple(verb.split()): movement for movement, told in table.items() for verb in told}


@cache
def words() -> dict[str, frozenset[str]]:
    """The single words of claims.toml, by what they do."""
    table: dict[str, list[str]] = raw("cuewright.parse", "claims.toml")["words"]
    return {key: frozenset(said) for key, said in table.items()}

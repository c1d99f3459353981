"""Which amount belongs to which movement.

Amounts and movements alternate in speech; each movement takes at most one amount from the
stretch before it or after it. The cheapest assignment over the whole clause wins: an
amount right before its movement costs nothing, words in between and an amount that
follows cost a little, a movement left bare costs more.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from cuewright.movements.catalogue import catalogue
from cuewright.parse.spans import Span
from cuewright.parse.words import words
from cuewright_models.tokens import Token

AMOUNTS = frozenset("ntdcpx")
"""Letters of the amounts that a movement can take."""
_BARE = 4.0
"""Cost of a movement without an amount."""
_AFTER = 1.2
"""Cost of an amount that follows its movement."""
_COMMA = 0.7
"""Cost of a comma, a colon or a dash in between."""
_STOP = 3.0
"""Cost of the end of a sentence in between."""
_STOPS = (".", "?", "!", ";")
_LINKS = {"D": 1.5, "f": 0.0, "e": 0.15, "h": 0.8, "O": 0.1, "P": 0.1, "q": 0.1}
"""Cost of a word in between, by its letter: "of" is free, "and" and "then" are not."""
_STRANGE, _STRANGER = 0.5, 1.5
"""Cost of any other word; more from the third on."""
_PRONOUN = 2.5
"""Cost of a pronoun, which starts a new statement: "when you've done your four you run"."""
_FAR = 8
"""Spans in between from which the distance costs as much as a bare movement."""
_POINTED = 1.5
"""At most the cost of an amount that points back: "a run to the gate, that's 1200 metres"."""
_FOR = 1.0
"""Cost of an amount after "for", for the movement that follows."""
_MOST = 1.0
"""What "as long as you can" is worth over a number that also stands near."""
_ODD = 0.8
"""Cost of a unit that the movement is not counted in."""
_COUNTED_IN = {"n": "reps", "t": "s", "d": "m", "c": "kcal"}
_POINTS = words("efforts", "points")
_THOSE = words("efforts", "those")
_PRONOUNS = words("efforts", "pronouns")

Choice = tuple[float, Span | None, Span | None]
"""A cost, the amount for the movement before and the amount for the one after."""


def paired(
    spans: Sequence[Span], places: Sequence[int], tokens: Sequence[Token]
) -> dict[int, Span]:
    """The amount of each movement, by the movement's order; ``places`` are theirs in ``spans``."""
    # The cheapest way so far, by whether the last movement seen has its amount already.
    states: dict[bool, tuple[float, dict[int, Span]]] = {True: (0.0, {})}
    for order, (left, right) in enumerate(pairwise((-1, *places, len(spans)))):
        gap = _Gap(spans, tokens, left, right)
        fresh: dict[bool, tuple[float, dict[int, Span]]] = {}
        for bound, (cost, given) in states.items():
            for price, mine, theirs in gap.choices(bound=bound):
                key = theirs is not None
                if key not in fresh or cost + price < fresh[key][0]:
                    chosen = {order - 1: mine, order: theirs}
                    new = {at: span for at, span in chosen.items() if span is not None}
                    fresh[key] = (cost + price, given | new)
        states = fresh
    given = min(states.values(), key=lambda state: state[0])[1]
    return given | _lonely(spans, places, given)


def _lonely(
    spans: Sequence[Span], places: Sequence[int], given: Mapping[int, Span]
) -> dict[int, Span]:
    """A single measured amount far behind a bare movement is still its own."""
    taken = {span.start for span in given.values()}
    out = {}
    for order, (place, until) in enumerate(pairwise((*places, len(spans)))):
        between = spans[place + 1 : until]
        left = [s for s in between if s.letter in AMOUNTS and s.start not in taken]
        alone = order not in given and len(left) == 1 and left[0].letter in "td"
        if alone and not _misfit(left[0], spans[place]):
            out[order] = left[0]
    return out


@dataclass(frozen=True)
class _Gap:
    """The stretch between the movements at ``left`` and ``right``, or an end of the row."""

    spans: Sequence[Span]
    tokens: Sequence[Token]
    left: int
    right: int

    def choices(self, *, bound: bool) -> Iterator[Choice]:
        """Ways to share the amounts; none for the movement before where it is ``bound``."""
        bare = 0.0 if bound or self.left < 0 else _BARE
        yield bare, None, None
        for at in self.amounts:
            mine = None if bound else self.backward.get(at)
            if mine is not None and mine < _BARE:
                yield mine, self.spans[at], None
            if at in self.forward and self.forward[at] < _BARE:
                yield bare + self.forward[at], None, self.spans[at]
            for later in self.amounts if mine is not None else ():
                if later > at and later in self.forward:
                    both = (mine or 0.0) + self.forward[later]
                    if both < 2 * _BARE:
                        yield both, self.spans[at], self.spans[later]

    @cached_property
    def amounts(self) -> list[int]:
        between = range(self.left + 1, self.right)
        return [at for at in between if self.spans[at].letter in AMOUNTS]

    @cached_property
    def backward(self) -> dict[int, float]:
        """The cost of each amount for the movement before."""
        if self.left < 0:
            return {}
        movement = self.spans[self.left]
        return {
            at: self._distance(self.left, at) + _AFTER + _misfit(self.spans[at], movement)
            for at in self.amounts
        }

    @cached_property
    def forward(self) -> dict[int, float]:
        """The cost of each amount for the movement after."""
        if self.right == len(self.spans):
            return {}
        movement = self.spans[self.right]
        return {
            at: self._distance(at, self.right) + _misfit(self.spans[at], movement) + self._told(at)
            for at in self.amounts
        }

    def _told(self, at: int) -> float:
        """A little more for "for thirty seconds", which tells of the movement before."""
        before = self.left >= 0 and at - 1 > self.left and self.spans[at - 1].letter == "q"
        return _FOR if before else 0.0

    def _distance(self, left: int, right: int) -> float:
        """What stands between two spans, as a cost."""
        cost = _words_between(self.spans[left + 1 : right])
        if right - left - 1 > _FAR:
            cost += _BARE
        if self.spans[left].letter == "M" and self._points_back(left, right):
            return min(cost, _POINTED)
        for span in self.spans[left:right]:
            after = self.tokens[span.end - 1].after
            cost += _STOP if after in _STOPS else _COMMA if after else 0.0
        return cost

    def _points_back(self, movement: int, amount: int) -> bool:
        """ "That's 1200 metres", "twelve of those"."""
        if amount - movement > 1 and self.spans[amount - 1].word in _POINTS:
            return True
        held = self.spans[amount + 1 : amount + 3]
        return len(held) == 2 and held[0].letter == "f" and held[1].word in _THOSE


def _words_between(between: Sequence[Span]) -> float:
    cost, strange = 0.0, 0
    for span in between:
        if span.letter not in _LINKS:
            strange += 1
        cost += _PRONOUN if span.word in _PRONOUNS else 0.0
        cost += _LINKS.get(span.letter, _STRANGE if strange <= 2 else _STRANGER)
    return cost


def _misfit(amount: Span, movement: Span) -> float:
    """A little more for an amount in a unit that the movement is not counted in."""
    if amount.letter == "x":
        return -_MOST
    counted = catalogue()[movement.movement].counted_in
    one = amount.amount is not None and amount.amount.low == 1
    if one and amount.letter == "n" and "reps" not in counted:
        return _STRANGER  # "on the bike, it's one steady block"
    fits = amount.letter == "p" or _COUNTED_IN.get(amount.letter, "reps") in counted
    return 0.0 if fits else _ODD

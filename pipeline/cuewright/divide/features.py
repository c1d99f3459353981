"""What speaks in a clause beside phrases: amounts by movements, structures, clocks, times."""

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import cache

from cuewright.divide.clauses import Cut
from cuewright.movements.catalogue import catalogue
from cuewright.tables import raw
from cuewright_models.base import Value
from cuewright_models.movement import Movement
from cuewright_models.tokens import Amount, Mention, Reading, starting_in

_BEHIND, _AHEAD = 3, 10
"""Tokens before and after a movement within which an amount is its own."""
_TOPIC = 2
"""Tokens from the start of a clause within which a movement is its topic."""
_LINKED = 3
"""Words that link a list at most: "and finally um"."""
_NEXT = ("then", "next", "finally")
_MANY = 40
"""Reps of one movement that nobody warms up with."""
_QUESTION = 8
"""Tokens of a question of what is lacking, at most."""
_SINCE = 4
"""Clauses from the first telling of an effort to one that may tell it again."""
_STATIONS = 3
"""Clauses after a clock within which its list of stations begins."""


class Features(Value):
    """The words of ``features.toml``, which says what they speak for."""

    structure: frozenset[str]
    pieces: frozenset[str]
    roughly: frozenset[str]
    rests: frozenset[str]
    things: frozenset[str]
    stretches: tuple[str, ...]
    strenuous: frozenset[str]
    lacks: frozenset[str]


def add_features(reading: Reading, clauses: Sequence[Cut], found: Sequence[Counter[str]]) -> None:
    """Count the labels that amounts and movements give the clauses they stand in."""
    owner = [at for at, (start, end) in enumerate(clauses) for _ in range(start, end)]
    amounts = [amount for amount in reading.amounts if amount.shape != "ordinal"]
    starts = {amount.start: amount for amount in amounts}
    ends = {amount.end: amount for amount in amounts}
    starts = {at: amount for at, amount in starts.items() if not _rests(reading, amount)}
    limits = [_own_start(mention, ends, clauses[owner[mention.start]][0])
              for mention in reading.movements[1:]]  # fmt: skip
    limits.append(len(reading.tokens))
    told: dict[tuple[str, float | None], int] = {}
    for mention, limit in zip(reading.movements, limits, strict=False):
        at = owner[mention.start]
        start, end = clauses[at]
        first = reading.tokens[start].norm
        low = max(mention.start - _BEHIND, start + 1)
        before = [ends[i] for i in range(low, mention.start + 1) if i in ends]
        high = min(mention.end + _AHEAD, end, limit)
        after = [starts[i] for i in range(mention.start, high) if i in starts]
        found[at].update(_of_movement(mention, start, before, after, leads_on=first in _NEXT))
        for amount in (*before[-1:], *after[:1]):
            work = (reading.stems[mention.end - 1], amount.low)
            if told.setdefault(work, at) + _SINCE <= at:
                found[at]["told"] += 1
                break
    for (_, end), counts in zip(clauses, found, strict=True):
        if reading.tokens[end - 1].after == "?":
            counts["asks"] = 1
    _answer(reading, clauses, found)
    for amount in reading.amounts:
        counts = found[owner[amount.start]]
        counts.update(list(_of_amount(reading, amount, wanted=counts["wanted"] > 0)))


def add_stations(reading: Reading, clauses: Sequence[Cut], found: Sequence[Counter[str]]) -> None:
    """Clauses of bare movement names after a clock are its stations, not coaching."""
    waiting = 0
    for (start, end), counts in zip(clauses, found, strict=True):
        low = bisect_left(reading.movements, start, key=lambda mention: mention.start)
        high = bisect_left(reading.movements, end, key=lambda mention: mention.start)
        named = sum(mention.end - mention.start for mention in reading.movements[low:high])
        goes_on = low < high and _goes_on(reading.movements[low - 1 : low + 1], start)
        if waiting and (named * 2 >= end - start or goes_on) and not counts["prescribes"]:
            counts["listed"] = 1
            del counts["topic"], counts["names"]
            waiting = _STATIONS
        counting = counts["clock"] or counts["things"]
        waiting = _STATIONS if counting else max(waiting - 1, 0)


def _answer(reading: Reading, clauses: Sequence[Cut], found: Sequence[Counter[str]]) -> None:
    """Work right after a short question of what is lacking: "No room to run? Then row"."""
    for (start, end), counts, following in zip(clauses, found, found[1:], strict=False):
        asked = counts["asks"] and _norm(reading, start) in _features().lacks
        lacks = (asked or counts["lacking"]) and end - start <= _QUESTION
        if lacks and not counts["prescribes"] and following["prescribes"]:
            following["answers"] = 1


def _goes_on(around: Sequence[Mention], start: int) -> bool:
    """Whether a list goes on at ``start``: "... chest flies | and finally um hip thrusts"."""
    if len(around) < 2:
        return False
    before, after = around
    return before.end == start and after.start - start <= _LINKED


def _of_movement(
    mention: Mention,
    start: int,
    before: Sequence[Amount],
    after: Sequence[Amount],
    *,
    leads_on: bool,
) -> Iterator[str]:
    """What a movement says with the amounts around it, in a clause that begins at ``start``.

    ``leads_on`` where the clause begins with "then", as the next of a list does.
    """
    if not before and not after:
        if mention.start - start > _TOPIC:
            yield "names"
        else:
            yield "next" if leads_on else "topic"
        return
    yield "prescribes"
    movement = catalogue()[mention.name]
    timed = all(amount.unit == "s" for amount in (*before, *after))
    if not timed:
        yield "counted"
    if timed and "s" not in movement.counted_in:
        yield "clocked"
    if _strenuous(movement):
        yield "strenuous"
    counts = [a.low or 0 for a in (*before[-1:], *after[:1]) if a.unit is None]
    usual = movement.counted_in[:1] == ("reps",) and movement.impact != "low"
    if usual and max(counts, default=0) >= _MANY:
        yield "many"
    if mention.name.endswith(_features().stretches):
        yield "stretches"
        if timed:
            yield "stretched"


def _strenuous(movement: Movement) -> bool:
    """Whether a movement eases nobody down: loaded, jumped, pressed or held by the trunk."""
    if "mobility" in movement.patterns:
        return False
    hard = movement.impact == "high" or "loaded" in movement.flags
    return hard or not _features().strenuous.isdisjoint(movement.patterns)


def _own_start(mention: Mention, ends: Mapping[int, Amount], clause: int) -> int:
    """Where a movement begins with the amount right before it, in a clause from ``clause``."""
    amount = ends.get(mention.start)
    return amount.start if amount is not None and amount.start >= clause else mention.start


def _rests(reading: Reading, amount: Amount) -> bool:
    """Whether a time is a rest: "resting thirty seconds", "a minute rest"."""
    around = (_norm(reading, amount.start - 1), _norm(reading, amount.end))
    return amount.unit == "s" and not _features().rests.isdisjoint(around)


def _of_amount(reading: Reading, amount: Amount, *, wanted: bool) -> Iterator[str]:
    """What an amount says by itself; times in a clause of wishes are ``wanted``."""
    words, following = _features(), _norm(reading, amount.end)
    if amount.unit == "s" and wanted:
        yield "timed"
    if amount.unit == "s" and (amount.low is None or _within(reading, amount.start)):
        yield "within"
    if amount.shape == "ordinal":
        if not words.pieces.isdisjoint((following, _norm(reading, amount.end + 1))):
            yield "header-work"
    elif following in words.structure and (amount.unit is None or following != "round"):
        yield "structures"  # "four minutes round the pond" is none
    if _in_sets(reading, amount, following):
        yield "in-sets"
    if amount.unit is None and following in words.things:
        yield "things"
    if following == "on" and (_off(reading, amount.end + 1) or _timed_next(reading, amount)):
        yield "clock"
    if amount.unit == "s" and _norm(reading, amount.start - 1) in ("every", "each"):
        yield "clock"
    if following in ("set", "sets") or amount.unit == "%":
        yield "lifts"
    if amount.shape in ("list", "by") and amount.unit is None:
        yield "structures"


def _in_sets(reading: Reading, amount: Amount, following: str) -> bool:
    """Whether "in 1 or 2 sets" says how to break work up, and not of how many reps they are."""
    led = amount.unit is None and _norm(reading, amount.start - 1) == "in"
    return led and following in ("set", "sets") and _norm(reading, amount.end + 1) != "of"


def _within(reading: Reading, at: int) -> bool:
    """Whether "in" or "inside" stands before a time, hedged or not."""
    while _norm(reading, at - 1) in _features().roughly:
        at -= 1
    return _norm(reading, at - 1) in ("in", "inside", "within")


def _off(reading: Reading, at: int) -> bool:
    """Whether "twenty off" follows soon: the other half of "forty on twenty off"."""
    return "off" in {_norm(reading, place) for place in range(at, at + 4)}


def _timed_next(reading: Reading, amount: Amount) -> bool:
    """Whether another time follows right after "on", the "off" of which was lost."""
    following = starting_in(reading.amounts, amount.end + 1, amount.end + 3)
    return amount.unit == "s" and any(other.unit == "s" for other in following)


def _norm(reading: Reading, at: int) -> str:
    return reading.tokens[at].norm if 0 <= at < len(reading.tokens) else ""


@cache
def _features() -> Features:
    return Features.model_validate(raw("cuewright.divide", "features.toml"))

"""What stands in the words of a text, whether it became part of its plan or not.

A talk wanders, and a movement can be heard without finding its block. Where the words have
the movement and the amount side by side, nothing is missing from them.
"""

from cuewright.comparison.kin import one_thing
from cuewright.comparison.stations import Station
from cuewright_models.plan import Effort
from cuewright_models.tokens import Amount, Mention, Reading

_REACH = 12
"""Tokens between a movement and its amount: "bench press, and it comes down: ten, eight"."""

_STOPS = frozenset(".?!;:")


def names(reading: Reading, effort: Effort) -> list[Mention]:
    """Where the movement of an effort is named."""
    probes = {mention.name for mention in reading.movements}
    effort = effort.model_copy(update={"alternatives": ()})
    fitting = {
        name for name in probes if one_thing(effort.model_copy(update={"movement": name}), effort)
    }
    return [mention for mention in reading.movements if mention.name in fitting]


def says(reading: Reading, station: Station, reach: int = _REACH) -> bool:
    """Whether a movement is named close to its amount, or to the first of its rungs."""
    return any(
        _close(mention, amount, reach) and _is(amount, station)
        for mention in names(reading, station.effort)
        for amount in reading.amounts
    )


def says_number(reading: Reading, value: float) -> bool:
    """Whether a number is said anywhere."""
    return any(value in (a.low, a.high, *a.values) for a in reading.amounts)


def beside(reading: Reading, effort: Effort) -> Amount | None:
    """The first amount that could be the effort's and stands next to its movement."""
    fitting = {"reps": (None,), "s": ("s",), "m": ("m",), "kcal": ("kcal",)}.get(effort.unit, ())
    for mention in names(reading, effort):
        for amount in reading.amounts:
            if (
                amount.unit in fitting
                and amount.shape == "one"
                and _joined(mention, amount, reading)
            ):
                return amount
    return None


def _joined(mention: Mention, amount: Amount, reading: Reading) -> bool:
    """Whether the two stand side by side in one sentence."""
    first, last = sorted(((mention.start, mention.end), (amount.start, amount.end)))
    between = reading.tokens[first[1] - 1 : last[0]]
    return _close(mention, amount, 1) and not any(token.after in _STOPS for token in between)


def _close(mention: Mention, amount: Amount, reach: int) -> bool:
    """Whether no more than so many tokens stand between the two."""
    return amount.start - mention.end <= reach and mention.start - amount.end <= reach


def _is(amount: Amount, station: Station) -> bool:
    effort = station.effort
    if station.rungs:
        return station.rungs[0] in (amount.low, *amount.values)
    if effort.max:
        return True
    return effort.low in (amount.low, *amount.values)

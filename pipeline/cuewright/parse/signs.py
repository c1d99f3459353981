"""What a number is in its place: an amount, a weight, or only a name ("station four")."""

from bisect import bisect_left

from cuewright.movements.catalogue import catalogue
from cuewright.parse.words import words
from cuewright_models.tokens import Amount, Mention, Reading, norm_at

NAME = "#"
"""The letter of a number that is no amount."""
_UNITS = {"s": "t", "m": "d", "kcal": "c", "kg": "k", "lb": "k", "%": "%", None: "n"}
_SHAPES = {"list": "l", "pair": "p", "by": "b", "ordinal": "o", "date": ".", "other": "."}
_FIXED = ("by", "ordinal", "date", "other")
"""Shapes that read the same whatever their unit."""
_HEAVIEST_BELL = 130
"""From here "a 400" is no weight held in the hands."""
_NOUNS = words("spans", "nouns")
_PRONOUNS = words("spans", "pronouns")
_ORDINALS = words("spans", "ordinals") | words("spans", "all_of_them")
_PLACES = words("spans", "places")
_PEOPLE = words("spans", "people")
_RATED = words("spans", "rated")
_MEASURES = words("spans", "measures")
_KNOWN = words("works", "known")


def letter(amount: Amount) -> str:
    """The letter of an amount; a pair or list with a unit counts by its unit."""
    if amount.shape in _FIXED or (amount.unit is None and amount.shape in _SHAPES):
        return _SHAPES[amount.shape]
    return _UNITS[amount.unit]


def sign(reading: Reading, amount: Amount) -> str:
    """The letter of an amount in its place; ``#`` where it only names something."""
    bare = amount.unit is None
    if _best_lift(reading, amount) or (bare and _names(reading, amount)):
        return NAME
    if not bare and _left_of(reading, amount):
        return NAME
    return "k" if bare and _weighs(reading, amount) else letter(amount)


def movement_at(reading: Reading, at: int) -> Mention | None:
    """The movement whose name starts at a token."""
    place = bisect_left(reading.movements, at, key=lambda mention: mention.start)
    if place < len(reading.movements) and reading.movements[place].start == at:
        return reading.movements[place]
    return None


def _names(reading: Reading, amount: Amount) -> bool:
    """Whether a bare number counts no work: "lane four", "when you've done your four"."""
    # nothing names it from the line before, or from before a comma: "on the spot, 10 squats"
    fresh = reading.tokens[amount.start].starts or _parted(reading, amount.start)
    before = "" if fresh else norm_at(reading.tokens, amount.start - 1)
    after = norm_at(reading.tokens, amount.end)
    if before == "your" and after in _PRONOUNS:
        return True
    if amount.low == amount.high == 0:
        return True  # "minute zero"
    if before in _KNOWN and norm_at(reading.tokens, amount.end - 1) in ("pair", "couple"):
        return True  # "three sets of that pair"
    if before in _RATED and (before == "rpe" or after in ("of", "out")):
        return True  # "5 squats at effort 7 of 10"
    if before in ("that's", "is") and amount.low == 1:
        return True  # "out and back, that's one shuttle"
    turns = before == "round" and norm_at(reading.tokens, amount.start - 2) in ("time", "times")
    if turns:
        return False
    place = before in _PLACES and amount.shape == "one" and after not in ("times", "time")
    if place and norm_at(reading.tokens, amount.start - 2) not in _ORDINALS:
        return True
    return _uncounted(reading, amount)


def _parted(reading: Reading, at: int) -> bool:
    return at > 0 and reading.tokens[at - 1].after == ","


def _uncounted(reading: Reading, amount: Amount) -> bool:
    """Whether a number is of things that nobody does: "two feet", "six of you"."""
    after = norm_at(reading.tokens, amount.end)
    people = after == "of" and norm_at(reading.tokens, amount.end + 1) in ("you", "us")
    if after not in _NOUNS and not people:
        return False
    beyond = movement_at(reading, amount.end + 1) and not reading.tokens[amount.end].after
    return not (movement_at(reading, amount.end) or beyond)


def _best_lift(reading: Reading, amount: Amount) -> bool:
    """ "One rep max", "a three rm"."""
    after = norm_at(reading.tokens, amount.end)
    most = norm_at(reading.tokens, amount.end + 1) in ("max", "maximum")
    return after == "rm" or (after == "rep" and most)


def _left_of(reading: Reading, amount: Amount) -> bool:
    """What is left "of your ninety seconds"."""
    before = norm_at(reading.tokens, amount.start - 1)
    return before in ("your", "the", "that") and norm_at(reading.tokens, amount.start - 2) == "of"


def _weighs(reading: Reading, amount: Amount) -> bool:
    """Whether a bare number names a weight: "using a 24", "155 for the men"."""
    before = norm_at(reading.tokens, amount.start - 1)
    ahead = [norm_at(reading.tokens, at) for at in range(amount.end, amount.end + 3)]
    if ahead == ["on", "the", "bar"]:
        return True
    if not _PEOPLE.isdisjoint(ahead):
        return before != "of" and not _listed(reading, amount.end)
    held = before in ("a", "an") and amount.shape == "one" and ahead[0] not in _MEASURES
    return held and (amount.low or 0) < _HEAVIEST_BELL and not _measured(reading, amount.end)


def _listed(reading: Reading, at: int) -> bool:
    """Whether the movement at token ``at`` ends with a comma: "12 swings, women 16 kg"."""
    mention = movement_at(reading, at)
    return mention is not None and reading.tokens[mention.end - 1].after == ","


def _measured(reading: Reading, at: int) -> bool:
    """Whether the movement at token ``at`` is one that "a fifty" could be metres of."""
    mention = movement_at(reading, at)
    return mention is not None and "m" in catalogue()[mention.name].counted_in

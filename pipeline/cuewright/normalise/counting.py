"""Whether a lone number word is a number at all: "one round", not "the red one"."""

from cuewright.normalise.context import words
from cuewright.normalise.line import Line
from cuewright_models.tokens import Amount

_ONE_AFTER = words("counted_after", "one")
_ONE_NOT_AFTER = words("not_after", "one")
_ONE_NOT_BEFORE = words("not_before", "one")
_DETERMINERS = words("determiners", "one")
_HALF_NOT_BEFORE = words("not_before", "half")
_HALF_NOT_AFTER = words("not_after", "half")
_ORDINAL_NOT_AFTER = words("not_after", "ordinal")
_ORDINAL_NOT_BEFORE = words("not_before", "ordinal")


def counts(line: Line, amount: Amount) -> bool:
    """Whether an amount that may be a mere word counts or measures something."""
    if amount.shape == "ordinal":
        return _places(line, amount)
    if amount.shape != "one" or amount.unit is not None:
        return True
    word = line.norms[amount.start]
    if word in ("half", "quarter") and amount.end - amount.start == 1:
        return word == "half" and _is_half(line, amount)
    return word != "one" or amount.end - amount.start > 1 or _is_one(line, amount.start)


def _is_one(line: Line, at: int) -> bool:
    before, after = line.before(at), line.norms[at + 1]
    if before in _ONE_AFTER and not line.punctuated[at]:
        return True
    if after in _ONE_NOT_BEFORE or (before in _ONE_NOT_AFTER and not line.punctuated[at]):
        return False
    if line.closed(at + 1):
        return line.punctuated[at]
    return line.before(at - 1) not in _DETERMINERS or line.punctuated[at]


def _is_half(line: Line, amount: Amount) -> bool:
    after = line.norms[amount.end]
    return after not in _HALF_NOT_BEFORE and line.before(amount.start) not in _HALF_NOT_AFTER


def _places(line: Line, amount: Amount) -> bool:
    """ "the second round", not "every second", "at first" or "first of all"."""
    if line.norms[amount.start] == "second" and line.before(amount.start) == "a":
        return not line.closed(amount.end)  # "wait a second"
    written = line.norms[amount.start][0].isdigit()
    if line.before(amount.start) in _ORDINAL_NOT_AFTER and not written:
        return False
    after = line.norms[amount.end : amount.end + 2]
    return after[0] not in _ORDINAL_NOT_BEFORE and after != ["of", "all"]

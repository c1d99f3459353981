"""Numbers that no plan needs: times of day, money, temperatures, ages, years."""

from dataclasses import replace

from cuewright.normalise.context import Phrase, phrases, words
from cuewright.normalise.line import Line
from cuewright_models.tokens import Amount

_AFTER: dict[str, list[Phrase]] = {}
for _phrase in phrases("after", "aside"):
    _AFTER.setdefault(_phrase[0], []).append(_phrase)
_GLUED = words("glued", "aside")
_SHARP = phrases("at_times", "aside")
_YEAR_AFTER = words("year_after", "aside")
_AGE_AFTER = words("age_after", "aside")
_AT = words("at", "aside")
_MONEY = words("money", "aside")
_NEAR = 6  # tokens
_PARTS_OF_HOUR = words("parts_of_hour", "aside")


def marked(line: Line, amount: Amount) -> Amount:
    """The amount, or the aside that it is, widened over the words that say so."""
    if amount.shape in ("ordinal", "date"):
        return amount
    start, end = _around(line, amount)
    if (start, end) == (amount.start, amount.end) and not _by_itself(line, amount):
        return amount
    return replace(amount, start=start, end=end, unit=None, shape="other")


def _around(line: Line, amount: Amount) -> tuple[int, int]:
    start, end = amount.start, amount.end
    for phrase in _AFTER.get(line.norms[end], ()):
        clock = ":" in line.norms[end - 1]
        if line.has(end, phrase) and not line.stop[end] and (amount.unit is None or clock):
            return start, end + len(phrase)
    if line.glued[end] and line.norms[end] in _GLUED:
        return start, end + 1
    if line.before(start) == "past" and line.before(start - 1) in _PARTS_OF_HOUR:
        return start - 2, end
    if line.before(start) == "to" and line.before(start - 1) == "quarter" and _hour(amount):
        return start - 2, end
    if line.before(start) == "half" and line.before(start - 1) in _AT and _hour(amount):
        return start - 1, end
    if line.norms[end] == "past" and line.norms[end - 1] in _PARTS_OF_HOUR and line.closed(end + 1):
        return start, end + 1
    return start, end


def _by_itself(line: Line, amount: Amount) -> bool:
    before = line.before(amount.start)
    if amount.unit == "lb":
        return not _MONEY.isdisjoint(line.norms[max(0, amount.start - _NEAR) : amount.end + _NEAR])
    if amount.unit is not None:
        return False
    several = line.norms[amount.end - 1] == "s"
    if before == "over" and several and line.before(amount.start - 1) in ("the", "our"):
        return True
    if amount.shape == "range" and (_is_age_group(line, amount) or _is_to_the_hour(line, amount)):
        return True
    if before in _AGE_AFTER:
        return True
    if before in _YEAR_AFTER and amount.shape == "one" and line.closed(amount.end):
        return amount.low is not None and 1950 <= amount.low < 2050 and amount.low % 1 == 0
    sharp = any(line.has(amount.end, phrase) for phrase in _SHARP)
    return before == "at" and sharp and _hour(amount)


def _hour(amount: Amount) -> bool:
    return amount.low is not None and amount.low == amount.high and 1 <= amount.low <= 12


def _is_age_group(line: Line, amount: Amount) -> bool:
    """ "the under sixteens", "an under 13", "the over 60s"."""
    if line.norms[amount.start] not in ("under", "over"):
        return False
    before = line.before(amount.start)
    return line.norms[amount.end - 1][-1] == "s" or before in ("the", "an", "our")


def _is_to_the_hour(line: Line, amount: Amount) -> bool:
    """ "at ten to eight"."""
    if len(amount.values) != 2 or line.before(amount.start) not in _AT - {"from"}:
        return False
    return amount.values[0] in (5, 10, 20, 25) and amount.values[1] <= 12

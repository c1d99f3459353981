"""What a speaker takes back: "ten, sorry, twelve", "forty box jumps, no, forty step ups"."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from cuewright.parse.signs import letter, movement_at
from cuewright.parse.words import words
from cuewright.phrases import Phrases
from cuewright_models.tokens import Amount, Reading, starting_in

_REACH = 9
"""Tokens from the words that take back to the right number, at most."""
_CLOSE = 2
"""The same where a sentence ends in between, or the numbers are of two sorts."""
_SINCE = 5
"""Tokens between a number and the words that take it back, at most."""
_JOINED = 6
"""Tokens between two such phrases that are one: "sorry, no, scratch that"."""
_STOPS = (".", "?", "!")
_COUNTED = ("set", "round", "time")
_NO_COUNT = ("ordinal", "date", "other")
_HOLDING = words("corrections", "holding")
_APOLOGIES = words("corrections", "apologies")
_OWNING = words("corrections", "owning")
_FILLERS = words("corrections", "fillers")


@dataclass(frozen=True, slots=True)
class Correction:
    """The tokens ``start:end`` are taken back; ``renamed`` when the movement is said anew too."""

    start: int
    end: int
    renamed: bool


def corrections(reading: Reading) -> list[Correction]:
    """Everything taken back in the talk, in order."""
    counts = [amount for amount in reading.amounts if amount.shape not in _NO_COUNT]
    places = sorted({*_sorry(reading), *_bare_no(reading, counts), *_broken_off(reading, counts)})
    found = (_correction(reading, counts, start, end) for start, end in _merged(places))
    return [correction for correction in found if correction is not None]


def taken_back(reading: Reading, found: Sequence[Correction]) -> frozenset[int]:
    """The tokens to leave out: the number taken back and the words up to the right one.

    A movement in between stays, as the right number may be meant for it.
    """
    named = {at for m in reading.movements for at in range(m.start, m.end)}
    amounts = {amount.start: amount for amount in reading.amounts}
    out: set[int] = set()
    for one in found:
        held = set(range(one.start, one.end))
        out |= held if one.renamed else held - named
        before, after = amounts.get(one.start), amounts.get(one.end)
        if before is not None and after is not None and before.unit and not after.unit:
            out |= set(range(after.start, after.end))  # "20 minutes, make it 25": no count
    return frozenset(out)


def _correction(
    reading: Reading, counts: Sequence[Amount], start: int, end: int
) -> Correction | None:
    """From the wrong number to the right one, around the words ``start:end`` that say so."""
    before = next((a for a in reversed(counts) if a.end <= start), None)
    after = next((a for a in counts if a.start >= end), None)
    if before is None or after is None or start - before.end > _SINCE:
        return None
    again = (before.low, before.high) == (after.low, after.high)
    until = end if again else after.start
    stopped = any(token.after in _STOPS for token in reading.tokens[end - 1 : until])
    alike = letter(before) == letter(after)
    if after.start - end > (_REACH if alike and not stopped else _CLOSE):
        return None
    before = _same_count(reading, counts, before, after)
    same = (before.low, before.high) == (after.low, after.high)
    return Correction(before.start, after.start, same or _named_anew(reading, after))


def _same_count(
    reading: Reading, counts: Sequence[Amount], before: Amount, after: Amount
) -> Amount:
    """ "Four sets of ten, sorry, three sets": the sets are taken back, not the ten."""
    noun = _noun(reading, after.end) or _noun(reading, after.end + 1)
    near = (a for a in reversed(counts) if before.end - _REACH <= a.start and a.end <= before.end)
    return next((a for a in near if noun and _noun(reading, a.end) == noun), before)


def _noun(reading: Reading, at: int) -> str:
    stem = reading.stems[at] if at < len(reading.stems) else ""
    return stem if stem in _COUNTED else ""


def _named_anew(reading: Reading, amount: Amount) -> bool:
    """Whether a movement follows the right number, said once or twice: "16, 16 reverse lunges"."""
    if reading.tokens[amount.end - 1].after in _STOPS:
        return False
    starts = {other.start for other in reading.amounts}
    return any(
        0 <= m.start - amount.end <= _CLOSE and starts.isdisjoint(range(amount.end, m.start))
        for m in starting_in(reading.movements, amount.end, amount.end + _CLOSE + 1)
    )


def _sorry(reading: Reading) -> Iterator[tuple[int, int]]:
    """Phrases that take back, less "hang on to the bar"."""
    for mention in _phrases().everywhere(reading.stems):
        after = reading.tokens[mention.end].norm if mention.end < len(reading.tokens) else ""
        word = reading.tokens[mention.start].norm
        held = word == "hang" and after in _HOLDING
        if not (held or (word == "sorry" and after in _APOLOGIES)):
            yield mention.start, mention.end


def _bare_no(reading: Reading, counts: Sequence[Amount]) -> Iterator[tuple[int, int]]:
    """ "no" counts only between two numbers: "fifty, uh no, thirty"."""
    for one, other in pairwise(counts):
        named = movement_at(reading, one.end)
        start = named.end if named and named.name in _names_after(reading, other) else one.end
        between = [token.norm for token in reading.tokens[start : other.start]]
        if "no" not in between or len(between) > _REACH:
            continue
        follows = between[between.index("no") + 1 :]
        if _FILLERS.issuperset(between) or (follows and follows[0] in _OWNING):
            yield one.end, other.start


def _names_after(reading: Reading, amount: Amount) -> tuple[str, ...]:
    """The movement right after an amount."""
    named = movement_at(reading, amount.end)
    return (named.name,) if named else ()


def _broken_off(reading: Reading, counts: Sequence[Amount]) -> Iterator[tuple[int, int]]:
    """ "Three minutes— two minutes": a dash, and the same sort of number again."""
    for one, other in pairwise(counts):
        dashed = other.start == one.end and reading.tokens[one.end - 1].after == "—"
        if dashed and one.shape == other.shape == "one" and other.unit in (one.unit, None):
            yield one.end, other.start


def _merged(places: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Places close together as one."""
    out: list[tuple[int, int]] = []
    for start, end in places:
        if out and start - out[-1][1] <= _JOINED:
            out[-1] = (out[-1][0], max(end, out[-1][1]))
        else:
            out.append((start, end))
    return out


@cache
def _phrases() -> Phrases:
    return Phrases({"sorry": words("corrections", "phrases")})

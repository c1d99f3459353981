"""What a speaker takes back: "ten, sorry, twelve", "forty box jumps, no, forty step ups"."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from cuewright.parse.spans import letter
from cuewright.phrases import Phrases
from cuewright.tables import raw
from cuewright_models.tokens import Amount, Reading

_REACH = 9
"""Tokens between the words taken back and those that replace them, at most, on each side."""
_CLOSE = 2
_SINCE = 5
"""Tokens between a number and the words that take it back, at most."""
_HOLD = frozenset("to the for your as with from just".split())
_OWNING = frozenset(
    "it it's isn't what hark i'm wait hang sorry that's it's i let make tell forgive scratch hold my".split()
)
_FILLERS = frozenset("no nope uh um er erm wait actually sorry hang on oh well".split())


@dataclass(frozen=True, slots=True)
class Correction:
    """The tokens ``start:end`` are taken back; ``renamed`` when the movement is said anew too."""

    start: int
    end: int
    renamed: bool


def corrections(reading: Reading) -> list[Correction]:
    """Everything taken back in the talk, in order."""
    counts = [a for a in reading.amounts if a.shape not in ("ordinal", "date", "other")]
    out = []
    for start, end in _merged(sorted({*_phrases_in(reading), *_bare_no(reading, counts)})):
        before = next((a for a in reversed(counts) if a.end <= start), None)
        after = next((a for a in counts if a.start >= end), None)
        if before is None or after is None:
            continue
        if start - before.end > _SINCE or after.start - end > _REACH:
            continue
        stopped = reading.tokens[end - 1].after in (".", "?", "!")
        if after.start - end > (_CLOSE if stopped or not _alike(before, after) else _REACH):
            continue
        before = _same_count(reading, counts, before, after)
        same = (before.low, before.high) == (after.low, after.high)
        out.append(Correction(before.start, after.start, same or _named_anew(reading, after)))
    return out


def taken_back(reading: Reading, found: Sequence[Correction]) -> frozenset[int]:
    """The tokens to leave out: the number taken back and the words up to the right one.

    A movement in between stays, as the right number may be meant for it.
    """
    named = {at for m in reading.movements for at in range(m.start, m.end)}
    units = {a.start: a for a in reading.amounts}
    out: set[int] = set()
    for one in found:
        held = set(range(one.start, one.end))
        out |= held if one.renamed else held - named
        before, after = units.get(one.start), units.get(one.end)
        if before is not None and after is not None and before.unit and not after.unit:
            out |= set(range(after.start, after.end))  # "20 minutes, make it 25": no count
    return frozenset(out)


def _same_count(
    reading: Reading, counts: Sequence[Amount], before: Amount, after: Amount
) -> Amount:
    """ "Four sets of ten, sorry, three sets": the sets are taken back, not the ten."""
    noun = _noun(reading, after.end) or _noun(reading, after.end + 1)
    if noun:
        for amount in reversed([a for a in counts if a.end <= before.end]):
            if before.end - amount.start > _REACH:
                break
            if _noun(reading, amount.end) == noun:
                return amount
    return before


def _noun(reading: Reading, at: int) -> str:
    stem = reading.stems[at] if at < len(reading.stems) else ""
    return stem if stem in ("set", "round", "time") else ""


def _named_anew(reading: Reading, amount: Amount) -> bool:
    """Whether a movement follows the right number, said once or twice: "16, 16 reverse lunges"."""
    return any(0 <= m.start - amount.end <= _CLOSE for m in reading.movements)


def _alike(one: Amount, other: Amount) -> bool:
    return letter(one) == letter(other)


def _phrases_in(reading: Reading) -> Iterator[tuple[int, int]]:
    for mention in _sorry().everywhere(reading.stems):
        after = reading.tokens[mention.end].norm if mention.end < len(reading.tokens) else ""
        if not (reading.tokens[mention.start].norm == "hang" and after in _HOLD):
            yield mention.start, mention.end


def _bare_no(reading: Reading, counts: Sequence[Amount]) -> Iterator[tuple[int, int]]:
    """ "no" counts only between two numbers: "fifty, uh no, thirty"."""
    for one, other in zip(counts, counts[1:], strict=False):
        between = [reading.tokens[at].norm for at in range(one.end, other.start)]
        if "no" not in between or len(between) > _REACH:
            continue
        follows = between[between.index("no") + 1 : between.index("no") + 2]
        if all(word in _FILLERS for word in between) or follows and follows[0] in _OWNING:
            yield one.end, other.start


def _merged(places: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    out: list[tuple[int, int]] = []
    for start, end in places:
        if out and start - out[-1][1] <= 6:
            out[-1] = (out[-1][0], max(end, out[-1][1]))
        else:
            out.append((start, end))
    return out


@cache
def _sorry() -> Phrases:
    return Phrases({"sorry": raw("cuewright.parse", "blocks.toml")["sorry"]["said"]})

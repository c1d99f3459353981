"""What speaks for each section and role: the phrases and features of every clause."""

from collections import Counter
from collections.abc import Iterable, Sequence, Set
from functools import cache

from pydantic import Field

from cuewright.divide.clauses import Cut
from cuewright.divide.features import add_features, add_stations
from cuewright.phrases import Phrases, spoken_of
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.divided import Role, Section
from cuewright_models.tokens import Mention, Reading, norm_at

_HEADER = "header-"
_LOOSE = ("header-kit", "header-open", "header-close", "header-loads")
"""Headers that may stand anywhere in a clause."""
_CUTS = ("past", "elsewhere", "onward", "onward-work", "ending", "farewell", "for-work", "lacking")
"""Other labels that announce a part of the talk."""
_PARTS = ("header-warm-up", "header-work", "header-cool-down", "ending")
_ENDS = (
    "header-warm-up", "header-cool-down", "header-targets", "header-cues", "header-scaling",
    "header-pacing", "past", "sum",
)  # fmt: skip
"""Labels that end a recap."""
_FIRST = 1
"""Tokens from the start of a clause within which a phrase comes first."""
_ECHO = 3
"""Clauses that a recap runs on for."""
_AGENDA = 5
"""Clauses in which the order of the day is told, …"""
_BEFORE = 3
"""… and clauses before it that prescribe nothing."""
_MOST = 3
"""Further hits of one label in one clause add nothing."""


class Evidence(Value):
    """One row of ``evidence.toml``; the file's head says what the fields mean."""

    name: str
    said: tuple[str, ...] = ()
    first: bool = False
    not_before: tuple[str, ...] = ()
    section: dict[Section, float] = Field(default_factory=dict)
    role: dict[Role, float] = Field(default_factory=dict)


@cache
def table() -> dict[str, Evidence]:
    """The weights, validated."""
    return validated(raw("cuewright.divide", "evidence.toml"), Evidence, where="evidence.toml")


def phrases(reading: Reading) -> list[Mention]:
    """The phrases of the table in the talk, less headings that are only spoken of."""
    ends = {amount.end for amount in reading.amounts}
    rows = table()
    starts = {amount.start for amount in reading.amounts}
    counted = {m.start for m in reading.movements if m.start in ends or m.end in starts}
    counted |= {at for m in reading.movements for at in range(m.start + 1, m.end)}
    return [
        mention
        for mention in _phrases().everywhere(reading.stems)
        if not (mention.name.startswith(_HEADER) and _passes_by(reading, mention.start, counted))
        and norm_at(reading.tokens, mention.end) not in rows[mention.name].not_before
    ]


def heads(said: Iterable[Mention]) -> list[int]:
    """The tokens at which a phrase announces a part of the talk."""
    return [
        mention.start
        for mention in said
        if (mention.name.startswith(_HEADER) and mention.name not in _LOOSE)
        or mention.name in _CUTS
    ]


def labels(reading: Reading, clauses: Sequence[Cut], said: Iterable[Mention]) -> list[Counter[str]]:
    """For each clause, how often each label of the table speaks in it (at most thrice)."""
    found = [Counter[str]() for _ in clauses]
    owner = [counts for counts, (start, end) in zip(found, clauses, strict=True)
             for _ in range(start, end)]  # fmt: skip
    begins = [start for start, end in clauses for _ in range(start, end)]
    for name, start in dict.fromkeys((mention.name, mention.start) for mention in said):
        if not table()[name].first or start - begins[start] <= _FIRST:
            owner[start][name] += 1
    add_features(reading, clauses, found)
    add_stations(reading, clauses, found)
    _echo(found)
    _announce(found)
    for counts, (start, _) in zip(found, clauses, strict=True):
        _weigh(counts, "if" in [token.norm for token in reading.tokens[start : start + 2]])
    return found


def _echo(found: Sequence[Counter[str]]) -> None:
    """A recap runs on for a few clauses; before anything is prescribed there is none."""
    prescribed = False
    for at, counts in enumerate(found):
        if not prescribed:
            del counts["header-recap"]
        prescribed = prescribed or counts["prescribes"] > 0
        if not counts["header-recap"]:
            continue
        for left, later in zip(range(_ECHO, 0, -1), found[at + 1 :], strict=False):
            if any(later[label] for label in _ENDS):
                break
            later["echo"] = left
    for counts in found:
        if not counts["echo"]:
            del counts["told"]


def _announce(found: Sequence[Counter[str]]) -> None:
    """A few clauses that name several parts and prescribe nothing are the order of the day."""
    for at, counts in enumerate(found):
        if not counts["header-warm-up"] or counts["over"]:
            continue
        around = found[max(at - _BEFORE, 0) : at + _AGENDA]
        window = found[at : at + _AGENDA]
        parts = sum(any(one[part] for one in window) for part in _PARTS)
        again = _told_again(found, at)
        if again and again > _AGENDA // 2:
            for one in found[at : at + again]:
                one["agenda"] = max(one["agenda"], 1)
        if parts > 1 and not any(one["prescribes"] for one in around):
            for one in window:
                one["agenda"] = max(one["agenda"], 1)


def _told_again(found: Sequence[Counter[str]], at: int) -> int:
    """How many clauses later the warm-up is named again, with nothing prescribed before."""
    for ahead, counts in enumerate(found[at : at + 2 * _AGENDA]):
        if ahead and counts["header-warm-up"]:
            return ahead
        if counts["prescribes"] or counts["structures"]:
            return 0
    return 0


def _weigh(counts: Counter[str], conditional: bool) -> None:
    """Cut the counts of one clause, and let labels speak that follow from others."""
    if conditional and counts["prescribes"] < 2:
        counts["if"] = 1
    for label, count in counts.items():
        counts[label] = min(count, _MOST)
    if counts["header-warm-up"] or counts["header-cool-down"]:  # "okay, the warm up"
        del counts["onward"]
    if counts["header-warm-up"] and counts["header-cool-down"]:
        counts["agenda"] = _MOST
    if counts["counted"] == _MOST and not (counts["clocked"] or counts["sum"]):
        counts["whole"] = 1
    if counts["total"] and counts["restating"] and counts["prescribes"]:
        counts["sum"] = 1  # "so that's 300 metres all in"
    if counts["clock"]:  # times that run a clock are not wished for
        del counts["timed"], counts["within"]
    if not counts:
        counts["plain"] = 1


def _passes_by(reading: Reading, at: int, counted: Set[int]) -> bool:
    """Whether a heading is none: "in the finisher", "then I'll cover pacing", "ten good mornings".

    ``counted`` are the tokens inside of movements, and where one follows its amount.
    """
    if at in counted:
        return True
    before = [token.norm for token in reading.tokens[max(at - 2, 0) : at]]
    return before in (["then", "i'll"], ["then", "we'll"]) or spoken_of(reading.tokens, at)


@cache
def _phrases() -> Phrases:
    return Phrases({row.name: row.said for row in table().values() if row.said})

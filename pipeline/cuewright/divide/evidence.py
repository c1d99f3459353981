"""What speaks for each section and role: the phrases and features of every clause."""

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Sequence
from functools import cache

from cuewright.movements.catalogue import catalogue
from cuewright.phrases import Phrases, spoken_of
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.divided import Role, Section
from cuewright_models.tokens import Mention, Reading

SECTIONS: tuple[Section, ...] = (
    "open", "warm-up", "work", "cool-down", "targets", "cues", "scaling", "pacing", "recap", "close",
)  # fmt: skip
_STRUCTURE_WORDS = frozenset(
    "round rounds set sets emom amrap circuit circuits ladder superset rep reps clock stations".split()
)
Cut = tuple[int, int]
_ECHO = 3
_STATIONS = 3
"""Clauses after a clock within which its list of stations begins."""
_PARTS = ("header-warm-up", "header-work", "header-cool-down", "ending")
_ENDS = frozenset(
    "header-warm-up header-cool-down header-targets header-cues header-scaling header-pacing past sum".split()
)
_MOST = 3
"""Further hits of one label in one clause add nothing."""


class Evidence(Value):
    """One row of ``evidence.toml``; the file's head says what the fields mean."""

    name: str
    said: tuple[str, ...] = ()
    section: dict[Section, float] = {}
    role: dict[Role, float] = {}


@cache
def table() -> dict[str, Evidence]:
    """The weights, validated."""
    return validated(raw("cuewright.divide", "evidence.toml"), Evidence, where="evidence.toml")


@cache
def _phrases() -> Phrases:
    return Phrases({row.name: row.said for row in table().values() if row.said})


def heads(reading: Reading) -> list[int]:
    """The places where a phrase announces a part of the talk."""
    return [
        m.start
        for m in _phrases().everywhere(reading.stems)
        if (m.name.startswith("header-") and m.name not in _LOOSE and not _inside(reading, m))
        or m.name in ("past", "elsewhere", "onward")
    ]


def labels(reading: Reading, clauses: Sequence[Cut]) -> list[Counter[str]]:
    """For each clause, how often each label of the table speaks in it (at most thrice)."""
    found = [Counter[str]() for _ in clauses]
    owner = [i for i, c in enumerate(clauses) for _ in range(*c)]
    seen: set[tuple[str, int]] = set()
    for mention in _phrases().everywhere(reading.stems):
        if mention.name.startswith("header-") and _inside(reading, mention):
            continue
        if (mention.name, mention.start) not in seen:
            seen.add((mention.name, mention.start))
            found[owner[mention.start]][mention.name] += 1
    _hold(reading, clauses, owner, found)
    _list(reading, clauses, found)
    _echo(found)
    _announced(found)
    for counts, clause in zip(found, clauses, strict=True):
        if "if" in [token.norm for token in reading.tokens[clause[0] : clause[0] + 2]]:
            if counts["prescribes"] < 2:
                counts["if"] = 1
        for label in [label for label, n in counts.items() if n < 1]:
            del counts[label]
        for label in list(counts):
            counts[label] = min(counts[label], _MOST)
        if counts["header-warm-up"] and counts["header-cool-down"]:
            counts["agenda"] = _MOST
        if counts["clock"]:  # times that run a clock are not wished for
            del counts["timed"], counts["within"]
        if not +counts:
            counts["plain"] = 1
    return found


def _list(reading: Reading, clauses: Sequence[Cut], found: list[Counter[str]]) -> None:
    """Clauses of bare movement names after a clock are its stations, not coaching."""
    waiting = 0
    for clause, counts in zip(clauses, found, strict=True):
        low = bisect_left(reading.movements, clause[0], key=lambda m: m.start)
        high = bisect_left(reading.movements, clause[1], key=lambda m: m.start)
        named = sum(m.end - m.start for m in reading.movements[low:high])
        if waiting and named * 2 >= clause[1] - clause[0] and not counts["prescribes"]:
            counts["listed"] = 1
            del counts["topic"], counts["names"]
            waiting = _STATIONS
        waiting = _STATIONS if counts["clock"] else max(waiting - 1, 0)


def _announced(found: list[Counter[str]]) -> None:
    """A few clauses that name several parts and prescribe nothing are the order of the day."""
    for at in range(len(found)):
        window = found[at : at + _ECHO + 2]
        parts = {label for counts in window for label in _PARTS if counts[label]}
        if any(counts["prescribes"] for counts in found[max(at - 3, 0) : at]):
            continue
        if (
            len(parts) > 1
            and found[at]["header-warm-up"]
            and not found[at]["over"]
            and not any(c["prescribes"] for c in window)
        ):
            for counts in window:
                counts["agenda"] = max(counts["agenda"], 1)


def _echo(found: list[Counter[str]]) -> None:
    """A recap runs on for a few clauses; a part announced for later covers the next "and then"."""
    for at, counts in enumerate(found):
        if not any(before["prescribes"] for before in found[:at]):
            del counts["header-recap"]  # nothing has been said that could be said again
        if not counts["header-recap"]:
            continue
        for left, later in zip(range(_ECHO, 0, -1), found[at + 1 :], strict=False):
            if any(label in _ENDS and n for label, n in later.items()):
                break
            later["echo"] = left


def _hold(
    reading: Reading, clauses: Sequence[Cut], owner: list[int], found: list[Counter[str]]
) -> None:
    """Count the features that are not phrases: amounts beside movements, structure words."""
    rows = catalogue()
    ends = {a.end: a for a in reading.amounts if a.shape != "ordinal"}
    starts = {a.start: a for a in reading.amounts if a.shape != "ordinal"}
    for mention in reading.movements:
        counts, clause = found[owner[mention.start]], clauses[owner[mention.start]]
        low = max(mention.start - 3, clause[0] + 1)
        high = min(mention.end + 10, clause[1], _next(reading, mention))
        before = any(at in ends for at in range(mention.start, low - 1, -1))
        after = any(at in starts for at in range(mention.end, high))
        if before or after:
            counts["prescribes"] += 1
            near = [a for at, a in starts.items() if low <= at < high] + [
                a for at, a in ends.items() if low <= at <= mention.start
            ]
            if (
                near
                and all(a.unit == "s" for a in near)
                and "s" not in rows[mention.name].counted_in
            ):
                counts["clocked"] += 1
            if mention.name.endswith(_STRETCHES):
                counts["stretches"] += 1
        elif mention.start - clause[0] <= 2:
            counts["topic"] += 1
        else:
            counts["names"] += 1
    for amount in reading.amounts:
        counts = found[owner[amount.start]]
        if amount.unit == "s" and counts["wanted"]:
            counts["timed"] += 1
        if amount.unit == "s" and (amount.low is None or _within(reading, amount.start)):
            counts["within"] += 1
        if amount.shape != "ordinal" and _norm(reading, amount.end) in _STRUCTURE_WORDS:
            counts["structures"] += 1
        if _norm(reading, amount.end) == "on" and _off(reading, amount.end + 1):
            counts["clock"] += 1
        if _norm(reading, amount.end) in ("set", "sets") or amount.unit == "%":
            counts["lifts"] += 1
        if amount.shape == "ordinal" and not _PIECES.isdisjoint(
            (_norm(reading, amount.end), _norm(reading, amount.end + 1))
        ):
            counts["header-work"] += 1
        if amount.shape in ("list", "by") and amount.unit is None:
            counts["structures"] += 1


_PIECES = frozenset("lift part piece block section bit".split())
_STRETCHES = (
    "-stretch",
    "downward-dog",
    "upward-dog",
    "childs-pose",
    "warrior-pose",
    "triangle-pose",
    "savasana",
    "breathing",
    "foam-roll",
)
_ROUGHLY = frozenset("about around roughly just maybe".split())


def _within(reading: Reading, at: int) -> bool:
    """Whether "in" or "inside" stands before a time, hedged or not."""
    while at and reading.tokens[at - 1].norm in _ROUGHLY:
        at -= 1
    return at > 0 and reading.tokens[at - 1].norm in ("in", "inside", "within")


_LOOSE = frozenset(("header-kit", "header-open", "header-close", "header-loads"))


def _inside(reading: Reading, mention: Mention) -> bool:
    """Whether a heading is only spoken of: "in the finisher", "after the warm up"."""
    at = mention.start - 1
    if at > 0 and reading.tokens[at].norm in ("i'll", "we'll") and _norm(reading, at - 1) == "then":
        return True
    return spoken_of(reading.tokens, mention.start)


def _off(reading: Reading, at: int) -> bool:
    """Whether "twenty off" follows soon: the other half of "forty on twenty off"."""
    return "off" in {_norm(reading, place) for place in range(at, at + 4)}


def _next(reading: Reading, mention: Mention) -> int:
    """Where the movement after a mention starts."""
    at = bisect_right(reading.movements, mention.start, key=lambda m: m.start)
    return reading.movements[at].start if at < len(reading.movements) else len(reading.tokens)


def _norm(reading: Reading, at: int) -> str:
    return reading.tokens[at].norm if at < len(reading.tokens) else ""

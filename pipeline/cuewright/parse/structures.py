"""What a clause says of rounds, sets, clocks and rests: regular patterns over span letters.

The grammar (letters as in ``spans.py``):

    rounds     n .? R              "three easy rounds"; n T X "four times through"
    sets       n .? S (f amount)?  "five sets of five"; b "five by five"
    every      V t | V U           "every two minutes", "every minute"
    intervals  t O t F             "forty on twenty off"; t f W … t f Z "of work … of rest"
    rest       Z t | t Z | t B S   "rest 90 seconds", "two minutes between sets"
    cap        K t | t K           "cap of seven minutes"
    ladder     l                   "twenty one fifteen nine"
    share      (n|t|d) H           "thirty seconds each"
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from cuewright.parse.spans import Row, Span
from cuewright_models.tokens import Amount, Token

Kind = Literal[
    "rounds", "sets", "by", "every", "turns", "intervals", "rest", "cap", "no-cap", "ladder",
    "share", "amrap", "for-time", "emom", "slot", "for",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Mark:
    """One structural statement over the tokens ``start:end``; ``amounts`` in the order said."""

    kind: Kind
    start: int
    end: int
    amounts: tuple[Amount, ...] = ()
    between: str = ""
    """For a rest: "set" or "round" when said to stand between those."""


_GAP = "[.e]{0,2}"
# Tried in this order; a span is used once. Groups are the spans that the mark keeps.
_PATTERNS: tuple[tuple[Kind, re.Pattern[str]], ...] = tuple(
    (kind, re.compile(pattern))  # type: ignore[misc]
    for kind, pattern in (
        ("intervals", rf"([tn])[.eq]?O[.ehqw]{{0,3}}([tn])[.eq]?F"),
        ("intervals", r"(t)[fe]*W[.ehqfw]{0,4}(t)[fe.]{0,2}[ZF]"),
        ("intervals", r"Wq?e?(t)[.ehqw]{0,4}Zq?e?([tn])"),
        ("intervals", r"Wq?e?(t)[.ehqw]{0,6}(t)[fe.]?Z"),
        ("intervals", r"(t)f[.eM]{1,3}h{1,2}(t)[fe.]?Z"),
        ("intervals", r"R[.e]{0,3}(t)[.ew]{1,3}(t)f?Z"),
        ("no-cap", r"N[.e]{0,2}K"),
        ("cap", r"K[.eOfq]{0,9}?(t)"),
        ("cap", r"K[.e]?Oef(n)"),
        ("cap", r"(t)[.e]?K"),
        ("every", r"V[e.]?(t)"),
        ("every", r"V[o.]?U"),
        ("emom", r"G"),
        ("amrap", r"A"),
        ("rest", r"Z[qefh.]{0,3}(t)"),
        ("rest", r"(t)[fe.]?Z"),
        ("rest", r"(t)[e.]?B"),
        ("rest", r"(t)F"),
        ("rest", r"B[eH]{0,2}[SR][.e]{0,4}(t)"),
        ("by", r"(b)"),
        ("by", r"(n)[.eo]?Sf[.e]{0,2}([ntdc])(?![.eP]{0,2}M)"),
        ("sets", r"(n)[.eo]?S"),
        ("rounds", r"(n)[.e]{0,2}R"),
        ("turns", r"(n)[.e]?T"),
        ("turns", r"(2)"),
        ("ladder", r"(l)"),
        ("share", r"([ntdc])[.e]?(?:OH|H|fH)(?!D)"),
        ("slot", r"[eV.]?U(n)"),
    )
)


def marks(row: Row, tokens: tuple[Token, ...]) -> list[Mark]:
    """The structural statements of a row, in order, without overlaps."""
    letters = list(row.letters)
    found: list[Mark] = []
    for kind, pattern in _PATTERNS:
        for match in list(pattern.finditer("".join(letters))):
            spans = row.spans[match.start() : match.end()]
            if not _fits(kind, spans, tokens):
                continue
            kept = tuple(
                span.amount
                for group in range(1, len(match.groups()) + 1)
                if (span := row.spans[match.start(group)]).amount is not None
            )
            between = _between(row, match.start(), match.end()) if kind == "rest" else ""
            found.append(Mark(kind, spans[0].start, spans[-1].end, kept, between))
            for at in range(match.start(), match.end()):
                letters[at] = "-"
    return sorted(found, key=lambda mark: mark.start)


_THROUGH = frozenset("through round around over".split())
_LISTED = frozenset(
    "things exercises moves that it this those them lot stations everything list circuit all pair".split()
)
_NOT_ROUNDS = frozenset("first second third last each every per next another one".split())


def _fits(kind: Kind, spans: tuple[Span, ...], tokens: tuple[Token, ...]) -> bool:
    """Context that letters cannot show."""
    first, last = spans[0], spans[-1]
    before = tokens[first.start - 1].norm if first.start else ""
    if kind in ("rounds", "sets"):
        return before not in ("round", "rounds", "minute", "number") and not _stopped(spans, tokens)
    if kind == "turns" and last.letter == "2":
        ahead = tokens[last.end].norm if last.end < len(tokens) else ""
        run_up = {token.norm for token in tokens[max(first.start - 5, 0) : first.start]}
        whole = before in _LISTED or ahead in _THROUGH or "through" in run_up
        return last.word != "once" and whole
    if kind == "turns":
        return before not in ("each", "every", "how") and last.word in ("time", "times")
    if kind == "cap":
        return before not in ("no",)
    if kind == "every" and last.letter == "U":
        ahead = [token.norm for token in tokens[last.end : last.end + 10]]
        return (
            "on" in ahead[:1]
            or "for" in ahead[:4]
            or "you" in ahead[:1]
            or before in ("it's", "is")
        )
    if kind == "ladder":
        rungs = first.amount.values if first.amount else ()
        named = before in _NAMED and not tokens[first.start - 1].after
        return not named and len(rungs) > 2 and max(rungs) >= _TOP_RUNG and _steps(rungs)
    if kind == "rest":
        return not _stopped(spans, tokens, weak=True)
    return True


_NAMED = frozenset(
    "number numbers minute minutes round rounds station stations set sets week weeks".split()
)
_TOP_RUNG = 5


def _steps(rungs: tuple[float, ...]) -> bool:
    """Whether rungs rise, fall, or rise and fall again: no other list is a ladder."""
    if any(a == b for a, b in zip(rungs, rungs[1:], strict=False)):
        return False
    turns = [b > a for a, b in zip(rungs, rungs[1:], strict=False)]
    changes = [b for a, b in zip(turns, turns[1:], strict=False) if a != b]
    return not changes or (changes == [False])


def _stopped(spans: tuple[Span, ...], tokens: tuple[Token, ...], *, weak: bool = False) -> bool:
    """Whether a stop (or, unless ``weak``, a comma) parts the spans."""
    stops = ".?!" if weak else ".?!,;:"
    return any(
        tokens[at].after and tokens[at].after in stops
        for at in range(spans[0].start, spans[-1].end - 1)
    )


def _between(row: Row, start: int, end: int) -> str:
    """ "set" or "round" when the rest at letters ``start:end`` stands between those."""
    for match in re.finditer(r"[BH][e.fo]{0,3}([RS])", row.letters):
        if match.start() >= start - 8 and match.start() <= end + 6:
            return "set" if match.group(1) == "S" else "round"
    return ""

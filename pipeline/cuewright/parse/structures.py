"""What a clause says of rounds, sets, clocks and rests: regular patterns over span letters.

The grammar (letters as in ``spans.py``; ``words.toml`` has the words of each). Small words may
stand in between; ``_PATTERNS`` says how many.

    intervals  (t|n) O (t|n) F        "forty on twenty off"
               t W t (Z|F)            "forty seconds work, twenty seconds rest"
               t H w t Z              "forty seconds each with twenty to change"
               q t Z (t|n)            "for forty seconds, rest twenty"
               W t Z (t|n) | W t t Z  "work forty seconds, rest twenty"
               t f M h t Z            "thirty seconds of rowing then thirty seconds rest"
               R t t Z                "rounds of a minute with thirty seconds rest"
    no-cap     N K                    "no cap"
    cap        K t | K O e f n | t K  "cap of seven minutes", "a cap on it of seven"
    every      V t | V U              "every two minutes", "every minute on the minute"
    emom       G                      these with "for twenty minutes" after, or before an EMOM
    amrap      A f t | t A | A        "an AMRAP of ten minutes"
    rest       Z t | t Z | t B | t F  "rest 90 seconds", "two minutes between sets"
               B (S|R) t              "between sets two minutes"
    by         b                      "five by five"
               n S f (n|t|d|c)        "five sets of five", where no movement follows
    sets       n S                    "five sets"
    one-set    S f n                  "a set of ten, then a set of eight"
    rounds     n R                    "three easy rounds"
    turns      n T | 2                "four times through", "twice"
    those      n f e                  "four of those", after a list
    ladder     l                      "twenty one fifteen nine"
    share      (n|t|d|c) H            "thirty seconds each", where no side follows
    slot       U n                    "minute two"
"""

import re
from dataclasses import dataclass
from typing import Literal

from cuewright.movements.catalogue import catalogue
from cuewright.parse.rungs import in_order, is_ladder
from cuewright.parse.spans import Row, Span
from cuewright.parse.words import words
from cuewright_models.tokens import Amount, Token

Kind = Literal[
    "intervals", "no-cap", "cap", "every", "emom", "amrap", "rest", "by", "sets", "one-set",
    "rounds", "turns", "those", "ladder", "share", "slot",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Mark:
    """One structural statement over the tokens ``start:end``; ``amounts`` in the order said."""

    kind: Kind
    start: int
    end: int
    amounts: tuple[Amount, ...] = ()
    between: Literal["", "set", "round"] = ""
    """For a rest: what it is said to stand between."""


# Tried in this order; a span is used once. Groups are the spans whose amounts the mark keeps.
_PATTERNS: tuple[tuple[Kind, re.Pattern[str]], ...] = (
    ("intervals", re.compile(r"([tn])[.eq]?O[.ehqw]{0,3}([tn])[.eq]?F")),
    ("intervals", re.compile(r"([tn])[fe]*W[.ehqfw]{0,4}([tn])[fe.]{0,2}[ZFv]")),
    ("intervals", re.compile(r"(t)f?Wh(t)(?![.efO]{0,2}[MB])")),
    ("intervals", re.compile(r"(n)fWh(t)F")),
    ("intervals", re.compile(r"(t)h?(t)F")),
    ("intervals", re.compile(r"(t)Oh?(t)(?![fM])")),
    ("intervals", re.compile(r"(t)[.e]{0,2}H[.D]?w(t)[fe.]{0,2}[ZFv]")),
    ("intervals", re.compile(r"(?<!M)q(t)[.eh]{0,3}Zq?([tn])")),
    ("intervals", re.compile(r"Wq?e?(t)[.ehqw]{0,4}Zq?e?([tn])")),
    ("intervals", re.compile(r"Wq?e?(t)[.ehqw]{0,6}(t)[fe.]?Z")),
    ("intervals", re.compile(r"(t)f[.eM]{1,3}h{1,2}(t)[fe.]?Z")),
    ("intervals", re.compile(r"R[.e]{0,3}(t)[.ew]{1,3}(t)f?Z")),
    ("no-cap", re.compile(r"N[.e]{0,2}K")),
    ("cap", re.compile(r"K[.eOfq]{0,9}?(t)")),
    ("cap", re.compile(r"K[.e]?Oef(n)")),
    ("cap", re.compile(r"(t)[.e]?K")),
    ("every", re.compile(r"V[e.]?(t)(?:qt)?")),
    ("every", re.compile(r"V[o.]?U(?:O[eV]U)?(?:qt)?")),
    ("emom", re.compile(r"Gqt")),
    ("emom", re.compile(r"G(n)(?![.eP]{0,2}M)")),
    ("emom", re.compile(r"t[e.]?G")),
    ("emom", re.compile(r"G")),
    ("amrap", re.compile(r"A[fqe.]{0,3}(t)")),
    ("amrap", re.compile(r"(t)[e.]?A")),
    ("amrap", re.compile(r"A(n)(?![.eP]{0,2}M)")),
    ("amrap", re.compile(r"A")),
    ("rest", re.compile(r"Z[qefh.]{0,3}(t)")),
    ("rest", re.compile(r"(t)[fe.]?Z")),
    ("rest", re.compile(r"(t)[e.]?B")),
    ("rest", re.compile(r"(t)F")),
    ("rest", re.compile(r"w(t)[^ntdcM]{1,8}B")),
    ("rest", re.compile(r"B[VHfe.n]{2,6}[RS.e]{0,2}e(t)")),
    ("rest", re.compile(r"B[eH]{0,2}[SR][.e]{0,4}(t)")),
    ("by", re.compile(r"(b)")),
    ("by", re.compile(r"(n)[.e]?Mf(d)(?![.efP]{0,2}M)")),
    ("by", re.compile(r"(n)[.eo]?Sf[.e]{0,2}([ntdc])(?![.efP]{0,2}M)")),
    ("sets", re.compile(r"(n)[.eo]?S")),
    ("one-set", re.compile(r"Sf(n)")),
    ("rounds", re.compile(r"(n)[.e]{0,2}R")),
    ("rounds", re.compile(r"(?<![nM])(n)f(?=nM)")),
    ("rounds", re.compile(r"R(n)(?=f[nd])")),
    ("sets", re.compile(r"S(n)(?=fn)")),
    ("turns", re.compile(r"(n)[.e]?T")),
    ("turns", re.compile(r"T(n)$")),
    ("turns", re.compile(r"(n)X")),
    ("those", re.compile(r"(n)fe")),
    ("turns", re.compile(r"(2)")),
    ("ladder", re.compile(r"(l)")),
    ("share", re.compile(r"([ntdc])[.e]?(?:OH|H|fH)(?!D)")),
    ("slot", re.compile(r"[eV.]?U(n)")),
)
_BETWEEN = re.compile(r"[BH][e.fo]{0,3}([RS])")
_NEAR_REST = 8, 6
"""Letters before and after a rest within which "between sets" belongs to it."""
_FILLING = "eq."
"""Letters that may stand between a movement and its amount."""
_LONG = 3
"""A list longer than this is a ladder even where it follows "the numbers"."""
_SHORT = 3
"""Spans of "every other minute"; longer, it is "every minute on the minute"."""
_RUN_UP = 5
"""Tokens before "twice" in which "through" may be said."""
_NUMBERED = words("structures", "numbered")
_NAMED = words("structures", "named")
_LISTED = words("structures", "listed")
_THROUGH = words("structures", "through")
_RATES = words("structures", "rates")
_THOSE = words("efforts", "those")
_WANTED = words("structures", "wanted")
_BEGINS = words("structures", "begins")
_ONE = words("structures", "one")
_FIRST = words("spans", "ordinals")
_NEVER_RESTS = words("structures", "never_rests")
_MEANS = words("structures", "means")


def marks(row: Row, tokens: tuple[Token, ...]) -> list[Mark]:
    """The structural statements of a row, in order, without overlaps."""
    letters = row.letters
    found: list[Mark] = []
    for kind, pattern in _PATTERNS:
        for match in list(pattern.finditer(letters)):
            first, last = match.span()
            stopped = bool(tokens[row.spans[last - 1].end - 1].after)
            own = kind == "share" and not stopped and _for_a_side(row, first)
            if not own and _fits(kind, row.spans[first:last], tokens):
                found.append(_mark(kind, row, match))
                letters = letters[:first] + "-" * (last - first) + letters[last:]
    return sorted(found, key=lambda mark: mark.start)


def _for_a_side(row: Row, at: int) -> bool:
    """Whether "thirty seconds each" is of one movement, whose "side" was not heard.

    Of a list, where movements wait for their amounts, it is shared.
    """
    before = row.letters[:at]
    named = before.rstrip(_FILLING)
    if not named.endswith("M") or not catalogue()[row.spans[len(named) - 1].movement].one_sided:
        return False
    return before.count("M") - sum(map(before.count, "ntdc")) <= 1


def _mark(kind: Kind, row: Row, match: re.Match[str]) -> Mark:
    kept = (row.spans[match.start(group)].amount for group in range(1, len(match.groups()) + 1))
    return Mark(
        kind=kind,
        start=row.spans[match.start()].start,
        end=row.spans[match.end() - 1].end,
        amounts=tuple(amount for amount in kept if amount is not None),
        between=_between(row, match) if kind == "rest" else "",
    )


def _fits(kind: Kind, spans: tuple[Span, ...], tokens: tuple[Token, ...]) -> bool:
    """Context that letters cannot show."""
    first, last = spans[0], spans[-1]
    before = tokens[first.start - 1].norm if first.start else ""
    match kind:
        case "rounds" | "sets" if first.letter in "RS":  # "rounds four of ten burpees"
            return first.word.endswith("s") and not _stopped(spans, tokens, ".?!,;:")
        case "rounds" | "sets":
            around = last.word == "round" and len(spans) > 2  # "six spots round the hall"
            if kind == "rounds" and (around or _describes(first, last, tokens)):
                return False
            return before not in _NUMBERED and not _stopped(spans, tokens, ".?!,;:")
        case "turns" if last.letter == "2":
            whole = before in _LISTED or _through(last, tokens)
            return last.word != "once" and whole
        case "one-set":
            return before in _ONE
        case "those":
            return last.word in _THOSE and before in _WANTED
        case "turns" if last.letter == "X":
            return last.word == "through" and before not in _RATES
        case "turns":
            return before not in _RATES
        case "cap":
            return before != "no"
        case "every" if last.letter == "U" and len(spans) <= _SHORT:
            ahead = [token.norm for token in tokens[last.end : last.end + 4]]
            begins = "for" in ahead or (bool(ahead) and ahead[0] in _BEGINS)
            return begins or before in ("it's", "is")
        case "slot":
            counted = first.word in _FIRST or before in _FIRST  # "first minute, ten squats"
            return not counted and not _stopped(spans, tokens, ".?!,;:")
        case "ladder":
            if first.amount is None or not is_ladder(in_order(first.amount.values)):
                return False
            stopped = bool(tokens[first.start - 1].after)
            return before not in _NAMED or stopped or len(first.amount.values) > _LONG
        case "rest" if before in _NEVER_RESTS or _others(spans, tokens):
            return False
        case "rest" if first.word == "after" and spans[1].letter != "H" and len(spans) > _SHORT:
            return False  # "after a drink it's eight minutes"
        case "rest":
            return not _stopped(spans, tokens, ".?!")
    return True


def _describes(number: Span, noun: Span, tokens: tuple[Token, ...]) -> bool:
    """ "One round is ten burpees" counts no rounds."""
    one = number.amount is not None and number.amount.low == number.amount.high == 1
    return one and noun.end < len(tokens) and tokens[noun.end].norm in _MEANS


def _others(spans: tuple[Span, ...], tokens: tuple[Token, ...]) -> bool:
    """ "The rest of you have a minute"."""
    first = spans[0]
    return first.letter == "Z" and first.end < len(tokens) and tokens[first.end].norm == "of"


def _through(twice: Span, tokens: tuple[Token, ...]) -> bool:
    """ "Twice through", "through that list twice"."""
    run_up = [token.norm for token in tokens[max(twice.start - _RUN_UP, 0) : twice.start]]
    return "through" in run_up or (twice.end < len(tokens) and tokens[twice.end].norm in _THROUGH)


def _stopped(spans: tuple[Span, ...], tokens: tuple[Token, ...], stops: str) -> bool:
    """Whether one of the ``stops`` parts the spans."""
    inside = tokens[spans[0].start : spans[-1].end - 1]
    return any(token.after and token.after in stops for token in inside)


def _between(row: Row, rest: re.Match[str]) -> Literal["", "set", "round"]:
    """What a rest is said to stand between."""
    before, after = _NEAR_REST
    for match in _BETWEEN.finditer(row.letters):
        if rest.start() - before <= match.start() <= rest.end() + after:
            return "set" if match.group(1) == "S" else "round"
    return ""

"""Where one clause ends and the next begins: stops, pauses, lines and discourse words."""

from collections.abc import Iterable, Iterator, Sequence

from cuewright_models.tokens import Reading, Token

PAUSE_S = 0.35
"""A silence this long ends a clause in talk without punctuation."""
_PUNCTUATED = 1 / 40
"""Stops per word from which a talk counts as punctuated."""
_STOPS = frozenset(".?!;")
_OPENERS = frozenset(
    "okay ok alright right so now then but if when because also next finally anyway oh well first "
    "second third unless although once before after".split()
)
_AND = frozenset("then we if the on for when that you now with so after your finally".split())
# An opener that belongs to the words before it: "right there", "so that", "even if".
_NOT_BEFORE = {
    "right": frozenset(
        "there under through on over in at hand leg arm side foot away up angle the back".split()
    ),
    "so": frozenset("that much many on far long often you".split()),
    "now": frozenset("and".split()),
    "well": frozenset("as".split()),
    "first": frozenset(
        "one two round time run set half bit class night three minute few mile of thing and ever 30 last chipper".split()
    ),
    "second": frozenset(
        "round one time set half hold piece and or reps of on off each per rest".split()
    ),
    "third": frozenset("round one time set of and".split()),
    "next": frozenset(
        "one to week month time minute session thursday monday tuesday wednesday friday saturday sunday round position thing".split()
    ),
    "then": frozenset(),
    "when": frozenset(),
    "once": frozenset("through round a and again for around".split()),
    "before": frozenset("they you they're it the they that going anybody somebody anyone".split()),
    "after": frozenset("each that every the your".split()),
}
_NOT_AFTER = {
    "right": frozenset("the your that's all on is a just it's to".split()),
    "so": frozenset("and or not do think is say doing it hope".split()),
    "now": frozenset("right for until by just".split()),
    "well": frozenset("as very pretty really".split()),
    "ok": frozenset(["that's", "is"]),
    "okay": frozenset(["that's", "is", "it's", "are"]),
    "first": frozenset("the that your my hips at back legs feet out our head".split()),
    "second": frozenset(
        "the that your a each every minute thirty forty ninety fifteen ten twenty sixty one five my fifty 30 40 20 45 60 10 15 90".split()
    ),
    "third": frozenset("the that your a my".split()),
    "next": frozenset("the".split()),
    "then": frozenset("and till".split()),
    "if": frozenset("and or as even but see like what".split()),
    "when": frozenset("and".split()),
    "once": frozenset("at and it you i all the done this that".split()),
    "but": frozenset(),
    "before": frozenset("day of than".split()),
    "after": frozenset("and day look soon right".split()),
    "because": frozenset("just".split()),
}


def clauses(reading: Reading, heads: Iterable[int] = ()) -> list[tuple[int, int]]:
    """The talk cut into clauses that cover every token, in order.

    ``heads`` are the places where a phrase announces a part of the talk; without
    punctuation they cut too.
    """
    tokens = reading.tokens
    spoken = not punctuated(tokens)
    found = {0, *_cuts(tokens, spoken=spoken), len(tokens)}
    if spoken:
        found |= {at for at in heads if found.isdisjoint((at - 2, at - 1, at, at + 1))}
    cuts = sorted(found)
    return [(a, b) for a, b in zip(cuts, cuts[1:], strict=False) if a < b]


def linked(reading: Reading, cuts: Sequence[tuple[int, int]]) -> list[bool]:
    """For each clause, whether it begins with "and" (not "and then")."""
    tokens = reading.tokens
    return [
        tokens[a].norm == "and"
        and not (a + 1 < b and tokens[a + 1].norm in ("then", "finally", "now"))
        for a, b in cuts
    ]


def punctuated(tokens: Sequence[Token]) -> bool:
    """Whether the source sets stops at the ends of its sentences."""
    stops = sum(token.after in _STOPS and token.after != ";" for token in tokens)
    return stops > len(tokens) * _PUNCTUATED


def _cuts(tokens: Sequence[Token], *, spoken: bool) -> Iterator[int]:
    last = 0
    for at in range(1, len(tokens)):
        before, token = tokens[at - 1], tokens[at]
        if (
            before.after in _STOPS
            or token.starts
            or (spoken and (token.pause_s >= PAUSE_S or _opens(tokens, at, last)))
        ):
            last = at
            yield at


def _opens(tokens: Sequence[Token], at: int, last: int) -> bool:
    """Whether a discourse word starts a clause at ``at``; ``last`` is where this one began."""
    word = tokens[at].norm
    before = tokens[at - 1].norm
    after = tokens[at + 1].norm if at + 1 < len(tokens) else ""
    if word == "and":
        return after in _AND and at - last > 3
    if (
        word not in _OPENERS
        or before in _NOT_AFTER.get(word, ())
        or after in _NOT_BEFORE.get(word, ())
    ):
        return False
    if before in _OPENERS | {"and"} and at - last <= 2:
        return False
    return not (word == "then" and "if" in {t.norm for t in tokens[last : min(last + 3, at)]})

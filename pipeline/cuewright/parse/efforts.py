"""Efforts: which amount belongs to which movement, and what stands around them.

Amounts and movements alternate in speech; each movement takes at most one amount from the
stretch before it or after it. The cheapest assignment over the whole clause wins: an
amount right before its movement costs nothing, words in between and an amount that
follows cost a little, a movement left bare costs more.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from cuewright.movements.catalogue import catalogue
from cuewright.parse.spans import Row, Span
from cuewright.parse.structures import Mark
from cuewright_models.tokens import Amount, Token

_AMOUNT_LETTERS = frozenset("ntdcpx")
_FAR = 5
"""Words between an amount and its movement, at most."""
_BARE = 4.0
"""Cost of a movement without an amount."""
_AFTER = 1.2
"""Cost of an amount that follows its movement."""
_COMMA = 0.7
_STOP = 3.0
_POINTS = frozenset("that's it's which is one's".split())
_POINTED = 1.5
_LINK = 0.8
_LINKS = {"D": 1.5, "f": 0.0, "e": 0.15, "h": _LINK, "O": 0.1, "P": 0.1, "q": 0.1}
_PRONOUNS = frozenset("you i we they he she".split())
_PRONOUN = 2.5
"""A pronoun starts a new statement: "when you've done your four you run"."""
_MOST = 1.0
"""What "as long as you can" is worth over a number that also stands near."""
_STRANGE = 2
"""Unknown words between an amount and its movement that cost little."""
"""Cost of "and" or "then" in between."""


@dataclass(frozen=True, slots=True)
class Bound:
    """A movement over ``start:end`` with its amount, if any; ``first:last`` covers both."""

    movement: str
    start: int
    end: int
    amount: Amount | None
    first: int
    last: int
    max: bool = False
    per_side: bool = False
    loads: tuple[Amount, ...] = ()
    alternatives: tuple[str, ...] = field(default=())


def efforts(row: Row, taken: Sequence[Mark], tokens: tuple[Token, ...]) -> list[Bound]:
    """Every movement of a row with the amount that is its own, in order."""
    used = {at for mark in taken for at in range(mark.start, mark.end)}
    spans = [s for s in row.spans if s.start not in used or s.letter == "M"]
    places = [
        i for i, span in enumerate(spans) if span.letter == "M" and not _refused(span, tokens)
    ]
    if not places:
        return []
    given = _assign(spans, places, tokens)
    out: list[Bound] = []
    for order, place in enumerate(places):
        span, mine = spans[place], given.get(order)
        if order and _offered(spans, places[order - 1], place):
            out[-1] = _with_alternative(out[-1], span.movement, mine)
            continue
        first = min(span.start, mine.start) if mine else span.start
        last_token = max(span.end, mine.end) if mine else span.end
        out.append(
            Bound(
                movement=span.movement,
                start=span.start,
                end=span.end,
                amount=mine.amount if mine else None,
                first=first,
                last=last_token,
                max=mine is not None and mine.letter == "x",
            )
        )
    out = _listed(out, tokens)
    numbers = {s.end: s.amount for s in row.spans if s.amount is not None}
    edges = [*(b.first for b in out[1:]), row.end]
    return [_sided(b, edge, tokens, numbers) for b, edge in zip(out, edges, strict=True)]


def _listed(bounds: list[Bound], tokens: tuple[Token, ...]) -> list[Bound]:
    """ "Thirty yards: high knees, butt kicks and carioca": the amount is for the whole list."""
    shared: Amount | None = None
    out = []
    for bound in bounds:
        if bound.amount is not None:
            ahead = bound.amount.end <= bound.start and tokens[bound.amount.end - 1].after == ":"
            shared = bound.amount if ahead else None
        elif shared is not None and not bound.max:
            bound = replace(bound, amount=shared)
        out.append(bound)
    return out


def _refused(span: Span, tokens: tuple[Token, ...]) -> bool:
    """ "No burpees", "without the run"."""
    before = tokens[span.start - 1] if span.start else None
    if span.end < len(tokens) and tokens[span.end].norm == "thing":
        return True  # "the windscreen wiper thing" only describes
    if before is not None and before.norm == "a" and span.start > 1:
        before = tokens[span.start - 2]  # "it's not a sprint"
    return (
        before is not None and not before.after and before.norm in ("no", "without", "not", "any")
    )


def _assign(spans: list[Span], places: list[int], tokens: tuple[Token, ...]) -> dict[int, Span]:
    """The amount span of each movement, by the order of the movement; dynamic over gaps."""
    edges = [-1, *places, len(spans)]
    # best[k]: cheapest cost so far where the last movement seen is (0) bare (1) bound
    states: dict[bool, tuple[float, dict[int, Span]]] = {True: (0.0, {})}
    for order in range(len(places) + 1):
        gap = [
            i
            for i in range(edges[order] + 1, edges[order + 1])
            if spans[i].letter in _AMOUNT_LETTERS
        ]
        fresh: dict[bool, tuple[float, dict[int, Span]]] = {}
        for bound, (cost, given) in states.items():
            for price, mine, theirs in _choices(
                spans, gap, edges[order], edges[order + 1], bound, tokens
            ):
                total = cost + price
                if order == len(places) and theirs is not None:
                    continue
                chosen = dict(given)
                if mine is not None:
                    chosen[order - 1] = mine
                if theirs is not None:
                    chosen[order] = theirs
                key = theirs is not None
                if key not in fresh or total < fresh[key][0]:
                    fresh[key] = (total, chosen)
        states = fresh
    given = min(states.values(), key=lambda state: state[0])[1]
    return given | _lonely(spans, places, given)


def _lonely(spans: list[Span], places: list[int], given: dict[int, Span]) -> dict[int, Span]:
    """A single measured amount far behind a bare movement is still its own."""
    taken = {span.start for span in given.values()}
    out = {}
    for order, place in enumerate(places):
        until = places[order + 1] if order + 1 < len(places) else len(spans)
        left = [
            s
            for s in spans[place + 1 : until]
            if s.letter in _AMOUNT_LETTERS and s.start not in taken
        ]
        if order not in given and len(left) == 1 and left[0].letter in "td":
            if not _misfit(left[0], spans[place]):
                out[order] = left[0]
    return out


def _choices(
    spans: list[Span], gap: list[int], left: int, right: int, bound: bool, tokens: tuple[Token, ...]
) -> list[tuple[float, Span | None, Span | None]]:
    """Ways to share the amounts of one gap: (cost, for the movement before, for the one after)."""
    bare = 0.0 if bound or left < 0 else _BARE
    options: list[tuple[float, Span | None, Span | None]] = [(bare, None, None)]
    for i in gap:
        before = _distance(spans, left, i, tokens) + _AFTER if left >= 0 and not bound else None
        after = _distance(spans, i, right, tokens) if right < len(spans) else None
        if before is not None:
            before += _misfit(spans[i], spans[left])
        if after is not None:
            after += _misfit(spans[i], spans[right])
        if before is not None and before < _BARE:
            options.append((before, spans[i], None))
        if after is not None and after < _BARE:
            options.append((bare + after, None, spans[i]))
        if before is not None:
            for j in gap:
                late = _distance(spans, j, right, tokens) if j > i and right < len(spans) else None
                late = None if late is None else late + _misfit(spans[j], spans[right])
                if late is not None and before + late < 2 * _BARE:
                    options.append((before + late, spans[i], spans[j]))
    return options


def _misfit(amount: Span, movement: Span) -> float:
    """A little more for an amount in a unit that the movement is not counted in."""
    if amount.letter == "x":
        return -_MOST
    counted = catalogue()[movement.movement].counted_in
    unit = {"n": "reps", "t": "s", "d": "m", "c": "kcal"}.get(amount.letter, "reps")
    return 0.0 if unit in counted or amount.letter in "xp" else 0.8


def _distance(spans: list[Span], left: int, right: int, tokens: tuple[Token, ...]) -> float:
    """What stands between two spans, as a cost."""
    cost, strange = 0.0, 0
    for span in spans[left + 1 : right]:
        if span.letter not in _LINKS and span.letter != "D":
            strange += 1
        cost += _PRONOUN if span.word in _PRONOUNS else 0.0
        cost += _LINKS.get(span.letter, 0.5 if strange <= _STRANGE else 1.5)
    if right - left - 1 > _FAR + 3:
        cost += _BARE
    held = spans[right + 1 : right + 3]
    if spans[left].letter == "M" and (
        (right - left > 1 and spans[right - 1].word in _POINTS)
        or (
            len(held) == 2
            and held[0].letter == "f"
            and held[1].word in ("those", "them", "these", "em")
        )
    ):
        return min(cost, _POINTED)  # "a run out to the gate and back, that's 1200 metres"
    for span in spans[left:right]:
        after = tokens[span.end - 1].after
        cost += _STOP if after in (".", "?", "!", ";") and after else _COMMA if after else 0.0
    return cost


def _offered(spans: list[Span], left: int, right: int) -> bool:
    """Whether "or" joins two movements on the spot: "ski or row", "40 bikes or 40 rows"."""
    middle = spans[left + 1 : right]
    if not middle or len(middle) > _FAR or any(s.letter in "hRSZ" for s in middle):
        return False
    return "Y" in {s.letter for s in middle[:2]} or middle[-1].letter == "Y"


def _with_alternative(bound: Bound, movement: str, mine: Span | None) -> Bound:
    """The effort with another movement offered; an amount after both is for either."""
    taken = mine if bound.amount is None and mine is not None else None
    return replace(
        bound,
        alternatives=(*bound.alternatives, movement),
        amount=taken.amount if taken else bound.amount,
        last=max(bound.last, taken.end) if taken else bound.last,
    )


_SIDES = frozenset(
    "side sides leg legs arm arms direction directions way ways foot feet hand hands ankle ankles hip hips shoulder shoulders wrist wrists".split()
)
_EACH = frozenset("each per either both a".split())
_WHOLE = frozenset("total altogether together".split())


def _whole(tokens: tuple[Token, ...], at: int) -> bool:
    """ "Twenty total", "twelve in all": not for each side."""
    return tokens[at].norm in _WHOLE or (tokens[at].norm == "all" and tokens[at - 1].norm == "in")


def _sided(
    bound: Bound, until: int, tokens: tuple[Token, ...], numbers: Mapping[int, Amount]
) -> Bound:
    """Mark "each side" between this effort and the next.

    Not where the amount is called a total, or is said to be twice so many each side.
    """
    limit = min(until, bound.last + 9)
    if any(_whole(tokens, at) for at in range(bound.last, min(until, bound.last + 20))):
        return bound
    for at in range(bound.first, limit):
        norm = tokens[at].norm
        if norm in _EACH:
            ahead = (
                at + 2
                if at + 1 < limit and tokens[at + 1].norm in ("on", "the", "of", "your", "single")
                else at + 1
            )
            half = numbers.get(at)
            if half is not None and bound.amount is not None and half.low != bound.amount.low:
                return bound  # "twenty step ups, ten each leg"
            if (
                ahead < limit
                and tokens[ahead].norm in _SIDES
                and not (norm == "a" and at < bound.last)
            ):
                return replace(bound, per_side=True, last=max(bound.last, ahead + 1))
        if at >= bound.last and tokens[at - 1].after in (".", "?", "!"):
            break
    return bound

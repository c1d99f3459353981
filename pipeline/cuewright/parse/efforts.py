"""Efforts: each movement with its amount, what is offered instead, and whether for each side."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from cuewright.movements.catalogue import catalogue
from cuewright.parse.likeness import stretches
from cuewright.parse.pairing import paired
from cuewright.parse.spans import Row, Span
from cuewright.parse.structures import Mark
from cuewright.parse.words import words
from cuewright_models.tokens import Amount, Token, norm_at

_JOINS = frozenset(("and", "the", "a", "your", "then"))
"""Words between two stretches that are held as long."""
_FAR = 5
"""Spans between a movement and the one offered instead, at most."""
_SIDE = 9
"""Tokens after an effort within which "each side" is said, and …"""
_TOTAL = 20
"""… within which its amount is called a total."""
_REFUSING = words("efforts", "refusing")
_EACH = words("sides", "each")
_BETWEEN = words("sides", "between")
_PARTS = words("sides", "parts")
_WHOLE = words("sides", "whole")
_HANDS = words("sides", "hands")
_LONE = words("sides", "lone")
_ON = words("sides", "on")
_COUNTED = words("sides", "counted")


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
    alternatives: tuple[str, ...] = ()


def efforts(row: Row, taken: Sequence[Mark], tokens: Sequence[Token]) -> list[Bound]:
    """Every movement of a row with the amount that is its own, in order.

    The spans of the marks ``taken`` belong to structures, and are no amounts.
    """
    used = {at for mark in taken for at in range(mark.start, mark.end)}
    spans = [s for s in row.spans if s.start not in used or s.letter == "M"]
    places = [i for i, s in enumerate(spans) if s.letter == "M" and not _refused(s, tokens)]
    given = paired(spans, places, tokens) if places else {}
    bounds: list[Bound] = []
    for order, place in enumerate(places):
        if order and _offered(spans, places[order - 1], place):
            bounds[-1] = _with_alternative(bounds[-1], spans[place].movement, given.get(order))
        else:
            bounds.append(_bound(spans[place], given.get(order)))
    bounds = _shared(bounds, tokens)
    numbers = {s.end: s.amount for s in row.spans if s.amount is not None}
    edges = [*(b.first for b in bounds[1:]), row.end]
    sided = [_sided(b, edge, tokens, numbers) for b, edge in zip(bounds, edges, strict=False)]
    return _both(sided, tokens)


def _bound(movement: Span, amount: Span | None) -> Bound:
    return Bound(
        movement=movement.movement,
        start=movement.start,
        end=movement.end,
        amount=amount.amount if amount else None,
        first=min(movement.start, amount.start) if amount else movement.start,
        last=max(movement.end, amount.end) if amount else movement.end,
        max=amount is not None and amount.letter == "x",
    )


def _refused(movement: Span, tokens: Sequence[Token]) -> bool:
    """ "No burpees", "it's not a sprint"; "the windscreen wiper thing" only describes."""
    if movement.end < len(tokens) and tokens[movement.end].norm == "thing":
        return True
    at = movement.start - 1
    if at > 0 and tokens[at].norm == "a":
        at -= 1
    return at >= 0 and not tokens[at].after and tokens[at].norm in _REFUSING


def _offered(spans: Sequence[Span], left: int, right: int) -> bool:
    """Whether "or" joins two movements on the spot: "ski or row", "40 bikes or 40 rows"."""
    middle = spans[left + 1 : right]
    if not middle or len(middle) > _FAR or any(s.letter in "hRSZ" for s in middle):
        return False
    return "Y" in {s.letter for s in middle[:2]} or middle[-1].letter == "Y"


def _with_alternative(bound: Bound, movement: str, amount: Span | None) -> Bound:
    """The effort with another movement offered; an amount after both is for either."""
    bound = replace(bound, alternatives=(*bound.alternatives, movement))
    if bound.amount is not None or amount is None:
        return bound
    return replace(bound, amount=amount.amount, last=max(bound.last, amount.end))


def _shared(bounds: Sequence[Bound], tokens: Sequence[Token]) -> list[Bound]:
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


def _both(bounds: Sequence[Bound], tokens: Sequence[Token]) -> list[Bound]:
    """ "The calf stretch and the quad stretch for a minute": the time is for each of the two."""
    out = list(bounds)
    for at, (bound, following) in enumerate(pairwise(bounds)):
        held = following.amount is not None and following.amount.unit == "s"
        behind = held and following.first == following.start
        alike = stretches(bound.movement) and stretches(following.movement)
        bare = bound.amount is None and not bound.max
        between = {token.norm for token in tokens[bound.end : following.start]}
        if behind and alike and bare and "and" in between and between <= _JOINS:
            out[at] = replace(bound, amount=following.amount, per_side=following.per_side)
    return out


def _sided(
    bound: Bound, until: int, tokens: Sequence[Token], numbers: Mapping[int, Amount]
) -> Bound:
    """The effort for each side, where that is said before the next one starts at ``until``.

    Not where its amount is called a total. ``numbers`` are the row's amounts by their ends.
    """
    total = range(bound.last, min(until, bound.last + _TOTAL))
    if any(_is_whole(tokens, at) for at in total):
        return bound
    limit = min(until, bound.last + _SIDE)
    side = _side(bound, limit, tokens, numbers)
    if side is None and bound.amount is not None:
        side = _slipped(bound, limit, tokens)
    return bound if side is None else replace(bound, per_side=True, last=max(bound.last, side))


def _side(
    bound: Bound, limit: int, tokens: Sequence[Token], numbers: Mapping[int, Amount]
) -> int | None:
    """Where "each side" ends, if it is said before ``limit``."""
    counted = range(bound.amount.start, bound.amount.end) if bound.amount else ()
    for at in range(bound.first, limit):
        if tokens[at].norm in _EACH and at not in counted and not _held(tokens, at):
            half = numbers.get(at)
            if half is not None and bound.amount is not None and half.low != bound.amount.low:
                return None  # "twenty step ups, ten each leg"
            ahead = at + 1
            if ahead < limit and tokens[ahead].norm in _BETWEEN:
                ahead += 1
            inside = tokens[at].norm == "a" and at < bound.last
            if ahead < limit and tokens[ahead].norm in _PARTS and not inside:
                return ahead + 1
        if at >= bound.last and tokens[at - 1].after in (".", "?", "!"):
            return None
    return None


def _slipped(bound: Bound, limit: int, tokens: Sequence[Token]) -> int | None:
    """Where half of "each side" stands alone after a movement, as a word was lost.

    A lone "each" is believed of a one-sided movement, a lone "leg" or "side" of every other too.
    """
    at, one_sided = bound.last, catalogue()[bound.movement].one_sided
    if at >= limit or tokens[at - 1].after in (".", "?", "!"):
        return None
    if tokens[at].norm in _ON and norm_at(tokens, at + 1) in _PARTS | _EACH and at + 1 < limit:
        at += 1
    word, following = tokens[at].norm, norm_at(tokens, at + 1)
    if one_sided and word in ("each", "per"):
        ends = bool(tokens[at].after) or following not in _COUNTED
        return at + 1 if ends else None
    return at + 1 if word in (_PARTS if one_sided else _LONE) else None


def _held(tokens: Sequence[Token], at: int) -> bool:
    """ "A bell in each hand"."""
    return tokens[at - 1].norm == "in" and norm_at(tokens, at + 1) in _HANDS


def _is_whole(tokens: Sequence[Token], at: int) -> bool:
    """ "Twenty total", "twelve in all": not for each side."""
    return tokens[at].norm in _WHOLE or (tokens[at].norm == "all" and tokens[at - 1].norm == "in")

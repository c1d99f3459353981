"""Loads: which weight is for which effort, and for whom."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from functools import cache
from typing import Any, Literal

from cuewright.movements.catalogue import catalogue
from cuewright.parse.names import Names
from cuewright.phrases import stem
from cuewright.tables import raw
from cuewright_models.divided import Clause, Divided
from cuewright_models.plan import Block, Effort, Item, Load, Rest, Who
from cuewright_models.tokens import Amount, Token, starting_in

_SILENT = ("option", "example", "claim", "advice")
"""Roles of clauses whose weights are not the prescription's."""
_NEAR = 4
"""Tokens between a weight and the words that say whose it is, at most."""
_LIGHTEST, _HEAVIEST = 4, 500
"""Bare numbers outside are no weights."""

_LOWEST_SHARE = 20
"""Per cent of one's best from which a share is a load."""

LoadUnit = Literal["kg", "lb", "%1rm", "rpe"]


def with_loads(blocks: Sequence[Block], divided: Divided, names: Names) -> tuple[Block, ...]:
    """The blocks with each loaded effort's weights, in the order said."""
    found: dict[str, dict[Load, None]] = {}
    for _, loads in told(divided, names):
        before = {movement: set(held) for movement, held in found.items()}
        for movement, load in loads:  # what was said first stands
            if not any(load.who == other.who for other in before.get(movement, ())):
                found.setdefault(movement, {})[load] = None
    return tuple(
        block.model_copy(update={"items": tuple(_loaded(item, found) for item in block.items)})
        for block in blocks
    )


def told(
    divided: Divided, names: Names, *, exact: bool = False
) -> Iterator[tuple[Clause, list[tuple[str, Load]]]]:
    """Each clause that prescribes weights, with them and the movement that each is for.

    Where words are ``exact``, any movement may be told with a weight, and "effort 7 of 10".
    """
    taken, bare = _counts(divided), _bare_unit(divided.reading.stems)
    for clause in divided.clauses:
        loads = list(_loads(clause, divided, names, taken, bare, exact=exact))
        graded = _graded(clause, divided.reading.stems)
        both = {"women", "men"} <= {load.who for _, load in loads}
        silent = clause.role in _SILENT and not (both or (graded and clause.role == "option"))
        if loads and clause.role != "example" and not silent:
            yield clause, _heaviest(loads) if graded else loads


def _graded(clause: Clause, stems: Sequence[str]) -> bool:
    """Whether weights are told by how used to them one is: "a 16 if you're comfortable with it"."""
    words = list(stems[clause.start : clause.end])
    return "if" in words and any(
        words[at : at + len(phrase)] == phrase
        for phrase in _table()["used_to"]
        for at in range(len(words))
    )


def _heaviest(loads: Sequence[tuple[str, Load]]) -> list[tuple[str, Load]]:
    """For each movement the weight of those who are used to it; a smaller one is an option."""
    most: dict[tuple[str, Who | None], Load] = {}
    for movement, load in loads:
        known = most.get((movement, load.who))
        if known is None or (load.high or 0) > (known.high or 0):
            most[movement, load.who] = load
    return [(movement, load) for (movement, _), load in most.items()]


def _loaded(item: Item, found: dict[str, dict[Load, None]]) -> Item:
    if isinstance(item, Effort):
        return item.model_copy(update={"load": tuple(found.get(item.movement, ()))})
    if isinstance(item, Rest):
        return item
    return item.model_copy(update={"items": tuple(_loaded(inner, found) for inner in item.items)})


def _loads(
    clause: Clause,
    divided: Divided,
    names: Names,
    taken: set[int],
    bare: LoadUnit | None,
    *,
    exact: bool,
) -> Iterator[tuple[str, Load]]:
    """Every weight of a clause with each movement that it is for."""
    tokens = divided.reading.tokens
    here = starting_in(divided.reading.amounts, clause.start, clause.end)
    weights = [
        a
        for a in here
        if a.end <= clause.end
        and a.start not in taken
        and (_weighs(a, clause) or _for_somebody(a, tokens) or (exact and _rated(a, tokens)))
    ]
    units = [a.unit for a in weights if a.unit in ("kg", "lb")]
    for amount in weights:
        unit = _unit(amount, units[0] if units else None, bare)
        if exact and _rated(amount, tokens):
            unit = "rpe"
        for movement in _about(amount, clause, divided, names, exact=exact):
            yield (
                movement,
                Load(
                    low=min(amount.values or (amount.low or 0,)),
                    high=max(amount.values or (amount.high or 0,)),
                    unit=unit,
                    who=_who(amount, weights, tokens),
                ),
            )


def _weighs(amount: Amount, clause: Clause) -> bool:
    """Whether an amount has a weight's unit; a share counts only where sets are prescribed."""
    if amount.unit == "%":
        return clause.role == "prescription" and (amount.low or 0) >= _LOWEST_SHARE
    return amount.unit in ("kg", "lb")


def _rated(amount: Amount, tokens: Sequence[Token]) -> bool:
    """The mark of "effort 7 of 10", "RPE 8"."""
    if amount.unit is not None or amount.start == 0:
        return False
    return tokens[amount.start - 1].norm in _table()["rated"]


def _counts(divided: Divided) -> set[int]:
    """Where numbers stand right before a movement or a count word: those are no weights."""
    starts = {m.start for m in divided.reading.movements}
    stems, counted = divided.reading.stems, _table()["counted"]
    return {
        a.start
        for a in divided.reading.amounts
        if a.unit is None and (a.end in starts or not counted.isdisjoint(stems[a.end : a.end + 1]))
    }


def _for_somebody(amount: Amount, tokens: Sequence[Token]) -> bool:
    """A bare number beside "for the women" or after "men" is a weight."""
    if amount.unit is not None or amount.shape != "one":
        return False
    if not _LIGHTEST <= (amount.low or 0) <= _HEAVIEST or tokens[amount.start - 1].norm == "of":
        return False
    return _who(amount, [amount], tokens) is not None


def _who(amount: Amount, others: Sequence[Amount], tokens: Sequence[Token]) -> Who | None:
    """Whose weight it is: "16 for the women", or "the women take a sixteen"."""
    starts = [other.start for other in others if other.start > amount.start]
    fresh = (at for at in range(amount.end, len(tokens)) if tokens[at].starts)
    until = min([amount.end + _NEAR, len(tokens), *starts, next(fresh, len(tokens))])
    ends = [other.end for other in others if other.end <= amount.start]
    since = max([amount.start - _NEAR, 0, *ends])
    lead = tokens[max(others[0].start - _NEAR, 0) : others[0].start]
    if _person(lead[::-1]) is not None:  # the person comes first in all of them
        return _person(tokens[since : amount.start][::-1])
    return _person(tokens[amount.end : until])


def _person(tokens: Sequence[Token]) -> Who | None:
    """The first person in a row of small words, nearest first."""
    people = _people()
    for token in tokens:
        if token.norm in people:
            return people[token.norm]
        if token.norm not in _table()["small"]:
            return None
    return None


def _unit(amount: Amount, said: str | None, bare: LoadUnit | None) -> LoadUnit:
    if amount.unit == "%":
        return "%1rm"
    if amount.unit in ("kg", "lb"):
        return "kg" if amount.unit == "kg" else "lb"
    if said is not None:
        return "lb" if said == "lb" else "kg"
    return bare or ("lb" if amount.low in _table()["pounds"] else "kg")


def _bare_unit(stems: Sequence[str]) -> LoadUnit | None:
    """The unit of weights said without one: the one the talk says more, if it says any."""
    pounds = sum(s in ("pound", "lb") for s in stems)
    kilos = sum(s in ("kilo", "kg", "kilogram") for s in stems)
    if pounds == kilos == 0:
        return None
    return "lb" if pounds > kilos else "kg"


def _about(
    amount: Amount, clause: Clause, divided: Divided, names: Names, *, exact: bool
) -> tuple[str, ...]:
    """The loaded movements that a weight is for: named in the clause, by kit, or named last."""
    here = starting_in(names.named, clause.start, clause.end)
    named = [n for n in here if takes_load(n.name) or (exact and clause.role == "prescription")]
    before = [n.name for n in named if n.start <= amount.start]
    if named and clause.role != "prescription":
        return tuple(dict.fromkeys(n.name for n in named))
    if before or named:
        return (before[-1] if before else named[0].name,)
    kit = _kit(divided.reading.stems[clause.start : clause.end])
    if kit and amount.unit != "%":
        return tuple(m for m in names.work if kit in catalogue()[m].kit)
    until = bisect_left(names.named, amount.start, key=lambda n: n.start)
    earlier = (names.named[at].name for at in range(until - 1, -1, -1))
    last = next((name for name in earlier if name in names.work), None)
    return (last,) if last is not None and (exact or takes_load(last)) else ()


def takes_load(movement: str) -> bool:
    """Whether a movement is done with a weight."""
    row = catalogue().get(movement)
    return row is not None and (
        "loaded" in row.flags or not _table()["weighed"].isdisjoint(row.kit)
    )


def _kit(stems: Sequence[str]) -> str | None:
    table: dict[str, str] = _table()["kit"]
    return next((table[word] for word in stems if word in table), None)


@cache
def _people() -> dict[str, Who]:
    table = _table()
    women: dict[str, Who] = dict.fromkeys(table["women"], "women")
    return women | dict.fromkeys(table["men"], "men")


@cache
def _table() -> dict[str, Any]:
    table = raw("cuewright.parse", "loads.toml")
    kit = {stem(word): kind for word, kind in table["kit"].items()}
    return table | {
        "kit": kit,
        "counted": frozenset(table["counted"]),
        "used_to": [[stem(word) for word in phrase.split()] for phrase in table["used_to"]],
        "weighed": frozenset(kit.values()),
    }

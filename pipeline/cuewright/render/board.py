"""A block's work as lines, the way a coach writes it on a board."""

from dataclasses import dataclass

from cuewright.render import words
from cuewright_models.base import Evidence
from cuewright_models.plan import (
    Block,
    Effort,
    Intervals,
    Item,
    Ladder,
    Repeat,
    Rest,
    Sets,
    Slot,
    Structure,
)


@dataclass(frozen=True, slots=True)
class Line:
    """One written fact, where it was said, and the lines that stand under it.

    ``label`` is what leads the line, such as the place of a slot or a movement's name.
    """

    text: str
    said: Evidence = ()
    label: str = ""
    under: tuple["Line", ...] = ()


def heading(at: int, block: Block) -> str:
    """``3. Conditioning: Low Water``; ``at`` counts from 1."""
    name = f": {words.clean(block.name)}" if block.name else ""
    return f"{at}. {block.kind.capitalize()}{name}"


def lines(block: Block) -> tuple[Line, ...]:
    """The block's work: a line for its structure, if that needs one, over its items."""
    how, structure = words.structure(block.structure), block.structure
    if isinstance(structure, Sets) and structure.rest_s is not None and not _repeats(block):
        how, structure = f"rest {words.time(structure.rest_s)} between sets", Sets()
    items = tuple(_line(item, structure) for item in block.items)
    if not how:
        return items
    return (Line(f"{how}:" if items else how, under=items),)


def _repeats(block: Block) -> bool:
    """Whether there is a repeat that the rest between sets can stand in."""
    return any(isinstance(item, Repeat) for item in block.items)


def _line(item: Item, how: Structure, *, rung: bool = False) -> Line:
    match item:
        case Effort():
            return Line(_effort(item, how, rung=rung) + _set_rest(how), item.said)
        case Rest():
            return Line(f"rest {words.amount(item.low, item.high, 's')}", item.said)
        case Repeat():
            return _repeat(item, how, rung=rung)
        case Ladder():
            under = tuple(_line(inner, how, rung=True) for inner in item.items)
            return Line(f"{'-'.join(map(str, item.rungs))} of:", item.said, under=under)
        case Slot():
            return _slot(item, how)


def _effort(item: Effort, how: Structure, *, rung: bool, single: bool = False) -> str:
    """The effort without an amount that its ladder or interval gives already."""
    same = isinstance(how, Intervals) and item.unit == "s" and item.low in (None, how.work_s)
    by_rung = rung and item.unit == "reps" and item.low is None
    return words.effort(item, bare=not item.max and (same or by_rung), single=single)


def _set_rest(how: Structure) -> str:
    if isinstance(how, Sets) and how.rest_s is not None:
        return f", rest {words.time(how.rest_s)}"
    return ""


def _repeat(item: Repeat, how: Structure, *, rung: bool) -> Line:
    sets = isinstance(how, Sets)
    between = f", rest {words.time(item.rest_s)} between" if item.rest_s else ""
    only = item.items[0] if len(item.items) == 1 else None
    if isinstance(only, Effort):
        times = words.between(item.times.low, item.times.high)
        said = item.said + only.said
        if sets and times:
            text = f"{times} {words.BY} {_effort(only, how, rung=rung, single=True)}"
            return Line(text + (between or _set_rest(how)), said)
        text = f"{words.count(item.times, 'round')} of {_effort(only, how, rung=rung)}"
        return Line(text + between, said)
    inner = how if not sets else Sets()
    under = tuple(_line(part, inner, rung=rung) for part in item.items)
    rest = between or _set_rest(how)
    head = words.count(item.times, "set" if sets else "round")
    return Line(f"{head}{rest}{', of:' if rest else ' of:'}", item.said, under=under)


def _slot(item: Slot, how: Structure) -> Line:
    """A slot on one line, since all of it is done in one interval."""
    parts = tuple(_line(inner, how) for inner in item.items)
    said = item.said + tuple(place for part in parts for place in _all_said(part))
    text = " · ".join(_in_a_row(part) for part in parts) or "nothing said"
    return Line(text, tuple(dict.fromkeys(said)), label=f"{item.index})")


def _in_a_row(line: Line) -> str:
    if not line.under:
        return line.text
    return f"{line.text} " + " · ".join(_in_a_row(inner) for inner in line.under)


def _all_said(line: Line) -> Evidence:
    return line.said + tuple(said for inner in line.under for said in _all_said(inner))

"""Of what the times are made, as text: pace, breaks, slowing and ways, item by item."""

from collections.abc import Iterator

from rich.console import Console
from rich.table import Table
from rich.text import Text

from cuewright.render import words
from cuewright.render.terminal import printed
from cuewright_models.timing import BlockTiming, ItemTiming, PlanTiming

_HEADS = ("", "takes", "work", "breaks", "slowing", "way there")
_EACH = {"m": "100 m", "reps": "rep", "kcal": "kcal"}
_ROUNDS = {"repeat": "all rounds", "ladder": "all rungs", "slot": "its interval", "rest": "rest"}


def page(timing: PlanTiming, *, width: int = 80, colour: bool = False) -> str:
    """The way of one athlete through the session; inside rounds, the mean of one go."""
    return printed(lambda out: _write(out, timing), width=width, colour=colour)


def _write(out: Console, timing: PlanTiming) -> None:
    out.print(Text(f"{words.source(timing.source)}"))
    total = words.clock(timing.seconds)
    out.print(
        Text(f"{total} for the {timing.profile} athlete in the middle of the profile.", "bold")
    )
    if len(timing.blocks) > 1:
        out.print(Text(f"{words.clock(timing.between_s)} pass between one block and the next."))
    for block in timing.blocks:
        out.print()
        out.print(_block(block))


def _block(block: BlockTiming) -> Table:
    table = Table(box=None, expand=True, padding=(0, 1, 0, 0), show_edge=False)
    table.add_column(f"{block.id}, {words.clock(block.seconds)}", ratio=1, overflow="fold")
    for head in _HEADS[1:]:
        table.add_column(head, justify="right", overflow="fold", header_style="dim")
    for depth, item in _rows(block.items, 0):
        table.add_row(*map(Text, _cells(item, depth)))
    return table


def _rows(items: tuple[ItemTiming, ...], depth: int) -> Iterator[tuple[int, ItemTiming]]:
    for item in items:
        yield depth, item
        yield from _rows(item.items, depth + 1)


def _cells(item: ItemTiming, depth: int) -> tuple[str, ...]:
    breaks = f"{words.number(item.breaks)} in {_s(item.breaks_s)}" if item.breaks else ""
    slowing, way = (_s(part) if part >= 0.5 else "" for part in (item.drift_s, item.way_s))
    return (
        f"{' ' * 2 * depth}{_what(item)}",
        words.clock(item.seconds),
        _work(item),
        breaks,
        slowing,
        way,
    )


def _what(item: ItemTiming) -> str:
    if item.what in _ROUNDS:
        return _ROUNDS[item.what]
    much = words.amount(item.amount, item.amount, item.unit)
    name = words.movement(item.what, many=item.unit == "reps" and item.amount != 1)
    return f"{much} {name}".strip()


def _work(item: ItemTiming) -> str:
    """``45 s at 3.7 s a rep``; nothing for rounds and rests, whose items say it."""
    if item.what in _ROUNDS:
        return ""
    if not item.known:
        return f"{_s(item.work_s)}, no pace known"
    if item.pace_s is None or item.unit not in _EACH:
        return _s(item.work_s)
    pace = item.pace_s * (100 if item.unit == "m" else 1)
    return f"{_s(item.work_s)} at {pace:.3g} s a {_EACH[item.unit]}"


def _s(seconds: float) -> str:
    return f"{seconds:.0f} s"

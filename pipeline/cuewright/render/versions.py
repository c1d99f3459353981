"""The session made to fit each profile, as one table."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rich.console import Console
from rich.table import Table
from rich.text import Text

from cuewright.render import words
from cuewright.render.board import heading
from cuewright.render.sheet import sheet
from cuewright.render.terminal import cautions, printed
from cuewright_models.plan import Effort, Item, Plan, Repeat, Rest
from cuewright_models.scaled import Goal, Version


@dataclass(frozen=True, slots=True)
class Compared:
    """One line of work: as said, and as it is for each profile; a heading has no ``cells``."""

    text: str
    depth: int = 0
    cells: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Fit:
    """The versions side by side, and what does not fit, in words."""

    profiles: tuple[str, ...]
    rows: tuple[Compared, ...]
    totals: tuple[str, ...]
    notes: tuple[str, ...]


def fit(said: Plan, versions: Sequence[Version]) -> Fit:
    """The table of the versions of the plan as it was said; they have its shape."""
    rows: list[Compared] = []
    for nth, block in enumerate(said.blocks):
        rows.append(Compared(heading(nth + 1, block)))
        rows += _rows(block.items, [version.plan.blocks[nth].items for version in versions], 1)
    return Fit(
        profiles=tuple(version.profile for version in versions),
        rows=tuple(rows),
        totals=tuple(map(_total, versions)),
        notes=tuple(
            _note(version, goal) for version in versions for goal in version.goals if goal.why
        ),
    )


def _rows(said: Sequence[Item], made: Sequence[Sequence[Item]], depth: int) -> Iterator[Compared]:
    for item, *others in zip(said, *made, strict=True):
        if isinstance(item, Rest):
            continue
        cells = (_one(item), *map(_one, others))
        yield Compared(cells[0], depth, tuple(c if c != cells[0] else "same" for c in cells[1:]))
        if not isinstance(item, Effort):
            inside = [() if isinstance(o, Effort | Rest) else o.items for o in others]
            yield from _rows(item.items, inside, depth + 1)


def _one(item: Item) -> str:
    if isinstance(item, Effort):
        return words.effort(item)
    if isinstance(item, Repeat):
        return words.count(item.times, "round")
    return "every rung" if item.do == "ladder" else "interval"


def _total(version: Version) -> str:
    if version.plan.estimate is None:
        return ""
    seconds = getattr(version.plan.estimate.total, version.profile)
    low, likely, high = map(words.clock, (seconds.low_s, seconds.likely_s, seconds.high_s))
    return f"{likely} ({low}{words.DASH}{high})"


def _note(version: Version, goal: Goal) -> str:
    about = words.movement(goal.about) if goal.about != "total" else "the whole session"
    asked = words.between(goal.low_s, goal.high_s, words.clock)
    took = words.clock(goal.likely_s)
    return f"{version.profile}: {about} is to take {asked}, but takes {took}: {goal.why}."


def page(said: Plan, versions: Sequence[Version], *, width: int = 80, colour: bool = False) -> str:
    """The table as text, what does not fit below it."""
    return printed(lambda out: _write(out, said, fit(said, versions)), width=width, colour=colour)


def _write(out: Console, said: Plan, made: Fit) -> None:
    out.print(Text(said.title or words.clean(said.source.name), "bold"))
    out.print()
    table = Table(box=None, expand=True, padding=(0, 1, 0, 0), show_edge=False)
    for head in ("as said", *made.profiles):
        table.add_column(head, ratio=1, overflow="fold", header_style="dim")
    for row in made.rows:
        text = Text(f"{'  ' * max(row.depth - 1, 0)}{row.text}", "" if row.cells else "bold")
        table.add_row(text, *map(Text, row.cells))
    table.add_row(Text("whole session", "bold"), *map(Text, made.totals))
    out.print(table)
    out.print()
    for note in made.notes:
        out.print(Text(f"- {note}"))
    cautions(out, sheet(said).cautions)

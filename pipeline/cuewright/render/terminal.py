"""A plan on a terminal: readable at 80 columns, with or without colour."""

from collections.abc import Callable, Iterable, Sequence
from io import StringIO

from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from cuewright.render import words
from cuewright.render.bars import bars
from cuewright.render.board import Line
from cuewright.render.sheet import NO_SESSION, BlockSheet, Part, Problem, sheet
from cuewright.render.timetable import Cell, Row, Times
from cuewright_models.base import Evidence
from cuewright_models.plan import Plan
from cuewright_models.profile import PROFILES, Profile

_MOST_TIMES = 3
SEVERITY = {"error": "bold red", "warning": "bold yellow", "note": "bold cyan"}
"""The style of each severity's name."""


def page(
    plan: Plan, *, width: int = 80, colour: bool = False, profile: Profile | None = None
) -> str:
    """The plan as text of at most ``width`` cells a line, times at the right edge.

    ``profile`` shows the times of that athlete alone. Without ``colour`` the text holds no
    escape sequences.
    """
    return printed(lambda out: _write(out, plan, profile), width=width, colour=colour)


def printed(write: Callable[[Console], None], *, width: int, colour: bool) -> str:
    """What ``write`` prints, as text without spaces and empty lines at its ends."""
    out = Console(
        file=StringIO(),
        width=width,
        force_terminal=colour,
        color_system="standard" if colour else None,
        highlight=False,
        legacy_windows=False,
        _environ={},
    )
    with out.capture() as caught:
        write(out)
    lines = (line.rstrip() for line in caught.get().splitlines())
    return "\n".join(lines).strip("\n") + "\n"


def _write(out: Console, plan: Plan, profile: Profile | None) -> None:
    view = sheet(plan)
    out.print(Text(view.title, "bold"))
    out.print(_line(view.date, 0))
    out.print(Text(view.source))
    for block in view.blocks:
        _block(out, block)
    if not view.blocks:
        out.print(Text(f"\n{NO_SESSION}"))
    for part in view.guidance:
        _part(out, part)
    _times(out, view.times, profile)
    _problems(out, view.problems)
    for part in view.instead:
        _part(out, part)
    _part(out, view.unread)
    _part(out, view.repairs)
    cautions(out, view.cautions)


def cautions(out: Console, texts: Iterable[str]) -> None:
    """The cautions, which stand at the end of everything that shows a session."""
    _heading(out, "Cautions")
    out.print(_bullets(texts))


def _heading(out: Console, text: str) -> None:
    out.print()
    out.print(Text(text, "bold"))


def _block(out: Console, block: BlockSheet) -> None:
    out.print()
    out.print(_grid("", Text(block.heading, "bold"), block.said))
    if not block.lines:
        out.print(_line(Line("no work was understood here"), 1))
    for line in block.lines:
        _tree(out, line, 1)
    for line in block.stated:
        out.print(_line(Line(f"the coach says it takes {line.text}", line.said), 1))


def _tree(out: Console, line: Line, depth: int) -> None:
    out.print(_line(line, depth))
    for inner in line.under:
        _tree(out, inner, depth + 1)


def _line(line: Line, depth: int) -> RenderableType:
    row = _grid(line.label, Text(line.text), line.said)
    return Padding(row, (0, 0, 0, 2 * depth))


def _grid(label: str, text: Text, said: Evidence) -> Table:
    """One row: a label if there is one, the text, and the times it was said at."""
    row = Table.grid(expand=True, padding=(0, 1))
    if label:
        row.add_column()
    row.add_column(ratio=1, overflow="fold")
    row.add_column(justify="right", style="dim", overflow="fold")
    cells = (*((Text(label),) if label else ()), text, Text(_moments(said)))
    row.add_row(*cells)
    return row


def _moments(said: Evidence) -> str:
    """The first few times, each once."""
    times = list(dict.fromkeys(filter(None, map(words.moment, said))))
    more = " …" if len(times) > _MOST_TIMES else ""
    return " ".join(times[:_MOST_TIMES]) + more


def _part(out: Console, part: Part) -> None:
    _heading(out, part.heading)
    if not part.lines:
        out.print(_line(Line(part.empty), 1))
    for line in part.lines:
        text = Text(f"{line.label}: ") if line.label else Text()
        text.append(line.text)
        out.print(Padding(_grid("-", text, line.said), (0, 0, 0, 1)))


def _times(out: Console, times: Times, profile: Profile | None) -> None:
    _heading(out, "Times (likely, and below it low to high)" if times.rows else "Times")
    shown = [at for at, name in enumerate(PROFILES) if profile in (None, name)]
    if times.rows:
        heads = (*(PROFILES[at] for at in shown), "stated", "station targets")
        out.print(_columns(*(Text(head, "dim") for head in heads)))
    for row in times.rows:
        out.print(Text(f" {row.name}", "bold"))
        said = (_said(row.stated), _said(row.targets))
        out.print(_columns(*(_cell(row.cells[at]) for at in shown), *said))
    _bars(out, times.rows, profile or "regular")
    out.print(_bullets(times.notes))


def _bars(out: Console, rows: Sequence[Row], profile: Profile) -> None:
    """The model's range for one athlete above what was said, block by block to one scale."""
    if not rows:
        return
    longest = {
        total: max((s.high for row in rows if row.total == total for s in row.spans), default=0)
        for total in (False, True)
    }
    _heading(out, f"Side by side ({profile} athlete)")
    for row in rows:
        out.print(Text(f" {row.name}", "bold"))
        spans = [span for span in row.spans if span.name not in PROFILES or span.name == profile]
        for line in bars(spans, longest[row.total], width=out.width - 3):
            out.print(Text(f"   {line}"))
    out.print()


def _columns(*cells: Text) -> RenderableType:
    """Columns of one width, so that the rows stand under their heads."""
    row = Table.grid(expand=True, padding=(0, 1))
    for _ in cells:
        row.add_column(ratio=1, overflow="fold")
    row.add_row(*cells)
    return Padding(row, (0, 0, 0, 3))


def _cell(cell: Cell) -> Text:
    return Text("\n".join((cell.likely, f"{cell.low}{words.DASH}{cell.high}", *cell.notes)))


def _said(line: Line) -> Text:
    return Text("\n".join(filter(None, (line.text, _at(line.said)))))


def _at(said: Evidence) -> str:
    return f"at {_moments(said)}" if _moments(said) else ""


def _problems(out: Console, problems: tuple[Problem, ...]) -> None:
    _heading(out, "Findings")
    if not problems:
        out.print(_line(Line("Nothing was found that does not fit together."), 1))
    for problem in problems:
        _problem(out, problem)


def _problem(out: Console, problem: Problem) -> None:
    head = Text(problem.severity.upper(), SEVERITY[problem.severity])
    head.append(f" {problem.rule} ({problem.about})", "not bold default")
    out.print(Padding(head, (0, 0, 0, 2)))
    texts = [problem.message, problem.arithmetic]
    for text in filter(None, texts):
        out.print(Padding(Text(text, overflow="fold"), (0, 0, 0, 4)))
    for said in problem.said:
        quote = Text(f"“{words.quote(said)}”", "italic")
        out.print(Padding(_grid("", quote, (said,)), (0, 0, 0, 4)))
    if problem.suggestion:
        out.print(Padding(Text(f"Suggestion: {problem.suggestion}"), (0, 0, 0, 4)))


def _bullets(texts: Iterable[str]) -> RenderableType:
    rows = Table.grid(expand=True, padding=(0, 1))
    rows.add_column()
    rows.add_column(ratio=1, overflow="fold")
    for text in texts:
        rows.add_row(Text("-"), Text(text))
    return Padding(rows, (0, 0, 0, 1))

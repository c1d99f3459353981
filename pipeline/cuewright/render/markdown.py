"""A plan as Markdown: plain CommonMark with one table."""

import re
from collections.abc import Iterable, Iterator

from cuewright.render import words
from cuewright.render.board import Line
from cuewright.render.sheet import NO_SESSION, BlockSheet, Part, Problem, sheet
from cuewright.render.timetable import Cell, Row, Times
from cuewright_models.base import Evidence
from cuewright_models.plan import Plan

_SIGNS = re.compile(r"([\\`*_{}\[\]<>|~#&$]|:(?=//)|(?<=\bwww)\.)")
_START = re.compile(r"^(?:(\d+)([.)])|([-+=]))")


def page(plan: Plan) -> str:
    """The plan as Markdown; whatever was heard is escaped, so it cannot become markup."""
    return "\n".join(_lines(plan)).rstrip("\n") + "\n"


def escaped(text: str) -> str:
    """``text`` so that Markdown shows it letter by letter, at a line's start too."""
    return _START.sub(_held, _SIGNS.sub(r"\\\1", text))


def _held(start: re.Match[str]) -> str:
    count, stop, sign = start.groups()
    return f"\\{sign}" if sign else f"{count}\\{stop}"


def _lines(plan: Plan) -> Iterator[str]:
    view = sheet(plan)
    yield from (f"# {escaped(view.title)}", "")
    yield f"- {escaped(view.date.text)}{_moments(view.date.said)}"
    yield from (f"- {escaped(view.source)}", "")
    for block in view.blocks:
        yield from _block(block)
    if not view.blocks:
        yield from (NO_SESSION, "")
    for part in view.guidance:
        yield from _part(part)
    yield from _times(view.times)
    yield from _problems(view.problems)
    for part in view.instead:
        yield from _part(part)
    yield from _part(view.unread)
    yield from _part(view.repairs)
    yield from ("## Cautions", "", *(f"- {escaped(text)}" for text in view.cautions))


def _block(block: BlockSheet) -> Iterator[str]:
    yield from (f"## {escaped(block.heading)}{_moments(block.said)}", "")
    if not block.lines:
        yield "No work was understood here."
    yield from _tree(block.lines, "")
    if block.stated:
        yield ""
    for line in block.stated:
        yield f"The coach says it takes {escaped(line.text)}{_moments(line.said)}."
    yield ""


def _tree(lines: Iterable[Line], indent: str) -> Iterator[str]:
    """Slots keep their place as a list number, everything else is a bullet."""
    for line in lines:
        mark = line.label or "-"
        yield f"{indent}{mark} {escaped(line.text)}{_moments(line.said)}"
        yield from _tree(line.under, indent + " " * (len(mark) + 1))


def _moments(said: Evidence) -> str:
    times = dict.fromkeys(filter(None, map(words.moment, said)))
    return f" ({', '.join(times)})" if times else ""


def _part(part: Part) -> Iterator[str]:
    yield from (f"## {part.heading}", "")
    if not part.lines:
        yield part.empty
    for line in part.lines:
        label = f"**{escaped(line.label)}**: " if line.label else ""
        yield f"- {label}{escaped(line.text)}{_moments(line.said)}"
    yield ""


def _times(times: Times) -> Iterator[str]:
    yield from ("## Times", "")
    if times.rows:
        yield from (f"Low {words.DASH} likely {words.DASH} high:", "")
        yield "| | newcomer | regular | advanced | stated | station targets |"
        yield "|---|---|---|---|---|---|"
        yield from map(_row, times.rows)
        yield ""
    yield from (f"- {escaped(note)}" for note in times.notes)
    yield ""


def _row(row: Row) -> str:
    name = escaped(row.name)
    said = (f"{line.text}{_moments(line.said)}" for line in (row.stated, row.targets))
    cells = (f"**{name}**" if row.total else name, *map(_cell, row.cells), *said)
    return f"| {' | '.join(cells)} |"


def _cell(cell: Cell) -> str:
    return ", ".join((f" {words.DASH} ".join((cell.low, cell.likely, cell.high)), *cell.notes))


def _problems(problems: tuple[Problem, ...]) -> Iterator[str]:
    yield from ("## Findings", "")
    if not problems:
        yield "Nothing was found that does not fit together."
    for problem in problems:
        yield from _problem(problem)
    yield ""


def _problem(problem: Problem) -> Iterator[str]:
    about = escaped(problem.about)
    yield f"- **{problem.severity}** `{problem.rule}` ({about}): {escaped(problem.message)}"
    if problem.arithmetic:
        yield f"  - {escaped(problem.arithmetic)}"
    for said in problem.said:
        yield f"  - “{escaped(words.quote(said))}”{_moments((said,))}"
    if problem.suggestion:
        yield f"  - Suggestion: {escaped(problem.suggestion)}"

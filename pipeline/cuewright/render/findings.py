"""Findings as an editor's tool gives them: a line that scripts can find, and the proof below."""

import json
from collections.abc import Iterable, Mapping
from typing import Any

from rich.cells import cell_len
from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from cuewright.render import words
from cuewright.render.mends import when
from cuewright.render.terminal import SEVERITY, printed
from cuewright_models.base import Evidence, Said
from cuewright_models.finding import Finding

_EDGE = 4
_LABEL = 10
"""Cells for the longest label, "suggestion"."""
_MOST_LINES = 2
"""A quote can be a whole block; its beginning and its time are enough to find it."""
_MORE = " …”"
_MEASURE = Console(width=80, force_terminal=False, _environ={})
"""Only knows how wide letters are."""


def page(
    source: str,
    findings: Iterable[Finding],
    *,
    width: int = 80,
    colour: bool = False,
    whole_heads: bool = True,
) -> str:
    """The findings of one talk in the order of the recording; empty without any.

    ``whole_heads`` keeps a head on one line, however long, so that scripts find it.
    """
    found = ordered(findings)

    def write(out: Console) -> None:
        for at, finding in enumerate(found):
            if at:
                out.print()
            _head(out, source, finding, whole_heads)
            out.print(Padding(_proof(finding, out.width - _EDGE), (0, 0, 0, _EDGE)))

    return printed(write, width=width, colour=colour) if found else ""


def heads(source: str, findings: Iterable[Finding], *, colour: bool = False) -> str:
    """The head lines alone."""
    found = ordered(findings)

    def write(out: Console) -> None:
        for finding in found:
            _head(out, source, finding, whole=True)

    return printed(write, width=80, colour=colour) if found else ""


def rows(source: str, findings: Iterable[Finding]) -> str:
    """JSON, one finding a line, with the talk and the time of the first place."""
    return "".join(
        line({"source": source, "at": at(finding.said) or None, **finding.model_dump(mode="json")})
        for finding in ordered(findings)
    )


def line(row: dict[str, Any]) -> str:
    """One row of JSON lines."""
    return json.dumps(row, ensure_ascii=False) + "\n"


def ordered(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """By the first time each points at; those without a time last and as they come."""
    return tuple(sorted(findings, key=lambda found: min(map(when, found.said), default=when(None))))


def at(said: Evidence) -> str:
    """The first time of several; empty when none has one."""
    first: Said | None = min(said, key=when, default=None)
    return words.moment(first) if first else ""


def summary(count: Mapping[str, int], talks: int, accepted: int = 0) -> str:
    """``3 errors, 1 warning, 2 notes in 2 talks.`` ``count`` is by severity."""
    parts = [many(count[name], name) for name in ("error", "warning", "note") if count.get(name)]
    known = f"; {many(accepted, 'accepted finding')} not shown" if accepted else ""
    return f"{', '.join(parts) or 'No findings'} in {many(talks, 'talk')}{known}."


def many(number: int, thing: str) -> str:
    """``1 talk``, ``2 talks``."""
    return f"{number} {thing}{'' if number == 1 else 's'}"


def _head(out: Console, source: str, finding: Finding, whole: bool) -> None:
    """``talk.vtt:1:31: error total-said-twice (total): …``."""
    moment = at(finding.said)
    place = f"{source}:{moment}" if moment else source
    text = Text(f"{words.clean(place)}: ")
    text.append(finding.severity, SEVERITY[finding.severity])
    text.append(" " + words.clean(f"{finding.rule} ({finding.about}): {finding.message}"))
    out.print(text, soft_wrap=whole)


def _proof(finding: Finding, width: int) -> Table:
    """Every quote with its time, the arithmetic, and what to do."""
    table = Table.grid(padding=(0, 2))
    table.add_column(width=_LABEL, style="dim")
    table.add_column(width=width - _LABEL - 2, overflow="fold")
    for place in sorted(finding.said, key=when):
        table.add_row(words.moment(place), quoted(place, width - _LABEL - 2))
    for label in ("expected", "found", "suggestion"):
        text = words.clean(getattr(finding, label) or "")
        if text:
            table.add_row(label, Text(text))
    return table


def quoted(place: Said, width: int) -> Text:
    """The words in quotation marks; of what does not go on two lines the beginning."""
    text = Text(f"“{words.clean(place.quote)}”")
    lines = text.wrap(_MEASURE, width, overflow="fold")
    if len(lines) <= _MOST_LINES:
        return text
    kept = [line.plain.rstrip() for line in lines[:_MOST_LINES]]
    last = kept.pop()
    if cell_len(last) + len(_MORE) > width:  # the last word makes room
        cut = Text(last)
        cut.truncate(width - len(_MORE))
        last = cut.plain.rpartition(" ")[0] or cut.plain
    return Text("\n".join((*kept, last + _MORE)))

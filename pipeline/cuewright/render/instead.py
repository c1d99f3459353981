"""What the coach could say instead, on a terminal: a list in the order of the recording."""

from collections.abc import Iterable

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from cuewright.render import words
from cuewright.render.findings import line, quoted
from cuewright.render.mends import Mend, mends
from cuewright.render.terminal import printed
from cuewright_models.finding import Finding

_EDGE, _LABEL = 1, 7
"""Cells before the times, and for the longest of them."""


def page(source: str, findings: Iterable[Finding], *, width: int = 80, colour: bool = False) -> str:
    """The talk's name, then each place: its time, what was said, what to say; empty without."""
    places = mends(findings)

    def write(out: Console) -> None:
        out.print(Text(words.clean(source), "bold"), soft_wrap=True)
        for place in places:
            out.print(Padding(_entry(place, out.width - _EDGE), (0, 0, 0, _EDGE)))

    return printed(write, width=width, colour=colour) if places else ""


def rows(source: str, findings: Iterable[Finding]) -> str:
    """JSON, one place a line."""
    return "".join(
        line(
            {
                "source": source,
                "at": (words.moment(place.said) if place.said else "") or None,
                "said": place.said.model_dump(mode="json") if place.said else None,
                "say": place.say,
                "do": place.do,
            }
        )
        for place in mends(findings)
    )


def _entry(place: Mend, width: int) -> Table:
    table = Table.grid(padding=(0, 2))
    table.add_column(width=_LABEL, justify="right", style="dim")
    table.add_column(width=width - _LABEL - 2, overflow="fold")
    if place.said:
        table.add_row(words.moment(place.said), quoted(place.said, width - _LABEL - 2))
    for label, texts in (("say", place.say), ("do", place.do)):
        for text in texts:
            table.add_row(label, Text(words.clean(text), "bold" if label == "say" else ""))
    return table

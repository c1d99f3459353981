"""A talk and its description side by side: on a terminal, and as one HTML file."""

from collections.abc import Iterable, Iterator, Sequence
from difflib import SequenceMatcher
from typing import NamedTuple

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from cuewright.render import words
from cuewright.render.findings import many, quoted
from cuewright.render.templates import template
from cuewright.render.terminal import SEVERITY, printed
from cuewright_models.base import Said
from cuewright_models.comparison import Comparison
from cuewright_models.finding import Finding

_EDGE, _LABEL = 4, 12
_AROUND = 1
"""Lines that stay, shown beside those that change."""


class Piece(NamedTuple):
    """Some words of a line; ``changed`` where the other side has others."""

    text: str
    changed: bool


class Row(NamedTuple):
    """A line as given and as corrected, each with its number; ``None`` where there is none."""

    given: int | None
    corrected: int | None
    before: tuple[Piece, ...]
    after: tuple[Piece, ...]

    @property
    def changed(self) -> bool:
        """Whether the two sides differ."""
        return self.before != self.after or None in (self.given, self.corrected)


def page(
    description: str,
    talk: str,
    made: Comparison,
    *,
    width: int = 80,
    colour: bool = False,
    brief: bool = False,
) -> str:
    """The findings in the order of the description, then what becomes of its lines.

    ``brief`` gives one line each and no more.
    """
    found = ordered(made.findings)

    def write(out: Console) -> None:
        for finding in found:
            _head(out, description, talk, finding)
            if not brief:
                out.print(Padding(_proof(finding, out.width - _EDGE), (0, 0, 1, _EDGE)))
        if not brief:
            out.print(summary(made))
            _changes(out, made)

    return printed(write, width=width, colour=colour) if found or not brief else ""


def summary(made: Comparison) -> str:
    """``3 differences``, or that there is none."""
    if not made.findings:
        return "The description says what the talk says."
    return f"{many(len(made.findings), 'difference')} between the description and the talk."


def ordered(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """By the line of the description, then by the time of the talk."""
    return tuple(sorted(findings, key=lambda f: (_line(f) or 10**9, _second(f))))


def _line(finding: Finding) -> int | None:
    return next((said.line for said in finding.said if said.line is not None), None)


def _second(finding: Finding) -> float:
    return next((s.start_s for s in finding.said if s.start_s is not None), 0.0)


def _head(out: Console, description: str, talk: str, finding: Finding) -> None:
    line = _line(finding)
    place = f"{description}:{line}" if line else description
    if line is None and (moment := _moments(finding)):
        place = f"{talk}:{moment}"
    text = Text(f"{words.clean(place)}: ")
    text.append(finding.severity, SEVERITY[finding.severity])
    text.append(" " + words.clean(f"{finding.rule} ({finding.about}): {finding.message}"))
    out.print(text, soft_wrap=True)


def _moments(finding: Finding) -> str:
    return next((words.moment(said) for said in finding.said if said.start_s is not None), "")


def _proof(finding: Finding, width: int) -> Table:
    """Both sides in their words, and what to do."""
    table = Table.grid(padding=(0, 2))
    table.add_column(width=_LABEL, style="dim")
    table.add_column(width=width - _LABEL - 2, overflow="fold")
    for said in finding.said:
        table.add_row(side(said), quoted(said, width - _LABEL - 2))
    for label, text in (("do", finding.suggestion),):
        if text:
            table.add_row(label, Text(words.clean(text)))
    return table


def side(said: Said) -> str:
    """Where a quote stands: ``said 1:31`` or ``line 12``."""
    if said.line is not None:
        return f"line {said.line}"
    return f"said {words.moment(said)}".strip()


def _changes(out: Console, made: Comparison) -> None:
    """The lines that change, those to take out before those to put in."""
    shown = rows(made.given, made.corrected)
    kept = [at for at, row in enumerate(shown) if row.changed]
    last = None
    for at in sorted({n for k in kept for n in range(k - _AROUND, k + _AROUND + 1)}):
        if 0 <= at < len(shown):
            if last is not None and at != last + 1:
                out.print(Text("   …", style="dim"))
            elif last is None:
                out.print()
            _row(out, shown[at])
            last = at


def _row(out: Console, row: Row) -> None:
    if not row.changed:
        out.print(_signed(" ", row.given, row.before, "dim", ""), soft_wrap=True)
        return
    if row.given is not None:
        out.print(_signed("-", row.given, row.before, "red", "bold red"), soft_wrap=True)
    if row.corrected is not None:
        out.print(_signed("+", row.corrected, row.after, "green", "bold green"), soft_wrap=True)


def _signed(
    sign: str, number: int | None, pieces: Sequence[Piece], style: str, strong: str
) -> Text:
    text = Text(f"{number or '':>4} {sign} ", style=style)
    for piece in pieces:
        text.append(_shown(piece.text), strong if piece.changed else style)
    return text


def _shown(text: str) -> str:
    """A piece of a line without signs that a terminal would obey; its spaces stay."""
    return "".join(sign if sign.isprintable() else " " for sign in text)


def rows(given: str, corrected: str) -> list[Row]:
    """Every line of both texts, those that became each other side by side."""
    one, two = given.splitlines(), corrected.splitlines()
    out: list[Row] = []
    for kind, a, b, c, d in SequenceMatcher(None, one, two, autojunk=False).get_opcodes():
        if kind == "equal":
            out += [_same(at, c + at - a, one[at]) for at in range(a, b)]
        else:
            out += _beside(one, two, (a, b), (c, d))
    return out


def _same(at: int, to: int, line: str) -> Row:
    pieces = (Piece(line, False),)
    return Row(at + 1, to + 1, pieces, pieces)


def _beside(
    one: Sequence[str], two: Sequence[str], old: tuple[int, int], new: tuple[int, int]
) -> Iterator[Row]:
    """Changed lines in pairs as far as they go, then those that only one side has."""
    for nth in range(max(old[1] - old[0], new[1] - new[0])):
        at, to = old[0] + nth, new[0] + nth
        has, gets = at < old[1], to < new[1]
        before, after = one[at] if has else "", two[to] if gets else ""
        pieces = _pieces(before, after)
        yield Row(at + 1 if has else None, to + 1 if gets else None, *pieces)


def _pieces(before: str, after: str) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Both lines, their words marked where they differ."""
    one, two = before.split(" "), after.split(" ")
    steps = SequenceMatcher(None, one, two, autojunk=False).get_opcodes()
    return (
        tuple(_piece(one[a:b], b == len(one), kind) for kind, a, b, _, _ in steps if a < b),
        tuple(_piece(two[c:d], d == len(two), kind) for kind, _, _, c, d in steps if c < d),
    )


def _piece(some: Sequence[str], last: bool, kind: str) -> Piece:
    return Piece(" ".join(some) + ("" if last else " "), kind != "equal")


def html(made: Comparison) -> str:
    """The comparison as a page that needs nothing else: no network, no script, no font."""
    text = template("compared.html.jinja").render(
        made=made,
        found=ordered(made.findings),
        rows=rows(made.given, made.corrected),
        summary=summary(made),
        side=side,
    )
    return text.rstrip("\n") + "\n"

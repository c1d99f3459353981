"""Why each clause of a talk was read as it was, on a terminal."""

from collections.abc import Iterable, Iterator
from textwrap import wrap

from rich.console import Console
from rich.text import Text

from cuewright.render import words
from cuewright.render.terminal import printed
from cuewright_models.explained import (
    Explained,
    ExplainedClause,
    Reason,
    RoleChoice,
    SectionChoice,
)

_MOST = 3
"""Reasons to show for a choice; the rest is in the JSON."""
_NAME = 14
"""Cells for the name of a choice, the longest being "prescription"."""


def page(explained: Explained, *, width: int = 80, colour: bool = False) -> str:
    """Three entries a clause, at most ``width`` cells a line: its words, its section, its role.

    Without ``colour`` the text holds no escape sequences.
    """
    return printed(lambda out: _write(out, explained), width=width, colour=colour)


def _write(out: Console, explained: Explained) -> None:
    out.print(Text(words.source(explained.source), "bold", overflow="fold"))
    moments = [words.moment(clause.said) for clause in explained.clauses]
    edge = max(map(len, moments), default=0)
    edge += 2 if edge else 0
    for clause, moment in zip(explained.clauses, moments, strict=True):
        out.print()
        for line in _lines(clause, moment.ljust(edge), out.width):
            out.print(line, soft_wrap=True)


def _lines(clause: ExplainedClause, margin: str, width: int) -> Iterator[Text]:
    said = Text(words.clean(clause.said.quote))
    said.truncate(width - len(margin), overflow="ellipsis")
    yield Text(margin, "dim") + said
    yield from _choice(clause.section.chosen, _why_section(clause.section), len(margin), width)
    yield from _choice(clause.role.chosen, _why_role(clause.role), len(margin), width)


def _choice(chosen: str, why: str, edge: int, width: int) -> Iterator[Text]:
    """What was chosen, and beside it why."""
    names = [chosen]
    for line in wrap(why, width - edge - _NAME, break_on_hyphens=False):
        name = names.pop() if names else ""
        yield Text(" " * edge) + Text(name.ljust(_NAME), "bold cyan") + Text(line)


def _why_section(choice: SectionChoice) -> str:
    because = _because(choice.because) or f"nothing new, so {choice.chosen} goes on"
    return f"{because}; {choice.runner_up} {_behind(choice.lost_by)}"


def _why_role(choice: RoleChoice) -> str:
    if choice.runs_on:
        return f"goes on with the clause before; by itself it would be {choice.runner_up}"
    because = _because(choice.because) or "nothing in it speaks"
    if choice.runner_up is None or choice.lost_by is None:
        return f"{because}; nothing speaks for another"
    return f"{because}; {choice.runner_up} {_behind(choice.lost_by)}"


def _because(reasons: Iterable[Reason]) -> str:
    shown = [f"{reason.what} {_signed(reason.weight)}" for reason in reasons]
    return ", ".join(shown[:_MOST]) + (", …" if len(shown) > _MOST else "")


def _signed(weight: float) -> str:
    return f"{weight:+.2f}".rstrip("0").rstrip(".")


def _behind(lost_by: float) -> str:
    return f"{_signed(lost_by)[1:]} behind" if lost_by >= 0.005 else "weighs the same"

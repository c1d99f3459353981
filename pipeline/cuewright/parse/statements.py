"""Statements: the clauses that prescribe, each with all that the grammar finds in it."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

from cuewright.parse.board import Board
from cuewright.parse.efforts import Bound, efforts
from cuewright.parse.kit import specific
from cuewright.parse.spans import Row
from cuewright.parse.structures import Mark, marks
from cuewright.phrases import Phrases, spoken_of
from cuewright.tables import raw
from cuewright_models.divided import Clause, Section
from cuewright_models.tokens import Mention, starting_in

_SILENT: frozenset[Section] = frozenset(("open", "close", "pacing"))
_KIND = "kind "
_FIRST = "first "
_GIVEN = re.compile(r"[ntdc][.ef]?M[^M]*nfe[^M]*$")
"""A movement after its amount, then "four of them"."""
_AHEAD = 2
"""Clauses in which the work of a clock follows."""


@dataclass(frozen=True, slots=True)
class Statement:
    """One clause; marks, efforts and phrases in the order said, over tokens of the reading."""

    clause: Clause
    row: Row
    marks: tuple[Mark, ...]
    efforts: tuple[Bound, ...]
    kinds: tuple[Mention, ...]
    """Phrases that name a kind of block."""
    calls: tuple[Mention, ...]
    """Phrases that say how a block is run, or that close a part of it."""
    later: bool
    """True where one of the next clauses names a movement."""

    @property
    def start(self) -> int:
        return self.clause.start


def runs(clauses: Sequence[Clause]) -> Iterator[list[Clause]]:
    """Neighbours of one section that prescribe; a structure may span their borders."""
    run: list[Clause] = []
    for clause in clauses:
        prescribes = clause.role == "prescription" and clause.section not in _SILENT
        if run and (not prescribes or run[-1].section != clause.section):
            yield run
            run = []
        if prescribes:
            run.append(clause)
    if run:
        yield run


def announced(board: Board) -> tuple[Mention, ...]:
    """The phrases of ``blocks.toml`` in the talk, less parts that are only spoken of."""
    tokens = board.reading.tokens
    return tuple(
        mention
        for mention in _phrases().everywhere(board.reading.stems)
        if not (mention.name.startswith(_KIND) and spoken_of(tokens, mention.start))
    )


def statements(board: Board, run: Sequence[Clause]) -> Iterator[Statement]:
    """The clauses of a run as statements; the run's structures are read over it as a whole."""
    said = marks(board.row(run[0].start, run[-1].end), board.reading.tokens)
    for place, clause in enumerate(run):
        following = run[min(place + _AHEAD, len(run) - 1)]
        spans = board.row(clause.start, clause.end)
        here = tuple(
            mark
            for mark in said
            if clause.start <= mark.start < clause.end
            and (mark.kind != "those" or _repeats(board, spans))
        )
        found = starting_in(board.phrases, clause.start, clause.end)
        here += _open_ended(found, spans, here)
        yield Statement(
            clause=clause,
            row=spans,
            marks=here,
            efforts=_efforts(board, spans, here),
            kinds=tuple(_kinds(found, clause)),
            calls=tuple(p for p in found if not p.name.startswith((_KIND, _FIRST))),
            later=bool(board.named(clause.end, following.end)),
        )


def _repeats(board: Board, spans: Row) -> bool:
    """Whether "four of those" repeats the work so far; it counts what was only named."""
    works = board.draft.efforts if board.drafts else []
    if "M" in spans.letters:  # "ten burpees, and you're doing four of them"
        return _GIVEN.search(spans.letters) is not None
    return bool(works) and not works[-1].bare


def _open_ended(found: Sequence[Mention], spans: Row, said: Sequence[Mark]) -> tuple[Mark, ...]:
    """The time in which as many rounds as possible are done, where no mark has it already."""
    if not any(call.name == "as-many" for call in found) or any(m.amounts for m in said):
        return ()
    for span in spans.spans:
        if span.letter == "t" and span.amount is not None:
            return (Mark("amrap", span.start, span.end, (span.amount,)),)
    return ()


def _kinds(found: Sequence[Mention], clause: Clause) -> Iterator[Mention]:
    """The kinds of block named; some words name one only where they come first."""
    for phrase in found:
        what, _, kind = phrase.name.partition(" ")
        first = what == _FIRST.strip() and phrase.start - clause.start <= 1
        if first or what == _KIND.strip():
            yield phrase._replace(name=kind)


def _efforts(board: Board, spans: Row, said: Sequence[Mark]) -> tuple[Bound, ...]:
    """The efforts of a clause, under the names that the kit of the talk gives them."""
    return tuple(
        replace(bound, movement=specific(bound.movement, board.kit))
        for bound in efforts(spans, said, board.reading.tokens)
    )


@cache
def _phrases() -> Phrases:
    table = raw("cuewright.parse", "blocks.toml")
    first = {_FIRST + kind: said for kind, said in table.pop("first").items()}
    kinds = {_KIND + kind: said for kind, said in table.pop("kinds").items()}
    return Phrases(first | kinds | {call: row["said"] for call, row in table.items()})

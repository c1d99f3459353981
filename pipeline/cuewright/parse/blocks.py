"""Blocks: what is prescribed, written up statement by statement as the session is performed.

One module for each thing that a coach may be doing:

    statements  the clauses that prescribe, with what the grammar finds in them
    repeats     saying again what stands on the board
    placing     moving on to another block
    clocks      setting the clock; slots: dividing its intervals
    rounds      rounds, before or after their list; sets; rests
    ladders     rungs, and amounts shared by a list
    works       efforts; ground: ways out and back; orphans: amounts told late
    afterwards  what only the whole talk settles; cooling: the stretches at the end
"""

from operator import itemgetter

from cuewright.parse.afterwards import settled
from cuewright.parse.board import Board, wiped
from cuewright.parse.clocks import set_clock
from cuewright.parse.drafts import Draft
from cuewright.parse.efforts import Bound
from cuewright.parse.ladders import ladder, mirror, share
from cuewright.parse.orphans import adopt
from cuewright.parse.placing import place
from cuewright.parse.repeats import comes_back, echoes, passed_over
from cuewright.parse.rests import rest
from cuewright.parse.rounds import is_listed, moves_on, rounds
from cuewright.parse.sets import front, one_set, sets
from cuewright.parse.slots import slot, slot_names
from cuewright.parse.statements import Statement, announced, runs, statements
from cuewright.parse.structures import Mark
from cuewright.parse.works import effort, take_back
from cuewright_models.divided import Divided
from cuewright_models.tokens import Mention

Event = Mark | Bound | Mention


def fold(divided: Divided) -> list[Draft]:
    """The blocks of a divided talk, as drafts, in the order said."""
    board = wiped(divided)
    board.phrases = announced(board)
    for run in runs(board.clauses):
        late = comes_back(board, run)
        for said in statements(board, run):
            if not passed_over(board, said, late=late):
                _write(board, said)
    return settled(board)


def _write(board: Board, said: Statement) -> None:
    """Write one statement up, in the block that it belongs to."""
    place(board, said)
    if echoes(board, said):
        return
    if moves_on(board, said):
        board.draft.close()
    set_clock(board, said)
    for event in _events(board, said):
        _happens(board, event, said)
    adopt(board, said)
    draft = board.draft
    draft.places.append((said.clause.start, said.clause.end))
    if said.efforts and draft.open is not None:
        draft.open.listed = is_listed(board, said.efforts)


def _events(board: Board, said: Statement) -> list[Event]:
    """What a statement holds in the order in which it takes effect; at one word, efforts last."""
    events: list[tuple[int, Event]] = [
        *((front(mark, said.efforts), mark) for mark in said.marks),
        *((name.start, name) for name in slot_names(board, said.row)),
        *((call.start, call) for call in said.calls),
        *((bound.first, bound) for bound in said.efforts),
    ]
    return [event for _, event in sorted(events, key=itemgetter(0))]


def _happens(board: Board, event: Event, said: Statement) -> None:
    """Let one event change the board; clocks are set already."""
    match event:
        case Bound():
            effort(board, event, said.marks)
        case Mark(kind="rounds" | "turns" | "those"):
            rounds(board, event, said.efforts)
        case Mark(kind="sets" | "by"):
            sets(board, event, said.efforts)
        case Mark(kind="one-set"):
            one_set(board, event)
        case Mark(kind="rest"):
            rest(board, event)
        case Mark(kind="share"):
            share(board.draft, event)
        case Mark(kind="ladder"):
            ladder(board, event, said.efforts)
        case Mark(kind="slot"):
            slot(board.draft, event)
        case Mention(name="close"):
            board.draft.close()
        case Mention(name="restart"):
            take_back(board.draft, event.start)
        case Mention(name="mirror"):
            mirror(board.draft)

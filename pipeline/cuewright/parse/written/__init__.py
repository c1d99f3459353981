"""A session that was written down to drafts of its blocks: the front for lines, not for pauses.

The amounts, movements and structures are those of the spoken grammar; where a block or a round
begins and ends is read off the layout.

    lines     each line with what the grammar finds in it
    asides    lines that ask for no work
    sheet     the blocks so far, and what is open
    clock     what a line says of the clock; tables: what a column says of its cells
    copying   a line's work put down
    goals     the lines of a list of targets; ways: of options; labels: what they are about
    clauses   the same lines for the stages that read options, targets and claims
"""

from typing import NamedTuple

from cuewright.parse.board import wiped
from cuewright.parse.drafts import Draft
from cuewright.parse.statements import announced
from cuewright.parse.written.clauses import clauses
from cuewright.parse.written.lines import Stated, stated
from cuewright.parse.written.reading import Reader
from cuewright_models.divided import Divided
from cuewright_models.transcript import Transcript


class Written(NamedTuple):
    """A written session: its blocks, its lines as clauses, and its title."""

    drafts: list[Draft]
    divided: Divided
    title: str | None
    wanted: list[Stated]
    """The lines under a heading of targets."""
    offered: list[Stated]
    """The lines under a heading of options."""


def fold_written(heard: Transcript, divided: Divided) -> Written:
    """The blocks as drafts, the session divided by its lines, and its title."""
    board = wiped(divided)
    board.without = frozenset()  # nobody takes back what was written
    board.phrases = announced(board)
    reader = Reader(board)
    for said in stated(board, heard.outline):
        reader.read(said)
    drafts = reader.done()
    return Written(
        drafts, clauses(divided, reader.parts), reader.title(heard), reader.wanted, reader.offered
    )

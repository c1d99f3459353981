"""How a written session is laid out: its lines, each with its kind and how deep it stands."""

from typing import Literal, NamedTuple

LineKind = Literal["heading", "item", "text", "header", "row"]


class Line(NamedTuple):
    """One line over the words ``first:last``; ``number`` is its line in the source, from 1.

    ``depth`` is 0 for text and headings and rises with each level of a list. ``label`` is
    what numbers an item ("2", "A", "A1", "part 2") or marks a heading ("##"), else empty.
    ``parts`` are the words at which a new part of the line starts, after a sign that stands
    alone or in another cell of a table.
    """

    first: int
    last: int
    number: int
    kind: LineKind = "text"
    depth: int = 0
    label: str = ""
    gap: bool = False
    """True where an empty line stands before."""
    parts: tuple[int, ...] = ()
    columns: tuple[int, ...] = ()
    """For each cell of a row that is not empty, its column from 0; as long as ``parts``."""
    brackets: tuple[tuple[int, int], ...] = ()
    """The half-open ranges of words in round brackets."""
    names: tuple[tuple[int, int], ...] = ()
    """The half-open ranges of words that stand in curly quotes behind others."""

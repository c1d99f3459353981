"""The description made true, by the smallest changes that are found to do it.

A change is believed only when the changed text has been read and compared again.
"""

import re
from collections.abc import Callable, Iterable, Sequence
from difflib import SequenceMatcher
from typing import NamedTuple

from cuewright.comparison.difference import Difference
from cuewright.comparison.lines import Change
from cuewright.comparison.mends import mends
from cuewright.comparison.stations import Station
from cuewright.comparison.surface import Surface
from cuewright_models.comparison import Edit
from cuewright_models.transcript import Transcript

_MOST = 60
"""Changes of one text; more differences than that are another session."""
_PIECE = re.compile(r"\w+|\s+|.", re.DOTALL)


class Held(NamedTuple):
    """A text as it was read, with its efforts, and what differs in it."""

    text: str
    read: Transcript
    stations: Sequence[Station]
    wrong: list[Difference]


Again = Callable[[str], Held | None]
"""A changed text held against the talk once more; ``None`` when it cannot be read."""


def rewritten(held: Held, again: Again) -> Held:
    """The text without the differences, each taken out by the first change that does."""
    given_up: set[tuple[str, str, str | None]] = set()
    for _ in range(_MOST):
        todo = [each for each in held.wrong if _key(each) not in given_up]
        if not todo:
            break
        better = _better(held, todo[0], again)
        if better is None:
            given_up.add(_key(todo[0]))
        else:
            held = better
    return held


def _key(each: Difference) -> tuple[str, str, str | None]:
    return each.rule, each.about, each.expected


def _better(held: Held, wrong: Difference, again: Again) -> Held | None:
    """The first changed text with less to complain of."""
    seen = {held.text}
    for changes in mends(wrong, Surface(held.text, held.read, held.stations)):
        made = applied(held.text, changes)
        if made not in seen:
            seen.add(made)
            found = again(made)
            if found is not None and len(found.wrong) < len(held.wrong):
                return found
    return None


def applied(text: str, changes: Iterable[Change]) -> str:
    """The text with the changes, which do not overlap."""
    for (start, end), new in sorted(changes, key=lambda change: change.span, reverse=True):
        text = text[:start] + new + text[end:]
    return text


def edits(given: str, corrected: str) -> tuple[Edit, ...]:
    """What became of the given text, word by word."""
    if given == corrected:
        return ()
    one, two = _PIECE.findall(given), _PIECE.findall(corrected)
    starts = [0]
    for piece in one:
        starts.append(starts[-1] + len(piece))
    return tuple(
        Edit(
            start=starts[a],
            end=starts[b],
            line=given.count("\n", 0, starts[a]) + 1,
            old="".join(one[a:b]),
            new="".join(two[c:d]),
        )
        for kind, a, b, c, d in SequenceMatcher(None, one, two, autojunk=False).get_opcodes()
        if kind != "equal"
    )

"""Line by line: which block a line belongs to, and what it opens."""

import re
from dataclasses import replace

from cuewright.parse.board import Board
from cuewright.parse.drafts import Draft, Group
from cuewright.parse.written.asides import heads_aside, is_intro, without_asides
from cuewright.parse.written.clauses import Part
from cuewright.parse.written.clock import clock_of, wind
from cuewright.parse.written.copying import copy, merge_pair
from cuewright.parse.written.lines import Stated
from cuewright.parse.written.sheet import SECTIONS, Sheet
from cuewright.parse.written.tables import Columns, columns, row
from cuewright.parse.written.title import named
from cuewright.parse.written.words import listed
from cuewright_models.plan import BlockKind
from cuewright_models.transcript import Transcript

_SHAPES = ("rounds", "turns", "sets", "by", "ladder")
_NAME = 3
"""Tokens of a line that is nothing but the name of a part."""
_STAMP = re.compile(r"\d+(?::\d\d)+")
"""What opens a chapter: "2:15 Warm-up"."""


class Reader:
    """Reads the lines of one session in order."""

    def __init__(self, board: Board) -> None:
        self._board = board
        self._sheet = Sheet(board.reading.tokens)
        self._aside: int | None = None
        """The depth of a heading under which stands no work."""
        self._columns: Columns = {}
        self._pending: Stated | None = None
        """An opening line that sets the clock of the main work."""
        self._first: Stated | None = None
        self._titled = False
        self._inline = -1
        """The depth of the line that opened the block and has its work, -1 for none."""
        self._item = 0
        """The depth of the list's item that opened the block, 0 for none."""
        self.parts: list[Part] = []
        self.wanted: list[Stated] = []
        """Lines under a heading of targets."""
        self.offered: list[Stated] = []
        """Lines under a heading of options."""
        self._under = ""
        """What an aside's heading is of: ``goals``, ``ways``, else nothing."""

    def read(self, said: Stated) -> None:
        """One line more."""
        if self._first is None:
            self._first = said
            if self._is_title(said):
                self._titled = True
                self.parts.append(Part(said.start, said.end, "open", work=False))
                return
        if self._set_aside(said):
            offered = self._under == "ways" and said.line.kind != "heading"
            part = Part(said.start, said.end, self._section, work=False, offered=offered)
            self.parts.append(part)
            return
        if said.line.kind == "header":
            self._columns = columns(self._board, said)
            self.parts.append(Part(said.start, said.end, self._section, work=False))
            return
        if said.line.kind == "row":
            said = row(self._board, said, self._columns)
        kept = without_asides(self._board, said)
        end = said.end if len(kept) == len(said.pieces) else (kept[-1].end if kept else said.start)
        self._work(replace(said, pieces=kept), end)
        if end < said.end:
            self.parts.append(Part(end, said.end, self._section, work=False))

    @property
    def _section(self) -> str:
        return self._sheet.draft.section if self._sheet.drafts else "open"

    def _is_title(self, said: Stated) -> bool:
        pictured = said.line.kind == "item" and said.ends and not said.line.label
        if said.marks or clock_of(said) is not None:
            return False
        if not pictured and said.line.kind not in ("heading", "text"):
            return False
        if said.line.label == "#":
            return True  # whatever its words are
        if (said.efforts and said.line.kind != "heading") or heads_aside(self._board, said):
            return False
        if said.line.kind == "heading":
            return not said.leading
        return said.kind is None and not said.line.label

    def _set_aside(self, said: Stated) -> bool:
        """Whether a line stands under a heading of notes, or is one."""
        heading = said.line.kind == "heading"
        if self._aside is not None and (heading or said.line.depth <= self._aside):
            stamped = _STAMP.fullmatch(self._board.norm(said.start)) is not None
            opens = heading or ((said.kind is not None or said.line.gap) and not stamped)
            self._aside = None if opens else self._aside
        if heads_aside(self._board, said) and (heading or said.leads):
            self._aside = said.line.depth
            first = self._board.norm(said.start)
            self._under = next((n for n in ("goals", "ways") if first in listed(n)), "")
        elif self._aside is not None and self._under == "goals":
            self.wanted.append(said)
        elif self._aside is not None and self._under == "ways":
            self.offered.append(said)
        return self._aside is not None

    def _work(self, said: Stated, end: int) -> None:
        """Put a line's work down, in a block of its own where it opens one."""
        if not said.pieces and said.kind is None:
            return
        if not self._sheet.drafts and is_intro(self._board, said):
            self._pending = said if clock_of(said) is not None else self._pending
            self.parts.append(Part(said.start, end, "open", work=False))
            return
        pair = self._is_pair(said)
        before = self._sheet.last_line
        if not pair and (opened := self._opens(said)) is not None:
            self._sheet.start(opened, headed=said.line.kind == "heading" or bool(said.line.label))
            around = opened in SECTIONS and bool(said.efforts)
            self._sheet.draft.named = said.kind is not None
            self._inline = said.line.depth if around else -1
            self._item = said.line.depth if said.line.kind == "item" else 0
        elif not self._sheet.drafts:
            self._sheet.start("conditioning", headed=False)
        sheet = self._sheet
        onward = said.line.gap or self._board.norm(said.start) in listed("onward")
        sheet.leave(said.line.depth, onward=onward)
        wind(sheet.draft, said)
        self._number(said)
        copy(sheet, said)
        if pair:
            merge_pair(sheet, before)
        sheet.pair = said.line.label[:1] if _is_pair_label(said.line.label) else ""
        sheet.draft.places.append((said.start, max(end, said.start + 1)))
        self.parts.append(Part(said.start, end, sheet.draft.section, work=True))

    def _is_pair(self, said: Stated) -> bool:
        """Whether a line is the next of a superset: A2 after A1."""
        label = said.line.label
        return _is_pair_label(label) and bool(self._sheet.drafts) and self._sheet.pair == label[0]

    def _opens(self, said: Stated) -> BlockKind | None:
        """The kind of block that a line opens, if it opens one."""
        line, kind, clock = said.line, said.kind, clock_of(said)
        usual = kind or "conditioning"
        sheet = self._sheet
        if line.kind == "heading":
            return None if self._is_inner(said) else usual
        if line.kind == "row":
            return None
        if line.label[:1].isalpha() and not _is_pair_label(line.label):
            return usual
        if _is_pair_label(line.label):
            return usual if not sheet.headed or sheet.draft.top.items else None
        bare = not said.efforts and said.end - said.start <= _NAME
        if kind is not None and line.depth <= 1 and (bare or not (sheet.headed and line.depth)):
            return kind
        if kind is not None and self._is_part(said):
            return kind
        if not sheet.drafts:
            return usual
        if (
            line.label
            and said.leads
            and not said.efforts
            and (not sheet.headed or self._is_sibling(said))
        ):
            return usual
        if self._moves_on(said):
            return usual
        filled = bool(sheet.draft.top.items)
        if clock is not None and filled and (line.depth == 0 or not sheet.scopes):
            return usual
        if said.called("next") and line.depth == 0 and filled and self._rounded(said):
            return usual
        if not sheet.headed and line.gap and line.depth == 0 and filled and self._rounded(said):
            return usual
        return None

    def _moves_on(self, said: Stated) -> bool:
        """Whether the block before had its work on one line and this line is no more of it."""
        line = said.line
        if not 0 <= line.depth <= self._inline or not (said.efforts or said.marks):
            return False
        fresh = line.gap or line.kind == "item"
        return fresh and self._board.norm(said.start) not in listed("onward")

    def _is_part(self, said: Stated) -> bool:
        """Whether a list's item names a part of the session and its work stands below it."""
        return said.leads and not said.efforts and self._is_sibling(said)

    def _is_sibling(self, said: Stated) -> bool:
        """Whether the block before was opened by an item of the same list."""
        return self._item > 0 and said.line.depth <= self._item

    def _is_inner(self, said: Stated) -> bool:
        """Whether a heading is of rounds, or of what stands around them, inside its block."""
        sheet = self._sheet
        if not sheet.drafts or said.kind is not None or said.called("next"):
            return False
        if clock_of(said) is not None and not said.efforts and not sheet.draft.top.items:
            return sheet.draft.clock is None
        if not sheet.headed:
            return False
        if said.called("opening") or said.called("closing") or said.called("close"):
            return True
        if said.marks and all(mark.kind == "rest" for mark in said.marks):
            return True  # "REST 45 S BETWEEN SETS"
        rounds = any(mark.kind in ("rounds", "turns") for mark in said.marks)
        return rounds and clock_of(said) is None and not said.efforts and not sheet.scopes

    def _rounded(self, said: Stated) -> bool:
        return any(mark.kind in _SHAPES for mark in said.marks)

    def _number(self, said: Stated) -> None:
        """Numbered lines below a clock that starts every minute are its intervals."""
        sheet = self._sheet
        if sheet.draft.clock != "every" or not said.line.label.isdigit() or not said.efforts:
            return
        sheet.open(
            Group("slot", index=int(said.line.label)), said.line.depth, heading=False, loose=False
        )

    def done(self) -> list[Draft]:
        """The blocks, once all lines are read."""
        for draft, share in zip(self._sheet.drafts, self._sheet.shares, strict=True):
            _settle(draft, share is not None)
        if self._pending is not None:
            main = [d for d in self._sheet.drafts if d.section == "work" and not d.clock]
            for draft in main[:1]:
                wind(draft, self._pending)
        return self._sheet.drafts

    def title(self, heard: Transcript) -> str | None:
        """The session's name, as its first line has it."""
        if self._first is None or not self._titled:
            return None
        return named(heard, self._board, self._first)


def _settle(draft: Draft, shared: bool) -> None:
    """Efforts in lists stand without an amount where nothing else gives them one."""
    if draft.rungs or draft.clock == "intervals":
        return
    for work in draft.top.works():
        if work.bare:
            work.kept = True


def _is_pair_label(label: str) -> bool:
    return len(label) == 2 and label[0].isalpha() and label[1].isdigit()

"""What an offer is about when it does not say: by kit, by amount, by kin, or what came last."""

import re
from collections.abc import Iterator, Sequence
from functools import cache

from cuewright.movements.catalogue import catalogue
from cuewright.parse.names import Named, Names
from cuewright.parse.offering import akin, any_of, expressions, has, related, table, wrong
from cuewright.parse.topics import Piece, Talk
from cuewright_models.plan import Block, Effort, Intervals, Repeat, efforts
from cuewright_models.tokens import Amount

_FAR = 45
"""Tokens after which a movement spoken of is no longer meant by "it"."""

_EASY = ("warm-up", "mobility", "cool-down")
_STEM = 4
"""Letters of a word from which longer forms of it are known."""
_FURTHER = 15
"""The same, where the piece before goes on."""
_BESIDE = 3
"""Tokens between a movement and a condition that is about it."""


class Meant:
    """The session that is scaled, and the movement that the talk is at."""

    def __init__(self, talk: Talk, blocks: Sequence[Block], names: Names) -> None:
        self.talk, self.names = talk, names
        self.efforts = [e for block in blocks for e in efforts(block.items)]
        self.periods = {b.structure.work_s for b in blocks if isinstance(b.structure, Intervals)}
        self.rounds = _counts([block for block in blocks if block.kind not in _EASY])
        """What has so many rounds or sets: the total, or the one movement of a part."""
        self._spoken = tuple(dict.fromkeys(n.name for n in talk.named))
        self._topic: Named | None = None
        self.announced = False
        """Whether the piece before only named its topic: "chin-ups, if you've not got any"."""

    def word(self, at: int) -> str:
        """The word at a token, empty before the first."""
        return self.talk.tokens[at].norm if at >= 0 else ""

    def forget(self) -> None:
        """Nothing is spoken of: the talk turns to the ways to scale."""
        self._topic = None

    def follow(self, piece: Piece, taken: set[str | None]) -> None:
        """Remember the last movement of a piece that is not one offered in it."""
        passing = table()["passing"]
        self.announced = bool(piece.named) and has("topic_only", piece.line)
        known = piece.named if self.announced else self._known(piece)
        own = [n for n in known if n.called not in taken]
        own = [n for n in own if self.word(n.start - 1) not in passing]
        if own:
            self._topic = own[-1]

    def _known(self, piece: Piece) -> list[Named]:
        return [named for named in piece.named if named.name in self.names.known]

    def topic(self, piece: Piece) -> str | None:
        """The movement spoken of last, while it is near."""
        topic = self._topic
        near = topic is not None and piece.start - topic.end <= _FAR
        return topic.name if topic is not None and near else None

    def about(self, piece: Piece, to: str | None = None) -> str | None:
        """What a piece is about that names no movement of the session."""
        if self.announced and self.at() != to:
            return self.at()
        name = self.by_kit(piece) or self.by_amount(piece)
        topic = self.topic(piece)
        if name is None and to is not None:
            beside = topic not in (None, to) and self._just_said(piece, str(topic), to)
            name = topic if beside else self._by_kin(piece, to)
        if name is not None or to is None:
            return name or topic
        return self._akin(topic, to)

    def _akin(self, topic: str | None, to: str) -> str | None:
        """The topic, if ``to`` can stand in for it; else the first movement for which it can."""
        if topic is not None and topic != to and related(topic, to):
            return topic
        *near, _ = self._kin(to)
        first = next((kin[0] for kin in near if kin), None)
        return first or (topic if topic != to else None)

    def _just_said(self, piece: Piece, name: str, to: str) -> bool:
        """Whether the topic ends right before a piece, and is the same kind of work as ``to``.

        Of "and if …", which goes on, the movement may stand further back.
        """
        topic, rows = self._topic, catalogue()
        far = _FURTHER if self.word(piece.start - 1) in ("and", "or") else _BESIDE
        if topic is None or piece.start - topic.end > far:
            return False
        row, other = rows.get(name), rows.get(to)
        return row is not None and other is not None and bool({*row.patterns} & {*other.patterns})

    def by_load(self, piece: Piece) -> str | None:
        """The one loaded movement of the work whose load, or kind of kit, a piece speaks of."""
        lows = {amount.low for amount in piece.amounts}
        loads = {e.movement for e in self.efforts if any(load.low in lows for load in e.load)}
        kits = {kit for word, kit in table()["kit"].items() if _word(word).search(piece.line)}
        rows, weights = catalogue(), set(table()["loads"])
        held = {n for n in self.names.work if n in rows and kits & weights & set(rows[n].kit)}
        for known in (loads, held):
            if (topic := self.at()) in known:
                return topic
            if len(known) == 1:
                return known.pop()
        return None

    def by_held(self, piece: Piece) -> str | None:
        """The one movement of the work that is done with a kind of kit which is spoken of."""
        kits = {kit for word, kit in table()["kit"].items() if _word(word).search(piece.line)}
        rows = catalogue()
        held = [n for n in self.names.work if n in rows and kits & set(rows[n].kit)]
        return held[0] if len(held) == 1 else None

    def by_amount(self, piece: Piece) -> str | None:
        """The one movement whose amount or load is called too much."""
        for amount in old(piece):
            known = {e.movement for e in self.efforts if _has(e, amount)}
            if (topic := self.at()) in known:
                return topic
            if len(known) == 1:
                return known.pop()
        return None

    def at(self) -> str | None:
        """The movement spoken of last, however far back."""
        return self._topic.name if self._topic is not None else None

    def _kin(self, to: str) -> list[list[str]]:
        """The movements of the main work that could become ``to``, by the nearness of the kin."""
        rows = catalogue()
        work = [n for n in self.names.work if n in rows and n != to]
        return [
            [n for n in work if to in rows[n].easier + rows[n].swap],
            [n for n in work if to in rows[n].harder],
            [n for n in work if akin(n, to)],
            [n for n in work if to in rows and set(rows[n].patterns) == set(rows[to].patterns)],
        ]

    def _by_kin(self, piece: Piece, to: str) -> str | None:
        """The one movement that ``to`` is for: spoken of last, named in part, or the only one."""
        verbs = [n for n in self.names.work if _as_verb(n, piece) and n != to]
        if len(verbs) == 1 and wrong(piece):
            return verbs[0]
        for kin in self._kin(to):
            if (topic := self.at()) in kin:
                return topic
            said = [n for n in kin if _spoken(n, piece)]
            for found in (kin, said):
                if len(found) == 1:
                    return found[0]
        return None

    def by_kit(self, piece: Piece) -> str | None:
        """The movement whose kit is missing, taken or too much."""
        for word, kit in table()["kit"].items():
            if word not in piece.line or not _missing(word).search(piece.line):
                continue
            for names in (self.names.work, self._spoken):
                known = [n for n in names if (row := catalogue().get(n)) and kit in row.kit]
                if (topic := self.at()) in known:
                    return topic
                if len(known) == 1:
                    return known[0]
        return None


@cache
def _missing(word: str) -> re.Pattern[str]:
    """What is said when a kind of kit is not there, or is too much."""
    return any_of([said.replace("KIT", f"{word}(?:e?s)?") for said in table()["missing"]])


@cache
def _word(kit: str) -> re.Pattern[str]:
    return re.compile(rf"\b{kit}(?:e?s)?\b")


def old(piece: Piece) -> list[Amount]:
    """The amounts that are called too much, or that another one replaces."""
    return [
        piece.amounts[int(match[1])]
        for pattern in expressions("old")
        for match in pattern.finditer(piece.line)
    ]


def _counts(blocks: Sequence[Block]) -> dict[float, str]:
    """What each number of rounds is about, the first part that has it."""
    found: dict[float, str] = {}
    for block in blocks:
        names = {effort.movement for effort in efforts(block.items)} - {"walk"}
        alone = len(blocks) > 1 and len(names) == 1
        for times in _rounds(block):
            found.setdefault(times, names.pop() if alone and names else "total")
    return found


def _rounds(block: Block) -> Iterator[float]:
    """The rounds, sets or starts of a block."""
    times = getattr(block.structure, "times", None)
    if times is not None:
        yield float(times)
    for item in block.items:
        if isinstance(item, Repeat):
            yield from (float(end) for end in (item.times.low, item.times.high) if end)


def _spoken(name: str, piece: Piece) -> bool:
    """Whether a word of a movement's name is in a piece, in any form: "jumping" for box jumps."""
    words, parts = piece.line.split(), name.split("-")
    return any(
        word == part or (len(part) >= _STEM and word.startswith(part))
        for word in words
        for part in parts
    )


def _as_verb(name: str, piece: Piece) -> bool:
    """ "Stepping up bothers your knees" is about step-ups."""
    verbs = [word for word in piece.line.split() if word.endswith("ing")]
    first = name.split("-")[0]
    return len(first) >= _STEM and any(verb.startswith(first) for verb in verbs)


def _has(effort: Effort, amount: Amount) -> bool:
    """Whether an effort has an amount, or a load of so much."""
    same = amount.unit is None or amount.unit == effort.unit
    return (same and amount.low in (effort.low, effort.high)) or any(
        amount.low == load.low and amount.unit in (None, load.unit) for load in effort.load
    )

"""Which movement stands in for which, as far as a piece names them.

``pair`` reads what is wrong and what is done about it: by words that trade one for the
other, by what is taken up, and else by what the session has none of.
"""

import re
from collections.abc import Sequence

from cuewright.movements.catalogue import catalogue
from cuewright.parse.meant import Meant
from cuewright.parse.names import Named
from cuewright.parse.offering import (
    akin,
    asked,
    expression,
    expressions,
    find,
    has,
    makes_variant,
    offered,
    related,
    table,
    variants,
    wrong,
)
from cuewright.parse.topics import Piece

_REFUSED = 4
"""Tokens from a refusal to the movement that is not done, at most."""
_LONGEST = 50
"""Tokens of talk that names another movement only in passing, from here on."""


class Swaps:
    """Reads the movements of a piece for the session that is scaled."""

    def __init__(self, meant: Meant) -> None:
        self._meant, self._names = meant, meant.names

    def pair(self, piece: Piece) -> tuple[str | None, str | None]:
        """The movement that the piece is about and the one it offers, as far as it names them."""
        for pattern in expressions("trades"):
            if match := pattern.search(piece.line):
                about, to = (piece.named[int(match[group][1:])] for group in ("about", "to"))
                if about.name in self._names.session or to.called not in self._names.session:
                    return about.name, self._finest(piece, to)
        told = wrong(piece)
        if (variant := self._varied(piece)) is not None:
            return self._meant.at(), variant
        match = find("ordinary", piece.line)
        if match and told and told.end() < match.start(1):
            named = piece.named[int(match[1])]
            if named.called != named.name and named.name in self._names.session:
                return named.name, named.called
            return (piece.named[0].name if piece.named[0] != named else None), named.called
        taken = [n for n in self._taken(piece) if not self._shorthand(piece, n)]
        rest = [n for n in piece.named if n not in taken and n.name in self._names.known]
        rest = [n for n in rest if not self._left_out(n, taken)]
        to_name = self._finest(piece, taken[0]) if taken else None
        about_name = next((n.name for n in rest if n.called != to_name), None)
        if about_name is None and asked(piece):
            about_name = self._stranger(piece, taken)
        if to_name is None and about_name is not None:
            return self._traded_for_kit(piece, self._own(about_name))
        alone = to_name is not None and about_name is None and len(piece.named) == 1
        if (
            alone
            and taken[0].called in self._names.work
            and "instead" not in piece.line
            and not self._meant.announced
        ):
            return taken[0].name, None
        return about_name, to_name

    def _left_out(self, named: Named, taken: Sequence[Named]) -> bool:
        """ "Do up-downs, no push-up": what a movement is done without."""
        after = bool(taken) and named.start > taken[0].start
        return after and self._meant.announced and self._meant.word(named.start - 1) == "no"

    def _varied(self, piece: Piece) -> str | None:
        """ "Walk it, a good hard walk": what a phrase makes of the movement spoken of last."""
        topic, called = self._meant.topic(piece), {named.called for named in piece.named}
        for row in variants():
            if topic and called == {row.to} and topic != row.to and topic.endswith(row.of):
                return row.to if row.said.search(piece.line) else None
        return None

    def other(self, piece: Piece, to: str) -> str | None:
        """The second of two movements offered: "step-ups or glute bridges"."""
        for place, named in enumerate(piece.named):
            if named.called == to:
                _, _, rest = piece.line.partition(f"@{place}")
                match = expression("also").search(rest.strip())
                return piece.named[int(match[1])].called if match else None
        return None

    def strangers(self, piece: Piece) -> list[Named]:
        """The movements in a piece that the session has none of, and that are not refused."""
        passing = table()["passing"]
        return [
            named
            for named in piece.named
            if (named.name not in self._names.session or self._another(named))
            and self._meant.word(named.start - 1) not in passing
            and not self._refused(named)
            and not self._counted(piece, named)
            and not self._as_verb(named)
        ]

    def _as_verb(self, named: Named) -> bool:
        """ "Rather than running them"."""
        compared = self._meant.word(named.start - 1) in ("than", "of")
        return compared and self._meant.word(named.end) in ("them", "it")

    def _another(self, named: Named) -> bool:
        """Whether a name that could be short for one of the session is that of another movement."""
        if named.called == named.name or named.called in self._names.session:
            return False
        return named.end - named.start > 1 or self._meant.word(named.start - 1) in table()["plain"]

    def _counted(self, piece: Piece, named: Named) -> bool:
        """Whether a movement is given an amount elsewhere: the session has it after all."""
        talk = self._meant.talk
        return any(
            other.called == named.called
            and talk.clause(other.start).role == "prescription"
            and talk.counted(other)
            for other in talk.named
            if not piece.start <= other.start < piece.end
        )

    def _refused(self, named: Named) -> bool:
        """ "We aren't doing any running", "nor any burpees", "too high to row"."""
        if self._meant.word(named.start - 1) == "to" and self._too(named.start - 1):
            return True
        for at in range(named.start - 1, max(named.start - 1 - _REFUSED, -1), -1):
            if self._meant.talk.tokens[at].after or self._meant.talk.within(at, at + 1):
                return False
            if self._meant.word(at) in table()["refuses"]:
                return self._meant.word(at + 1) not in table()["no_matter"]
        return False

    def _too(self, at: int) -> bool:
        """Whether "too wet" or the like stands right before a token."""
        return "too" in (self._meant.word(place) for place in range(max(at - 3, 0), at))

    def _own(self, name: str) -> str:
        """The session's only movement of a kind, when the kind is all that was said."""
        if name in self._names.session:
            return name
        kin = [n for n in self._names.work if n.split("-")[-1] == name.split("-")[-1]]
        return kin[0] if len(kin) == 1 and akin(kin[0], name) else name

    def _traded_for_kit(self, piece: Piece, name: str) -> tuple[str, str | None]:
        """ "No rope? Jumping jacks": what is named stands in for what has no kit."""
        lacking = self._meant.by_kit(piece)
        if lacking and has("lighter", piece.line):
            return lacking, None
        if lacking == name and (told := wrong(piece)):
            after = [int(m) for m in re.findall(r"@(\d+)", piece.line[told.end() :])]
            others = [piece.named[at].called for at in after]
            return name, next((other for other in others if related(name, other)), None)
        if lacking in (None, name) or not related(str(lacking), name):
            return name, None
        return str(lacking), name

    def _stranger(self, piece: Piece, taken: Sequence[Named]) -> str | None:
        """A movement that is scaled though the session has none of it."""
        passing = table()["passing"]
        for named in piece.named:
            ahead = not taken or named.start < taken[0].start
            if ahead and named not in taken and self._meant.word(named.start - 1) not in passing:
                return named.name
        return None

    def _shorthand(self, piece: Piece, named: Named) -> bool:
        """Whether what is taken up is only a short name of a movement of the session."""
        if named.name == named.called or named.name not in self._names.session:
            return False
        before = self._meant.word(named.start - 1)
        another = before in ("a", "an") and "instead" in piece.line
        if before in table()["plain"] or (another and named.called not in self._names.session):
            return False
        others = {n.name for n in piece.named if n is not named and n.name in self._names.known}
        return named.name not in others or makes_variant(piece.line)

    def _taken(self, piece: Piece) -> list[Named]:
        out: list[Named] = []
        for pattern in expressions("takes"):
            for match in pattern.finditer(piece.line):
                named = piece.named[int(match[1])]
                if named in out or self._refused(named):
                    continue
                if self._later(piece, match):
                    out.append(named)
        return sorted(out) or self._answer(piece)

    def _answer(self, piece: Piece) -> list[Named]:
        """What is done about what is wrong: a movement that the session has none of."""
        told = asked(piece) or wrong(piece) or offered(piece)
        if not told or piece.end - piece.start > _LONGEST:
            return []
        least = self._wrong_until(piece)
        for named in self.strangers(piece):
            mark = f"@{piece.named.index(named)}"
            place = piece.line.find(mark)
            head = has("topic_only", piece.line[: place + len(mark)]) and not self._stands_in(named)
            if place >= least and not head and self._plausible(piece, named):
                return [named]
        return []

    def _stands_in(self, named: Named) -> bool:
        """Whether the catalogue has a movement as a way to do just one of the session's."""
        rows, to = catalogue(), named.called
        own = [
            name
            for name in self._names.work
            if name in rows and to in rows[name].easier + rows[name].harder
        ]
        return len(own) == 1

    def _wrong_until(self, piece: Piece) -> int:
        """Where a line that opens with a condition has said what is wrong."""
        opened, told = find("condition", piece.line), wrong(piece)
        if opened is None:
            return 0
        return told.end() if told else opened.end()

    def _plausible(self, piece: Piece, to: Named) -> bool:
        """Whether a movement can stand in for what a piece is about."""
        own = [n.name for n in piece.named if n.name in self._names.session]
        about = own[0] if own else self._meant.about(piece, to.called)
        return about is not None and related(about, to.called)

    def _later(self, piece: Piece, match: re.Match[str]) -> bool:
        """Whether what is taken up comes after what is wrong."""
        told = wrong(piece)
        trouble = told.start() if told else None
        if trouble is None or match.start(1) > trouble or "instead" in match[0]:
            return True
        return 0 < match.start(1) < piece.line.find(" if ") < trouble

    def _finest(self, piece: Piece, to: Named) -> str:
        """The movement offered, by the fullest of the names it is given."""
        for other in piece.named:
            again = self._meant.word(other.start - 1) == "the" and _ending(other) == _ending(to)
            finer = again or other.called.endswith(f"-{to.called}")
            if other.start > to.start and finer and other.called not in self._names.known:
                return other.called
        return to.called


def _ending(named: Named) -> list[str]:
    return named.called.split("-")[-2:]

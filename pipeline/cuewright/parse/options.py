"""Ways to scale the session: fewer, shorter, lighter, easier, harder, or another movement.

An offer is a stretch of talk with a condition ("if your knees grumble") or a word that
offers ("instead", "the easier one"). What it is about is the movement it names, else the
one whose kit or amount it names, else the movement spoken of last.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Literal

from cuewright.movements.catalogue import catalogue
from cuewright.parse.build import Quote
from cuewright.parse.names import Named, Names
from cuewright.parse.topics import Piece, Talk
from cuewright.tables import raw
from cuewright_models.divided import Divided
from cuewright_models.plan import Block, Effort, Intervals, Option, efforts
from cuewright_models.tokens import Amount

Kind = Literal["fewer", "shorter", "lighter", "easier", "harder", "substitute"]

_FAR = 45
"""Tokens after which a movement spoken of is no longer meant by "it"."""
_LONGEST = 60
_AHEAD = 12
"""Tokens after "go lighter" within which the movement may still be named."""
_PATIENCE = 25
"""Tokens within which a condition gets its offer."""
_AT_ONCE = 8
"""Characters within which what is wrong starts a line that has no "if"."""
_SLACK = frozenset(("open", "close", "recap"))


@dataclass(frozen=True, slots=True)
class Offer:
    """One option over the tokens ``start:end``."""

    start: int
    end: int
    about: str
    kind: Kind
    to: str | None = None
    amount: Amount | None = None
    unit: str | None = None


def options(
    divided: Divided, blocks: Sequence[Block], names: Names, quote: Quote
) -> tuple[Option, ...]:
    """The options in the order said, one for each movement, kind and variant."""
    found: dict[tuple[str, str, str | None], Option] = {}
    for offer in offers(Talk(divided, names), blocks, names):
        amount = offer.amount
        option = Option(
            about=offer.about,
            kind=offer.kind,
            to=offer.to,
            low=amount.low if amount else None,
            high=amount.high if amount else None,
            unit=offer.unit if amount else None,
            said=(quote(offer.start, offer.end),),
        )
        found.setdefault((offer.about, offer.kind, offer.to), option)
    return tuple(found.values())


def offers(talk: Talk, blocks: Sequence[Block], names: Names) -> list[Offer]:
    """Every offer of the talk with the tokens it is made in."""
    reader = _Reader(talk, blocks, names)
    for start, end in _cut(talk):
        reader.read(talk.piece(start, end))
    return reader.found


class _Reader:
    """Reads pieces in order and remembers which movement is spoken of."""

    def __init__(self, talk: Talk, blocks: Sequence[Block], names: Names) -> None:
        self._talk, self._names = talk, names
        self._efforts = [e for block in blocks for e in efforts(block.items)]
        self._periods = {b.structure.work_s for b in blocks if isinstance(b.structure, Intervals)}
        self._topic: Named | None = None
        self._before = ""
        self.found: list[Offer] = []

    def read(self, piece: Piece) -> None:
        """Add what the piece offers."""
        trails = self._trail(piece)
        made = [] if trails or not self._gate(piece) else list(self._offers(piece))
        made = made or list(self._on_the_spot(piece))
        self.found.extend(made)
        taken = {offer.to for offer in made}
        own = [n for n in piece.named if n.name in self._names.known and n.called not in taken]
        own = [n for n in own if self._word(n.start - 1) not in _table()["passing"]]
        if own:
            self._topic = own[-1]
        self._before = piece.line

    def _word(self, at: int) -> str:
        return self._talk.tokens[at].norm if at >= 0 else ""

    # --- whether the piece offers anything ---------------------------------------------

    def _gate(self, piece: Piece) -> bool:
        """Whether enough speaks for an offer, given the part of the talk."""
        line = piece.line
        offers, trouble = bool(_any("offers", line)), bool(_any("trouble", line))
        asks = _asks(line)
        parts = {c.section for c in piece.clauses}
        roles = {c.role for c in piece.clauses}
        if any(re.search(_table()[key], line) for key in ("retracts", "heading")) or (
            roles <= {"example", "claim", "restatement"} and not offers
        ):
            return False
        if parts <= {"targets", "pacing"}:
            return offers and (trouble or asks)
        if "option" in roles or "scaling" in parts:
            return offers or trouble or asks or bool(_any("allows", line) or _any("lighter", line))
        if parts <= _SLACK | {"cues"}:
            near = self._topic is not None and piece.start - self._topic.end <= _FAR
            other = len(piece.named) > 1 or _variant(line)
            return (bool(piece.named) or near) and ((offers and (trouble or asks)) or (trouble and asks and other))
        return (offers and trouble) or ((offers or trouble) and asks)

    # --- what it offers ---------------------------------------------------------------

    def _offers(self, piece: Piece) -> Iterator[Offer]:
        about, to = self._pair(piece)
        if (offer := self._total(piece)) and (to is None or self._leads(piece)):
            yield offer
            return
        name = about or self._spoken_of(piece, to)
        either = to is not None and re.search(r"\bor\b", piece.line) is not None
        if to is None or name is None or to == name or either:
            variants = [v for v in self._variants(piece, name) if v[1] != to]
            for family, variant in variants:
                kind = self._kind_of_variant(family, variant)
                yield Offer(piece.start, piece.end, family, kind, variant)
            if variants and not either:
                return
        if to is not None and name is not None and to != name:
            yield self._offer(piece, name, to)
            if (other := self._or(piece, to)) is not None and other != name:
                yield self._offer(piece, name, other)
        elif name is not None and _any("lighter", piece.line) and (offer := self._otherwise(piece, about, name)):
            yield offer
        elif offer := self._less(piece, about):
            yield offer
        elif name is not None and (offer := self._otherwise(piece, about, name)):
            yield offer

    def _leads(self, piece: Piece) -> bool:
        """Whether rounds are spoken of before any movement is."""
        match = re.search(_table()["rounds"], piece.line)
        return match is not None and "@" not in piece.line[: match.start()]

    def _or(self, piece: Piece, to: str) -> str | None:
        """The second of two movements offered: "step-ups or glute bridges"."""
        for place, named in enumerate(piece.named):
            if named.called == to:
                _, _, rest = piece.line.partition(f"@{place}")
                match = re.search(_table()["also"], rest.strip())
                return piece.named[int(match[1])].called if match else None
        return None

    def _offer(self, piece: Piece, about: str, to: str) -> Offer:
        amount = self._beside(piece, to)
        unit = None if amount is None else amount.unit or "reps"
        return Offer(piece.start, piece.end, about, self._kind(piece, about, to), to, amount, unit)

    def _beside(self, piece: Piece, to: str) -> Amount | None:
        """The amount given with the movement offered: "do ten supermans", "row 500 metres"."""
        old = self._old(piece)
        for place, named in enumerate(piece.named):
            if named.called == to:
                match = re.search(rf"#(\d+) (?:of (?:the |those )?)?@{place}\b|@{place} (?:for )?#(\d+)", piece.line)
                number = match and (match[1] or match[2])
                amount = piece.amounts[int(number)] if number else None
                return amount if amount not in old else None
        return None

    def _kind(self, piece: Piece, about: str, to: str) -> Kind:
        rows = catalogue()
        row, other = rows.get(about), rows.get(to)
        if row is None or other is None:
            return "substitute"
        up, down = to in row.harder or about in other.easier, to in row.easier or about in other.harder
        line = piece.line
        if _any("easier", line):
            return "easier"
        if _any("harder", line) and (up or _akin(about, to)):
            return "harder"
        if _variant(line, to, about):
            return self._kind_of_variant(about, to)
        reason = line if _any("trouble", line) else f"{self._before} {line}"
        if _any("elsewhere", reason):
            return "substitute"
        varied = (down and to not in row.swap) or (_akin(about, to) and not up)
        return "easier" if varied else "substitute"

    def _kind_of_variant(self, about: str, to: str) -> Kind:
        row, other = catalogue()[about], catalogue()[to]
        return "harder" if to in row.harder or about in other.easier else "easier"

    def _pair(self, piece: Piece) -> tuple[str | None, str | None]:
        """The movement that the piece is about and the one it offers, as far as it names them."""
        for pattern in _table()["trades"]:
            if match := re.search(pattern, piece.line):
                about, to = (piece.named[int(match[group][1:])] for group in ("about", "to"))
                if about.name in self._names.session or to.called not in self._names.session:
                    return about.name, self._finest(piece, to)
        taken = [n for n in self._taken(piece) if not self._shorthand(piece, n)]
        rest = [n for n in piece.named if n not in taken and n.name in self._names.known]
        to_name = self._finest(piece, taken[0]) if taken else None
        about_name = next((n.name for n in rest if n.called != to_name), None)
        if about_name is None and _asks(piece.line):
            about_name = self._stranger(piece, taken)
        if to_name is not None and about_name is None and len(piece.named) == 1:
            if taken[0].called in self._names.work and "instead" not in piece.line:
                return taken[0].name, None
        return about_name, to_name

    def _stranger(self, piece: Piece, taken: Sequence[Named]) -> str | None:
        """A movement that is scaled though the session has none of it."""
        ahead = [n for n in piece.named if not taken or n.start < taken[0].start]
        passing = _table()["passing"]
        return next((n.name for n in ahead if n not in taken and self._word(n.start - 1) not in passing), None)

    def _shorthand(self, piece: Piece, named: Named) -> bool:
        """Whether what is taken up is only a short name of a movement of the session."""
        if named.name == named.called or named.name not in self._names.session:
            return False
        others = {n.name for n in piece.named if n is not named and n.name in self._names.known}
        return named.name not in others or any(
            re.search(pattern, piece.line) for row in _table()["variant"] for pattern in row["said"]
        )

    def _taken(self, piece: Piece) -> list[Named]:
        out: list[Named] = []
        for pattern in _table()["takes"]:
            for match in re.finditer(pattern, piece.line):
                named = piece.named[int(match[1])]
                if named not in out and self._later(piece, match):
                    out.append(named)
        return sorted(out)

    def _later(self, piece: Piece, match: re.Match[str]) -> bool:
        """Whether what is taken up comes after what is wrong."""
        trouble = _first("trouble", piece.line)
        return trouble is None or match.start(1) > trouble or "instead" in match[0]

    def _finest(self, piece: Piece, to: Named) -> str:
        """The movement offered, by the fullest of the names it is given."""
        for other in piece.named:
            finer = other.called.endswith(f"-{to.called}") or (
                self._word(other.start - 1) == "the" and other.called.split("-")[-2:] == to.called.split("-")[-2:]
            )
            if other.start > to.start and finer and other.called not in self._names.known:
                return other.called
        return to.called

    # --- what it is about -------------------------------------------------------------

    def _spoken_of(self, piece: Piece, to: str | None) -> str | None:
        """What the piece is about when it names no movement of the session."""
        if (name := self._by_kit(piece)) is not None:
            return name
        if (name := self._by_amount(piece)) is not None:
            return name
        if to is not None and (name := self._related(to)) is not None:
            return name
        topic = self._topic
        if topic is not None and piece.start - topic.end <= _FAR and topic.name != to:
            return topic.name
        return None

    def _related(self, to: str) -> str | None:
        """The movement of the main work that the catalogue would change for ``to``."""
        rows = catalogue()
        topic = self._topic.name if self._topic else None
        for akin in (False, True):
            kin = [
                n for n in self._names.work
                if n in rows and n != to
                and (_akin(n, to) if akin else to in rows[n].easier + rows[n].harder + rows[n].swap)
            ]  # fmt: skip
            if kin:
                return kin[0] if topic not in kin and len(kin) == 1 else None
        return None

    def _by_kit(self, piece: Piece) -> str | None:
        for word, kit in _table()["kit"].items():
            said = [p.replace("KIT", f"{word}(?:e?s)?") for p in _table()["missing"]]
            if not any(re.search(pattern, piece.line) for pattern in said):
                continue
            for names in (self._names.work, tuple(dict.fromkeys(n.name for n in self._talk.named))):
                known = [n for n in names if (row := catalogue().get(n)) and kit in row.kit]
                if self._topic is not None and self._topic.name in known:
                    return self._topic.name
                if len(known) == 1:
                    return known[0]
        return None

    def _by_amount(self, piece: Piece) -> str | None:
        """The one movement whose amount or load is called too much."""
        for amount in self._old(piece):
            known = {
                e.movement
                for e in self._efforts
                if amount.low in (e.low, e.high) and _same_unit(amount, e)
            } | {e.movement for e in self._efforts if any(amount.low == load.low for load in e.load)}
            if self._topic is not None and self._topic.name in known:
                return self._topic.name
            if len(known) == 1:
                return known.pop()
        return None

    def _on_the_spot(self, piece: Piece) -> Iterator[Offer]:
        """A second, lighter load in the prescription itself."""
        match = re.search(_table()["on_the_spot"], piece.line)
        before = [n for n in piece.named if n.name in self._names.session]
        if match is None or not before:
            return
        name, amount = before[-1].name, piece.amounts[int(match[1])]
        if amount.unit in ("kg", "lb") or (amount.unit is None and _loaded(name)):
            yield Offer(piece.start, piece.end, name, "lighter", amount=amount, unit=amount.unit or "kg")

    # --- less of the same -------------------------------------------------------------

    def _old(self, piece: Piece) -> list[Amount]:
        found = []
        for pattern in _table()["old"]:
            found += [piece.amounts[int(m[1])] for m in re.finditer(pattern, piece.line)]
        return found

    def _new(self, piece: Piece) -> Amount | None:
        old = self._old(piece)
        for pattern in _table()["fewer_to"]:
            for match in re.finditer(pattern, piece.line):
                amount = piece.amounts[int(match[1])]
                falls = len(amount.values) == 2 and amount.values[0] > amount.values[1]
                if falls and "cut" in match[0]:
                    return replace(amount, low=amount.values[1], high=amount.values[1])
                if amount not in old and amount.low is not None:
                    return amount
        return None

    def _total(self, piece: Piece) -> Offer | None:
        """Fewer rounds, or less of everything."""
        table = _table()
        if (half := re.search(table["halves"], piece.line)) and self._shares(piece, half):
            return Offer(piece.start, piece.end, "total", "fewer")
        match = re.search(table["rounds"], piece.line)
        if match and not (_any("trouble", piece.line) or _any("offers", piece.line)):
            return None
        whole = re.search(table["whole"], piece.line)
        if match and not re.search(rf"{re.escape(match[0])} of (?:the |your )?@", piece.line):
            amount = piece.amounts[int(match[1])]
            if self._old(piece)[:1] == [amount]:
                amount = self._new(piece) or amount
            unit = "sets" if "set" in match[0] else "rounds"
            return Offer(piece.start, piece.end, "total", "fewer", amount=amount, unit=unit)
        if whole and _any("lighter", piece.line):
            return Offer(piece.start, piece.end, "total", "lighter")
        return None

    def _shares(self, piece: Piece, half: re.Match[str]) -> bool:
        """Whether "of everything" is a count or a share of it, not a time."""
        number = re.search(r"#(\d+)", half[0])
        return number is None or piece.amounts[int(number[1])].unit is None

    def _less(self, piece: Piece, about: str | None) -> Offer | None:
        amount = self._new(piece)
        if amount is None:
            return None
        if amount.unit in ("kg", "lb"):
            return None
        old = self._old(piece)
        timed = amount.unit == "s" or any(a.unit == "s" for a in old)
        period = re.search(_table()["period"], piece.line) is not None
        bare = about is None or re.search(r"@\d+ (?:for )?#", piece.line)
        if timed and (period or (bare and any(a.low in self._periods for a in old))):
            return Offer(piece.start, piece.end, "round", "shorter", amount=replace(amount, unit="s"), unit="s")
        name = about or self._by_amount(piece) or self._spoken_of(piece, None)
        if about is None and (name is None or not self._smaller(name, amount)):
            name = self._by_unit(amount)
        if name is None or not self._smaller(name, amount):
            return None
        counted = amount.unit is None and re.search(r"#\d+ (?:of (?:the |your )?)?@", piece.line)
        measured = not counted and (timed or amount.unit in ("m", "kcal") or self._measured(name))
        unit = amount.unit or ("s" if timed else "m" if measured else "reps")
        return Offer(piece.start, piece.end, name, "shorter" if measured else "fewer", amount=amount, unit=unit)

    def _by_unit(self, amount: Amount) -> str | None:
        """The one movement of which more than ``amount`` is done, in its unit."""
        known = {
            e.movement
            for e in self._efforts
            if amount.unit is not None and e.unit == amount.unit and e.movement in self._names.work
            and amount.low is not None and (e.high or 0) > amount.low
        }  # fmt: skip
        return known.pop() if len(known) == 1 else None

    def _measured(self, name: str) -> bool:
        return any(e.unit in ("m", "s") for e in self._efforts if e.movement == name)

    def _smaller(self, name: str, amount: Amount) -> bool:
        said = [e.high for e in self._efforts if e.movement == name and e.high is not None]
        return not said or any(amount.low is not None and amount.low < high for high in said)

    def _otherwise(self, piece: Piece, about: str | None, name: str) -> Offer | None:
        """Lighter, harder or easier without another movement."""
        line = piece.line
        if _any("harder", line) and not _any("lighter", line):
            return Offer(piece.start, piece.end, name, "harder")
        if _any("lighter", line):
            return self._lighter(piece, about, name)
        trouble = _first("trouble", line)
        plain = _asks(line) or _any("offers", line) or (trouble or 0) <= _AT_ONCE
        acts = trouble is not None and re.search(_table()["acts"], line[trouble:]) is not None
        if _any("easier", line) or (acts and plain):
            return Offer(piece.start, piece.end, name, "easier")
        scaling = any(c.section == "scaling" for c in piece.clauses)
        if about and scaling and _any("allows", line) and re.search(_table()["acts"], line):
            return Offer(piece.start, piece.end, about, "easier")
        return None

    def _lighter(self, piece: Piece, about: str | None, name: str) -> Offer | None:
        amount = next((a for a in reversed(piece.amounts) if a.unit in ("kg", "lb")), None) or self._new(piece)
        unit = (amount.unit or "kg") if amount else None
        if about is None and not _loaded(name):
            ahead = [n.name for n in self._talk.within(piece.end, piece.end + _AHEAD)]
            heard = [n for n in self._names.work if set(n.split("-")) & set(piece.line.split())]
            name = next((n for n in (*ahead, *heard) if n in self._names.work and _loaded(n)), "")
        return Offer(piece.start, piece.end, name, "lighter", amount=amount, unit=unit) if name else None

    def _variants(self, piece: Piece, about: str | None) -> Iterator[tuple[str, str]]:
        """Phrases that make another movement of one of the session's."""
        seen: set[str] = set()
        for row in _table()["variant"]:
            if not any(re.search(pattern, piece.line) for pattern in row["said"]):
                continue
            family = [n for n in self._names.session if n.endswith(tuple(row["of"])) and n != row["to"]]
            family_of_about = about is not None and about.endswith(tuple(row["of"])) and about != row["to"]
            name = about if family_of_about else None
            if about is None and len(family) == 1:
                name = family[0]
            if name is not None and row["to"] not in self._names.session and name not in seen:
                seen.add(name)
                yield name, row["to"]

    def _trail(self, piece: Piece) -> bool:
        """ "That's the easier one" says of which kind the option before it was."""
        match = re.search(_table()["trailer"], piece.line)
        if match is None or not self.found or piece.start - self.found[-1].end > 2:
            return False
        last = self.found[-1]
        kind: Kind = "harder" if match[1] == "harder" else "lighter" if match[1] == "lighter" else "easier"
        if last.to is None or kind != "lighter":
            self.found[-1] = replace(last, kind=kind, end=piece.end)
        return not _any("trouble", piece.line) and not piece.named


def _asks(line: str) -> bool:
    """Whether a line sets a condition or addresses some of those who listen."""
    return re.search(_table()["asks"], line) is not None


def _variant(line: str, to: str | None = None, about: str = "") -> bool:
    """Whether a phrase of the table makes another movement of one, or makes ``about`` ``to``."""
    return any(
        re.search(pattern, line)
        for row in _table()["variant"]
        if to is None or (to == row["to"] and about.endswith(tuple(row["of"])))
        for pattern in row["said"]
    )


def _akin(one: str, other: str) -> bool:
    """Whether two movements share a word that names them: squats, push-ups."""
    shared = (set(one.split("-")) & set(other.split("-"))) - set(_table()["shared"])
    return bool(shared) or (one.split("-")[-2:] == other.split("-")[-2:])


def _loaded(name: str) -> bool:
    row = catalogue().get(name)
    return row is not None and not set(row.kit).isdisjoint(_table()["loads"])


def _same_unit(amount: Amount, effort: Effort) -> bool:
    return amount.unit is None or amount.unit == effort.unit


def _cut(talk: Talk) -> Iterator[tuple[int, int]]:
    """The talk in pieces of one offer at most."""
    start = 0
    for at in range(1, len(talk.tokens)):
        if _ends(talk, start, at):
            yield start, at
            start = at
    yield start, len(talk.tokens)


_RUNS_ON = frozenset(("then", "before", "after", "so", "because"))
_ASKS = frozenset(("what", "how", "who", "why", "which", "any", "do"))


def _ends(talk: Talk, start: int, at: int) -> bool:
    before = talk.tokens[at - 1]
    if talk.stops:
        if before.after in (".", "!", ";", "…"):
            return True
        if before.after == "?":
            line = talk.piece(start, at).line
            return talk.tokens[start].norm in _ASKS or _first("trouble", line) is None
    elif at - start > _LONGEST:
        return True
    elif talk.clause(at).start == at and talk.tokens[at].norm not in _RUNS_ON and not _waits(talk, start, at):
        return True
    return _starts(talk, start, at)


def _starts(talk: Talk, start: int, at: int) -> bool:
    """Whether an offer starts at ``at`` inside a sentence."""
    table = _table()
    before = talk.tokens[at - 1]
    words = " ".join(t.norm for t in talk.tokens[at : at + 5])
    if before.norm in table["not_after"]:
        return False
    if talk.tokens[at].norm == "if":
        if any(re.match(rf"if {pattern}", words) for pattern in table["not_open"]):
            return False
        return not talk.stops or before.norm in ("and", "or", "but", "so") or _only_topic(talk, start, at)
    if talk.stops:
        return False
    opens = any(re.match(rf"{p}\b", words) for p in table["opens"])
    return (opens or _topic(talk, at)) and _done(talk, start, at)


def _topic(talk: Talk, at: int) -> bool:
    """Whether a movement becomes the topic at ``at``: "push ups you can", "on the plank you"."""
    table, tokens = _table(), talk.tokens
    if tokens[at].norm in ("for", "on", "with") and tokens[at - 1].norm not in table["clings"]:
        article = at + 1 < len(tokens) and tokens[at + 1].norm in ("the", "your")
        return article and bool(talk.within(at + 2, at + 3))
    named = talk.within(at, at + 1)
    if not named or tokens[at - 1].norm in table["holds"] or named[0].end >= len(tokens):
        return False
    last = named[0].end - 1
    plural = tokens[last].norm != talk.stems[last]
    free = all(token.norm not in table["holds"] for token in tokens[max(at - 3, 0) : at])
    return tokens[last + 1].norm in table["topic_then"] or (plural and free)


def _waits(talk: Talk, start: int, at: int) -> bool:
    """Whether the stretch up to ``at`` says what is wrong and not yet what to do."""
    line = talk.piece(start, at).line
    trouble = _first("trouble", line)
    return trouble is not None and at - start < _PATIENCE and re.search(_table()["acts"], line[trouble:]) is None


def _done(talk: Talk, start: int, at: int) -> bool:
    """Whether the stretch up to ``at`` has its offer already."""
    line = talk.piece(start, at).line
    trouble = _first("trouble", line)
    if trouble is None:
        return not line.startswith("if ")
    return re.search(_table()["acts"], line[trouble:]) is not None


def _only_topic(talk: Talk, start: int, at: int) -> bool:
    return at - start <= 6


@cache
def _table() -> dict[str, Any]:
    return raw("cuewright.parse", "options.toml")


def _any(key: str, line: str) -> int:
    """How many expressions of a list are found in a line."""
    return sum(re.search(pattern, line) is not None for pattern in _table()[key])


def _first(key: str, line: str) -> int | None:
    """Where the first match of a list starts in a line."""
    found = [m.start() for pattern in _table()[key] if (m := re.search(pattern, line))]
    return min(found, default=None)

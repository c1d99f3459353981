"""Ways to scale the session: fewer, shorter, lighter, easier, harder, or another movement.

An offer is a stretch of talk with a condition ("if your knees grumble") or a word that
offers ("instead", "the easier one"). What it is about is the movement it names, else the
one whose kit or amount it names, else the movement spoken of last.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from cuewright.movements.catalogue import catalogue
from cuewright.parse.build import Quote
from cuewright.parse.names import Named, Names
from cuewright.parse.offering import (
    acts_on,
    akin,
    asks,
    has,
    loaded,
    makes_variant,
    place_of,
    plainly,
    table,
)
from cuewright.parse.pieces import pieces
from cuewright.parse.topics import Piece, Talk
from cuewright_models.divided import Divided
from cuewright_models.plan import Block, Effort, Intervals, Option, efforts
from cuewright_models.tokens import Amount

Kind = Literal["fewer", "shorter", "lighter", "easier", "harder", "substitute"]

_FAR = 45
"""Tokens after which a movement spoken of is no longer meant by "it"."""
_AHEAD = 12
"""Tokens after "go lighter" within which the movement may still be named."""
_HEADING = 12
"""Tokens that a heading has at most."""
_OTHER_PARTS = frozenset(
    f"header-{part}" for part in ["warm-up", "cool-down", "work", "targets", "cues", "pacing", "recap", "close"]
)
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
    for start, end in pieces(talk):
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
        self._scaling = False
        self.found: list[Offer] = []

    def read(self, piece: Piece) -> None:
        """Add what the piece offers."""
        self._follow(piece)
        trails = self._trail(piece)
        made = [] if trails or not self._gate(piece) else list(self._offers(piece))
        made = made or list(self._on_the_spot(piece))
        self.found.extend(made)
        taken = {offer.to for offer in made}
        own = [n for n in piece.named if n.name in self._names.known and n.called not in taken]
        own = [n for n in own if self._word(n.start - 1) not in table()["passing"]]
        if own:
            self._topic = own[-1]
        self._before = piece.line

    def _follow(self, piece: Piece) -> None:
        """Whether the talk is about scaling: from its heading to the next one."""
        for clause in piece.clauses:
            heads = [name for name, _ in clause.labels if name.startswith("header-")]
            if "header-scaling" in heads and clause.end - clause.start <= _HEADING:
                self._scaling = True
            elif _OTHER_PARTS.intersection(heads):
                self._scaling = False

    def _word(self, at: int) -> str:
        return self._talk.tokens[at].norm if at >= 0 else ""

    # --- whether the piece offers anything ---------------------------------------------

    def _gate(self, piece: Piece) -> bool:
        """Whether enough speaks for an offer, given the part of the talk."""
        line = piece.line
        offers, trouble = has("offers", line), has("trouble", line)
        asking = asks(line)
        parts = {c.section for c in piece.clauses}
        roles = {c.role for c in piece.clauses}
        if (has("retracts", line) or (has("heading", line) and not piece.named)) or (
            roles <= {"example", "claim", "restatement"} and not offers
        ):
            return False
        if parts <= {"targets", "pacing"}:
            return offers and (trouble or asking)
        if "option" in roles or "scaling" in parts or self._scaling:
            return offers or trouble or asking or bool(has("allows", line) or has("lighter", line))
        if parts <= _SLACK | {"cues"}:
            near = self._topic is not None and piece.start - self._topic.end <= _FAR
            other = len(piece.named) > 1 or makes_variant(line)
            return (bool(piece.named) or near) and ((offers and (trouble or asking)) or (trouble and asking and other))
        return (offers and trouble) or ((offers or trouble) and asking)

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
                yield Offer(piece.start, piece.end, family, kind, variant or None)
            if variants and not either:
                return
        if to is not None and name is not None and to != name:
            yield self._offer(piece, name, to)
            if (other := self._or(piece, to)) is not None and other != name:
                yield self._offer(piece, name, other)
        elif (name is not None and has("lighter", piece.line) and (offer := self._otherwise(piece, about, name))) or (plainly(piece.line) and (offer := self._less(piece, about))) or (name is not None and (offer := self._otherwise(piece, about, name))):
            yield offer

    def _leads(self, piece: Piece) -> bool:
        """Whether rounds are spoken of before any movement is."""
        match = re.search(table()["rounds"], piece.line)
        return match is not None and "@" not in piece.line[: match.start()]

    def _or(self, piece: Piece, to: str) -> str | None:
        """The second of two movements offered: "step-ups or glute bridges"."""
        for place, named in enumerate(piece.named):
            if named.called == to:
                _, _, rest = piece.line.partition(f"@{place}")
                match = re.search(table()["also"], rest.strip())
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
        if has("easier", line):
            return "easier"
        if has("harder", line) and (up or akin(about, to)):
            return "harder"
        if makes_variant(line, to, about):
            return self._kind_of_variant(about, to)
        reason = line if has("trouble", line) else f"{self._before} {line}"
        if has("elsewhere", reason):
            return "substitute"
        varied = (down and to not in row.swap) or (akin(about, to) and not up)
        return "easier" if varied else "substitute"

    def _kind_of_variant(self, about: str, to: str) -> Kind:
        rows = catalogue()
        if about not in rows or to not in rows:
            return "easier"
        row, other = rows[about], rows[to]
        return "harder" if to in row.harder or about in other.easier else "easier"

    def _pair(self, piece: Piece) -> tuple[str | None, str | None]:
        """The movement that the piece is about and the one it offers, as far as it names them."""
        for pattern in table()["trades"]:
            if match := re.search(pattern, piece.line):
                about, to = (piece.named[int(match[group][1:])] for group in ("about", "to"))
                if about.name in self._names.session or to.called not in self._names.session:
                    return about.name, self._finest(piece, to)
        taken = [n for n in self._taken(piece) if not self._shorthand(piece, n)]
        rest = [n for n in piece.named if n not in taken and n.name in self._names.known]
        to_name = self._finest(piece, taken[0]) if taken else None
        about_name = next((n.name for n in rest if n.called != to_name), None)
        if about_name is None and asks(piece.line):
            about_name = self._stranger(piece, taken)
        if to_name is not None and about_name is None and len(piece.named) == 1:
            if taken[0].called in self._names.work and "instead" not in piece.line:
                return taken[0].name, None
        return about_name, to_name

    def _stranger(self, piece: Piece, taken: Sequence[Named]) -> str | None:
        """A movement that is scaled though the session has none of it."""
        ahead = [n for n in piece.named if not taken or n.start < taken[0].start]
        passing = table()["passing"]
        return next((n.name for n in ahead if n not in taken and self._word(n.start - 1) not in passing), None)

    def _shorthand(self, piece: Piece, named: Named) -> bool:
        """Whether what is taken up is only a short name of a movement of the session."""
        if named.name == named.called or named.name not in self._names.session:
            return False
        others = {n.name for n in piece.named if n is not named and n.name in self._names.known}
        return named.name not in others or any(
            re.search(pattern, piece.line) for row in table()["variant"] for pattern in row["said"]
        )

    def _taken(self, piece: Piece) -> list[Named]:
        out: list[Named] = []
        for pattern in table()["takes"]:
            for match in re.finditer(pattern, piece.line):
                named = piece.named[int(match[1])]
                if named not in out and self._later(piece, match):
                    out.append(named)
        return sorted(out)

    def _later(self, piece: Piece, match: re.Match[str]) -> bool:
        """Whether what is taken up comes after what is wrong."""
        trouble = place_of("trouble", piece.line)
        if trouble is None or match.start(1) > trouble or "instead" in match[0]:
            return True
        return 0 < match.start(1) < piece.line.find(" if ") < trouble

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
        if to is not None and (name := self._related(piece, to)) is not None:
            return name
        topic = self._topic
        if topic is not None and piece.start - topic.end <= _FAR and topic.name != to:
            return topic.name
        return None

    def _related(self, piece: Piece, to: str) -> str | None:
        """The movement of the main work that the catalogue would change for ``to``."""
        rows = catalogue()
        topic = self._topic.name if self._topic else None
        work = [n for n in self._names.work if n in rows and n != to]
        for kin in (
            [n for n in work if to in rows[n].easier + rows[n].swap],
            [n for n in work if to in rows[n].harder],
            [n for n in work if akin(n, to)],
        ):
            if topic in kin:
                return None
            named = [n for n in kin if set(n.split("-")) & set(piece.line.split())]
            for found in (kin, named):
                if len(found) == 1:
                    return found[0]
        return None

    def _by_kit(self, piece: Piece) -> str | None:
        for word, kit in table()["kit"].items():
            said = [p.replace("KIT", f"{word}(?:e?s)?") for p in table()["missing"]]
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
        match = re.search(table()["on_the_spot"], piece.line)
        before = [n for n in piece.named if n.name in self._names.session]
        if match is None or not before:
            return
        name, amount = before[-1].name, piece.amounts[int(match[1])]
        if amount.unit in ("kg", "lb") or (amount.unit is None and loaded(name)):
            yield Offer(piece.start, piece.end, name, "lighter", amount=amount, unit=amount.unit or "kg")

    # --- less of the same -------------------------------------------------------------

    def _old(self, piece: Piece) -> list[Amount]:
        found = []
        for pattern in table()["old"]:
            found += [piece.amounts[int(m[1])] for m in re.finditer(pattern, piece.line)]
        return found

    def _new(self, piece: Piece) -> Amount | None:
        old = self._old(piece)
        for pattern in table()["fewer_to"]:
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
        table = table()
        if (half := re.search(table["halves"], piece.line)) and self._shares(piece, half):
            return Offer(piece.start, piece.end, "total", "fewer")
        match = re.search(table["rounds"], piece.line)
        if match and not (has("trouble", piece.line) or has("offers", piece.line)):
            return None
        whole = re.search(table["whole"], piece.line)
        if match and not re.search(rf"{re.escape(match[0])} of (?:the |your )?@", piece.line):
            amount = piece.amounts[int(match[1])]
            if self._old(piece)[:1] == [amount]:
                amount = self._new(piece) or amount
            unit = "sets" if "set" in match[0] else "rounds"
            return Offer(piece.start, piece.end, "total", "fewer", amount=amount, unit=unit)
        if whole and has("lighter", piece.line):
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
        period = has("period", piece.line)
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
        if has("harder", line) and not has("lighter", line):
            return Offer(piece.start, piece.end, name, "harder")
        if has("lighter", line):
            return self._lighter(piece, about, name)
        if has("easier", line) or (acts_on(line) and plainly(line)):
            return Offer(piece.start, piece.end, name, "easier")
        scaling = self._scaling or any(c.section == "scaling" for c in piece.clauses)
        if about and scaling and has("allows", line) and re.search(table()["acts"], line):
            return Offer(piece.start, piece.end, about, "easier")
        return None

    def _lighter(self, piece: Piece, about: str | None, name: str) -> Offer | None:
        amount = next((a for a in reversed(piece.amounts) if a.unit in ("kg", "lb")), None) or self._new(piece)
        unit = (amount.unit or "kg") if amount else None
        if about is None and not loaded(name):
            ahead = [n.name for n in self._talk.within(piece.end, piece.end + _AHEAD)]
            heard = [n for n in self._names.work if set(n.split("-")) & set(piece.line.split())]
            name = next((n for n in (*ahead, *heard) if n in self._names.work and loaded(n)), "")
        return Offer(piece.start, piece.end, name, "lighter", amount=amount, unit=unit) if name else None

    def _variants(self, piece: Piece, about: str | None) -> Iterator[tuple[str, str]]:
        """Phrases that make another movement of one of the session's."""
        seen: set[str] = set()
        for row in table()["variant"]:
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
        match = re.search(table()["trailer"], piece.line)
        if match is None or not self.found or piece.start - self.found[-1].end > 2:
            return False
        last = self.found[-1]
        kind: Kind = "harder" if match[1] == "harder" else "lighter" if match[1] == "lighter" else "easier"
        if last.to is None or kind != "lighter":
            self.found[-1] = replace(last, kind=kind, end=piece.end)
        return not has("trouble", piece.line) and not piece.named


def _same_unit(amount: Amount, effort: Effort) -> bool:
    return amount.unit is None or amount.unit == effort.unit

"""Ways to scale the session: fewer, shorter, lighter, easier, harder, or another movement.

An offer is a stretch of talk with a condition ("if your knees grumble") or a word that
offers ("instead", "the easier one"). What it is about is the movement it names, else the
one whose kit or amount it names, else the movement spoken of last.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple
from weakref import WeakKeyDictionary

from cuewright.movements.catalogue import catalogue
from cuewright.parse.build import Quote
from cuewright.parse.compared import compared, lighter_load, of_rounds
from cuewright.parse.less import leads, less, on_the_spot, otherwise, total
from cuewright.parse.meant import Meant, old
from cuewright.parse.names import Names
from cuewright.parse.offering import (
    Kind,
    Offer,
    Variant,
    acts_on,
    akin,
    asked,
    dares,
    find,
    has,
    loaded,
    makes_variant,
    offered,
    plainly,
    related,
    table,
    variants,
    wrong,
)
from cuewright.parse.pieces import pieces
from cuewright.parse.swaps import Swaps
from cuewright.parse.topics import Piece, Talk
from cuewright_models.divided import Divided
from cuewright_models.movement import Movement
from cuewright_models.plan import Block, Option
from cuewright_models.tokens import Amount

_HEADING = 12
"""Tokens that a heading has at most."""
_PARTS = "warm-up cool-down work targets cues pacing recap close"
_OTHER_PARTS = frozenset(f"header-{part}" for part in _PARTS.split())
_TOLD = frozenset(("target", "advice", "claim", "restatement", "prescription"))
_AFTER = frozenset(("pacing", "recap", "close"))
_MANY = 4
"""Movements that an offer of fewer rounds names at most."""
_RUN = 40
"""Tokens from a heading or an offer to the next offer, at most."""
_NEXT = 15
"""Tokens from an offer that no heading announced to the next one, at most."""
_SLACK = frozenset(("open", "close", "recap", "cues"))
_ASIDE = frozenset(("example", "claim", "restatement"))


def options(
    divided: Divided, blocks: Sequence[Block], names: Names, quote: Quote
) -> tuple[Option, ...]:
    """The options in the order said, one for each movement, kind and variant."""
    found: dict[tuple[str, str, str | None], Option] = {}
    for offer in told(divided, blocks, names).offers:
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


class Told(NamedTuple):
    """The talk and every offer in it."""

    talk: Talk
    offers: Sequence[Offer]


_READ: WeakKeyDictionary[Names, Told] = WeakKeyDictionary()
"""What was read for the names of a session: the cues ask for it after the options."""


def told(divided: Divided, blocks: Sequence[Block], names: Names) -> Told:
    """The talk and its offers with the tokens they are made in, read once."""
    if names not in _READ:
        talk = Talk(divided, names)
        reader = _Reader(Meant(talk, blocks, names))
        for start, end in pieces(talk):
            reader.read(talk.piece(start, end))
        _READ[names] = Told(talk, reader.found)
    return _READ[names]


class _Reader:
    """Reads pieces in order and remembers which movement is spoken of."""

    def __init__(self, meant: Meant) -> None:
        self._meant, self._names, self._swaps = meant, meant.names, Swaps(meant)
        self._before = ""
        self._scaling = False
        self._headed = 0
        self.found: list[Offer] = []

    def read(self, piece: Piece) -> None:
        """Add what the piece offers."""
        self._follow(piece)
        if has("heading", piece.line) and not piece.named:
            self._meant.forget()
        if self._inside(piece):
            piece = replace(piece, scaling=True)
        trails = self._trail(piece)
        made = [] if trails or not self._gate(piece) else list(self._offers(piece))
        if not made and (offer := on_the_spot(self._meant, piece)):
            made = [offer]
        self.found.extend(made)
        self._meant.follow(piece, {offer.to for offer in made})
        self._before = piece.line

    def _follow(self, piece: Piece) -> None:
        """Whether the talk is about scaling: from its heading to the next one."""
        for clause in piece.clauses:
            heads = {name for name, _ in clause.labels if name.startswith("header-")}
            if "header-scaling" in heads and clause.end - clause.start <= _HEADING:
                self._scaling, self._headed = True, clause.end
                self._meant.forget()
            elif heads & _OTHER_PARTS and not asked(replace(piece, scaling=True)):
                self._scaling = False

    def _trail(self, piece: Piece) -> bool:
        """ "That's the easier one" says of which kind the option before it was."""
        match = find("trailer", piece.line)
        if match is None or not self.found or piece.start - self.found[-1].end > 2:
            return False
        last = self.found[-1]
        kinds: dict[str, Kind] = {"harder": "harder", "lighter": "lighter"}
        kind = kinds.get(match[1], "easier")
        if last.to is None or kind != "lighter":
            self.found[-1] = replace(last, kind=kind, end=piece.end)
        return wrong(piece) is None and not piece.named

    def _gate(self, piece: Piece) -> bool:
        """Whether enough speaks for an offer, given the part of the talk."""
        line = piece.line
        trouble, asking = wrong(piece) is not None, asked(piece)
        roles = {c.role for c in piece.clauses}
        if not (trouble or asking or piece.scaling or "option" in roles):
            return False
        if "prescription" in roles and "option" not in roles and not asking:
            return False
        if any(c.has("promise") for c in piece.clauses) and not (trouble or asking):
            return False  # "the easier versions are in the description"
        if has("retracts", line) or (has("heading", line) and not piece.named):
            return False
        graded = has("easier", line) or dares(piece) or has("lighter", line)
        offers = offered(piece) or (asking and graded)
        parts = {c.section for c in piece.clauses}
        told = any(clause.has("past") for clause in piece.clauses)
        inside = piece.scaling
        plain = roles == {"claim"} and trouble and asking
        if roles <= _ASIDE and (told or not (offers or plain or (inside and asking))):
            return False
        if parts <= {"targets", "pacing"} and not inside:
            weighed = sum(a.unit in ("kg", "lb") for a in piece.amounts) > 1
            graded = asking and weighed and "option" in roles
            return graded or (has("offers", line) and (trouble or asking))
        if inside or "option" in roles:
            given = has("allows", line) or graded or self._varies(piece)
            given = given or (bool(piece.named) and has("softer", line))
            return offers or trouble or asking or given or self._answers(piece)
        if parts <= _SLACK:
            if not piece.named and self._meant.topic(piece) is None:
                return False
            other = len(piece.named) > 1 or self._varies(piece) or _replies(line)
            return (offers and (trouble or asking)) or (trouble and asking and other)
        return (offers and trouble) or ((offers or trouble) and asking)

    def _inside(self, piece: Piece) -> bool:
        """Whether a piece stands where the talk is about scaling."""
        roles = {clause.role for clause in piece.clauses}
        if any(clause.section == "scaling" for clause in piece.clauses):
            return not roles <= _TOLD or asked(piece)
        parts = {clause.section for clause in piece.clauses}
        if parts <= _AFTER or roles & _ASIDE:
            return False
        if self._scaling:
            since = max([self._headed, *(offer.end for offer in self.found[-1:])])
            return piece.start - since <= _RUN
        return bool(self.found) and piece.start - self.found[-1].end <= _NEXT and not roles & _TOLD

    def _varies(self, piece: Piece) -> bool:
        """Whether a phrase makes another movement of one that is spoken of."""
        spoken = [named.name for named in piece.named] or [self._meant.topic(piece) or ""]
        return any(
            any(name.endswith(row.of) for name in spoken) and row.said.search(piece.line)
            for row in variants()
        )

    def _answers(self, piece: Piece) -> bool:
        """Whether a piece names a movement that the session has none of."""
        return bool(self._swaps.strangers(piece))

    def _offers(self, piece: Piece) -> Iterator[Offer]:
        about, to = self._swaps.pair(piece)
        to = _finer(piece, to)
        told = len(piece.named) > _MANY  # the work itself runs into its first offer
        if not told and (offer := total(piece)) and (to is None or leads(piece)):
            yield offer
            return
        if (owner := self._owner(about)) is not None and about is not None:
            if " or " in piece.line:
                yield self._offer(piece, owner, about)
            about = owner
        name = about or self._meant.about(piece, to)
        either = to is not None and " or " in f" {piece.line} "
        if to is None or name in (None, to) or either:
            variants = [v for v in self._variants(piece, name) if v.to is None or v.to != to]
            yield from variants
            if variants and not either:
                return
        if to is not None and name is not None and to != name:
            yield self._offer(piece, name, to)
            if (other := self._swaps.other(piece, to)) not in (None, name):
                yield self._offer(piece, name, str(other))
        elif offer := self._same(piece, about, name):
            yield offer

    def _owner(self, about: str | None) -> str | None:
        """The one movement of the main work that a movement which is none of it makes easier."""
        if about is None or about in self._names.known:
            return None
        rows = catalogue()
        kin = [n for n in self._names.work if n in rows and about in rows[n].easier]
        return kin[0] if len(kin) == 1 else None

    def _same(self, piece: Piece, about: str | None, name: str | None) -> Offer | None:
        """What is offered without another movement."""
        lighter = has("lighter", piece.line)
        if has("marks", piece.line):
            return None
        if plainly(piece) and (offer := of_rounds(self._meant, piece, about)):
            return offer
        if plainly(piece) and (offer := lighter_load(self._meant, piece, about)):
            return offer
        if about is None and has("sized", piece.line):
            name = self._meant.by_held(piece) or name
        if not lighter and plainly(piece) and (offer := less(self._meant, piece, about)):
            return offer
        if plainly(piece) and (offer := compared(self._meant, piece, about)):
            return offer
        if lighter and about is None and (name is None or not loaded(name)):
            name = self._meant.by_load(piece) or name
        if name is None and piece.scaling:
            name = self._meant.by_held(piece)
        if name is None:
            return None
        part = self._scaling or any(c.section == "scaling" for c in piece.clauses)
        return otherwise(self._meant, piece, about, name, scaling=part)

    def _offer(self, piece: Piece, about: str, to: str) -> Offer:
        amount = self._beside(piece, to)
        unit = None if amount is None else amount.unit or "reps"
        return Offer(piece.start, piece.end, about, self._kind(piece, about, to), to, amount, unit)

    def _beside(self, piece: Piece, to: str) -> Amount | None:
        """The amount given with the movement offered: "do ten supermans", "row 500 metres"."""
        before = old(piece)
        for place, named in enumerate(piece.named):
            if named.called == to:
                ahead = rf"#(\d+) (?:of (?:the |those )?)?@{place}\b"
                match = re.search(rf"{ahead}|@{place} (?:for )?#(\d+)", piece.line)
                number = match and (match[1] or match[2])
                amount = piece.amounts[int(number)] if number else None
                return amount if amount not in before else None
        return None

    def _kind(self, piece: Piece, about: str, to: str) -> Kind:
        rows = catalogue()
        row, other = rows.get(about), rows.get(to)
        if row is None or other is None:
            return "substitute"
        up = to in row.harder or about in other.easier
        down = to in row.easier or about in other.harder
        line = piece.line
        if has("easier", line) or about.endswith(f"-{to}"):
            return "easier"
        if dares(piece) and related(about, to) and not down:
            return "harder"
        if up and not down and (dares(piece) or (akin(about, to) and not wrong(piece))):
            return "harder"
        if makes_variant(line, to, about):
            return _settled(about, to) or _kind_of_variant(about, to)
        own = any(named.name == about for named in piece.named)
        reason = line if own or wrong(piece) else f"{self._before} {line}"
        varied = [v for v in variants() if v.to == to and about.endswith(v.of)]
        if has("elsewhere", reason) and not any(v.firm for v in varied):
            return "substitute"
        if varied and (varied[0].kind or akin(about, to)):
            return varied[0].kind or _kind_of_variant(about, to)
        if has("softer", reason) and akin(about, to) and not has("without_kit", reason):
            return "easier"
        if _changes_load(row, other):
            return "substitute"
        still = set(row.patterns + other.patterns).isdisjoint(("jump", "locomotion"))
        kin = akin(about, to) and not up
        return "easier" if kin or (down and still) else "substitute"

    def _variants(self, piece: Piece, about: str | None) -> Iterator[Offer]:
        """Phrases that make another movement of one of the session's."""
        seen: set[str] = set()
        several = " or " in piece.line
        rows = [row for row in variants() if about is None or about.endswith(row.of)]
        for row in _said_in(piece.line, rows):
            family = [n for n in (about, *self._names.session) if n and n.endswith(row.of)]
            family = [n for n in family if n != row.to and about in (None, n)]
            if row.to in self._names.work or len(set(family)) != 1:
                continue
            if several or family[0] not in seen:
                seen.add(family[0])
                kind = row.kind or _kind_of_variant(family[0], row.to)
                yield Offer(piece.start, piece.end, family[0], kind, row.to or None)


def _said_in(line: str, rows: Sequence[Variant]) -> list[Variant]:
    """What phrases of a line make of a movement, in the order said."""
    found = [(match.start(), row) for row in rows if (match := row.said.search(line))]
    return [row for _, row in sorted(found, key=lambda one: one[0])]


def _finer(piece: Piece, to: str | None) -> str | None:
    """ "Do push-ups on the knees": the variant that a phrase makes of what is offered."""
    fine = (v.to for v in variants() if v.firm and to in v.of and v.said.search(piece.line))
    return next(fine, to)


def _replies(line: str) -> bool:
    """Whether a line opens with a condition and says what to do about it."""
    return has("condition", line) and acts_on(line)


def _changes_load(row: Movement, other: Movement) -> bool:
    """Whether a loaded movement is done with another load, or with none."""
    weights = set(table()["weights"]).intersection(row.kit)
    return bool(weights) and weights.isdisjoint(other.kit)


def _settled(about: str, to: str) -> Kind | None:
    """The kind that the table gives to a variant, whatever the movements."""
    kinds = (v.kind for v in variants() if v.to == to and about.endswith(v.of))
    return next(filter(None, kinds), None)


def _kind_of_variant(about: str, to: str) -> Kind:
    row, other = catalogue().get(about), catalogue().get(to)
    if row is None or other is None:
        return "easier"
    return "harder" if to in row.harder or about in other.easier else "easier"

"""Offers that name no other movement: fewer, shorter, lighter, or the same made easier."""

import re
from dataclasses import replace

from cuewright.parse.meant import Meant, old
from cuewright.parse.offering import (
    Offer,
    answered,
    asked,
    dares,
    expressions,
    find,
    has,
    loaded,
    offered,
    plainly,
    wrong,
)
from cuewright.parse.topics import Piece
from cuewright_models.tokens import Amount

_AHEAD = 12
"""Tokens after "go lighter" within which the movement may still be named."""

_TOOLS = r" (?:dumbbells?|kettlebells?|bells?|plates?|bands?|chairs?|hands|feet)\b"
"""After a number that is none of work: "with two dumbbells"."""


def total(piece: Piece) -> Offer | None:
    """Fewer rounds, or less of everything."""
    line = piece.line
    if (half := find("halves", line)) and _shares(piece, half):
        return Offer(piece.start, piece.end, "total", "fewer")
    if (match := find("version", line)) and piece.amounts[int(match[1])].unit == "s":
        time = piece.amounts[int(match[1])]
        return Offer(piece.start, piece.end, "total", "shorter", amount=time, unit="s")
    if has("fewer_rounds", line) and (asked(piece) or wrong(piece) or piece.scaling):
        return Offer(piece.start, piece.end, "total", "fewer")
    if not piece.named and has("vest", line):
        return Offer(piece.start, piece.end, "total", "harder")
    match = find("rounds", line)
    if match and not (wrong(piece) or offered(piece) or (piece.scaling and asked(piece))):
        return None
    parted = match and re.search(rf"{re.escape(match[0])} of (?:the |your )?@", line)
    if match and (not parted or _fewer_than_said(piece, piece.amounts[int(match[1])])):
        amount = piece.amounts[int(match[1])]
        if old(piece)[:1] == [amount]:
            amount = new(piece) or amount
        unit = "sets" if "set" in match[0] else "rounds"
        return Offer(piece.start, piece.end, "total", "fewer", amount=amount, unit=unit)
    if has("whole", line) and has("lighter", line):
        return Offer(piece.start, piece.end, "total", "lighter")
    return None


def _fewer_than_said(piece: Piece, amount: Amount) -> bool:
    """ "Two sets of the jumps and not three"."""
    before = [a.low for a in old(piece) if a.unit is None and a != amount]
    return any(low and amount.low and amount.low < low for low in before)


def leads(piece: Piece) -> bool:
    """Whether rounds are spoken of before any movement is."""
    match = find("rounds", piece.line)
    return match is not None and "@" not in piece.line[: match.start()]


def _shares(piece: Piece, half: re.Match[str]) -> bool:
    """Whether "of everything" is a count or a share of it, not a time."""
    number = re.search(r"#(\d+)", half[0])
    return number is None or piece.amounts[int(number[1])].unit is None


def new(piece: Piece) -> Amount | None:
    """The amount to do instead."""
    before = old(piece)
    for pattern in expressions("fewer_to"):
        for match in pattern.finditer(piece.line):
            amount = piece.amounts[int(match[1])]
            falls = len(amount.values) == 2 and amount.values[0] > amount.values[1]
            if falls and "cut" in match[0]:
                return replace(amount, low=amount.values[1], high=amount.values[1])
            kit = re.match(_TOOLS, piece.line[match.end() :])
            if amount not in before and amount.low is not None and kit is None:
                return amount
    return None


def less(meant: Meant, piece: Piece, about: str | None) -> Offer | None:
    """Fewer or shorter: of one movement, or of each round."""
    amount = new(piece)
    if amount is None:
        return None
    bare = replace(amount, unit=None)
    if amount.unit == "s" and (offer := _loaded_less(meant, piece, about, bare)):
        return offer
    if amount.unit in ("kg", "lb") or any(a.unit in ("kg", "lb") for a in old(piece)):
        return _loaded_less(meant, piece, about, amount)
    timed = amount.unit == "s" or any(a.unit == "s" for a in old(piece))
    if amount.unit is None and (offer := _loaded_less(meant, piece, about, amount)):
        return offer
    if timed and _is_period(meant, piece, about):
        time = replace(amount, unit="s")
        return Offer(piece.start, piece.end, "round", "shorter", amount=time, unit="s")
    name = about or meant.by_amount(piece)
    if name is None and not (any(a.unit is None for a in old(piece)) and amount.unit is None):
        name = meant.about(piece)
    if about is None and (name is None or not _is_less(meant, piece, name, amount)):
        name = _by_unit(meant, amount) or (meant.topic(piece) if _falls(piece, amount) else None)
    if name is None or not _is_less(meant, piece, name, amount):
        return None
    measured = not _is_count(piece, amount) and (
        timed or amount.unit in ("m", "kcal") or _is_measured(meant, name)
    )
    unit = amount.unit or ("s" if timed else "m" if measured else "reps")
    kind = "shorter" if measured else "fewer"
    return Offer(piece.start, piece.end, name, kind, amount=amount, unit=unit)  # type: ignore[arg-type]


def _loaded_less(meant: Meant, piece: Piece, about: str | None, amount: Amount) -> Offer | None:
    """A smaller load of a movement that has one; a bare number has to replace a load."""
    loads = [
        (e.movement, load)
        for e in meant.efforts
        for load in e.load
        if amount.unit in (None, load.unit) and load.low is not None
        if amount.low is not None and amount.low < load.low
    ]
    if amount.unit is None:
        before = {a.low for a in old(piece) if a.unit in (None, "kg", "lb")}
        loads = [(name, load) for name, load in loads if before & {load.low, load.high}]
    known = list(dict.fromkeys(name for name, _ in loads))
    if about is not None and about not in known:
        return None
    name = about or (meant.topic(piece) if meant.topic(piece) in known else None)
    if name is None and len(known) == 1:
        name = known[0]
    if name is None:
        return None
    units: list[str] = [load.unit for movement, load in loads if movement == name]
    return Offer(piece.start, piece.end, name, "lighter", amount=amount, unit=units[0])


def _is_count(piece: Piece, amount: Amount) -> bool:
    """Whether a bare number stands before a movement: "three shuttles"."""
    if amount.unit is not None or amount not in piece.amounts:
        return False
    place = piece.amounts.index(amount)
    return re.search(rf"#{place} (?:of (?:the |your )?)?@", piece.line) is not None


def _is_period(meant: Meant, piece: Piece, about: str | None) -> bool:
    """Whether a time is that of every work period."""
    if has("period", piece.line):
        return True
    bare = about is None or re.search(r"@\d+ (?:for )?#", piece.line) is not None
    return bare and any(amount.low in meant.periods for amount in old(piece))


def _by_unit(meant: Meant, amount: Amount) -> str | None:
    """The one movement of which more than ``amount`` is done, in its unit."""
    known = {
        e.movement
        for e in meant.efforts
        if amount.unit is not None
        and amount.low is not None
        and e.unit == amount.unit
        and e.movement in meant.names.work
        and (e.high or 0) > amount.low
    }
    return known.pop() if len(known) == 1 else None


def _is_measured(meant: Meant, name: str) -> bool:
    return any(e.unit in ("m", "s") for e in meant.efforts if e.movement == name)


def _falls(piece: Piece, amount: Amount) -> bool:
    """Whether more than an amount is called too much: "if the 750 is too much, 500"."""
    return any(before.low and before.low > (amount.low or 0) for before in old(piece))


def _is_less(meant: Meant, piece: Piece, name: str, amount: Amount) -> bool:
    """Whether an amount is below the one that is too much, or that a movement has."""
    if _falls(piece, amount):
        return True
    said = [e.high for e in meant.efforts if e.movement == name and e.high is not None]
    return not said or any(amount.low is not None and amount.low < high for high in said)


def otherwise(
    meant: Meant, piece: Piece, about: str | None, name: str, *, scaling: bool
) -> Offer | None:
    """Lighter, harder or easier without another movement or amount.

    ``about`` is the movement that the piece names, ``name`` the one it means.
    """
    line = piece.line
    if name not in meant.names.known and not has("trouble", line):
        return None
    if has("harder", line):
        return Offer(piece.start, piece.end, name, "harder")
    if has("sized", line) and not loaded(name) and asked(piece):
        return Offer(piece.start, piece.end, name, "easier")
    if about and scaling and has("shorter", line):
        return Offer(piece.start, piece.end, name, "shorter")
    if has("lighter", line) and not _only_heavy(line):
        return _lighter(meant, piece, about, name)
    if dares(piece) and (asked(piece) or offered(piece)):
        return Offer(piece.start, piece.end, name, "harder")
    if has("easier", line) or (answered(piece, "does") and plainly(piece)):
        return Offer(piece.start, piece.end, name, "easier")
    if about and scaling and (has("softer", line) or (has("allows", line) and has("acts", line))):
        return Offer(piece.start, piece.end, about, "easier")
    return None


def _only_heavy(line: str) -> bool:
    """ "If they feel heavy, half ones are easier": nothing lighter is offered."""
    said = find("lighter", line)
    return has("easier", line) and said is not None and "heavy" in said[0]


def _lighter(meant: Meant, piece: Piece, about: str | None, name: str) -> Offer | None:
    weights = [a for a in piece.amounts if a.unit in ("kg", "lb") and a not in old(piece)]
    amount = weights[-1] if weights else new(piece)
    said = find("lighter", piece.line)
    if said is not None and "heavy" in said[0] and not _goes_on(piece):
        return None
    if (match := find("height", piece.line)) and piece.amounts[int(match[1])].unit == "m":
        return Offer(piece.start, piece.end, name, "easier")
    if about is None and not loaded(name):
        ahead = [n.name for n in meant.talk.within(piece.end, piece.end + _AHEAD)]
        parts = [n for n in meant.names.work if set(n.split("-")) & set(piece.line.split())]
        known = [n for n in (*ahead, *parts) if n in meant.names.work and loaded(n)]
        if not known:
            return None
        name = known[0]
    unit = (amount.unit or "kg") if amount else None
    return Offer(piece.start, piece.end, name, "lighter", amount=amount, unit=unit)


def _goes_on(piece: Piece) -> bool:
    """Whether more is said than that something is too heavy."""
    _, _, rest = piece.line.partition("heavy")
    return any(word.isalpha() or word.startswith("#") for word in rest.split()) or answered(piece)


def on_the_spot(meant: Meant, piece: Piece) -> Offer | None:
    """A second, lighter load in the prescription itself: "with a 24, or a 16 if"."""
    match = find("on_the_spot", piece.line)
    before = [n.name for n in piece.named if n.name in meant.names.session]
    if match is None or not before:
        return None
    amount = piece.amounts[int(match[1])]
    if amount.unit in ("kg", "lb") or (amount.unit is None and loaded(before[-1])):
        unit = amount.unit or "kg"
        return Offer(piece.start, piece.end, before[-1], "lighter", amount=amount, unit=unit)
    return None

"""Offers that the plan's own amounts tell: a number below the one that the session asks for."""

from itertools import pairwise

from cuewright.parse.meant import Meant
from cuewright.parse.offering import Kind, Offer, has, table
from cuewright.parse.topics import Piece
from cuewright_models.plan import Effort
from cuewright_models.tokens import Amount

_WEIGHTS = ("kg", "lb")
_LEAST = 0.25
"""The share of an amount that is done at least where only the smaller one is said."""
_SHORT = 4
"""Letters of a plural that names things, at least one more."""
_MEASURED = ("m", "s")


def compared(meant: Meant, piece: Piece, about: str | None) -> Offer | None:
    """Less of a movement than is asked for: of ``about``, else of the one whose amount is named."""
    figures = [a for a in piece.amounts if a.low is not None and a.shape in ("one", "range")]
    if has("lighter", piece.line):
        figures = [a for a in figures if a.unit in _WEIGHTS or _as_weight(piece, a)]
    if has("marks", piece.line):
        return None
    if not figures:
        return None
    name = about or _named_by(meant, figures)
    if name is None:
        return _fewer_rounds(meant, piece, figures) or _shorter_period(meant, piece, figures)
    efforts = [effort for effort in meant.efforts if effort.movement == name]
    for figure in reversed(figures):
        offer = _lighter(piece, name, efforts, figure)
        if offer or has("lighter", piece.line):
            return offer
        if offer := _less(piece, name, efforts, figure):
            return offer
    return None


def of_rounds(meant: Meant, piece: Piece, about: str | None) -> Offer | None:
    """Fewer of what the session calls its rounds: "3 streets rather than 5"."""
    figures = [a for a in piece.amounts if a.low is not None and a.shape in ("one", "range")]
    named = about is not None or not _of_things(piece, figures)
    return None if named else _fewer_rounds(meant, piece, figures)


def lighter_load(meant: Meant, piece: Piece, about: str | None) -> Offer | None:
    """A load below that of a movement: "a 12 will do for the swings"."""
    if has("marks", piece.line):
        return None
    name = about if about in meant.names.session else meant.by_load(piece)
    efforts = [effort for effort in meant.efforts if effort.movement == name]
    figures = [a for a in piece.amounts if a.low is not None and a.shape in ("one", "range")]
    found = (_lighter(piece, str(name), efforts, figure) for figure in reversed(figures))
    return next((offer for offer in found if offer), None)


def _shorter_period(meant: Meant, piece: Piece, figures: list[Amount]) -> Offer | None:
    """ "Work for thirty", "thirty on and thirty off": of a work period that is longer."""
    for figure in figures:
        worked = figure.unit == "s" or (figure.unit is None and has("worked", piece.line))
        if worked and any(figure.low and p and figure.low < p for p in meant.periods):
            return Offer(piece.start, piece.end, "round", "shorter", None, figure, "s")
    return None


def _named_by(meant: Meant, figures: list[Amount]) -> str | None:
    """The one movement that asks for a figure of a piece, where a smaller one follows."""
    found = {
        effort.movement
        for at, figure in enumerate(figures)
        for effort in meant.efforts
        if _asks_for(effort, figure)
        and any(later.low < figure.low for later in figures[at + 1 :] if later.low and figure.low)
    }
    topic = meant.at()
    if topic in found:
        return topic
    return found.pop() if len(found) == 1 else None


def _asks_for(effort: Effort, figure: Amount) -> bool:
    same = figure.unit in (None, effort.unit) and figure.low in (effort.low, effort.high)
    return (same and effort.movement != "") or any(
        figure.low in (load.low, load.high) and figure.unit in (None, load.unit)
        for load in effort.load
    )


def _fewer_rounds(meant: Meant, piece: Piece, figures: list[Amount]) -> Offer | None:
    """ "If ten sounds like too many, get off after six", "3 streets rather than 5": rounds."""
    bare = [figure for figure in figures if figure.unit is None]
    for one, other in pairwise(bare):
        low, high = sorted((one.low or 0, other.low or 0))
        if low < high and high in meant.rounds:
            new = one if one.low == low else other
            about = meant.rounds[high]
            unit = "rounds" if about == "total" else "reps"
            return Offer(piece.start, piece.end, about, "fewer", None, new, unit)
    return None


def _of_things(piece: Piece, figures: list[Amount]) -> bool:
    """Whether a figure counts what is no movement: "ten departures"."""
    marks = {f"#{piece.amounts.index(figure)}" for figure in figures}
    words = piece.line.split()
    after = [words[at + 1] for at, word in enumerate(words[:-1]) if word in marks]
    return any(word.endswith("s") and len(word) > _SHORT for word in after)


def _lighter(piece: Piece, name: str, efforts: list[Effort], figure: Amount) -> Offer | None:
    """A figure below a load: with its unit, or said as a weight is ("a 12", "the tens")."""
    loads = [load for effort in efforts for load in effort.load]
    if figure.unit not in (None, *_WEIGHTS) or not (figure.unit or _as_weight(piece, figure)):
        return None
    for load in loads:
        if figure.unit in (None, load.unit) and (figure.low or 0) < (load.high or load.low or 0):
            return Offer(piece.start, piece.end, name, "lighter", None, figure, load.unit)
    return None


def _as_weight(piece: Piece, figure: Amount) -> bool:
    mark = f"#{piece.amounts.index(figure)}"
    words = piece.line.split()
    if mark not in words:
        return False
    at = words.index(mark)
    before, after = words[at - 1] if at else "", " ".join(words[at + 1 : at + 2])
    if words[max(at - 2, 0) : at] == ["pair", "of"]:
        return True
    held = before in table()["articles"] and not after.startswith("@")
    return held or after in table()["bells"]


def _less(piece: Piece, name: str, efforts: list[Effort], figure: Amount) -> Offer | None:
    """A figure below the amount of a movement, in its unit or in none."""
    if has("tools", piece.line):
        return None
    for effort in efforts:
        if effort.high is None or figure.unit not in (None, effort.unit):
            continue
        said = any(_equal(other, effort) for other in piece.amounts)
        share = (figure.low or 0) / effort.high if effort.high else 1
        enough = said or (figure.unit is not None and share >= _LEAST)
        if enough and share < 1 and not any(_equal(figure, e) for e in efforts):
            kind: Kind = "shorter" if effort.unit in _MEASURED else "fewer"
            return Offer(piece.start, piece.end, name, kind, None, figure, effort.unit)
    return None


def _equal(figure: Amount, effort: Effort) -> bool:
    return figure.low in (effort.low, effort.high)

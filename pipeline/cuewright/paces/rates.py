"""What is known of a movement's pace: the shipped row, or the one in a coach's own file."""

from bisect import bisect
from dataclasses import dataclass
from math import exp, log

from cuewright.movements.catalogue import catalogue, derived
from cuewright.paces.figures import PaceRow, Unbroken, figures
from cuewright_models.movement import Movement, Pace

UNITS = {"reps": "rep", "m": "100 m", "kcal": "kcal"}


@dataclass(frozen=True, slots=True)
class Rate:
    """How an amount turns into seconds: ``pace`` for each ``per`` of the unit said.

    ``row`` is the movement's, ``unit`` the one that the pace is for.
    """

    row: PaceRow
    unit: str
    pace: Pace
    per: float

    @property
    def limit(self) -> float:
        """Seconds for each that nobody beats."""
        if self.unit == "reps" and self.row.limit:
            return self.row.limit
        return self.pace.fast * figures().number["limit"]


@derived
def pace_row(name: str) -> PaceRow | None:
    """The movement's row of paces, if it has one."""
    movement = catalogue().get(name)
    if movement and movement.pace:
        return _own(movement, movement.pace)
    return figures().movement.get(name) if movement else None


def _own(movement: Movement, pace: Pace) -> PaceRow:
    unit = "m" if movement.counted_in[0] in ("m", "kcal") else "reps"
    fields = {unit: pace, "unbroken": _for_each(movement.unbroken)}
    return PaceRow.model_validate({"name": movement.name, "source": "yours", **fields})


def _for_each(regular: int | None) -> Unbroken | None:
    if regular is None:
        return None
    number = figures().number
    return Unbroken(
        newcomer=max(regular * number["newcomer-unbroken"], 1),
        regular=regular,
        advanced=regular * number["advanced-unbroken"],
    )


@derived
def rate(name: str, unit: str) -> Rate | None:
    """The pace for amounts in ``unit``, or ``None`` when it is not known."""
    row = pace_row(name)
    if row is None:
        return _held(name) if unit == "reps" else None
    pace = getattr(row, unit) if unit in UNITS else None
    if pace:
        return Rate(row, unit, pace, 100 if unit == "m" else 1)
    if row.stride_m and unit == "m" and row.reps:
        return Rate(row, "reps", row.reps, row.stride_m)
    if row.stride_m and unit == "reps" and row.m:
        return Rate(row, "m", row.m, 100 / row.stride_m)
    return None


def typical(name: str, unit: str) -> float | None:
    """Seconds for one of ``unit``, fresh and without breaks; ``None`` when it is not known."""
    if unit == "s":
        return 1.0
    known = rate(name, unit)
    return known.pace.typical / known.per if known else None


def _held(name: str) -> Rate | None:
    """Holds that are counted, not timed."""
    movement = catalogue().get(name)
    if movement is None or movement.counted_in != ("s",):
        return None
    hold = figures().seconds["hold"]
    pace = Pace(fast=hold.low, typical=hold.likely, slow=hold.high)
    return Rate(PaceRow(name=name, source="pace.toml, seconds.hold"), "hold", pace, 1)


def record_s(row: PaceRow, metres: float) -> float:
    """Seconds over the distance that nobody beats; 0 when no record is known."""
    if row.records is None or metres <= 0:
        return 0.0
    points = figures().records[row.records].points
    at = min(max(bisect(points, (metres, 0.0)), 1), len(points) - 1)
    (near, least), (far, most) = points[at - 1 : at + 1]
    if metres < near:
        return least * metres / near
    steepness = log(most / least) / log(far / near)
    return least * exp(steepness * log(metres / near))


def facts(name: str) -> dict[str, str]:
    """What a page of the catalogue says of a movement's pace."""
    row = pace_row(name)
    if row is None:
        return {"pace": "not known"}
    paces = ((getattr(row, unit), per) for unit, per in UNITS.items())
    told = {"pace": "; ".join(_told(pace, per) for pace, per in paces if pace)}
    if row.unbroken:
        each = row.unbroken
        told["unbroken"] = (
            f"newcomer {each.newcomer:g}, regular {each.regular:g}, advanced {each.advanced:g}"
        )
    return told | {"pace from": row.source}


def _told(pace: Pace, per: str) -> str:
    return f"{pace.fast:g} to {pace.slow:g} s a {per}, mostly {pace.typical:g} s"

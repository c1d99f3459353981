"""Efforts that differ, are missing, or are there in the description alone."""

from collections.abc import Iterator, Sequence

from cuewright.comparison.align import Alignment, Pair
from cuewright.comparison.difference import Difference, Number
from cuewright.comparison.equal import same, same_load, sided
from cuewright.comparison.kin import one_thing
from cuewright.comparison.mentions import beside, says, says_number
from cuewright.comparison.stations import Station
from cuewright.render import words
from cuewright_models.base import Evidence
from cuewright_models.plan import Effort, Intervals, Load
from cuewright_models.tokens import Reading

_NEIGHBOURS = 4
"""Places that are tried for what is missing."""
_BESIDE = 1
"""Tokens between a movement and its amount where they are written as one."""


def work(found: Alignment, talk: Reading, other: Reading) -> Iterator[Difference]:
    """The differences of efforts, in the order of the talk and then of the description."""
    for pair in found.pairs:
        yield from _pair(pair, talk)
    alone = [station for station in found.extra if not says(talk, station)]
    otherwise = [_otherwise(station, talk) for station in alone]
    extra = [station for station, told in zip(alone, otherwise, strict=True) if not told]
    for station in found.missing:
        if _prescribed(station) and not _written(station, found, other):
            yield _missing(station, found.pairs, extra)
    yield from (told or _extra(station) for station, told in zip(alone, otherwise, strict=True))


def _pair(pair: Pair, talk: Reading) -> Iterator[Difference]:
    one, two = pair.talk.effort, pair.other.effort
    numbers: list[Number] = []
    if not _as_much(pair):
        numbers += _numbers(one, two)
    loads = _other_loads(one, two, talk)
    if numbers or loads or not one_thing(one, two) or not _as_much(pair):
        yield _differs(one, two, (*numbers, *loads), heard=one.said, pair=pair)


def _differs(
    told: Effort,
    written: Effort,
    numbers: Sequence[Number],
    heard: Evidence = (),
    pair: Pair | None = None,
) -> Difference:
    """The description has one effort where the talk has another; ``heard`` is where it says so."""
    return Difference(
        rule="description-differs",
        about=told.movement,
        message=f"The description has {words.effort(written)}; in the talk it is "
        f"{words.effort(told)}.",
        expected=words.effort(told),
        found=words.effort(written),
        suggestion=f"Write {words.effort(told)}.",
        heard=heard,
        written=written.said,
        numbers=tuple(numbers),
        pair=pair,
    )


def _as_much(pair: Pair) -> bool:
    """Whether both ask for as much, or one of them leaves it to something else."""
    one, two = pair.talk, pair.other
    if one.rungs or two.rungs or _open(one.effort) or _timed(one, two):
        return True
    return sided(one.effort, two.effort)


def _open(effort: Effort) -> bool:
    return effort.low is None and effort.high is None and not effort.max


def _timed(one: Station, two: Station) -> bool:
    """Whether the clock sets the amount on both sides; then it is a matter of structure."""
    return isinstance(one.block.structure, Intervals) and isinstance(two.block.structure, Intervals)


def _numbers(one: Effort, two: Effort) -> list[Number]:
    ends = {(two.low, one.low), (two.high, one.high)}
    return [
        Number(old, new, two.unit)
        for old, new in sorted(ends, key=str)
        if old is not None and new is not None and one.unit == two.unit
    ]


def _other_loads(one: Effort, two: Effort, talk: Reading) -> list[Number]:
    """The loads of the description that the talk gives otherwise."""
    kinds = {_kind(load) for load in one.load} & {_kind(load) for load in two.load}
    heard = [load for load in one.load if _kind(load) in kinds]
    written = [load for load in two.load if _kind(load) in kinds]
    wrong = [load for load in written if not any(same_load(load, known) for known in heard)]
    left = [load for load in heard if not any(same_load(load, known) for known in written)]
    if len(written) > len(heard):  # it gives more than was said: only one side is known
        wrong = wrong if len(wrong) == len(written) else []
    return [
        Number(a, b, new.unit)
        for old, new in zip(wrong, left, strict=False)
        if old.unit == new.unit
        for a, b in dict.fromkeys(((old.low, new.low), (old.high, new.high)))
        if not says_number(talk, a) and not same(a, b, old.unit)
    ]


def _kind(load: Load) -> str:
    return "weight" if load.unit in ("kg", "lb") else load.unit


def _prescribed(station: Station) -> bool:
    """Whether the talk asks for it so that a description could miss it."""
    effort = station.effort
    return effort.known and (not _open(effort) or bool(station.rungs))


def _written(station: Station, found: Alignment, other: Reading) -> bool:
    """Whether the description has it in words that became no effort."""
    if not says(other, station, reach=_BESIDE):
        return False
    lines = [pair.other.effort for pair in found.pairs]
    return not any(effort.movement == station.effort.movement for effort in lines)


def _missing(station: Station, pairs: Sequence[Pair], extra: Sequence[Station]) -> Difference:
    effort = station.effort
    return Difference(
        rule="description-missing",
        about=effort.movement,
        message=f"The description leaves out {words.effort(effort)}.",
        expected=words.effort(effort),
        found="nothing of it",
        suggestion=f"Add {words.effort(effort)}.",
        heard=effort.said,
        written=(),
        station=station,
        near=_near(station, pairs),
        instead=_instead(station, pairs, extra),
        apart=all(pair.talk.nth != station.nth for pair in pairs),
    )


def _near(station: Station, pairs: Sequence[Pair]) -> tuple[tuple[Station, bool], ...]:
    """What is written around the place of a station, the likeliest first.

    First what is done as often as it, then the work before it; ``True`` where the station
    belongs in front.
    """
    inside = [pair for pair in pairs if pair.talk.nth == station.nth] or list(pairs)
    found = sorted(
        inside,
        key=lambda pair: (
            (pair.talk.low, pair.talk.rungs) != (station.low, station.rungs),
            abs(pair.talk.at - station.at),
            pair.talk.at > station.at,
        ),
    )
    return tuple((pair.other, pair.talk.at > station.at) for pair in found[:_NEIGHBOURS])


def _instead(station: Station, pairs: Sequence[Pair], extras: Sequence[Station]) -> Station | None:
    """What stands in the description where the station should, and is not in the talk."""
    after = max((p for p in pairs if p.talk.at < station.at), default=None, key=_heard_at)
    before = min((p for p in pairs if p.talk.at > station.at), default=None, key=_heard_at)
    for extra in extras:
        if extra.low == station.low and (
            (after is not None and extra.at == after.other.at + 1)
            or (before is not None and extra.at == before.other.at - 1)
        ):
            return extra
    return None


def _heard_at(pair: Pair) -> int:
    return pair.talk.at


def _otherwise(station: Station, talk: Reading) -> Difference | None:
    """Another amount that the talk says right beside the movement, though in no block."""
    effort = station.effort
    amount = beside(talk, effort)
    if amount is None or amount.low is None or effort.low is None or station.rungs:
        return None
    new = effort.model_copy(update={"low": amount.low, "high": amount.high})
    return _differs(new, effort, _numbers(new, effort))


def _extra(station: Station) -> Difference:
    effort = station.effort
    return Difference(
        rule="description-extra",
        about=effort.movement,
        message=f"The description has {words.effort(effort)}, which the talk does not.",
        expected="nothing of it",
        found=words.effort(effort),
        suggestion=f"Take out {words.effort(effort)}.",
        written=effort.said,
        station=station,
    )

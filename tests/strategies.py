"""Random values of the contract, for properties that must hold for any of them."""

import string
from functools import cache

from hypothesis import strategies as st

from cuewright.movements.catalogue import catalogue
from cuewright_models.base import Range, Said
from cuewright_models.plan import (
    Advice,
    Amrap,
    Block,
    Claim,
    Cue,
    Date,
    Effort,
    Every,
    ForTime,
    Intervals,
    Item,
    Ladder,
    Load,
    Option,
    Plan,
    Quality,
    Repeat,
    Rest,
    Sets,
    Slot,
    Source,
    StatedTime,
    Target,
)

BLOCK_KINDS = ["warm-up", "mobility", "skill", "strength", "conditioning", "accessory", "cool-down"]
UNITS = ["reps", "m", "s", "kcal", "none"]
WEEKDAYS = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]
CLAIMS = [
    "total-time",
    "total-reps",
    "total-distance",
    "rounds",
    "equipment",
    "in-description",
    "restated",
]
OPTIONS = ["fewer", "shorter", "lighter", "easier", "harder", "substitute"]

words = st.text(string.ascii_lowercase + " '", min_size=1, max_size=12)


@cache
def movements() -> st.SearchStrategy[str]:
    """A canonical name, now and then one that the catalogue does not have."""
    return st.sampled_from([*sorted(catalogue()), "grommet-flip"])


@cache
def numbers(*, wild: bool = False) -> st.SearchStrategy[float]:
    """What a coach may say as an amount; ``wild`` adds what no coach would."""
    usual = st.integers(0, 2000).map(float) | st.floats(0, 5000)
    return usual | st.floats() if wild else usual


@cache
def said() -> st.SearchStrategy[tuple[Said, ...]]:
    """Evidence of one or two places, with and without times."""
    starts = st.none() | st.floats(0, 3600)
    one = st.builds(
        lambda start, quote: Said(
            start_s=start, end_s=None if start is None else start + 2, quote=quote
        ),
        starts,
        words,
    )
    return st.lists(one, min_size=1, max_size=2).map(tuple)


@st.composite
def ranges(draw: st.DrawFn, *, wild: bool = False) -> dict[str, float | None]:
    """``low`` and ``high``, either of them open; in order unless ``wild``."""
    low = draw(st.none() | numbers(wild=wild))
    high = draw(st.none() | st.just(low) | numbers(wild=wild))
    if not wild and low is not None and high is not None:
        low, high = sorted((low, high))
    return {"low": low, "high": high}


@st.composite
def loads(draw: st.DrawFn) -> Load:
    """A load for anyone, for women or for men."""
    low, high = sorted((draw(st.integers(1, 200)), draw(st.integers(1, 200))))
    unit = draw(st.sampled_from(["kg", "lb", "%1rm", "rpe"]))
    return Load(low=low, high=high, unit=unit, who=draw(st.sampled_from([None, "women", "men"])))


@st.composite
def efforts(draw: st.DrawFn, *, wild: bool = False) -> Effort:
    """Any movement with any amount, said or not."""
    movement = draw(movements())
    return Effort(
        movement=movement,
        as_said=movement.replace("-", " "),
        unit=draw(st.sampled_from(UNITS)),
        **draw(ranges(wild=wild)),
        max=draw(st.booleans()),
        per_side=draw(st.booleans()),
        load=draw(st.lists(loads(), max_size=2).map(tuple)),
        alternatives=draw(st.lists(movements(), max_size=1).map(tuple)),
        known=movement in catalogue(),
        said=draw(said()),
    )


@st.composite
def rests(draw: st.DrawFn, *, wild: bool = False) -> Rest:
    """Standing rest."""
    low, high = sorted((draw(numbers(wild=wild)), draw(numbers(wild=wild))))
    return Rest(low=low, high=high, said=draw(said()))


@cache
def items(*, wild: bool = False, depth: int = 2) -> st.SearchStrategy[tuple[Item, ...]]:
    """A list of items, nested up to ``depth`` deep, possibly empty."""
    plain = efforts(wild=wild) | rests(wild=wild)
    if depth == 0:
        return st.lists(plain, max_size=3).map(tuple)
    inner = items(wild=wild, depth=depth - 1)
    most = 10**400 if wild else 20
    rest_s = st.none() | numbers(wild=wild)
    repeat = st.builds(
        Repeat,
        times=ranges(wild=wild).map(lambda r: Range(**r)) | st.just(Range(low=3, high=3)),
        items=inner,
        rest_s=rest_s,
        said=said(),
    )
    rungs = st.lists(st.integers(-most if wild else 1, most), max_size=4).map(tuple)
    ladder = st.builds(Ladder, rungs=rungs, items=inner, said=said())
    slot = st.builds(Slot, index=st.integers(-1 if wild else 1, 6), items=inner, said=said())
    return st.lists(plain | repeat | ladder | slot, max_size=4).map(tuple)


@cache
def structures(*, wild: bool = False) -> st.SearchStrategy[object]:
    """Any structure, its clock said or not."""
    clock = st.none() | numbers(wild=wild)
    times = st.none() | st.integers(-(10**400) if wild else 0, 10**400 if wild else 30)
    return st.one_of(
        st.builds(ForTime, cap_s=clock),
        st.builds(Amrap, duration_s=clock),
        st.builds(Every, every_s=clock, times=times, duration_s=clock),
        st.builds(Intervals, work_s=clock, rest_s=clock, times=times),
        st.builds(Sets, rest_s=clock),
        st.builds(Quality),
    )


@st.composite
def blocks(draw: st.DrawFn, *, wild: bool = False) -> tuple[Block, ...]:
    """The blocks of a session, none to three, numbered in order."""
    stated = ranges(wild=wild).map(lambda r: StatedTime(**r))
    return tuple(
        Block(
            id=f"b{number + 1}",
            kind=draw(st.sampled_from(BLOCK_KINDS)),
            name=draw(st.none() | words),
            structure=draw(structures(wild=wild)),
            items=draw(items(wild=wild)),
            stated_time=draw(st.lists(stated, max_size=2).map(tuple)),
            said=draw(said()),
        )
        for number in range(draw(st.integers(0, 3)))
    )


@st.composite
def about(draw: st.DrawFn, model: type, *, wild: bool, **fields: st.SearchStrategy) -> object:
    """A statement of ``model`` about a movement, a block, a round or the whole."""
    places = movements() | st.sampled_from(["total", "round", "b1", "b2"])
    drawn = {name: draw(strategy) for name, strategy in fields.items()}
    ends = draw(ranges(wild=wild)) if issubclass(model, Range) else {}
    return model(about=draw(places), said=draw(said()), **ends, **drawn)


dates = st.builds(
    Date,
    year=st.none() | st.integers(2020, 2030),
    month=st.none() | st.integers(1, 12),
    day=st.none() | st.integers(1, 28),
    weekday=st.none() | st.sampled_from(WEEKDAYS),
    said=said(),
)


@st.composite
def plans(draw: st.DrawFn, *, wild: bool = False) -> Plan:
    """A whole plan over the contract, without estimate and findings.

    ``wild`` also draws what the models allow and no coach says: less than nothing,
    ends out of order, infinities, and numbers too large for a float.
    """

    def some(strategy: st.SearchStrategy) -> tuple:
        return draw(st.lists(strategy, max_size=3).map(tuple))

    units = st.sampled_from(["s", "s", "sets", "rounds", "rpe", "%"])
    return Plan(
        source=Source(name="talk.vtt", kind="captions", sha256="0" * 64),
        title=draw(st.none() | words),
        date=draw(st.none() | dates),
        blocks=draw(blocks(wild=wild)),
        targets=some(about(Target, wild=wild, unit=units)),
        options=some(
            about(
                Option,
                wild=wild,
                kind=st.sampled_from(OPTIONS),
                to=st.none() | movements(),
                unit=st.none() | st.sampled_from(UNITS),
            )
        ),
        cues=some(about(Cue, wild=wild, text=words)),
        advice=some(about(Advice, wild=wild, text=words)),
        claims=some(
            about(
                Claim,
                wild=wild,
                kind=st.sampled_from(CLAIMS),
                unit=st.none() | st.just("s"),
                only=st.booleans(),
            )
        ),
        cautions=("Stop if something hurts.",),
    )

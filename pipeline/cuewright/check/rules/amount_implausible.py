"""A distance, load, count or duration is far outside what people do."""

from collections.abc import Iterator
from functools import cache
from typing import Literal

from cuewright.check.rule import Rule
from cuewright.check.sums import TOO_MANY, ladders
from cuewright.check.wording import amount, spoken
from cuewright.movements.catalogue import catalogue, derived
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.finding import Finding
from cuewright_models.movement import Movement
from cuewright_models.plan import Effort, Plan, efforts

POUND_KG = 0.45359237  # exact, NIST SP 811


class Limit(Value):
    """A row of limits.toml."""

    name: str
    unit: Literal["reps", "m", "s", "kcal", "kg", "%1rm", "rpe"]
    low: float | None = None
    high: float | None = None
    movements: tuple[str, ...] = ()
    patterns: tuple[str, ...] = ()
    flags: tuple[str, ...] = ()
    kit: tuple[str, ...] = ()
    why: str


@cache
def _limits() -> tuple[Limit, ...]:
    return tuple(
        validated(raw("cuewright.check", "limits.toml"), Limit, where="limits.toml").values()
    )


def find(plan: Plan) -> Iterator[Finding]:
    """One finding for each effort with a figure outside its limits."""
    for block in plan.blocks:
        for effort in efforts(block.items):
            yield from _outside(effort, _figures(effort))
        for ladder in ladders(block.items):
            for effort in efforts(ladder.items):
                if effort.low is None and ladder.rungs:
                    yield from _outside(effort, [(min(max(ladder.rungs), TOO_MANY), "reps")])


def _figures(effort: Effort) -> list[tuple[float, str]]:
    """Every figure of an effort with its unit, loads in kilograms."""
    figures: list[tuple[float, str]]
    figures = [(n, effort.unit) for n in {effort.low, effort.high} if n is not None]
    for load in effort.load:
        factor, unit = (POUND_KG, "kg") if load.unit == "lb" else (1, load.unit)
        figures += [(load.low * factor, unit), (load.high * factor, unit)]
    return figures


def _outside(effort: Effort, figures: list[tuple[float, str]]) -> Iterator[Finding]:
    for number, unit in sorted(figures, reverse=True):
        limits = _for(effort.movement, unit)
        if limits and not any(_inside(number, limit) for limit in limits):
            yield _finding(effort, number, unit, limits[0])
            return


@derived
def _for(movement: str, unit: str) -> list[Limit]:
    """The rows that hold for a movement: by name, else by what it is, else the general one."""
    row = catalogue().get(movement)
    if row is None:
        return []
    rows = [limit for limit in _limits() if limit.unit == unit]
    named = [limit for limit in rows if row.name in limit.movements]
    alike = [limit for limit in rows if _shares(row, limit)]
    general = [limit for limit in rows if not (limit.movements or _marks(limit))]
    return named or alike or general


def _shares(row: Movement, limit: Limit) -> bool:
    return bool(_marks(limit) & {*row.patterns, *row.flags, *row.kit})


def _marks(limit: Limit) -> set[str]:
    return {*limit.patterns, *limit.flags, *limit.kit}


def _inside(number: float, limit: Limit) -> bool:
    low = limit.low is None or number >= limit.low
    return low and (limit.high is None or number <= limit.high)


def _finding(effort: Effort, number: float, unit: str, limit: Limit) -> Finding:
    much = limit.high is not None and number > limit.high
    bound = limit.high if much else limit.low
    return RULE.finding(
        effort.movement,
        f"{amount(number, unit)} of {effort.as_said} is far {'more' if much else 'less'} than "
        "people are asked to do.",
        expected=f"{'at most' if much else 'at least'} {amount(bound or 0, unit)}",
        found=amount(number, unit),
        said=effort.said,
        suggestion="Check the number and its unit; a digit or a word may have been lost.",
        say=f"For {spoken(effort.movement)} it is … .",
    )


RULE = Rule(
    code="amount-implausible",
    severity="warning",
    question="Is every amount one that people are asked to do?",
    why="A slip of the tongue or a misheard number changes the session without a trace.",
    fires=(
        "Jog two minutes. Main piece, for time: 400 pull-ups, then 50 squats.",
        "Warm-up, jog three minutes. Main piece, for time: bear crawl for two kilometres, "
        "then ten burpees.",
        "march a minute then three rounds for time of ten dead lifts at nine hundred kilos "
        "and ten push ups",
    ),
    silent=(
        "Jog two minutes. Main piece, for time: 100 pull-ups, then 150 squats.",
        "Warm-up, jog three minutes. The main piece is an easy run, 12 kilometres along the river.",
        "skip two minutes to warm up then for time a thousand single skips",
    ),
    leaves_alone=(
        "Everything that is merely hard; movements that are in no table; sums over rounds; the "
        "lengths of blocks and rests."
    ),
    find=find,
)

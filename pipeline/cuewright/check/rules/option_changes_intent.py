"""An option that makes the station far longer or shorter than its target."""

from collections.abc import Iterator
from typing import NamedTuple

from cuewright.check.leeway import speaks_of
from cuewright.check.rule import Rule, union
from cuewright.check.sums import countable
from cuewright.check.wording import amount as shown
from cuewright.check.wording import duration, span
from cuewright.paces.rates import typical
from cuewright_models.base import Range
from cuewright_models.estimate import ItemEstimate, Seconds
from cuewright_models.finding import Finding
from cuewright_models.plan import Effort, Item, Option, Plan, Rest, Target

FAR = 2.0
"""So many times over or under the target is another station; common practice, no source."""
NEAR = 1.25
"""The work itself must be this near its target, or the option is not what is wrong."""
UNITS = ("reps", "m", "s", "kcal")


class Station(NamedTuple):
    """A movement with its target, in seconds, and what the model says of it."""

    effort: Effort
    times: ItemEstimate
    target: Target


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for the session: the option that is furthest off."""
    off = []
    for option in plan.options:
        station = _station(plan, option)
        taken = _taken(option, station) if station else None
        if station and taken:
            off.append((_times_off(taken, station.target), option, station, taken))
    off = [each for each in off if each[0] > FAR]
    if off:
        _, option, station, taken = max(off, key=lambda each: each[0])
        yield _finding(option, station, taken)


def _station(plan: Plan, option: Option) -> Station | None:
    """The one station that the option is about, if it has one target, which fits its work."""
    targets = [each for each in plan.targets if each.about == option.about and each.unit == "s"]
    if len(targets) != 1:
        return None
    work = [pair for pair in _efforts(plan) if pair[0].movement == option.about]
    work = [(effort, times) for effort, times in work if not _echo(effort, targets[0])]
    if len({(effort.low, effort.high, effort.unit) for effort, _ in work}) != 1:
        return None
    effort, times = work[0]
    fits = _times_off(_band(times.newcomer, times.advanced), targets[0]) <= NEAR
    return Station(effort, times, targets[0]) if fits else None


def _echo(effort: Effort, target: Target) -> bool:
    """Whether the target was heard as work too: "the run in two minutes"."""
    return effort.unit == "s" and (effort.low, effort.high) == (target.low, target.high)


def _efforts(plan: Plan) -> Iterator[tuple[Effort, ItemEstimate]]:
    """Every effort of the session with its times, one go each."""
    timed = {block.id: block.items for block in plan.estimate.blocks} if plan.estimate else {}
    for block in plan.blocks:
        yield from _walk(block.items, timed.get(block.id, ()))


def _walk(
    items: tuple[Item, ...], times: tuple[ItemEstimate, ...]
) -> Iterator[tuple[Effort, ItemEstimate]]:
    for item, each in zip(items, times, strict=False):
        if isinstance(item, Effort):
            yield item, each
        elif not isinstance(item, Rest):
            yield from _walk(item.items, each.items)


def _taken(option: Option, station: Station) -> Range | None:
    """What the option takes, in seconds, from the quickest to the slowest it is meant for."""
    if option.kind == "lighter" or (option.low is None and not _as_much(option, station.effort)):
        return None
    unit = option.unit if option.low is not None else station.effort.unit
    asked = countable(option.high if option.low is not None else station.effort.high)
    if unit == "s" and asked:
        return Range(low=countable(option.low) or asked, high=asked)
    share = _share(option, station, unit, asked)
    if share is None:
        return None
    band = _band(station.times.newcomer, station.times.advanced)
    return Range(low=(band.low or 0) * share, high=(band.high or 0) * share)


def _as_much(option: Option, effort: Effort) -> bool:
    """Whether another movement takes over the amount: a distance, or "the same number"."""
    return option.to is not None and (effort.unit == "m" or speaks_of("same", option.said))


def _share(option: Option, station: Station, unit: str | None, asked: float | None) -> float | None:
    """How long the option takes beside the station's own work."""
    effort, to = station.effort, option.to or option.about
    said = countable(effort.high)
    if unit not in UNITS or not said or not asked:
        return None
    if to == option.about and unit == effort.unit:
        return asked / said
    one, other = typical(to, unit), typical(option.about, effort.unit)
    return one * asked / (other * said) if one and other else None


def _band(slow: Seconds, quick: Seconds) -> Range:
    return Range(low=quick.low_s, high=slow.high_s)


def _times_off(taken: Range, target: Target) -> float:
    """How many times too long or too short; 1 where the two meet."""
    low, high = taken.low or 0, taken.high or 0
    over = low / target.high if target.high else 1
    under = target.low / high if target.low and high else 1
    return max(over, under, 1)


def _finding(option: Option, station: Station, taken: Range) -> Finding:
    plain, to = (name.replace("-", " ") for name in (option.about, option.to or option.about))
    longer = (taken.low or 0) > (station.target.high or 0)
    target = Range(low=station.target.low, high=station.target.high)
    return RULE.finding(
        option.about,
        f"The way to scale the {plain} takes {span(taken, 's')}, from a quick athlete to a slow "
        f"one, and the station is to take {span(target, 's')}.",
        expected=f"about {span(target, 's')}",
        found=f"{_asked(option, station, to)}: {span(taken, 's')}",
        said=union(option.said, station.target.said, station.effort.said),
        suggestion=f"Scale it to {'less' if longer else 'more'}, so that the work stays the same.",
        say=_put_right(plain, to, duration(_middle(target))),
    )


def _put_right(plain: str, to: str, time: str) -> str:
    if to == plain:
        return f"Whatever you cut the {plain} to, stay at it for about {time}."
    return f"Instead of the {plain}, go for about {time} of {to}."


def _asked(option: Option, station: Station, to: str) -> str:
    number = option.high if option.low is not None else station.effort.high
    unit = option.unit if option.low is not None else station.effort.unit
    return f"{shown(number or 0, unit)} of {to}"


def _middle(target: Range) -> float:
    ends = [end for end in (target.low, target.high) if end is not None]
    return sum(ends) / len(ends)


RULE = Rule(
    code="option-changes-intent",
    severity="warning",
    question="Does every way to scale keep a station near its target?",
    why="A station of one minute that is scaled to four is another session for that athlete.",
    fires=(
        "Jog two minutes. Main piece, four rounds: run 400 metres, ten push-ups. The run should "
        "take about two minutes. If you can't run, bike for eight minutes instead.",
        "Jog two minutes. Main piece, four rounds: row 500 metres, ten push-ups. I want the row "
        "in about two minutes. If you're new, row 100 metres.",
    ),
    silent=(
        "Jog two minutes. Main piece, four rounds: run 400 metres, ten push-ups. The run should "
        "take about two minutes. If you can't run, bike for two minutes instead.",
        "Jog two minutes. Main piece, four rounds: row 500 metres, ten push-ups. I want the row "
        "in about two minutes. If you're new, row 350 metres.",
        "Jog three minutes. Main piece, three rounds for time: run 800 metres, twenty push-ups. "
        "If you're new tonight, cut the run to 100 metres.",
    ),
    leaves_alone=(
        "Stations without a target of their own, or with two; lighter loads and variants of "
        "unknown pace; anything within twice or half the target for some athlete; stations "
        "whose own work does not fit the target either."
    ),
    find=find,
)

"""A number of sets that the amount makes pointless or impossible."""

from collections.abc import Iterator
from math import inf

from cuewright.check.modelled import Station, stations
from cuewright.check.rule import Rule, union
from cuewright.check.wording import amount, span
from cuewright.paces.figures import Unbroken, figures
from cuewright.paces.rates import pace_row
from cuewright_models.finding import Finding
from cuewright_models.plan import Plan, Sets, Target

SINGLES = 2  # common practice, no source: nobody plans sets of fewer reps than this


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding for each movement whose amount does not go with its sets."""
    wanted = {target.about: target for target in plan.targets if target.unit == "sets"}
    each = list(stations(plan)) if wanted else []
    for about, target in wanted.items():
        mine = [s for s in each if s.done.effort.movement == about]
        row = pace_row(about)
        if row and row.unbroken and mine and all(map(_countable, mine)):
            if _impossible(target, mine, row.unbroken):
                best = amount(round(_best(row.unbroken)), "reps")
                why = f"the best tenth of the advanced have some {best} in them without a break"
                yield _finding(target, mine, why)
            elif _pointless(target, mine, row.unbroken):
                yield _finding(target, mine, "nine in ten newcomers need no break for so few")


def _countable(station: Station) -> bool:
    """Reps whose number is said, and not in sets of their own already."""
    in_sets = isinstance(station.block.structure, Sets)
    return station.known and station.done.effort.unit == "reps" and not in_sets


def _impossible(target: Target, mine: list[Station], fresh: Unbroken) -> bool:
    """More reps a set than the best tenth of the advanced have in them."""
    fewest = min(s.done.effort.low or 0.0 for s in mine)
    return bool(target.high) and fewest / (target.high or 1) > _best(fresh)


def _best(fresh: Unbroken) -> float:
    number = figures().number
    return fresh.advanced * number["unbroken-spread"] * number["failure"]


def _pointless(target: Target, mine: list[Station], fresh: Unbroken) -> bool:
    """Nine in ten newcomers need no break, in all rounds together or in sets of next to
    nothing; a load may change that."""
    if target.low is None or target.low <= 1 or any(s.done.effort.load for s in mine):
        return False
    at_once = fresh.newcomer / figures().number["unbroken-spread"]
    one_go = max(s.done.effort.high or inf for s in mine)
    return max(map(_all_rounds, mine)) <= at_once or (
        one_go <= at_once and one_go < SINGLES * target.low
    )


def _all_rounds(station: Station) -> float:
    total = station.done.total
    return inf if total is None or total.high is None else total.high


def _finding(target: Target, mine: list[Station], why: str) -> Finding:
    name, sets = target.about.replace("-", " "), span(target, "sets")
    reps = span(mine[0].done.amount or target, "reps")
    return RULE.finding(
        target.about,
        f"The {name} is to be done in {sets}, but {why}.",
        expected=sets,
        found=f"{reps} at a time",
        said=union(target.said, *(station.done.effort.said for station in mine)),
        suggestion="Name the sets that the amount calls for, or leave them out.",
        say=f"Do the {name} in … sets.",
    )


RULE = Rule(
    code="sets-vs-amount",
    severity="warning",
    question="Does the number of sets go with the amount?",
    why="Sets are advice on when to break; a number that cannot be kept, or need not be, is none.",
    fires=(
        "Warm-up, jog two minutes. For time: 80 pull-ups, then an 800 metre run. I want the "
        "pull-ups done in two sets.",
        "Warm-up, jog two minutes. Three rounds for time: 400 metre run, five push-ups. I "
        "want the push-ups done in three sets.",
    ),
    silent=(
        "Warm-up, jog two minutes. For time: 80 pull-ups, then an 800 metre run. I want the "
        "pull-ups done in eight sets.",
        "Warm-up, jog two minutes. Three rounds for time: 400 metre run, 30 kettlebell "
        "swings. I want the swings done in two sets.",
    ),
    leaves_alone=(
        "One set of what newcomers do at once; amounts in metres, seconds or sets of their own; "
        "ladders; loaded work as a reason for many sets; movements whose reps in one go are not "
        "known."
    ),
    find=find,
)

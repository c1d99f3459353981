"""The session made to fit a profile: the amounts that meet the targets or the total."""

from collections.abc import Iterator, Mapping
from functools import cache
from math import sqrt

from pydantic import Field

from cuewright.estimate.athletes import Given
from cuewright.estimate.crowd import middle
from cuewright.estimate.effort import unit_of
from cuewright.estimate.goals import Wanted, rounds_of, station_goals, total_goal
from cuewright.estimate.places import Place, at, replaced, within
from cuewright.estimate.session import through
from cuewright.estimate.whatif import BadQuestion
from cuewright.movements.catalogue import REDUCE, catalogue
from cuewright.paces.rates import rate
from cuewright.tables import raw, validated
from cuewright_models.base import Value
from cuewright_models.plan import Effort, Plan, Repeat
from cuewright_models.profile import PROFILES, Profile
from cuewright_models.scaled import Goal, Version

LEEWAY = 0.15
STATIONS = "station targets"
_TRIES = 8
_LEAST, _MOST = 0.02, 20.0
_FEW = 0.5  # of what was said: fewer than that, and the easier movement keeps the intent


class _Steps(Value):
    name: str
    steps: tuple[tuple[float, float], ...] = Field(min_length=1)


class _Skill(Value):
    name: str
    most: int


def wanted(plan: Plan, to: str) -> list[Wanted]:
    """What is asked for: the plan's station targets, or a number of minutes for all of it.

    Raises BadQuestion for no number, none above zero, and a talk without such targets.
    """
    if to.strip().casefold() == STATIONS:
        goals = station_goals(plan)
        if not goals:
            raise BadQuestion(
                "No station, round or block of this talk has a target in seconds; give "
                "--scale-to a number of minutes."
            )
        return goals
    try:
        minutes = float(to)
    except ValueError:
        minutes = 0.0
    if not 0 < minutes < 1440:
        raise BadQuestion(
            f'--scale-to {to:.40} is no length; give minutes above zero, or "{STATIONS}".'
        )
    return [total_goal(plan, 60 * minutes)]


def versions(plan: Plan, to: str, paces: Mapping[Given, float] | None = None) -> list[Version]:
    """The plan for each profile, made to fit; raises BadQuestion as ``wanted`` does.

    Movements beyond the profile's skill, or of which too few would be left, give way to the
    easier one that the coach offers or the catalogue names. Amounts are numbers that a coach
    would say, and no structure or clock changes.
    """
    goals = wanted(plan, to)
    return [_Fitting(plan, goals, profile, paces or {}).version() for profile in PROFILES]


class _Fitting:
    """One profile's version in the making; what stands where does not change."""

    def __init__(
        self, plan: Plan, goals: list[Wanted], profile: Profile, paces: Mapping[Given, float]
    ):
        self.said, self.plan, self.goals = plan, plan, goals
        self.profile, self.paces = profile, paces

    def version(self) -> Version:
        self._easier_for_skill()
        for goal in self.goals:
            self._fit(goal)
        goals = tuple(map(self._goal, self.goals))
        plan = self.plan.model_copy(update={"estimate": None, "findings": ()})
        changes = tuple(_changes(self.said, plan))
        return Version(profile=self.profile, plan=plan, goals=goals, changes=changes)

    def seconds(self, goal: Wanted, plan: Plan | None = None) -> float:
        """What the goal is about takes in the plan."""
        timings, total = through(plan or self.plan, middle(), self.paces)
        return goal.seconds(timings, total, self.profile)

    def _fit(self, goal: Wanted) -> None:
        if goal.is_met(self.seconds(goal), 0.0) or not goal.places:
            return
        before, factor = self.plan, self._factor(goal)
        if goal.about == "total":
            self._fit_rounds(goal, factor)
            factor = self._factor(goal)
        if factor < _FEW:
            self._make_all_easier(goal)
            factor = self._factor(goal)
        self.plan = self._rounded(self._by(goal, factor), goal.places)
        self._improve(goal)
        if abs(self.seconds(goal) - goal.aim_s) >= abs(self.seconds(goal, before) - goal.aim_s):
            self.plan = before

    def _factor(self, goal: Wanted) -> float:
        """By what all amounts of the goal would meet it, were any number sayable."""
        low, high = _LEAST, _MOST
        for _ in range(14):
            half = sqrt(low * high)
            if self.seconds(goal, self._by(goal, half)) < goal.aim_s:
                low = half
            else:
                high = half
        return sqrt(low * high)

    def _by(self, goal: Wanted, factor: float) -> Plan:
        plan = self.plan
        for place in goal.places:
            amount = _amount(at(plan, place)) * factor
            plan = replaced(plan, place, low=amount, high=amount)
        return plan

    def _rounded(self, plan: Plan, places: tuple[Place, ...]) -> Plan:
        for place in places:
            effort = at(plan, place)
            amount = _nearest(effort)
            plan = replaced(plan, place, low=amount, high=amount)
        return plan

    def _fit_rounds(self, goal: Wanted, factor: float) -> None:
        """Fewer or more rounds first, as a coach would cut a session."""
        for place in rounds_of(self.plan, goal.places):
            repeat = at(self.plan, place)
            assert isinstance(repeat, Repeat)
            said = repeat.times.high or repeat.times.low
            if said and not 0.7 < factor < 1.4:
                times = float(max(round(said * factor), 1))
                made = repeat.times.model_copy(update={"low": times, "high": times})
                self.plan = replaced(self.plan, place, times=made)

    def _improve(self, goal: Wanted) -> None:
        """A step up or down wherever it brings the goal nearer, while it does."""
        off = abs(self.seconds(goal) - goal.aim_s)
        for _ in range(_TRIES):
            tried = [
                (abs(self.seconds(goal, plan) - goal.aim_s), nth, plan)
                for nth, plan in enumerate(self._steps(goal))
            ]
            if not tried or min(tried)[0] >= off:
                return
            off, _nth, self.plan = min(tried, key=lambda one: one[:2])

    def _steps(self, goal: Wanted) -> Iterator[Plan]:
        for place in goal.places:
            effort = at(self.plan, place)
            ladder = _sayable(_unit(effort))
            now = ladder.index(_nearest(effort))
            for nth in (now - 1, now + 1):
                if 0 <= nth < len(ladder):
                    yield replaced(self.plan, place, low=ladder[nth], high=ladder[nth])

    def _easier_for_skill(self) -> None:
        for place, item in within(self.plan):
            if isinstance(item, Effort) and _skill(item.movement) > _most_skill(self.profile):
                self._make_easier(place)

    def _make_all_easier(self, goal: Wanted) -> None:
        for place in goal.places:
            self._make_easier(place)

    def _make_easier(self, place: Place) -> bool:
        """The easier movement in its place, if there is one that goes by the same unit."""
        effort = at(self.plan, place)
        assert isinstance(effort, Effort)
        offered = [
            option.to
            for option in self.plan.options
            if option.about == effort.movement and option.kind == "easier" and option.to
        ]
        row = catalogue().get(effort.movement)
        for name in (*offered, *(row.easier if row else ())):
            fits = name != REDUCE and (effort.unit == "s" or rate(name, effort.unit))
            if fits and _skill(name) <= _most_skill(self.profile):
                fields = {"movement": name, "as_said": name, "alternatives": (), "load": ()}
                self.plan = replaced(self.plan, place, **fields)
                return True
        return False

    def _goal(self, goal: Wanted) -> Goal:
        seconds = self.seconds(goal)
        why = None if goal.is_met(seconds, LEEWAY) else self._why(goal, seconds)
        return Goal(
            about=goal.about, low_s=goal.low_s, high_s=goal.high_s, likely_s=seconds, why=why
        )

    def _why(self, goal: Wanted, seconds: float) -> str:
        if not goal.places:
            return "nothing in it has an amount that could be changed"
        least = self.seconds(goal, self._by(goal, _LEAST))
        if least > goal.aim_s:
            return f"what cannot be changed takes {least:.0f} s of it already"
        return f"no number that a coach would say comes nearer than {seconds:.0f} s"


def _changes(said: Plan, made: Plan) -> Iterator[str]:
    for (place, was), (_, now) in zip(within(said), within(made), strict=True):
        where = said.blocks[place[0]].id
        if isinstance(was, Repeat) and isinstance(now, Repeat) and was.times != now.times:
            yield f"{where}: {now.times.high:g} rounds, not {_told(was.times.low, was.times.high)}"
        if isinstance(was, Effort) and isinstance(now, Effort) and was != now:
            unit = "" if now.unit in ("reps", "none") else f" {now.unit}"
            much = _told(now.low, now.high)
            before = _told(was.low, was.high)
            yield f"{where}: {much}{unit} {now.movement}, not {before}{unit} {was.movement}"


def _told(low: float | None, high: float | None) -> str:
    ends = [f"{end:g}" for end in (low, high) if end is not None]
    return "-".join(dict.fromkeys(ends)) or "some"


def _amount(item: object) -> float:
    assert isinstance(item, Effort)
    ends = [end for end in (item.low, item.high) if end is not None]
    return float(sum(ends) / len(ends))


def _unit(item: object) -> str:
    assert isinstance(item, Effort)
    return unit_of(item)


def _nearest(item: object) -> float:
    """The amount that a coach would say instead, nearest in proportion."""
    amount = max(_amount(item), 1e-9)
    sayable = _sayable(_unit(item))
    return min(sayable, key=lambda one: max(one / amount, amount / one))


@cache
def _sayable(unit: str) -> list[float]:
    rows = validated(raw("cuewright.estimate", "scale.toml")["steps"], _Steps, where="scale.toml")
    amounts: list[float] = []
    for most, step in rows[unit].steps:
        start = amounts[-1] if amounts else 0.0
        amounts += [n * step for n in range(int(start // step) + 1, int(most // step) + 1)]
    return amounts


@cache
def _most_skill(profile: Profile) -> int:
    table = raw("cuewright.estimate", "scale.toml")["skill"]
    return validated(table, _Skill, where="scale.toml")[profile].most


def _skill(name: str) -> int:
    row = catalogue().get(name)
    return row.skill if row else 1

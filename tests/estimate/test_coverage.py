"""The stated ranges against athletes of another make.

They go through a session rep by rep, one at a time: their ability is logistic and differs more
from movement to movement, tiredness goes exponentially, and every break and way is another.
Of the table they keep what it states: a tenth of athletes beyond either end of each row.
"""

import math
import random
from dataclasses import dataclass, field

import pytest
from sessions import block, metres, plan, repeat, reps

from cuewright.estimate import estimate
from cuewright.movements.catalogue import catalogue
from cuewright.paces.figures import figures
from cuewright_models.plan import Effort, Item, Plan, Repeat
from cuewright_models.profile import PROFILES, Profile

ATHLETES = 2000


@dataclass
class Person:
    """One athlete on the way through one session."""

    profile: Profile
    chance: random.Random
    clock: float = 0.0
    tired: dict[str, tuple[float, float]] = field(default_factory=dict)
    places: dict[str, float] = field(default_factory=dict)
    haste: dict[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.ability = math.sqrt(0.55) * self.logistic() + math.sqrt(0.1) * self.logistic()

    def logistic(self) -> float:
        """A tenth of them is beyond 1.2816 on either side, as of the normal distribution."""
        share = self.chance.random()
        return 1.2816 / math.log(9) * math.log(share / (1 - share))

    def place(self, movement: str) -> float:
        if movement not in self.places:
            self.places[movement] = self.ability + math.sqrt(0.35) * self.logistic()
        return self.places[movement]

    def between(self, name: str) -> float:
        """Seconds of a break or way: lognormal for the athlete, and again each time."""
        row = figures().seconds[name]
        spread = math.log(row.high / row.low) / 2 / 1.2816
        hurry = figures().profile[self.profile].hurry
        haste = self.haste.setdefault(name, self.chance.gauss(0, 1))
        return hurry * row.likely * math.exp(spread * haste + self.chance.gauss(0, 0.2))

    def each(self, movement: str) -> float:
        row, profile = figures().movement[movement], figures().profile[self.profile].pace
        pace = row.reps or row.m
        share = self.place(movement) / 1.2816
        end = profile.low if share < 0 else profile.high
        at = profile.likely + abs(share) * (end - profile.likely)
        return pace.typical * ((pace.slow if at > 0 else pace.fast) / pace.typical) ** abs(at)

    def sets(self, movement: str, count: int, slower: float) -> None:
        (pattern, *_), seconds = catalogue()[movement].patterns, self.each(movement)
        capacity = getattr(figures().movement[movement].unbroken, self.profile)
        capacity *= 1.4 ** (-self.place(movement) / 1.2816)
        gone, at = self.tired.get(pattern, (0.0, self.clock))
        gone *= 0.5 ** ((self.clock - at) / 60)
        for _ in range(count):
            if gone + 1 / capacity > 1.0001:
                self.clock += self.between("break")
                gone -= min(figures().number["regain"], gone)
            gone += 1 / capacity
            self.clock += seconds * slower
        self.tired[pattern] = (gone, self.clock)

    def goes(self, items: tuple[Item, ...], slower: float = 1.0) -> None:
        for item in items:
            if isinstance(item, Repeat):
                for nth in range(int(item.times.low)):
                    self.goes(item.items, 1.02**nth)
            elif isinstance(item, Effort):
                self.clock += self.between("place" if "run" in item.movement else "kit")
                self.does(item, slower)

    def does(self, item: Effort, slower: float) -> None:
        if item.unit == "reps":
            self.sets(item.movement, int(item.low), slower * figures().number["mixed"])
            return
        row = figures().movement[item.movement]
        longer = (max(item.low, 200) / row.reference_m) ** 0.06
        self.clock += item.low / 100 * self.each(item.movement) * longer * row.mixed * slower


SESSIONS = {
    "rounds": plan(
        block(
            "for-time",
            metres("run", 800),
            repeat(4, reps("burpee", 12), reps("kettlebell-swing", 15), reps("push-up", 15)),
            metres("run", 400),
        )
    ),
    "couplet": plan(block("for-time", repeat(5, metres("run", 400), reps("air-squat", 20)))),
    "row": plan(
        block("for-time", repeat(3, metres("row", 500), reps("wall-ball", 20), reps("sit-up", 20)))
    ),
}


def finish(of: Plan, profile: Profile, chance: random.Random) -> float:
    person = Person(profile, chance)
    person.goes(of.blocks[0].items)
    return person.clock


@pytest.mark.parametrize("name", SESSIONS)
@pytest.mark.parametrize("profile", PROFILES)
def test_four_of_five_finish_inside_the_range(name: str, profile: Profile) -> None:
    chance = random.Random(f"{name} {profile}")
    range_ = getattr(estimate(SESSIONS[name]).total, profile)
    times = [finish(SESSIONS[name], profile, chance) for _ in range(ATHLETES)]
    inside = sum(range_.low_s <= time <= range_.high_s for time in times)
    assert 0.75 <= inside / ATHLETES <= 0.85

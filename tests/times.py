"""Published times and rates beside those of the time model: ``pipeline/TIMES.md``.

    python tests/times.py [--write]

Without ``--write``, says whether the table is current; status 1 if not.
"""

import sys
from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
from sessions import block, held, metres, plan, repeat, reps, rest

from cuewright.estimate import estimate
from cuewright.estimate.crowd import crowd
from cuewright.estimate.session import DRAWS, SEED, through
from cuewright.files import write
from cuewright.paces.figures import figures
from cuewright_models.estimate import BlockSeconds
from cuewright_models.plan import Block, Effort, Item
from cuewright_models.profile import Profile

TABLE = Path(__file__).parents[1] / "pipeline/TIMES.md"
HEAD = """\
# Published values and ours

Written by `python tests/times.py --write`; `tests/references/test_times.py` holds it current and
every value inside its range. "Likely" is the median of 10,000 athletes of a profile, "fastest"
the quickest of all 30,000. Common practice, no source, is marked so.

| what | published | ours | source |
|---|---|---|---|
"""


@dataclass(frozen=True)
class Check:
    """A published range, where it stands, and how to get ours, in the unit named."""

    what: str
    low: float
    high: float
    unit: str
    source: str
    ours: Callable[[], float]

    @property
    def row(self) -> str:
        """The check as a row of the table."""
        ends = (self.low, self.high)
        if self.high == float("inf"):
            published = f"at least {_number(self.low)}"
        elif self.low == 0:
            published = f"at most {_number(self.high)}"
        else:
            published = " to ".join(dict.fromkeys(map(_number, ends)))
        ours = _number(round(self.ours(), 5 if self.unit == "times" else 2))
        return f"| {self.what} | {published} {self.unit} | {ours} | {self.source} |"


def _number(value: float) -> str:
    return f"{value:,.6g}"


def alone(work: Effort, profile: Profile = "regular") -> BlockSeconds:
    """The effort by itself, against the clock."""
    return getattr(estimate(plan(block("for-time", work))).blocks[0], profile)


@cache
def done_in(seconds: float, movement: str, profile: Profile = "regular") -> int:
    """The most reps whose likely time is within ``seconds``."""
    return bisect_right(
        range(1, 1000), seconds, key=lambda n: alone(reps(movement, n), profile).likely_s
    )


def fastest(work: Effort) -> float:
    """Seconds of the quickest of all draws."""
    return float(np.min(through(plan(block("for-time", work)), crowd(DRAWS, SEED))[1]))


@cache
def most_in(seconds: float, movement: str) -> int:
    """The most reps that the quickest of all draws does within ``seconds``."""
    return bisect_right(range(1, 1000), seconds, key=lambda n: fastest(reps(movement, n)))


def likely(of: Block, end: str = "likely_s") -> float:
    """Seconds of a block for the regular athlete."""
    return getattr(estimate(plan(of)).blocks[0].regular, end)


def intervals(times: int, work_s: float, rest_s: float, end: str) -> float:
    """Seconds of intervals, to the last work second (low) or the rest after it (high)."""
    work = held("burpee", work_s)
    return likely(block("intervals", work, work_s=work_s, rest_s=rest_s, times=times), end)


def eleven_minutes() -> float:
    """A minute of warm-up, five bouts with a minute between, a minute of cool-down."""
    bouts = ("burpee", "high-knees", "jumping-lunge", "high-knees", "jump-squat")
    march = block("quality", held("march", 60))
    five = block("intervals", *(held(one, 60) for one in bouts), work_s=60, rest_s=60, times=1)
    return 2 * likely(march) + likely(five, "low_s")


def eight_events() -> float:
    """Eight events of a minute with a walk of 26 m between them."""
    events: list[Item] = [held("stair-machine", 60)]
    for _ in range(7):
        events += [rest(20), held("farmer-carry", 60)]
    return likely(block("for-time", *events))


def in_mixed_work(item: Effort) -> float:
    """Seconds of an item in four rounds with others, for the regular athlete."""
    rounds = repeat(4, item, reps("air-squat", 15), reps("kettlebell-swing", 12))
    return estimate(plan(block("for-time", rounds))).blocks[0].items[0].items[0].regular.likely_s


def kcal_s(pace_100m: float) -> float:
    """Seconds a kcal at a pace on the rowing machine."""
    return 3600 / (4 * 0.8604 * 2.80 / (pace_100m / 100) ** 3 + 300)


def _records() -> list[Check]:
    """Records over each distance, which no draw may beat."""
    return [
        Check(
            f"{movement} {metres_:g} m, fastest",
            seconds,
            float("inf"),
            "s",
            figures().records[kind].source,
            lambda movement=movement, far=metres_: fastest(metres(movement, far)),
        )
        for kind, movement in (("foot", "sprint"), ("row", "row"), ("swim", "swim"))
        for metres_, seconds in figures().records[kind].points
    ]


ARMY = "US Army FM 7-22 (2012), appendix A"
BURPEES = "Podstawski et al. 2019, J Hum Kinet 69:137-147"
AIR_FORCE = "US Air Force fitness assessment 2021"
NAVY = "US Navy readiness test, men 17-19, pass to maximum"
PRACTICE = "common practice, no source"

CHECKS = [
    Check(
        "push-up at a self-chosen pace, regular, likely",
        60 / (49.9 + 11.4),
        60 / (42.8 - 8.4),
        "s",
        "Rozenek et al. 2022, J Strength Cond Res 36(12):3324-3329: men 49.9 (SD 11.4), women "
        "42.8 (SD 8.4) a minute",
        lambda: alone(reps("push-up", 10)).likely_s / 10,
    ),
    Check(
        "push-up, the slow figure, within the cadence test",
        1.5,
        3.0,
        "s",
        "40 a minute in an adult test, 20 in the college test: Keefer et al., NCUR 2021",
        lambda: figures().movement["push-up"].reps.slow,
    ),
    Check(
        "push-ups in 2 minutes, regular, likely",
        42,
        71,
        "reps",
        f"{ARMY}: 60 to 100 points, men 17-21",
        lambda: done_in(120, "push-up"),
    ),
    Check(
        "push-ups in 2 minutes, newcomer, likely",
        19,
        42,
        "reps",
        f"{ARMY}: 60 to 100 points, women 17-21",
        lambda: done_in(120, "push-up", "newcomer"),
    ),
    Check(
        "push-ups in 2 minutes, advanced, likely",
        42,
        92,
        "reps",
        NAVY,
        lambda: done_in(120, "push-up", "advanced"),
    ),
    Check(
        "push-ups in a minute, fastest",
        0,
        67,
        "reps",
        f"{AIR_FORCE}: the most that is rewarded",
        lambda: most_in(60, "push-up"),
    ),
    Check(
        "sit-ups in 2 minutes, regular, likely",
        53,
        78,
        "reps",
        f"{ARMY}: 60 to 100 points, 17-21",
        lambda: done_in(120, "sit-up"),
    ),
    Check(
        "sit-ups in a minute, fastest",
        0,
        58,
        "reps",
        f"{AIR_FORCE}: the most that is rewarded",
        lambda: most_in(60, "sit-up"),
    ),
    Check(
        "burpees in 3 minutes, regular, likely",
        37,
        66,
        "reps",
        f"{BURPEES}: average bands of women and men",
        lambda: done_in(180, "burpee"),
    ),
    Check(
        "burpees in 3 minutes, advanced, likely",
        47,
        82,
        "reps",
        f"{BURPEES}: men, average to best",
        lambda: done_in(180, "burpee", "advanced"),
    ),
    Check(
        "burpees in 3 minutes, fastest",
        0,
        82,
        "reps",
        f"{BURPEES}: best of 9,833",
        lambda: most_in(180, "burpee"),
    ),
    Check(
        "chair stands in a minute, regular, likely",
        27,
        57,
        "reps",
        "Strassmann et al. 2013, Int J Public Health 58:949-953: median at 75-79 to upper "
        "quartile at 20-24",
        lambda: done_in(60, "sit-to-stand"),
    ),
    Check(
        "burpee, a four-count drill, typical figure",
        3.0,
        4.8,
        "s",
        "moderate and slow cadence: US Army FM 7-22 (2012)",
        lambda: figures().movement["burpee"].reps.typical,
    ),
    Check(
        "kettlebell swings in 12 minutes, regular, likely",
        265 - 68,
        265 + 68,
        "reps",
        "265 (SD 68): Farrar, Mayhew & Koch 2010, J Strength Cond Res 24(4):1034-1036",
        lambda: done_in(720, "kettlebell-swing"),
    ),
    Check(
        "100 rope turns, regular, likely",
        37.5,
        60,
        "s",
        "100 to 160 a minute: Compendium of Physical Activities, 15550 and 15551",
        lambda: alone(reps("single-under", 100)).likely_s,
    ),
    Check(
        "rope turns in 30 seconds, fastest",
        0,
        228,
        "reps",
        "Asia-Pacific jump-rope federation news 2017",
        lambda: most_in(30, "single-under"),
    ),
    Check(
        "curl-ups in a minute, regular, likely",
        21,
        36,
        "reps",
        "average at 20-29: Canadian Standardized Test of Fitness, 3rd ed.",
        lambda: done_in(60, "crunch"),
    ),
    Check(
        "two miles, regular, likely",
        780,
        1122,
        "s",
        f"{ARMY}: maximum to slowest pass, men 17-46",
        lambda: alone(metres("run", 3218.688)).likely_s,
    ),
    Check(
        "two miles, advanced, likely",
        780,
        954,
        "s",
        f"{ARMY}: maximum to pass, men 17-21",
        lambda: alone(metres("run", 3218.688), "advanced").likely_s,
    ),
    Check(
        "10 km against 5 km, without the start",
        2**1.06,
        2**1.06,
        "times",
        "Riegel 1981, American Scientist 69(3):285-290",
        lambda: (
            (alone(metres("run", 10_000)).likely_s - 1) / (alone(metres("run", 5000)).likely_s - 1)
        ),
    ),
    Check(
        "2 km on the rowing machine, regular, likely",
        420,
        560,
        "s",
        NAVY,
        lambda: alone(metres("row", 2000)).likely_s,
    ),
    Check(
        "a kcal on the rowing machine, typical figure",
        0.95 * kcal_s(figures().movement["row"].m.typical),
        1.05 * kcal_s(figures().movement["row"].m.typical),
        "s",
        "within 5 % of the power at the typical 500 m, 2.80 / pace^3 (2:00 is 202.55 W); kcal "
        "an hour 3.44 x watts + 300, from memory",
        lambda: figures().movement["row"].kcal.typical,
    ),
    *(
        Check(f"{times} x {work} s / {pause} s, {end}", total, total, "s", source, ours)
        for times, work, pause, sums, source in (
            (8, 20, 10, (230, 240), "Tabata et al. 1996, Med Sci Sports Exerc 28(10)"),
            (4, 240, 180, (1500, 1680), "Helgerud et al. 2007, Med Sci Sports Exerc 39(4)"),
            (10, 60, 60, (1140, 1200), "Gibala et al. 2012, J Physiol 590:1077-1084"),
        )
        for end, total, ours in (
            (
                "to the last work second",
                sums[0],
                lambda t=times, w=work, p=pause: intervals(t, w, p, "low_s"),
            ),
            (
                "with the last rest",
                sums[1],
                lambda t=times, w=work, p=pause: intervals(t, w, p, "high_s"),
            ),
        )
    ),
    Check(
        "the eleven-minute session",
        660,
        660,
        "s",
        "Archila et al. 2021, PMC8136567: 1 + 5 + 4 + 1 minutes",
        eleven_minutes,
    ),
    Check(
        "eight events with seven walks",
        620,
        620,
        "s",
        "candidate physical ability test, Corpus Christi fire department: 10:20",
        eight_events,
    ),
    Check(
        "planks of a station, 5 x 10-15 s, 10 s between",
        90,
        115,
        "s",
        "Int J Environ Res Public Health 2021, 18(9):4606, Table 1",
        lambda: likely(block("quality", repeat(5, held("plank", 10, 15), rest_s=10))),
    ),
    Check(
        "400 m inside mixed work, regular, likely",
        120,
        150,
        "s",
        PRACTICE,
        lambda: in_mixed_work(metres("run", 400)),
    ),
    Check(
        "20 sit-ups inside mixed work, regular, likely",
        40,
        70,
        "s",
        f"{PRACTICE}: about 20 a minute",
        lambda: in_mixed_work(reps("sit-up", 20)),
    ),
    Check(
        "50 side-to-side hops inside mixed work, regular, likely",
        50,
        75,
        "s",
        f"{PRACTICE}: about 50 a minute",
        lambda: in_mixed_work(reps("line-hop", 50)),
    ),
    *_records(),
]


def table() -> str:
    """The whole file as the program makes it now."""
    return HEAD + "".join(f"{check.row}\n" for check in CHECKS)


def main() -> int:
    if "--write" in sys.argv[1:]:
        write(TABLE, table())
    current = TABLE.is_file() and TABLE.read_text("utf-8") == table()
    print("The table is current." if current else f"{TABLE} is not current; run with --write.")
    return 0 if current else 1


if __name__ == "__main__":
    sys.exit(main())

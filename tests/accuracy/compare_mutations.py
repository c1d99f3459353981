"""Is one changed item of a true description found and rightly named, and nothing else?

    python tests/accuracy/compare_mutations.py [--misses] [--write]

Each description of tests/corpus and tests/talks is first made true by ``cuewright compare``.
Then one thing is changed at a time, in the text itself:

- amount: the number of an effort becomes one more, one less, twice and half itself;
- run: so does a number of rounds, of a cap, of a clock or of a rest between sets;
- drop: an effort is taken out, where what stays can be read without it;
- add: a movement that the session does not have stands behind an effort;
- swap: such a movement takes the place of an effort, amount and all;
- order: two neighbours of one block change places.

Right is one finding, of the rule and about what the change was; for a swap two, the missing
effort and the one that is too many. After each change the description is corrected and
compared once more, which must find nothing. ``--misses`` prints each change that went wrong;
``--write`` puts the table into CARD.md.
"""

import argparse
import sys
import tomllib
from collections import Counter
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path
from random import Random
from typing import NamedTuple

from cuewright.check.kinship import related
from cuewright.comparison import Side
from cuewright.comparison.align import aligned
from cuewright.comparison.difference import Number
from cuewright.comparison.lines import Change, added, taken_out
from cuewright.comparison.mends import reordered
from cuewright.comparison.numerals import numerals, rewritten
from cuewright.comparison.rewrite import applied
from cuewright.comparison.stations import Station, stations
from cuewright.comparison.surface import Span, Surface
from cuewright.errors import UnreadableSource
from cuewright.flow import compare, compared, side
from cuewright.hear import read, taken_down
from cuewright.movements.catalogue import catalogue
from cuewright_models.plan import Amrap, Effort, Every, ForTime, Intervals

HERE = Path(__file__).parent
CARD = HERE / "CARD.md"
MARK = "<!-- written by compare_mutations.py -->"
FLOORS = HERE / "compare_mutations_floors.toml"
SETS = ("corpus", "talks")
KINDS = ("amount", "run", "drop", "add", "swap", "order")
STRANGERS = (
    "burpee",
    "thruster",
    "wall-ball",
    "rope-climb",
    "box-jump",
    "lat-stretch",
    "jump-squat",
    "butt-kick",
)
"""Movements to add, the first that the session has nothing like."""

Named = tuple[tuple[str, str], ...]
"""Rule and what it is about, of each finding, in order."""


class Talk(NamedTuple):
    """A talk as read, and its description made true."""

    name: str
    said: Side
    text: str


@dataclass(frozen=True, slots=True)
class Case:
    """A description with one change, and the findings that are right."""

    talk: str
    kind: str
    told: str
    text: str
    right: Named


class Outcome(NamedTuple):
    """What was found, and how many findings are left in the corrected description."""

    case: Case
    found: Named
    left: int

    @property
    def named(self) -> bool:
        """Whether every right finding is there."""
        return not Counter(self.case.right) - Counter(self.found)

    @property
    def others(self) -> int:
        """Findings of what was not changed."""
        return (Counter(self.found) - Counter(self.case.right)).total()


@cache
def talks() -> dict[str, Talk]:
    """Every talk with a description, by name."""
    paths = [p for s in SETS for p in sorted((HERE.parent / s).glob("*.description.md"))]
    return {talk.name: talk for talk in map(_talk, paths)}


def _talk(path: Path) -> Talk:
    name = path.name.removesuffix(".description.md")
    beside = path.parent.glob(f"{name}.*")
    source = next(p for p in beside if p.suffix != ".md" and not p.name.endswith(".gold.json"))
    return Talk(name, side(read(source)), compare(source, path).corrected)


def cases() -> Iterator[Case]:
    """Every change of every description, always in the same order."""
    for talk in talks().values():
        read_so = taken_down("description", talk.text.encode())
        other = side(read_so, talk.text)
        there = stations(other.plan)
        on = Surface(talk.text, read_so, there)
        made = (*_amounts(on, there), *_runs(on, there), *_dropped(on, there),
                *_added(on, there, _stranger(there, talk.said)), *_orders(on, there))  # fmt: skip
        meant = {p.other.at: p.talk for p in aligned(stations(talk.said.plan), there).pairs}
        called = {s.effort.movement: meant[s.at].effort.movement for s in there if s.at in meant}
        for kind, told, changes, found in made:
            right = tuple((rule, called.get(about, about)) for rule, about in found)
            yield Case(talk.name, kind, told, applied(talk.text, changes), right)


Made = tuple[str, str, tuple[Change, ...], Named]


def _amounts(on: Surface, there: list[Station]) -> Iterator[Made]:
    for station in there:
        effort, span = station.effort, on.span(station.effort.said)
        if span and effort.low is not None and not isinstance(station.block.structure, Intervals):
            for new in _others(effort.low):
                for numeral in numerals(on.text, *span):
                    text = rewritten(numeral, Number(effort.low, new, effort.unit))
                    if text is not None and _stands_once(on, numeral.text, span):
                        right = (("description-differs", effort.movement),)
                        told = f"{effort.movement} {effort.low:g} > {new:g}"
                        yield "amount", told, (Change(numeral.span, text),), right
                        break


def _stands_once(on: Surface, text: str, span: Span) -> bool:
    return on.text[slice(*span)].count(text) == 1


def _others(value: float) -> list[float]:
    new = (value + 1, value - 1, 2 * value, value // 2)
    return [each for each in dict.fromkeys(new) if each > 0 and abs(each - value) > 0.02 * value]


def _runs(on: Surface, there: list[Station]) -> Iterator[Made]:
    """The numbers of how a block is run, in the lines that say so."""
    for nth in dict.fromkeys(station.nth for station in there):
        first = next(station for station in there if station.nth == nth)
        span, begin = on.span(first.block.said[:1]), on.span(first.effort.said)
        if span is None or begin is None:
            continue
        line = on.lines[on.line_of(span.start)]
        end = min(line.end, begin.start)
        for old, unit in _said(first):
            for numeral in numerals(on.text, span.start, end):
                for new in _others(old):
                    text = rewritten(numeral, Number(old, new, unit))
                    if text is not None and _stands_once(on, numeral.text, Span(span.start, end)):
                        told = f"{on.text[span.start : end].strip()}: {old:g} > {new:g}"
                        right = (("description-differs", "structure"),)
                        yield "run", told, (Change(numeral.span, text),), right


def _said(first: Station) -> list[tuple[float, str]]:
    """The numbers of a block's clock, or its rounds."""
    match first.block.structure:
        case ForTime(cap_s=cap) if cap:
            return [(cap, "s")]
        case Amrap(duration_s=length) if length:
            return [(length, "s")]
        case Every(every_s=gap, duration_s=length) if gap and length:
            return [(length, "s")] if gap == 60 else []
        case Intervals(work_s=work, rest_s=rest) if work and rest:
            return [(work, "s"), (rest, "s")]
    return [(first.low, "rounds")] if first.low and first.low > 1 else []


def _dropped(on: Surface, there: list[Station]) -> Iterator[Made]:
    for station in there:
        if _stands_alone(station, there):
            changes = next(taken_out(station, on), None)
            if changes:
                right = (("description-missing", station.effort.movement),)
                yield "drop", station.effort.movement, changes, right


def _stands_alone(station: Station, there: list[Station]) -> bool:
    """Whether it can go without what hangs on it: another way, or a heading without work."""
    others = sum(other.nth == station.nth for other in there) > 1
    return others and not station.effort.alternatives


def _stranger(there: list[Station], said: Side) -> str:
    """A movement that neither the session nor the talk has anything of."""
    named = {mention.name for mention in said.reading.movements}
    patterns = {p for s in there for p in catalogue()[s.effort.movement].patterns}
    names = {word for s in there for word in s.effort.movement.split("-")}
    kin = {other for station in there for other in related(station.effort.movement)}
    free = [n for n in STRANGERS if not names & set(n.split("-")) and n not in kin | named]
    apart = [name for name in free if not patterns & set(catalogue()[name].patterns)]
    return (apart or free)[0]


def _added(on: Surface, there: list[Station], name: str) -> Iterator[Made]:
    new = Effort(movement=name, as_said=name, unit="reps", low=13, high=13)
    if name.endswith("stretch"):
        new = new.model_copy(update={"unit": "s", "low": 35, "high": 35})
    for station in there:
        clocked = isinstance(station.block.structure, Every | Intervals)
        if not clocked and not station.rungs and _whole(station, on):
            stranger = Station(new, station.block, station.nth, 0, station.low, station.high)
            changes = next(added(stranger, ((station, False),), on, apart=False), None)
            if changes:
                right = (("description-extra", name),)
                yield "add", f"{name} behind {station.effort.movement}", changes, right
        yield from _swapped(station, new, on, there)


def _whole(station: Station, on: Surface) -> bool:
    """Whether what stands behind an effort's words is no part of it, as in "squat 5 x 5"."""
    span = on.span(station.effort.said)
    return span is not None and any(map(str.isdigit, on.text[slice(*span)]))


def _swapped(station: Station, new: Effort, on: Surface, there: list[Station]) -> Iterator[Made]:
    effort, span = station.effort, on.span(station.effort.said)
    if span is None or station.rungs:
        return
    words = effort.as_said.strip(" .,;:")
    at = on.text.find(words, *span)
    if at < 0 or not words:
        return
    name = new.movement.replace("-", " ") + ("s" if words.endswith("s") else "")
    right = (("description-missing", effort.movement), ("description-extra", new.movement))
    yield "swap", f"{words} > {name}", (Change(Span(at, at + len(words)), name),), right


def _orders(on: Surface, there: list[Station]) -> Iterator[Made]:
    for one, two in pairwise(there):
        same_shape = one.nth == two.nth and (one.low, one.rungs) == (two.low, two.rungs)
        if same_shape and one.effort.movement != two.effort.movement:
            changes = next(iter(reordered((two, one), on)), None)
            if changes and not isinstance(one.block.structure, Every):
                told = f"{one.effort.movement}, {two.effort.movement}"
                yield "order", told, changes, (("description-differs", "order"),)


def outcome(case: Case) -> Outcome:
    """The findings of one changed description, and of the same corrected."""
    said = talks()[case.talk].said
    try:
        made = compared(said, (), "description", case.text.encode())
    except UnreadableSource:
        return Outcome(case, (("unreadable", ""),), 0)
    found = tuple(sorted((each.rule, each.about) for each in made.findings))
    return Outcome(case, found, len(made.remaining))


def sample(share: float = 0.1, seed: int = 1) -> list[Case]:
    """A part of the changes, the same for the same seed."""
    random = Random(seed)
    return [case for case in cases() if random.random() < share]


def outcomes(of: Iterable[Case]) -> list[Outcome]:
    """The outcome of each change, worked out by two processes."""
    with ProcessPoolExecutor(2) as pool:
        return list(pool.map(outcome, of, chunksize=16))


def table(found: Iterable[Outcome]) -> str:
    """A row for each kind of change, and one for all."""
    rows: dict[str, Counter[str]] = {kind: Counter() for kind in (*KINDS, "all")}
    for each in found:
        for row in (rows[each.case.kind], rows["all"]):
            row["changes"] += 1
            row["named"] += each.named
            row["others"] += bool(each.others)
            row["left"] += bool(each.left)
    lines = [
        "| change | changes | found and rightly named | something else too | left when corrected |",
        "|---|---:|---:|---:|---:|",
    ]
    for kind, row in rows.items():
        share = f"{row['named']} ({row['named'] / max(row['changes'], 1):.1%})"
        lines.append(f"| {kind} | {row['changes']} | {share} | {row['others']} | {row['left']} |")
    return "\n".join(lines)


def card(found: Iterable[Outcome]) -> str:
    """CARD.md with this table at its end; what stands before stays."""
    before = CARD.read_text("utf-8").split("\n## One item of a description changed")[0]
    return (
        f"{before.rstrip()}\n\n## One item of a description changed\n\n"
        f"{INTRODUCTION}\n\n{MARK}\n\n{table(found)}\n"
    )


INTRODUCTION = """\
One thing at a time is changed in each description of `tests/corpus` and `tests/talks`, which
`cuewright compare` first makes true: `python tests/accuracy/compare_mutations.py` says how.
Each changed description is then corrected and compared once more; the last column counts those
in which something was found again."""


def under(found: list[Outcome], of: str = "all") -> list[str]:
    """A sentence for each floor that was missed, of all changes or of the tests' sample."""
    floors: dict[str, float] = tomllib.loads(FLOORS.read_text("utf-8"))[of]
    many = max(len(found), 1)
    shares = {
        "named": sum(each.named for each in found) / many,
        "nothing else": sum(not each.others for each in found) / many,
        "corrected": sum(not each.left for each in found) / many,
    }
    return [
        f"{name}: {share:.3f}, its floor is {floors[name]}"
        for name, share in shares.items()
        if share < floors[name]
    ]


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--misses", action="store_true", help="print each change that went wrong")
    parser.add_argument("--write", action="store_true", help="put the table into CARD.md")
    asked = parser.parse_args()
    found = outcomes(cases())
    for each in found:
        if asked.misses and (not each.named or each.others or each.left):
            print(f"{each.case.talk:22} {each.case.kind:7} {each.case.told}: {each.found}, "
                  f"left {each.left}")  # fmt: skip
    print(table(found))
    if asked.write:
        CARD.write_text(card(found), "utf-8")
    failures = under(found)
    print("\n".join(failures) or "No share is under its floor.")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())

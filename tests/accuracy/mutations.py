"""Does the right rule speak, and no other, when one number of a clean talk is changed?

    python tests/accuracy/mutations.py [--all] [--misses] [--write]

The talks are those of tests/corpus and tests/talks whose gold has no finding, and the shipped
samples that are clean. Three families, one change at a time:

- told twice: a number that truths.toml, made by reading, says must agree with another place;
- planted: a true sentence is made from the gold plan and said at the end (the day at the
  start), and then its number is changed; the true sentence itself must bring no error;
- told once: every other number above one that stands in the talk, where no rule may speak.

Each number becomes one more, one less, twice and half itself; a weekday the two next to it.
``--misses`` prints each change that went wrong; ``--write`` puts the table into CARD.md.
"""

import argparse
import json
import re
import sys
import tomllib
from collections import Counter
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent))

from accuracy.figures import WEEKDAYS, Figure, changed, figures, planted  # noqa: E402
from accuracy.planting import sentences  # noqa: E402

from cuewright.flow import plan_of  # noqa: E402
from cuewright.hear import read  # noqa: E402
from cuewright_models.transcript import Transcript  # noqa: E402

CARD = HERE / "CARD.md"
FLOORS = HERE / "mutations_floors.toml"
MARK = "<!-- written by mutations.py -->"
TRUTHS: dict[str, Any] = tomllib.loads((HERE / "truths.toml").read_text("utf-8"))
SETS = ("corpus", "talks")
MARKED = re.compile(r"<([^>]*)>")
TWICE, PLANTED, ONCE = "told twice", "planted", "told once"
SHARES = {TWICE: 1.0, PLANTED: 0.5, ONCE: 0.3}
"""How many of each family are looked at, so that it takes a minute."""


class Talk(NamedTuple):
    """A clean talk as heard, its gold plan and its table of truths.toml."""

    name: str
    heard: Transcript
    gold: dict[str, Any]
    truths: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Change:
    """One talk with one change; ``must`` where it contradicts something said elsewhere."""

    talk: str
    family: str
    kind: str
    told: str
    heard: Transcript
    right: frozenset[str] = frozenset()
    must: bool = False


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a change: the rules with an error, and whether the right one spoke."""

    change: Change
    errors: tuple[str, ...]

    @property
    def fired(self) -> bool:
        return bool(self.change.right & set(self.errors))

    @property
    def others(self) -> tuple[str, ...]:
        return tuple(rule for rule in self.errors if rule not in self.change.right)

    @property
    def wrong(self) -> bool:
        return bool(self.others) or (self.change.must and not self.fired)


@cache
def talks() -> tuple[Talk, ...]:
    """Every clean talk, by name."""
    found = [talk for folder in SETS for talk in _clean(HERE.parent / folder)]
    sample = HERE.parents[1] / "samples/low-water/talk.vtt"
    twin = next(talk for talk in found if talk.name == "a-low-water")
    name = "sample-low-water"
    return (*found, twin._replace(name=name, heard=read(sample), truths=TRUTHS[name]))


def _clean(folder: Path) -> Iterator[Talk]:
    for path in sorted(folder.glob("*.gold.json")):
        gold = json.loads(path.read_text("utf-8"))
        if gold.get("findings") == []:
            name = path.name.removesuffix(".gold.json")
            source = next(p for p in folder.glob(f"{name}.*") if p.suffix != ".md" and p != path)
            yield Talk(name, read(source), gold, TRUTHS[name])


def changes() -> Iterator[Change]:
    """Every change of every talk, always in the same order."""
    for talk in talks():
        yield from _told_twice(talk)
        yield from _planted(talk)
        yield from _told_once(talk)


def _places(talk: Talk) -> Iterator[tuple[str, str, Figure, frozenset[float]]]:
    """Each marked number of truths.toml: its kind, its words, where it stands, what fits."""
    standing = list(figures(talk.heard.words))
    for kind, rows in talk.truths.items():
        for row in rows if isinstance(rows, list) else ():
            told, fits = (row["at"], row["fits"]) if isinstance(row, dict) else (row, ())
            first = _at(talk.heard, told)
            figure = next(f for f in standing if f.first <= first < f.last)
            yield kind, told, figure, frozenset(fits)


def _at(heard: Transcript, told: str) -> int:
    """The place of the marked word; a LookupError when the words do not stand once."""
    before = told.split("<")[0]
    spoken = [word.text for word in heard.words]
    sought = told.replace("<", "").replace(">", "").split()
    starts = [at for at in range(len(spoken)) if _same(spoken[at : at + len(sought)], sought)]
    if len(starts) != 1:
        raise LookupError(f"{told!r} stands {len(starts)} times in {heard.name}")
    return starts[0] + len(before.split())


def _same(spoken: list[str], sought: list[str]) -> bool:
    """Whether the words are the same; the last may have more behind it."""
    return (
        spoken[:-1] == sought[:-1]
        and bool(spoken)
        and spoken[-1].rstrip(".,;:?!") == sought[-1].rstrip(".,;:?!")
    )


def _told_twice(talk: Talk) -> Iterator[Change]:
    for kind, told, figure, fits in _places(talk):
        if kind != "open":
            yield from _varied(talk.name, TWICE, kind, told, talk.heard, figure, fits)


def _varied(
    name: str,
    family: str,
    kind: str,
    told: str,
    heard: Transcript,
    figure: Figure,
    fits: frozenset[float],
) -> Iterator[Change]:
    """The talk with every other number in the place of one."""
    row = TRUTHS["kinds"][kind]
    for value in _others(figure):
        gap = abs(value - figure.value)
        far = figure.weekday or (
            gap >= row["least"] and gap > row["share"] * max(value, figure.value)
        )
        words = MARKED.sub(f"{_shown(figure, figure.value)} > {_shown(figure, value)}", told)
        heard_so = changed(heard, figure, value)
        must = far and value not in fits
        yield Change(name, family, kind, words, heard_so, frozenset(row["right"]), must)


def _others(figure: Figure) -> list[int]:
    was = figure.value
    if figure.weekday:
        return [(was + 1) % 7, (was - 1) % 7]
    if was > 1900:  # a year
        return [was - 1, was + 1]
    return [new for new in dict.fromkeys((was + 1, was - 1, 2 * was, was // 2)) if new > 1]


def _shown(figure: Figure, value: int) -> str:
    return WEEKDAYS[value] if figure.weekday else str(value)


def _planted(talk: Talk) -> Iterator[Change]:
    for truth in sentences(talk.gold, talk.truths.get("minutes")):
        at = 0 if truth.first else len(talk.heard.words)
        said = truth.sentence.replace("<", "").replace(">", "")
        heard = planted(talk.heard, at, said)
        yield Change(talk.name, PLANTED, f"{truth.kind}, true", said, heard)
        first = at + len(truth.sentence.split("<")[0].split())
        (number,) = figures(heard.words[first : first + 2])
        figure = number._replace(first=first, last=first + number.last - number.first)
        yield from _varied(
            talk.name, PLANTED, truth.kind, truth.sentence, heard, figure, truth.fits
        )


def _told_once(talk: Talk) -> Iterator[Change]:
    known = {figure.first for _, _, figure, _ in _places(talk)}
    for figure in figures(talk.heard.words):
        if figure.first not in known and not figure.weekday:
            words = [
                word.text for word in talk.heard.words[max(figure.first - 4, 0) : figure.last + 4]
            ]
            for value in _others(figure):
                told = f"{figure.value} > {value}: {' '.join(words)}"
                yield Change(talk.name, ONCE, "any", told, changed(talk.heard, figure, value))


def outcome(change: Change) -> Outcome:
    """The errors of the whole program on one changed talk."""
    found = plan_of(change.heard).findings
    return Outcome(change, tuple(f.rule for f in found if f.severity == "error"))


def sample(shares: dict[str, float] = SHARES, seed: int = 1) -> list[Change]:
    """A part of the changes of each family, the same for the same seed."""
    random = Random(seed)
    return [change for change in changes() if random.random() < shares[change.family]]


def outcomes(of: Iterable[Change]) -> list[Outcome]:
    """The outcome of each change, worked out by two processes."""
    with ProcessPoolExecutor(2) as pool:
        return list(pool.map(outcome, of, chunksize=16))


def table(found: Iterable[Outcome]) -> str:
    """A row for each family and kind, and one for all."""
    rows: dict[tuple[str, str], Counter[str]] = {}
    for each in found:
        for key in ((each.change.family, each.change.kind), ("all", "")):
            row = rows.setdefault(key, Counter())
            row["changes"] += 1
            row["must"] += each.change.must
            row["fired"] += each.change.must and each.fired
            row["others"] += bool(each.others)
    lines = [
        "| family | kind | changes | contradict | right rule spoke | other errors |",
        "|---|---|---:|---:|---:|---:|",
    ]
    for (family, kind), row in sorted(
        rows.items(), key=lambda each: (each[0][0] == "all", each[0])
    ):
        share = f"{row['fired']} ({row['fired'] / row['must']:.1%})" if row["must"] else ""
        lines.append(
            f"| {family} | {kind} | {row['changes']} | {row['must']} | {share} | {row['others']} |"
        )
    return "\n".join(lines)


def card(found: Iterable[Outcome]) -> str:
    """The page that says what was measured."""
    before, after = CARD.read_text("utf-8").split(MARK)
    _, heading, others = after.partition("\n## ")  # the table of another script
    return f"{before}{MARK}\n\n{table(found)}\n{heading}{others}"


def under(found: Iterable[Outcome]) -> list[str]:
    """A sentence for each family whose right rule spoke too seldom, and for other errors."""
    floors: dict[str, float] = tomllib.loads(FLOORS.read_text("utf-8"))
    failures = []
    for family in (TWICE, PLANTED):
        must = [each for each in found if each.change.family == family and each.change.must]
        share = sum(each.fired for each in must) / len(must) if must else 1.0
        if share < floors[family]:
            failures.append(f"{family}: {share:.3f}, its floor is {floors[family]}")
    others = sum(bool(each.others) for each in found)
    if others > floors["other errors"]:
        failures.append(f"other errors: {others}, at most {floors['other errors']}")
    return failures


def _line(each: Outcome) -> str:
    change, how = each.change, f"other {each.others}" if each.others else "silent"
    return f"{change.talk:18} {change.family:10} {change.kind:10} {how}  {change.told}"


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--misses", action="store_true", help="print each change that went wrong")
    parser.add_argument("--all", action="store_true", help="every change, not a sample")
    parser.add_argument("--write", action="store_true", help="put the table into CARD.md")
    asked = parser.parse_args()
    found = outcomes(changes() if asked.all else sample())
    wrong = [each for each in found if each.wrong]
    print("".join(f"{_line(each)}\n" for each in wrong if asked.misses), end="")
    print(table(found))
    if asked.write:
        CARD.write_text(card(found), "utf-8")
    failures = under(found)
    print("\n".join(failures) or "No share is under its floor.")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())

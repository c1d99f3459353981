"""One meaning, many ways to say it, and what must not be read so: every table beside this file.

A table says at its head what it is about and holds

    view    what of the reading is compared: a name in VIEWS
    frame   the talk around every line, with {} where the line goes (default: the line alone)
    flat    true: each line is read a second time without punctuation and capitals, as
            automatic captions have it
    means   groups of lines with one meaning

and each group

    reads   the meaning, in the words of the view
    said    lines that read so, and nothing else
    never   lines in which ``reads`` may not be read, whatever else is
    flat    as above, for the group alone
    frame   a talk of its own, instead of the table's
"""

import re
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest
from normalise.saying import reading
from roundtrip.comparing import amounts, asked

from cuewright.divide import divide
from cuewright.normalise import normalise
from cuewright.parse import parse
from cuewright_models.plan import Plan, efforts
from cuewright_models.transcript import Transcript, Word


@dataclass(frozen=True)
class Means:
    """One group of a table."""

    reads: tuple[str, ...]
    said: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    frame: str | None = None
    flat: bool | None = None


@dataclass(frozen=True)
class Table:
    """One file; a misspelt key is an error."""

    view: str
    means: tuple[Means, ...]
    frame: str = "{}"
    flat: bool = False


@dataclass(frozen=True)
class Line:
    """One line as it is read."""

    view: str
    talk: str
    reads: list[str]


def plan(talk: str) -> Plan:
    """What is read of a talk at three words a second, without estimate and checks."""
    words = tuple(Word(w, at / 3, at / 3 + 0.3) for at, w in enumerate(talk.split()))
    heard = Transcript(name="talk", kind="captions", sha256="", words=words)
    return parse(heard, divide(normalise(heard)))


def ends(low: float | None, high: float | None) -> str:
    """``240``, ``240..300``, ``..120``, or nothing where no number was said."""
    told = ["" if end is None else f"{end:g}" for end in (low, high)]
    return told[0] if low == high else "..".join(told)


def movements(talk: str) -> list[str]:
    words = tuple(map(Word, talk.split()))
    heard = Transcript(name="talk", kind="text", sha256="", words=words)
    return [mention.name for mention in normalise(heard).movements]


def date(talk: str) -> list[str]:
    day = plan(talk).date
    told = (day.weekday, day.day, day.month, day.year) if day else ()
    return [" ".join(str(part) for part in told if part is not None)] if day else []


VIEWS: dict[str, Callable[[str], list[str]]] = {
    "amounts": reading,
    "movements": movements,
    "date": date,
    "title": lambda talk: [title] if (title := plan(talk).title) else [],
    "blocks": lambda talk: [asked(block).replace(" :", ":") for block in plan(talk).blocks],
    "kinds": lambda talk: [block.kind for block in plan(talk).blocks],
    "work": lambda talk: amounts(plan(talk)),
    "loads": lambda talk: [
        " ".join(filter(None, (e.movement, ends(ld.low, ld.high), ld.unit, ld.who)))
        for block in plan(talk).blocks
        for e in efforts(block.items)
        for ld in e.load
    ],
    "targets": lambda talk: [
        f"{t.about} {ends(t.low, t.high)} {t.unit}" for t in plan(talk).targets
    ],
    "options": lambda talk: [
        " ".join(filter(None, (o.about, o.kind, o.to, ends(o.low, o.high))))
        for o in plan(talk).options
    ],
    "cues": lambda talk: [cue.about for cue in plan(talk).cues],
    "claims": lambda talk: [
        " ".join(filter(None, (c.kind, c.about, ends(c.low, c.high), "only" if c.only else "")))
        for c in plan(talk).claims
    ],
}


def table(path: Path) -> Table:
    """One file as a table."""
    read = tomllib.loads(path.read_text("utf-8"))
    means = tuple(
        Means(**{key: tuple(v) if isinstance(v, list) else v for key, v in group.items()})
        for group in read.pop("means")
    )
    return Table(**read, means=means)


TABLES = {path.stem: table(path) for path in sorted(Path(__file__).parent.glob("*.toml"))}


def flat(talk: str) -> str:
    """A talk without punctuation and capitals."""
    return re.sub(r"[.,:;?!]+(?=\s|$)", "", talk.lower())


def lines(which: str) -> Iterator[object]:
    """Every line of ``said`` or ``never``, as it is read."""
    for name, rows in TABLES.items():
        for group in rows.means:
            for line in getattr(group, which):
                talk = (group.frame or rows.frame).replace("{}", line)
                twice = rows.flat if group.flat is None else group.flat
                for mouth in (talk, flat(talk)) if twice else (talk,):
                    called = f"{name}: {line}" + (" (flat)" if mouth != talk else "")
                    yield pytest.param(Line(rows.view, mouth, list(group.reads)), id=called)


@cache
def found(view: str, talk: str) -> list[str]:
    return VIEWS[view](talk)


@pytest.mark.parametrize("line", list(lines("said")))
def test_reads(line: Line) -> None:
    assert found(line.view, line.talk) == line.reads, line.talk


@pytest.mark.parametrize("line", list(lines("never")))
def test_never_reads(line: Line) -> None:
    assert not set(line.reads) <= set(found(line.view, line.talk)), line.talk


@pytest.mark.parametrize("name", TABLES)
def test_a_table_says_nothing_twice_and_nothing_in_vain(name: str) -> None:
    said = [(group.frame, line) for group in TABLES[name].means for line in group.said]
    assert len(said) == len(set(said))
    assert all(group.reads or not group.never for group in TABLES[name].means)

"""Random sessions, said aloud: the words of a talk and the plan that they mean.

``session(Random(7))`` always says the same talk. The phrases are in speaking.toml.
"""

import datetime
import re
import string
import tomllib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import sessions
from num2words import num2words
from sessions import effort, held, metres, repeat, reps

from cuewright.movements.catalogue import catalogue
from cuewright_models.plan import Block, Date, Effort, Item, Plan, Slot

TABLES = Path(__file__).with_name("speaking.toml")
MILE = 1609.344

Listed = tuple[str, tuple[Effort, ...]]
Part = tuple[str, Block]


@dataclass(frozen=True)
class Spoken:
    """A talk and what it means; ``phrases`` are those used for each block, title and date."""

    text: str
    suffix: str
    plan: Plan
    constructs: tuple[str, ...]
    phrases: tuple[tuple[str, ...], ...]
    opening: tuple[str, ...]
    style: str


@cache
def tables() -> dict[str, dict[str, Any]]:
    """The phrases by construct."""
    return tomllib.loads(TABLES.read_text("utf-8"))


@cache
def names(kind: str) -> tuple[str, ...]:
    """Movements that are clear when said: ``counted``, ``sided``, ``holds`` ..."""
    told = tables()["movements"]
    if kind in told:
        return tuple(told[kind])
    if kind == "stretches-each-side":
        return tuple(name for name in catalogue() if name.endswith("-stretch") and _sided(name))
    taken = {*told["left-out"], *told["holds"], *told["holds-each-side"], *told["stretches"]}
    counted = [row for row in catalogue().values() if row.counted_in[0] == "reps"]
    return tuple(
        row.name for row in counted if row.name not in taken and row.one_sided == (kind == "sided")
    )


def _sided(name: str) -> bool:
    return catalogue()[name].one_sided


def aloud(name: str) -> str:
    """The name of one."""
    return tables()["movements"]["aloud"].get(name, name.replace("-", " "))


def many(name: str) -> str:
    """The name of several."""
    one = aloud(name)
    if name in tables()["movements"]["unchanged"]:
        return one
    if one.endswith(("s", "sh", "ch", "x")):
        return one + "es"
    if one.endswith("y") and one[-2] not in "aeiou":
        return one[:-1] + "ies"
    return one + "s"


@dataclass
class Speaker:
    """Says things at random; ``unread`` also draws phrases that are not read back yet."""

    rng: Random
    unread: bool = False
    flat: bool = False
    figures: float = 0.5
    used: list[str] = field(default_factory=list)

    def phrase(self, construct: str) -> str:
        """One way to say the construct, noted in ``used``."""
        row = tables()[construct]
        ways = list(row["said"])
        if self.unread or not self.flat:
            ways += row.get("flat", [])
        if self.unread:
            ways += row.get("unread", [])
        chosen = self.rng.choice(ways)
        self.used.append(f"{construct}: {chosen}")
        return chosen

    def say(self, construct: str, **slots: str) -> str:
        """The construct with its slots filled; only phrases whose slots are given."""
        while True:
            chosen = self.phrase(construct)
            wanted = {name for _, name, _, _ in string.Formatter().parse(chosen) if name}
            if wanted <= slots.keys():
                return chosen.format(**slots)
            self.used.pop()

    def number(self, value: int) -> str:
        """In words or in figures."""
        if self.rng.random() < self.figures:
            return str(value)
        return num2words(value).replace(",", "")

    def times(self, value: int) -> str:
        """How often."""
        return {2: "twice"}.get(value, f"{self.number(value)} times")

    def time(self, seconds: int) -> str:
        """A length of time."""
        if seconds == 60:
            return self.rng.choice(["a minute", "one minute", f"{self.number(60)} seconds"])
        if seconds == 90:
            return self.rng.choice(["a minute and a half", f"{self.number(90)} seconds"])
        if seconds % 60 == 0:
            return f"{self.number(seconds // 60)} minutes"
        return f"{self.number(seconds)} seconds"

    def adjective(self, seconds: int) -> str:
        """A length of time before a noun: ``30 second``."""
        if seconds % 60 == 0:
            return f"{self.number(seconds // 60)} minute"
        return f"{self.number(seconds)} second"

    def distance(self, far: float) -> tuple[str, str]:
        """A distance by itself, and before a noun."""
        if far == MILE:
            return self.rng.choice(["a mile", "one mile"]), self.rng.choice(["one mile", "1 mile"])
        if far % 1000 == 0 and self.rng.random() < 0.6:
            count, word = self.number(int(far / 1000)), self.rng.choice(["k", "kilometre"])
            many_km = word if word == "k" or far == 1000 else word + "s"
            return f"{count} {many_km}", f"{count} {word}"
        count = self.number(int(far))
        return f"{count} metres", f"{count} metre"

    def listed(self, things: Iterable[str]) -> str:
        """Things one after another, now and then with a filler."""
        between, last = self.phrase("list").split("|")
        between, last = between.rstrip() + " ", " " + last.strip() + " "
        *front, end = things
        if not front:
            return end
        hum = "um, " if self.rng.random() < 0.08 else ""
        return between.join(front) + last + hum + end

    # --- efforts --------------------------------------------------------------------

    def counted(self) -> tuple[str, Effort]:
        """So many of something, of both sides or of each."""
        if self.rng.random() < 0.2:
            name, count = self.rng.choice(names("sided")), self.rng.randint(4, 12)
            said = self.say("each-side", n=self.number(count), names=many(name))
            return said, reps(name, count, per_side=True)
        name, count = self.rng.choice(names("counted")), self.rng.randint(3, 30)
        return self.say("reps", n=self.number(count), names=many(name)), reps(name, count)

    def still(self) -> tuple[str, Effort]:
        """Something held."""
        seconds = self.rng.choice([20, 30, 40, 45, 60, 90])
        time, adjective = self.time(seconds), self.adjective(seconds)
        if self.rng.random() < 0.3:
            name = self.rng.choice(names("holds-each-side"))
            said = self.say("held-each-side", name=aloud(name), time=time)
            return said, held(name, seconds, per_side=True)
        name = self.rng.choice(names("holds"))
        said = self.say("held", name=aloud(name), time=time, adjective=adjective)
        return said, held(name, seconds)

    def most(self) -> tuple[str, Effort]:
        """As many or as long as possible."""
        if self.rng.random() < 0.3:
            name = self.rng.choice(names("holds"))
            return self.say("longest", name=aloud(name)), effort(name, "s", None, max=True)
        name = self.rng.choice(names("counted"))
        return self.say("most-reps", names=many(name)), reps(name, None, max=True)

    def calories(self) -> tuple[str, Effort]:
        """So many calories on a machine."""
        name, count = self.rng.choice(["row", "bike", "ski"]), self.rng.randint(6, 40)
        machine = tables()["going"][name]["machine"]
        said = self.say("calories", n=self.number(count), machine=machine, name=aloud(name))
        return said, effort(name, "kcal", count)

    def far(self) -> tuple[str, Effort]:
        """So far on foot or on a machine."""
        name = self.rng.choice(["run", "run", "row", "ski"])
        lengths: list[float] = [100, 200, 250, 400, 500, 600, 800, 1000, 1200, 2000]
        length = self.rng.choice([*lengths, *([MILE] * 2 if name == "run" else [])])
        distance, before = self.distance(length)
        slots = {"distance": distance, "far": before, "name": aloud(name)}
        return self.say("far", **slots, **tables()["going"][name]), metres(name, length)

    def ease(self, among: tuple[str, ...] = ("row", "jog", "bike", "run")) -> tuple[str, Effort]:
        """So long, gently."""
        name, seconds = self.rng.choice(among), 60 * self.rng.randint(2, 6)
        said = self.say("timed", time=self.time(seconds), **tables()["going"][name])
        return said, held(name, seconds)

    def work(self, low: int, high: int, *kinds: Callable[[], tuple[str, Effort]]) -> Listed:
        """``low`` to ``high`` efforts of different movements, mostly counted ones."""
        wanted, done = self.rng.randint(low, high), dict[str, tuple[str, Effort]]()
        while len(done) < wanted:
            usual = self.rng.random() < 0.7 or not kinds
            kind = self.counted if usual else self.rng.choice(kinds)
            before = len(self.used)
            said, item = kind()
            if any(_alike(item.movement, other) for other in done):
                del self.used[before:]
            else:
                done[item.movement] = (said, item)
        return self.listed(said for said, _ in done.values()), tuple(i for _, i in done.values())

    def several(self, low: int, high: int) -> list[str]:
        """Different movements."""
        wanted, chosen = self.rng.randint(low, high), list[str]()
        while len(chosen) < wanted:
            name = self.rng.choice(names("counted"))
            if not any(_alike(name, other) for other in chosen):
                chosen.append(name)
        return chosen

    # --- blocks ---------------------------------------------------------------------

    def warm_up(self) -> Part:
        """Something timed and rounds of little things."""
        ease, first = self.ease()
        n = self.rng.randint(2, 3)
        said, items = self.work(2, 4)
        slots = {"ease": ease, "n": self.number(n), "times": self.times(n), "list": said}
        text = self.say("warm-up", **slots)
        return text, sessions.block("quality", first, repeat(n, *items), kind="warm-up")

    def rounds(self) -> Part:
        """Rounds for time, with or without a cap."""
        n, cap = self.rng.randint(3, 8), 60 * self.rng.randint(8, 30)
        said, items = self.work(2, 4, self.calories, self.far)
        text = self.say("rounds", n=self.number(n), list=said, cap=self.time(cap))
        clock = {"cap_s": cap} if "cap" in self.used[-1] else {}
        return text, sessions.block("for-time", repeat(n, *items), **clock)

    def once(self) -> Part:
        """A list for time."""
        said, items = self.work(4, 6, self.calories, self.far)
        return self.say("once", list=said), sessions.block("for-time", *items)

    def _around(self, construct: str, *, before: bool, after: bool) -> Part:
        n, (before_said, first), (after_said, last) = self.rng.randint(3, 6), self.far(), self.far()
        if not before:
            self.used.pop(0)
        if not after:
            self.used.pop()
        said, items = self.work(2, 3)
        slots = {"before": before_said, "after": after_said, "n": self.number(n), "list": said}
        middle: list[Item] = [repeat(n, *items)]
        whole = [*([first] if before else []), *middle, *([last] if after else [])]
        return self.say(construct, **slots), sessions.block("for-time", *whole)

    def there_and_back(self) -> Part:
        """Something long before the rounds and after them."""
        return self._around("there-and-back", before=True, after=True)

    def way_in(self) -> Part:
        """Something long before the rounds."""
        return self._around("way-in", before=True, after=False)

    def way_out(self) -> Part:
        """Something long after the rounds."""
        return self._around("way-out", before=False, after=True)

    def amrap(self) -> Part:
        """As many rounds as possible."""
        seconds = 60 * self.rng.randint(5, 25)
        said, items = self.work(2, 4, self.calories, self.far)
        slots = {"time": self.time(seconds), "adjective": self.adjective(seconds), "list": said}
        return self.say("amrap", **slots), sessions.block("amrap", *items, duration_s=seconds)

    def every_minute(self) -> Part:
        """The same work each minute."""
        n = self.rng.randint(6, 20)
        said, items = self.work(1, 2)
        slots = {"total": self.time(60 * n), "adjective": self.adjective(60 * n), "list": said}
        clock = {"every_s": 60, "times": n, "duration_s": 60 * n}
        return self.say("every-minute", **slots), sessions.block("every", *items, **clock)

    def every(self) -> Part:
        """The same work each time the clock comes round."""
        n, period = self.rng.randint(3, 8), self.rng.choice([90, 120, 180, 240])
        if (n * period) % 60:
            n += 1
        said, items = self.work(1, 3, self.calories, self.far)
        slots = {"period": self.time(period).removeprefix("a "), "total": self.time(n * period)}
        slots |= {"n": self.number(n), "times": self.times(n), "list": said}
        clock = {"every_s": period, "times": n, "duration_s": n * period}
        return self.say("every", **slots), sessions.block("every", *items, **clock)

    def turns(self) -> Part:
        """Other work each minute, in turn."""
        turns = self.rng.randint(2, 4)
        total = turns * self.rng.randint(3, 5)
        work = [self.work(1, 1, self.calories) for _ in range(turns)]
        said = [one for one, _ in work]
        slots = {"total": self.time(60 * total), "adjective": self.adjective(60 * total)}
        numbers, nths = ["one", "two", "three", "four"], ["", "second", "third", "fourth"]
        slots["slots"] = said[0] + "".join(
            f", minute {number} is {one}"
            for number, one in zip(numbers[1:], said[1:], strict=False)
        )
        slots["nths"] = said[0] + "".join(
            f", the {nth} minute is {one}" for nth, one in zip(nths[1:], said[1:], strict=False)
        )
        if turns == 2:
            slots["alternating"] = "alternating"
            slots["odd"] = f"Odd minutes are {said[0]}, even minutes are {said[1]}"
        items = [Slot(index=i + 1, items=items) for i, (_, items) in enumerate(work)]
        clock = {"every_s": 60, "times": total, "duration_s": 60 * total}
        return self.say("turns", **slots), sessions.block("every", *items, **clock)

    def intervals(self) -> Part:
        """So long of work, so long of rest, through stations."""
        n, work = self.rng.randint(2, 5), self.rng.choice([20, 30, 40, 45, 50])
        rest = self.rng.choice([10, 15, 20, 30])
        moves = self.several(2, 5)
        slots = {"work": self.time(work), "rest": self.time(rest), "n": self.number(n)}
        slots |= {"times": self.times(n), "names": self.listed(map(many, moves))}
        items = [held(move, work) for move in moves]
        clock = {"work_s": work, "rest_s": rest, "times": n}
        return self.say("intervals", **slots), sessions.block("intervals", *items, **clock)

    def sets(self) -> Part:
        """Sets of one movement with a rest between."""
        n, count, rest = self.rng.randint(3, 6), self.rng.randint(3, 12), self._between()
        name = self.rng.choice(names("counted"))
        slots = {"n": self.number(n), "reps": self.number(count), "names": many(name)}
        text = self.say("sets", **slots, rest=self.time(rest))
        return text, sessions.block("sets", repeat(n, reps(name, count)), rest_s=rest)

    def supersets(self) -> Part:
        """Sets of two or three things: counted, held, or as many as possible."""
        n, rest = self.rng.randint(2, 5), self._between()
        said, items = self.work(2, 3, self.still, self.most)
        text = self.say("supersets", n=self.number(n), list=said, rest=self.time(rest))
        return text, sessions.block("sets", repeat(n, *items), rest_s=rest)

    def _between(self) -> int:
        return self.rng.choice([30, 45, 60, 90, 120, 180])

    def ladder(self) -> Part:
        """Rungs told one by one."""
        usual = [
            (21, 15, 9),
            (15, 12, 9, 6, 3),
            (10, 8, 6, 4, 2),
            (2, 4, 6, 8, 10),
            (20, 15, 10, 5),
        ]
        rungs, moves = self.rng.choice(usual), self.several(2, 3)
        figures = self.rng.random() < self.figures
        told = [str(rung) if figures else num2words(rung) for rung in rungs]
        said = "-".join(told) if figures and not self.flat else ", ".join(told)
        text = self.say("ladder", rungs=said, names=self.listed(map(many, moves)))
        items = [reps(move, None) for move in moves]
        return text, sessions.block("for-time", sessions.ladder(rungs, *items))

    def countdown(self) -> Part:
        """Rungs told by their ends."""
        top, moves = self.rng.choice([5, 8, 10, 12]), self.several(2, 3)
        slots = {"top": self.number(top), "bottom": self.number(1)}
        text = self.say("countdown", **slots, names=self.listed(map(many, moves)))
        items = [reps(move, None) for move in moves]
        rungs = tuple(range(top, 0, -1))
        return text, sessions.block("for-time", sessions.ladder(rungs, *items))

    def cool_down(self) -> Part:
        """An easy way home and stretches."""
        said, items = list[str](), list[Item]()
        if self.rng.random() < 0.6:
            text, item = self.ease(("walk", "row", "jog") if self.unread else ("walk", "jog"))
            said.append(text)
            items.append(item)
        for name in self.rng.sample(names("stretches-each-side"), self.rng.randint(1, 2)):
            seconds = self.rng.choice([20, 30, 40, 45, 60])
            slots = {"name": aloud(name), "time": self.time(seconds)}
            said.append(self.say("held-each-side", **slots))
            items.append(held(name, seconds, per_side=True))
        if self.rng.random() < 0.4:
            name, seconds = self.rng.choice(names("stretches")), self.rng.choice([30, 60, 90])
            said.append(f"{aloud(name)} for {self.time(seconds)}")
            items.append(held(name, seconds))
        text = self.say("cool-down", list=self.listed(said))
        return text, sessions.block("quality", *items, kind="cool-down")

    # --- the talk around it -----------------------------------------------------------

    def opened(self) -> tuple[str, str, Date]:
        """The greeting, the title and the date."""
        day = datetime.date(2026, 1, 1) + datetime.timedelta(days=self.rng.randrange(365))
        weekday, month = f"{day:%A}", f"{day:%B}"
        date = self.say(
            "date", weekday=weekday, month=month, nth=self._nth(day.day), year=str(day.year)
        )
        told = Date(
            year=day.year if str(day.year) in date else None,
            month=day.month,
            day=day.day,
            weekday=weekday.lower() if weekday in date else None,
        )
        title = self.rng.choice(tables()["title"]["said"])
        return self.say("opening", title=title, date=date), title, told

    def _nth(self, day: int) -> str:
        if self.rng.random() < self.figures:
            return num2words(day, to="ordinal_num")
        return num2words(day, to="ordinal")

    def chatted(self, parts: list[str]) -> list[str]:
        """The parts with a filler before some and a little talk between others."""
        out = list[str]()
        for part in parts:
            if self.rng.random() < 0.2:
                out.append(self.rng.choice(tables()["chat"]["said"]))
            if self.rng.random() < 0.25:
                filler = self.rng.choice(tables()["filler"]["said"]).capitalize()
                part = f"{filler}, {part[0].lower()}{part[1:]}"
            out.append(part)
        return out


CONSTRUCTS: dict[str, Callable[[Speaker], Part]] = {
    "rounds": Speaker.rounds,
    "once": Speaker.once,
    "there-and-back": Speaker.there_and_back,
    "way-in": Speaker.way_in,
    "way-out": Speaker.way_out,
    "amrap": Speaker.amrap,
    "every-minute": Speaker.every_minute,
    "every": Speaker.every,
    "turns": Speaker.turns,
    "intervals": Speaker.intervals,
    "sets": Speaker.sets,
    "supersets": Speaker.supersets,
    "ladder": Speaker.ladder,
    "countdown": Speaker.countdown,
}


def _alike(one: str, other: str) -> bool:
    """Whether two names share their last word, and would be taken for one another."""
    return one == other or one.split("-")[-1] == other.split("-")[-1]


def session(
    rng: Random, *, work: tuple[str, ...] = (), unread: bool = False, flat: bool | None = None
) -> Spoken:
    """A talk; ``work`` names the constructs of its work parts, one or two at random if empty."""
    figures = rng.choice([0.0, 1.0, 0.5])
    flat = rng.random() < 0.5 if flat is None else flat
    speaker = Speaker(rng, unread=unread, flat=flat, figures=figures)
    opening, title, date = speaker.opened()
    opened = tuple(speaker.used)
    chosen = work or tuple(rng.sample(list(CONSTRUCTS), rng.randint(1, 2)))
    ways = {"warm-up": Speaker.warm_up, **CONSTRUCTS, "cool-down": Speaker.cool_down}
    order = ("warm-up", *chosen, "cool-down")
    said, blocks, phrases = [opening], list[Block](), list[tuple[str, ...]]()
    for number, construct in enumerate(order):
        speaker.used = []
        text, block = ways[construct](speaker)
        if number > 1:
            text = re.sub(r"main (piece|part|workout|event)", "next piece", text)
        said.append(_sentences(text))
        blocks.append(block.model_copy(update={"id": f"b{number + 1}"}))
        phrases.append(tuple(speaker.used))
    said.append(rng.choice(tables()["goodbye"]["said"]))
    text = " ".join([said[0], *speaker.chatted(said[1:])])
    if flat:
        text = _flat(text)
    captions = rng.random() < 0.5
    return Spoken(
        text=_captions(rng, text) if captions else text + "\n",
        suffix=".vtt" if captions else ".txt",
        plan=sessions.plan(*blocks, title=title, date=date),
        constructs=order,
        phrases=tuple(phrases),
        opening=opened,
        style=f"{'flat' if flat else 'written'}, {'captions' if captions else 'text'}",
    )


def _sentences(text: str) -> str:
    return re.sub(r"(^|[.?!] )([a-z])", lambda m: m[1] + m[2].upper(), text)


def _flat(text: str) -> str:
    """Lower case, without punctuation, as a recogniser writes it."""
    text = re.sub(r"(?<=[a-z])-(?=[a-z])", " ", text.lower())
    return " ".join(re.sub(r"[,.:;?!]", " ", text).split())


def _captions(rng: Random, text: str) -> str:
    """The words in lines of a few, each with its time."""
    words, at, cues = text.split(), 1.0, ["WEBVTT\n"]
    while words:
        size = rng.randint(4, 10)
        line, words = words[:size], words[size:]
        end = at + 0.38 * len(line)
        cues.append(f"{_stamp(at)} --> {_stamp(end)}\n{' '.join(line)}\n")
        at = end + 0.05
    return "\n".join(cues)


def _stamp(seconds: float) -> str:
    whole = int(seconds)
    return f"{whole // 3600:02}:{whole // 60 % 60:02}:{seconds % 60:06.3f}"

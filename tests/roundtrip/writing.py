"""Random sessions written down: the sessions that ``speaking`` tells, in many layouts."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from random import Random

from roundtrip.speaking import CONSTRUCTS, aloud, many, session

from cuewright_models.plan import (
    Amrap,
    Block,
    Effort,
    Every,
    ForTime,
    Intervals,
    Item,
    Ladder,
    Plan,
    Repeat,
    Sets,
    Slot,
)

LAYOUTS = (
    "bullets under headings", "stars under bold", "numbers under bold", "capitals and plain lines",
    "letters", "one line a part", "one line a part, slashes", "tables", "nested numbers",
    "emoji", "web editor", "headings with the work", "names first", "signs for units",
    "capitals, all of it",
)  # fmt: skip
_PARTS = {"warm-up": ("Warm-up", "Warm up"), "cool-down": ("Cool-down", "Cool down")}
_WORK = ("Main piece", "Main", "Workout", "The piece")


@dataclass(frozen=True)
class Written:
    """A session as text, and what it means."""

    text: str
    plan: Plan
    construct: str
    layout: str


def written(rng: Random, layout: str, construct: str | None = None) -> Written:
    """A random session in a layout."""
    work = construct or rng.choice([*CONSTRUCTS])
    plan = session(rng, work=(work,)).plan
    return Written(_Writer(rng, layout).write(plan), plan, work, layout)


@dataclass
class _Writer:
    """Writes a plan in one layout."""

    rng: Random
    layout: str

    def write(self, plan: Plan) -> str:
        title = f"# {plan.title}\n\n" if plan.title and self.layout.startswith("bullets") else ""
        parts = [self._block(block, at) for at, block in enumerate(plan.blocks)]
        if self.layout == "web editor":
            return "\n".join(parts)
        text = title + "\n\n".join(parts) + "\n"
        return text.upper() if self.layout == "capitals, all of it" else text

    def _block(self, block: Block, at: int) -> str:
        head, structure = self._head(block), _structure(block, self.rng)
        if self.layout == "letters":
            inside = " - ".join(filter(None, (head, structure)))
            return f"{'ABCDEF'[at]}) {inside}\n" + "\n".join(self._lines(block.items, "- "))
        if self.layout.startswith("one line"):
            mark = " / " if "slashes" in self.layout else ", "
            told = ", ".join(filter(None, (structure, mark.join(self._inline(block.items)))))
            return f"{head}: {told}"
        if self.layout == "web editor":
            under = f"<p>{structure}</p>" if structure else ""
            return f"<h2>{head}</h2>{under}{self._html(block.items)}"
        if self.layout == "nested numbers":
            inside = ", ".join(filter(None, (head, structure)))
            lines = self._lines(block.items, "- ")
            return f"{at + 1}. {inside}\n" + "\n".join(f"   {line}" for line in lines)
        return self._headed(head, structure, block)

    def _headed(self, head: str, structure: str, block: Block) -> str:
        """A heading, the structure in it or below it, and the work line by line."""
        opens, bullet = {
            "bullets under headings": ("## {}", "- "),
            "stars under bold": ("**{}**", "* "),
            "numbers under bold": ("**{}**", "- "),
            "capitals and plain lines": ("{}", ""),
            "emoji": ("🔥 {}", "🔹 "),
            "capitals, all of it": ("{}", "- "),
        }.get(self.layout, ("## {}", "- "))
        if self.layout == "capitals and plain lines":
            head = head.upper()
        together = self.layout == "headings with the work" and structure
        top = opens.format(f"{head}: {structure}" if together else head)
        lines = [] if together or not structure else [structure, ""][: 2 if bullet else 1]
        if self.layout == "tables" and _tabular(block.items):
            return "\n".join([top, "", *lines, *self._table(block.items)])
        return "\n".join([top, *lines, *self._lines(block.items, bullet)])

    def _head(self, block: Block) -> str:
        return self.rng.choice(_PARTS.get(block.kind, _WORK))

    def _lines(self, items: Sequence[Item], bullet: str, indent: str = "") -> list[str]:
        out: list[str] = []
        for item in items:
            match item:
                case Repeat() if _one(item):
                    out.append(indent + bullet + self._set(item))
                case Repeat():
                    out.append(f"{indent}{bullet}{_times(item)}:")
                    out += self._lines(item.items, bullet, indent + "  " if bullet else indent)
                    out += [""] if not bullet else []
                case Ladder():
                    out.append(indent + bullet + "-".join(map(str, item.rungs)))
                    out += [indent + bullet + _plural(e) for e in item.items]
                case Slot():
                    inside = ", ".join(self._inline(item.items))
                    out.append(f"{indent}{bullet}Minute {item.index}: {inside}")
                case Effort():
                    out.append(indent + bullet + self._effort(item))
        return out

    def _inline(self, items: Sequence[Item]) -> Iterator[str]:
        closed = False
        for item in items:
            match item:
                case Repeat() if _one(item):
                    yield self._set(item)
                case Repeat():
                    closed = True
                    yield f"{_times(item)}: {', '.join(self._inline(item.items))}"
                case Ladder():
                    yield f"{'-'.join(map(str, item.rungs))} " + ", ".join(map(_plural, item.items))
                case Slot():
                    yield f"min {item.index}: {', '.join(self._inline(item.items))}"
                case Effort():
                    yield ("then " if closed else "") + self._effort(item)

    def _set(self, item: Repeat) -> str:
        effort, times = item.items[0], f"{item.times.low:g}"
        assert isinstance(effort, Effort)
        rest = f", rest {_seconds(item.rest_s)}" if item.rest_s else ""
        name, side = aloud(effort.movement), " each side" if effort.per_side else ""
        amount = _amount(effort, self.rng)
        ways = (f"{name} {times} x {amount}{side}", f"{times} x {amount} {name}{side}",
                f"{name}: {times} sets of {amount}{side}")  # fmt: skip
        return self.rng.choice(ways) + rest

    def _effort(self, effort: Effort) -> str:
        side = self.rng.choice((" each side", " per side", " e/s")) if effort.per_side else ""
        name = _plural(effort) if effort.unit == "reps" else aloud(effort.movement)
        signs = self.layout == "signs for units"
        amount = _signed(effort) if signs else _amount(effort, self.rng)
        if effort.max:
            return f"max {name}"
        if effort.low is None:
            return name
        if self.layout == "names first":
            return f"{name.capitalize()}: {amount}{side}"
        return f"{amount} {name}{side}"

    def _table(self, items: Sequence[Item]) -> Iterator[str]:
        slots = isinstance(items[0], Slot)
        yield "| min | work |" if slots else "| Movement | Amount |"
        yield "|---|---|"
        for item in items:
            match item:
                case Slot():
                    yield f"| {item.index} | {', '.join(self._inline(item.items))} |"
                case Effort():
                    side = " each side" if item.per_side else ""
                    yield f"| {_plural(item)} | {_amount(item, self.rng)}{side} |"

    def _html(self, items: Sequence[Item]) -> str:
        out = []
        for item in items:
            if isinstance(item, Repeat) and not _one(item):
                out.append(f"<li>{_times(item)}:{self._html(item.items)}</li>")
            else:
                out += [f"<li>{line}</li>" for line in self._lines([item], "")]
        return f"<ul>{''.join(out)}</ul>"


def _tabular(items: Sequence[Item]) -> bool:
    return all(isinstance(i, Slot) or (isinstance(i, Effort) and i.low is not None) for i in items)


def _one(item: Repeat) -> bool:
    """Sets of one movement."""
    return len(item.items) == 1 and isinstance(item.items[0], Effort) and not item.items[0].max


def _times(item: Repeat) -> str:
    rest = f", rest {_seconds(item.rest_s)}" if item.rest_s else ""
    return f"{item.times.low:g} rounds{rest}"


def _structure(block: Block, rng: Random) -> str:
    match block.structure:
        case ForTime(cap_s=None):
            return "For time"
        case ForTime(cap_s=cap):
            return f"For time, {_seconds(cap)} cap"
        case Amrap(duration_s=long):
            return rng.choice((f"AMRAP {_seconds(long)}", f"{_seconds(long)} AMRAP"))
        case Every(every_s=60, times=times):
            return rng.choice((f"EMOM {times}", f"EMOM {times} min", f"Every minute x {times}"))
        case Every(every_s=every, times=times):
            return f"Every {_seconds(every)} x {times}"
        case Intervals(work_s=work, rest_s=rest, times=times):
            return rng.choice(
                (f"{work:g}s on/{rest:g}s off x {times}",
                 f"{work:g} s work, {rest:g} s rest, {times} rounds")
            )  # fmt: skip
        case Sets(rest_s=rest) if rest:
            return f"Rest {_seconds(rest)} between sets"
    return ""


def _plural(effort: Effort) -> str:
    return many(effort.movement) if effort.unit == "reps" else aloud(effort.movement)


def _seconds(seconds: float | None) -> str:
    if seconds and seconds % 60 == 0:
        return f"{seconds / 60:g} min"
    return f"{seconds:g} s"


def _amount(effort: Effort, rng: Random) -> str:
    low, high = effort.low or 0, effort.high
    told = f"{low:g}" if high in (None, low) else f"{low:g}-{high:g}"
    if effort.unit == "s" and high in (None, low):
        clock = f"{low // 60:g}:{low % 60:02g}"
        return rng.choice((_seconds(low), f"{low:g}s", clock))
    if effort.unit == "m":
        return rng.choice((f"{round(low)} m", f"{round(low)}m"))
    return told + {"s": " s", "kcal": " cal"}.get(effort.unit, "")


def _signed(effort: Effort) -> str:
    """ "30\"" and "5'"."""
    low = effort.low or 0
    if effort.unit == "s" and effort.high in (None, low):
        return f"{low / 60:g}'" if low % 60 == 0 else f'{low:g}"'
    return _amount(effort, Random(0))

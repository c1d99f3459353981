"""A block while it is being said: open repeats, amounts still to come, a clock not yet known."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal

from cuewright.parse.efforts import Bound
from cuewright_models.base import Range
from cuewright_models.divided import Section
from cuewright_models.plan import BlockKind
from cuewright_models.tokens import Amount

Clock = Literal["for-time", "amrap", "every", "intervals"]


@dataclass(slots=True)
class Work:
    """An effort as bound, or a rest, which has no ``bound``; the amount may still come."""

    bound: Bound | None
    amount: Amount | None
    kept: bool = False
    """True for work that stands without an amount ("walk back")."""

    @property
    def rest(self) -> bool:
        return self.bound is None

    @property
    def movement(self) -> str:
        """The movement's name, empty for a rest."""
        return self.bound.movement if self.bound else ""

    @property
    def bare(self) -> bool:
        """Whether the work waits for an amount."""
        if self.bound is None or self.kept or self.bound.max:
            return False
        return self.amount is None


@dataclass(slots=True)
class Group:
    """Items done together: the block's own line, a repeat, a slot or a ladder."""

    kind: Literal["line", "repeat", "slot", "ladder"] = "line"
    times: Range | None = None
    index: int = 0
    """The place of a slot, where it is not the next after the slot before."""
    said: int = 0
    """The number by which a slot was called, 0 for none."""
    rungs: tuple[int, ...] = ()
    """Of a ladder."""
    rest_s: float | None = None
    items: list["Work | Group"] = field(default_factory=list)
    places: list[tuple[int, int]] = field(default_factory=list)
    single: bool = False
    """True for sets of one movement only."""
    listed: bool = False
    """True once an "and" has closed the list of its efforts."""

    def works(self) -> Iterator[Work]:
        """Every effort and rest below, in order."""
        for item in self.items:
            if isinstance(item, Work):
                yield item
            else:
                yield from item.works()


@dataclass(slots=True)
class Draft:
    """A block being built. Times in seconds; ``places`` are token ranges where it was said."""

    section: Section
    kind: BlockKind
    named: bool = False
    """Whether a heading says its kind."""
    clock: Clock | None = None
    cap_s: float | None = None
    duration_s: float | None = None
    every_s: float | None = None
    times: int | None = None
    """Starts of the clock, or rounds of intervals."""
    counted: int | None = None
    """Rounds that were counted against a clock; its starts, unless they go round several things."""
    work_s: float | None = None
    rest_s: float | None = None
    loose_rest: float | None = None
    """A rest told before the sets or rounds that it is for."""
    sets: bool = False
    share: Amount | None = None
    """What each bare effort asks for: "thirty seconds each"."""
    rungs: tuple[int, ...] = ()
    climbed: list[int] = field(default_factory=list)
    """Tokens at which rungs were given."""
    top: Group = field(default_factory=Group)
    open: Group | None = None
    places: list[tuple[int, int]] = field(default_factory=list)

    @property
    def line(self) -> Group:
        """Where the next effort goes."""
        return self.open or self.top

    @property
    def latest(self) -> Group | None:
        """The repeat that is open, or that ends the block."""
        last = self.open or (self.top.items[-1] if self.top.items else None)
        return last if isinstance(last, Group) and last.kind == "repeat" else None

    @property
    def repeats(self) -> list[Group]:
        """The repeats of the block's own line."""
        return [i for i in self.top.items if isinstance(i, Group) and i.kind == "repeat"]

    @property
    def empty(self) -> bool:
        return not self.top.items and self.clock is None

    @property
    def given(self) -> bool:
        """Whether some of its work has all it needs."""
        return any(not work.bare for work in self.top.works())

    @property
    def filled(self) -> bool:
        """Whether it has work; the stations of intervals need no amounts."""
        return any(not work.bare or self.clock == "intervals" for work in self.top.works())

    @property
    def efforts(self) -> list[Work]:
        """Every effort, rests left out."""
        return [work for work in self.top.works() if work.bound]

    @property
    def movements(self) -> set[str]:
        return {work.movement for work in self.efforts}

    def add(self, group: Group) -> None:
        """Open a group at the end of the block; the group before it is closed."""
        self.top.items.append(group)
        self.open = group

    def add_closed(self, group: Group) -> None:
        """A group at the end of the block that takes no more."""
        self.top.items.append(group)
        self.open = None

    def close(self) -> None:
        """What comes next is outside the rounds."""
        if self.open is not None and self.open.kind == "repeat":
            self.open = None


def rest_after(items: Sequence[Work | Group]) -> float | None:
    """The rest said after each round of the first repeat that has one, in seconds."""
    for group in items:
        if isinstance(group, Group) and group.kind == "repeat":
            last = group.items[-1] if group.items else None
            if group.rest_s is not None:
                return group.rest_s
            if isinstance(last, Work) and last.rest and last.amount is not None:
                return last.amount.low
    return None

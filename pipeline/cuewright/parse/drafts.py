"""A block while it is being said: open repeats, amounts still to come, a clock not yet known."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from cuewright.parse.efforts import Bound
from cuewright_models.base import Range
from cuewright_models.divided import Section
from cuewright_models.plan import BlockKind
from cuewright_models.tokens import Amount


@dataclass(slots=True)
class Work:
    """An effort as bound, or a rest; ``bare`` work waits for a shared amount."""

    bound: Bound | None
    amount: Amount | None
    rest: bool = False
    kept: bool = False
    """True for work that stands without an amount ("walk back")."""

    @property
    def bare(self) -> bool:
        return (
            not self.rest
            and not self.kept
            and self.amount is None
            and not (self.bound and self.bound.max)
        )


@dataclass(slots=True)
class Group:
    """Items done together: the block's own line, a repeat, a ladder or a slot."""

    kind: str = "line"
    times: Range | None = None
    rungs: tuple[int, ...] = ()
    index: int = 0
    rest_s: float | None = None
    items: list["Work | Group"] = field(default_factory=list)
    places: list[tuple[int, int]] = field(default_factory=list)
    single: bool = False
    """True for sets of one movement only."""
    listed: bool = False
    """True once an "and" has closed the list of its efforts."""

    def works(self) -> list[Work]:
        """Every effort and rest below, in order."""
        out: list[Work] = []
        for item in self.items:
            out.extend([item] if isinstance(item, Work) else item.works())
        return out


@dataclass(slots=True)
class Draft:
    """A block being built; ``places`` are the token ranges where it was said."""

    section: Section
    kind: BlockKind
    name: str | None = None
    clock: str | None = None
    cap_s: float | None = None
    duration_s: float | None = None
    every_s: float | None = None
    times: int | None = None
    work_s: float | None = None
    rest_s: float | None = None
    sets: bool = False
    share: Amount | None = None
    rungs: tuple[int, ...] = ()
    climbed: list[int] = field(default_factory=list)
    """Tokens at which rungs were given."""
    top: Group = field(default_factory=Group)
    open: Group | None = None
    places: list[tuple[int, int]] = field(default_factory=list)
    stated: list[tuple[Amount, int, int]] = field(default_factory=list)
    spoken: list[tuple[str, Amount, int, int]] = field(default_factory=list)
    """Rounds or sets said again: (unit, amount, start, end)."""

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
    def empty(self) -> bool:
        return not self.top.items and self.clock is None

    def add(self, group: Group) -> None:
        """Open a group at the end of the block; the group before it is closed."""
        self.top.items.append(group)
        self.open = group


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

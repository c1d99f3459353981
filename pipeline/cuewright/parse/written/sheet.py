"""The sheet that a written session is copied to: its blocks, and the rounds still open."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from cuewright.parse.drafts import Draft, Group, Work
from cuewright_models.divided import Section
from cuewright_models.plan import BlockKind
from cuewright_models.tokens import Amount, Token

SECTIONS: dict[BlockKind, Section] = {
    "warm-up": "warm-up",
    "mobility": "warm-up",
    "cool-down": "cool-down",
}
_HEADING = -1
"""The depth of rounds that a heading opens: they last as long as its block."""


@dataclass(slots=True)
class Scope:
    """Rounds, or an interval, that take in the lines standing deeper than ``depth``.

    ``loose`` ones have no such lines and take in the lines beside them, up to a gap.
    """

    depth: int
    group: Group
    share: Amount | None = None
    loose: bool = False


@dataclass(slots=True)
class Sheet:
    """Drafts in the order written; what is open takes in the next line's work."""

    tokens: Sequence[Token]
    drafts: list[Draft] = field(default_factory=list)
    scopes: list[Scope] = field(default_factory=list)
    shares: list[Amount | None] = field(default_factory=list)
    """What each bare effort asks for, by block, as its heading says."""
    headed: bool = False
    """Whether a heading or a letter opened the block."""
    numbered: bool = False
    """Whether the intervals of its clock are numbered lines."""
    rest_s: float | None = None
    """A rest that was told before the rounds or sets it is for."""
    pair: str = ""
    """The letter of a superset that is being written."""
    last_line: list[Work | Group] = field(default_factory=list)
    """What the line before put down."""

    @property
    def draft(self) -> Draft:
        return self.drafts[-1]

    def start(self, kind: BlockKind, *, headed: bool) -> Draft:
        """Open the next block."""
        self.drafts.append(Draft(SECTIONS.get(kind, "work"), kind))
        self.shares.append(None)
        self.scopes, self.headed, self.numbered = [], headed, False
        self.rest_s, self.pair = None, ""
        return self.draft

    @property
    def share(self) -> Amount | None:
        """What a bare effort asks for here."""
        inner = (scope.share for scope in reversed(self.scopes) if scope.share)
        return next(inner, self.shares[-1])

    @property
    def target(self) -> Group:
        """Where the next effort goes."""
        return self.scopes[-1].group if self.scopes else self.draft.top

    def leave(self, depth: int, *, onward: bool) -> None:
        """Close what a line at ``depth`` stands outside of; ``onward`` closes what is loose."""
        while self.scopes and self._outside(self.scopes[-1], depth, onward=onward):
            self.scopes.pop()

    def _outside(self, scope: Scope, depth: int, *, onward: bool) -> bool:
        if scope.loose and depth >= scope.depth:
            return onward and bool(scope.group.items)
        return depth <= scope.depth

    def open(self, group: Group, depth: int, *, heading: bool, loose: bool) -> Scope:
        """Open rounds or an interval inside what is open."""
        if group.rest_s is None and group.kind == "repeat":
            group.rest_s, self.rest_s = self.rest_s, None
        self.target.items.append(group)
        scope = Scope(_HEADING if heading else depth, group, loose=loose)
        self.scopes.append(scope)
        return scope

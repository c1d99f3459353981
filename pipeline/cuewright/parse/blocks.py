"""Blocks: what is prescribed, folded clause by clause into the session as performed."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache

from cuewright.movements.catalogue import catalogue
from cuewright.parse.corrections import corrections, taken_back
from cuewright.parse.drafts import Draft, Group, Work
from cuewright.parse.efforts import Bound, efforts
from cuewright.parse.kit import kit_named, specific
from cuewright.parse.spans import Row, row
from cuewright.parse.structures import Mark, marks
from cuewright.phrases import Phrases, spoken_of
from cuewright.tables import raw
from cuewright_models.base import Range
from cuewright_models.divided import Clause, Divided, Section
from cuewright_models.plan import BlockKind
from cuewright_models.tokens import Amount, Mention, Token

_SLOTS = frozenset("one minute minutes station interval thing window slot exercise is it's".split())
_POINTS = frozenset("that's it's is one's another".split())
_NEAR = 25
"""Tokens after an effort within which its amount may still come."""
_SILENT: frozenset[Section] = frozenset(("open", "close", "pacing"))
_PREPARE: frozenset[Section] = frozenset(("warm-up", "cool-down"))
_KIND: dict[str, BlockKind] = {"warm-up": "warm-up", "cool-down": "cool-down"}


@cache
def _phrases() -> Phrases:
    table = raw("cuewright.parse", "blocks.toml")
    kinds = {f"kind {kind}": said for kind, said in table["kinds"].items()}
    rest = {key: table[key]["said"] for key in ("close", "for-time", "as-many", "sets")}
    return Phrases(kinds | rest)


class Folder:
    """Folds the clauses of a divided talk into drafts; read ``fold`` first."""

    def __init__(self, divided: Divided) -> None:
        self.reading = divided.reading
        self.tokens = divided.reading.tokens
        self.clauses = divided.clauses
        self.drafts: list[Draft] = []
        self.kit = kit_named(divided.reading.stems)
        self.corrections = corrections(divided.reading)
        self.without = taken_back(divided.reading, self.corrections)
        self.found: dict[int, list[Mention]] = {}
        owner = [i for i, c in enumerate(self.clauses) for _ in range(c.start, c.end)]
        for mention in _phrases().everywhere(self.reading.stems):
            if mention.name.startswith("kind ") and spoken_of(self.tokens, mention.start):
                continue
            self.found.setdefault(owner[mention.start], []).append(mention)

    def fold(self) -> list[Draft]:
        """Every clause that prescribes, in the order of the talk."""
        for run in self._runs():
            first, last = self.clauses[run[0]], self.clauses[run[-1]]
            spans = row(self.reading, first.start, last.end, without=self.without)
            said = marks(spans, self.tokens)
            for place in run:
                clause = self.clauses[place]
                here = [m for m in said if clause.start <= m.start < clause.end]
                self._clause(clause, here, self.found.get(place, []))
        return [draft for draft in self.drafts if not draft.empty or draft.top.items]

    @property
    def draft(self) -> Draft:
        return self.drafts[-1]

    def _runs(self) -> Iterator[list[int]]:
        """Places of clauses that prescribe without a break; a structure may span their borders."""
        run: list[int] = []
        for place, clause in enumerate(self.clauses):
            if clause.role == "prescription" and clause.section not in _SILENT:
                if run and self.clauses[run[-1]].section != clause.section:
                    yield run
                    run = []
                run.append(place)
            elif run:
                yield run
                run = []
        if run:
            yield run

    def _clause(self, clause: Clause, said: Sequence[Mark], phrases: Sequence[Mention]) -> None:
        self._place(clause, phrases)
        spans = row(self.reading, clause.start, clause.end, without=self.without)
        bound = [
            replace(b, movement=specific(b.movement, self.kit))
            for b in efforts(spans, said, self.tokens)
        ]
        if self._moves_on(clause):
            self._close()
        self._clocks(spans, said, phrases)
        for at, event in sorted(
            [(self._front(m, bound), m) for m in said]
            + [(b.first, b) for b in bound]
            + [(at, "slot") for at in self._ordinals(spans)]
            + [(p.start, p) for p in phrases if p.name == "close"],
            key=lambda pair: (pair[0], isinstance(pair[1], Bound)),
        ):
            del at
            if isinstance(event, Bound):
                self._effort(event, said)
            elif isinstance(event, Mark):
                self._mark(event, bound)
            elif event == "slot":
                self._slot()
            else:
                self._close()
        self._orphans(spans, said, bound)
        if self.drafts:
            self.draft.places.append((clause.start, clause.end))
            if bound and self.draft.open is not None:
                self.draft.open.listed = self._listed(bound)

    @staticmethod
    def _front(mark: Mark, bound: Sequence[Bound]) -> int:
        """Sets said between a movement and its reps come before both."""
        if mark.kind in ("sets", "by"):
            return next((b.first for b in bound if b.first <= mark.start < b.last), mark.start)
        return mark.start

    # --- which block ------------------------------------------------------------------

    def _place(self, clause: Clause, phrases: Sequence[Mention]) -> None:
        """Start a new block where the talk moves on to one."""
        named = [p.name.removeprefix("kind ") for p in phrases if p.name.startswith("kind ")]
        section = clause.section if clause.section in _PREPARE else "work"
        moved = not self.drafts or self.draft.section != section
        fresh = [kind for kind in named if not self.drafts or kind != self.draft.kind or kind == "any"]
        opened = bool(fresh) and bool(self.drafts) and not self.draft.empty
        if moved or opened:
            self.drafts.append(Draft(section, _KIND.get(section, "conditioning")))
        for kind in named:
            if kind != "any" and (section == "work") == (kind not in ("warm-up", "cool-down", "mobility")):
                self.draft.kind = kind  # type: ignore[assignment]
            elif kind == "mobility" and section == "warm-up":
                self.draft.kind = "mobility"

    # --- clocks -----------------------------------------------------------------------

    def _clocks(self, spans: Row, said: Sequence[Mark], phrases: Sequence[Mention]) -> None:
        """Structure statements that set the clock of the block."""
        names = {p.name for p in phrases}
        times = [s.amount for s in spans.spans if s.letter == "t" and s.amount is not None]
        kinds = {m.kind for m in said}
        if "amrap" in kinds or ("as-many" in names and times):
            self._start_clock("amrap")
            self.draft.duration_s = self.draft.duration_s or (times[0].high if times else None)
        elif "for-time" in names:
            self._start_clock("for-time")
        for mark in said:
            if mark.kind in ("every", "emom"):
                self._start_clock("every")
                self._every(mark, spans)
            elif mark.kind == "intervals":
                self._start_clock("intervals")
                self.draft.work_s, self.draft.rest_s = mark.amounts[0].low, mark.amounts[1].low
            elif mark.kind == "cap" and mark.amounts and self.draft.clock in (None, "for-time"):
                self.draft.clock = "for-time"
                self.draft.cap_s = mark.amounts[0].high
        if "sets" in names:
            self.draft.sets = True

    def _start_clock(self, clock: str) -> None:
        """A second clock in a block that has work already starts the next block."""
        draft = self.draft
        if draft.top.items and (draft.clock not in (None, clock) or (draft.sets and not draft.clock)):
            self.drafts.append(Draft(draft.section, draft.kind))
        elif draft.clock == clock and draft.top.items and clock in ("amrap", "every") and draft.duration_s:
            pass
        self.draft.clock = clock

    def _every(self, mark: Mark, spans: Row) -> None:
        draft = self.draft
        if draft.every_s is not None and draft.duration_s is not None:
            return
        every = mark.amounts[0].low if mark.amounts else 60.0
        draft.every_s = every
        after = [s for s in spans.spans if s.start >= mark.end and s.amount is not None]
        before = [s for s in spans.spans if s.end <= mark.start and s.amount is not None]
        for span in (*after[:2], *reversed(before[-1:])):
            amount = span.amount
            if amount is not None and amount.unit == "s" and amount.low and every and amount.low >= 2 * every:
                draft.duration_s = amount.low
                return
        for span in after[:1]:
            following = self.tokens[span.end].norm if span.end < len(self.tokens) else ""
            if span.amount and span.letter == "n" and following in ("times", "rounds", "turns"):
                draft.times = int(span.amount.low or 0)

    # --- marks ------------------------------------------------------------------------

    def _mark(self, mark: Mark, bound: Sequence[Bound]) -> None:
        draft = self.draft
        if mark.kind == "rounds" or mark.kind == "turns":
            self._rounds(mark, bound)
        elif mark.kind in ("sets", "by"):
            self._sets(mark, bound)
        elif mark.kind == "rest":
            self._rest(mark)
        elif mark.kind == "share":
            if not any(b.amount is mark.amounts[0] for b in bound):
                draft.share = mark.amounts[0]
        elif mark.kind == "ladder" and mark.amounts[0].unit is None:
            self._ladder(mark)
        elif mark.kind == "slot":
            self._slot()

    def _rounds(self, mark: Mark, bound: Sequence[Bound]) -> None:
        draft, amount = self.draft, mark.amounts[0]
        if draft.clock == "intervals":
            if draft.times is None:
                draft.times = int(amount.low or 0)
            return
        if draft.clock in ("amrap", "every"):
            return
        times = Range(low=amount.low, high=amount.high)
        ahead = any(b.first >= mark.end and b.amount is not None for b in bound)
        group = draft.open
        if group is not None and group.times == times:
            return
        if group is not None and not group.items:
            group.times = times
        elif ahead or not draft.line.items:
            draft.add(Group("repeat", times))
        elif group is None and draft.top.items and not any(isinstance(i, Group) for i in draft.top.items):
            wrapped = Group("repeat", times, items=draft.top.items)
            draft.top.items = [wrapped]
            draft.open = wrapped
        else:
            draft.spoken.append(("rounds", amount, mark.start, mark.end))

    def _sets(self, mark: Mark, bound: Sequence[Bound]) -> None:
        draft, amount = self.draft, mark.amounts[0]
        draft.sets = True
        count = amount.values[0] if mark.kind == "by" else amount.low
        times = Range(low=count, high=count if mark.kind == "by" else amount.high)
        around = next((b for b in bound if b.first <= mark.start < b.last), None)
        before = next((b for b in reversed(bound) if b.last <= mark.start), None)
        if mark.kind == "by" and around is None:
            around = before or next((b for b in bound if b.first >= mark.end), None)
        if around is not None:
            if not (draft.open is not None and not draft.open.items and draft.open.times == times):
                draft.add(Group("repeat", times, single=around.start <= mark.start or mark.kind == "by"))
            return
        ahead = any(b.first >= mark.end for b in bound)
        group = draft.open
        if ahead or not draft.line.items:
            if not (group is not None and not group.items and group.times == times):
                draft.add(Group("repeat", times))
        elif group is None and isinstance(draft.top.items[-1], Work):
            loose = draft.top.items.pop()
            draft.add(Group("repeat", times, items=[loose]))
        elif group is None:
            last = draft.top.items[-1]
            if isinstance(last, Group) and last.times != times:
                draft.spoken.append(("sets", amount, mark.start, mark.end))
        elif group.times != times:
            draft.spoken.append(("sets", amount, mark.start, mark.end))

    def _rest(self, mark: Mark) -> None:
        draft, seconds = self.draft, mark.amounts[0].low
        if draft.clock == "intervals":
            return
        if draft.sets and (mark.between == "set" or draft.clock is None):
            draft.rest_s = draft.rest_s if draft.rest_s is not None else seconds
        elif mark.between and draft.open is not None:
            draft.open.rest_s = seconds
        elif draft.open is not None:
            draft.open.items.append(Work(None, mark.amounts[0], rest=True))
        elif draft.clock is None and draft.section == "work" and mark.between == "set":
            draft.sets, draft.rest_s = True, seconds

    def _ladder(self, mark: Mark) -> None:
        draft = self.draft
        rungs = tuple(int(v) for v in mark.amounts[0].values)
        said = [w.amount.low for w in draft.line.works() if w.amount is not None]
        if said[-len(rungs) :] == [float(r) for r in rungs]:
            return  # the list sums up what was just said
        draft.rungs = draft.rungs or rungs

    def _slot(self) -> None:
        draft = self.draft
        if draft.clock != "every":
            return
        draft.add(Group("slot", index=1 + sum(isinstance(i, Group) for i in draft.top.items)))

    def _ordinals(self, spans: Row) -> Iterator[int]:
        """Where "first one", "odd minutes" and the like name an interval of an every block."""
        for span in spans.spans:
            after = self._norm(span.end)
            if span.letter == "o" and (after in _SLOTS or self.tokens[span.end - 1].after):
                yield span.start
            elif span.word in ("odd", "even") or (span.word == "odds" or span.word == "evens"):
                yield span.start

    def _norm(self, at: int) -> str:
        return self.tokens[at].norm if at < len(self.tokens) else ""

    def _moves_on(self, clause: Clause) -> bool:
        """Whether a clause leaves the rounds that stand before it."""
        norms = [t.norm for t in self.tokens[clause.start : min(clause.start + 10, clause.end)]]
        if any(w in norms for w in ("when", "once", "after")) and any(r in norms for r in ("round", "rounds")):
            return any(d in norms for d in ("done", "over", "finished", "complete", "last", "final"))
        group = self.draft.open if self.drafts else None
        if group is None or group.kind != "repeat" or not group.listed:
            return False
        return norms[:1] == ["then"] or norms[:2] in (["and", "then"], ["after", "that"])

    def _orphans(self, spans: Row, said: Sequence[Mark], bound: Sequence[Bound]) -> None:
        """An amount without a movement: for the effort still bare, or the same way again."""
        if bound or not self.drafts or self.draft.share or any(m.kind != "rest" for m in said):
            return
        used = {at for m in said for at in range(m.start, m.end)}
        left = [s.amount for s in spans.spans if s.letter in "ntdc" and s.start not in used and s.amount]
        works = [w for w in self.draft.top.works() if w.bound]
        if any(self._norm(a.start - 1) in ("till", "until") for a in left):
            return
        if len(left) < 1 or (len(left) > 1 and len({a.low for a in left}) > 1):
            return
        if works and works[-1].amount and works[-1].amount.low == left[0].low and _sides(spans):
            works[-1].bound = replace(works[-1].bound, per_side=True)  # type: ignore[type-var]
        elif works and works[-1].bare and left[0].start - works[-1].bound.last < _NEAR:  # type: ignore[union-attr]
            works[-1].amount = left[0]
            if any(s.letter == "H" for s in spans.spans) and works[-1].bound:
                works[-1].bound = replace(works[-1].bound, per_side=works[-1].bound.per_side or _sides(spans))
        elif left[0].unit == "m" and self._norm(left[0].start - 1) in _POINTS:
            way = next((w for w in reversed(self.draft.top.works()) if _on_foot(w)), None)
            if way is not None and way.bound is not None:
                here = replace(way.bound, start=spans.start, end=left[0].start, first=spans.start, last=left[0].end)
                self.draft.line.items.append(Work(here, left[0]))

    # --- efforts ----------------------------------------------------------------------

    def _effort(self, bound: Bound, said: Sequence[Mark]) -> None:
        draft = self.draft
        by = next((m for m in said if m.kind == "by"), None)
        amount = bound.amount
        if amount is None and by is not None and by.amounts[0].shape == "by":
            value = by.amounts[0].values[-1]
            amount = Amount(by.start, by.end, value, value, by.amounts[0].unit)
        work = Work(bound, amount)
        if any(_same(work, other) for other in draft.line.items if isinstance(other, Work)):
            return
        if draft.rungs and work.amount is not None and work.amount.low in draft.rungs:
            return
        draft.line.items.append(work)
        draft.line.places.append((bound.first, bound.last))
        if draft.open is not None and draft.open.single:
            draft.open = None

    def _close(self) -> None:
        if self.drafts and self.draft.open is not None and self.draft.open.kind == "repeat":
            self.draft.open = None

    def _listed(self, bound: Sequence[Bound]) -> bool:
        return len(bound) > 1 and self.tokens[bound[-1].first - 1].norm == "and"


def _on_foot(work: Work) -> bool:
    """Whether an effort covers ground without a machine, so that it can go the same way again."""
    if work.bound is None or work.amount is None or work.amount.unit != "m":
        return False
    row = catalogue()[work.bound.movement]
    return "locomotion" in row.patterns and not row.kit


def _same(one: Work, other: Work) -> bool:
    """Whether two efforts ask for the same movement and amount, or one only names the other."""
    if one.rest or other.rest or one.bound is None or other.bound is None:
        return False
    if one.bound.movement != other.bound.movement:
        return False
    if one.amount is None or other.amount is None:
        return one.amount is None
    return (one.amount.low, one.amount.high, one.amount.unit) == (
        other.amount.low, other.amount.high, other.amount.unit,
    )  # fmt: skip


def _sides(spans: Row) -> bool:
    """Whether the row says "each side"."""
    return "HD" in spans.letters or "HOD" in spans.letters or "HeD" in spans.letters


def fold(divided: Divided) -> list[Draft]:
    """The blocks of a divided talk, as drafts, in the order said."""
    return Folder(divided).fold()


def kind_of(draft: Draft) -> BlockKind:
    """The block's kind; a work block that only stretches is a cool-down."""
    rows = catalogue()
    works = [w for w in draft.top.works() if w.bound is not None]
    if draft.kind == "conditioning" and draft.clock is None and works:
        if all("mobility" in rows[w.bound.movement].patterns for w in works if w.bound):
            return "cool-down"
    return draft.kind



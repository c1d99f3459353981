"""Blocks: what is prescribed, folded clause by clause into the session as performed."""

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache

from cuewright.movements.catalogue import catalogue
from cuewright.parse.corrections import corrections, taken_back
from cuewright.parse.cooling import wound_down
from cuewright.parse.drafts import Draft, Group, Work, rest_after
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

_TURNS = frozenset("times rounds turns goes intervals sets starts windows".split())
_THEM = frozenset("them those these em".split())
_ROUNDS = frozenset("round rounds time times lap laps through".split())
_AGAIN = frozenset("then another second third more".split())
_PIECES = frozenset("lift part piece block section bit".split())
_ON_FOOT = frozenset(("walk", "jog"))
_CHUNKS = frozenset("chunk phase stage bit chapter section portion".split())
_FEW = frozenset("one two three four five six a b c d".split())
_GIVES = frozenset(
    "that's it's is one's another do does about for just say them and a both".split()
)
_CONTENT = ("prescribes", "structures", "clock", "lifts")
_HANDS = frozenset(("left", "right", "other"))
_SLOT_NOUNS = frozenset("job station slot window stop minute".split())
_LISTING = frozenset("in each every it's it so with start inside".split())
_THINGS = frozenset("things exercises moves movements drills".split())
_SLOTS = frozenset("one minute minutes station interval thing window slot exercise is it's".split())
_POINTS = frozenset("that's it's is one's another".split())
_AHEAD, _BEHIND = 14, 12
"""Tokens after and before "every minute" within which its length is said."""
_MINUTES = 6
_ECHOED = 0.7
_EARLY = 3
_NEAR = 25
"""Tokens after an effort within which its amount may still come."""
_WORK = frozenset(("strength", "conditioning", "accessory", "skill"))
_SILENT: frozenset[Section] = frozenset(("open", "close", "pacing"))
_AFTERWARDS: frozenset[Section] = frozenset(("cues", "scaling", "pacing", "recap"))
_HEADS = ("header-work", "onward", "header-warm-up", "header-cool-down")
_PREPARE: frozenset[Section] = frozenset(("warm-up", "cool-down"))
_KIND: dict[str, BlockKind] = {"warm-up": "warm-up", "cool-down": "cool-down"}


@cache
def _phrases() -> Phrases:
    table = raw("cuewright.parse", "blocks.toml")
    kinds = {f"kind {kind}": said for kind, said in table["kinds"].items()}
    rest = {
        key: table[key]["said"]
        for key in ("close", "restart", "mirror", "emom", "for-time", "as-many", "sets")
    }
    return Phrases(kinds | rest)


class Folder:
    """Folds the clauses of a divided talk into drafts; read ``fold`` first."""

    def __init__(self, divided: Divided) -> None:
        self.reading = divided.reading
        self.tokens = divided.reading.tokens
        self.clauses = divided.clauses
        self.drafts: list[Draft] = []
        self.settled: tuple[Section, Section] | None = None
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
            late = self._late(run)
            for place in run:
                clause = self.clauses[place]
                if late and self._known(clause):
                    continue
                here = [m for m in said if clause.start <= m.start < clause.end]
                soon = self.clauses[min(place + 1, run[-1])].end
                later = any(clause.end <= m.start < soon for m in self.reading.movements)
                self._clause(clause, here, self.found.get(place, []), later)
        said = [draft for draft in self.drafts if not draft.empty or draft.top.items]
        for draft in said:
            if draft.clock == "every" and draft.every_s and not (draft.times or draft.duration_s):
                draft.duration_s = self._long_clock(draft)
        self._cap_later(said)
        self._open_with_warm_up(said)
        return wound_down(said)

    def _cap_later(self, drafts: Sequence[Draft]) -> None:
        """A cap that is only told with the targets belongs to the first work for time."""
        open_ended = [d for d in drafts if d.clock == "for-time" and d.cap_s is None]
        for clause in self.clauses:
            if not open_ended or clause.role in ("prescription", "example"):
                continue
            spans = row(self.reading, clause.start, clause.end, without=self.without)
            for mark in marks(spans, self.tokens):
                if mark.kind == "cap" and mark.amounts:
                    open_ended[0].cap_s = _seconds(mark.amounts[0])
                    return

    def _open_with_warm_up(self, drafts: list[Draft]) -> None:
        """The first easy block is the warm-up when its own clauses call it one."""
        if any(d.section == "warm-up" for d in drafts):
            return
        for draft in drafts[:2]:
            heads = any(
                clause.has(label)
                for clause in self.clauses
                for label in ("header-warm-up", "start", "before-all")
                if any(a <= clause.start < b for a, b in draft.places)
            )
            easy = draft is drafts[0] and len(drafts) > 2 and _easy(draft)
            if (heads or easy) and draft.clock is None and not draft.sets and len(drafts) > 1:
                draft.section, draft.kind = "warm-up", "warm-up"
                return

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

    def _echoes(self, clause: Clause, bound: Sequence[Bound]) -> bool:
        """Whether a clause only lists what the block has: "so bike, lunges, push ups, pull ups"."""
        if len(bound) < 2 or not self.drafts:
            return False
        there = {w.bound.movement for w in self.draft.top.works() if w.bound}
        if len(bound) > 2 and all(self._said(b) for b in bound):
            return True
        if self.tokens[clause.start].norm not in ("so", "and"):
            return False
        bare = sum(b.amount is None and not b.max for b in bound)
        return bare * 2 > len(bound) and all(_akin(b.movement, there) for b in bound)

    def _said(self, bound: Bound) -> bool:
        """Whether the block has an effort with this head word and this very amount."""
        return bound.amount is not None and any(
            w.bound and w.amount and w.amount.low == bound.amount.low
            and _head(w.bound.movement) == _head(bound.movement)
            for w in self.draft.top.works()
        )  # fmt: skip

    def _late(self, run: Sequence[int]) -> bool:
        """Whether a run comes back to the work after the talk had gone on to other things."""
        begun = next((i for i, c in enumerate(self.clauses) if c.section == "work"), run[0])
        before = {c.section for c in self.clauses[begun : run[0]]}
        if before.isdisjoint(_AFTERWARDS) or self.clauses[run[0]].section != "work":
            return False
        return not any(self.clauses[place].has(label) for place in run[:3] for label in _HEADS)

    def _known(self, clause: Clause) -> bool:
        """Whether a clause only names movements that are prescribed already."""
        there = {w.bound.movement for d in self.drafts for w in d.top.works() if w.bound}
        named = {m.name for m in self.reading.movements if clause.start <= m.start < clause.end}
        return named <= there and not any(clause.has(label) for label in _HEADS)

    def _clause(
        self, clause: Clause, said: Sequence[Mark], phrases: Sequence[Mention], later: bool
    ) -> None:
        if clause.has("agenda") and not any(clause.has(label) for label in _CONTENT):
            return
        self._place(clause, phrases)
        spans = row(self.reading, clause.start, clause.end, without=self.without)
        bound = [
            replace(b, movement=specific(b.movement, self.kit))
            for b in efforts(spans, said, self.tokens)
        ]
        if self._echoes(clause, bound):
            return
        if self._moves_on(clause):
            self._close()
        self._clocks(spans, said, phrases, bool(bound) or later)
        for at, event in sorted(
            [(self._front(m, bound), m) for m in said]
            + [(b.first, b) for b in bound]
            + [(at, "slot") for at in self._ordinals(spans)]
            + [(p.start, p) for p in phrases if p.name in ("close", "restart", "mirror")],
            key=lambda pair: (pair[0], isinstance(pair[1], Bound)),
        ):
            del at
            if isinstance(event, Bound):
                self._effort(event, said)
            elif isinstance(event, Mark):
                self._mark(event, bound)
            elif event == "slot":
                self._slot()
            elif event.name == "restart":
                self._restart(event.start)
            elif event.name == "mirror":
                self._mirror()
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
            inside = next((b.first for b in bound if b.first <= mark.start < b.last), None)
            before = next((b.first for b in reversed(bound) if b.last <= mark.start), mark.start)
            return inside if inside is not None else before if mark.kind == "by" else mark.start
        return mark.start

    # --- which block ------------------------------------------------------------------

    def _place(self, clause: Clause, phrases: Sequence[Mention]) -> None:
        """Start a new block where the talk moves on to one."""
        named = [
            kind
            for p in phrases
            if p.name.startswith("kind ")
            and (
                (kind := p.name.removeprefix("kind ")) != "any"
                or p.start - clause.start <= _EARLY
                or self.tokens[p.start].norm in _PIECES
            )
            and (kind != "soft" or not self._names(clause))
        ]
        section = self._section(clause, named, phrases)
        moved = not self.drafts or self.draft.section != section
        early = any(
            p.name.startswith("kind ") and p.start - clause.start <= _EARLY for p in phrases
        )
        fresh = [
            kind
            for kind in named
            if not self.drafts
            or kind != self.draft.kind
            or kind in ("any", "soft")
            or (early and kind in _WORK)
        ]
        opened = bool(fresh) and bool(self.drafts) and not self.draft.empty
        told = clause.has("header-work") and not named and not self._names(clause)
        if (
            told
            and self.drafts
            and any(not w.bare for w in self.draft.top.works())
            and section == "work"
        ):
            opened = True
        if moved or opened:
            named_last = self._named_last(clause) if moved else []
            self.drafts.append(Draft(section, _KIND.get(section, "conditioning")))
            self.draft.top.items.extend(named_last)
        if self._numbered(clause) and not self.draft.empty and not (moved or opened):
            self.drafts.append(Draft(section, self.draft.kind))
        for kind in named:
            if kind not in ("any", "soft") and (section == "work") == (
                kind not in ("warm-up", "cool-down", "mobility")
            ):
                self.draft.kind = kind  # type: ignore[assignment]
            elif kind == "mobility" and section == "warm-up":
                self.draft.kind = "mobility"

    def _names(self, clause: Clause) -> bool:
        """Whether a clause names a movement."""
        at = bisect_left(self.reading.movements, clause.start, key=lambda m: m.start)
        return at < len(self.reading.movements) and self.reading.movements[at].start < clause.end

    def _named_last(self, clause: Clause) -> list[Work | Group]:
        """A movement named just before the talk moves on is taken along, as its sets follow."""
        items = self.draft.line.items if self.drafts else []
        last = items[-1] if items else None
        if (
            isinstance(last, Work)
            and last.bare
            and last.bound
            and clause.start - last.bound.last < _EARLY
        ):
            return [items.pop()]
        return []

    def _numbered(self, clause: Clause) -> bool:
        """ "Second lift", "the fourth bit": a part counted off at the start of a clause."""
        norms = [self._norm(at) for at in range(clause.start, clause.start + 5)]
        for noun, number in zip(norms[:3], norms[1:4], strict=True):
            if noun in _CHUNKS and (number in _FEW or number.isdigit()):
                return True
        return any(
            a.shape == "ordinal" and clause.start <= a.start <= clause.start + 2
            and not _PIECES.isdisjoint((self._norm(a.end), self._norm(a.end + 1)))
            for a in self.reading.amounts
        ) and "round" not in norms  # fmt: skip

    def _section(self, clause: Clause, named: Sequence[str], phrases: Sequence[Mention]) -> Section:
        """Warm-up, work or cool-down; a block named at the start of a clause settles it."""
        early = any(
            p.name.startswith("kind ") and p.start - clause.start <= _EARLY + 3 for p in phrases
        )
        if early and clause.section in ("warm-up", "work"):
            work = [k for k in named if k in _WORK]
            self.settled = (clause.section, "work") if work else None
        if self.settled is not None and self.settled[0] == clause.section:
            return self.settled[1]
        self.settled = None
        return clause.section if clause.section in _PREPARE else "work"

    # --- clocks -----------------------------------------------------------------------

    def _clocks(
        self, spans: Row, said: Sequence[Mark], phrases: Sequence[Mention], more: bool
    ) -> None:
        """Structure statements that set the clock of the block; ``more`` when work follows."""
        names = {p.name for p in phrases}
        times = [s.amount for s in spans.spans if s.letter == "t" and s.amount is not None]
        kinds = {m.kind for m in said}
        if "amrap" in kinds or ("as-many" in names and times):
            self._start_clock("amrap", more, spans.start)
            self.draft.duration_s = self.draft.duration_s or (times[0].high if times else None)
        elif "for-time" in names and self.draft.section == "work":
            self._start_clock("for-time", more, spans.start)
        for phrase in phrases:
            if phrase.name == "emom" and not kinds & {"every", "emom"}:
                said = [*said, Mark("emom", phrase.start, phrase.end)]
        for mark in said:
            if mark.kind in ("every", "emom"):
                self._start_clock("every", more, mark.start)
                self._every(mark, spans)
            elif mark.kind == "intervals":
                self._start_clock("intervals", more, mark.start)
                self._intervals(mark)
            elif mark.kind == "no-cap":
                self.draft.clock = self.draft.clock or "for-time"
            elif mark.kind == "cap" and mark.amounts and self.draft.clock in (None, "for-time"):
                self.draft.clock = "for-time"
                self.draft.cap_s = _seconds(mark.amounts[0])
        if "sets" in names:
            self.draft.sets = True

    def _start_clock(self, clock: str, more: bool, at: int) -> None:
        """A clock for work still to come starts the next block where this one has work already."""
        draft = self.draft
        done = any(not work.bare or draft.clock == "intervals" for work in draft.top.works())
        second = draft.clock not in (None, clock) or (draft.sets and not draft.clock)
        last = max((w.bound.last for w in draft.top.works() if w.bound), default=0)
        apart = at - last > _NEAR
        if done and (second or (more and apart and draft.clock is None and clock != "for-time")):
            self.drafts.append(Draft(draft.section, draft.kind))
        self.draft.clock = clock

    def _intervals(self, mark: Mark) -> None:
        """Work and rest; bare small numbers are minutes; once there is work it stands."""
        draft = self.draft
        work, rest = (
            (a.low or 0.0) * (60 if a.unit is None and (a.low or 0) <= _MINUTES else 1)
            for a in mark.amounts
        )
        if draft.work_s is None or not draft.top.items:
            draft.work_s, draft.rest_s = work, rest

    def _every(self, mark: Mark, spans: Row) -> None:
        draft = self.draft
        if draft.every_s is not None and draft.duration_s is not None:
            return
        every = mark.amounts[0].low if mark.amounts else 60.0
        draft.every_s = every
        after = [s for s in spans.spans if s.start >= mark.end and s.amount is not None]
        draft.duration_s = self._whole_clock(mark, every or 60.0)
        if draft.duration_s is not None:
            return
        for span in after[:2]:
            following = self._norm(span.end)
            many = following in _TURNS or (following == "of" and self._norm(span.end + 1) in _THEM)
            if span.amount and span.letter == "n" and many:
                draft.times = int(span.amount.low or 0)
                return

    def _whole_clock(self, mark: Mark, every: float) -> float | None:
        """How long the clock runs in all: a time near by that the interval goes into."""
        near = [
            a
            for a in self.reading.amounts
            if a.start not in self.without
            and a.unit == "s" and a.low and a.low >= 2 * every and a.low % every == 0
            and (mark.end <= a.start < mark.end + _AHEAD or mark.start - _BEHIND < a.end <= mark.start)
        ]  # fmt: skip
        return min(near, key=lambda a: abs(a.start - mark.end)).low if near else None

    def _long_clock(self, draft: Draft) -> float | None:
        """The length of a clock that was only given in the sum at the end."""
        first, last = draft.places[0][0], draft.places[-1][1] + _NEAR
        every = draft.every_s or 60.0
        for amount in self.reading.amounts:
            if amount.start in self.without:
                continue
            if first <= amount.start < last and amount.unit == "s" and amount.low:
                if amount.low >= 4 * every and amount.low % every == 0:
                    return amount.low
        return None

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
            self._share(mark)
        elif mark.kind == "ladder" and mark.amounts[0].unit is None:
            self._ladder(mark)
        elif mark.kind == "slot":
            self._slot()

    def _share(self, mark: Mark) -> None:
        """ "Thirty seconds each" for a list; "two of each, then four of each" climbs a ladder."""
        self.draft.climbed.append(mark.start)
        draft, amount = self.draft, mark.amounts[0]
        if draft.rungs and amount.low in draft.rungs:
            return
        named = [w for w in draft.line.works() if w.bound]
        if (
            amount.unit is None
            and named
            and all(w.bare for w in named)
            and (draft.share or draft.rungs)
        ):
            first = draft.share.low if draft.share else None
            draft.rungs = (*(draft.rungs or (int(first or 0),)), int(amount.low or 0))
            draft.share = None
        elif not draft.rungs:
            draft.share = amount

    def _rounds(self, mark: Mark, bound: Sequence[Bound]) -> None:
        draft, amount = self.draft, mark.amounts[0]
        if draft.clock == "intervals":
            if draft.times is None:
                draft.times = int(amount.low or 0)
            return
        if draft.clock == "every" and draft.times is None and draft.duration_s is None:
            draft.times = int(amount.low or 0)
        if draft.clock in ("amrap", "every"):
            return
        times = Range(low=amount.low, high=amount.high)
        ahead = any(b.first >= mark.end and b.amount is not None for b in bound)
        ahead = ahead or (not bound and self._listed_next(mark))
        group = draft.open
        if any(isinstance(i, Group) and i.times == times and i.items for i in draft.top.items):
            return
        if group is not None and group.times == times:
            return
        if group is not None and not group.items:
            group.times = times
        elif ahead or not draft.line.items:
            draft.add(Group("repeat", times))
        elif group is None and isinstance(draft.top.items[-1], Work):
            self._wrap(times, self._things(mark))
        else:
            draft.spoken.append(("rounds", amount, mark.start, mark.end))

    def _listed_next(self, mark: Mark) -> bool:
        """Whether the list of the rounds comes after them: "four rounds, and in a round it's …"."""
        if [self._norm(mark.end), self._norm(mark.end + 1)] in (["of", "that"], ["of", "those"]):
            return False
        at = bisect_left(self.clauses, mark.end, key=lambda c: c.start)
        if at >= len(self.clauses) or not self.clauses[at].has("prescribes"):
            return False
        clause = self.clauses[at]
        norms = [t.norm for t in self.tokens[clause.start : clause.start + 2] if t.norm != "and"]
        return bool(norms) and norms[0] in _LISTING

    def _things(self, mark: Mark) -> int:
        """How many things are repeated, where the coach says so: "them three things twice"."""
        for amount in self.reading.amounts:
            if 0 < mark.start - amount.start < _NEAR // 2 and self._norm(amount.end) in _THINGS:
                return int(amount.low or 0)
        return 0

    def _wrap(self, times: Range, things: int = 0) -> None:
        """Rounds said after the list: what stands loose at the end is what is repeated."""
        draft = self.draft
        loose: list[Work | Group] = []
        while draft.top.items and isinstance(draft.top.items[-1], Work):
            if things and len(loose) == things:
                break
            loose.insert(0, draft.top.items.pop())
        while len(loose) > 2 and _sets_out(loose[0]) and not _sets_out(loose[1]):
            draft.top.items.append(loose.pop(0))
        draft.add(Group("repeat", times, items=loose))
        draft.open = None

    def _sets(self, mark: Mark, bound: Sequence[Bound]) -> None:
        done = any(not w.bare or self.draft.clock == "intervals" for w in self.draft.top.works())
        if bound and ((self.draft.clock and done) or self.draft.rungs):
            self.drafts.append(Draft(self.draft.section, "accessory"))
        draft, amount = self.draft, mark.amounts[0]
        draft.sets = True
        packed = amount.shape == "by"
        count = amount.values[0] if packed else amount.low
        times = Range(low=count, high=count if packed else amount.high)
        around = next((b for b in bound if b.first <= mark.start < b.last), None)
        before = next((b for b in reversed(bound) if b.last <= mark.start), None)
        if mark.kind == "by" and around is None:
            around = before or next((b for b in bound if b.first >= mark.end), None)
        if around is not None:
            if not (draft.open is not None and not draft.open.items and draft.open.times == times):
                draft.add(
                    Group("repeat", times, single=around.start <= mark.start or mark.kind == "by")
                )
            return
        ahead = any(b.first >= mark.end for b in bound)
        group = draft.open
        last = draft.line.items[-1] if draft.line.items else None
        if mark.kind == "by" and isinstance(last, Work) and last.bare and group is None:
            last.amount = _reps(mark)
            draft.line.items.pop()
            draft.add(Group("repeat", times, items=[last]))
            draft.open = None
            return
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

    def _other_rest(self, seconds: float | None) -> None:
        """Sets that get another rest than the sets before them are a block of their own."""
        draft = self.draft
        groups = [i for i in draft.top.items if isinstance(i, Group) and i.kind == "repeat"]
        before = draft.rest_s if draft.rest_s is not None else rest_after(groups[:-1])
        if len(groups) > 1 and groups[-1] is draft.top.items[-1] and before not in (None, seconds):
            last = draft.top.items.pop()
            self.drafts.append(
                Draft(draft.section, draft.kind, sets=draft.sets, top=Group(items=[last]))
            )
            self.draft.open = draft.open
            draft.open = None

    def _rest(self, mark: Mark) -> None:
        seconds = mark.amounts[0].low
        if self.draft.clock is None and self.draft.section == "work":
            self._other_rest(seconds)
        draft = self.draft
        if draft.clock == "intervals":
            return
        if draft.sets and (mark.between == "set" or draft.clock is None):
            draft.rest_s = draft.rest_s if draft.rest_s is not None else seconds
        elif (group := draft.latest) is not None and (mark.between or not group.items):
            group.rest_s = seconds
        elif draft.open is not None:
            draft.open.items.append(Work(None, mark.amounts[0], rest=True))
        elif draft.clock is None and draft.section == "work" and mark.between == "set":
            draft.sets, draft.rest_s = True, seconds

    def _ladder(self, mark: Mark) -> None:
        draft = self.draft
        rungs = tuple(int(v) for v in mark.amounts[0].values)
        said = [w.amount.low for w in draft.line.works() if w.amount is not None]
        if sum(float(r) in said for r in rungs) >= _ECHOED * len(rungs):
            return  # the list sums up what was just said
        draft = self._climbs(mark.start)
        draft.climbed.append(mark.start)
        if draft.share is not None and draft.share.unit is None:
            draft.rungs, draft.share = (int(draft.share.low or 0),), None
        if not draft.rungs or rungs[: len(draft.rungs)] == draft.rungs:
            draft.rungs = rungs
        elif rungs[0] not in draft.rungs[:1] and len(rungs) < len(draft.rungs) + 4:
            draft.rungs = (*draft.rungs, *rungs)

    def _climbs(self, at: int) -> Draft:
        """The draft of a ladder: a new one where a block with a clock has its work already."""
        draft = self.draft
        items = draft.line.items
        kept = len(items)
        while kept and isinstance(work := items[kept - 1], Work) and work.bare and work.bound:
            if at - work.bound.last > _NEAR:
                break
            kept -= 1
        done = any(not work.bare for work in draft.top.works())
        full = draft.clock in ("every", "amrap", "intervals") or (kept > 1 and draft.clock is None)
        if full and done and kept < len(items):
            loose = items[kept:]
            del items[kept:]
            self.drafts.append(
                Draft(draft.section, draft.kind, share=draft.share, top=Group(items=loose))
            )
            draft.share = None
        return self.draft

    def _slot(self) -> None:
        draft = self.draft
        if draft.clock != "every":
            return
        draft.add(Group("slot", index=1 + sum(isinstance(i, Group) for i in draft.top.items)))

    def _ordinals(self, spans: Row) -> Iterator[int]:
        """Where "first one", "odd minutes" and the like name an interval of an every block."""
        for span in spans.spans:
            after = self._norm(span.end)
            first = span.start <= spans.start + 1
            if span.letter == "o" and (first or after in _SLOTS or self.tokens[span.end - 1].after):
                yield span.start
            elif span.word in _SLOT_NOUNS and after in _FEW:
                yield span.start
            elif span.word in ("odd", "even") or (span.word == "odds" or span.word == "evens"):
                yield span.start

    def _norm(self, at: int) -> str:
        return self.tokens[at].norm if at < len(self.tokens) else ""

    def _moves_on(self, clause: Clause) -> bool:
        """Whether a clause leaves the rounds that stand before it."""
        norms = [t.norm for t in self.tokens[clause.start : min(clause.start + 10, clause.end)]]
        if any(w in norms for w in ("when", "once", "after")) and not _ROUNDS.isdisjoint(norms):
            return any(
                d in norms for d in ("done", "over", "finished", "complete", "last", "final")
            )
        if any(w in norms[:3] for w in ("when", "once")) and {"done", "finished", "finish"} & set(
            norms
        ):
            return True
        group = self.draft.open if self.drafts else None
        if group is None or group.kind != "repeat" or not group.listed:
            return False
        return norms[:1] == ["then"] or norms[:2] in (["and", "then"], ["after", "that"])

    def _orphans(self, spans: Row, said: Sequence[Mark], bound: Sequence[Bound]) -> None:
        """An amount without a movement: for the effort still bare, or the same way again."""
        if bound or not self.drafts or self.draft.share or any(m.kind != "rest" for m in said):
            return
        used = {at for m in said for at in range(m.start, m.end)}
        left = [
            s.amount for s in spans.spans if s.letter in "ntdc" and s.start not in used and s.amount
        ]
        works = [w for w in self.draft.top.works() if w.bound]
        if any(self._norm(a.start - 1) in ("till", "until", "by") for a in left):
            return
        left = [a for a in left if self._stands_alone(a, spans.start)]
        if len(left) < 1 or (len(left) > 1 and len({a.low for a in left}) > 1):
            return
        if works and works[-1].amount and works[-1].amount.low == left[0].low and _sides(spans):
            works[-1].bound = replace(works[-1].bound, per_side=True)  # type: ignore[type-var]
        elif (
            works
            and works[-1].bare
            and _fits(left[0], works[-1])
            and left[0].start - works[-1].bound.last < _NEAR
        ):  # type: ignore[union-attr]
            works[-1].amount = left[0]
            if any(s.letter == "H" for s in spans.spans) and works[-1].bound:
                works[-1].bound = replace(
                    works[-1].bound, per_side=works[-1].bound.per_side or _sides(spans)
                )
        elif works and _out_and_back(spans) and left[0].unit == "m" and _on_foot(works[-1]):
            works[-1].amount = left[0]
        elif left[0].unit == "m" and self._norm(left[0].start - 1) in _POINTS:
            way = next((w for w in reversed(self.draft.top.works()) if _on_foot(w)), None)
            if way is not None and way.bound is not None:
                here = replace(
                    way.bound,
                    start=spans.start,
                    end=left[0].start,
                    first=spans.start,
                    last=left[0].end,
                )
                self.draft.line.items.append(Work(here, left[0]))

    def _stands_alone(self, amount: Amount, start: int) -> bool:
        """Whether an amount is given for something: at the start, or after "that's", "do"."""
        return amount.start - start <= _EARLY or self._norm(amount.start - 1) in _GIVES

    # --- efforts ----------------------------------------------------------------------

    def _effort(self, bound: Bound, said: Sequence[Mark]) -> None:
        draft = self.draft
        by = next((m for m in said if m.kind == "by"), None)
        amount = bound.amount
        if amount is None and by is not None and self._apart(bound, by) < _EARLY + 5:
            amount = _reps(by)
        back = amount is None and bound.movement in _ON_FOOT and self._norm(bound.end) == "back"
        if back:
            amount = self._way_out()
        work = Work(bound, amount, kept=back)
        if (
            draft.clock == "intervals"
            and not self._handed(bound)
            and any(w.bound and w.bound.movement == bound.movement for w in draft.line.works())
        ):
            return
        again = {t.norm for t in self.tokens[max(bound.first - 2, 0) : bound.first]} & _AGAIN
        if not again and any(
            _same(work, other) for other in draft.line.items if isinstance(other, Work)
        ):
            return
        if (
            draft.rungs
            and work.amount is not None
            and work.amount.low in (*draft.rungs, sum(draft.rungs))
        ):
            return
        if self._summed(work) or self._strays(work):
            return
        if (way := self._half_way(work)) is not None:
            way.amount = work.amount
            return
        bare = next(
            (w for w in draft.line.items if isinstance(w, Work) and _named_first(w, work)), None
        )
        if bare is not None:
            draft.line.items.remove(bare)
        draft.line.items.append(work)
        draft.line.places.append((bound.first, bound.last))
        if draft.open is not None and draft.open.single:
            draft.open = None

    def _apart(self, bound: Bound, mark: Mark) -> int:
        """Tokens between a movement and its sets, less what was taken back."""
        low, high = (
            sorted((bound.last, mark.start))
            if mark.start >= bound.last
            else (mark.end, bound.first)
        )
        return sum(at not in self.without for at in range(low, high))

    def _way_out(self) -> Amount | None:
        """The metres of the effort before, which a walk back covers again."""
        before = [w for w in self.draft.line.items if isinstance(w, Work) and w.amount is not None]
        amount = before[-1].amount if before else None
        return amount if amount is not None and amount.unit == "m" else None

    def _summed(self, work: Work) -> bool:
        """Whether an amount only adds up what the block already asks: "so that's 500 metres"."""
        if work.amount is None or work.bound is None:
            return False
        said = [
            self.tokens[at].norm for at in range(max(work.bound.first - 4, 0), work.bound.first + 1)
        ]
        if (
            self.draft.clock == "every"
            and work.amount.low == self.draft.times
            and work.amount.unit is None
        ):
            if any(
                w.bound and w.bound.movement == work.bound.movement for w in self.draft.top.works()
            ):
                return True
        if not {"that's", "makes", "be", "done"} & set(said):
            return False
        return any(
            w.bound and w.bound.movement == work.bound.movement and w.amount
            and (work.amount.low or 0) >= 2 * (w.amount.low or 1)
            for w in self.draft.top.works()
        )  # fmt: skip

    def _handed(self, bound: Bound) -> bool:
        """ "Side plank on the right": a station for each side."""
        return not _HANDS.isdisjoint(t.norm for t in self.tokens[bound.end : bound.end + 4])

    def _restart(self, at: int) -> None:
        """The list that was just given is taken back whole."""
        items = self.draft.line.items
        while (
            items
            and isinstance(last := items[-1], Work)
            and last.bound
            and at - last.bound.last < _NEAR
        ):
            items.pop()

    def _mirror(self) -> None:
        """A ladder up to its top comes down the same rungs."""
        rungs = self.draft.rungs
        if rungs and rungs[-1] == max(rungs):
            self.draft.rungs = (*rungs, *reversed(rungs[:-1]))

    def _strays(self, work: Work) -> bool:
        """Whether a cool-down only speaks of the work again: "ready for twenty push ups"."""
        if self.draft.section != "cool-down" or work.bound is None or _on_foot(work):
            return False
        before = [d for d in self.drafts[:-1] if d.section == "work"]
        there = {w.bound.movement for d in before for w in d.top.works() if w.bound}
        return (
            work.bound.movement in there
            and "mobility" not in catalogue()[work.bound.movement].patterns
        )

    def _half_way(self, work: Work) -> Work | None:
        """The effort that only had the way out: "twenty metres, so out and back is forty"."""
        if work.bound is None or work.amount is None or work.amount.unit != "m":
            return None
        said = [t.norm for t in self.tokens[max(work.bound.first - 8, 0) : work.bound.last]]
        if "back" not in said:
            return None
        for other in self.draft.line.items:
            if (
                isinstance(other, Work)
                and other.bound
                and other.amount
                and other.amount.unit == "m"
            ):
                same = other.bound.movement == work.bound.movement
                if same and (other.amount.low or 0) * 2 == work.amount.low:
                    return other
        return None

    def _close(self) -> None:
        if self.drafts and self.draft.open is not None and self.draft.open.kind == "repeat":
            self.draft.open = None

    def _listed(self, bound: Sequence[Bound]) -> bool:
        return len(bound) > 1 and self.tokens[bound[-1].first - 1].norm == "and"


def _akin(movement: str, there: set[str]) -> bool:
    """Whether a movement, or one with the same head word, is there: "rows" for band rows."""
    return movement in there or _head(movement) in {_head(name) for name in there}


def _head(movement: str) -> str:
    words = movement.split("-")
    return "-".join(words[-2:]) if words[-1] in ("up", "down", "out") else words[-1]


def _easy(draft: Draft) -> bool:
    """Whether most of a block only loosens up or moves about."""
    rows = catalogue()
    named = [rows[w.bound.movement].patterns for w in draft.top.works() if w.bound]
    light = sum(not {"mobility", "locomotion"}.isdisjoint(patterns) for patterns in named)
    return bool(named) and light * 2 >= len(named)


def _on_foot(work: Work) -> bool:
    """Whether an effort covers ground without a machine, so that it can go the same way again."""
    if work.bound is None or work.amount is None or work.amount.unit != "m":
        return False
    row = catalogue()[work.bound.movement]
    return "locomotion" in row.patterns and not row.kit


def _sets_out(work: Work | Group) -> bool:
    """Whether an effort is a stretch of running or rowing that comes before the rounds."""
    if (
        isinstance(work, Group)
        or work.bound is None
        or work.amount is None
        or work.amount.unit not in ("s", "m")
    ):
        return False
    return "locomotion" in catalogue()[work.bound.movement].patterns


def _named_first(bare: Work, work: Work) -> bool:
    """Whether a movement was named just before it got its amount."""
    return (
        bare.bare and not work.bare and bare.bound is not None and work.bound is not None
        and bare.bound.movement == work.bound.movement
    )  # fmt: skip


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


def _fits(amount: Amount, work: Work) -> bool:
    """Whether the movement is counted in the amount's unit."""
    counted = catalogue()[work.bound.movement].counted_in if work.bound else ()
    return (amount.unit or "reps") in counted or amount.unit is None


def _out_and_back(spans: Row) -> bool:
    """Whether the row gives the whole way: "so out and back is 40 metres"."""
    words = [span.word for span in spans.spans]
    return any(words[at : at + 2] == ["and", "back"] for at in range(len(words)))


def _reps(mark: Mark) -> Amount:
    """The work of each set in "5 x 3" or "five sets of three"."""
    last = mark.amounts[-1]
    return Amount(last.start, last.end, last.low, last.high, last.unit)


def _seconds(amount: Amount) -> float | None:
    """A cap's seconds; a bare number of one is minutes."""
    return amount.high * 60 if amount.unit is None and amount.high else amount.high


def _sides(spans: Row) -> bool:
    """Whether the row says "each side"."""
    words = {span.word for span in spans.spans}
    sided = re.search("H[Oe]{0,2}D", spans.letters)
    return sided is not None or {"right", "left"} <= words or ("a" in words and "side" in words)


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

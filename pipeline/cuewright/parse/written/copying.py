"""One line's work copied to the sheet: rounds, sets, intervals, rests and efforts in order."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from operator import itemgetter

from cuewright.parse.drafts import Group, Work
from cuewright.parse.efforts import Bound
from cuewright.parse.sets import each_set
from cuewright.parse.structures import Mark
from cuewright.parse.written.clock import clock_of
from cuewright.parse.written.lines import Stated
from cuewright.parse.written.sheet import Sheet
from cuewright_models.base import Range
from cuewright_models.tokens import Amount, Mention

_STOP = 4
"""Tokens that a comma is worth between sets and their movement."""
_CLOCKED = ("every", "intervals", "amrap")

Event = Mark | Bound | Mention


def copy(sheet: Sheet, said: Stated) -> None:
    """Put a line's work where it belongs; what it opens stays open for the lines below."""
    before = len(sheet.scopes)
    _Line(sheet, said).copy()
    _keep_open(sheet, said, before)


def _keep_open(sheet: Sheet, said: Stated, before: int) -> None:
    """Rounds stay open for deeper lines, or where they have no work yet."""
    for at, scope in enumerate(sheet.scopes):
        if at >= before and scope.group.items and not (said.leads or scope.depth < 0):
            del sheet.scopes[at:]
            return


class _Line:
    """Copies the events of one line."""

    def __init__(self, sheet: Sheet, said: Stated) -> None:
        self._sheet = sheet
        self._said = said
        self._heading = said.line.kind == "heading" or (
            sheet.headed and not said.line.depth and said.line.kind == "item"
        )
        self._done: list[Work | Group] = []
        self._clocked = clock_of(said) in _CLOCKED

    def copy(self) -> None:
        self._share()
        for event in self._events():
            match event:
                case Bound():
                    self._effort(event)
                case Mark(kind="rounds" | "turns" | "sets"):
                    self._rounds(event)
                case Mark(kind="by"):
                    self._by(event)
                case Mark(kind="rest"):
                    self._rest(event)
                case Mark(kind="ladder"):
                    self._ladder(event)
                case Mark(kind="slot"):
                    self._slot(event)
                case Mention(name="closing" | "close"):
                    self._sheet.scopes.clear()
        self._sheet.last_line = self._done

    def _events(self) -> list[Event]:
        calls = [call for call in self._said.calls if call.name in ("closing", "close")]
        calls += self._onward()
        events: list[tuple[int, int, Event]] = [
            *((call.start, 0, call) for call in calls),
            *((mark.start, 1, mark) for mark in self._said.marks),
            *((bound.first, 2, bound) for bound in self._said.efforts),
        ]
        return [event for _, _, event in sorted(events, key=itemgetter(0, 1))]

    def _onward(self) -> Iterator[Mention]:
        """ "5 rounds: 10 squats, 5 burpees, then a 400 m run": what follows is outside them."""
        tokens = self._sheet.tokens
        rounds = (m.end for m in self._said.marks if m.kind == "rounds")
        first = next((end for end in rounds if tokens[end - 1].after == ":"), self._said.end)
        for at in range(first + 1, self._said.end):
            parted = tokens[at - 1].after in (",", ";") or tokens[at - 1].last < tokens[at].first
            if tokens[at].norm == "then" and parted:
                yield Mention(at, at + 1, "closing")

    def _share(self) -> None:
        """ "30 seconds each", for the bare efforts of this line and those below it."""
        share = next((m.amounts[0] for m in self._said.marks if m.kind == "share"), None)
        if share is None:
            return
        bare = [bound for bound in self._said.efforts if bound.amount is None]
        if not self._said.efforts:
            self._sheet.shares[-1] = share
        self._here = share if bare else None

    _here: Amount | None = None

    def _effort(self, bound: Bound) -> None:
        sheet = self._sheet
        amount = bound.amount or self._per_set(bound)
        if amount is None and not sheet.draft.rungs:
            amount = self._here or sheet.share
        work = Work(bound, amount)
        if self._said.called("opening") and sheet.scopes and sheet.scopes[0].depth < 0:
            self._before_rounds(work)
        else:
            sheet.target.items.append(work)
        sheet.target.places.append((bound.first, bound.last))
        sheet.draft.climbed.append(bound.first)
        self._done.append(work)
        if sheet.scopes and sheet.scopes[-1].group.single:
            self._done[-1] = sheet.scopes.pop().group

    def _before_rounds(self, work: Work) -> None:
        """A buy-in stands before the rounds that the heading has opened already."""
        top = self._sheet.draft.top.items
        top.insert(top.index(self._sheet.scopes[0].group), work)

    def _per_set(self, bound: Bound) -> Amount | None:
        """The work of each set, where a "by" form is this movement's."""
        forms = (mark for mark in self._said.marks if mark.kind == "by")
        return next((each_set(mark) for mark in forms if self._mate(mark) is bound), None)

    def _mate(self, mark: Mark) -> Bound | None:
        """The movement that sets belong to: the nearest, a comma counting as a few words."""
        return min(self._said.efforts, key=lambda bound: self._apart(bound, mark), default=None)

    def _apart(self, bound: Bound, mark: Mark) -> int:
        after = bound.start >= mark.end
        first, last = (mark.end, bound.start) if after else (bound.end, mark.start)
        stops = sum(bool(token.after) for token in self._sheet.tokens[first - 1 : last])
        return abs(last - first) + _STOP * stops + (not after)

    def _later(self, mark: Mark) -> list[Bound]:
        return [bound for bound in self._said.efforts if bound.first >= mark.end]

    def _rounds(self, mark: Mark) -> None:
        """Rounds or sets around what follows, else around what the line has so far."""
        sheet, amount = self._sheet, mark.amounts[0]
        if mark.kind == "sets":
            sheet.draft.sets = sheet.draft.sets or sheet.draft.section == "work"
        if self._clocked or (sheet.draft.clock in _CLOCKED and mark.kind != "sets"):
            sheet.draft.times = sheet.draft.times or int(amount.low or 0) or None
            return
        times = Range(low=amount.low, high=amount.high)
        if self._closes():
            self._wrap_all(times)
            return
        inside = next((b for b in self._said.efforts if b.first <= mark.start < b.last), None)
        if self._done and not self._later(mark) and inside is None and not self._said.runs_on:
            self._wrap(times)
        elif inside is not None and mark.kind == "sets":
            self._single(times, inside)
        else:
            self._open(Group("repeat", times))

    def _closes(self) -> bool:
        """Whether a line alone counts the rounds of the list above it: "x 4"."""
        said = self._said
        alone = not (said.efforts or said.leads or said.runs_on or self._heading)
        return alone and said.ends and bool(self._sheet.target.items)

    def _wrap_all(self, times: Range) -> None:
        target = self._sheet.target
        target.items[:] = [Group("repeat", times, items=list(target.items))]
        self._done = list(target.items)

    def _open(self, group: Group) -> None:
        said, inline = self._said, bool(self._said.efforts)
        loose = not said.leads and not inline
        self._sheet.open(group, said.line.depth, heading=self._heading and not inline, loose=loose)
        self._done.append(group)

    def _single(self, times: Range, inside: Bound) -> None:
        """Sets told between a movement and its reps: the effort stands there already."""
        last = self._sheet.target.items[-1] if self._sheet.target.items else None
        if isinstance(last, Work) and last.bound is inside:
            self._wrap(times, last=1)
        else:
            self._open(Group("repeat", times, single=True))

    def _wrap(self, times: Range, last: int | None = None) -> None:
        """Rounds of what the line has put down so far."""
        target = self._sheet.target
        mine = self._done[-last:] if last else list(self._done)
        if not all(any(item is done for item in target.items) for done in mine):
            return
        at = next(i for i, item in enumerate(target.items) if item is mine[0])
        group = Group("repeat", times, items=mine, rest_s=self._sheet.rest_s)
        self._sheet.rest_s = None
        target.items[at : at + len(mine)] = [group]
        self._done = [*self._done[: -len(mine)], group]

    def _by(self, mark: Mark) -> None:
        """ "5 x 5" around the movement beside it."""
        sheet = self._sheet
        sheet.draft.sets = sheet.draft.sets or sheet.draft.section == "work"
        count = mark.amounts[0].values[0] if mark.amounts[0].values else mark.amounts[0].low
        times, mate = Range(low=count, high=count), self._mate(mark)
        if mate is not None and mate.first < mark.start and self._done:
            self._wrap(times, last=1)
        elif mate is not None:
            self._open(Group("repeat", times, single=True))
        else:
            self._open(Group("repeat", times))
            sheet.scopes[-1].share = each_set(mark)

    def _rest(self, mark: Mark) -> None:
        sheet, amount = self._sheet, mark.amounts[0]
        draft = sheet.draft
        if draft.clock == "intervals":
            draft.rest_s = draft.rest_s if draft.rest_s is not None else amount.low
            return
        if self._between_sets(mark):
            draft.sets, draft.rest_s = True, amount.low
            return
        group = self._resting(mark)
        if group is not None:
            group.rest_s = amount.low
        elif draft.rungs and draft.clock is None:
            draft.sets, draft.rest_s = draft.section == "work", amount.low
        elif sheet.target.kind != "repeat" and (
            draft.sets or mark.between or not (self._done or sheet.target.items)
        ):
            sheet.rest_s = amount.low
            draft.rest_s = amount.low if draft.sets else draft.rest_s
        else:
            work = Work(None, replace(amount, start=mark.start, end=mark.end))
            sheet.target.items.append(work)
            self._done.append(work)

    def _between_sets(self, mark: Mark) -> bool:
        """ "Rest 2 min between sets" on a line of its own: the work under it is in sets."""
        tokens = self._sheet.tokens[self._said.start : self._said.end]
        sets = any(token.norm in ("set", "sets") for token in tokens)
        alone = not self._said.efforts and len(self._said.marks) == 1
        return alone and sets and bool(mark.between) and self._sheet.draft.section == "work"

    def _resting(self, mark: Mark) -> Group | None:
        """The rounds or sets that a rest stands between."""
        done = [item for item in self._done if isinstance(item, Group) and item.kind == "repeat"]
        if done:
            return done[-1]
        target = self._sheet.target
        if target.kind == "repeat" and mark.between:
            return target
        last = target.items[-1] if target.items else None
        if isinstance(last, Group) and last.kind == "repeat" and not self._said.efforts:
            return last
        return None

    def _ladder(self, mark: Mark) -> None:
        rungs = tuple(int(value) for value in mark.amounts[0].values)
        self._sheet.draft.rungs = rungs
        if self._said.leads and not self._said.efforts and not self._heading:
            self._open(Group("ladder", rungs=rungs))

    def _slot(self, mark: Mark) -> None:
        sheet = self._sheet
        if sheet.draft.clock is None and not sheet.draft.top.items:
            sheet.draft.clock, sheet.draft.every_s = "every", 60.0  # "min 1: 12 swings"
        if sheet.draft.clock != "every":
            return
        while sheet.scopes and sheet.scopes[-1].group.kind == "slot":
            sheet.scopes.pop()
        self._open(Group("slot", index=int(mark.amounts[0].low or 0)))


def merge_pair(sheet: Sheet, before: Sequence[Work | Group]) -> None:
    """The second of a superset goes into the rounds of the first, where they are as many."""
    first, second = _only(before), _only(sheet.last_line)
    if first is None or second is None or first.times != second.times:
        return
    first.items.extend(second.items)
    first.rest_s = second.rest_s if second.rest_s is not None else first.rest_s
    sheet.draft.top.items = [item for item in sheet.draft.top.items if item is not second]
    sheet.last_line = list(before)


def _only(items: Sequence[Work | Group]) -> Group | None:
    found = [item for item in items if isinstance(item, Group) and item.kind == "repeat"]
    return found[0] if len(found) == 1 else None

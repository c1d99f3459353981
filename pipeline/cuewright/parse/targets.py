"""Targets: what the coach wants a station, a round or the whole to take or to feel like.

A time, a number of sets, a mark out of ten or a share is a target when words beside it
say that it is wanted ("I'd like the swings done in …"), or when it goes on a list of such
("… the row, about four minutes. The squats, five."). What it is for is the nearest thing
spoken of before it, or right after it ("four minutes over each round").
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from cuewright.parse.build import Quote
from cuewright.parse.subjects import Subject, Subjects
from cuewright.phrases import Phrases
from cuewright.tables import raw
from cuewright_models.divided import Divided
from cuewright_models.plan import Target
from cuewright_models.tokens import Amount, Mention

Unit = Literal["s", "sets", "rpe", "%"]
_LONGEST_S = 2 * 3600.0
_LEAST_WHOLE_S = 300.0
"""A time said of nothing in particular is the whole's from here on."""
_BEHIND = 6
"""Tokens after an amount in which it may still be said to be wanted."""
_NEAR = 8
"""Tokens after an amount in which it may be said what it is for."""
_LIST = 30
"""Tokens from one entry of a list to the next, at most."""
_SIDES = frozenset("each a per either".split())
"""After the seconds of a stretch: "thirty seconds a side"."""
_APART = 3
"""Words from a thing to "I'd like" from which the two need not belong together."""
_NEGATED = 5
"""Tokens from "shouldn't" to "more than four minutes", at most."""
_SCALE = 40
"""Tokens for which a scale of ten stays open."""


@dataclass(frozen=True, slots=True)
class Figure:
    """An amount that may be a target, over ``start:end`` with its own words."""

    start: int
    end: int
    unit: Unit
    low: float | None
    high: float | None
    bare: bool = False
    """True for a mark whose "out of ten" was said before."""


class Finder:
    """Reads the figures of a talk in order; ``found`` holds the targets so far."""

    def __init__(self, divided: Divided, subjects: Subjects, quote: Quote) -> None:
        self.tokens = divided.reading.tokens
        self.divided = divided
        self.subjects = subjects
        self.quote = quote
        self.figures = sorted(_figures(divided), key=lambda figure: figure.start)
        self.starts = [clause.start for clause in divided.clauses]
        self.marks: dict[str, list[Mention]] = {}
        for mention in _phrases().everywhere(divided.reading.stems):
            self.marks.setdefault(mention.name, []).append(mention)
        self.listed = -_LIST * 2
        """Where the last target of a list, or its heading, ended."""
        self.unit: Unit | None = None
        """What the entries of the list are counted in, once one was read."""
        self.last: Subject | None = None
        self.used: set[int] = set()
        """Where the figures start that are targets."""

    def targets(self) -> Iterator[Target]:
        """Every target in the order said."""
        floor = 0
        for figure in self.figures:
            floor = max(floor, self._clause(figure.start)[0])
            target = self._target(figure, floor)
            if target is not None:
                self.used.add(figure.start)
                self.listed = figure.end
                self.unit = figure.unit if figure.unit in ("s", "rpe") else self.unit
                yield target
            floor = figure.end

    def _clause(self, at: int) -> tuple[int, int]:
        clause = self.divided.clauses[bisect_right(self.starts, at) - 1]
        return clause.start, clause.end

    def _ceiling(self, figure: Figure) -> int:
        """Where what follows a figure is no longer about it."""
        end = self._clause(figure.start)[1]
        stops = (at + 1 for at in range(figure.end - 1, end) if self.tokens[at].after in tuple(".?!"))
        following = (other.start for other in self.figures if other.start >= figure.end)
        return min(end, next(stops, end), next(following, end))

    def _target(self, figure: Figure, floor: int) -> Target | None:
        for heading in self._marked("header", self._clause(floor)[0] - _LIST, figure.start):
            if heading.end > self.listed:
                self.listed, self.unit = heading.end, None
        ceiling = self._ceiling(figure)
        wanted = self._wanted(figure, floor, ceiling)
        about = self._about(figure, floor, ceiling, wanted)
        among = floor - self.listed <= _LIST or self._clocked(figure, about)
        listed = among and self._on_list(figure, floor, about)
        plain = not wanted and not listed and self._speaks_for_itself(figure, floor, about)
        if not (wanted or listed or plain) or not self._led(figure, floor, wanted, listed):
            return None
        if about is None:
            about = self._whole(figure, floor, wanted) if wanted else None
        if about is None or about.kind == "partial" or (figure.bare and about.kind == "pronoun"):
            return None
        if about.kind == "pronoun":
            about = self._stands_for(figure, about)
        if about is None:
            return None
        self.last = about
        places = [wanted.start if wanted else figure.start, figure.start]
        if floor <= about.start:
            places.append(about.start)
        end = max(figure.end, about.end if about.start >= figure.end and about.end <= ceiling else 0)
        return Target(
            about=about.about,
            unit=figure.unit,
            low=figure.low,
            high=figure.high,
            said=(self.quote(min(places), end),),
        )

    # --- is it wanted? --------------------------------------------------------------------

    def _marked(self, name: str, start: int, end: int) -> list[Mention]:
        mentions = self.marks.get(name, [])
        first = bisect_left(mentions, start, key=lambda m: m.start)
        return [m for m in mentions[first:] if m.start < end]

    def _wanted(self, figure: Figure, floor: int, ceiling: int) -> Mention | None:
        """The words that say that a figure is wanted, if nothing after them speaks against it."""
        before = [
            m
            for m in self._marked("want", floor, figure.start + 1)
            if m.end <= figure.start + 1 and not self._negated(m)
        ]
        for mention in reversed(before):
            if not self._against(mention.end, figure):
                return mention
        after = self._marked("want", figure.end, min(figure.end + _BEHIND, ceiling))
        told = figure.unit != "s" and not self._against(floor, figure)
        return next((m for m in after if told and not self._negated(m)), None)

    def _negated(self, mention: Mention) -> bool:
        before = [token.norm for token in self.tokens[max(mention.start - 2, 0) : mention.start]]
        inside = [token.norm for token in self.tokens[mention.start : mention.end + 1]]
        return bool({"don't", "not", "never", "if"} & {*before, *inside})

    def _against(self, start: int, figure: Figure) -> bool:
        """Whether words between ``start`` and the figure make it something else."""
        return any(
            not self._excused(m, figure)
            for m in self._marked("against", start, figure.start)
            if m.end <= figure.start
        )

    def _excused(self, mention: Mention, figure: Figure) -> bool:
        """ "if ten is the hardest", "not counting the rest": against nothing."""
        words = [token.norm for token in self.tokens[mention.start : mention.end + 1]]
        if words[0] == "if":
            return words[1:2] in (["ten"], ["one"], ["10"], ["1"])
        if words[0] == "every":
            return mention.end + 1 < figure.start
        if words[0] == "not":
            return words[1:2] == ["counting"]
        if words[0] in ("rest", "hold", "cap", "break", "got"):
            return figure.start - mention.end > 2
        return False

    def _on_list(self, figure: Figure, floor: int, about: Subject | None) -> bool:
        """Whether a figure goes on the list of targets before it: a thing, then its figure."""
        if figure.unit not in ("s", "rpe") or self.unit not in (None, figure.unit):
            return False
        if about is None or about.start >= figure.start or self._norm(figure.end) in _SIDES:
            return False
        if about.kind not in ("movement", "round", "block", "total"):
            return False
        near = figure.start - about.end <= 5 and about.start - floor <= 6
        return near and not self._against(floor, figure) and not self._is_work(figure, about)

    def _clocked(self, figure: Figure, about: Subject | None) -> bool:
        """Whether a time is said, outside the work itself, of work told in reps or metres."""
        if about is None or self._section(figure.start) in ("scaling", "warm-up", "cool-down"):
            return False
        if self.subjects.prescribed(figure.start):
            return False
        return about.kind == "round" or (
            about.about in self.subjects.worked and not self.subjects.seconds_of(about.about)
        )

    def _speaks_for_itself(self, figure: Figure, floor: int, about: Subject | None) -> bool:
        """Whether a figure is a target by its nature: a mark, a way to break up reps, a limit.

        A time is one for work that is told in reps or metres: "the row in two minutes".
        """
        section = self._section(figure.start)
        if about is None or about.kind == "pronoun" or section == "scaling" or figure.bare:
            return False
        if self._against(floor, figure):
            return False
        if figure.unit == "%":
            return self._norm(figure.end) in _words()["effort"]
        if figure.unit == "rpe":
            return True
        within = figure.low is None or self._lead(figure, floor) in _words()["within"]
        if about.kind == "total":
            return figure.unit == "s" and within and self._ends_in(figure, floor)
        if about.kind == "block":
            return False
        return figure.unit == "sets" or (within and not self._is_work(figure, about))

    def _is_work(self, figure: Figure, about: Subject) -> bool:
        """Whether a time is the very amount that the session asks of a movement."""
        return figure.high in self.subjects.seconds_of(about.about)

    def _ends_in(self, figure: Figure, floor: int) -> bool:
        """Whether finishing is spoken of before a figure."""
        before = {token.norm for token in self.tokens[floor : figure.start]}
        return bool(before & set(_words()["finish"]))

    def _section(self, at: int) -> str:
        return self.divided.clauses[bisect_right(self.starts, at) - 1].section

    def _lead(self, figure: Figure, floor: int) -> str:
        """The word that leads to a figure, hedges left out."""
        at = figure.start - 1
        while at >= floor and self.tokens[at].norm in _words()["hedge"]:
            at -= 1
        return self._norm(at) if at >= floor else ""

    def _led(self, figure: Figure, floor: int, wanted: Mention | None, listed: bool) -> bool:
        """Whether the words right around a figure let it be a target at all."""
        words = _words()
        if figure.unit == "s" and not self.tokens[figure.end - 1].after:
            pointed = self._norm(figure.end + 1) in words["article"]
            if self._norm(figure.end) in words["follow"] and not pointed:
                return False
        at = figure.start - 1
        while at >= floor and self.tokens[at].norm in words["hedge"] and not self._closes(wanted, at):
            at -= 1
        if at < floor or self._closes(wanted, at):
            return True
        norm = self.tokens[at].norm
        if norm == "for":
            return self._norm(at - 1) in words["for"]
        if figure.unit in ("rpe", "%", "sets"):
            return True
        if figure.low is None:
            return True
        entry = listed and (self.tokens[at].after != "" or any(s.end == at + 1 for s in self.subjects.within(floor, at + 1)))
        return norm in words["lead"] or entry

    @staticmethod
    def _closes(wanted: Mention | None, at: int) -> bool:
        return wanted is not None and wanted.start <= at < wanted.end

    def _norm(self, at: int) -> str:
        return self.tokens[at].norm if 0 <= at < len(self.tokens) else ""

    # --- what is it for? ------------------------------------------------------------------

    def _about(
        self, figure: Figure, floor: int, ceiling: int, wanted: Mention | None
    ) -> Subject | None:
        before = [s for s in self.subjects.within(floor, figure.start) if s.end <= figure.start]
        named = [s for s in before if s.kind in ("movement", "round", "partial")]
        if wanted and wanted.start < figure.start:
            others = self._marked("want", figure.end, ceiling)
            ceiling = min([ceiling, *(other.start for other in others)])
        after = self._after(figure, ceiling)
        loose = wanted and named and wanted.start - named[-1].end >= _APART
        if named and not (loose and after and after.kind in ("round", "total")):
            return named[-1]
        if after is not None:
            return after
        for kinds in (("block", "total"), ("pronoun",)):
            found = [s for s in before if s.kind in kinds]
            if found:
                return found[-1]
        return None

    def _after(self, figure: Figure, ceiling: int) -> Subject | None:
        """What is named right after a figure: "over each round", "on those"."""
        words = _words()
        for subject in self.subjects.within(figure.end, min(figure.end + _NEAR, ceiling)):
            if subject.kind in ("round", "total"):
                return subject
            at = subject.start - 1
            while at >= figure.end and self.tokens[at].norm in words["article"]:
                at -= 1
            linked = at in (figure.end, figure.end - 1) and self._norm(at) in words["link"]
            if linked and subject.kind in ("movement", "block", "pronoun"):
                return subject
        return None

    def _whole(self, figure: Figure, floor: int, wanted: Mention) -> Subject | None:
        """The whole session, when a figure is wanted of nothing in particular."""
        total = Subject(figure.start, figure.start, "total", "total")
        if figure.unit == "rpe" and not figure.bare:
            return total
        sought = self._norm(wanted.end - 1) in ("for", "after") or self._ends_in(figure, floor)
        long = figure.unit == "s" and (figure.high or 0) >= _LEAST_WHOLE_S
        return total if sought and long else None

    def _stands_for(self, figure: Figure, pronoun: Subject) -> Subject | None:
        """What "that", "those" or "it" means here."""
        if self.last is not None and figure.start - self.listed <= _NEAR:
            return self.last
        word = self._norm(pronoun.start)
        meant = self.subjects.meant(pronoun.start)
        if word in ("it", "this", "that", "one") and figure.unit == "rpe":
            if meant is None or pronoun.start - meant.end > 2 * _NEAR:
                return Subject(pronoun.start, pronoun.end, "total", "total")
        return meant


def targets(
    divided: Divided, subjects: Subjects, quote: Quote
) -> tuple[tuple[Target, ...], set[int]]:
    """The targets of a talk and the tokens at which their figures start.

    One said again in the same figures stands once, with each place.
    """
    found: dict[tuple[object, ...], Target] = {}
    finder = Finder(divided, subjects, quote)
    for target in finder.targets():
        key = (target.about, target.unit, target.low, target.high)
        if key in found:
            both = (*found[key].said, *target.said)
            target = target.model_copy(update={"said": tuple(dict.fromkeys(both))})
        found[key] = target
    return tuple(found.values()), finder.used


# --- figures ----------------------------------------------------------------------------


def _figures(divided: Divided) -> Iterator[Figure]:
    reading = divided.reading
    scales = [m.start for m in _phrases().everywhere(reading.stems) if m.name == "scale"]
    tens = {end for amount in reading.amounts if (end := _out_of_ten(divided, amount))}
    for amount in reading.amounts:
        figure = _figure(divided, amount, scales)
        if figure is not None and not any(figure.start < end <= figure.end - 3 for end in tens):
            yield figure
    for mention in _phrases().everywhere(reading.stems):
        if mention.name == "unbroken":
            yield Figure(mention.start, mention.end, "sets", 1, 1)


def _figure(divided: Divided, amount: Amount, scales: Sequence[int]) -> Figure | None:
    tokens = divided.reading.tokens
    after = tokens[amount.end].norm if amount.end < len(tokens) else ""
    before = tokens[amount.start - 1].norm if amount.start else ""
    if amount.shape not in ("one", "range"):
        return None
    if amount.unit == "s" and (amount.high or amount.low or 0) <= _LONGEST_S:
        low, high = amount.low, amount.high
        earlier = {token.norm for token in tokens[max(amount.start - _NEGATED, 0) : amount.start]}
        if high is None and earlier & {"not", "shouldn't", "don't", "won't", "never"}:
            low, high = None, low  # "it shouldn't take more than"
        return Figure(amount.start, amount.end, "s", low, high)
    if amount.unit == "%" and after not in ("of", "max", "one"):
        return Figure(amount.start, amount.end, "%", amount.low, amount.high)
    if amount.unit is not None:
        return None
    if (end := _out_of_ten(divided, amount)) is not None:
        return Figure(amount.start, end, "rpe", amount.low, amount.high)
    if before == "rpe" or [t.norm for t in tokens[max(amount.start - 2, 0) : amount.start]] == ["rpe", "of"]:
        return Figure(amount.start, amount.end, "rpe", amount.low, amount.high)
    if after in ("set", "sets") and before in ("in", "in about", "maximum"):
        return Figure(amount.start, amount.end + 1, "sets", amount.low, amount.high)
    near = any(0 <= amount.start - scale <= _SCALE for scale in scales)
    marked = before in ("a", "an", "at", "around", "about") and 1 <= (amount.low or 0) <= 10
    if near and marked and amount.high is not None and amount.high <= 10 and after != "out":
        return Figure(amount.start, amount.end, "rpe", amount.low, amount.high, bare=True)
    return None


def _out_of_ten(divided: Divided, amount: Amount) -> int | None:
    """Where "out of ten" ends after an amount."""
    norms = [token.norm for token in divided.reading.tokens[amount.end : amount.end + 3]]
    return amount.end + 3 if norms in (["out", "of", "ten"], ["out", "of", "10"]) else None


@cache
def _phrases() -> Phrases:
    table = raw("cuewright.parse", "targets.toml")
    return Phrases({name: row["said"] for name, row in table.items() if "said" in row})


@cache
def _words() -> dict[str, Any]:
    table: dict[str, Any] = raw("cuewright.parse", "targets.toml")["words"]
    return table

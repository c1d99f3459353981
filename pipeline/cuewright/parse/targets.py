"""Targets: what the coach wants a station, a round or the whole to take or to feel like.

A time, a number of sets, a mark out of ten or a share is a target when words beside it
say that it is wanted ("I'd like the swings done in …"), when it goes on a list of such
("… the row, about four minutes. The squats, five."), or by its nature. What it is for is
the nearest thing spoken of before it, or right after it ("four minutes over each round").
"""

from bisect import bisect_left
from collections.abc import Iterator
from itertools import zip_longest

from cuewright.parse.build import Quote
from cuewright.parse.figures import Figure, Unit, figures, words
from cuewright.parse.marks import Marks
from cuewright.parse.subjects import Subject, Subjects
from cuewright.parse.wishes import Wishes
from cuewright_models.base import Said
from cuewright_models.divided import Divided
from cuewright_models.plan import Target
from cuewright_models.tokens import Mention

_LEAST_WHOLE_S = 300.0
"""A time said of nothing in particular is the whole's from here on."""
_LEAST_PART_S = 120.0
"""No part of a session, let alone the whole, is over sooner."""
_LEAST_LONG_S = 720.0
"""So long takes no one movement: "it" is then the whole."""
_NEAR = 8
"""Tokens after an amount in which it may be said what it is for."""
_APART = 3
"""Words from a thing to "I'd like" from which the two need not belong together."""
_TAKEN_BACK = 5
"""Words from a figure to the one that corrects it, at most."""
_LIST = 30
"""Tokens from one entry of a list to the next, at most."""
_ONE = ("it", "this", "that", "one")


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


class Finder:
    """Reads the figures of a talk in order; ``used`` is where those start that are targets."""

    def __init__(self, divided: Divided, subjects: Subjects, quote: Quote) -> None:
        self.tokens = divided.reading.tokens
        self.marks = Marks(divided, "targets.toml")
        self.open_ended = subjects.open_ended()
        self.figures = figures(divided, self.marks, rounds=self.open_ended is not None)
        self.starts = [figure.start for figure in self.figures]
        self.subjects = subjects
        self.wishes = Wishes(divided, subjects, self.marks)
        self.quote = quote
        self.used: set[int] = set()
        self.listed = -2 * _LIST
        """Where the last target of a list, or its heading, ended."""
        self.unit: Unit | None = None
        """What the entries of the list are counted in, once one was read."""
        self.last: Subject | None = None

    def targets(self) -> Iterator[Target]:
        """Every target in the order said."""
        floor = 0
        for figure, following in zip_longest(self.figures, self.figures[1:]):
            floor = max(floor, self.marks.clause(figure.start)[0])
            taken_back = following is not None and self._corrects(following, figure)
            target = None if taken_back else self._target(figure, floor)
            if target is not None:
                self.used.add(figure.start)
                self.listed = figure.end
                self.unit = figure.unit if figure.unit in ("s", "rpe") else self.unit
                yield target
            floor = floor if taken_back else figure.end

    def _corrects(self, figure: Figure, earlier: Figure) -> bool:
        """ "In three minutes, no, four minutes"."""
        between = self.tokens[earlier.end : figure.start]
        wrong = any(token.norm in words()["wrong"] for token in between)
        return wrong and len(between) <= _TAKEN_BACK and figure.unit == earlier.unit

    def _target(self, figure: Figure, floor: int) -> Target | None:
        self._read_headings(figure, floor)
        ceiling = self._ceiling(figure)
        wanted = self.wishes.wanted(figure, floor, ceiling)
        if figure.unit == "rounds":
            return self._score(figure, wanted)
        about = self._about(figure, floor, ceiling, wanted)
        about = self._lone(figure, about or self._carried(figure, floor, wanted))
        if about is not None and self.wishes.prepares(figure, about):
            return None
        listed = self._on_list(figure, floor, about)
        if not (wanted or listed or self.wishes.plain(figure, floor, about)):
            return None
        follows = listed and about is not None and about.start >= figure.end
        if not self.wishes.led(figure, floor, wanted, listed=listed, follows=follows):
            return None
        meant = self._meant(figure, floor, about, wanted)
        if meant is None or self._refused(figure, meant, wanted):
            return None
        self.last = meant
        return Target(
            about=meant.about,
            unit=figure.unit,
            low=None if wanted is not None and wanted.name == "want-most" else figure.low,
            high=figure.high or figure.low,
            said=(self._said(figure, floor, ceiling, meant, wanted),),
        )

    def _lone(self, figure: Figure, about: Subject | None) -> Subject | None:
        """The one movement of the work for "them" or nothing at all, where targets are told."""
        only = self.subjects.only()
        vague = about is None or about.kind == "pronoun"
        if only is None or not vague or self.marks.section(figure.start) != "targets":
            return about
        if figure.unit not in ("s", "%") or (figure.high or 0) >= _LEAST_LONG_S:
            return about
        start, end = (about.start, about.end) if about else (figure.start, figure.start)
        return Subject(start, end, "movement", only.about)

    def _refused(self, figure: Figure, meant: Subject, wanted: Mention | None) -> bool:
        """Whether what a figure is for makes it a length, or a count of nothing."""
        movement = meant.kind == "movement"
        if (figure.unit == "sets" and not movement) or (
            movement and meant.about not in self.subjects.known
        ):
            return True
        whole = meant.kind in ("total", "block")
        if whole and figure.unit == "s" and (figure.high or 0) < _LEAST_PART_S:
            return True
        told = self.wishes.lasts(figure) or self.wishes.only_told(figure, wanted, meant)
        return told or self.wishes.warms(figure, meant)

    def _score(self, figure: Figure, wanted: Mention | None) -> Target | None:
        """How many rounds are wanted where the session leaves their number open."""
        if wanted is None or self.open_ended is None or self.wishes.scaled(figure):
            return None
        said = self.quote(min(wanted.start, figure.start), max(wanted.end, figure.end))
        return Target(
            about=self.open_ended, unit="rounds", low=figure.low, high=figure.high, said=(said,)
        )

    def _said(
        self, figure: Figure, floor: int, ceiling: int, about: Subject, wanted: Mention | None
    ) -> Said:
        """From what the figure is for, or the words of wanting, to its end."""
        starts = [figure.start, *([wanted.start] if wanted else [])]
        starts += [about.start] if about.start >= floor else []
        ends = [figure.end, *([about.end] if figure.end <= about.start < ceiling else [])]
        return self.quote(min(starts), max(ends))

    def _ceiling(self, figure: Figure) -> int:
        """Where what follows a figure is no longer about it."""
        end = self.marks.clause(figure.start)[1]
        for at in range(figure.end, end):
            if self.tokens[at - 1].after in (".", "?", "!"):
                return at
        following = bisect_left(self.starts, figure.end)
        return min([end, *self.starts[following : following + 1]])

    # --- lists ------------------------------------------------------------------------------

    def _read_headings(self, figure: Figure, floor: int) -> None:
        """ "How long should it take you?" opens a list."""
        start = self.marks.clause(floor)[0] - _LIST
        for heading in self.marks.inside("header", start, figure.start):
            if heading.end > self.listed:
                self.listed, self.unit = heading.end, None

    def _on_list(self, figure: Figure, floor: int, about: Subject | None) -> bool:
        if self.unit not in (None, figure.unit):
            return False
        told = self.marks.section(figure.start) == "targets"
        open_list = told or floor - self.listed <= _LIST or self.wishes.clocked(figure, about)
        return open_list and self.wishes.listed(figure, max(floor, self.listed), about)

    # --- what is it for? --------------------------------------------------------------------

    def _about(
        self, figure: Figure, floor: int, ceiling: int, wanted: Mention | None
    ) -> Subject | None:
        """What is named beside a figure: before it, else right after it."""
        before = [s for s in self.subjects.within(floor, figure.start) if s.end <= figure.start]
        if wanted is not None:
            own = range(wanted.start, wanted.end)
            before = [s for s in before if s.kind != "movement" or s.start not in own]
        named = [s for s in before if s.kind in ("movement", "round", "partial")]
        after = self._after(figure, self._next_wish(figure, ceiling, wanted))
        topic, rounds = self._topic(before), after is not None and after.kind == "round"
        if topic is not None and not rounds and (not named or named[-1].start < topic.start):
            return topic
        loose = wanted and named and wanted.start - named[-1].end >= _APART
        if named and not (loose and after and after.kind in ("round", "total")):
            return named[-1]
        if after is not None:
            return after
        blocks = [s for s in before if s.kind == "block"]
        parts = blocks or [s for s in before if s.kind == "total"]
        before = [s for s in before if not self._joins(s)]
        if parts:
            return parts[-1]
        return self.subjects.theme(floor, figure.start) or (before[-1] if before else None)

    def _joins(self, subject: Subject) -> bool:
        """ "Which means that you …": no thing that is meant, but a word that joins."""
        joined = subject.kind == "pronoun" and subject.start > 0
        return joined and self.tokens[subject.start - 1].norm in words()["says"]

    def _carried(self, figure: Figure, floor: int, wanted: Mention | None) -> Subject | None:
        """ "The carry in a minute, unbroken", "about 85 percent effort": what was told last."""
        if figure.unit == "sets" and figure.start - self.listed <= _NEAR:
            return self.last
        if figure.unit == "%" and self.wishes.of_effort(figure):
            return self.subjects.told_at(figure.start)
        if figure.unit == "rpe" and not figure.bare:
            return self._again(figure) or self._told_here(figure)
        if self.wishes.ends_in(figure, floor) and (figure.high or 0) >= _LEAST_LONG_S:
            return None  # "each round …, which means that you finish in half an hour"
        spoken = self.subjects.meant(figure.start) if wanted and figure.unit == "s" else None
        near = spoken is not None and figure.start - spoken.end <= 2 * _NEAR
        return spoken if near and spoken is not None and spoken.kind == "round" else None

    def _again(self, figure: Figure) -> Subject | None:
        """ "That's about an eight out of ten": of what the last target was for."""
        at = figure.start - 1
        while at > 0 and self.tokens[at].norm in words()["hedge"]:
            at -= 1
        near = figure.start - self.listed <= 2 * _NEAR
        return self.last if near and self.tokens[at].norm in words()["again"] else None

    def _told_here(self, figure: Figure) -> Subject | None:
        """The one movement of the block that is being told."""
        work = self.marks.section(figure.start) == "work"
        return self.subjects.told_at(figure.start) if work else None

    def _topic(self, before: list[Subject]) -> Subject | None:
        """ "On the ladder …": the last part of the session that a sentence sets out to tell of."""
        parts = [s for s in before if s.kind == "block" and self._led_in(s)]
        return parts[-1] if parts else None

    def _led_in(self, subject: Subject) -> bool:
        return subject.start > 0 and self.tokens[subject.start - 1].norm in words()["topic"]

    def _next_wish(self, figure: Figure, ceiling: int, wanted: Mention | None) -> int:
        if wanted is None or wanted.start >= figure.start:
            return ceiling
        return min([ceiling, *(m.start for m in self.marks.inside("want", figure.end, ceiling))])

    def _after(self, figure: Figure, ceiling: int) -> Subject | None:
        """What is named right after a figure: "over each round", "on those"."""
        for subject in self.subjects.within(figure.end, min(figure.end + _NEAR, ceiling)):
            if subject.kind in ("round", "total") or self._linked(figure, subject):
                return subject
        return None

    def _linked(self, figure: Figure, subject: Subject) -> bool:
        """Whether "for the", "on those" or the like joins a figure to what follows."""
        at = subject.start - 1
        while at >= figure.end and self.tokens[at].norm in words()["article"]:
            at -= 1
        joined = at == figure.end and self.tokens[at].norm in words()["link"]
        return joined and subject.kind in ("movement", "block", "pronoun")

    def _meant(
        self, figure: Figure, floor: int, about: Subject | None, wanted: Mention | None
    ) -> Subject | None:
        """What a figure is for in the end; none when that cannot be told."""
        if about is None:
            return self._whole(figure, floor, wanted) if wanted else None
        if about.kind == "partial" or (figure.bare and about.kind == "pronoun"):
            return None
        return self._stands_for(figure, about) if about.kind == "pronoun" else about

    def _whole(self, figure: Figure, floor: int, wanted: Mention) -> Subject | None:
        """The whole session, when a figure is wanted of nothing in particular."""
        total = Subject(figure.start, figure.start, "total", "total")
        if figure.unit == "rpe" and not figure.bare:
            return total
        if self.wishes.ends_in(figure, floor):
            total = self._here(figure) or total
        sought = self.tokens[wanted.end - 1].norm in ("for", "after")
        told = self.marks.section(figure.start) == "targets"
        long = figure.unit == "s" and (figure.high or 0) >= _LEAST_WHOLE_S
        return total if long and (sought or told or self.wishes.ends_in(figure, floor)) else None

    def _here(self, figure: Figure) -> Subject | None:
        """The block that is being told, where the work is told."""
        home = self.subjects.home(figure.start)
        work = self.marks.section(figure.start) == "work"
        return home if work or (home and self.subjects.goes_on(home)) else None

    def _stands_for(self, figure: Figure, pronoun: Subject) -> Subject | None:
        """What "that", "those" or "it" means here: the last target's, else what came last."""
        if self.last is not None and figure.start - self.listed <= _NEAR:
            return self.last
        said = " ".join(t.norm for t in self.tokens[pronoun.start : pronoun.end])
        turn = self.subjects.turn(pronoun.start) if said in words()["turns"] else None
        if turn is not None and figure.unit == "s":
            return turn
        meant = self.subjects.meant(pronoun.start)
        far = meant is None or pronoun.start - meant.end > 2 * _NEAR
        told = self.subjects.told_at(pronoun.start) if far else None
        if told is not None:
            return told
        if far and figure.unit == "rpe" and self.tokens[pronoun.start].norm in _ONE:
            return Subject(pronoun.start, pronoun.end, "total", "total")
        long = figure.unit == "s" and (figure.high or 0) >= _LEAST_LONG_S
        if long and self.tokens[pronoun.start].norm == "it" and meant and meant.kind == "movement":
            return Subject(pronoun.start, pronoun.end, "total", "total")
        return meant or self.subjects.only()

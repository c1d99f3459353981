"""Whether a figure is wanted: words that say so, a list that it goes on, or its own nature."""

from cuewright.parse.figures import Figure, words
from cuewright.parse.marks import Marks
from cuewright.parse.offering import loaded
from cuewright.parse.subjects import Subject, Subjects
from cuewright_models.divided import Divided
from cuewright_models.tokens import Mention, norm_at

_BEHIND = 7
"""Tokens after a mark in which it may still be said to be wanted."""
_LASTS = 9
"""Tokens on either side of a time that may say that it is only a length."""
_HOW = 8
"""Tokens before a share in which it may be said how hard."""
_BESIDE = 2
"""Words such as "rest" speak only against a figure this close."""
_LINKED = 3
"""Tokens from a figure to what it is for, at most."""
_ENTRY = 5
"""Tokens from a thing to its figure in a list, at most."""


class Wishes:
    """Reads the words around a figure; ``floor`` is always where those before it start."""

    def __init__(self, divided: Divided, subjects: Subjects, marks: Marks) -> None:
        self._tokens = divided.reading.tokens
        self._subjects = subjects
        self._marks = marks

    def wanted(self, figure: Figure, floor: int, ceiling: int) -> Mention | None:
        """The words that say that a figure is wanted, if nothing after them speaks against it."""
        most = self._marks.inside("want-most", floor, figure.end)
        if most and figure.start - most[-1].end <= _BESIDE:
            return most[-1]
        before = self._marks.inside("want", floor, figure.start + 1)
        for mention in reversed([m for m in before if not self._negated(m)]):
            if not self._against(mention.end, figure):
                return mention
        if self._against(floor, figure):
            return None
        reach = min(figure.end + _BEHIND, ceiling)
        after = [*self._marks.inside("want-after", figure.end, reach)]
        if figure.unit != "s":
            after += self._marks.inside("want", figure.end, reach)
        return next((m for m in after if not self._negated(m)), None)

    def prepares(self, figure: Figure, about: Subject) -> bool:
        """Whether a time is that of a warm-up or a cool-down, which nobody races."""
        if figure.unit != "s" or about.kind != "movement" or about.about in self._subjects.worked:
            return False
        easy = self._marks.section(figure.start) in ("warm-up", "cool-down")
        return easy or about.about in self._subjects.eased

    def only_told(self, figure: Figure, wanted: Mention | None, about: Subject) -> bool:
        """Whether "plan on", "it takes about" or the like tell how long the whole or a part is."""
        if wanted is None:
            return False
        said = " ".join(token.norm for token in self._tokens[wanted.start : wanted.end])
        before = [token.norm for token in self._tokens[max(wanted.start - 2, 0) : wanted.start]]
        wish = bool({"i'm", "i", "am"} & set(before))  # "I'm looking at", not "you're looking at"
        takes = any(t.norm == "takes" for t in self._tokens[wanted.start : wanted.end])
        telling = figure.unit == "s" and (said in words()["telling"] or takes) and not wish
        whole = about.kind in ("total", "block") or about.about in self._subjects.eased
        return telling and (whole or "so" in before)

    def warms(self, figure: Figure, about: Subject) -> bool:
        """Whether a time is told among those of a warm-up or a cool-down, of what is done there."""
        easy = self._marks.section(figure.start) in ("warm-up", "cool-down")
        return easy and self.prepares(figure, about)

    def of_effort(self, figure: Figure) -> bool:
        """Whether a share is one of best effort: "85 percent effort", "not flat out, about 85"."""
        before = {token.norm for token in self._tokens[max(figure.start - _HOW, 0) : figure.start]}
        hard = set(words()["hard"])
        return norm_at(self._tokens, figure.end) in words()["effort"] or bool(before & hard)

    def scaled(self, figure: Figure) -> bool:
        """Whether a figure is said where the work is made easier."""
        return self._marks.section(figure.start) == "scaling"

    def listed(self, figure: Figure, floor: int, about: Subject | None) -> bool:
        """Whether a figure reads as the entry of a list: a thing, then its figure."""
        if figure.unit not in ("s", "rpe") or about is None or about.kind in ("partial", "pronoun"):
            return False
        if self._per_side(figure):
            return False
        if about.start >= figure.end:
            return self._follows(figure, about) and not self._against(floor, figure)
        earlier = self._tokens[max(about.start - _LINKED, 0) : about.start]
        opened = any(token.norm == "then" for token in earlier)
        begins = opened or about.start - floor <= _ENTRY + 1
        near = figure.start - about.end <= _ENTRY and begins
        return near and not self._against(floor, figure) and not self._is_work(figure, about)

    def _follows(self, figure: Figure, about: Subject) -> bool:
        """ "Four minutes for the run": a time, then what it is for."""
        linked = norm_at(self._tokens, figure.end) in words()["beside"]
        beside = about.kind == "round" and about.start == figure.end
        near = about.start - figure.end <= _LINKED
        summed = norm_at(self._tokens, figure.start - 1) in words()["sums"]
        return near and not summed and (linked or beside) and not self._is_work(figure, about)

    def clocked(self, figure: Figure, about: Subject | None) -> bool:
        """Whether a time is said, outside the work itself, of work told in reps or metres."""
        elsewhere = self._marks.section(figure.start) in ("scaling", "warm-up", "cool-down")
        if about is None or elsewhere or self._subjects.prescribed(figure.start):
            return False
        counted = not self._subjects.seconds_of(about.about)
        return about.kind == "round" or (about.about in self._subjects.worked and counted)

    def plain(self, figure: Figure, floor: int, about: Subject | None) -> bool:
        """Whether a figure is a target by its nature: a mark, a way to break up reps, a limit.

        A time is one for work that is told in reps or metres: "the row in two minutes".
        """
        if about is None or about.kind == "pronoun" or figure.bare:
            return False
        if self._marks.section(figure.start) == "scaling" or self._against(floor, figure):
            return False
        if figure.unit == "rpe":
            return True
        if figure.unit == "%":
            free = about.kind == "movement" and not loaded(about.about)
            at = norm_at(self._tokens, self._lead(figure, floor) or 0) == "at"
            return (free and at) or self.of_effort(figure) or self._subjects.measured(about.about)
        if self._paced(figure, about):
            return True
        if about.kind in ("movement", "round"):
            return figure.unit == "sets" or (
                self._limited(figure, floor)
                and not self._is_work(figure, about)
                and about.start - figure.end <= _LINKED
            )
        return (
            about.kind == "total"
            and figure.unit == "s"
            and self._limited(figure, floor)
            and self.ends_in(figure, floor)
        )

    def _paced(self, figure: Figure, about: Subject) -> bool:
        """ "About four minutes a round", told outside the work itself."""
        beside = about.kind == "round" and about.start == figure.end
        work = self._subjects.prescribed(figure.start) or self._is_work(figure, about)
        summed = norm_at(self._tokens, figure.start - 1) in words()["sums"]
        return beside and figure.unit == "s" and not work and not summed

    def ends_in(self, figure: Figure, floor: int) -> bool:
        """Whether finishing is spoken of before a figure."""
        before = {token.norm for token in self._tokens[floor : figure.start]}
        return bool(before & set(words()["finish"]))

    def led(
        self, figure: Figure, floor: int, wanted: Mention | None, *, listed: bool, follows: bool
    ) -> bool:
        """Whether the words right beside a figure let it be a target at all.

        ``follows`` where the figure goes on a list with what it is for right after it.
        """
        if figure.unit == "s" and self._is_clock(figure, wanted):
            return False
        at = self._lead(figure, floor, wanted)
        if at is None or follows:
            return True
        norm = norm_at(self._tokens, at)
        if norm in words()["wrong"] or (
            norm == "of" and norm_at(self._tokens, at - 1) in ("rounds", "times")
        ):
            return True
        if norm == "for":
            return norm_at(self._tokens, at - 1) in words()["for"]
        if figure.unit != "s" or figure.low is None or norm in words()["lead"]:
            return True
        told = any(subject.end == at + 1 for subject in self._subjects.within(floor, at + 1))
        return listed and (told or bool(self._tokens[at].after))

    def _per_side(self, figure: Figure) -> bool:
        """ "Thirty seconds a side"."""
        parted = bool(self._tokens[figure.end - 1].after)
        return not parted and norm_at(self._tokens, figure.end + 1) in words()["side"]

    def lasts(self, figure: Figure) -> bool:
        """Whether a time only says how long something takes: "all told", "door to door"."""
        first, last = self._marks.around(figure.start, figure.end, _LASTS)
        line = " ".join(token.norm for token in self._tokens[first:last])
        return figure.unit == "s" and any(said in line for said in words()["lasts"])

    def _is_clock(self, figure: Figure, wanted: Mention | None) -> bool:
        """ "Four minutes of …", "forty seconds on": work or rest, unless "on the row" follows."""
        if self._tokens[figure.end - 1].after:
            return False
        following, after = (norm_at(self._tokens, figure.end + nth) for nth in (0, 1))
        pointed = after in words()["article"] or (following == "on" and after in ("a", "one"))
        if following == "rounds" and wanted is not None:
            return False  # "you're aiming for three minute rounds"
        return following in words()["follow"] and not pointed

    def _lead(self, figure: Figure, floor: int, wanted: Mention | None = None) -> int | None:
        """The place of the word that leads to a figure; none where the words of wanting do."""
        own = range(wanted.start, wanted.end) if wanted else range(0)
        for at in range(figure.start - 1, floor - 1, -1):
            if at in own:
                return None
            if norm_at(self._tokens, at) not in words()["hedge"]:
                return at
        return None

    def _limited(self, figure: Figure, floor: int) -> bool:
        at = self._lead(figure, floor)
        return figure.low is None or (
            at is not None and norm_at(self._tokens, at) in words()["within"]
        )

    def _is_work(self, figure: Figure, about: Subject) -> bool:
        """Whether a time is the very amount that the session asks of a movement."""
        return figure.high in self._subjects.seconds_of(about.about)

    def _negated(self, mention: Mention) -> bool:
        around = self._tokens[max(mention.start - 2, 0) : mention.end + 1]
        return bool({"don't", "not", "never", "if"} & {token.norm for token in around})

    def _against(self, start: int, figure: Figure) -> bool:
        """Whether words between ``start`` and the figure make it something else."""
        found = self._marks.inside("against", start, figure.start)
        return any(not self._excused(mention, figure) for mention in found)

    def _excused(self, mention: Mention, figure: Figure) -> bool:
        """ "if ten is the hardest", "not counting the rest": against nothing."""
        first, second = (
            norm_at(self._tokens, mention.start),
            norm_at(self._tokens, mention.start + 1),
        )
        if first == "if":
            return second in ("ten", "one", "10", "1", "i")
        if first == "not":
            return second == "counting"
        if first == "break" and figure.unit == "sets":
            return True  # "break them in two sets"
        if first == "every":
            rounds = norm_at(self._tokens, mention.start - 1) in ("round", "lap")
            return rounds or mention.end < figure.start
        return first in words()["close"] and figure.start - mention.end > _BESIDE

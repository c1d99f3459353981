"""The talk cut where offers start and end."""

import re
from bisect import bisect_right
from collections.abc import Iterator
from functools import cache
from itertools import accumulate

from cuewright.parse.offering import acts_on, asks, find, has, place_of, table
from cuewright.parse.topics import Talk

_LONGEST = 60
_LONGEST_SENTENCE = 200
_PATIENCE = 25
"""Tokens within which a condition gets its offer."""
_TOPIC = 40
"""Tokens that a topic has at most before its condition."""
_SECOND = 8
"""Tokens of a condition that a second one may follow before the offer."""
_TRAILING = 9
"""Tokens of a condition that ends an offer, at most."""
_OFFERED = 16
"""Tokens of an offer that a condition ends, at most."""
_ASKED = 10
"""Tokens of a question that is answered in the same piece, at most."""
_SWAP = 12
"""Tokens from a movement that is taken up to "instead", at most."""
_LEAD = 3
"""Tokens from where a topic starts to its name, and one: "on the squats"."""
_NAME = 6
"""Tokens of a name at most."""
_BARE = 8
"""Tokens of a condition that still waits for what is wrong or what to do."""
_STOPS = (".", "!", ";", "?", "\u2014", "\u2013")
_POINTS = frozenset(("for", "on", "with", "in"))
_GOES = frozenset(("go", "going", "get", "hop", "stay", "put", "hold", "step", "lie", "hang"))
_POINTERS = frozenset(("the", "your", "those", "these"))
_RUNS_ON = frozenset(("then", "before", "after", "so", "because"))
_BINDS = frozenset(("if", "when", "as", "than", "is", "are", "off", "through", "like"))
_ASKS = frozenset(("what", "how", "who", "why", "which", "any", "do"))


def pieces(talk: Talk) -> Iterator[tuple[int, int]]:
    """The talk in pieces of one offer at most."""
    cuts, start = _Cuts(talk), 0
    for at in range(1, len(talk.tokens)):
        if cuts.ends(start, at):
            yield start, at
            start = at
    yield start, len(talk.tokens)


class _Cuts:
    """Where pieces of a talk may end."""

    def __init__(self, talk: Talk) -> None:
        self._talk, self._stops = talk, talk.stops
        self._fresh = frozenset(clause.start for clause in talk.clauses)
        norms = [token.norm for token in talk.tokens]
        ends = accumulate((len(norm) + 1 for norm in norms), initial=0)
        places = {end: at for at, end in enumerate(ends)}
        line = " ".join(norms)
        self._conditions = {places[m.start()] for m in _condition().finditer(line)}
        self._opens: set[int] = set()
        self._headed: set[int] = set()
        self._topics: set[int] = set()
        if not self._stops:
            self._opens = {places[m.start()] for m in _opens().finditer(line)}
            self._opens |= self._after_heads(line, places)
            near = {named.start - back for named in talk.named for back in range(_LEAD)}
            self._topics = {at for at in near if at > 0 and self._topic(at)}
            self._opens |= self._topics
            self._opens -= {at for at, norm in enumerate(norms) if norm == "if"}
        self._marks = sorted(self._conditions | self._opens | self._fresh)
        self._places = frozenset((*self._marks, *self._headed))

    def _after_heads(self, line: str, places: dict[int, int]) -> set[int]:
        """Where what only announces ways to scale is over."""
        ends = {places.get(m.end() + 1, 0) for m in _heads().finditer(line)}
        self._headed = ends - {0}
        return set(self._headed)

    def ends(self, start: int, at: int) -> bool:
        """Whether a piece that began at ``start`` ends before the token ``at``."""
        if not self._stops:
            if at not in self._places:
                return at - start > _LONGEST
            if at in self._conditions and self._trails(start, at):
                return at - start > _LONGEST
            if at in self._fresh and not self._waits(start, at):
                runs_on = self._talk.tokens[at].norm in _RUNS_ON
                if not runs_on or self._offered(start, at):
                    return True
            return at - start > _LONGEST or self._starts(start, at)
        after = self._talk.tokens[at - 1].after
        if after == "?" and at - start <= _LONGEST_SENTENCE:
            asked = self._talk.tokens[start].norm in _ASKS
            line = self._talk.piece(start, at).line
            short = at - start <= _ASKED
            return asked or not (short or has("trouble", line) or has("elsewhere", line))
        long = at - start > _LONGEST_SENTENCE
        return long or after in _STOPS or self._starts(start, at)

    def _starts(self, start: int, at: int) -> bool:
        """Whether an offer starts at ``at`` inside a sentence."""
        if at in self._conditions:
            before = self._talk.tokens[at - 1].norm
            if before in _words("not_after"):
                return False
            if not self._stops:
                return before == "or" or not self._pending(start, at)
            if before in ("and", "or", "but", "so"):
                return True
            short = at - start <= _TOPIC
            return short and has("topic_only", self._talk.piece(start, at).line)
        if at in self._headed:
            return True
        before = self._talk.tokens[at - 1].norm
        if self._stops and before == "and" and at - start > 1 and self._on_to(at):
            return acts_on(self._talk.piece(start, at).line) or self._done(start, at)
        if at not in self._opens or before == "if" or before in _words("not_after"):
            return False
        if self._talk.tokens[at].norm in _POINTS and self._only_acts(start, at):
            return False
        return self._coached(start, at) or self._done(start, at)

    def _coached(self, start: int, at: int) -> bool:
        """Whether how to move is told of the next movement: a condition there does not wait."""
        parts = {self._talk.clause(place).section for place in (start, at)}
        return at in self._topics and parts == {"cues"}

    def _only_acts(self, start: int, at: int) -> bool:
        """ "Hold on to the rack", of which it is still to be said for what."""
        piece = self._talk.piece(start, at)
        named = self._talk.within(at + 2, at + 3)
        after = named[0].end if named else at
        asked = after < len(self._talk.tokens) and self._talk.tokens[after].norm in _words(
            "topic_then"
        )
        short = at - start <= _OFFERED and not piece.named and not asked
        return short and not asks(piece.line) and has("acts", piece.line)

    def _on_to(self, at: int) -> bool:
        """Whether the talk goes on to another movement: "and for the skaters …"."""
        tokens = self._talk.tokens
        pointed = tokens[at].norm in _POINTS and at + 1 < len(tokens)
        return (
            pointed and tokens[at + 1].norm in _POINTERS and bool(self._talk.within(at + 2, at + 3))
        )

    def _topic(self, at: int) -> bool:
        """Whether a movement becomes the topic: "push ups you can", "on the plank you"."""
        tokens = self._talk.tokens
        holds = _words("holds")
        if tokens[at].norm in _POINTS and tokens[at - 1].norm not in _words("clings"):
            pointed = at + 1 < len(tokens) and tokens[at + 1].norm in ("the", "your")
            pointed = pointed and tokens[at - 1].norm not in _GOES
            return pointed and bool(self._talk.within(at + 2, at + 3))
        article = tokens[at].norm in ("the", "your")
        named = self._talk.within(at + article, at + article + 1)
        if not named or named[0].end >= len(tokens):
            return False
        if tokens[at - 1].norm == "and" and tokens[named[0].end].norm in _words("and_then"):
            return True
        clings = article and tokens[at - 1].norm in _words("clings")
        if clings and tokens[named[0].end].norm != "you":
            return False
        if tokens[at - 1].norm in holds - {"instead"} or tokens[at - 1].norm in ("if", "when"):
            return False
        if article:
            coached = self._talk.clause(at).section == "cues"
            follows = coached or tokens[named[0].end].norm in _words("article_then")
            if self._talk.within(at - 1, at):
                return False
            own = named[0].name in self._talk.session and self._plural(named[0].end - 1)
            if tokens[named[0].end].norm == "if" and not own:
                return False
            return follows and tokens[at - 1].norm not in _BINDS
        last = named[0].end - 1
        plural = self._plural(last)
        free = self._free(at)
        then = tokens[last + 1].norm in _words("topic_then") and tokens[at - 1].norm != "instead"
        return then or (plural and free)

    def _plural(self, at: int) -> bool:
        return self._talk.tokens[at].norm != self._talk.stems[at]

    def _free(self, at: int) -> bool:
        """Whether nothing takes up the movement at ``at``: "do some regular …", "twelve …"."""
        back, tokens = at - 1, self._talk.tokens
        if tokens[back].norm != "one" and self._talk.counts(back):
            return tokens[back - 1].norm in _words("articles")
        while back > 0 and tokens[back].norm in _words("qualifies"):
            back -= 1
        if tokens[back].norm == "instead":
            return self._swapped(back)
        return tokens[back].norm not in _words("holds") | _words("hands_on") and not self._made(at)

    def _swapped(self, at: int) -> bool:
        """ "Do glute bridges instead": a movement was taken up before that."""
        earlier = range(max(at - _SWAP, 0), at)
        takes = any(self._talk.tokens[place].norm in _words("picks") for place in earlier)
        return takes and bool(self._talk.within(earlier.start, at))

    def _made(self, at: int) -> bool:
        """ "Make the squats jump squats": a name right after that of what becomes of it."""
        touching = [n for n in self._talk.within(max(at - _NAME, 0), at) if n.end == at]
        before = touching[0].start - 1 if touching else 0
        if before > 0 and self._talk.tokens[before].norm in _POINTERS:
            before -= 1
        return bool(touching) and self._talk.tokens[before].norm in _words("turns")

    def _trails(self, start: int, at: int) -> bool:
        """Whether the condition at ``at`` ends what was offered before it: "if you need to"."""
        nth = bisect_right(self._marks, at)
        end = self._marks[nth] if nth < len(self._marks) else len(self._talk.tokens)
        too_long = end - at > _TRAILING or at - start > _OFFERED
        if too_long or self._talk.tokens[at - 1].norm == "or" or self._talk.within(at, end):
            return False
        before, after = self._talk.piece(start, at), self._talk.piece(at, end).line
        if asks(before.line) or not (before.named or has("acts", before.line)):
            return False
        trouble = find("trouble", after)
        return trouble is None or not has("acts", after[trouble.end() :])

    def _pending(self, start: int, at: int) -> bool:
        """Whether the stretch up to ``at`` is only a condition, and another one follows."""
        first = self._talk.tokens[start].norm == "if" and at - start <= _SECOND
        return first and self._waits(start, at)

    def _offered(self, start: int, at: int) -> bool:
        """Whether the stretch up to ``at`` says what is wrong and what to do."""
        match = find("trouble", self._talk.piece(start, at).line)
        return match is not None and has("acts", match.string[match.end() :])

    def _waits(self, start: int, at: int) -> bool:
        """Whether the stretch up to ``at`` says what is wrong and not yet what to do."""
        if at - start >= _PATIENCE:
            return False
        line = self._talk.piece(start, at).line
        trouble = place_of("trouble", line)
        if trouble is None and at - start < _BARE:
            return line.startswith("if ") and not has("acts", line) and " @" not in line
        return trouble is not None and not (has("acts", line[trouble:]) or acts_on(line))

    def _done(self, start: int, at: int) -> bool:
        """Whether the stretch up to ``at`` has its offer already."""
        line = self._talk.piece(start, at).line
        trouble = place_of("trouble", line)
        if trouble is None:
            offered = has("offers", line) or has("taken_up", line)
            return not line.startswith("if ") or offered or " then " in line
        told = find("trouble", line)
        rest = line[told.end() :] if told else ""
        named = " @" in rest
        return named or has("acts", line[trouble:]) or acts_on(line)


@cache
def _words(key: str) -> frozenset[str]:
    return frozenset(table()[key])


@cache
def _condition() -> re.Pattern[str]:
    """An "if" that may open an offer."""
    return re.compile(rf"(?<!\S)if(?!\S)(?! (?:{'|'.join(table()['not_open'])}))")


@cache
def _opens() -> re.Pattern[str]:
    return re.compile(rf"(?<!\S)(?=(?:{'|'.join(table()['opens'])})\b)")


@cache
def _heads() -> re.Pattern[str]:
    return re.compile(rf"(?<!\S)(?:{'|'.join(table()['heads'])})(?!\S)")

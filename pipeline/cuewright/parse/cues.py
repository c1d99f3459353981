"""Points of performance, each tied to the movement that it is about, and advice on pacing.

A movement spoken of without an amount is a topic; what is said from there to the next
topic is about it. It is a cue when enough of it tells the body how to move.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from cuewright.parse.build import Quote
from cuewright.parse.names import Named, Names
from cuewright.parse.options import told
from cuewright.parse.topics import Talk
from cuewright.phrases import Phrases
from cuewright.tables import raw
from cuewright_models.divided import Clause, Divided
from cuewright_models.plan import Advice, Block, Cue
from cuewright_models.tokens import norm_at

_ENOUGH = 3
_ENOUGH_IN_CUES = 2
_ENOUGH_AFTER_WORK = 4
_ENOUGH_OF_EASY = 5
"""For movements of the warm-up and the cool-down, outside the coaching."""
_NEVER = 1000
_OPENING = 4
"""Tokens at the start of a clause after a prescription that have to sound like a cue."""
_FAR = 60
"""Tokens that a topic reaches at most."""
_POINTERS = frozenset(("the", "your", "those", "them", "these"))
_WHEN = frozenset(("when", "as", "while", "if", "once", "time", "before", "after", "until"))
_QUIET = frozenset(("open", "close", "recap", "pacing", "targets"))


@dataclass(frozen=True, slots=True)
class Stretch:
    """What is said of one movement over the tokens ``start:end``."""

    start: int
    end: int
    about: str
    score: int
    needed: int


def cues(divided: Divided, blocks: Sequence[Block], names: Names, quote: Quote) -> tuple[Cue, ...]:
    """The cues in the order said, all that is said of a movement in one place as one."""
    out = []
    for stretch in stretches(divided, blocks, names):
        if stretch.score >= stretch.needed:
            said = quote(stretch.start, stretch.end)
            out.append(Cue(about=stretch.about, text=said.quote, said=(said,)))
    return tuple(out)


def stretches(divided: Divided, blocks: Sequence[Block], names: Names) -> list[Stretch]:
    """Every stretch of talk that is about a movement, with what speaks for a cue in it."""
    talk, offers = told(divided, blocks, names)
    offered = frozenset(at for offer in offers for at in range(offer.start, offer.end))
    reader = _Reader(talk, names, offered)
    return list(reader.stretches())


class _Reader:
    def __init__(self, talk: Talk, names: Names, offered: frozenset[int]) -> None:
        self._talk, self._names, self._offered = talk, names, offered
        hits: dict[int, set[str]] = {}
        for mention in _pictures().everywhere(talk.stems):
            hits.setdefault(mention.start, set()).add(f"image {mention.start}")
        covered = {at for n in talk.named for at in range(n.start, n.end)}
        coaching = _words()["body"] | _words()["move"] | _words()["manner"]
        for at, stem in enumerate(talk.stems):
            if stem in coaching and at not in covered:
                hits.setdefault(at, set()).add(stem)
        self._hits = hits

    def stretches(self) -> Iterator[Stretch]:
        """The stretches in order; after a movement with its amount, from the next clause on."""
        topics = [n for n in self._talk.named if self._is_topic(n)]
        ends = [*(n.start for n in topics), len(self._talk.tokens)][1:]
        for topic, end in zip(topics, ends, strict=True):
            counted = self._prescribed(topic)
            start = self._next_clause(topic.end) if counted else topic.end
            stop = self._stop(start, min(end, start + _FAR), counted=counted)
            if start < stop:
                yield Stretch(
                    start if counted else topic.start, stop, topic.name,
                    self._score(start, stop), self._needed(topic, start, counted=counted),
                )  # fmt: skip

    def _prescribed(self, topic: Named) -> bool:
        coached = self._talk.clause(topic.start).section == "cues"
        if self._plural(topic) and norm_at(self._talk.tokens, topic.start - 1) == "one":
            return False  # "not a locked one": there is no one of several
        return self._talk.counted(topic, reach=1 if coached else 3)

    def _score(self, start: int, stop: int) -> int:
        return len(set().union(*(self._hits.get(at, ()) for at in range(start, stop)), set()))

    def _needed(self, topic: Named, start: int, *, counted: bool) -> int:
        clause = self._talk.clause(topic.start)
        if counted and (
            clause.section in ("warm-up", "cool-down") or topic.name not in self._names.work
        ):
            return _NEVER
        if counted:
            first = any(at in self._hits for at in range(start, start + _OPENING))
            return _ENOUGH_AFTER_WORK if first else _NEVER
        stranger = topic.name not in self._names.session
        if clause.section == "cues" or clause.role == "cue":
            return _ENOUGH_IN_CUES + stranger
        if not stranger and topic.name not in self._names.work:
            return _ENOUGH_OF_EASY
        busy = clause.section in _QUIET or clause.role in ("prescription", "advice")
        return _ENOUGH + 2 * (stranger + busy) + (clause.role == "option")

    def _next_clause(self, at: int) -> int:
        """Where the next clause starts, or sentence."""
        tokens = self._talk.tokens
        while at < len(tokens):
            if tokens[at - 1].after in (".", "?", "!", ";") or self._talk.clause(at).start == at:
                return at
            at += 1
        return at

    def _is_topic(self, named: Named) -> bool:
        if named.start in self._offered:
            return False
        words = _words()
        if self._is_verb(named) or self._in_passing(named):
            return False
        before, further = (
            norm_at(self._talk.tokens, named.start - 1),
            norm_at(self._talk.tokens, named.start - 2),
        )
        known = named.name in self._names.session
        verb = before == "you" and further not in _WHEN
        if verb and named.name not in self._names.work:  # "the box jumps, you swing and you land"
            return False
        coached = self._talk.clause(named.start).section == "cues"
        if before in ("do", "doing") and known and self._timed(named):
            return True
        if before == "like" and further in words["seems"]:
            return known or coached
        if named.start == 0 or self._talk.tokens[named.start - 1].after:
            return known or self._talk.clause(named.start).section == "cues"
        if before == "one" and self._heads(named):  # "not a locked one nordics go down slowly"
            return True
        single = norm_at(self._talk.tokens, named.end - 1) == self._talk.stems[named.end - 1]
        some = self._talk.stops and single and before not in _POINTERS and further in ("a", "an")
        if before in words["governs"] or some:
            return False
        if before == "them" and further == "of":
            return known
        if before in _POINTERS:
            earlier = {
                norm_at(self._talk.tokens, at) for at in range(named.start - 5, named.start - 2)
            }
            timed = not earlier.isdisjoint(("when", "as", "while"))
            governed = further in words["governs_the"] and not timed
            opens = bool(further) and self._talk.tokens[named.start - 2].after in (".", "?", "!")
            told = coached and (opens or self._plural(named))
            return not governed and (known or told or further in words["leads"])
        return known or self._talk.clause(named.start).section == "cues"

    def _timed(self, named: Named) -> bool:
        """ "When we do cleans, …": what is spoken of from there on."""
        earlier = range(max(named.start - 4, 0), named.start - 1)
        return any(norm_at(self._talk.tokens, at) in ("when", "as", "while") for at in earlier)

    def _plural(self, named: Named) -> bool:
        return norm_at(self._talk.tokens, named.end - 1) != self._talk.stems[named.end - 1]

    def _heads(self, named: Named) -> bool:
        """Whether a plural name in the coaching begins something new: "one" is no word for it."""
        return self._talk.clause(named.start).section == "cues" and self._plural(named)

    def _in_passing(self, named: Named) -> bool:
        """Whether a name only says how the body moves: "don't swing", "ride the drive"."""
        words, tokens = _words(), self._talk.tokens
        stopped = named.start == 0 or bool(tokens[named.start - 1].after)
        single = named.end - named.start == 1
        if single and not stopped and norm_at(tokens, named.start - 1) in words["moves_before"]:
            return not self._timed(named) or named.name not in self._names.work
        if named.name in self._names.session:
            return False
        pointed = norm_at(tokens, named.start - 1) in _POINTERS
        headed = tokens[named.end - 1].after in (",", ":")
        limb = self._talk.stems[named.end - 1] in words["body"]
        moves = single or norm_at(tokens, named.start) in words["move"]
        return limb or (moves and not (pointed or headed or self._plural(named)))

    def _is_verb(self, named: Named) -> bool:
        """Whether a name is what the body does: "sit up tall", "on pull-ups, dead hang"."""
        bare = norm_at(self._talk.tokens, named.end - 1) == self._talk.stems[named.end - 1]
        free = norm_at(self._talk.tokens, named.start - 1) not in ("the", "your")
        if bare and free and norm_at(self._talk.tokens, named.end) in _words()["verbs"]:
            return True
        before = self._talk.within(max(named.start - 6, 0), named.start)
        touching = any(n.end == named.start for n in before)
        return touching and named.name not in self._names.work

    def _stop(self, start: int, end: int, *, counted: bool) -> int:
        """Where the talk leaves the topic: at an offer, or a clause for something else."""
        for at in range(start, end):
            if at in self._offered:
                return at
            clause = self._talk.clause(at)
            if clause.start == at and (self._leaves(clause) or (counted and _prescribes(clause))):
                return at
        return end

    def _leaves(self, clause: Clause) -> bool:
        if clause.section in _QUIET:
            return True
        return clause.section != "cues" and clause.role in ("claim", "example")


def _prescribes(clause: Clause) -> bool:
    """Whether a clause asks for the next piece of work."""
    return clause.role == "prescription" and (clause.has("prescribes") or clause.has("structures"))


def advice(
    divided: Divided, blocks: Sequence[Block], names: Names, quote: Quote
) -> tuple[Advice, ...]:
    """Pacing and strategy in the order said."""
    talk, _ = told(divided, blocks, names)
    found = [(m.start, m.end, "warm-up") for m in _warms().everywhere(talk.stems)]
    for clause in divided.clauses:
        if clause.role == "advice":
            spoken = talk.within(clause.start, clause.end)
            about = next((n.name for n in spoken if n.name in names.session), "total")
            found.append((clause.start, clause.end, about))
    return tuple(
        Advice(about=about, text=quote(start, end).quote, said=(quote(start, end),))
        for start, end, about in _joined(sorted(found))
    )


def _joined(found: Sequence[tuple[int, int, str]]) -> list[tuple[int, int, str]]:
    """Stretches about the same thing that touch or overlap, as one."""
    out: list[tuple[int, int, str]] = []
    for start, end, about in found:
        if out and out[-1][2] == about and start <= out[-1][1]:
            out[-1] = (out[-1][0], max(end, out[-1][1]), about)
        else:
            out.append((start, end, about))
    return out


@cache
def _words() -> dict[str, frozenset[str]]:
    return {key: frozenset(words) for key, words in raw("cuewright.parse", "cues.toml").items()}


@cache
def _warms() -> Phrases:
    return Phrases({"warm-up": raw("cuewright.parse", "cues.toml")["warms"]})


@cache
def _pictures() -> Phrases:
    return Phrases({"image": raw("cuewright.parse", "cues.toml")["image"]})

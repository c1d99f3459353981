"""What a short name means in this session: "the swings" are the kettlebell swings."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from functools import cache, cached_property
from typing import NamedTuple

from cuewright.movements.catalogue import catalogue, derived
from cuewright.phrases import stem
from cuewright.tables import raw
from cuewright_models.plan import Block, efforts
from cuewright_models.tokens import Mention, Reading

Form = tuple[str, ...]
_HOLDS = ("hold the", "hold your", "hold it", "hold on")
_VERBS = ("ing", "in")
_AROUND = ("warm-up", "mobility", "cool-down")


class Named(NamedTuple):
    """A movement spoken of at the tokens ``start:end``.

    ``name`` is the session's movement that it stands for, ``called`` the catalogue's.
    """

    start: int
    end: int
    name: str
    called: str


class Names:
    """The movements of a session, in order, and how talk about them is resolved."""

    def __init__(self, reading: Reading, blocks: Sequence[Block]) -> None:
        self._reading = reading
        self.session = _ordered(blocks)
        self.work = _ordered([block for block in blocks if block.kind not in _AROUND])
        said = {e.movement: e.as_said for block in blocks for e in efforts(block.items)}
        counted = [m.name for m in reading.movements if _counted(m, reading)]
        self.known: tuple[str, ...] = tuple(dict.fromkeys((*self.work, *self.session, *counted)))
        """The session's movements, the main work first, then others that were given an amount."""
        self._forms = {name: [*_forms(name), _stems(said.get(name, name))] for name in self.known}
        self.named: tuple[Named, ...] = tuple(self._named())

    def resolve(self, mention: Mention) -> str:
        """The session's own movement that a mention stands for, else its catalogue name.

        A mention means the movement of the main work whose name, or a name it goes by,
        ends with the words said, or else has them anywhere.
        """
        if mention.name in self.work:
            return mention.name
        said = tuple(self._reading.stems[mention.start : mention.end])
        return self._meant(said) or mention.name

    def _meant(self, said: Form) -> str | None:
        for name in self.known:
            if any(form[-len(said) :] == said for form in self._forms[name]):
                return name
        return None

    def _named(self) -> Iterator[Named]:
        """Every movement spoken of: catalogue names, and this session's short names."""
        taken = {at for m in self._reading.movements for at in range(m.start, m.end)}
        found = [self._as_meant(m) for m in self._reading.movements]
        for at, word in enumerate(self._reading.stems):
            telling = word in self._telling or word.endswith(_VERBS)
            if telling and at and at not in taken and not self._reading.tokens[at - 1].after:
                short = self._short(at, taken)
                found += [short] if short is not None else []
        return iter(sorted(found))

    def _short(self, at: int, taken: set[int]) -> Named | None:
        """A short name of one of the session's movements at the token ``at``."""
        stems, table = self._reading.stems, _table()
        before = self._reading.tokens[at - 1].norm
        after = stems[at + 1] if at + 1 < len(stems) else ""
        name: str | None = None
        if after in table["ones"] and before in ("the", "that") and at + 1 not in taken:
            name = self._with(stems[at])
        elif self._heads(at):
            name = self._aliases.get(stems[at]) or self._with(stems[at])
        elif before in table["before"]:
            name = self._aliases.get(stems[at])
        elif before in ("first", "last", "that") and stems[at] in self.work:
            name = stems[at]
        if name is None and stems[at].endswith(_VERBS):
            verb = _plain(stems[at])
            name = verb if verb in self.known else self._aliases.get(verb)
        if name is None and stems[at] == "over":
            return self._over(at)
        return Named(at, at + 1, name, name) if name is not None else None

    def _heads(self, at: int) -> bool:
        """Whether a word heads its sentence: "on the bench, shoulder blades together"."""
        tokens = self._reading.tokens
        if tokens[at].after not in (",", ":") or at < 2 or tokens[at - 1].norm != "the":
            return False
        first = at - 2 if tokens[at - 2].norm in _table()["heads"] else at - 1
        if first and tokens[first - 1].norm in ("and", "now"):
            first -= 1
        return first == 0 or tokens[first - 1].after in (".", "?", "!")

    def _over(self, at: int) -> Named | None:
        """ "Over the shoulder": the end of a longer name, with or without "the"."""
        stems = self._reading.stems
        skip = at + 2 if stems[at + 1 : at + 2] == ("the",) else at + 1
        said = (stems[at], *stems[skip : skip + 1])
        name = self._meant(said)
        return Named(at, skip + 1, name, name) if name is not None and len(said) == 2 else None

    def _as_meant(self, mention: Mention) -> Named:
        """A mention resolved; a verb at its end is left out: "goblet squat, hold the bell"."""
        tokens = self._reading.tokens[mention.end - 1 : mention.end + 1]
        if " ".join(token.norm for token in tokens) in _HOLDS and mention.end - mention.start > 2:
            said = tuple(self._reading.stems[mention.start : mention.end - 1])
            if (name := self._meant(said)) is not None:
                return Named(mention.start, mention.end - 1, name, name)
        return Named(mention.start, mention.end, self.resolve(mention), mention.name)

    def _with(self, word: str) -> str | None:
        """The movement that has a word in a name: "the balance one" is the single leg balance."""
        for name in self.known:
            if any(word in form for form in self._forms[name]):
                return name
        return None

    @cached_property
    def _telling(self) -> frozenset[str]:
        """The words that a short name can be, other than verbs."""
        words = {word for forms in self._forms.values() for form in forms for word in form}
        return frozenset((*words, *self.work, *self._aliases, "over"))

    @cached_property
    def _aliases(self) -> dict[str, str]:
        """Single words that stand for one movement of the session, heads of names first."""
        generic = _table()["generic"]
        found: dict[str, str] = {}
        for last in (True, False):
            for name in self.known:
                for form in (_stems(name), self._forms[name][-1]):
                    if form is not self._forms[name][0] and len(form) > 1 and form != _stems(name):
                        continue
                    for word in form[-1:] if last else form:
                        if word not in generic and len(word) > 2:
                            found.setdefault(word, name)
        return found


def _ordered(blocks: Sequence[Block]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(e.movement for block in blocks for e in efforts(block.items)))


def _counted(mention: Mention, reading: Reading) -> bool:
    """Whether a number stands right before a movement or right after it."""
    first = bisect_left(reading.amounts, mention.start - 4, key=lambda a: a.start)
    return any(
        amount.end == mention.start or amount.start in (mention.end, mention.end + 1)
        for amount in reading.amounts[first : first + 4]
        if amount.shape not in ("ordinal", "date", "other")
    )


def _stems(text: str) -> Form:
    return tuple(stem(word.strip(".,;:?!")) for word in text.lower().replace("-", " ").split())


@derived
def _forms(name: str) -> list[Form]:
    """A movement's names as stems."""
    row = catalogue().get(name)
    return [_stems(form) for form in (name, *(row.said if row else ()))]


def _plain(word: str) -> str:
    """The verb of "running" or "lunging"."""
    ending = "ing" if word.endswith("ing") else "in"
    root = word.removesuffix(ending)
    if len(root) < 3 or root == word:
        return word
    if root[-1] == root[-2] and root[-1] not in "ls":
        return root[:-1]
    return root + "e" if root.endswith(("ung", "anc")) else root


@cache
def _table() -> dict[str, frozenset[str]]:
    return {key: frozenset(words) for key, words in raw("cuewright.parse", "names.toml").items()}

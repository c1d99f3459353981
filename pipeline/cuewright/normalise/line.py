"""The talk's tokens laid out for reading ahead without bounds checks."""

from collections.abc import Sequence

from cuewright.normalise.context import Phrase, phrases, words
from cuewright_models.tokens import Token

_SPLIT_S = 0.3  # a silence this long between two number words parts them: "twenty … one"
_STOP_S = 1.5
_LOOKAHEAD = 8
_ENDS = frozenset(".?!;…")
_CLOSING = words("closing")
_NAMED = "·"  # stands for a word of a name: "figure four"
_NAMES: dict[str, list[Phrase]] = {}
for _name in phrases("names", "label"):
    _NAMES.setdefault(_name[0], []).append(_name)


class Line:
    """Norms padded with empty words, and where reading must not run on.

    ``punctuated[i]``: something was written between tokens ``i - 1`` and ``i``;
    ``split[i]``: that, or a silence; ``stop[i]``: a sentence, a line or a long silence
    ends before ``i``; ``dash[i]``: a dash stands there; ``glued[i]``: ``i`` is written on
    to the token before. The ends of the talk are all but the last two.
    """

    __slots__ = ("dash", "glued", "norms", "punctuated", "size", "split", "stop")

    def __init__(self, tokens: Sequence[Token]) -> None:
        size = self.size = len(tokens)
        self.norms = [token.norm for token in tokens] + [""] * _LOOKAHEAD
        flags = size + _LOOKAHEAD
        self.punctuated, self.split, self.stop = [False] * flags, [False] * flags, [False] * flags
        self.glued, self.dash = [False] * flags, [False] * flags
        after, word = ".", -1
        for at, (_, first, last, follows, pause, starts) in enumerate(tokens):
            if after or starts:
                self.punctuated[at] = self.split[at] = True
                self.stop[at] = starts or after in _ENDS
                self.dash[at] = after == "—" and not starts
            if pause >= _SPLIT_S:
                self.split[at] = True
                self.stop[at] = self.stop[at] or pause >= _STOP_S
            self.glued[at] = first == word
            after, word = follows, last - 1
        for marks in (self.punctuated, self.split, self.stop):
            marks[size] = True
        self._set_names_aside()

    def _set_names_aside(self) -> None:
        """Blank out names with a number in them, so that no rule counts it."""
        for at, word in enumerate(self.norms):
            for name in _NAMES.get(word, ()):
                if self.has(at, name):
                    self.set_aside(at, at + len(name))

    def set_aside(self, start: int, end: int) -> None:
        """Blank out the tokens ``start:end``, so that no rule reads a number in them."""
        self.norms[start:end] = [_NAMED] * (end - start)

    def before(self, at: int) -> str:
        """The word before token ``at``, empty at the start."""
        return self.norms[at - 1] if at else ""

    def closed(self, at: int) -> bool:
        """Whether nothing stands at ``at`` that a number before it could count."""
        return self.punctuated[at] or self.norms[at] in _CLOSING

    def has(self, at: int, phrase: Phrase) -> bool:
        """Whether the words of ``phrase`` start at token ``at``."""
        return tuple(self.norms[at : at + len(phrase)]) == phrase

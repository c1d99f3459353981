"""The talk's tokens laid out for reading ahead without bounds checks."""

from collections.abc import Sequence

from cuewright_models.tokens import Token

SPLIT_S = 0.3
"""A silence this long between two number words parts them ("twenty … one")."""
_STOP_S = 1.5
_LOOKAHEAD = 6
_ENDS = frozenset(".?!;…")


class Line:
    """Norms padded with empty words, and where reading must not run on.

    ``punctuated[i]`` something was written between tokens ``i - 1`` and ``i``; ``split[i]``
    that, or a silence; ``stop[i]`` a sentence, line or long silence ends before ``i``.
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
            if pause >= SPLIT_S:
                self.split[at] = True
                if pause >= _STOP_S:
                    self.stop[at] = True
            self.glued[at] = first == word
            after, word = follows, last - 1
        for marks in (self.punctuated, self.split, self.stop):
            marks[size] = True

"""Words as heard to a reading: tokens, repaired where misheard, with their typed spans."""

from collections.abc import Iterable, Sequence

from cuewright.normalise.amounts import amounts
from cuewright.normalise.dates import dates
from cuewright.normalise.mishearings import repair
from cuewright.normalise.movements import movements
from cuewright.normalise.spellings import respell
from cuewright.normalise.tokens import tokens
from cuewright.phrases import stem
from cuewright_models.tokens import Mention, Reading, Token
from cuewright_models.transcript import Transcript

_BLANK = "_"


def normalise(heard: Transcript) -> Reading:
    """Everything that can be read off the words without knowing what they are for."""
    spelt = respell(tokens(heard))
    # Nobody mishears what was written.
    repaired, swaps = (spelt, []) if heard.outline else repair(spelt)
    stems = tuple(stem(token.norm) for token in repaired)
    days = dates(repaired)
    named = movements(repaired, stems, days, by_line=bool(heard.outline))
    return Reading(
        tokens=tuple(repaired),
        stems=stems,
        amounts=tuple(amounts(_masked(repaired, named))),
        movements=tuple(named),
        dates=tuple(days),
        swaps=tuple(swaps),
    )


def _masked(tokens: Sequence[Token], named: Iterable[Mention]) -> list[Token]:
    """The tokens with long movement names blanked: the four of "figure four" is no amount."""
    out = list(tokens)
    for mention in named:
        if mention.end - mention.start > 1:
            for at in range(mention.start, mention.end):
                out[at] = out[at]._replace(norm=_BLANK)
    return out

"""Words as heard to a reading: tokens, repaired where misheard, with their typed spans."""

from functools import cache

from cuewright.movements.catalogue import catalogue
from cuewright.normalise.amounts import amounts
from cuewright.normalise.dates import dates
from cuewright.normalise.mishearings import repair, respell
from cuewright.normalise.tokens import tokens
from cuewright.phrases import Phrases, stem
from cuewright_models.tokens import Reading
from cuewright_models.transcript import Transcript


def normalise(heard: Transcript) -> Reading:
    """Everything that can be read off the words without knowing what they are for."""
    repaired, swaps = repair(respell(tokens(heard)))
    stems = tuple(stem(token.norm) for token in repaired)
    return Reading(
        tokens=tuple(repaired),
        stems=stems,
        amounts=tuple(amounts(repaired)),
        movements=tuple(_movements().longest(stems)),
        dates=tuple(dates(repaired)),
        swaps=tuple(swaps),
    )


@cache
def _movements() -> Phrases:
    return Phrases(
        {row.name: (row.name.replace("-", " "), *row.said) for row in catalogue().values()}
    )

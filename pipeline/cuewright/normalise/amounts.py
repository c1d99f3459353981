"""Every number or quantity in a talk: ranges, lists, pairs, bounds and plain ones."""

from collections.abc import Sequence

from cuewright.normalise.dates import dates
from cuewright.normalise.joins import joined
from cuewright.normalise.line import Line
from cuewright.normalise.quantities import quantities
from cuewright_models.tokens import Amount, Token


def amounts(tokens: Sequence[Token]) -> list[Amount]:
    """Every number or quantity in the talk, in order, without overlap."""
    line = Line(tokens)
    said = [Amount(day.start, day.end, None, None, shape="date") for day in dates(tokens) if day.day]
    taken = {at for span in said for at in range(span.start, span.end)}
    read = joined(line, [part for part in quantities(line) if part.start not in taken])
    return sorted((*said, *read), key=lambda amount: amount.start)

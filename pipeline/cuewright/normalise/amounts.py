"""Every number or quantity in a talk, in four steps.

quantities  numbers with their units
joins       ranges, lists, pairs and "by" forms
bounds      "under", "at least", "or more"
asides      times of day, money and the like set apart; words that count nothing left out
"""

from collections.abc import Sequence

from cuewright.normalise.asides import marked
from cuewright.normalise.bounds import bounded
from cuewright.normalise.counting import counts
from cuewright.normalise.dates import dates_in
from cuewright.normalise.joins import joined
from cuewright.normalise.line import Line
from cuewright.normalise.quantities import quantities
from cuewright_models.tokens import Amount, Token


def amounts(tokens: Sequence[Token]) -> list[Amount]:
    """Every number or quantity in the talk, in order, without overlap.

    A date with a day in it is one amount of shape "date", without numbers.
    """
    line = Line(tokens)
    days = [Amount(d.start, d.end, None, None, shape="date") for d in dates_in(line) if d.day]
    for day in days:
        line.set_aside(day.start, day.end)
    together = list(joined(line, quantities(line)))
    read = (marked(line, amount) for amount in bounded(line, together))
    found: list[Amount] = []
    for amount in read:
        while found and found[-1].end > amount.start:  # the "ten" of "ten past six"
            found.pop()
        if counts(line, amount):
            found.append(amount)
    return sorted((*days, *found), key=lambda amount: amount.start)

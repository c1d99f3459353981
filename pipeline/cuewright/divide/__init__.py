"""A reading to a divided talk: clauses, each with its section and its role."""

from cuewright.divide.clauses import clauses, linked
from cuewright.divide.evidence import heads, labels, phrases
from cuewright.divide.roles import roles
from cuewright.divide.sections import sections
from cuewright_models.divided import Clause, Divided
from cuewright_models.tokens import Reading


def divide(reading: Reading) -> Divided:
    """Cut the talk into clauses and say what part of the talk each belongs to, and what for."""
    said = phrases(reading)
    cut = clauses(reading, heads(said))
    found = labels(reading, cut, said)
    parts = sections(found)
    given = roles(found, parts, linked(reading, cut))
    return Divided(
        reading=reading,
        clauses=tuple(
            Clause(start, end, section, role, tuple(sorted(counts.items())))
            for (start, end), section, role, counts in zip(cut, parts, given, found, strict=True)
        ),
    )

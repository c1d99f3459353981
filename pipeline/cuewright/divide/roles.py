"""What each clause is for: its own evidence, weighed within its section."""

from collections import Counter
from collections.abc import Mapping, Sequence

from cuewright.divide.evidence import table
from cuewright_models.divided import Role, Section

_PRIOR: dict[Section, dict[Role, float]] = {
    "open": {"talk": 1.5, "prescription": -1.0},
    "warm-up": {"prescription": 1.0},
    "work": {"prescription": 1.0},
    "cool-down": {"prescription": 1.0},
    "targets": {"target": 2.0, "prescription": -2.0},
    "cues": {"cue": 1.5, "prescription": -2.0},
    "scaling": {"option": 1.5, "prescription": -2.5},
    "pacing": {"advice": 1.5, "prescription": -3.0},
    "recap": {"restatement": 2.0, "prescription": -2.0},
    "close": {"talk": 1.5, "prescription": -3.0},
}
"""What a clause is for where nothing in it speaks."""
_HEADS = ("header-work", "header-warm-up", "header-cool-down", "onward-work")
"""Labels of clauses that begin a part of the talk, whatever was said before."""
_RUNS_ON: frozenset[Role] = frozenset(("claim", "example", "restatement"))


def roles(
    found: Sequence[Counter[str]], sections: Sequence[Section], linked: Sequence[bool]
) -> list[Role]:
    """One role a clause: the heaviest of its section's prior and its labels' weights.

    ``linked`` marks clauses that begin with "and": amounts there go on with what the
    clause before was for, unless rounds or a clock start something new.
    """
    out: list[Role] = []
    for counts, section, link in zip(found, sections, linked, strict=True):
        role = _role(counts, section)
        runs_on = link and bool(out) and out[-1] in _RUNS_ON
        fresh = counts["structures"] or any(counts[head] for head in _HEADS)
        if runs_on and role == "prescription" and not fresh:
            role = out[-1]
        out.append(role)
    return out


def prior(section: Section) -> Mapping[Role, float]:
    """What clauses of a section weigh for each role before anything is said in them."""
    return _PRIOR[section]


def scores(counts: Counter[str], section: Section) -> dict[Role, float]:
    """What a clause weighs for each role that anything speaks for or against."""
    out = dict(_PRIOR[section])
    rows = table()
    for label in counts:  # once each: three efforts in a clause prescribe no more than one
        for role, weight in rows[label].role.items():
            out[role] = out.get(role, 0.0) + weight
    return out


def _role(counts: Counter[str], section: Section) -> Role:
    weighed = scores(counts, section)
    return max(weighed, key=lambda role: weighed[role])

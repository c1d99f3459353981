"""The stages in order: read this first."""

from pathlib import Path

from cuewright.cautions import usual
from cuewright.check import check
from cuewright.divide import divide
from cuewright.divide.explain import explain
from cuewright.estimate import estimate
from cuewright.hear import read
from cuewright.movements.catalogue import Catalogue, catalogue, using
from cuewright.movements.own import extended
from cuewright.normalise import normalise
from cuewright.parse import parse
from cuewright_models.explained import Explained
from cuewright_models.plan import Plan, Source
from cuewright_models.transcript import Transcript


def plan_of(heard: Transcript) -> Plan:
    """Everything that happens to a talk once it has been heard, in order."""
    reading = normalise(heard)
    divided = divide(reading)
    plan = parse(heard, divided)
    timed = plan.model_copy(update={"estimate": estimate(plan)})
    checked = timed.model_copy(update={"findings": check(timed)})
    return checked.model_copy(update={"cautions": usual()})


def read_plan(source: str | Path, movements: str | Path | Catalogue | None = None) -> Plan:
    """The checked plan of the talk in ``source``.

    ``movements`` is a TOML file of a coach's own movements and words, or what
    ``cuewright.movements.own.extended`` made of one, which saves reading it again. Raises
    UnreadableSource or, for that file, BadTable, with one sentence.
    """
    with using(_known(movements)):
        return plan_of(read(source))


def explain_plan(source: str | Path, movements: str | Path | Catalogue | None = None) -> Explained:
    """Why each clause of the talk in ``source`` was read as it was; raises as ``read_plan``."""
    with using(_known(movements)):
        heard = read(source)
        return Explained(
            source=Source(**{field: getattr(heard, field) for field in Source.model_fields}),
            clauses=explain(heard, divide(normalise(heard))),
            warnings=heard.warnings,
        )


def _known(movements: str | Path | Catalogue | None) -> Catalogue:
    match movements:
        case None:
            return catalogue()
        case Catalogue():
            return movements
    return extended(movements)

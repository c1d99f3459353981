"""Why each clause of a talk went to its part of the talk and got its role."""

from typing import Annotated

from pydantic import PlainSerializer

from cuewright_models.base import Said, Value
from cuewright_models.divided import Role, Section
from cuewright_models.plan import Source

Weight = Annotated[float, PlainSerializer(lambda weight: round(weight, 4) + 0.0)]
"""Points without a unit, as in the table of the evidence; more speaks for, less than 0 against."""


class Reason(Value):
    """One thing that was weighed: a label of the table, or what its place in the talk costs."""

    what: str
    weight: Weight


class SectionChoice(Value):
    """The part of the talk, chosen for the talk as a whole.

    ``because`` is what was weighed at this clause for ``chosen``, the heaviest first; empty
    where a part just goes on. ``lost_by`` is how much less the best reading of the whole
    talk weighs in which this clause is the ``runner_up``.
    """

    chosen: Section
    because: tuple[Reason, ...]
    runner_up: Section
    lost_by: Weight


class RoleChoice(Value):
    """What the clause is for; ``because`` and ``lost_by`` weigh this clause alone.

    With ``runs_on`` the role is that of the clause before, which this one goes on with;
    ``runner_up`` is then what its own weights say, and ``lost_by`` is ``None``. Both are
    ``None`` where nothing spoke for or against any other role.
    """

    chosen: Role
    because: tuple[Reason, ...]
    runs_on: bool
    runner_up: Role | None
    lost_by: Weight | None


class ExplainedClause(Value):
    """One clause as it was said, with both choices."""

    said: Said
    section: SectionChoice
    role: RoleChoice


class Explained(Value):
    """Every clause of a talk in order; ``warnings`` are those of the reader."""

    source: Source
    clauses: tuple[ExplainedClause, ...]
    warnings: tuple[str, ...] = ()

"""A session made to fit: one version for each athlete profile."""

from cuewright_models.base import Number, Value
from cuewright_models.plan import Plan
from cuewright_models.profile import Profile


class Goal(Value):
    """What a station, a round, a block or the whole should take, and takes in the version.

    ``about`` as in the plan's targets; ``why`` says why ``likely_s`` is not near it.
    """

    about: str
    low_s: Number | None
    high_s: Number
    likely_s: Number
    why: str | None = None


class Version(Value):
    """The plan for one profile; ``changes`` says in words what is other than said."""

    profile: Profile
    plan: Plan
    goals: tuple[Goal, ...]
    changes: tuple[str, ...] = ()

"""A plan as the contract's JSON."""

from cuewright_models.plan import Plan


def page(plan: Plan) -> str:
    """The same plan gives the same bytes: one-space indent, fields in the contract's order."""
    return plan.model_dump_json(indent=1) + "\n"

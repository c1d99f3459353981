"""What a session does, or promises, before its hard work."""

from cuewright_models.plan import Block, Plan

AGAINST_THE_CLOCK = {"for-time", "amrap", "every", "intervals"}
PREPARES = {"warm-up", "mobility"}


def clocked(block: Block) -> bool:
    """Whether a block is the conditioning that a clock drives."""
    return block.kind == "conditioning" and block.structure.kind in AGAINST_THE_CLOCK


def elsewhere(plan: Plan) -> bool:
    """Whether the coach sends people to a warm-up that is not in the talk."""
    advised = {advice.about for advice in plan.advice}
    promised = {claim.about for claim in plan.claims if claim.kind == "in-description"}
    return bool(PREPARES & (advised | promised))

"""What a session needs, from the movements that are in it."""

from collections.abc import Iterator

from cuewright.movements.catalogue import catalogue
from cuewright_models.plan import Effort, Plan, efforts


def needed(plan: Plan) -> tuple[str, ...]:
    """Kit in the order in which it is used: ``kettlebell``, ``bar or rings``; once each.

    What does for one of the movements offered with "or" is enough. Kit of which another
    line needs one kind only is not listed again with others that would do.
    """
    wants = [want for block in plan.blocks for effort in efforts(block.items)
             if (want := _of(effort))]  # fmt: skip
    surely = {want[0] for want in wants if len(want) == 1}
    left = (want for want in wants if len(want) == 1 or surely.isdisjoint(want))
    return tuple(dict.fromkeys(" or ".join(want) for want in left))


def _of(effort: Effort) -> tuple[str, ...]:
    """Kit of which the effort needs one; empty where a movement on offer needs none."""
    kits = list(_kits(effort))
    return () if not all(kits) else tuple(dict.fromkeys(kit for one in kits for kit in one))


def _kits(effort: Effort) -> Iterator[tuple[str, ...]]:
    for name in (effort.movement, *effort.alternatives):
        row = catalogue().get(name)
        yield row.kit if row else ()

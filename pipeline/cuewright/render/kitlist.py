"""What a session needs, from the movements that are in it."""

from collections.abc import Iterator

from cuewright.movements.catalogue import catalogue
from cuewright_models.plan import Effort, Plan, efforts


def needed(plan: Plan) -> tuple[str, ...]:
    """Kit in the order in which it is used: ``kettlebell``, ``bar or rings``.

    Of several kinds that will do, those that do for other movements too, and of these the
    one that the coach announced.
    """
    announced = [claim.about for claim in plan.claims if claim.kind == "equipment"]
    wants: list[tuple[str, ...]] = []
    for want in _wants(plan):
        for at, other in enumerate(wants):
            if both := tuple(kit for kit in other if kit in want):
                wants[at] = both
                break
        else:
            wants.append(want)
    meant = (tuple(kit for kit in want if kit in announced) or want for want in wants)
    return tuple(" or ".join(want) for want in meant)


def _wants(plan: Plan) -> Iterator[tuple[str, ...]]:
    """Kit of which each effort needs one kind, those with the least choice first."""
    all_efforts = [effort for block in plan.blocks for effort in efforts(block.items)]
    wants = [want for effort in all_efforts if (want := _of(effort))]
    yield from sorted(wants, key=lambda want: len(want) > 1)


def _of(effort: Effort) -> tuple[str, ...]:
    """Kit of which the effort needs one; empty where a movement on offer needs none."""
    rows = [catalogue().get(name) for name in (effort.movement, *effort.alternatives)]
    kits = [row.kit if row else () for row in rows]
    return tuple(dict.fromkeys(kit for one in kits for kit in one)) if all(kits) else ()

"""The session needs kit that the coach said it does not."""

import math
from collections.abc import Iterator
from functools import cache

from cuewright.check.kinship import ends_with
from cuewright.check.rule import Rule, union
from cuewright.movements.catalogue import catalogue, derived
from cuewright.tables import raw, validated
from cuewright_models.base import Evidence, Said, Value
from cuewright_models.finding import Finding
from cuewright_models.plan import Claim, Effort, Plan, efforts

# "No kit, just a rope" is one breath; seconds, common practice, no source.
SAME_BREATH_S = 10


class Kit(Value):
    """A row of kit.toml."""

    name: str
    anywhere: bool = False
    like: tuple[str, ...] = ()


@cache
def _kit() -> dict[str, Kit]:
    return validated(raw("cuewright.check", "kit.toml"), Kit, where="kit.toml")


def find(plan: Plan) -> Iterator[Finding]:
    """One finding for each kind of kit that was ruled out and is needed."""
    claims = [claim for claim in plan.claims if claim.kind == "equipment"]
    ruled_out = [claim for claim in claims if claim.about == "none" or claim.only]
    if not ruled_out:
        return
    announced = _announced(claims)
    missing: dict[tuple[str, ...], list[Effort]] = {}
    for effort, told in _told(plan):
        needs = _needs(effort, told)
        if needs and not announced & _does(needs):
            missing.setdefault(needs, []).append(effort)
    for needs, needing in missing.items():
        yield _finding(needs, needing, union(*(claim.said for claim in ruled_out)))


def _announced(claims: list[Claim]) -> set[str]:
    """The kit that the coach's own words allow."""
    nothing = [claim for claim in claims if claim.about == "none"]
    items = [claim for claim in claims if claim.about != "none"]
    if any(claim.only for claim in items):
        return {claim.about for claim in items}
    return {c.about for c in items if any(_one_breath(c.said, none.said) for none in nothing)}


def _one_breath(one: Evidence, other: Evidence) -> bool:
    return any(_gap(first, second) <= SAME_BREATH_S for first in one for second in other)


def _gap(one: Said, other: Said) -> float:
    """Seconds between two quotes; endless when their times are not known."""
    if one.quote in other.quote or other.quote in one.quote:
        return 0
    if one.start_s is None or one.end_s is None or other.start_s is None or other.end_s is None:
        return math.inf
    return max(one.start_s - other.end_s, other.start_s - one.end_s, 0)


def _told(plan: Plan) -> Iterator[tuple[Effort, str]]:
    """Every effort with the words of its block, run together: "bent-over rows kettle bell"."""
    for block in plan.blocks:
        words = "".join(said.quote for said in block.said).lower()
        for effort in efforts(block.items):
            yield effort, words.replace(" ", "").replace("-", "")


def _needs(effort: Effort, told: str) -> tuple[str, ...]:
    """Kit of which the effort needs one kind; empty when it can be done with none.

    Of several kinds that will do, those that its block was told with are meant.
    """
    row = catalogue().get(effort.movement)
    named = tuple(kit for kit in (row.kit if row else ()) if kit.replace(" ", "") in told)
    if named and not any(map(_anywhere, named)):
        return named
    meant = (effort.movement, *effort.alternatives, *_longer(effort.as_said))
    rows = [catalogue().get(name) for name in meant]
    if any(not row or not row.kit or any(map(_anywhere, row.kit)) for row in rows):
        return ()
    return tuple(dict.fromkeys(kit for row in rows if row for kit in row.kit))


@derived
def _longer(as_said: str) -> tuple[str, ...]:
    """Movements that "rows" or "curls" may be short for."""
    word = as_said.lower().strip(".,;:?! ").replace("-", " ")
    if " " in word or not word.endswith("s"):
        return ()
    return tuple(row.name for row in catalogue().values() if ends_with(row.name, word))


def _anywhere(kit: str) -> bool:
    row = _kit().get(kit)
    return row is not None and row.anywhere


def _does(needs: tuple[str, ...]) -> set[str]:
    """The kit needed and all that does the same job."""
    rows = [_kit().get(kit) for kit in needs]
    return {*needs, *(like for row in rows if row for like in row.like)}


def _finding(needs: tuple[str, ...], needing: list[Effort], ruled_out: Evidence) -> Finding:
    first = needing[0]
    kit = " or ".join(needs)
    return RULE.finding(
        first.movement,
        f"The session needs kit that was ruled out: {kit}, for {first.as_said}.",
        expected="only the kit that was announced",
        found=f"{', '.join(dict.fromkeys(e.as_said for e in needing))}: {kit}",
        said=union(*(effort.said for effort in needing), ruled_out),
        suggestion="Announce it, or name a movement that needs none.",
        say=f"You also need: {kit}.",
    )


RULE = Rule(
    code="equipment-vs-claim",
    severity="error",
    question="Does the session need only the kit that the coach announced?",
    why="Somebody at home has cleared a space and cannot do what comes.",
    fires=(
        "No gear tonight, not a thing. Jog two minutes to warm up. Main piece, four rounds "
        "for time: ten kettlebell swings and ten burpees.",
        "All you want today is a skipping rope. Nothing else. Skip two minutes to warm up. "
        "Then five rounds for time: fifty skips, ten ring rows, ten push-ups.",
    ),
    silent=(
        "No gear tonight, just one kettlebell. Jog two minutes to warm up. Main piece, four "
        "rounds for time: ten kettlebell swings and ten burpees.",
        "No kit whatsoever, a floor and yourself. Warm-up: march for a minute. Then three "
        "sets of twelve dips on the edge of a chair, forty-five seconds rest.",
        "Bring a mat and water. Jog two minutes to warm up. Main piece, four rounds for time: "
        "ten kettlebell swings and ten burpees.",
    ),
    leaves_alone=(
        "Furniture, walls, stairs and bags; kit that does the same job as what was announced; "
        "options; lists that nobody called complete; a short name such as rows that other kit fits."
    ),
    find=find,
)

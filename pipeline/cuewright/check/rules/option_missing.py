"""A jump, an inverted, overhead or skilled movement has no easier way."""

from collections.abc import Iterator

from cuewright.check.care import Care, care, worst_first
from cuewright.check.kinship import linked
from cuewright.check.leeway import speaks_of
from cuewright.check.mentions import mentioned
from cuewright.check.rule import Rule, union
from cuewright.check.sums import work_blocks
from cuewright.check.wording import listed, sentence
from cuewright.movements.catalogue import REDUCE, catalogue
from cuewright_models.finding import Finding
from cuewright_models.plan import Effort, Option, Plan, efforts

WHOLE = {"total", "round"}
LEAST = {"lift", "load"}
"""Rows of care.toml for which a lighter load is way enough."""
SCALED = 2
"""So many other movements, and half of all, are scaled before a missing way is one left out."""


def find(plan: Plan) -> Iterator[Finding]:
    """At most one finding, about the movement that wants most care."""
    ways = [option for option in plan.options if option.kind != "harder"]
    whole = WHOLE | {block.id for block in work_blocks(plan)}
    if any(option.about in whole or speaks_of("whole", option.said) for option in ways):
        return
    work = [effort for block in work_blocks(plan) for effort in efforts(block.items)]
    unread = {name for unknown in plan.unknown for name in unknown.nearest}
    bare = [effort for effort in _bare(work, ways) if not linked(effort.movement) & unread]
    if bare:
        yield _finding(bare, ways)


def _bare(work: list[Effort], ways: list[Option]) -> list[Effort]:
    scaled = {option.about for option in ways}
    swapped = {each.movement for each in work if each.alternatives}
    open_ = [each for each in work if each.movement not in swapped]
    open_ = [each for each in open_ if not linked(each.movement) & scaled]
    thorough = _thorough({each.movement for each in work}, {each.movement for each in open_})
    hard = [each for each in open_ if (why := care(each.movement)) and _wanted(why, thorough)]
    return [each for each in hard if not mentioned(each, [way.said for way in ways], scaled)]


def _thorough(every: set[str], without: set[str]) -> bool:
    """Whether the coach has a way for most, so that one without is one left out."""
    eased = len(every - without)
    return eased >= SCALED and eased * 2 >= len(every)


def _wanted(why: Care, thorough: bool) -> bool:
    """Always of what nobody new can do; of jumps and presses where the others have a way."""
    return why.newcomers or (why.name not in LEAST and thorough)


def _finding(bare: list[Effort], ways: list[Option]) -> Finding:
    about = worst_first(effort.movement for effort in bare)
    first, several = about[0].replace("-", " "), len(about) > 1
    why = care(about[0])
    return RULE.finding(
        about[0],
        f"{sentence(listed(about))} {'have' if several else 'has'} no easier way.",
        expected=f"an easier way for what is {why.what if why else 'hard'}",
        found=f"none for {listed(about)}",
        said=union(*(effort.said for effort in bare), *(option.said for option in ways[:1])),
        suggestion="Offer a way for those who are not there yet, or who are sore today.",
        say=f"Instead of the {first}, you can do {_easier(about[0])}.",
    )


def _easier(name: str) -> str:
    row = catalogue()[name]
    easier = [other for other in (*row.easier, *row.swap) if other != REDUCE]
    return f"the {easier[0].replace('-', ' ')}" if easier else "half as many"


RULE = Rule(
    code="option-missing",
    severity="note",
    question="Has every jump, inverted, overhead or skilled movement an easier way?",
    why="Whoever cannot do it stands about, or does it badly.",
    fires=(
        "Jog two minutes. Main piece, three rounds for time: five wall walks, ten push-ups, "
        "twenty squats. Push-ups can be done from the knees.",
        "Jog two minutes. Main piece, three rounds for time: ten box jumps, ten push-ups, ten "
        "sit-ups. Push-ups too much? Do them from your knees. If sit-ups bother your back, do "
        "dead bugs.",
    ),
    silent=(
        "Jog two minutes. Main piece, three rounds for time: five wall walks, ten push-ups, "
        "twenty squats. If wall walks aren't for you, do inchworms.",
        "warm up jog two minutes main piece four rounds for time five handstand push ups ten "
        "squats and two hundred metre run if you're new do two rounds",
        "Jog two minutes. Main piece, three rounds for time: ten box jumps, ten push-ups, ten "
        "sit-ups.",
    ),
    leaves_alone=(
        "Running; sessions with a way to do less of the whole; jumps and overhead work of "
        "moderate skill where fewer than two other movements, or fewer than half, are scaled; "
        "warm-ups and cool-downs."
    ),
    find=find,
)

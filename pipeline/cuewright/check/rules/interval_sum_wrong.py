"""A stated block length differs from its intervals multiplied out."""

from collections.abc import Iterator

from cuewright.check.leeway import apart
from cuewright.check.rule import Rule, union
from cuewright.check.sums import countable, exactly, slots, stated_lengths
from cuewright.check.wording import duration, span
from cuewright.check.wording import times as multiplied
from cuewright_models.finding import Finding
from cuewright_models.plan import Block, Claim, Effort, Every, Intervals, Plan, Rest, StatedTime


def find(plan: Plan) -> Iterator[Finding]:
    """One finding for each clocked block whose length no way of counting gives."""
    stated = stated_lengths(plan)
    for block in plan.blocks:
        lengths = _lengths(block)
        wrong = [
            each for each in _stated(stated[block.id], block) if _differs(each, block, lengths)
        ]
        if wrong:
            working, total = next(iter(lengths.items()))
            yield RULE.finding(
                block.id,
                f"Block {block.id} is said to last {span(wrong[0], 's')}, "
                f"but its intervals come to {duration(total)}.",
                expected=f"{working} = {duration(total)}",
                found=span(wrong[0], "s"),
                said=union(block.said, *(each.said for each in wrong)),
                suggestion="Correct the length, or the number or length of the intervals.",
                say=f"This part takes {duration(total)}.",
            )


def _differs(stated: StatedTime | Claim, block: Block, lengths: dict[str, float]) -> bool:
    if _once(block) and stated.low and stated.low % next(iter(lengths.values()), 1) == 0:
        return False
    every = [exactly(length) for length in lengths.values()]
    return bool(every) and all(
        apart(stated, length, "interval-length", stated.said) for length in every
    )


def _once(block: Block) -> bool:
    """Whether stations are gone through once, so that their rounds may not have been said."""
    structure = block.structure
    return isinstance(structure, Intervals) and structure.times == 1 and len(block.items) > 1


def _stated(said: tuple[StatedTime | Claim, ...], block: Block) -> tuple[StatedTime | Claim, ...]:
    """What was said of the block's length, the structure's own length included."""
    structure = block.structure
    if isinstance(structure, Every) and structure.duration_s:
        length = structure.duration_s
        return (*said, StatedTime(low=length, high=length, said=block.said))
    return said


def _lengths(block: Block) -> dict[str, float]:
    """Every sensible length in seconds by its working, the plainest first; empty if unknown."""
    structure = block.structure
    if isinstance(structure, Every):
        return _on_the_clock(structure, slots(block))
    if isinstance(structure, Intervals):
        return _work_and_rest(structure, block)
    return {}


def _on_the_clock(structure: Every, cycle: int) -> dict[str, float]:
    every, times = countable(structure.every_s), countable(structure.times)
    if not every or not times:
        return {}
    lengths = {multiplied(times, duration(every)): every * times}
    if cycle > 1:  # "times" may have been said of the whole cycle
        lengths[multiplied(times * cycle, duration(every))] = every * times * cycle
    return lengths


def _work_and_rest(structure: Intervals, block: Block) -> dict[str, float]:
    times = countable(structure.times)
    work, rest = countable(structure.work_s), countable(structure.rest_s)
    plain = all(isinstance(item, (Effort, Rest)) for item in block.items)
    stations = sum(isinstance(item, Effort) for item in block.items)
    if work is None or rest is None or not times or not stations or not plain:
        return {}
    count = times * stations
    pause = sum(item.high for item in block.items if isinstance(item, Rest))
    bout = multiplied(count, f"({duration(work)} + {duration(rest)})")
    whole = count * (work + rest)
    lengths = {
        bout: whole,
        f"{bout} without the last rest": whole - rest,
        f"{multiplied(count, duration(work))} of work": count * work,
    }
    if pause:  # between the rounds, after the last or not
        rested = {
            f"{bout} + {multiplied(times, duration(pause))}": whole + times * pause,
            f"{bout} + {multiplied(times - 1, duration(pause))}": whole + (times - 1) * pause,
            f"{bout}, last rests replaced": whole - times * rest + (times - 1) * pause,
        }
        return rested | lengths
    return lengths


RULE = Rule(
    code="interval-sum-wrong",
    severity="error",
    question="Is a clocked block as long as its intervals add up to?",
    why="The timer will be set by one of the two figures, and the room booked by the other.",
    fires=(
        "Jog two minutes to warm up. Main piece: every two minutes, six times: ten thrusters "
        "and ten burpees. So sixteen minutes on the clock.",
        "Warm-up, jog three minutes. The circuit: 40 seconds on, 20 off. Five stations, three "
        "times round: push-ups, air squats, plank, lunges, burpees. That gives you a tidy 20 "
        "minutes.",
    ),
    silent=(
        "get warm with a two minute jog then the main piece is twenty seconds on ten seconds "
        "off eight rounds of air squats so that's four minutes and it's over",
        "Jog two minutes to warm up. Main piece: every two minutes, six times: ten thrusters "
        "and ten burpees. So twelve minutes on the clock.",
    ),
    leaves_alone=(
        "Whether the last rest counts, or any rest; differences under half a minute or three per "
        "cent, a tenth when the coach calls it rough; whole laps of stations whose laps nobody "
        "counted; blocks that no clock divides."
    ),
    find=find,
)

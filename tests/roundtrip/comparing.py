"""What a plan asks for, without its quotes and names, so that two plans can be compared."""

import tempfile
from difflib import SequenceMatcher
from pathlib import Path

from roundtrip.speaking import Spoken

from cuewright import read_plan
from cuewright_models.plan import Block, Effort, Item, Ladder, Plan, Repeat, Rest, efforts

WORK = "work"


def heard(spoken: Spoken) -> Plan:
    """The plan read from the talk."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / f"talk{spoken.suffix}"
        file.write_text(spoken.text, "utf-8")
        return read_plan(file)


def asked(block: Block) -> str:
    """One block in a line: part, structure with its clock, and the items in order."""
    part = block.kind if block.kind in ("warm-up", "cool-down") else WORK
    clock = block.structure.model_dump(exclude_none=True)
    kind = clock.pop("kind")
    told = " ".join(f"{name}={value:g}" for name, value in sorted(clock.items()))
    return f"{part} {kind} {told}: {_items(block.items)}"


def amounts(plan: Plan) -> list[str]:
    """Every effort of the plan, in order."""
    return [_effort(item) for block in plan.blocks for item in efforts(block.items)]


def kept(wanted: list[str], got: list[str]) -> list[bool]:
    """Which of ``wanted`` are in ``got``, in the same order."""
    found = [False] * len(wanted)
    for match in SequenceMatcher(None, wanted, got, autojunk=False).get_matching_blocks():
        found[match.a : match.a + match.size] = [True] * match.size
    return found


def _items(items: tuple[Item, ...]) -> str:
    return ", ".join(map(_item, items))


def _item(item: Item) -> str:
    if isinstance(item, Effort):
        return _effort(item)
    if isinstance(item, Rest):
        return f"rest {item.low:g}"
    inner = f"[{_items(item.items)}]"
    if isinstance(item, Repeat):
        rest = f" rest {item.rest_s:g}" if item.rest_s else ""
        return f"{item.times.low or 0:g} x {inner}{rest}"
    if isinstance(item, Ladder):
        return f"{'-'.join(map(str, item.rungs))} {inner}"
    return f"slot {item.index} {inner}"


def _effort(item: Effort) -> str:
    if item.max:
        amount = "max"
    elif item.low is None:
        amount = "?"
    else:
        ends = sorted({round(item.low), round(item.low if item.high is None else item.high)})
        amount = "-".join(map(str, ends))
    return f"{amount} {item.unit} {item.movement}{' each side' if item.per_side else ''}"

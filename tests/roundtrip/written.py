"""Write random sessions down and print how much of them is read back, by layout and construct.

    python tests/roundtrip/written.py [--draws 1500] [--seed 1] [--show]

``--show`` prints the shortest session of each layout and construct that failed.
"""

import argparse
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from random import Random

sys.path.pop(0)  # this file has the name of a folder beside its own
sys.path.insert(0, str(Path(__file__).parents[1]))

from roundtrip.comparing import asked, kept
from roundtrip.writing import LAYOUTS, Written, written
from written.reading import plan


def wrong(sheet: Written) -> tuple[list[str], list[str]]:
    """The blocks that were wanted and those that were read."""
    got = plan(sheet.text)
    return [asked(block) for block in sheet.plan.blocks], [asked(block) for block in got.blocks]


def drawn(draws: int, seed: int) -> Iterator[Written]:
    """Sessions in all layouts in turn."""
    rng = Random(seed)
    return (written(rng, LAYOUTS[at % len(LAYOUTS)]) for at in range(draws))


def main() -> None:
    """Print the rates."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--draws", type=int, default=1500)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--show", action="store_true")
    given = parser.parse_args()
    right: Counter[str] = Counter()
    told: Counter[str] = Counter()
    worst: dict[str, str] = {}
    for sheet in drawn(given.draws, given.seed):
        wanted, got = wrong(sheet)
        good = kept(wanted, got)
        for row in ("blocks", f"  layout {sheet.layout}", f"  work {sheet.construct}"):
            told[row] += len(wanted)
            right[row] += sum(good)
        if not all(good) or len(wanted) != len(got):
            row = f"{sheet.layout}, {sheet.construct}"
            shown = f"{sheet.text}\n  wanted {wanted}\n  got    {got}\n"
            worst[row] = min(worst.get(row, shown), shown, key=len)
    for row, count in sorted(told.items()):
        print(f"{right[row] / count:7.1%} {right[row]:6}/{count:<6} {row}")
    if given.show:
        for row, shown in sorted(worst.items()):
            print(f"--- {row}\n{shown}")


if __name__ == "__main__":
    main()

"""Say random talks aloud and print how much of them is read back, by construct.

    python tests/roundtrip/rate.py [--draws 2000] [--seed 1] [--only CONSTRUCT] [--phrases] [--show]

``--phrases`` adds the rate of each phrase that ever failed; ``--show`` the shortest talk that
failed for each construct.
"""

import argparse
import sys
from collections import Counter
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))

from roundtrip.comparing import amounts, asked, heard, kept
from roundtrip.speaking import CONSTRUCTS, session

from cuewright_models.plan import efforts


class Tally:
    """How much was said and how much of it was read back."""

    def __init__(self) -> None:
        self.said: Counter[str] = Counter()
        self.read: Counter[str] = Counter()
        self.worst: dict[str, tuple[int, str]] = {}

    def add(self, row: str, right: int, of: int = 1) -> None:
        """``right`` of ``of`` under a row."""
        self.said[row] += of
        self.read[row] += right

    def failed(self, row: str, told: str) -> None:
        """Remember the shortest failure."""
        if row not in self.worst or len(told) < self.worst[row][0]:
            self.worst[row] = (len(told), told)

    def line(self, row: str) -> str:
        """The row with its rate."""
        said, read = self.said[row], self.read[row]
        return f"{read / said:7.1%}  {read:6}/{said:<6} {row}" if said else f"      -  {row}"


def count(tally: Tally, rng: Random, only: str | None, *, unread: bool) -> None:
    """Say one talk and count what is read back."""
    spoken = session(rng, work=(only,) if only else (), unread=unread)
    plan = heard(spoken)
    wanted, got = [asked(block) for block in spoken.plan.blocks], [*map(asked, plan.blocks)]
    blocks, every = kept(wanted, got), kept(amounts(spoken.plan), amounts(plan))
    tally.add("talks", all(blocks) and len(wanted) == len(got))
    tally.add(f"talks, {spoken.style}", all(blocks) and len(wanted) == len(got))
    for phrase in spoken.opening:
        same = (plan.title or "").casefold() == (spoken.plan.title or "").casefold()
        tally.add(f"  title, {spoken.style.split(',')[0]:8}{phrase}", same)
    tally.add("title", (plan.title or "").casefold() == (spoken.plan.title or "").casefold())
    told = [d and (d.year, d.month, d.day, d.weekday) for d in (plan.date, spoken.plan.date)]
    tally.add("date", told[0] == told[1])
    tally.add("efforts", sum(every), len(every))
    at = 0
    for number, (construct, right) in enumerate(zip(spoken.constructs, blocks, strict=True)):
        size = len([*efforts(spoken.plan.blocks[number].items)])
        tally.add(f"block {construct}", right)
        tally.add(f"efforts of {construct}", sum(every[at : at + size]), size)
        at += size
        for phrase in set(spoken.phrases[number]):
            tally.add(f"  {spoken.style.split(',')[0]:8}{phrase}", right)
        if not right:
            told_got = "\n     ".join(got)
            row = f"block {construct}"
            text = f"{spoken.text}\n  wanted {wanted[number]}\n  got {told_got}"
            tally.failed(row, text)


def main() -> None:
    """Print the rates."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--draws", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", choices=CONSTRUCTS)
    parser.add_argument("--phrases", action="store_true")
    parser.add_argument("--show", action="store_true")
    parser.add_argument("--passing", action="store_true", help="only phrases that are read back")
    asked_for = parser.parse_args()
    tally, rng = Tally(), Random(asked_for.seed)
    for _ in range(asked_for.draws):
        count(tally, rng, asked_for.only, unread=not asked_for.passing)
    rows = [row for row in tally.said if not row.startswith("  ")]
    phrases = [row for row in tally.said if row.startswith("  ")]
    print("\n".join(tally.line(row) for row in rows))
    if asked_for.phrases:
        bad = [row for row in phrases if tally.read[row] < tally.said[row]]
        bad.sort(key=lambda row: tally.read[row] / tally.said[row])
        print("\n".join(tally.line(row) for row in bad))
    if asked_for.show:
        for row, (_, told) in tally.worst.items():
            print(f"\n== {row}\n{told}")


if __name__ == "__main__":
    main()

"""Score the plans of both sets of talks, and hold every row of the scores above its floor.

    python tests/accuracy/floor.py [--raise]

Prints score.py's table for tests/corpus and tests/talks; exit status 1 when an F1 or the share
of true quotes is under its floor in floors.toml, or more clean talks have a false alarm
than it allows. ``--raise`` lifts the floors to what is measured, and never lowers one.
"""

import argparse
import json
import math
import subprocess
import sys
import tempfile
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from cuewright.errors import CuewrightError
from cuewright.flow import compare, read_plan
from cuewright.render import FORMS

HERE = Path(__file__).parent
FLOORS = HERE / "floors.toml"
SETS = ("corpus", "talks")
ALARMS = "clean-talks-with-alarm"
HEADING = """\
# The least that each row of the scores may be: F1, and for quotes-true the share; and the
# most clean talks that may have a false alarm. They only go up (the alarms only down):
# `python tests/accuracy/floor.py --raise`.
"""


def floors() -> dict[str, dict[str, float]]:
    """The floors of each set of talks by row."""
    return tomllib.loads(FLOORS.read_text("utf-8"))


def plans(talks: Path, out: Path) -> None:
    """The plan of every talk that has a gold file; one that cannot be read has none."""
    for gold in talks.glob("*.gold.json"):
        name = gold.name.removesuffix(".gold.json")
        source = next(p for p in talks.glob(f"{name}.*") if p.suffix != ".md" and p != gold)
        try:
            page = FORMS["json"].page(read_plan(source))
        except CuewrightError as error:
            print(error, file=sys.stderr)
        else:
            (out / f"{name}.plan.json").write_text(page, "utf-8")
            if (described := talks / f"{name}.description.md").exists():
                made = compare(source, described).model_dump_json()
                (out / f"{name}.compare.json").write_text(made, "utf-8")


@cache
def report(talks: str) -> tuple[str, dict[str, Any]]:
    """The score table of one set as text, and the same as numbers."""
    with tempfile.TemporaryDirectory() as out:
        plans(HERE.parent / talks, Path(out))
        call = [sys.executable, HERE / "score.py", HERE.parent / talks, "--plans", out]
        table, numbers = (
            subprocess.run([*call, *more], check=True, capture_output=True, text=True).stdout
            for more in ([], ["--json"])
        )
    return table, json.loads(numbers)


def measured(talks: str) -> dict[str, float]:
    """What the floors of one set are about: F1 by row, the share of true quotes, the alarms."""
    numbers = report(talks)[1]
    rows = {row: score["f1"] for row, score in numbers.items() if isinstance(score, dict)}
    rows["quotes-true"] = numbers["quotes-true"]
    rows[ALARMS] = int(numbers[ALARMS].split("/")[0])
    return rows


def under(talks: str) -> list[str]:
    """A sentence for each row on the wrong side of its floor, or without one."""
    held = floors()[talks]
    return [
        f"{talks}: {row} is {value:g}, its floor is {held.get(row, 'missing')}"
        for row, value in measured(talks).items()
        if row not in held or (value > held[row] if row == ALARMS else value < held[row])
    ]


def lift() -> None:
    """Floors to what is measured, cut to two decimals, where that is better."""
    text = HEADING
    for talks in SETS:
        held = floors().get(talks, {})
        text += f"\n[{talks}]\n"
        for row, value in measured(talks).items():
            if row == ALARMS:
                text += f"{row} = {min(value, held.get(row, value))}\n"
            else:
                text += f"{row} = {max(math.floor(100 * value) / 100, held.get(row, 0.0)):.2f}\n"
    FLOORS.write_text(text, "utf-8")


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--raise", dest="lift", action="store_true", help="lift the floors")
    if parser.parse_args().lift:
        lift()
    for talks in SETS:
        print(f"{talks}\n{report(talks)[0]}")
    failures = [failure for talks in SETS for failure in under(talks)]
    print("\n".join(failures) or "No row is under its floor.")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())

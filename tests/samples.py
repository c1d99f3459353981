"""The plans that stand beside the samples.

    python tests/samples.py [--write]

Without ``--write``, names the plans that are not what the program makes now; status 1 if any.
"""

import sys
from pathlib import Path

from cuewright.files import write
from cuewright.flow import read_plan
from cuewright.render import FORMS

SAMPLES = Path(__file__).parents[1] / "samples"


def talks() -> list[Path]:
    """The source of each sample."""
    return sorted(SAMPLES.glob("*/talk.*"))


def plan_file(talk: Path) -> Path:
    """Where the plan of ``talk`` stands."""
    return talk.with_name("plan.json")


def expected(talk: Path) -> str:
    """The plan of ``talk`` as the program writes it now."""
    return FORMS["json"].page(read_plan(talk))


def is_current(talk: Path) -> bool:
    """Whether the plan that stands there is the one made now."""
    path = plan_file(talk)
    return path.is_file() and path.read_text("utf-8") == expected(talk)


def main() -> int:
    if "--write" in sys.argv[1:]:
        for talk in talks():
            write(plan_file(talk), expected(talk))
    stale = [str(plan_file(talk)) for talk in talks() if not is_current(talk)]
    print("\n".join(stale) or "Every sample's plan is current.")
    return 1 if stale else 0


if __name__ == "__main__":
    sys.exit(main())

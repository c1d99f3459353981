"""The outputs that README.md shows, as the commands above them print them now.

    python tests/readme.py            status 1 if one is not current
    python tests/readme.py --write    renew them
    python tests/readme.py --time     renew them and the timings, which take a minute

A block is ``<!-- run: COMMAND -->`` (or ``measured:`` for timings, which differ from run to
run and are never compared) before a fenced block; ``| head -N`` keeps the first N lines.
"""

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

from cuewright.files import write

ROOT = Path(__file__).parents[1]
README = ROOT / "README.md"
BLOCK = re.compile(
    r"(?P<mark><!-- (?P<kind>run|measured): (?P<command>.+?) -->\n\n```text\n)"
    r"(?P<shown>.*?)(?=```\n)",
    re.DOTALL,
)


def output(command: str) -> str:
    """What ``command`` prints, its command line before it."""
    call, _, most = command.partition(" | head -")
    program, *args = shlex.split(call)
    start = {"cuewright": ["-c", "from cuewright.cli import main; main()"], "python": []}[program]
    here = {"PYTHONPATH": os.pathsep.join(("pipeline", "models")), "XDG_CONFIG_HOME": os.devnull}
    env = os.environ | here
    call = [sys.executable, *start, *args]
    done = subprocess.run(call, cwd=ROOT, env=env, capture_output=True, encoding="utf-8")
    if done.returncode not in (0, 1):
        raise RuntimeError(f"{command} failed: {done.stderr}")
    lines = (done.stdout + done.stderr).rstrip().splitlines()
    return "\n".join([f"$ {command}", *lines[: int(most) if most else None], ""])


def renewed(text: str, *kinds: str) -> str:
    """``text`` with the blocks of these kinds as they are now."""

    def block(match: re.Match[str]) -> str:
        return match["mark"] + (
            output(match["command"]) if match["kind"] in kinds else match["shown"]
        )

    return BLOCK.sub(block, text)


def main() -> int:
    text = README.read_text("utf-8")
    asked = set(sys.argv[1:])
    kinds = ("run", "measured") if "--time" in asked else ("run",)
    now = renewed(text, *kinds)
    if asked & {"--write", "--time"}:
        write(README, now)
    elif now != text:
        print("README.md shows what is no longer printed; run python tests/readme.py --write")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())

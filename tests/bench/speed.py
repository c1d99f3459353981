"""How long the command takes, and how time and memory grow with the talk.

    python tests/bench/speed.py

The talk is a shipped sample, its words said over and over until there are as many as the
row names, as captions of twelve words every five seconds. Each row of the last table is
a process of its own; memory is the most that it held (peak resident size).
"""

import resource
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from itertools import cycle, islice
from multiprocessing import get_context
from pathlib import Path
from time import perf_counter
from typing import Any

from cuewright.check import check
from cuewright.divide import divide
from cuewright.estimate import estimate
from cuewright.flow import compare
from cuewright.hear import read
from cuewright.normalise import normalise
from cuewright.parse import parse

SAMPLE = Path(__file__).parents[2] / "samples/low-water/talk.vtt"
POST = Path(__file__).parents[1] / "talks/a-low-water.description.md"
SAID = POST.with_name("a-low-water.vtt")
ONE_TALK = 1_100
SIZES = (1_000, 2_000, 5_000, 10_000, 20_000, 50_000, 100_000)
CUE_WORDS, CUE_S = 12, 5
STAGES = ("hear", "normalise", "divide", "parse", "estimate", "check")
MAXRSS_IN_MIB = 1024 * 1024 if sys.platform == "darwin" else 1024  # bytes there, KiB elsewhere


def captions(words: int) -> str:
    """A talk of so many words as WebVTT."""
    said = list(islice(cycle(word.text for word in read(SAMPLE).words), words))
    cues = [said[first : first + CUE_WORDS] for first in range(0, words, CUE_WORDS)]
    lines = (
        f"{_clock(n * CUE_S)} --> {_clock((n + 1) * CUE_S)}\n{' '.join(cue)}\n"
        for n, cue in enumerate(cues)
    )
    return "WEBVTT\n\n" + "\n".join(lines)


def _clock(seconds: int) -> str:
    minutes, rest = divmod(seconds, 60)
    return f"{minutes // 60:02}:{minutes % 60:02}:{rest:02}.000"


def stages(talk: Path) -> dict[str, float]:
    """Seconds of each stage on one reading of ``talk``."""
    took: dict[str, float] = {}

    def timed(stage: str, work: Callable[[], Any]) -> Any:
        start = perf_counter()
        done = work()
        took[stage] = perf_counter() - start
        return done

    heard = timed("hear", lambda: read(talk))
    reading = timed("normalise", lambda: normalise(heard))
    divided = timed("divide", lambda: divide(reading))
    plan = timed("parse", lambda: parse(heard, divided))
    times = timed("estimate", lambda: estimate(plan))
    timed("check", lambda: check(plan.model_copy(update={"estimate": times})))
    return took


def grown(talk: Path) -> tuple[dict[str, float], float]:
    """The stages' seconds once tables are loaded, and the process's peak memory in MiB."""
    stages(SAMPLE)
    took = stages(talk)
    return took, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / MAXRSS_IN_MIB


def process_ms(times: int, *args: object) -> str:
    """Median and range of the whole command, in milliseconds."""
    call = [sys.executable, "-c", "from cuewright.cli import main; main()", *map(str, args)]
    took = []
    for _ in range(times):
        start = perf_counter()
        subprocess.run(call, check=True, stdout=subprocess.DEVNULL)
        took.append(1000 * (perf_counter() - start))
    return f"{statistics.median(took):7.0f} ms ({min(took):.0f} to {max(took):.0f}, {times} runs)"


def warm(talk: Path, times: int = 15) -> str:
    """Median of a reading in this process, with and without the time model."""
    stages(talk)
    runs = [stages(talk) for _ in range(times)]
    whole = statistics.median(sum(run.values()) for run in runs)
    bare = statistics.median(sum(run.values()) - run["estimate"] for run in runs)
    return f"{1000 * bare:7.1f} ms without the estimate, {1000 * whole:.1f} ms with it"


def beside(times: int = 15) -> str:
    """Median of a comparison in this process, of a description that is true."""
    compare(SAID, POST)
    took = []
    for _ in range(times):
        start = perf_counter()
        compare(SAID, POST)
        took.append(1000 * (perf_counter() - start))
    return f"{statistics.median(took):7.1f} ms"


def growth(folder: Path) -> None:
    """The table of seconds and memory by length."""
    print(f"\n{'words':>8}" + "".join(f"{stage:>11}" for stage in (*STAGES, "all, s", "peak MiB")))
    for words in SIZES:
        talk = folder / f"{words}.vtt"
        talk.write_text(captions(words), "utf-8")
        with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
            took, peak = pool.submit(grown, talk).result()
        cells = "".join(f"{took[stage]:11.3f}" for stage in STAGES)
        print(f"{words:8,}{cells}{sum(took.values()):11.3f}{peak:11.0f}", flush=True)


def main() -> None:
    with tempfile.TemporaryDirectory() as made:
        talk = Path(made) / "talk.vtt"
        talk.write_text(captions(ONE_TALK), "utf-8")
        print(f"cuewright --help, whole process            {process_ms(15, '--help')}")
        print(f"{ONE_TALK:,} words, whole process              {process_ms(7, 'plan', talk)}")
        print(f"{ONE_TALK:,} words, warm in one process        {warm(talk)}")
        print(f"a talk and its description, warm           {beside()}")
        growth(Path(made))


if __name__ == "__main__":
    main()

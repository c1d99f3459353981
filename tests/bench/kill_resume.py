"""Listening killed at random moments and begun again: the same words, nothing heard twice.

    python tests/bench/kill_resume.py [--times 20] [--seconds N] [--seed 1]

A trial is a process that listens to the synthetic talk (its first N seconds, all of it
otherwise) and is ended by SIGKILL at a moment drawn from the time that it needs undisturbed;
it is begun again with the same folders until it comes to its end. Printed are the moment of
the kill, how many windows were kept by then, how many were begun twice, and whether the words
are those of a run that nobody disturbed. Status 1 when one trial is not as it should be.
"""

import argparse
import json
import random
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import perf_counter
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).parents[1]))
import recordings

from cuewright.hear import hear
from cuewright.hear.recording.recognise import Recogniser
from cuewright.hear.recording.speech import Window


class Trial(NamedTuple):
    """What came of one: words with times, the windows begun by each of its processes."""

    words: list[list[object]]
    begun: list[list[int]]


def trial(recording: Path, folder: Path, kills: list[float]) -> Trial:
    """Listen with a process killed after each number of seconds in turn, then to the end."""
    begun = []
    for number, limit in enumerate([*kills, None]):
        log = folder / f"begun-{number}"
        ended = _run(recording, folder, log, limit)
        begun.append([int(line) for line in log.read_text("utf-8").split()] if log.exists() else [])
        if ended:
            break
    return Trial(json.loads((folder / "words").read_text("utf-8")), begun)


def twice(begun: list[list[int]]) -> list[int]:
    """Windows begun again that were not the one in flight when a process was killed."""
    counted = Counter(start for process in begun for start in process)
    in_flight = Counter(process[-1] for process in begun[:-1] if process)
    return [start for start, count in counted.items() if count - in_flight[start] > 1]


def _run(recording: Path, folder: Path, log: Path, limit: float | None) -> bool:
    """Whether the process came to its end before it was killed."""
    child = subprocess.Popen(
        [sys.executable, __file__, "--listen", str(recording), str(folder / "words"), str(log)],
        env=recordings.environment(folder),
    )
    try:
        status = child.wait(limit)
    except subprocess.TimeoutExpired:
        child.kill()  # SIGKILL: nothing can be tidied up
        child.wait()
        return False
    if status:
        raise SystemExit("The listening process failed.")
    return True


def listen(recording: Path, words: Path, log: Path) -> None:
    """The process that may be killed: note every window that is begun, and the words at last."""
    with _noted(log):
        heard = hear(recording, recordings.LISTENING)
    told = [list(word) for piece in heard.pieces for word in piece.words]
    words.write_text(json.dumps(told), "utf-8")


@contextmanager
def _noted(log: Path) -> Iterator[None]:
    plain = Recogniser.hear

    def noting(self: Recogniser, window: Window):
        with log.open("a", encoding="utf-8") as out:
            out.write(f"{window.start}\n")
        return plain(self, window)

    Recogniser.hear = noting
    try:
        yield
    finally:
        Recogniser.hear = plain


def main() -> int:
    """Undisturbed once, then the trials."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--times", type=int, default=20)
    asked.add_argument("--seconds", type=float)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--listen", nargs=3, type=Path, help=argparse.SUPPRESS)
    args = asked.parse_args()
    if args.listen:
        listen(*args.listen)
        return 0
    with tempfile.TemporaryDirectory() as folder:
        return _trials(Path(folder), args.times, args.seconds, random.Random(args.seed))


def _trials(folder: Path, times: int, seconds: float | None, draw: random.Random) -> int:
    recording = recordings.TALK
    if seconds is not None:
        part = recordings.sound()[: round(seconds * recordings.RATE)]
        recording = recordings.write(folder / "talk.wav", part)
    (folder / "whole").mkdir()
    since = perf_counter()
    whole = trial(recording, folder / "whole", [])
    took = perf_counter() - since
    print(f"undisturbed: {took:.1f} s, {len(whole.begun[0])} windows, {len(whole.words)} words")
    bad = 0
    for number in range(1, times + 1):
        (folder / str(number)).mkdir()
        limit = draw.uniform(0, took)
        done = trial(recording, folder / str(number), [limit])
        again, same = twice(done.begun), done.words == whole.words
        bad += bool(again) or not same
        print(
            f"{number:>3}  killed after {limit:5.1f} s  begun {len(done.begun[0]):>2}, then "
            f"{sum(map(len, done.begun[1:])):>2}  twice {len(again)}  "
            f"{'same words' if same else 'OTHER WORDS'}",
            flush=True,
        )
    print(f"{times - bad} of {times} as it should be")
    return int(bad > 0)


if __name__ == "__main__":
    sys.exit(main())

"""What listening costs over calling the recogniser's library directly, and how memory grows.

    python tests/bench/listening.py [--pairs 5] [--hours 2] [--only overhead|memory|batched]

Overhead: the synthetic talk (4:52), each time in a process of its own, in turn by the library
alone (the same model, options and voice filter, the whole file at once, words gathered) and by
``hear`` keeping nothing. Loading is left out of both. Memory: the most that a process holds
(peak resident size) for five minutes and for hours of the talk said over and over with noise
and pauses between. Batched: the library's pipeline over several windows at once against one
by one, on the same windows.
"""

import argparse
import json
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter, process_time

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1]))
import recordings
from recordings import RATE, Samples


def directly(recording: str) -> int:
    """The library alone; how many words."""
    from cuewright.hear.recording.recognise import SAME_ALWAYS
    from cuewright.hear.recording.speech import _VOICE

    segments, _ = _model().transcribe(
        recording, language="en", vad_filter=True, vad_parameters=_VOICE, **SAME_ALWAYS
    )
    return sum(len(segment.words or ()) for segment in segments)


def ours(recording: str) -> int:
    """The same by ``hear``; its model is loaded beforehand, as that of ``directly``."""
    from cuewright.hear import hear
    from cuewright.hear.recording import recognise

    loaded = _model()
    recognise._loaded = lambda *_: loaded
    return sum(len(piece.words) for piece in hear(recording, recordings.UNKEPT).pieces)


def plainly(recording: str) -> int:
    """``hear`` as it is."""
    from cuewright.hear import hear

    return sum(len(piece.words) for piece in hear(recording, recordings.UNKEPT).pieces)


def batched(recording: str, size: int = 8) -> int:
    """Windows as ours, several at once by the library's own pipeline."""
    from faster_whisper import BatchedInferencePipeline

    from cuewright.hear.recording import media, speech

    path = Path(recording)
    found = list(speech.windows(media.Sound(path, media.probe(path))))
    clips, at = [], 0
    for window in found:
        clips.append({"start": at / RATE, "end": (at + len(window.sound)) / RATE})
        at += len(window.sound)
    segments, _ = BatchedInferencePipeline(_model()).transcribe(
        np.concatenate([window.sound for window in found]),
        language="en",
        clip_timestamps=clips,
        beam_size=5,
        word_timestamps=True,
        batch_size=size,
    )
    return sum(len(segment.words or ()) for segment in segments)


WAYS: dict[str, Callable[[str], int]] = {
    "directly": directly,
    "ours": ours,
    "plainly": plainly,
    "batched": batched,
}
_LOADED: list[object] = []


def _model():  # type: ignore[no-untyped-def]
    from faster_whisper import WhisperModel

    if not _LOADED:
        _LOADED.append(
            WhisperModel(
                str(recordings.MODEL), device="cpu", compute_type="int8", local_files_only=True
            )
        )
    return _LOADED[0]


def measure(way: str, recording: str) -> dict[str, float]:
    """One listening in this process."""
    from faster_whisper import WhisperModel
    from faster_whisper.vad import get_vad_model

    counted = []
    encode = WhisperModel.encode

    def counting(model, features):  # type: ignore[no-untyped-def]
        counted.append(features.shape[0] if features.ndim == 3 else 1)
        return encode(model, features)

    WhisperModel.encode = counting
    if way != "plainly":
        _model()
        get_vad_model()
    wall, cpu = perf_counter(), process_time()
    words = WAYS[way](recording)
    return {
        "wall": perf_counter() - wall,
        "cpu": process_time() - cpu,
        "encodes": sum(counted),
        "words": words,
        "mib": recordings.most_held(),
    }


def apart(way: str, recording: Path, folder: Path) -> dict[str, float]:
    """The same in a process of its own."""
    done = subprocess.run(
        [sys.executable, __file__, "--measure", way, str(recording)],
        env=recordings.environment(folder),
        capture_output=True,
        text=True,
        check=True,
    )
    return json.loads(done.stdout)


def compare(one: str, other: str, pairs: int, folder: Path) -> None:
    """Both in turn, each first every other time; medians and their quotient."""
    rows: dict[str, list[dict[str, float]]] = {one: [], other: []}
    for number in range(pairs):
        for way in (one, other) if number % 2 else (other, one):
            rows[way].append(apart(way, recordings.TALK, folder))
    print(f"{'':10} {'wall s':>8} {'cpu s':>8} {'encodes':>8} {'words':>6} {'MiB':>6}")
    for way, each in rows.items():
        wall, cpu, encodes, words, mib = (
            median(row[key] for row in each) for key in ("wall", "cpu", "encodes", "words", "mib")
        )
        print(f"{way:10} {wall:8.2f} {cpu:8.2f} {encodes:8.0f} {words:6.0f} {mib:6.0f}")
    for key in ("wall", "cpu"):
        ratio = median(b[key] / a[key] for a, b in zip(rows[one], rows[other], strict=True))
        print(f"{other} over {one}, {key}, median of {pairs} pairs: {100 * (ratio - 1):+.1f} %")


def long_sound(seconds: float) -> Samples:
    """The talk over and over, with noise in which nobody speaks, and pauses, between."""
    drawn = np.random.default_rng(11)
    talk = recordings.sound()
    noise = (drawn.standard_normal(40 * RATE) * 0.05).astype(np.float32)
    once = recordings.joined([talk, noise, recordings.silence(20)])
    return np.resize(once, round(seconds * RATE))


def memory(hours: float, folder: Path) -> None:
    """Peak memory of five minutes and of hours."""
    for seconds in (300.0, hours * 3600):
        path = recordings.write(folder / f"{seconds:.0f}.flac", long_sound(seconds), codec="flac")
        row = apart("plainly", path, folder)
        print(
            f"{seconds / 60:6.0f} min  {row['mib']:6.0f} MiB  {row['wall']:7.1f} s  "
            f"{row['words']:7.0f} words",
            flush=True,
        )


def main() -> None:
    """All tables, or one."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--pairs", type=int, default=5)
    asked.add_argument("--hours", type=float, default=2.0)
    asked.add_argument("--only", choices=("overhead", "memory", "batched"))
    asked.add_argument("--measure", nargs=2, help=argparse.SUPPRESS)
    args = asked.parse_args()
    if args.measure:
        print(json.dumps(measure(*args.measure)))
        return
    with tempfile.TemporaryDirectory() as folder:
        if args.only in (None, "overhead"):
            compare("directly", "ours", args.pairs, Path(folder))
        if args.only in (None, "batched"):
            compare("ours", "batched", args.pairs, Path(folder))
        if args.only in (None, "memory"):
            memory(args.hours, Path(folder))


if __name__ == "__main__":
    main()

"""Whether words of the trade help the recogniser: word errors and movements' names heard.

    python tests/bench/vocabulary.py MODEL [RECORDING ...]

Six talks of ``vocabulary.toml`` are read out by espeak-ng and heard without hints, with
``hints()`` as hotwords, and with them as the text before. Each RECORDING has its text beside
it, as NAME.txt. Errors are insertions, deletions and swaps in 100 words said; numbers are
compared as words. A name counts as heard when all its words stand there in a row.
"""

import re
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from num2words import num2words
from rapidfuzz.distance import Levenshtein

from cuewright.hear import hear
from cuewright.hear.recording import recognise
from cuewright.hear.recording.options import Listening
from cuewright.hear.recording.vocabulary import hints
from cuewright.movements.catalogue import catalogue
from cuewright.phrases import stem

TALKS = Path(__file__).with_suffix(".toml")
WAYS = ("none", "hotwords", "text before")


class Score(NamedTuple):
    """Words said and wrong, names said and heard."""

    said: int
    wrong: int
    names: int
    heard: int

    def __str__(self) -> str:
        return f"{100 * self.wrong / self.said:5.1f} %  {self.heard:3} of {self.names}"


def words(text: str) -> list[str]:
    """Words in small letters, numbers as words, hyphens as spaces."""
    plain = re.sub(r"\d+", lambda number: f" {num2words(int(number[0]))} ", text.lower())
    return re.findall(r"[a-z']+", plain.replace("-", " ").replace("metre", "meter"))


def score(said: str, heard: str) -> Score:
    """What was said against what was heard."""
    wanted, got = words(said), words(heard)
    names = list(_names(wanted))
    there = list(_names(got))
    right = sum(min(names.count(name), there.count(name)) for name in set(names))
    return Score(len(wanted), Levenshtein.distance(wanted, got), len(names), right)


def _names(talk: list[str]) -> Iterator[tuple[str, ...]]:
    """The movements named in a talk, the longest at each place."""
    known = {
        tuple(stem(word) for word in words(name))
        for row in catalogue().values()
        for name in (row.name, *row.said)
    }
    stems = [stem(word) for word in talk]
    at = 0
    while at < len(stems):
        found = (n for n in range(6, 0, -1) if tuple(stems[at : at + n]) in known)
        length = next(found, 0)
        if length:
            yield tuple(stems[at : at + length])
        at += length or 1


@contextmanager
def listening(model: str, way: str) -> Iterator[Listening]:
    """Options for one way to give hints; nothing is kept."""
    usual = dict(recognise.SAME_ALWAYS)
    if way == "text before":
        recognise.SAME_ALWAYS["initial_prompt"] = hints()
    try:
        yield Listening(
            model=model,
            language="en",
            hints=hints() if way == "hotwords" else None,
            keep=False,
        )
    finally:
        recognise.SAME_ALWAYS.clear()
        recognise.SAME_ALWAYS.update(usual)


def recordings(folder: Path, given: list[str]) -> Iterator[tuple[str, Path, str]]:
    """Name, sound and text of each talk."""
    for path in map(Path, given):
        yield path.stem, path, path.with_suffix(".txt").read_text("utf-8")
    for name, talk in tomllib.loads(TALKS.read_text("utf-8")).items():
        sound = folder / f"{name}.wav"
        voice = ["-v", talk["voice"], "-s", str(talk["speed"])]
        subprocess.run(["espeak-ng", *voice, "-w", sound, talk["text"]], check=True)
        yield name, sound, talk["text"]


def main(model: str, *given: str) -> None:
    total = dict.fromkeys(WAYS, Score(0, 0, 0, 0))
    print(f"{len(hints().split(', '))} hints: {hints()}\n")
    print(f"{'':14}" + "".join(f"{way:22}" for way in WAYS))
    with tempfile.TemporaryDirectory() as folder:
        for name, sound, text in recordings(Path(folder), list(given)):
            row = {}
            for way in WAYS:
                with listening(model, way) as options:
                    heard = hear(sound, options)
                row[way] = score(text, " ".join(piece.text for piece in heard.pieces))
                total[way] = Score(*map(sum, zip(total[way], row[way], strict=True)))
            print(f"{name:14}" + "".join(f"{row[way]!s:22}" for way in WAYS), flush=True)
    print(f"{'all':14}" + "".join(f"{total[way]!s:22}" for way in WAYS))


if __name__ == "__main__":
    main(*sys.argv[1:])

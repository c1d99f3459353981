"""Plans from recordings beside the plans of the texts that were read out in them.

    python tests/accuracy/heard.py [--write] [--show N] [TALK ...]

Every talk below is spoken by espeak-ng, which must be installed, listened to with the small
recogniser that the tests have, and made into a plan; so is its text. The table tells for
each the word error rate and the F1 of the efforts, where the plan of the text counts as true.
``--write`` puts it into HEARD.md. Exit status 1 when a talk whose words are right to 5 % has
an F1 under 0.90, or fewer than six talks are heard so well.
"""

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import islice
from pathlib import Path
from typing import Any, NamedTuple

from cuewright import hear
from cuewright.divide.clauses import punctuated
from cuewright.flow import plan_of
from cuewright.hear.recording.options import Listening
from cuewright.normalise import normalise
from cuewright_models.plan import Plan
from cuewright_models.transcript import DOUBTFUL, Transcript

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE))
from score import facts  # noqa: E402  (a script of its own, kept as it came)
from word_errors import rate, wrong_words  # noqa: E402

MODEL = Path(
    os.environ.get("CUEWRIGHT_TEST_MODEL") or HERE.parent / "hear" / "recording" / "asr" / "model"
)
OWN, OTHERS = HERE / "heard", HERE.parent / "talks"
VOICES = ("en-gb", "en-us", "en-gb-scotland", "en-gb+m3", "en-us+f2", "en-gb+f2")
SPEEDS = (140, 150, 160, 165, 145, 155)
"""Words a minute."""
WELL, BAR, FEWEST = 0.05, 0.90, 6
TURNS = 2
"""Voices for each of our own talks."""
THRESHOLDS = (0.5, 0.6, 0.7, 0.8, 0.9)


class Spoken(NamedTuple):
    """A talk, and who reads it out how fast."""

    talk: str
    text: str
    voice: str
    speed: int


class Row(NamedTuple):
    """One talk: ``errors`` is the word error rate, ``f1`` that of the efforts."""

    talk: str
    voice: str
    minutes: float
    errors: float
    f1: float
    efforts: int
    words: tuple[tuple[float, bool], ...]
    """Each word's probability, and whether it is wrong."""


def spoken() -> Iterator[Spoken]:
    """Our own talks in several voices; then those of the other tests with punctuation, in one."""
    own = {path.stem: text_of(hear.read(path)) for path in sorted(OWN.glob("*.txt"))}
    talks = [(name, text) for _ in range(TURNS) for name, text in own.items()]
    for nth, (name, text) in enumerate((*talks, *_others())):
        at = nth + nth // len(VOICES)  # another speed each time round
        yield Spoken(name, text, VOICES[nth % len(VOICES)], SPEEDS[at % len(SPEEDS)])


def _others() -> Iterator[tuple[str, str]]:
    for gold in sorted(OTHERS.glob("*.gold.json")):
        name = gold.name.removesuffix(".gold.json")
        paths = OTHERS.glob(f"{name}.*")
        heard = hear.read(next(p for p in paths if p.suffix != ".md" and p != gold))
        if punctuated(normalise(heard).tokens):
            yield name, text_of(heard)


def text_of(heard: Transcript) -> str:
    """The words in one line, as they are read out."""
    return " ".join(word.text for word in heard.words)


def speak(text: str, voice: str, speed: int, out: Path) -> None:
    """The text as a WAV file."""
    call = ["espeak-ng", "-v", voice, "-s", str(speed), "-w", str(out), "--stdin"]
    subprocess.run(call, input=text, text=True, check=True)


def compare(one: Spoken, folder: Path, show: int = 0) -> Row:
    """One talk spoken, heard and compared."""
    recording = folder / f"{one.talk}.wav"
    speak(one.text, one.voice, one.speed, recording)
    return heard_as(one, recording, folder, show)


def heard_as(one: Spoken, recording: Path, folder: Path, show: int = 0) -> Row:
    """A talk and its recording compared; up to ``show`` wrong facts are printed."""
    written = folder / f"{one.talk}.txt"
    written.write_text(one.text, "utf-8")
    heard = hear.read(recording, listening=Listening(model=str(MODEL), language="en", keep=False))
    got, true = (efforts(plan_of(each)) for each in (heard, hear.read(written)))
    for sign, wrong_facts in (("-", true - got), ("+", got - true)):
        for fact in list(wrong_facts.elements())[:show]:
            print(f"{one.talk} {sign} {fact}")
    wrong = wrong_words(one.text, [word.text for word in heard.words])
    return Row(
        talk=one.talk,
        voice=f"{one.voice}, {one.speed}",
        minutes=(heard.duration_s or 0) / 60,
        errors=rate(one.text, text_of(heard)),
        f1=f1(got, true),
        efforts=true.total(),
        words=tuple((word.confidence or 0, at in wrong) for at, word in enumerate(heard.words)),
    )


def efforts(plan: Plan) -> "Counter[Any]":
    """The facts of the efforts as score.py has them."""
    made = plan.model_dump(mode="json")
    found: Counter[Any] = facts(made, {"blocks": []})["efforts"]
    return found


def f1(got: "Counter[Any]", true: "Counter[Any]") -> float:
    """F1 of facts that may be there more than once."""
    all_of_them = got.total() + true.total()
    return 2 * (got & true).total() / all_of_them if all_of_them else 1.0


def table(rows: Sequence[Row]) -> Iterator[str]:
    """The rows as a Markdown table, the best heard first."""
    yield "| talk | voice, words a minute | minutes | word errors | efforts F1 | efforts |"
    yield "|---|---|---|---|---|---|"
    for row in sorted(rows, key=lambda row: row.errors):
        yield (
            f"| {row.talk} | {row.voice} | {row.minutes:.1f} | {row.errors:.1%} "
            f"| {row.f1:.3f} | {row.efforts} |"
        )


def doubt(rows: Sequence[Row]) -> Iterator[str]:
    """How many right and wrong words are doubted under each threshold, as a Markdown table."""
    right = [sure for row in rows for sure, wrong in row.words if not wrong]
    wrong = [sure for row in rows for sure, wrong in row.words if wrong]
    yield "| threshold | right words marked | wrong words marked | of the marked, wrong |"
    yield "|---|---|---|---|"
    for threshold in THRESHOLDS:
        false, true = (sum(sure < threshold for sure in sures) for sures in (right, wrong))
        yield (
            f"| {threshold}{' (in use)' if threshold == DOUBTFUL else ''} "
            f"| {false / max(len(right), 1):.1%} | {true / max(len(wrong), 1):.1%} "
            f"| {true / max(false + true, 1):.0%} |"
        )


def failures(rows: Sequence[Row]) -> Iterator[str]:
    """A sentence for each thing that is not as it must be."""
    well = [row for row in rows if row.errors <= WELL]
    if len(well) < FEWEST:
        yield f"Only {len(well)} talks were heard with at most {WELL:.0%} of the words wrong."
    for row in well:
        if row.f1 < BAR:
            yield f"{row.talk}: F1 of the efforts is {row.f1:.3f} at {row.errors:.1%} wrong words."


HEADING = """\
# Plans from recordings

Each talk spoken by espeak-ng, listened to with the small recogniser of the tests, and its plan
compared with the plan of the text that was read out. Synthetic voices only: this shows what
is lost between a right word and the plan, not how well people are understood. The talks in
`tests/accuracy/heard/` keep to words that this recogniser was taught; those of `tests/talks/`
do not, and stand here all the same, except those that are written without punctuation, which
nobody could read out.

    python tests/accuracy/heard.py --write

"""


DOUBTS = """\
Words by the recogniser's own probability: how many would be marked as doubtful.
"""


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--quick", action="store_true", help="each of our own talks in one voice")
    parser.add_argument("--show", type=int, default=0, help="print up to N wrong facts a talk")
    parser.add_argument("talks", nargs="*")
    given = parser.parse_args()
    if shutil.which("espeak-ng") is None:
        print("espeak-ng is not installed, and nothing can be spoken without it.", file=sys.stderr)
        return 2
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        for one in islice(spoken(), len(list(OWN.glob("*.txt"))) if given.quick else None):
            if not given.talks or one.talk in given.talks:
                rows.append(compare(one, Path(folder), given.show))
                print(f"{one.talk}, {rows[-1].voice}", file=sys.stderr)
    lines = "\n".join((*table(rows), "", DOUBTS, *doubt(rows))) + "\n"
    print(lines)
    if given.write:
        (HERE / "HEARD.md").write_text(HEADING + lines, "utf-8")
    failed = [] if given.talks else list(failures(rows))
    print("\n".join(failed), file=sys.stderr)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())

"""Every stretch of words can be quoted: it stands word for word in the file."""

import importlib.util
import random
from pathlib import Path

import pytest

from cuewright.hear import read

TESTS = Path(__file__).parents[1]
TALKS = [
    path
    for path in sorted((TESTS / "corpus").iterdir())
    if path.suffix in (".vtt", ".srt", ".txt", ".json") and not path.name.endswith(".gold.json")
]

_spec = importlib.util.spec_from_file_location("score", TESTS / "accuracy" / "score.py")
assert _spec
assert _spec.loader
score = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(score)


@pytest.mark.parametrize("path", TALKS, ids=lambda path: path.name)
def test_any_quote_stands_in_the_file(path: Path) -> None:
    talk = read(path)
    chance = random.Random(path.name)
    firsts = [chance.randrange(len(talk.words)) for _ in range(300)]
    said = [talk.quote(a, a + chance.randint(1, 30)).model_dump() for a in firsts]
    said.append(talk.quote(0, len(talk.words)).model_dump())
    good, total = score.provenance({"said": said}, path)
    assert good == total == 301


@pytest.mark.parametrize("path", TALKS, ids=lambda path: path.name)
def test_times_rise_and_nothing_is_missing(path: Path) -> None:
    talk = read(path)
    assert len(talk.words) > 600
    assert not talk.warnings
    times = [time for word in talk.words for time in (word.start_s, word.end_s)]
    assert times == sorted(times)
    assert max(times) <= (talk.duration_s or times[-1])

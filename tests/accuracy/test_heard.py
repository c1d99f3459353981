"""Plans from recordings, of which `python tests/accuracy/heard.py` measures many.

The recordings were spoken by espeak-ng, voices en-gb-scotland and en-us, from the texts beside
them, and are kept so that the tests need no synthesiser.
"""

from pathlib import Path

import pytest
from accuracy.heard import BAR, OWN, WELL, Row, failures, heard_as, spoken
from accuracy.word_errors import plain, rate, wrong_words

RECORDINGS = sorted(OWN.glob("*.opus"))


@pytest.mark.parametrize("recording", RECORDINGS, ids=lambda path: path.stem)
def test_the_plan_of_a_recording_is_that_of_its_text(recording: Path, tmp_path: Path) -> None:
    one = next(one for one in spoken() if one.talk == recording.stem)
    row = heard_as(one, recording, tmp_path)
    assert row.errors <= WELL
    assert row.f1 >= BAR
    assert row.efforts > 10


def test_there_are_recordings_and_more_texts() -> None:
    own = {one.talk for one in spoken() if (OWN / f"{one.talk}.txt").exists()}
    assert len(RECORDINGS) == 2
    assert len(own) >= 8
    assert {path.stem for path in RECORDINGS} < own


def test_a_talk_of_right_words_and_a_wrong_plan_is_told() -> None:
    def row(errors: float, f1: float) -> Row:
        return Row("talk", "en", 1, errors, f1, 10, ())

    good = [row(0.0, 1.0)] * 6
    assert not list(failures(good))
    assert not list(failures([*good, row(0.06, 0.1)]))
    assert len(list(failures([*good, row(0.05, 0.89)]))) == 1
    assert len(list(failures(good[1:]))) == 1


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Twenty-one push-ups, fifteen, nine.", "21 push ups 15 9"),
        ("a hundred and thirty metres and a mat", "130 meters and a mat"),
        ("2,000 m on the fourteenth at 2:30", "2000 m on the 14th at 2:30"),
        ("two thousand and five, one hundred and go", "2005 100 and go"),
        ("you\u2019re fifty percent in", "you're 50 % in"),
    ],
)
def test_numbers_and_spellings_are_written_one_way(text: str, expected: str) -> None:
    assert " ".join(plain(text)) == expected


@pytest.mark.parametrize(
    ("said", "heard", "errors"),
    [
        ("ten push-ups", "10 pushups", 0.0),
        ("row twenty metres now", "row 20 meters", 0.25),
        ("row ten", "tow ten", 0.5),
        ("row ten", "row ten again", 0.5),
        ("", "", 0.0),
    ],
)
def test_wrong_missing_and_further_words_count(said: str, heard: str, errors: float) -> None:
    assert rate(said, heard) == errors


def test_wrong_words_are_told_by_their_places() -> None:
    assert wrong_words("ten push-ups and rest", ["10", "bush-ups", "and", "rest"]) == {1}

"""The JSON of speech recognisers."""

import json

import pytest

WORDS = [
    {"word": " twenty", "start": 1.0, "end": 1.4, "probability": 0.9},
    {"word": "-one", "start": 1.4, "end": 1.8, "probability": 0.5},
    {"word": " squats", "start": 2.0, "end": 2.5, "probability": 0.8},
]
PLAIN = [{"text": w["word"].strip(), "start": w["start"], "confidence": 1} for w in WORDS]
SEGMENT = {"text": " twenty-one squats", "start": 1.0, "end": 2.5}


def heard(talk):
    return " ".join(word.text for word in talk.words)


@pytest.mark.parametrize(
    "shape",
    [
        {"language": "en", "segments": [{**SEGMENT, "words": WORDS}]},
        {"language": "en", "segments": [{"words": WORDS}]},
        {"language": "en", "words": WORDS},
        {"language": "en", "segments": [], "words": WORDS},
    ],
)
def test_words_with_times(hear, shape):
    talk = hear(json.dumps(shape))
    assert [tuple(word) for word in talk.words] == [
        ("twenty-one", 1.0, 1.8, 0.5),
        ("squats", 2.0, 2.5, 0.8),
    ]
    assert talk.language == "en"
    assert talk.kind == "captions"


@pytest.mark.parametrize(
    "shape", [{"segments": [SEGMENT]}, [SEGMENT], {"segments": [{**SEGMENT, "words": None}]}]
)
def test_segments_without_words(hear, shape):
    talk = hear(json.dumps(shape, indent=1))
    assert heard(talk) == "twenty-one squats"
    assert (talk.words[0].start_s, talk.words[1].end_s) == (1.0, 2.5)
    assert talk.words[0].confidence is None


def test_words_named_text(hear):
    talk = hear(json.dumps({"words": PLAIN}))
    assert [(w.text, w.start_s, w.confidence) for w in talk.words] == [
        ("twenty", 1.0, 1.0),
        ("-one", 1.4, 1.0),
        ("squats", 2.0, 1.0),
    ]


def test_the_text_of_a_segment_wins_over_its_words(hear):
    words = [{"word": "ten", "start": 1, "end": 2}, {"word": "rest", "start": 8, "end": 9}]
    segment = {"text": "ten squats, rest", "start": 1, "end": 9, "words": words}
    talk = hear(json.dumps([segment]))
    assert [(w.text, w.start_s) for w in talk.words][::2] == [("ten", 1.0), ("rest", 8.0)]
    assert 2.0 < talk.words[1].start_s < talk.words[1].end_s < 8.0


def test_speakers_of_segments_are_turns(hear):
    rows = [("A", "ten squats"), ("A", "and rest"), ("B", "how many")]
    segments = [
        {"speaker": s, "text": t, "start": i, "end": i + 1} for i, (s, t) in enumerate(rows)
    ]
    assert hear(json.dumps({"segments": segments})).turns == (4,)


def test_times_as_text_nothing_or_nonsense(hear):
    segments = [
        {"text": "ten", "start": "1.5", "end": "2.5"},
        {"text": "squats", "start": 3, "end": float("nan")},
    ]
    talk = hear(json.dumps({"segments": segments}))
    assert [w.start_s for w in talk.words] == [1.5, 3.0]
    segments[1]["start"] = -4
    talk = hear(json.dumps({"segments": segments}))
    assert [w.start_s for w in talk.words] == [1.5, 2.5]
    assert "no times" in talk.warnings[0]
    for segment in segments:
        segment.pop("start")
    assert {w.start_s for w in hear(json.dumps({"segments": segments})).words} == {None}

"""Sound tags, speaker tags and turns. The forms are common practice of captioning."""

import pytest


def captions(*cues):
    return "WEBVTT\n\n" + "\n\n".join(
        f"00:{i:02}.000 --> 00:{i + 1:02}.000\n{text}" for i, text in enumerate(cues)
    )


def heard(talk):
    return " ".join(word.text for word in talk.words)


@pytest.mark.parametrize(
    "sound",
    [
        "[music]", "[Music playing]", "(laughter)", "(crowd cheering)", "*applause*", "♪ la la ♪",
        "♪", "[upbeat\nmusic]", "[COACH]:",
    ],
)  # fmt: skip
def test_sound_tags_are_no_words(hear, sound):
    talk = hear(captions("ten squats", f"then {sound} rest"))
    assert heard(talk) == "ten squats then" + (" rest" if sound != "♪" else "")
    assert [tag.quote for tag in talk.tags] == [
        " ".join(sound.split()) if sound != "♪" else "♪ rest"
    ]
    assert 1.0 < talk.tags[0].start_s < talk.tags[0].end_s <= 2.0


@pytest.mark.parametrize(
    "words",
    ["(each side)", "(10 of these)", "*really* slow", "[10 reps]", "2 * 10 * 3", "rest (1:30)"],
)
def test_brackets_that_are_said(hear, words):
    assert heard(hear(captions("ten", words))) == f"ten {words}"


def test_dashes_and_chevrons_are_turns(hear):
    talk = hear(captions("ready for it", "- Are you?\n- We are.", ">> Then go >> yes", "-Stop."))
    assert heard(talk) == "ready for it Are you? We are. Then go yes Stop."
    assert talk.turns == (3, 5, 7, 9, 10)


def test_voices_are_turns_when_they_change(hear):
    talk = hear(captions("<v Bryony>ten squats", "<v Bryony>then rest", "<v Tarek>why rest</v>"))
    assert talk.turns == (4,)
    assert [tag.quote for tag in talk.tags] == ["Bryony", "Tarek"]


def test_speaker_names(hear):
    talk = hear(
        captions("COACH: ten squats", "BRYONY: how many", "COACH: ten", "Bryony: oh", "BRYONY: ok")
    )
    assert heard(talk) == "ten squats how many ten Bryony: oh ok"
    assert talk.turns == (2, 4, 7)
    assert [tag.quote for tag in talk.tags] == ["COACH:", "BRYONY:", "COACH:", "BRYONY:"]


@pytest.mark.parametrize(
    "words",
    [
        "Ball slams: reach up tall",
        "And the plank: squeeze",
        "Rest: one minute\nRest: two minutes",
        "Squats: ten\nSquats: more squats",
        "EMOM: ten\nEMOM: nine",
        "A: ten\nB: nine\nA: eight",
    ],
)
def test_headings_are_no_speakers(hear, words):
    talk = hear(captions("do ten squats", words))
    assert heard(talk) == f"do ten squats {' '.join(words.split())}"
    assert talk.turns == ()


def test_bullets_of_a_written_talk_are_no_turns(hear):
    talk = hear("Three rounds\n- ten squats\n- ten push-ups\n")
    assert heard(talk) == "Three rounds ten squats ten push-ups"
    assert (talk.breaks, talk.turns) == ((2, 4), ())


@pytest.mark.parametrize("name", ["SPEAKER_00", "Speaker B", "Man 2", "COACH"])
def test_roles_are_speakers_at_once(hear, name):
    talk = hear(captions("ten squats", f">> {name}: how many"))
    assert heard(talk) == "ten squats how many"
    assert talk.turns == (2,)

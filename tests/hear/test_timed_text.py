"""Plain text, timed and untimed."""

import pytest


def heard(talk):
    return " ".join(word.text for word in talk.words)


@pytest.mark.parametrize(
    ("first", "second", "third"),
    [
        ("[0:05]", "[1:10]", "[1:01:00]"),
        ("(0:05)", "(1:10)", "(61:00)"),
        ("0:05", "1:10", "1:01:00"),
        ("[00:05.00]", "[01:10.00]", "[61:00.00]"),
        ("0:05 -", "1:10 -", "1:01:00 -"),
        ("[0:05]:", "[1:10]:", "[61:00]:"),
    ],
)
def test_stamps_at_line_starts(hear, first, second, third):
    talk = hear(f"{first} ten squats\n\n{second} 1:30 rest then go\n\n{third}\nfinish")
    assert heard(talk) == "ten squats 1:30 rest then go finish"
    assert talk.kind == "text"
    starts = {word.text: word.start_s for word in talk.words}
    assert (starts["ten"], starts["1:30"], starts["finish"]) == (5.0, 70.0, 3660.0)
    assert talk.breaks == (2, 6) if "-" not in first else talk.breaks


def test_inline_stamps(hear):
    talk = hear("[0:00] ten squats then a rest of 1:30 and [0:10] again")
    assert heard(talk) == "ten squats then a rest of 1:30 and again"
    assert talk.words[-1].start_s == 10.0


def test_a_time_in_brackets_that_is_said(hear):
    talk = hear("(0:10) row easy\n(2:00) then rest (1:30) and row\n(3:00) and stop")
    assert heard(talk) == "row easy then rest (1:30) and row and stop"


def test_times_that_are_said_are_no_stamps(hear):
    talk = hear("Tonight we row.\nTwo rounds of this.\nEasy ones.\n1:30 rest\nand then\n2:00 plank")
    assert heard(talk).endswith("1:30 rest and then 2:00 plank")
    assert {word.start_s for word in talk.words} == {None}
    assert talk.breaks == (3, 7, 9, 11, 13)


def test_a_bare_time_that_does_not_rise_is_said(hear):
    talk = hear("0:00 right then\n\n2:00 ten squats and\n1:30 rest\n\n3:00 go")
    assert heard(talk) == "right then ten squats and 1:30 rest go"


def test_backward_stamps_are_told(hear):
    talk = hear("[0:00] one\n[5:00] two\n[0:20] three\n[0:40] four\n[1:00] five")
    assert heard(talk) == "one two three four five"
    times = [word.start_s for word in talk.words]
    assert times == sorted(times)
    assert "backwards" in talk.warnings[0]


def test_wrapped_lines_are_one_paragraph(hear):
    text = (
        "Three rounds tonight and each round is ten squats and\n"
        "then fifteen push-ups and after that you rest a minute\n"
        "before you go again.\n"
        "\n"
        "Then we stretch for as long as you like and after that\n"
        "we carry the boats in.\n"
    )
    talk = hear(text)
    assert [talk.words[i].text for i in talk.breaks] == ["Then"]


def test_pasted_caption_lines_are_no_paragraphs(hear):
    talk = hear("".join(f"0:{i:02}\nten squats and then\n" for i in range(0, 40, 4)))
    assert len(talk.words) == 40
    assert talk.words[4].start_s == 4.0
    assert talk.breaks == ()


def test_speaker_before_and_after_the_stamp(hear):
    talk = hear("[0:00] COACH: ten squats and a rest\n[0:30] ATHLETE: how many\nCOACH [0:40]: ten")
    assert heard(talk) == "ten squats and a rest how many ten"
    assert talk.turns == (5, 7)


def test_entities(hear):
    assert heard(hear("squats &amp; rest &lt; 1&nbsp;min, R&D &notanentity;")) == (
        "squats & rest < 1 min, R&D &notanentity;"
    )


def test_a_stamp_with_nothing_said_after_it(hear):
    talk = hear("[0:00] ten squats\n\n[0:10]\n\n[0:20] rest")
    assert [w.start_s for w in talk.words][::2] == [0.0, 20.0]

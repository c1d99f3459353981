"""WebVTT after https://www.w3.org/TR/webvtt1/ (sections named beside the checks) and SubRip."""

import random

import pysubs2
import pytest


def heard(talk):
    return " ".join(word.text for word in talk.words)


def test_webvtt_with_everything_the_format_allows(hear):
    # 4.1 file structure: BOM, header text, STYLE, REGION, NOTE; 4.2 identifiers, settings.
    talk = hear(
        "\ufeffWEBVTT - land training\nLanguage: en-GB\n\n"
        "STYLE\n::cue { color: lime }\n\n"
        "REGION\nid:fred\nwidth:40%\n\n"
        "NOTE three rounds, not four\nand more of the note\n\n"
        "intro part\n00:01.000 --> 00:03.000 align:start position:0%\n"
        "<v.loud Bryony>Ten <i.soft>squats</i> &amp; <b>rest</b>\n\n"
        "NOTE between\n\n"
        "7\n1:00:04.500\t-->\t1:00:06.000 line:0\n<lang en>push-ups &lt; 20</lang>\n"
    )
    assert heard(talk) == "Ten squats & rest push-ups < 20"
    assert talk.kind == "captions"
    assert talk.language == "en-GB"
    assert (talk.words[0].start_s, talk.words[3].end_s) == (1.0, 3.0)
    assert (talk.words[4].start_s, talk.duration_s) == (3604.5, 3606.0)
    assert [tag.quote for tag in talk.tags] == ["Bryony"]
    assert talk.warnings == ()


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r", "\r\r\n"])
def test_line_ends(hear, end):
    # 4.1: a line terminator is CRLF, LF or CR; \r\r\n is what some converters write.
    lines = ["WEBVTT", "", "00:01.000 --> 00:02.000", "ten", "squats", "", ""]
    assert heard(hear(end.join(lines))) == "ten squats"


def test_cue_without_blank_line_before_it(hear):
    # 6.1 parser: a line with "-->" inside a cue begins the next cue.
    talk = hear("WEBVTT\n00:01.000 --> 00:02.000\nten\n00:02.000 --> 00:03.000\nsquats")
    assert [(w.text, w.start_s) for w in talk.words] == [("ten", 1.0), ("squats", 2.0)]


def test_inline_times(hear):
    # 4.2.2: a cue timestamp gives the time from which the following text is active.
    talk = hear(
        "WEBVTT\n\n00:00:01.000 --> 00:00:04.000\n"
        "three<00:00:01.500><c> rounds</c><00:00:03.000><c> now</c>\n"
    )
    assert [(w.text, w.start_s) for w in talk.words] == [
        ("three", 1.0),
        ("rounds", 1.5),
        ("now", 3.0),
    ]
    assert talk.words[-1].end_s == 4.0


def test_words_get_times_by_length(hear):
    talk = hear("WEBVTT\n\n00:10.000 --> 00:20.000\nab abcdefg\n")
    assert [(w.start_s, w.end_s) for w in talk.words] == [(10.0, 12.0), (13.0, 20.0)]


def test_subrip_timing_form(hear):
    # hours:minutes:seconds,milliseconds --> …; dots, missing numbers and blank lines occur.
    talk = hear(
        "1\r\n00:00:01,000 --> 00:00:02,000\r\n<font color=red>ten</font> squats\r\n\r\n"
        "00:00:02.500 --> 00:00:03,500\r\n{\\an8}then a\r\n\r\nplank\r\n"
        "3\r\n0:00:04,000 --> 0:00:05,000 X1:40 X2:600\r\nrest\r\n"
        "00:00:06,000 --> 00:00:07,000\r\nthree\r\n2\r\n1\r\n\r\n"
        "5\r\n00:00:08,000 --> 00:00:09,000\r\ngo"
    )
    assert heard(talk) == "ten squats then a plank rest three 2 1 go"
    assert [w.start_s for w in talk.words if w.text in ("ten", "then", "rest", "three", "go")] == [
        1.0,
        2.5,
        4.0,
        6.0,
        8.0,
    ]


def test_a_number_that_is_said_stays(hear):
    talk = hear(
        "WEBVTT\n\n1\n00:01.000 --> 00:02.000\nthen\n10\n\n2\n00:02.000 --> 00:03.000\nburpees\n"
    )
    assert heard(talk) == "then 10 burpees"


def test_console_output_of_a_recogniser(hear):
    talk = hear("[00:00.000 --> 00:02.000]  ten squats\n[00:02.000 --> 00:04.000]  rest\n")
    assert heard(talk) == "ten squats rest"
    assert talk.words[2].start_s == 2.0


@pytest.mark.parametrize("form", ["vtt", "srt"])
def test_files_written_by_pysubs2(hear, form):
    """Against a reference writer: random cues come back word for word and on time."""
    chance = random.Random(form)
    vocabulary = ["ten", "squats,", "rest", "1:30", "easy!", "plank.", "metres", "café", "row"]
    subs, now = pysubs2.SSAFile(), 0
    for _ in range(60):
        start = now + chance.randint(10, 900)
        now = start + chance.randint(400, 5000)
        lines = [" ".join(chance.choices(vocabulary, k=4)) for _ in range(chance.randint(1, 2))]
        subs.append(pysubs2.SSAEvent(start=start, end=now, text=r"\N".join(lines)))
    talk = hear(subs.to_string(form))
    assert [w.text for w in talk.words] == " ".join(e.plaintext for e in subs).split()
    position = 0
    for event in subs:
        count = len(event.plaintext.split())
        words = talk.words[position : position + count]
        position += count
        assert (words[0].start_s, words[-1].end_s) == (event.start / 1000, event.end / 1000)
    assert talk.warnings == ()


ROLLING = """WEBVTT
Kind: captions

00:00:00.160 --> 00:00:02.389 align:start position:0%
 
three<00:00:00.400><c> rounds</c><00:00:00.960><c> today</c>

00:00:02.389 --> 00:00:02.399 align:start position:0%
three rounds today
 

00:00:02.399 --> 00:00:04.150 align:start position:0%
three rounds today
ten<00:00:02.560><c> squats</c>

00:00:04.150 --> 00:00:04.160 align:start position:0%
ten squats
 

00:00:04.160 --> 00:00:06.000 align:start position:0%
ten squats
ten<00:00:04.800><c> squats</c><00:00:05.200><c> again</c>
"""  # noqa: W293


def test_rolling_captions_with_hold_cues(hear):
    talk = hear(ROLLING)
    assert heard(talk) == "three rounds today ten squats ten squats again"
    assert [w.start_s for w in talk.words] == [0.16, 0.4, 0.96, 2.399, 2.56, 4.16, 4.8, 5.2]


def test_rolling_captions_of_two_lines(hear):
    lines = ["right then", "three rounds", "ten squats", "ten squats", "and a plank"]
    cues = [
        f"00:{i:02}.000 --> 00:{i + 1:02}.000\n" + "\n".join(lines[max(0, i - 1) : i + 1])
        for i in range(len(lines))
    ]
    talk = hear("WEBVTT\n\n" + "\n\n".join(cues))
    assert heard(talk) == " ".join(lines)
    assert [w.start_s for w in talk.words[:10:2]] == [0.0, 1.0, 2.0, 3.0, 4.0]


def test_a_line_that_is_called_out_twice_stays_twice(hear):
    cues = [f"00:{i:02}.000 --> 00:{i + 1:02}.000\n{'work' if i < 5 else 'rest'}" for i in range(9)]
    talk = hear("WEBVTT\n\n" + "\n\n".join(cues))
    assert heard(talk) == "work work work work work rest rest rest rest"


def test_overlapping_cues_are_merged(hear):
    talk = hear(
        "WEBVTT\n\n00:00.000 --> 00:06.000\nten squats\n\n00:03.000 --> 00:09.000\nthen rest\n\n"
        "00:09.000 --> 00:10.000\nready\n\n00:09.000 --> 00:11.000\nset go\n\n"
        "00:09.000 --> 00:10.000\nready\n"
    )
    assert heard(talk) == "ten squats then rest ready set go"
    times = [t for w in talk.words for t in (w.start_s, w.end_s)]
    assert times == sorted(times)
    assert talk.words[1].end_s == 3.0
    assert talk.words[-1].end_s == 11.0


def test_disorder_is_mended_and_told(hear):
    talk = hear(
        "WEBVTT\n\n00:05.000 --> 00:06.000\nrest\n\n00:01.000 --> 00:02.000\nsquats\n\n"
        "00:09.000 --> 00:08.000\nplank\n"
    )
    assert heard(talk) == "squats rest plank"
    assert [w.start_s for w in talk.words] == [1.0, 5.0, 9.0]
    assert talk.words[2].end_s > 9.0
    assert len(talk.warnings) == 2
    assert "backwards" in talk.warnings[0]
    assert "end before they start" in talk.warnings[1]


@pytest.mark.parametrize(
    "rest",
    ["2\n00:00:03,000 --> 00:0", "2\n00:00:0", "2\n", "2\n00:00:03,000 --> 00:00:05,000"],
)
def test_a_last_cue_that_is_cut_off(hear, rest):
    talk = hear(f"1\n00:00:01,000 --> 00:00:02,000\nten squats\n\n{rest}")
    assert heard(talk) == "ten squats"
    assert "cut off" in talk.warnings[0]


def test_a_cue_time_that_cannot_be_read(hear):
    talk = hear(
        "1\n00:00:01,000 --> 00:00:02,000\nten squats\n\n2\n00:00:O3,000 --> 00:00:05,000\nrest\n\n"
        "3\n00:00:06,000 --> 00:00:07,000\nplank\n"
    )
    assert heard(talk) == "ten squats rest plank"
    assert "00:00:O3,000" in talk.warnings[0]


def subrip(*cues):
    """Cues of one second from (start, words)."""
    stamp = "0:{:02}:{:02},{}"
    return "".join(
        f"{stamp.format(*divmod(start, 60), 0)} --> {stamp.format(*divmod(start, 60), 9)}\n"
        f"{text}\n\n"
        for start, text in cues
    )


def test_two_files_put_together(hear):
    part = [(0, "one"), (40, "two"), (80, "three")]
    talk = hear(subrip(*part, *part))
    assert heard(talk) == "one two three one two three"
    assert [round(w.start_s, 3) for w in talk.words] == [0.0, 40.0, 80.0, 80.9, 120.9, 160.9]
    assert "start again" in talk.warnings[0]


def test_a_stray_cue_does_not_make_a_second_part(hear):
    talk = hear(subrip((60, "one"), (90, "two"), (0, "three"), (120, "four"), (150, "five")))
    assert heard(talk) == "three one two four five"
    assert "backwards" in talk.warnings[0]

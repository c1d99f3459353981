"""Captions of a recording: easy to read, and the same words at the same times when read back."""

import html
import io
import json
import re
from itertools import chain, pairwise

import pysubs2
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from cuewright.hear import read
from cuewright.hear import transcript as as_talk
from cuewright.render.captions import FORMS, subrip, transcript, webvtt
from cuewright.render.layout import Caption, Shown, captions, wanted
from cuewright_models.hearing import Hearing, LeftOut, Piece
from cuewright_models.spoken import Mended, Spoken
from cuewright_models.transcript import Transcript, Word

STEMS = ["row", "caf\u00e9", "r&d", "<10", "it's", "<b>", "a>b", "w" * 50, "kettlebell"]
FRAME_S = 1 / 25
"""Pictures of European film and television, 25 a second."""


def spoken(*pieces: list[Word], repairs: tuple[Mended, ...] = ()) -> Spoken:
    made = [
        Piece(
            start_s=words[0].start_s,
            end_s=words[-1].end_s,
            words=tuple(words),
            likelihood=-0.1,
            repetition=1.2,
            silence=0.01,
        )
        for words in pieces
    ]
    ends = max((piece.end_s for piece in made), default=0.0)
    hearing = Hearing(
        name="talk.ogg",
        sha256="ab" * 32,
        duration_s=ends + 1.5,
        language="en",
        model="tiny",
        pieces=tuple(made),
        left_out=(LeftOut(start_s=1.0, end_s=2.0, text="Thanks.", why="no speech"),),
    )
    return Spoken(hearing=hearing, repairs=repairs)


def said(text: str, each_s: float = 0.4, pauses: dict[str, float] | None = None) -> list[Word]:
    """Words at an even pace; ``pauses`` gives the silence before a word."""
    words, now = [], 0.0
    for word in text.split():
        now = round(now + (pauses or {}).get(word, 0.0), 2)
        words.append(Word(word, now, round(now + each_s, 2), 0.9))
        now = round(now + each_s, 2)
    return words


@st.composite
def talks(draw: st.DrawFn) -> Spoken:
    """Any pieces of words, none said twice, of a hundredth of a second or more each."""
    now, count, pieces = 0.0, 0, []
    for size in draw(st.lists(st.integers(1, 14), min_size=1, max_size=4)):
        words = []
        for _ in range(size):
            count += 1
            now += draw(st.sampled_from([0, 0, 0, 0, 1, 20, 60, 130, 400, 2000])) / 100
            long = draw(st.integers(15, 120)) / 100
            stem = draw(st.sampled_from(STEMS))
            stop = draw(st.sampled_from(["", "", "", "", ",", ".", "?", "!"]))
            text = f"x{stem}{chr(97 + count % 26)}{chr(97 + count // 26)}{stop}"
            start, end = round(now, 2), round(now + long, 2)
            words.append(Word(text, start, end, draw(st.integers(0, 1000)) / 1000))
            now = end
        pieces.append(words)
    return spoken(*pieces)


def laid_out(talk: Spoken) -> list[Caption]:
    return captions([Shown(word.text, word.start_s, word.end_s) for word in talk.words])


def read_back(page: str) -> Transcript:
    return read("-", stdin=io.BytesIO(page.encode()))


@given(talks())
@settings(deadline=None, max_examples=30)
def test_captions_are_easy_to_read(talk: Spoken) -> None:
    made = laid_out(talk)
    for shown in made:
        assert 1 <= len(shown.lines) <= wanted().lines
        assert all(len(line) <= wanted().signs_a_line or " " not in line for line in shown.lines)
        assert 0 < shown.end_s - shown.start_s <= wanted().longest_s + 1e-9
    for shown, following in pairwise(made):
        gap = round(following.start_s - shown.end_s, 6)
        assert gap >= 0
        brief = round(shown.end_s - shown.start_s, 6) < wanted().shortest_s
        assert gap == 0 or not brief
        whole = following.start_s - shown.start_s > wanted().longest_s
        assert gap == 0 or gap >= wanted().closed_gap_s or whole


@given(talks())
@settings(deadline=None, max_examples=30)
def test_no_caption_stays_long_after_what_is_said(talk: Spoken) -> None:
    at, least = 0, wanted().shortest_s + wanted().hang_s
    for shown in laid_out(talk):
        at += sum(len(line.split()) for line in shown.lines)
        hangs = round(shown.end_s - talk.words[at - 1].end_s, 6)
        assert hangs <= wanted().hang_s or shown.end_s - shown.start_s <= least


@given(talks())
@settings(deadline=None, max_examples=30)
def test_captions_hold_every_word_when_it_is_said(talk: Spoken) -> None:
    made = laid_out(talk)
    lines = [line.split() for shown in made for line in shown.lines]
    assert list(chain(*lines)) == [word.text for word in talk.words]
    begins, at = [], 0
    for shown in made:
        begins.append(talk.words[at].start_s)
        at += sum(len(line.split()) for line in shown.lines)
        assert shown.end_s >= talk.words[at - 1].start_s
    assert [shown.start_s for shown in made] == begins


@given(talks())
@settings(deadline=None, max_examples=30)
def test_our_reader_has_the_same_words_at_the_same_times(talk: Spoken) -> None:
    made = laid_out(talk)
    back = read_back(webvtt(talk))
    assert [word.text for word in back.words] == [word.text for word in talk.words]
    starts = {word.text: word.start_s for word in back.words}
    for shown in made:
        assert abs(starts[shown.lines[0].split()[0]] - shown.start_s) < FRAME_S


@given(talks())
@settings(deadline=None, max_examples=30)
def test_another_reader_has_the_same_captions(talk: Spoken) -> None:
    made = laid_out(talk)
    for form, page in (("vtt", webvtt(talk)), ("srt", subrip(talk))):
        back = pysubs2.SSAFile.from_string(page, format_=form)
        for shown, event in zip(made, back, strict=True):
            assert (event.start, event.end) == (
                round(1000 * shown.start_s),
                round(1000 * shown.end_s),
            )
            text = "\n".join(shown.lines)
            got = event.text.replace(r"\N", "\n")
            if form == "srt":
                assert got == text.translate(str.maketrans("<>", "\u2039\u203a"))
            else:  # it does not read the references that WebVTT cannot do without
                assert html.unescape(got) == text


@given(talks())
@settings(deadline=None, max_examples=30)
def test_the_json_is_read_as_the_recording_was_heard(talk: Spoken) -> None:
    back, heard = read_back(transcript(talk)), as_talk(talk.hearing)
    assert back.words == heard.words
    assert (back.duration_s, back.language) == (heard.duration_s, heard.language)
    assert back.warnings == ()


@given(st.integers(1, 80), st.floats(0, 3))
@example(80, 0.0)
@settings(deadline=None, max_examples=20)
def test_words_without_length_keep_their_order(count: int, start: float) -> None:
    talk = spoken([Word(f"word{nth}", start, start, 0.5) for nth in range(count)])
    made = laid_out(talk)
    assert all(a.end_s <= b.start_s and a.start_s < a.end_s for a, b in pairwise(made))
    lines = [line.split() for shown in made for line in shown.lines]
    assert list(chain(*lines)) == [word.text for word in talk.words]


def test_breaks_stand_where_speech_has_them() -> None:
    talk = said(
        "Good evening, and welcome. Take a kettlebell and find a place on the mat by the door. "
        "Do ten swings now we talk about the run",
        pauses={"now": 2.0},
    )
    made = laid_out(spoken(talk))
    assert [shown.lines for shown in made] == [
        ("Good evening, and welcome.",),
        ("Take a kettlebell and find a place", "on the mat by the door."),
        ("Do ten swings",),
        ("now we talk about the run",),
    ]


def test_fast_speech_stays_on_the_screen_as_long_as_there_is_time() -> None:
    (shown,) = laid_out(spoken(said("Three rounds of twenty double-unders, no rest", 0.1)))
    assert shown.end_s == pytest.approx(0.7 + wanted().hang_s)
    (shown,) = laid_out(spoken(said("Go.", 0.2)))
    assert shown.end_s == pytest.approx(wanted().shortest_s)


def test_signs_that_captions_give_a_meaning_are_escaped() -> None:
    talk = spoken(said("rest & row <b>10</b> --> {now} &amp;"))
    assert "rest &amp; row &lt;b&gt;10&lt;/b&gt; --&gt; {now} &amp;amp;" in webvtt(talk)
    assert "rest & row \u2039b\u203a10\u2039/b\u203a --\u203a (now) &amp;" in subrip(talk)
    assert webvtt(talk).count("-->") == subrip(talk).count("-->") == len(laid_out(talk))


def test_the_files_begin_as_their_standards_say() -> None:
    talk = spoken(said("Ten squats.", 3600.0))
    assert webvtt(talk) == "WEBVTT\n\n00:00:00.000 --> 00:00:07.000\nTen\n\n" + (
        "01:00:00.000 --> 01:00:07.000\nsquats.\n"
    )
    assert re.match(r"1\n00:00:00,000 --> 00:00:07,000\nTen\n\n2\n01:", subrip(talk))


def test_repairs_are_shown_and_what_was_heard_is_kept() -> None:
    repair = Mended(first=1, last=3, heard="cattle bells,", meant="kettlebells,")
    talk = spoken(said("20 cattle bells, then rest."), repairs=(repair,))
    assert "20 kettlebells, then rest." in webvtt(talk)
    assert "20 kettlebells, then rest." in subrip(talk)
    page = json.loads(transcript(talk))
    assert page["segments"][0]["text"] == "20 cattle bells, then rest."
    assert page["repairs"] == [
        {"heard": "cattle bells,", "meant": "kettlebells,", "start": 0.4, "end": 1.2}
    ]


def test_what_was_left_out_is_never_read_as_speech() -> None:
    page = transcript(spoken(said("Ten squats.")))
    assert json.loads(page)["left_out"] == [
        {"start": 1.0, "end": 2.0, "text": "Thanks.", "why": "no speech"}
    ]
    assert [word.text for word in read_back(page).words] == ["Ten", "squats."]


def test_every_form_has_its_own_ending() -> None:
    assert {form: each.suffix for form, each in FORMS.items()} == {
        "vtt": ".vtt",
        "srt": ".srt",
        "json": ".transcript.json",
    }

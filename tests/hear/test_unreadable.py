"""What cannot be read is told in one sentence; what can is never refused for its wrapping."""

import codecs
import io
import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuewright.errors import UnreadableSource
from cuewright.hear import read
from cuewright.hear.script import MAX_WORDS
from cuewright.hear.source import MAX_BYTES

VTT = "WEBVTT\n\n00:01.000 --> 00:02.000\nten squats, café\n"


def refusal(source, **more):
    with pytest.raises(UnreadableSource) as caught:
        read(source, **more)
    sentence = str(caught.value)
    assert sentence.count("\n") == 0
    assert sentence.endswith(".")
    assert "/" not in sentence
    return sentence


@pytest.mark.parametrize(
    ("name", "content", "part"),
    [
        ("talk.vtt", b"", "is empty"),
        ("talk.vtt", b"WEBVTT\n", "no cue"),
        ("talk.vtt", b"WEBVTT\n\nNOTE nothing here\n\nten squats\n", "no cue"),
        ("talk.vtt", b"WEBVTT\n\n00:01.000 --> 00:02.000\n[music]\n", "no speech"),
        ("talk.srt", b"1\n00:00:01,000 --> 00:00:02,000\n\n", "no speech"),
        ("talk.txt", b" \n\n [0:10] \n", "no speech"),
        ("talk.txt", b"ten\0squats", "binary"),
        ("talk.txt", bytes(range(1, 256)) * 20, "binary"),
        ("talk.json", b'{"segments": [{"text": "ten squ', "breaks off"),
        ("talk.txt", b'[{"text": "ten squ', "breaks off"),
        ("talk.json", b'{"plan": []}', "without segments"),
        ("talk.json", b'{"segments": [1, 2]}', "without segments"),
        ("talk.json", b'["ten squats"]', "without segments"),
        ("talk.json", b"null", "without segments"),
        ("talk.json", b"[" * 100_000, "breaks off"),
        ("talk.json", b'{"segments": []}', "no speech"),
        ("talk.html", b"<!DOCTYPE html><p>ten squats", "web page"),
        ("talk.ass", b"[Script Info]\nTitle: x\n", "markup"),
        ("talk.pdf", b"%PDF-1.7 ...", "PDF"),
        ("talk.docx", b"PK\x03\x04...", "zipped"),
        ("talk.mp4", b"\0\0\0\x20ftypisom....", "recording"),
        ("talk.txt", b"RIFF\x24\0\0\0WAVEfmt ", "recording"),
        ("talk", b"OggS\0\2", "recording"),
        ("talk.webm", b"\x1aE\xdf\xa3", "recording"),
        ("talk.mp3", b"\xff\xfb\x90\x64", "recording"),
        ("talk.flac", b"fLaC\0", "recording"),
        ("talk.MTS", b"G\x40\x11\x10\0\x42", "recording"),
    ],
)
def test_refusals(tmp_path, name, content, part):
    (tmp_path / name).write_bytes(content)
    sentence = refusal(tmp_path / name)
    assert sentence.startswith(name)
    assert part in sentence


def test_missing_file_and_folder(tmp_path):
    assert "does not exist" in refusal(tmp_path / "talk.vtt")
    assert "is a folder" in refusal(tmp_path)
    assert "NUL" in refusal("a\0b")


def test_no_permission(tmp_path, monkeypatch):
    def forbidden(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", forbidden)
    assert "permissions" in refusal(tmp_path / "talk.vtt")


def test_too_large():
    assert "MB" in refusal("-", stdin=io.BytesIO(b"row " * (MAX_BYTES // 4 + 1)))
    assert "words" in refusal("-", stdin=io.BytesIO(b"row " * (MAX_WORDS + 1)))
    assert "words" in refusal("-", stdin=io.BytesIO(b"[a]" * (MAX_BYTES // 3)))


@pytest.mark.parametrize("name", ["talk.srt", "talk.json", "talk.txt", "talk.mp4", "talk"])
def test_a_wrong_extension_does_not_matter(tmp_path, name):
    path = tmp_path / name
    path.write_text(VTT)
    talk = read(path)
    assert (talk.name, talk.kind, len(talk.words)) == (name, "captions", 3)


@pytest.mark.parametrize(
    ("encoding", "bom"),
    [
        ("utf-8", b""),
        ("utf-8", codecs.BOM_UTF8),
        ("utf-16-le", codecs.BOM_UTF16_LE),
        ("utf-16-be", codecs.BOM_UTF16_BE),
    ],
)
def test_encodings(encoding, bom):
    talk = read("-", stdin=io.BytesIO(bom + VTT.encode(encoding)))
    assert [word.text for word in talk.words] == ["ten", "squats,", "café"]
    assert talk.warnings == ()
    assert talk.name == "standard input"


@pytest.mark.parametrize("encoding", ["latin-1", "cp1252"])
def test_older_encodings_are_told(encoding):
    talk = read("-", stdin=io.BytesIO(VTT.encode(encoding)))
    assert talk.words[-1].text == "café"
    assert "Latin-1" in talk.warnings[0]


def test_a_letter_cut_in_half_is_told():
    talk = read("-", stdin=io.BytesIO("ten squats and a café".encode()[:-1]))
    assert [word.text for word in talk.words][:2] == ["ten", "squats"]
    assert "cut short" in talk.warnings[0]


def test_fingerprint_is_that_of_the_bytes(tmp_path: Path):
    path = tmp_path / "talk.txt"
    path.write_bytes(b"abc")
    # FIPS 180-4 example: SHA-256 of "abc".
    assert read(path).sha256 == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def reads_or_refuses(raw: bytes) -> None:
    try:
        talk = read("-", stdin=io.BytesIO(raw))
    except UnreadableSource:
        return
    assert talk.words
    times = [t for word in talk.words for t in word[1:3] if t is not None]
    assert times == sorted(times)
    assert all(0 <= place < len(talk.words) for place in (*talk.breaks, *talk.turns))
    assert not any(word.text.split() != [word.text] for word in talk.words)


steady = settings(deadline=None, derandomize=True)
FRAGMENTS = [
    "WEBVTT", "\n", "\n\n", "00:01.000 --> 00:02.000", "00:00:03,000 --> 00:00:01,000", "-->", "<",
    ">", "<v Bryony>", "<00:00:01.500>", "[music]", "[", "]", "(", ")", "♪", "*", "- ", ">>",
    "COACH:", "[0:10]", "(0:20)", "0:30", "&amp;", "&#0;", "&#10;", "&#xd800;", "ten squats", "10",
    " ", "\t", "\r", "\u2028", "\ufeff", "\x00", "é", "{", '{"segments":', "NOTE",
]  # fmt: skip
JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(),
    lambda inner: (
        st.lists(inner)
        | st.dictionaries(
            st.sampled_from(["segments", "words", "text", "word", "start", "end", "speaker"]), inner
        )
    ),
)


@steady
@given(st.binary(max_size=400))
def test_any_bytes_are_read_or_refused(raw):
    reads_or_refuses(raw)


@steady
@given(st.text(max_size=200))
def test_any_text_is_read_or_refused(text):
    reads_or_refuses(text.encode())


@steady
@given(st.lists(st.sampled_from(FRAGMENTS), max_size=40))
def test_any_heap_of_fragments_is_read_or_refused(fragments):
    reads_or_refuses("".join(fragments).encode())


@steady
@given(JSON)
def test_any_json_is_read_or_refused(value):
    reads_or_refuses(json.dumps(value).encode())

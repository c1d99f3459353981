"""A recording's words as files: WebVTT, SubRip, and JSON with every word's time.

Captions show mishearings as mended; the JSON keeps what was heard, and the repairs beside it.
Both kinds of captions are written here: pysubs2, the library for it, escapes nothing in
WebVTT and takes braces and backslashes for commands of another format.
"""

import json
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

from cuewright.render.layout import Caption, Shown, captions
from cuewright.render.words import clean
from cuewright_models.hearing import Piece
from cuewright_models.spoken import Spoken

# W3C WebVTT, "WebVTT cue text span": these begin a tag or a reference, or end the times.
_REFERENCES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;"})
# SubRip has no escapes, so the signs that players take for markup are written as their likes.
_LIKES = str.maketrans("<>{}", "\u2039\u203a()")


def webvtt(spoken: Spoken) -> str:
    """Captions as W3C WebVTT has them."""
    blocks = ["WEBVTT\n"]
    for each in _captions(spoken):
        text = "\n".join(each.lines).translate(_REFERENCES)
        blocks.append(f"{_clock(each.start_s, '.')} --> {_clock(each.end_s, '.')}\n{text}\n")
    return "\n".join(blocks)


def subrip(spoken: Spoken) -> str:
    """Captions as SubRip has them."""
    blocks = []
    for number, each in enumerate(_captions(spoken), 1):
        text = "\n".join(each.lines).translate(_LIKES)
        times = f"{_clock(each.start_s, ',')} --> {_clock(each.end_s, ',')}"
        blocks.append(f"{number}\n{times}\n{text}\n")
    return "\n".join(blocks)


def transcript(spoken: Spoken) -> str:
    """The shape that speech recognisers commonly write, with what is ours added."""
    hearing = spoken.hearing
    page: dict[str, Any] = {
        "language": hearing.language,
        "duration": hearing.duration_s,
        "model": hearing.model,
        "source": hearing.name,
        "sha256": hearing.sha256,
        "segments": [_segment(nth, piece) for nth, piece in enumerate(hearing.pieces)],
        "repairs": list(_repairs(spoken)),
        "left_out": [
            {"start": out.start_s, "end": out.end_s, "text": out.text, "why": out.why}
            for out in hearing.left_out
        ],
        "warnings": list(hearing.warnings),
    }
    return json.dumps(page, ensure_ascii=False, indent=1) + "\n"


class Form(NamedTuple):
    """How to make a file of a recording's words, and how its name ends."""

    page: Callable[[Spoken], str]
    suffix: str


FORMS: dict[str, Form] = {
    "vtt": Form(webvtt, ".vtt"),
    "srt": Form(subrip, ".srt"),
    "json": Form(transcript, ".transcript.json"),
}
"""Every form that can be asked for, by the name the user gives."""


def _captions(spoken: Spoken) -> list[Caption]:
    return captions(list(_shown(spoken)))


def _shown(spoken: Spoken) -> Iterator[Shown]:
    """The words to be shown; those of a repair stay together."""
    words = spoken.words
    repairs = {each.first: each for each in spoken.repairs}
    at = 0
    while at < len(words):
        repair = repairs.get(at)
        last = repair.last if repair else at + 1
        text = clean(repair.meant if repair else words[at].text)
        start, end = words[at].start_s or 0.0, words[last - 1].end_s or 0.0
        if text:
            yield Shown(text, start, max(start, end))
        at = last


def _clock(seconds: float, point: str) -> str:
    """Seconds as ``hh:mm:ss`` and thousandths."""
    whole, thousandths = divmod(round(1000 * seconds), 1000)
    minutes, rest = divmod(whole, 60)
    return f"{minutes // 60:02}:{minutes % 60:02}:{rest:02}{point}{thousandths:03}"


def _segment(nth: int, piece: Piece) -> dict[str, Any]:
    words = (
        {"word": text, "start": start_s, "end": end_s, "probability": confidence}
        for text, start_s, end_s, confidence in piece.words
    )
    return {
        "id": nth,
        "start": piece.start_s,
        "end": piece.end_s,
        "text": piece.text,
        "avg_logprob": piece.likelihood,
        "compression_ratio": piece.repetition,
        "no_speech_prob": piece.silence,
        "words": list(words),
    }


def _repairs(spoken: Spoken) -> Iterator[dict[str, Any]]:
    words = spoken.words
    for each in spoken.repairs:
        start, end = words[each.first].start_s, words[each.last - 1].end_s
        yield {"heard": each.heard, "meant": each.meant, "start": start, "end": end}

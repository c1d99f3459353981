"""Caption markup to plain text."""

import html
import re
from html.entities import html5
from typing import NamedTuple

from cuewright.hear.decode import tidy
from cuewright.hear.script import Stamp

_ENTITY = re.compile(r"&(?:#\d{1,7}|#[xX][\da-fA-F]{1,6}|[A-Za-z]\w{1,31});")
_MARKUP = re.compile(
    r"<(?P<time>(?:\d+:)?\d{1,2}:\d{2}[.,]\d{1,3})>"
    r"|<v(?:\.[^\s<>]{0,99})?[ \t\n](?P<voice>[^<>]{1,200})>"
    r"|</?[A-Za-z][^<>]{0,500}>|</?>"
    r"|\{\\[^{}]*\}"
)


class Plain(NamedTuple):
    """Text without markup, and the inline times and voices by place in it."""

    text: str
    stamps: list[Stamp]
    voices: list[tuple[int, str]]


def plain(text: str) -> str:
    """``text`` with character references (``&amp;``) as characters."""
    if "&" not in text:
        return text
    return tidy(_ENTITY.sub(_character, text))


def _character(reference: re.Match[str]) -> str:
    known = reference[0][1] == "#" or reference[0][1:] in html5
    return html.unescape(reference[0]) if known else reference[0]


def seconds(stamp: str) -> float:
    """``[h:]m:s[.fff]`` in seconds, with a dot or a comma before the fraction."""
    total = 0.0
    for part in stamp.replace(",", ".").split(":"):
        total = total * 60 + float(part)
    return round(total, 3)


def strip(text: str) -> Plain:
    """Tags and inline times of WebVTT and SubRip out of ``text``.

    Tags as in W3C WebVTT, "cue text parsing rules"; ``<`` that opens no tag is kept, since
    people write it for "less than".
    """
    if "<" not in text and "{" not in text:
        return Plain(plain(text), [], [])
    out, stamps, voices = "", [], []
    done = 0
    for match in _MARKUP.finditer(text):
        out += plain(text[done : match.start()])
        done = match.end()
        if match["time"]:
            stamps.append((len(out), seconds(match["time"])))
        elif match["voice"]:
            voices.append((len(out), plain(match["voice"]).strip()))
    out += plain(text[done:])
    return Plain(out, [(_next_word(out, place), second) for place, second in stamps], voices)


def _next_word(text: str, place: int) -> int:
    while place < len(text) and text[place].isspace():
        place += 1
    return place

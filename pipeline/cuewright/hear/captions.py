"""WebVTT (W3C, https://www.w3.org/TR/webvtt1/) and SubRip.

Both are read by one reader of our own that forgives what real files get wrong. pysubs2 was
tried first: it takes a line with two inline times for the start of a cue, and the name
of a cue and ``NOTE`` blocks for speech.
"""

import re

from cuewright.errors import UnreadableSource
from cuewright.hear.cues import Cue, to_script
from cuewright.hear.markup import seconds, strip
from cuewright.hear.rolling import unroll
from cuewright.hear.script import Script

_TIME = r"(?:\d+:)?\d{1,2}:\d{1,2}(?:[.,]\d{1,3})?"
_TIMING = re.compile(
    rf"^\s*(?P<bracket>\[)?\s*(?P<start>{_TIME})\s*-{{1,2}}>\s*(?P<end>{_TIME})\s*\]?(?P<rest>.*)$"
)
_ANY_TIMING = re.compile(rf"^[ \t]*\[?[ \t]*{_TIME}[ \t]*--?>[ \t]*{_TIME}", re.MULTILINE)
_LANGUAGE = re.compile(r"^language:\s*([a-z]{2,3}(?:-\w+)*)\s*$", re.IGNORECASE | re.MULTILINE)


def recognise(text: str) -> bool:
    """Whether ``text`` is WebVTT or SubRip."""
    return _is_webvtt(text) or _ANY_TIMING.search(text) is not None


def parse(name: str, text: str) -> Script:
    """The cues of ``text`` as one script; raises UnreadableSource when there is none."""
    webvtt = _is_webvtt(text)
    cues, warnings = _cues(name, text, webvtt=webvtt)
    if not cues:
        raise UnreadableSource(
            f"{name} starts like WebVTT captions but has no cue that can be read; "
            "export the captions again."
        )
    script = to_script(name, unroll([cue for cue in cues if cue.text]))
    header = re.match(r"[^\n]*(?:\n[^\n]+)*", text)
    language = _LANGUAGE.search(header[0]) if webvtt and header else None
    script.language = language[1] if language else None
    script.warnings = warnings + script.warnings
    return script


def _is_webvtt(text: str) -> bool:
    return re.match(r"WEBVTT(?:\s|$)", text) is not None


def _cues(name: str, text: str, *, webvtt: bool) -> tuple[list[Cue], list[str]]:
    timings: list[re.Match[str]] = []
    payloads: list[list[str]] = []
    inside = blank = False
    for line in text.split("\n"):
        timing = _TIMING.match(line) if "->" in line else None
        if timing:
            if payloads and payloads[-1] and not blank and payloads[-1][-1].strip().isdigit():
                payloads[-1].pop()  # the number of this cue, with no blank line before it
            timings.append(timing)
            payloads.append([timing["rest"]] if timing["bracket"] else [])
            inside = True
        elif not line.strip():
            # In WebVTT a blank line ends the cue; SubRip writers leave them inside.
            blank, inside = True, inside and not webvtt
            continue
        elif inside:
            payloads[-1].append(line)
        blank = False
    warnings = []
    if webvtt and text.rstrip("\n").rpartition("\n")[2].count("->") and not payloads[-1:] == [[]]:
        warnings.append(f"The last cue of {name} is cut off and was left out.")
    return [_cue(t, p) for t, p in zip(timings, payloads, strict=True)], warnings


def _cue(timing: re.Match[str], lines: list[str]) -> Cue:
    text, stamps, voices = strip("\n".join(line.strip() for line in lines).strip())
    return Cue(seconds(timing["start"]), seconds(timing["end"]), text, stamps, voices)

"""WebVTT (W3C, https://www.w3.org/TR/webvtt1/) and SubRip.

Both are read by one reader of our own that forgives what real files get wrong. pysubs2 was
tried first: it takes a line with two inline times for the start of a cue, and the name
of a cue and ``NOTE`` blocks for speech.
"""

import re
from dataclasses import dataclass, field

from cuewright.errors import UnreadableSource
from cuewright.hear.cues import Cue, to_script
from cuewright.hear.markup import seconds, strip
from cuewright.hear.rolling import unroll
from cuewright.hear.script import Script

_TIME = r"(?:\d{1,4}:)?\d{1,2}:\d{1,2}(?:[.,]\d{1,3})?"
# Some recognisers print [start --> end] and the words on one line.
_TIMING = re.compile(
    rf"\s*(?P<bracket>\[\s*)?(?P<start>{_TIME})\s*--?>\s*(?P<end>{_TIME})(?:\s*\])?(?P<rest>.*)"
)
_ANY_TIMING = re.compile(rf"^[ \t]*(?:\[[ \t]*)?{_TIME}[ \t]*--?>[ \t]*{_TIME}", re.MULTILINE)
_NOTE = re.compile(r"NOTE(?:[ \t]+|$)")
_HEAD = re.compile(r"^\s*WEBVTT\b[ \t]*|^[A-Za-z-]+:[ \t]*\S+$")
"""The first line of the file, and metadata such as its language."""
_LANGUAGE = re.compile(r"^language:\s*([a-z]{2,3}(?:-\w+)*)\s*$", re.IGNORECASE | re.MULTILINE)


def recognise(text: str) -> bool:
    """Whether ``text`` is WebVTT or SubRip."""
    return _is_webvtt(text) or _ANY_TIMING.search(text) is not None


def parse(name: str, text: str) -> Script:
    """The cues of ``text`` as one script; raises UnreadableSource when there is none."""
    webvtt = _is_webvtt(text)
    blocks = _Blocks(name, webvtt=webvtt)
    for line in text.rstrip("\n").split("\n"):
        blocks.take(line)
    if not blocks.timings:
        raise UnreadableSource(
            f"{name} starts like WebVTT captions but has no cue that can be read; "
            "export the captions again."
        )
    warnings = blocks.finish(whole=text.endswith("\n\n"))
    pairs = zip(blocks.timings, blocks.payloads, strict=True)
    cues = [_cue(timing, lines) for timing, lines in pairs]
    script = to_script(name, unroll([cue for cue in cues if cue.text]))
    script.language = _language(text) if webvtt else None
    script.warnings = [*warnings, *script.warnings]
    return script


def notes(text: str) -> list[tuple[int, str]]:
    """The numbered lines of the header's text and of the comments before the first WebVTT cue.

    An empty line ends a comment, so several that follow each other are one text in parts.
    """
    if not _is_webvtt(text):
        return []
    found: list[tuple[int, str]] = []
    inside = True
    for number, line in enumerate(text.split("\n"), 1):
        if "-->" in line:
            break
        opens = _NOTE.match(line)
        inside = bool(line.strip()) and (inside or opens is not None)
        if inside or not line.strip():
            found.append((number, _HEAD.sub("", line) if opens is None else line[opens.end() :]))
    return found


def _is_webvtt(text: str) -> bool:
    return re.match(r"\s*WEBVTT(?:\s|$)", text) is not None


def _language(text: str) -> str | None:
    header = text.lstrip().partition("\n\n")[0]
    language = _LANGUAGE.search(header)
    return language[1] if language else None


def _cue(timing: re.Match[str], lines: list[str]) -> Cue:
    text, stamps, voices = strip("\n".join(map(str.strip, lines)).strip())
    return Cue(seconds(timing["start"]), seconds(timing["end"]), text, stamps, voices)


@dataclass(slots=True)
class _Blocks:
    """Lines on their way into cues: each timing line, and the lines of words under it."""

    name: str
    webvtt: bool
    timings: list[re.Match[str]] = field(default_factory=list)
    payloads: list[list[str]] = field(default_factory=list)
    broken: list[str] = field(default_factory=list)
    inside: bool = False
    since_blank: int | None = None
    """Lines of words after the last blank line of this cue, if it has one."""
    cut_off: bool = False

    def take(self, line: str) -> None:
        if "->" in line and (timing := _TIMING.match(line)):
            self._end_cue()
            self.timings.append(timing)
            self.payloads.append([timing["rest"]] if timing["bracket"] else [])
            self.inside = True
        elif "-->" in line:
            self._end_cue()
            self.broken.append(line.strip())
            self.inside = self.cut_off = bool(self.payloads)
        elif line == "" or (not self.webvtt and not line.strip()):
            # In WebVTT an empty line ends the cue; SubRip writers leave them inside.
            self.inside, self.since_blank = self.inside and not self.webvtt, 0
        elif self.inside:
            self.payloads[-1].append(line)
            self.cut_off = False
            if self.since_blank is not None:
                self.since_blank += 1

    def _end_cue(self) -> None:
        """Take the number of the next cue, which stands right above its times, off this one."""
        lines = self.payloads[-1] if self.inside and self.since_blank != 0 else []
        if lines and lines[-1].strip().isdigit():
            lines.pop()
        self.since_blank, self.cut_off = None, False

    def finish(self, *, whole: bool) -> list[str]:
        """Warnings; the beginnings of a cue that breaks off are taken away."""
        lines = self.payloads[-1]
        last = lines[len(lines) - (self.since_blank or 0) :] if self.inside else []
        if last and not any(map(str.isalpha, "".join(last))):
            del lines[-len(last) :]
            self.cut_off = True
        warnings = []
        if self.cut_off or not (lines or whole):
            warnings.append(f"The last cue of {self.name} is cut off and was left out.")
        broken = self.broken[:-1] if self.cut_off else self.broken
        if broken:
            warnings.append(
                f'{self.name} has a cue time that cannot be read ("{broken[0][:40]}"); '
                "the words under it were kept with the cue before."
            )
        return warnings

"""Plain text, with ``[m:ss]``, ``(m:ss)``, ``m:ss`` or ``h:mm:ss`` stamps or without times."""

import re
from bisect import bisect_right
from itertools import pairwise

from cuewright.hear.cues import CHARACTERS_PER_S
from cuewright.hear.markup import plain, seconds
from cuewright.hear.script import Script

_TIME = r"(?:\d{1,2}:)?\d{1,3}:[0-5]\d(?:[.,]\d{1,3})?"
_SQUARE = re.compile(rf"\[[ \t]*(?P<time>{_TIME})[ \t]*\]:?")
_ROUND = re.compile(rf"\([ \t]*(?P<time>{_TIME})[ \t]*\):?")
_BARE = re.compile(rf"^[ \t]*(?P<time>{_TIME})(?=[ \t\n]|$)(?:[ \t]+[-–—|](?=\s))?", re.MULTILINE)
_NARROWEST = 40


def parse(name: str, text: str) -> Script:
    """``text`` as one script; the clock is empty when it has no stamps."""
    text = plain(text)
    stamps = _stamps(text)
    pieces, done = [], 0
    for stamp in stamps:
        pieces += [text[done : stamp.start()], " " * len(stamp[0])]
        done = stamp.end()
    script = Script(_unwrap("".join([*pieces, text[done:]])), dashes=False)
    if stamps:
        _set_clock(name, script, stamps)
    return script


def _stamps(text: str) -> list[re.Match[str]]:
    """The stamps of the one form that this text uses."""
    square, round_ = list(_SQUARE.finditer(text)), list(_ROUND.finditer(text))
    if square or round_:
        return max(square, round_, key=len)
    bare = list(_BARE.finditer(text))
    bare = [bare[i] for i in _rising([seconds(stamp["time"]) for stamp in bare])]
    lines = [line for line in re.finditer(r"^.*\S.*$", text, re.MULTILINE)]
    opens = bare and bare[0].start() <= lines[min(2, len(lines) - 1)].start()
    return bare if opens and 3 * len(bare) >= len(lines) else []


def _rising(values: list[float]) -> list[int]:
    """Positions of a longest run of values that never falls (patience sorting)."""
    tails: list[float] = []
    ends: list[int] = []
    before: list[int | None] = []
    for position, value in enumerate(values):
        pile = bisect_right(tails, value)
        before.append(ends[pile - 1] if pile else None)
        tails[pile:], ends[pile:] = [value, *tails[pile + 1 :]], [position, *ends[pile + 1 :]]
    chosen: list[int] = []
    position_: int | None = ends[-1] if ends else None
    while position_ is not None:
        chosen.append(position_)
        position_ = before[position_]
    return chosen[::-1]


def _set_clock(name: str, script: Script, stamps: list[re.Match[str]]) -> None:
    rising = _rising([seconds(stamp["time"]) for stamp in stamps])
    if len(rising) < len(stamps):
        script.warnings.append(
            f"Some times in {name} run backwards; those were left out and estimated."
        )
    clock = [(stamps[i].end() + 1, seconds(stamps[i]["time"])) for i in rising]
    first, last = clock[0], clock[-1]
    speeds = [(b[0] - a[0]) / (b[1] - a[1]) for a, b in pairwise(clock) if b[1] > a[1]]
    speed = sorted(speeds)[len(speeds) // 2] if speeds else CHARACTERS_PER_S
    end = max(len(script.text.rstrip()), last[0] + 1)
    script.duration_s = round(last[1] + (end - last[0]) / max(speed, 1.0), 3)
    head = [(0, 0.0)] if first[0] > 0 and first[1] > 0 else []
    script.clock = [*head, *clock, (end, script.duration_s)]


def _unwrap(text: str) -> str:
    """Lines joined to paragraphs where the text was wrapped at a width.

    Text is wrapped when no line could have taken the first word of the next one.
    """
    lines = text.split("\n")
    width = max(map(len, lines))
    inner = [(a, b) for a, b in pairwise(lines) if a.strip() and b.strip()]
    full = sum(len(a.rstrip()) + 1 + len(b.split()[0]) > width for a, b in inner)
    if width < _NARROWEST or len(inner) < 2 or full < 0.9 * len(inner):
        return text
    return re.sub(r"(?<=\S)[ \t]*\n(?=[ \t]*\S)", lambda m: " " * len(m[0]), text)

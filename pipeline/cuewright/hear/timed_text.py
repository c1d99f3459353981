"""Plain text, with ``[m:ss]``, ``(m:ss)``, ``m:ss`` or ``h:mm:ss`` stamps or without times."""

import math
import re
from bisect import bisect_right
from collections import deque
from itertools import pairwise
from statistics import median

from cuewright.errors import UnreadableSource
from cuewright.hear.cues import CHARACTERS_PER_S
from cuewright.hear.markup import plain, seconds
from cuewright.hear.script import Script, Stamp

_TIME = r"(?:\d{1,2}:)?\d{1,3}:[0-5]\d(?:[.,]\d{1,3})?"
_BRACKETED = [
    re.compile(rf"(?P<open>^[ \t]*)?{left}[ \t]*(?P<time>{_TIME})[ \t]*{right}(?(open):?)", re.M)
    for left, right in ((r"\[", r"\]"), (r"\(", r"\)"))
]
_BARE = re.compile(
    rf"(?P<open>^[ \t]*)(?P<time>{_TIME})(?=[ \t\n]|$)(?:[ \t]+[-\u2013\u2014|](?=\s))?", re.M
)
_OTHER = re.compile(r"\s*(?:<\?xml|<!doctype|<html|<tt[ >]|\[script info\])", re.IGNORECASE)
_NARROWEST = 40
"""Characters: below this width, lines are verse or a list and not a wrapped paragraph."""

_CAPTION, _MANY = 100, 10
"""With less text than this between so many stamps, lines are captions and not paragraphs."""


def parse(name: str, text: str) -> Script:
    """``text`` as one script; the clock is empty when it has no stamps.

    A stamp stands in brackets, or at the start of a line in a text that is timed so from
    its start; all have one form. Raises UnreadableSource for markup that is no plain text.
    """
    if _OTHER.match(text):
        raise UnreadableSource(
            f"{name} holds a web page or subtitle markup that is not read here; "
            "save it as .vtt, .srt or plain text."
        )
    text = plain(text)
    stamps = _stamps(text)
    kept = _fitting(stamps)
    # In round brackets mid-line, a time that does not fit in is said: "rest (1:30)".
    fits = {stamp.start() for stamp in kept}
    removed = [s for s in stamps if s.start() in fits or s["open"] is not None or "[" in s[0]]
    script = Script(_without(_unwrap(text, removed), removed), written=True)
    if kept:
        script.clock = _clock(script.text, kept)
        script.written = len(kept) < _MANY or script.clock[-1][0] / len(kept) > _CAPTION
    if len(removed) > len(kept):
        script.warnings.append(f"Times in {name} run backwards; those that do were left out.")
    return script


def _stamps(text: str) -> list[re.Match[str]]:
    """All stamps of the one form that this text is timed with."""
    found = [list(form.finditer(text)) for form in _BRACKETED]
    timed = [stamps for stamps in found if any(stamp["open"] is not None for stamp in stamps)]
    if timed:
        return max(timed, key=len)
    if len(found[0]) > 1:
        return found[0]
    bare = list(_BARE.finditer(text))
    bare = _rising(bare)
    lines = [line.start() for line in re.finditer(r"^.*\S", text, re.M)]
    opens = bool(bare) and bare[0].start() <= lines[min(2, len(lines) - 1)]
    return bare if opens and 3 * len(bare) >= len(lines) else []


def _fitting(stamps: list[re.Match[str]]) -> list[re.Match[str]]:
    """The stamps whose times rise; those that open a line come before those inside one."""
    opening = _rising([stamp for stamp in stamps if stamp["open"] is not None])
    fitting: list[re.Match[str]] = []
    ahead = deque(opening)
    now = 0.0
    for stamp in stamps:
        time = seconds(stamp["time"])
        limit = seconds(ahead[0]["time"]) if ahead else math.inf
        if ahead and stamp is ahead[0]:
            ahead.popleft()
        elif stamp["open"] is not None or not now <= time <= limit:
            continue
        fitting.append(stamp)
        now = time
    return fitting


def _rising(stamps: list[re.Match[str]]) -> list[re.Match[str]]:
    """A longest run of stamps whose times never fall (patience sorting, from the end)."""
    tops: list[float] = []
    piles: list[int] = []
    after: dict[int, int] = {}
    for position in range(len(stamps) - 1, -1, -1):
        value = -seconds(stamps[position]["time"])
        pile = bisect_right(tops, value)
        if pile:
            after[position] = piles[pile - 1]
        tops[pile : pile + 1], piles[pile : pile + 1] = [value], [position]
    run = piles[-1:]
    while run and run[-1] in after:
        run.append(after[run[-1]])
    return [stamps[position] for position in run]


def _without(text: str, stamps: list[re.Match[str]]) -> str:
    """The text with spaces where ``stamps`` were, so that every place stays the same."""
    pieces, done = [], 0
    for stamp in stamps:
        pieces += [text[done : stamp.start()], " " * len(stamp[0])]
        done = stamp.end()
    return "".join([*pieces, text[done:]])


def _clock(text: str, stamps: list[re.Match[str]]) -> list[Stamp]:
    """The stamps at the words that follow them; the end is estimated from the speed so far."""
    clock: list[Stamp] = []
    for stamp in stamps:
        word = re.compile(r"\S").search(text, stamp.end())
        place = word.start() if word else len(text)
        if clock and clock[-1][0] == place:
            clock.pop()  # nothing was said between this stamp and the one before
        clock.append((place, seconds(stamp["time"])))
    if clock[0][0] > 0 and clock[0][1] > 0:
        clock.insert(0, (0, 0.0))
    steps = [(b[0] - a[0]) / (b[1] - a[1]) for a, b in pairwise(clock) if b[1] > a[1]]
    last, second = clock[-1]
    end = len(text.rstrip())
    if end > last:
        speed = max(1.0, median(steps) if steps else CHARACTERS_PER_S)
        clock.append((end, second + (end - last) / speed))
    return clock


def _unwrap(text: str, stamps: list[re.Match[str]]) -> str:
    """Lines joined to paragraphs where the text was wrapped at a width.

    Text is wrapped when no line could have taken the first word of the next one. A line
    that opens with a stamp starts a paragraph.
    """
    stamped = {stamp.start() for stamp in stamps if stamp["open"] is not None}
    lines = text.split("\n")
    width = max(map(len, lines))
    place = 0
    joins: list[int] = []
    full = 0
    for line, following in pairwise(lines):
        place += len(line) + 1
        if line.strip() and following.strip() and place not in stamped:
            joins.append(place - 1)
            full += len(line.rstrip()) + 1 + len(following.split(maxsplit=1)[0]) > width
    if width < _NARROWEST or len(joins) < 2 or full < 0.9 * len(joins):
        return text
    ends = [-1, *joins]
    return " ".join(text[a + 1 : b] for a, b in pairwise([*ends, len(text)]))

"""What stands in a transcript but was not said: sound tags, speaker tags, marks of a turn."""

import re
from collections import Counter
from functools import cache
from typing import NamedTuple

from cuewright.tables import raw

_INSIDE = r"(?:[^\[\]\n]|\n(?!\n)){1,120}?"
_SOUND = re.compile(
    rf"\[(?!\s*\d){_INSIDE}\]:?"
    r"|\([^()\n\d]{2,60}\)"
    r"|(?<!\*)\*[^*\n\d]{2,60}\*(?!\*)"
    r"|[♪♫♬](?:(?:[^♪♫♬\n]|\n(?!\n)){0,400}[♪♫♬]+|[^♪♫♬\n]*)"
)
_NAME = r"[^\W\d_][\w.'\u2019-]{0,24}(?: [\w.'\u2019-]{1,24}){0,2}"
_SPEAKER = re.compile(
    rf"^[ \t]*(?:(?:>>+|[-\u2013])[ \t]*)?(?P<name>{_NAME})[ \t]{{0,20}}:(?=\s)", re.MULTILINE
)
_CHEVRONS = re.compile(r">>+|\uff1e{2,}")
_DASH = re.compile(r"^[ \t]*(?P<dash>[-\u2013])(?=[ \t]*[^\W\d])", re.MULTILINE)
_BULLET = re.compile(r"^[ \t]*(?P<dash>[-\u2013\u2022*\u00b7])(?=[ \t])", re.MULTILINE)


class Tag(NamedTuple):
    """A stretch of text that is no speech. ``label`` is kept in the transcript, if any."""

    start: int
    end: int
    label: str | None = None
    turn: bool = False
    speaker: str | None = None


def find_tags(text: str, *, dashes: bool) -> list[Tag]:
    """All tags of ``text`` in order, none overlapping.

    With ``dashes`` a dash that opens a line marks another speaker, else it is a bullet.
    """
    tags = [*_sounds(text), *_speakers(text)]
    tags += [Tag(*match.span(), turn=True) for match in _CHEVRONS.finditer(text)]
    opening = _DASH if dashes else _BULLET
    tags += [Tag(*match.span("dash"), turn=dashes) for match in opening.finditer(text)]
    return _apart(sorted(tags))


def _apart(tags: list[Tag]) -> list[Tag]:
    kept: list[Tag] = []
    for tag in tags:
        if not kept or tag.start >= kept[-1].end:
            kept.append(tag)
    return kept


def _sounds(text: str) -> list[Tag]:
    return [
        Tag(*match.span(), label=" ".join(match[0].split()))
        for match in _SOUND.finditer(text)
        if match[0][0] not in "(*" or _is_sound(match[0])
    ]


def _is_sound(bracket: str) -> bool:
    words = re.findall(r"[^\W\d_]+", bracket.lower())
    sounds = _table("sounds")
    return any(word in sounds for word in words) and all(
        word in sounds or word in _table("fillers") for word in words
    )


def _speakers(text: str) -> list[Tag]:
    if ":" not in text:
        return []
    found = list(_SPEAKER.finditer(text))
    often = Counter(match["name"] for match in found)
    spoken = set(re.findall(r"[^\W\d_]+", text)) if found else set()
    people = {name for name, times in often.items() if _is_speaker(name, times, spoken)}
    return [
        Tag(
            match.start("name"),
            match.end(),
            label=f"{match['name']}:",
            turn=True,
            speaker=match["name"],
        )
        for match in found
        if match["name"] in people
    ]


def _is_speaker(name: str, times: int, spoken: set[str]) -> bool:
    """Whether "name:" tags a speaker: a role, or a name that comes back and is no spoken word."""
    words = re.findall(r"[^\W\d_]+(?:-[^\W\d_]+)*", name)
    if not words or not all(word[0].isupper() for word in words):
        return False
    lower = [word.lower() for word in words]
    long = [word for word in lower if len(word) > 1]  # the rest is "B" in "Speaker B"
    if long and all(word in _table("speakers") for word in long):
        return True
    if times < 2 or not long or any(word in _table("never") for word in long):
        return False
    return not any(part in spoken for word in long for part in word.split("-"))


@cache
def _table(key: str) -> frozenset[str]:
    return frozenset(raw("cuewright.hear", "tags.toml")[key])

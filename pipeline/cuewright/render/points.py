"""A few points of performance in the coach's words: one for each movement, cut to a line."""

from collections.abc import Iterator
from textwrap import shorten

from cuewright.phrases import stem
from cuewright.render import words
from cuewright.render.board import Line
from cuewright_models.plan import Cue, Plan, efforts

MOST = 6
"""Points in a post. Common practice, no source."""
_LONGEST = 120
"""Signs of one point."""
_LEAD = 3
"""Words at the start of a cue in which its movement is named."""
_LEADING_ON = frozenset((
    "a", "an", "and", "at", "but", "for", "from", "if", "in", "into", "like", "of", "on", "or",
    "so", "some", "that", "the", "to", "when", "with", "you", "your",
))  # fmt: skip
"""Words that do not end what is said."""


def points(plan: Plan) -> tuple[Line, ...]:
    """The points of the session's movements in the order of the session."""
    done = [effort.movement for block in plan.blocks for effort in efforts(block.items)]
    lines = (_point(name, plan) for name in dict.fromkeys(done))
    return tuple(line for line in lines if line is not None)[:MOST]


def _point(movement: str, plan: Plan) -> Line | None:
    """The cue that begins with the movement's name, else the first; without that name."""
    cues = [cue for cue in plan.cues if cue.about == movement]
    led = [cue for cue in cues if _led(cue)]
    for cue in led or cues:
        text = words.clean(" ".join(words.clean(cue.text).split()[_led(cue) :]))
        if text:
            return Line(_cut(text[:1].upper() + text[1:]), cue.said, words.movement(movement))
    return None


def _led(cue: Cue) -> int:
    """How many words at the start only name the movement."""
    name = {stem(part) for part in cue.about.split("-")}
    heard = [stem(word.strip(".,:;!?").lower()) for word in cue.text.split()[:_LEAD]]
    named = [at for at, word in enumerate(heard, 1) if word in name]
    return named[-1] if named and all(word in name for word in heard[: named[-1]]) else 0


def _cut(text: str) -> str:
    """Whole sentences as far as they fit, else as many words."""
    kept, text = "", _ended(text)
    for sentence in _sentences(text):
        if len(kept) + len(sentence) > _LONGEST:
            break
        kept += sentence
    return kept.strip() or shorten(text, _LONGEST, placeholder=" \u2026")


def _ended(text: str) -> str:
    """Without the small words at the end that lead on to something else."""
    told = text.split()
    while told and told[-1].lower() in _LEADING_ON:
        told.pop()
    return " ".join(told)


def _sentences(text: str) -> Iterator[str]:
    start = 0
    for at, sign in enumerate(text):
        if sign in ".?!" and text[at + 1 : at + 2] in ("", " "):
            yield text[start : at + 1]
            start = at + 1
    if start < len(text):
        yield text[start:]

"""A plan as the post under its video: light Markdown that reads well where none is shown.

Too long a post is shortened in this order: the points of performance, from the last one;
the coach's words in the options; the options, from the last one; the chapters. The session,
its targets and the cautions stay whole.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from cuewright.cautions import brief, usual
from cuewright.errors import CuewrightError
from cuewright.render import board, words
from cuewright.render.board import Line
from cuewright.render.chapters import chapters
from cuewright.render.kitlist import needed
from cuewright.render.points import points
from cuewright.render.sheet import NO_SESSION, guidance, option
from cuewright_models.plan import Block, Plan

LIMIT = 5_000
"""Characters that a video site takes. Common practice, no source."""


class TooLong(CuewrightError):
    """A session that does not fit into the post."""


@dataclass(frozen=True, slots=True)
class _Post:
    """The parts of a post, each of lines; what stands in the middle three can be shortened."""

    session: tuple[str, ...]
    options: tuple[str, ...]
    cues: tuple[str, ...]
    cautions: tuple[str, ...]
    chapters: tuple[str, ...]

    def text(self) -> str:
        """The post, ending with a line break."""
        parts = (
            *self.session,
            *_part("Scaling", self.options),
            *_part("Points of performance", self.cues),
            *_part("Take care", self.cautions),
            *_part("Chapters", self.chapters),
        )
        return "\n".join(parts).rstrip("\n") + "\n"


def page(plan: Plan, limit: int = LIMIT) -> str:
    """The post, of at most ``limit`` characters.

    Raises TooLong when the session and its cautions alone are longer.
    """
    shortest = ""
    for post in _shorter(plan):
        shortest = post.text()
        if len(shortest) <= limit:
            return shortest
    raise TooLong(
        f"The session of {words.clean(plan.source.name)} with its cautions takes "
        f"{len(shortest):,} characters, more than the {limit:,} allowed; give a higher --limit."
    )


def _shorter(plan: Plan) -> Iterator[_Post]:
    """The whole post, then each that is a step shorter."""
    whole = _whole(plan)
    for count in range(len(whole.cues), -1, -1):
        yield replace(whole, cues=whole.cues[:count])
    bare = _bulleted(option(way, plan, quoted=False) for way in plan.options)
    for count in range(len(bare), -1, -1):
        yield replace(whole, cues=(), options=bare[:count])
    yield replace(whole, cues=(), options=(), chapters=())


def _whole(plan: Plan) -> _Post:
    told = {part.heading: part.lines for part in guidance(plan)}
    return _Post(
        session=(*_opening(plan), *_session(plan), *_part("Targets", _bulleted(told["Targets"]))),
        options=_bulleted(told["Options"]),
        cues=_bulleted(points(plan)),
        cautions=tuple(f"- {text}" for text in _cautions(plan)),
        chapters=tuple(f"{words.clock(start)} {name}" for start, name in chapters(plan)),
    )


def _cautions(plan: Plan) -> tuple[str, ...]:
    """The usual ones in short, after those of this plan alone."""
    own = (words.clean(text) for text in plan.cautions if text not in usual())
    return (*own, *brief())


def _opening(plan: Plan) -> Iterator[str]:
    """Title, date, length and kit."""
    yield from (f"# {words.clean(plan.title or '') or 'Session'}", "")
    if plan.date is not None:
        named = "" if plan.date.weekday else "Date: "  # or "30 March" might be work
        yield f"{named}{words.date(plan.date)}"
    if long := _length(plan):
        yield f"How long: {long}"
    kit = ", ".join(needed(plan))
    yield from (f"You need: {kit or 'no kit'}", "")


def _length(plan: Plan) -> str:
    """As the coach says, else as the regular athlete is likely to take."""
    guess = plan.estimate
    if guess is None or not plan.blocks:
        return ""
    if guess.stated is not None:
        return words.amount(guess.stated.low_s, guess.stated.high_s, "s")
    return f"about {words.minutes(guess.total.regular.low_s, guess.total.regular.high_s)}"


def _session(plan: Plan) -> Iterator[str]:
    if not plan.blocks:
        yield from (NO_SESSION, "")
    for at, block in enumerate(plan.blocks, 1):
        yield from (f"## {_heading(at, block)}", "")
        yield from _tree(board.lines(block), "")
        yield ""


def _heading(at: int, block: Block) -> str:
    """``2. Conditioning “Low Water”``: the quotes tell the name from work."""
    name = words.clean(block.name or "")
    return f"{at}. {block.kind.capitalize()}" + (f" \u201c{name}\u201d" if name else "")


def _tree(lines: Iterable[Line], indent: str) -> Iterator[str]:
    """Slots keep their place as a list number, everything else is a bullet."""
    for line in lines:
        mark = line.label or "-"
        yield f"{indent}{mark} {words.unremarked(line.text)}"
        yield from _tree(line.under, indent + "  ")


def _bulleted(lines: Iterable[Line]) -> tuple[str, ...]:
    """``- Row: 1:00``; what is told twice stands once."""
    told = (f"- {line.label[:1].upper()}{line.label[1:]}: {line.text}" for line in lines)
    return tuple(dict.fromkeys(told))


def _part(heading: str, lines: Iterable[str]) -> Iterator[str]:
    """A heading over lines; nothing where there are none."""
    lines = tuple(lines)
    if lines:
        yield from (f"## {heading}", "", *lines, "")

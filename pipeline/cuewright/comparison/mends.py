"""Ways to take one difference out of a description, the smallest first."""

from collections.abc import Callable, Iterator, Sequence
from itertools import islice, pairwise, product

from cuewright.comparison.difference import Difference, Number
from cuewright.comparison.lines import Change, added, promised, section, taken_out
from cuewright.comparison.numerals import numerals, rewritten
from cuewright.comparison.stations import Station
from cuewright.comparison.surface import Span, Surface
from cuewright.render import words
from cuewright_models.base import Evidence
from cuewright_models.plan import Effort

_ABOVE = 3
"""Lines over a block in which its rounds or its clock may stand."""
_PLACES = 6
"""Numbers that are tried for one that should be another, the nearest first."""
_WAYS = 40


def mends(wrong: Difference, on: Surface) -> Iterator[tuple[Change, ...]]:
    """Sets of changes, each of which may do."""
    if wrong.numbers:
        yield from _numbers(wrong, on)
    if wrong.words:
        yield from _words(wrong, on)
    if wrong.order:
        yield from reordered(wrong.order, on)
    if wrong.rule == "description-missing" and wrong.station:
        if wrong.instead:
            yield from _pair(wrong.station.effort, wrong.instead, on)
        yield from added(wrong.station, wrong.near, on, apart=wrong.apart)
    if wrong.rule == "description-extra" and wrong.station:
        yield from taken_out(wrong.station, on)
    if wrong.rule == "promise-unkept":
        yield promised(wrong.expected or "", on)
    if wrong.pair and wrong.about != "structure":
        yield from _pair(wrong.pair.talk.effort, wrong.pair.other, on)
    if wrong.pair and wrong.about == "structure":
        yield from section(wrong, on)


def _numbers(wrong: Difference, on: Surface) -> Iterator[tuple[Change, ...]]:
    """Every number in the place of the old one that stands nearest."""
    anchors = _anchors(wrong, on)
    choices = [_choices(number, anchors, on) for number in wrong.numbers]
    for picked in islice(product(*(each for each in choices if each)), _WAYS):
        changes = tuple(dict.fromkeys(picked))
        if changes and _apart(changes):
            yield changes


def _apart(changes: Sequence[Change]) -> bool:
    spans = sorted(change.span for change in changes)
    return all(one.end <= two.start for one, two in pairwise(spans))


def _choices(number: Number, anchors: Sequence[Span], on: Surface) -> list[Change]:
    found = []
    for nth, anchor in enumerate(anchors):
        for numeral in numerals(on.text, *_region(anchor, on)):
            text = rewritten(numeral, number)
            if text is not None and text != numeral.text:
                far = _gap(numeral.span, anchor)
                found.append((nth, far, Change(numeral.span, text)))
    found.sort(key=lambda each: each[:2])
    return list(dict.fromkeys(change for _, _, change in found))[:_PLACES]


def _gap(one: Span, two: Span) -> int:
    return max(one.start - two.end, two.start - one.end, 0)


def _region(anchor: Span, on: Surface) -> Span:
    """The lines of an anchor and some above it."""
    first, last = on.line_of(anchor.start), on.line_of(anchor.end)
    return Span(on.lines[max(first - _ABOVE, 0)].start, on.lines[last].end)


def _anchors(wrong: Difference, on: Surface) -> list[Span]:
    """Where the wrong number may stand near."""
    said: list[Evidence] = [wrong.written]
    if wrong.pair:
        other = wrong.pair.other
        efforts, block = [other.effort.said], [other.block.said[:1]]
        said = block + efforts if wrong.about == "structure" else efforts + block
    spans = [on.span(one) for one in said]
    return [span for span in spans if span] or [Span(0, len(on.text))]


def _words(wrong: Difference, on: Surface) -> Iterator[tuple[Change, ...]]:
    """Other words in the place of some: a title, a weekday."""
    old, new = wrong.words or ("", "")
    at = on.text.casefold().find(old.casefold()) if old else -1
    if at >= 0:
        there = on.text[at : at + len(old)]
        yield (Change(Span(at, at + len(old)), _like(there, new)),)
    if old and wrong.about == "date":  # a weekday cut short: "Tues"
        at = on.text.casefold().find(old[:3].casefold())
        end = next((i for i in range(at, len(on.text)) if not on.text[i].isalpha()), len(on.text))
        if at >= 0:
            yield (Change(Span(at, end), _like(on.text[at:end], new)),)


def _like(there: str, new: str) -> str:
    """New words in the letters of the old ones: all large, or with a large one at the start."""
    if there.isupper():
        return new.upper()
    return new if there[:1].islower() else new[:1].upper() + new[1:]


def reordered(wanted: Sequence[Station], on: Surface) -> Iterator[tuple[Change, ...]]:
    """The stations' words in each other's places; first whole lines, then what was quoted."""
    for place in (_line, _quote):
        spans = [place(station, on) for station in wanted]
        found = [span for span in spans if span]
        if len(found) == len(spans) and _apart([Change(span, "") for span in found]):
            there = sorted(found)
            yield tuple(
                Change(to, on.text[span.start : span.end])
                for to, span in zip(there, found, strict=True)
                if to != span
            )


def _quote(station: Station, on: Surface) -> Span | None:
    """The words of a station without the stop behind them."""
    span = on.span(station.effort.said)
    if span is None:
        return None
    text = on.text[span.start : span.end]
    return Span(span.start, span.start + len(text.rstrip(" ,.;/")))


def _line(station: Station, on: Surface) -> Span | None:
    """From the station's first word to the end of its line."""
    span = on.span(station.effort.said)
    return None if span is None else Span(span.start, max(on.lines[on.line_of(span.end)].end,
                                                          span.end))  # fmt: skip


def _pair(talk: Effort, other: Station, on: Surface) -> Iterator[tuple[Change, ...]]:
    """The movement's name, then the whole effort, in the words of the talk."""
    span = _quote(other, on)
    if span is None:
        return
    there = on.text[span.start : span.end]
    old: list[Callable[[], str]] = [
        lambda: other.effort.as_said.strip(" .,;:"),
        lambda: words.movement(other.effort.movement, many=True),
        lambda: words.movement(other.effort.movement),
    ]
    for name in old:
        at = there.casefold().find(name().casefold())
        if name() and at >= 0:
            new = words.movement(talk.movement, many=name().endswith("s"))
            start = span.start + at
            yield (Change(Span(start, start + len(name())), _like(name(), new)),)
    yield (Change(span, words.effort(talk)),)
    line = on.lines[on.line_of(span.start)]
    yield (Change(Span(span.start, line.end), words.effort(talk)),)

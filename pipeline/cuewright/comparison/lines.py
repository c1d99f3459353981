"""Lines and parts of lines that are put into a description, or taken out of it."""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from cuewright.comparison.difference import Difference
from cuewright.comparison.stations import Station
from cuewright.comparison.surface import Span, Surface
from cuewright.render import words
from cuewright_models.base import tidy
from cuewright_models.plan import (
    Amrap,
    Effort,
    Every,
    ForTime,
    Intervals,
    Sets,
)

_LABEL = re.compile(r"(\s*\(?)(\d{1,2})([.)]\s+)")
_BULLET = re.compile(r"\s*(?:[-*+\u2022]\s+)?")
_JOINS = re.compile(r"\s*(?:,\s*(?:and\s|then\s)?|;|/|\+|\band\s|\bthen\s)\s*", re.IGNORECASE)
_ANOTHER = re.compile(r"\s*\([^()]*\)(?:\s*\+\s*)?|\s+or\s[^,;/+\n]*")
"""Another way, which goes with what it may take the place of."""
_OPEN_TAG = re.compile(r"<(li|p|tr|td|h\d|div)\b[^<>]*>\s*", re.IGNORECASE)
_BOUND = re.compile(r"</?(?:li|p|tr|h\d|div|br|ul|ol)\b[^<>]*>", re.IGNORECASE)


class Change(NamedTuple):
    """What takes the place of some characters."""

    span: Span
    text: str


def write(effort: Effort, *, name_first: bool = False) -> str:
    """An effort as the reader of written sessions takes it: ``12 dead bugs each side``."""
    name = words.movement(effort.movement, many=effort.unit == "reps")
    side = " each side" if effort.per_side else ""
    much = f"max {words.movement(effort.movement)}" if effort.max else _much(effort)
    if effort.max or not much:
        return (much or name) + side
    return f"{_upper(name)}, {much}{side}" if name_first else f"{much} {name}{side}"


def _much(effort: Effort) -> str:
    if effort.low is None or effort.high is None:
        return ""
    if effort.unit == "m" and effort.low == effort.high:
        return words.amount(effort.low, effort.high, "m")
    text = "-".join(dict.fromkeys(f"{tidy(n)}" for n in (effort.low, effort.high)))
    return f"{text} {effort.unit}".replace("kcal", "cal").removesuffix(" reps")


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def alone(span: Span, on: Surface) -> Span | None:
    """The whole line, or element of a page, of words that have it for themselves."""
    if on.web:
        return _element(span, on.text)
    line = on.lines[on.line_of(span.start)]
    others = [each for each in on.efforts if each != span and each.start < line.end]
    leads_on = on.text[line.start : line.end].rstrip(" *").endswith(":")
    shared = any(each.end > line.start for each in others) or span.end > line.end or leads_on
    return None if shared or _leads(span, line, on) else line


def _leads(span: Span, line: Span, on: Surface) -> bool:
    """Whether the line says more before the words: a heading that they follow."""
    before = on.text[line.start : span.start]
    return not before.lstrip().startswith("|") and re.search(r"[A-Za-z]{2}.*:", before) is not None


def _element(span: Span, text: str) -> Span | None:
    starts = list(_BOUND.finditer(text, 0, span.start))
    after = _BOUND.search(text, span.end)
    if not starts or after is None:
        return None
    first = starts[-1]
    if text[first.end() : span.start].strip() or text[span.end : after.start()].strip():
        return None
    whole = after[0][2:].lower().startswith(first[0][1:3].lower().strip(">"))
    return Span(first.start(), after.end() if whole and after[0][1] == "/" else after.start())


def taken_out(station: Station, on: Surface) -> Iterator[tuple[Change, ...]]:
    """Without the station: its line, or its words and what joins them to the others."""
    span = on.span(station.effort.said)
    if span is None:
        return
    line = alone(span, on)
    if line is not None:
        whole = _with_end(line, on)
        yield (*_renumbered(whole.end, on, -1, whole.start), Change(whole, ""))
    start, end = _joined(span, on)
    yield (Change(Span(start, end), _gap_left(start, end, on.text)),)
    if (other := _ANOTHER.match(on.text, end)) is not None:
        yield (Change(Span(start, other.end()), ""),)
    yield (Change(span, ""),)
    if line is None:
        yield (Change(_with_end(on.lines[on.line_of(span.start)], on), ""),)


def _gap_left(start: int, end: int, text: str) -> str:
    inner = start > 0 and end < len(text) and text[start - 1].isalnum() and text[end].isalnum()
    return " " if inner else ""


def _joined(span: Span, on: Surface) -> tuple[int, int]:
    """The words with the comma before them if there is one, else with that behind them."""
    text = on.text
    line = on.lines[on.line_of(span.start)]
    quoted = text[span.start : span.end]
    end = span.start + len(quoted.rstrip(" ,;."))
    before = list(_JOINS.finditer(text, line.start, span.start))
    if before and before[-1].end() == span.start:
        return before[-1].start(), end
    behind = _JOINS.match(text, end)
    return (span.start, behind.end()) if behind and behind.end() <= line.end else (span.start, end)


def _with_end(line: Span, on: Surface) -> Span:
    """A line with its end, so that no empty one stays; an element of a page as it is."""
    if on.web:
        return line
    end = line.end + len(on.end) if on.text[line.end :].startswith(on.end) else line.end
    return Span(line.start, end)


def _renumbered(start: int, on: Surface, by: int, like: int) -> list[Change]:
    """The numbers of the list's items from ``start`` on, each ``by`` more."""
    if on.web:
        return []
    own = _LABEL.match(on.text, like)
    out: list[Change] = []
    for line in on.lines:
        if line.start < start or own is None:
            continue
        found = _LABEL.match(on.text, line.start, line.end)
        if found is None or len(found[1]) < len(own[1]):
            deeper = on.text[line.start : line.end].startswith(own[1] + " ")
            if not deeper:
                break
        elif len(found[1]) == len(own[1]):
            out.append(Change(Span(*found.span(2)), str(int(found[2]) + by)))
    return out


def added(
    station: Station, near: Sequence[tuple[Station, bool]], on: Surface, *, apart: bool
) -> Iterator[tuple[Change, ...]]:
    """With the station: as a line like a neighbour's beside it, or in its line.

    ``near`` are the neighbours, ``True`` where the station belongs in front. What stands
    ``apart`` is of a part that the description has nothing of.
    """
    spans = [(on.span(each.effort.said), before) for each, before in near]
    found = [(span, before) for span, before in spans if span]
    last = max((span for span, _ in found), default=None)
    if apart:
        yield from _new_part(station, last, on)
    for span, before in found:
        line = alone(span, on)
        if line is not None:
            yield from _like_line(station, span, line, on, before=before)
        yield from _inline(station, span, on, before=before)
    for span, before in found:
        line = alone(span, on)
        if line is not None:
            yield from _like_line(station, span, line, on, before=not before)
    yield from (change for span, _ in found for change in _over(station, span, on))
    yield from _new_part(station, last, on)
    yield _at_end(station, on)


def _like_line(
    station: Station, span: Span, line: Span, on: Surface, *, before: bool
) -> Iterator[tuple[Change, ...]]:
    """A line of the same form as the neighbour's, and the numbers of the list moved on."""
    at = line.start if before else line.end
    for name_first in (False, True):
        text = write(station.effort, name_first=name_first)
        if on.web:
            yield (Change(Span(at, at), _element_like(line, text, on)),)
            continue
        row = on.text[line.start : line.end].lstrip().startswith("|")
        own = _prefix(on.text[line.start : span.start], 0 if before else 1) + text
        made = _row(station, line, on, 0 if before else 1) if row else own
        if made is not None:
            put = made + on.end if before else on.end + made
            yield (Change(Span(at, at), put), *_renumbered(at, on, 1, line.start))


def _over(station: Station, span: Span, on: Surface) -> Iterator[tuple[Change, ...]]:
    """A line over the one that the neighbour hangs under: in front of "4 rounds of"."""
    nth = on.line_of(span.start)
    deep = _indent(on.lines[nth], on)
    for line in reversed(on.lines[:nth]):
        there = on.text[line.start : line.end]
        if there.strip() and _indent(line, on) < deep:
            bullet = _BULLET.match(there)
            made = (bullet[0] if bullet else "") + write(station.effort) + on.end
            yield (Change(Span(line.start, line.start), made),)
            return


def _indent(line: Span, on: Surface) -> int:
    text = on.text[line.start : line.end]
    return len(text) - len(text.lstrip())


def _element_like(line: Span, text: str, on: Surface) -> str:
    opened = _OPEN_TAG.match(on.text, line.start)
    return f"<{opened[1]}>{text}</{opened[1]}>" if opened else f"<br>{text}"


def _prefix(there: str, more: int) -> str:
    """The bullet of the neighbour, or its number and ``more``."""
    found = _LABEL.match(there)
    if found is None:
        return there
    return found[1] + str(int(found[2]) + more) + found[3] + there[found.end() :]


def _row(station: Station, line: Span, on: Surface, more: int) -> str | None:
    """A row like the neighbour's: its number and one, the name, the amount."""
    cells = on.text[line.start : line.end].strip().strip("|").split("|")
    effort = station.effort
    name = _upper(words.movement(effort.movement, many=effort.unit == "reps"))
    side = " each side" if effort.per_side else ""
    much = ("max" if effort.max else _much(effort)) + side
    named = [at for at, cell in enumerate(cells) if re.search(r"[A-Za-z]{3}", cell)]
    counted = [at for at, cell in enumerate(cells) if re.search(r"\d|max", cell)]
    if not named:
        return None
    out = [cell if not cell.strip() else " " for cell in cells]
    label = re.fullmatch(r"\s*(\d{1,2})\s*", cells[0])
    numbered = label is not None and named[0] > 0
    amounts = [at for at in counted if at > named[0]]
    if amounts:
        out[named[0]], out[amounts[0]] = f" {name} ", f" {much} "
    else:
        out[named[0]] = f" {write(effort)} "
    if numbered and label:
        out[0] = f" {int(label[1]) + more} "
    return "|" + "|".join(out) + "|"


def _inline(
    station: Station, span: Span, on: Surface, *, before: bool
) -> Iterator[tuple[Change, ...]]:
    """Behind the neighbour's words, joined as the others of the line are, or before them."""
    quoted = on.text[span.start : span.end]
    end = span.start + len(quoted.rstrip(" ,;."))
    line = on.lines[on.line_of(span.start)]
    joins = [m[0] for m in _JOINS.finditer(on.text, line.start, line.end) if m[0].strip() in ",/+"]
    join = max(joins, key=joins.count) if joins else ", "
    for name_first in (False, True):
        text = write(station.effort, name_first=name_first)
        text = text.replace(", ", " ") if name_first else text
        ways = [
            Change(Span(end, end), join + text),
            Change(Span(line.end, line.end), join + text),
            Change(Span(span.start, span.start), text + join),
        ]
        yield from ((way,) for way in (reversed(ways) if before else ways))


def _new_part(station: Station, span: Span | None, on: Surface) -> Iterator[tuple[Change, ...]]:
    """A part of its own behind the neighbour's part: how it is run, then the work."""
    at = _part_end(span, on)
    for gap in (on.end, ""):
        text = f"{on.end}{gap}{_headed(station)}"
        if on.web:
            text = f"<p>{_headed(station)}</p>"
        yield (Change(Span(at, at), text),)


def _part_end(span: Span | None, on: Surface) -> int:
    """Where the paragraph or list ends that holds the neighbour."""
    if span is None:
        return len(on.text.rstrip())
    if on.web:
        close = re.compile(r"</(?:ul|ol|p|table)>", re.IGNORECASE).search(on.text, span.end)
        return close.end() if close else len(on.text.rstrip())
    last = on.line_of(span.end)
    while last + 1 < len(on.lines) and on.text[slice(*on.lines[last + 1])].strip():
        last += 1
    return on.lines[last].end


def _headed(station: Station) -> str:
    """The station with its rounds and clock in one line: ``Boat pose: 4 sets of 15 s``."""
    text = write(station.effort)
    told = how(station)
    return f"{_upper(told)}: {text}" if told else text


def how(station: Station) -> str:
    """How a station's block is run: ``4 sets, rest 20 s``."""
    rounds = words.between(station.low, station.high)
    counted = "" if rounds in ("", "1") else f"{rounds} rounds"
    ladder = "-".join(map(str, station.rungs))
    match station.block.structure:
        case ForTime(cap_s=cap):
            told = f"{ladder or counted} for time".strip()
            return told + (f", {tidy(cap / 60)} min cap" if cap else "")
        case Amrap(duration_s=length):
            return f"AMRAP {tidy((length or 0) / 60)} min"
        case Every(every_s=gap, times=times):
            return f"Every {tidy(gap or 60)} s x {times or 1}"
        case Intervals(work_s=work, rest_s=rest, times=times):
            return f"{tidy(work or 0)} s on / {tidy(rest or 0)} s off x {times or 1}"
        case Sets(rest_s=rest):
            sets = f"{rounds or '1'} sets"
            return (ladder or sets) + (f", rest {tidy(rest)} s" if rest else "")
        case _:
            return ladder or counted


def _at_end(station: Station, on: Surface) -> tuple[Change, ...]:
    at = len(on.text.rstrip())
    return (Change(Span(at, at), f"{on.end}{on.end}{_headed(station)}"),)


def section(wrong: Difference, on: Surface) -> Iterator[tuple[Change, ...]]:
    """How the block is run, in words of the talk, in the place of the line that says it."""
    if wrong.pair is None:
        return
    block = wrong.pair.other.block
    span = on.span(block.said[:1])
    told = how(wrong.pair.talk)
    if span is None or not told:
        return
    line = on.lines[on.line_of(span.start)]
    yield (Change(Span(span.start, line.end), _upper(told)),)
    first = on.span(wrong.pair.other.effort.said)
    if first:
        start = on.lines[on.line_of(first.start)].start
        yield (Change(Span(start, start), _upper(told) + ":" + on.end),)


def promised(what: str, on: Surface) -> tuple[Change, ...]:
    """A line at the end for the writer to fill in: only the coach knows it."""
    at = len(on.text.rstrip())
    text = f"To fill in, as the talk says: “{what}”"
    put = f"<p>{text}</p>" if on.web else f"{on.end}{on.end}{text}"
    return (Change(Span(at, at), put),)

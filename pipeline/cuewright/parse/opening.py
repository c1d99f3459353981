"""The session's title and date, as the coach says them."""

import re
from collections.abc import Iterator, Sequence
from functools import cache
from typing import Any, NamedTuple

from cuewright.parse.build import Quote
from cuewright.tables import raw
from cuewright_models.divided import Divided
from cuewright_models.plan import Date
from cuewright_models.tokens import CalendarDate, Token
from cuewright_models.transcript import Transcript

_LONGEST = 8
"""Words in a name, at most."""
_RUN_ON = 4
"""Words kept of a name that nothing ends."""
_PAUSE_S = 0.5
_EARLY = 0.2
"""The part of a talk in which the name and the day are mostly said."""
_OPENING = 60
"""Tokens that count as early in a short talk."""
_BACK = 6
"""Tokens before the naming word in which the session may be spoken of."""
_AFTER = 7
"""Tokens after "name" in which the name starts."""
_NEAR = 3
_STOPS = (".", "?", "!")
_PRESENTS = ("is", "it's", "doing")
_SURE = 4


_CONTRACTED = re.compile(r"(it|that|there|this|you|we|i|they|he|she|what|who)'\w+")


class _Name(NamedTuple):
    score: int
    start: int
    end: int


def title(heard: Transcript, divided: Divided) -> str | None:
    """The session's name: kept in the case of the captions, in title case if they have none."""
    tokens = divided.reading.tokens
    found = [name for name in _names(heard, divided) if name.score >= _SURE]
    if not found:
        return None
    best = max(found, key=lambda name: (name.score, -name.start))
    words = heard.words[tokens[best.start].first : tokens[best.end - 1].last]
    return _cased([word.text for word in words])


def _names(heard: Transcript, divided: Divided) -> Iterator[_Name]:
    """Every place where something is named, with how surely it is the session."""
    tokens = divided.reading.tokens
    cuts = {clause.start for clause in divided.clauses if tokens[clause.start].norm != "then"}
    known = {(m.start, m.end) for m in divided.reading.movements}
    for at in range(len(tokens)):
        if tokens[at].norm not in _leading():
            continue
        if (start := _start(tokens, at)) is not None:
            end = _ending(tokens, start, cuts)
        elif (start := _capitals(heard, divided, at)) is not None:
            end = _stop(tokens, start)
        else:
            continue
        if end > start and (start, end) not in known:
            yield _Name(_sureness(tokens, at) + 2 * _early(tokens, at), start, end)


def _early(tokens: Sequence[Token], at: int) -> bool:
    return at < max(len(tokens) * _EARLY, _OPENING)


def _start(tokens: Sequence[Token], at: int) -> int | None:
    """Where a name may start after the naming word at ``at``, if it is one."""
    table, norm = _table("title"), tokens[at].norm
    if norm in table["named"]:
        return _after_naming(tokens, at)
    if at and f"{tokens[at - 1].norm} {norm}" in table["known-as"]:
        return None if tokens[at + 1 : at + 2] and tokens[at + 1].norm == "the" else at + 1
    return _after_name(tokens, at) if norm in table["name"] else None


def _after_naming(tokens: Sequence[Token], at: int) -> int | None:
    """Where the name may start after a word such as "called": "I've called this one …"."""
    table = _table("title")
    before = [token.norm for token in tokens[max(at - 4, 0) : at]]
    start = at + 1
    if not tokens[at].after and any(word in table["active"] for word in before[-2:]):
        while start < len(tokens) and tokens[start].norm in table["object"]:
            start += 1
            if tokens[start - 1].after:
                break
    if tokens[at].norm in table["active-only"] and start == at + 1:
        return start if set(before) & set(table["pointing"]) else None
    return start


def _after_name(tokens: Sequence[Token], at: int) -> int | None:
    """Where the name may start after "the name is", "the name of … is", "got a name:"."""
    table = _table("title")
    before = [token.norm for token in tokens[max(at - 2, 0) : at]]
    if not before or before[-1] not in table["article"]:
        return None
    following = [token.norm for token in tokens[at + 1 : at + 1 + _AFTER]]
    if set(following) & set(table["named"]):
        return None  # "it has a name, and it's called …": the name comes there
    if following[:1] == ["of"]:
        if "by" in before:
            return at + 2
        return at + 2 + following.index("is") if "is" in following else None
    if following[:1] == ["is"]:
        return at + 2
    colon = next((i for i in range(at, min(at + 6, len(tokens))) if tokens[i].after == ":"), None)
    if colon is not None:
        return colon + 1
    return at + 1 if set(before) & set(table["having"]) or tokens[at].norm == "name's" else None


def _capitals(heard: Transcript, divided: Divided, at: int) -> int | None:
    """Where a name in capitals starts after "today's session is"."""
    tokens = divided.reading.tokens
    if tokens[at].norm not in _PRESENTS or tokens[at].after or not at:
        return None
    before = {token.norm.removesuffix("'s") for token in tokens[max(at - 2, 0) : at]}
    start, end = at + 1, _stop(tokens, at + 1)
    texts = [word.text for word in heard.words[tokens[start - 1].last : tokens[end - 1].last]]
    small = _table("title")["small"]
    dated = any(day.start < end and start < day.end for day in divided.reading.dates)
    proper = all(text[:1].isupper() or text in small for text in texts) and texts[:1] != ["I"]
    if dated or not texts or not proper or not texts[0][:1].isupper():
        return None
    return start if before & set(_table("title")["session"]) else None


def _stop(tokens: Sequence[Token], start: int) -> int:
    """The end of the words up to the next punctuation, at most as many as a name has."""
    last = min(start + _LONGEST, len(tokens))
    return next((at + 1 for at in range(start, last) if tokens[at].after), last)


def _ending(tokens: Sequence[Token], start: int, cuts: set[int]) -> int:
    """Where a name that starts at ``start`` ends; ``start`` itself when none stands there."""
    table = _table("title")
    if start >= len(tokens) or tokens[start].norm in table["never"] or _contracted(tokens, start):
        return start
    last = _stop(tokens, start)
    for at in range(start + 1, last):
        pair = (tokens[at].norm, tokens[at + 1].norm.split("'")[0]) if at + 1 < last else ()
        if (
            at in cuts
            or tokens[at].norm in table["ends"]
            or _contracted(tokens, at)
            or " ".join(pair) in table["pairs"]
            or tokens[at].pause_s >= _PAUSE_S
        ):
            return at
    ended = last == len(tokens) or tokens[last - 1].after or last in cuts
    return last if ended else _run_on(tokens, start, last)


def _run_on(tokens: Sequence[Token], start: int, last: int) -> int:
    """The end of a name that nothing ends: a few words, and none of the small ones last."""
    end = start + _RUN_ON
    while end < last and tokens[end - 1].norm in _table("title")["small"]:
        end += 1
    return end


def _contracted(tokens: Sequence[Token], at: int) -> bool:
    """ "it's", "there'll": a verb, which no name has."""
    return bool(_CONTRACTED.fullmatch(tokens[at].norm))


def _sureness(tokens: Sequence[Token], at: int) -> int:
    """How surely the thing named by the word at ``at`` is the session; the nearest noun tells."""
    table = _table("title")
    before = []
    for token in reversed(tokens[max(at - _BACK, 0) : at]):
        if token.after in (".", "?", "!"):
            break
        before.append(token.norm.removesuffix("'s"))
    if set(before) & set(table["away"]):
        return 0
    after = [token.norm.removesuffix("'s") for token in tokens[at + 1 : at + _NEAR + 1]]
    for word in (*before, *after):
        if word in table["other"]:
            return 0
        if word in table["session"]:
            return 4
        if word in table["pointing"]:
            return 3
    return 0


def _cased(words: Sequence[str]) -> str:
    texts = [re.sub(r"^[^\w]+|[^\w]+$", "", word) for word in words]
    if any(char.isupper() for text in texts for char in text):
        return " ".join(texts)
    small = _table("title")["small"]
    return " ".join(
        text if place and text in small else text[:1].upper() + text[1:]
        for place, text in enumerate(texts)
    )


# --- the date ---------------------------------------------------------------------------


def date(divided: Divided, quote: Quote) -> Date | None:
    """The day of the session itself, as far as it was said."""
    tokens = divided.reading.tokens
    mine = [day for day in divided.reading.dates if _is_today(tokens, day)]
    if not mine:
        return None
    first = mine[0]
    parts = [first, *(day for day in mine[1:] if _goes_on(first, day))]
    fields = {
        name: next((value for part in parts if (value := getattr(part, name)) is not None), None)
        for name in ("year", "month", "day", "weekday")
    }
    return Date(**fields, said=tuple(quote(part.start, part.end) for part in parts))


def _is_today(tokens: Sequence[Token], day: CalendarDate) -> bool:
    """Whether a date is said of the session and not of another day."""
    table = _table("date")
    if day.weeks or day.days or day.months or day.side == -1:
        return False
    before = [token.norm for token in tokens[max(day.start - _BACK, 0) : day.start]]
    nearest = [word for word in before if word not in ("the", "a", "this")][-1:]
    if _recorded(before) or nearest == ["today"]:
        return True
    if set(nearest) & set(table["other"]) or _of_event(before):
        return _greeted(tokens, day) and nearest == ["on"]
    if _points(before) or _greeted(tokens, day):
        return True
    whole = day.day is not None and day.month is not None
    return before[-1:] not in (["the"], ["every"]) and (
        (whole and _early(tokens, day.start)) or _opens(tokens, day)
    )


def _of_event(before: Sequence[str]) -> bool:
    """ "The race is …", "entries close …", but not "it was like a trolley race, it's …"."""
    table = _table("date")
    said = before[-4:]
    if said[-1:] == ["it's"] and len(said) > 2 and said[-2] in table["event"]:
        return not {"a", "an", "like"} & set(before[:-2])
    return bool(set(said) & set(table["event"]))


def _recorded(before: Sequence[str]) -> bool:
    """ "Recorded on …"."""
    return bool(set(before[-3:]) & set(_table("date")["recorded"]))


def _greeted(tokens: Sequence[Token], day: CalendarDate) -> bool:
    """ "Happy Friday", "welcome, here we are on a wet Thursday night"."""
    before = [token.norm for token in tokens[max(day.start - _BACK, 0) : day.start]]
    greeting = bool(set(before) & set(_table("date")["greeting"])) and _opens(tokens, day)
    return before[-1:] == ["happy"] or greeting


def _opens(tokens: Sequence[Token], day: CalendarDate) -> bool:
    """ "Tuesday night", "Tuesday parade night", or the day alone, as a talk opens."""
    if day.start >= _OPENING:
        return False
    after = [token.norm for token in tokens[day.end : day.end + 2]]
    alone = tokens[day.end - 1].after in _STOPS and (
        day.start == 0 or tokens[day.start - 1].after in (*_STOPS, ",")
    )
    parted = bool(tokens[day.end - 1].after)
    return alone or (not parted and bool(set(after) & set(_table("date")["part"])))


def _points(before: Sequence[str]) -> bool:
    """ "it's", "today is", "and it's a": the words that say which day it is."""
    table = _table("date")
    words = [word for word in before if word not in ("the", "a", "uh", "um", "er")]
    if not words:
        return False
    if words[-1] in ("it's", "today's", "tonight's"):
        return True
    return len(words) > 1 and words[-1] in ("is", "for") and words[-2] in table["subject"]


def _goes_on(first: CalendarDate, other: CalendarDate) -> bool:
    """Whether two dates tell parts of one: "it's the 23rd, and it's a Monday"."""
    both = [
        name
        for name in ("year", "month", "day", "weekday")
        if getattr(first, name) is not None and getattr(other, name) is not None
    ]
    return not both


@cache
def _leading() -> frozenset[str]:
    """The words right after which a name may come."""
    table = _table("title")
    known = (phrase.split()[-1] for phrase in table["known-as"])
    return frozenset((*table["named"], *table["name"], *known, *_PRESENTS))


@cache
def _table(name: str) -> dict[str, Any]:
    table: dict[str, Any] = raw("cuewright.parse", "opening.toml")[name]
    return table

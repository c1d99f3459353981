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

_LONGEST = 6
"""Words in a name, at most."""
_RUN_ON = 4
"""Words kept of a name that nothing ends."""
_PAUSE_S = 0.5
_EARLY = 0.2
"""The part of a talk in which the name and the day are mostly said."""
_BACK = 6
"""Tokens before the naming word in which the session may be spoken of."""
_NEAR = 3
_SURE = 4


class _Name(NamedTuple):
    score: int
    start: int
    end: int


def title(heard: Transcript, divided: Divided) -> str | None:
    """The session's name: kept in the case of the captions, in title case if they have none."""
    tokens = divided.reading.tokens
    found = [name for name in _names(divided) if name.score >= _SURE]
    if not found:
        return None
    best = max(found, key=lambda name: (name.score, -name.start))
    words = heard.words[tokens[best.start].first : tokens[best.end - 1].last]
    return _cased([word.text for word in words])


def _names(divided: Divided) -> Iterator[_Name]:
    """Every place where something is named, with how surely it is the session."""
    tokens, table = divided.reading.tokens, _table("title")
    movements = {(m.start, m.end) for m in divided.reading.movements}
    for at, token in enumerate(tokens):
        start = _after_naming(tokens, at) if token.norm in table["named"] else _after_name(tokens, at)
        end = _ending(tokens, start) if start is not None else None
        if start is None or end is None or end == start:
            continue
        score = _sureness(tokens, at) + 2 * (at < len(tokens) * _EARLY)
        plain = tokens[start].norm in ("a", "an") or (start, end) in movements
        yield _Name(score - 3 * plain, start, end)


def _after_naming(tokens: Sequence[Token], at: int) -> int | None:
    """Where the name may start after a word such as "called"."""
    table = _table("title")
    before = [token.norm for token in tokens[max(at - 2, 0) : at]]
    start = at + 1
    if not tokens[at].after and any(word in table["active"] for word in before):
        while start < len(tokens) and tokens[start].norm in table["object"]:
            start += 1
            if tokens[start - 1].after:
                break
    if tokens[at].norm in ("call", "calling", "naming") and start == at + 1 and "one" not in before:
        earlier = [token.norm for token in tokens[max(at - 4, 0) : at]]
        if not {"one", "this", "session"} & set(earlier):
            return None
    return start


def _after_name(tokens: Sequence[Token], at: int) -> int | None:
    """Where the name may start after "the name …"."""
    if tokens[at].norm not in ("name", "name's"):
        return None
    if at and tokens[at - 1].norm not in ("the", "a", "session's", "class's", "its", "it's", "tonight's", "today's"):
        return None
    following = [token.norm for token in tokens[at + 1 : at + 7]]
    if following[:1] == ["of"] and "is" in following:
        return at + 2 + following.index("is")
    if following[:1] == ["is"]:
        return at + 2
    has = at > 1 and tokens[at - 2].norm in ("has", "got", "have", "by", "under")
    return at + 1 if has or tokens[at].after in (":", ",") or tokens[at].norm == "name's" else None


def _ending(tokens: Sequence[Token], start: int) -> int | None:
    """Where a name that starts at ``start`` ends."""
    table = _table("title")
    while start < len(tokens) and tokens[start].norm in ("uh", "um", "er", "erm"):
        start += 1
    last = min(start + _LONGEST, len(tokens))
    for at in range(start, last):
        norm, pair = tokens[at].norm, " ".join(token.norm for token in tokens[at : at + 2])
        stops = norm in table["ends"] and not (norm == "then" and not _clausal(tokens, at + 1))
        if stops or _contracted(norm) or pair.split("'")[0] in table["pairs"]:
            if at > start:
                return at
            return None if stops and norm not in ("you", "i", "we", "there", "my", "our", "now", "then", "so") else at
        if tokens[at].after or (at + 1 < len(tokens) and tokens[at + 1].pause_s >= _PAUSE_S):
            return at + 1
    return last if last == len(tokens) else start + _RUN_ON


def _clausal(tokens: Sequence[Token], at: int) -> bool:
    """Whether a clause, not a word of a name, follows "then"."""
    return at < len(tokens) and tokens[at].norm.split("'")[0] in (
        "you", "we", "i", "it", "there", "the", "they", "that",
    )  # fmt: skip


def _contracted(norm: str) -> bool:
    """ "it's", "there'll": a verb, which no name has."""
    return bool(re.fullmatch(r"(it|that|there|this|you|we|i|they|he|she|what|who)'\w+", norm))


def _sureness(tokens: Sequence[Token], at: int) -> int:
    """How surely the thing named before ``at`` is the session."""
    table = _table("title")
    before = []
    for token in reversed(tokens[max(at - _BACK, 0) : at]):
        if token.after in (".", "?", "!"):
            break
        before.append(token.norm.removesuffix("'s"))
    if any(word in table["other"] for word in before[:_NEAR]):
        return 0
    if any(word in table["session"] for word in before):
        return 4
    after = [token.norm for token in tokens[at + 1 : at + _NEAR + 1]]
    return 3 if any(word in table["pointing"] for word in (*before, *after)) else 0


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
    if set(nearest) & set(table["other"]) or set(before[-4:]) & set(table["event"]):
        return False
    if _points(before):
        return True
    early = day.start < len(tokens) * _EARLY
    after = tokens[day.end].norm if day.end < len(tokens) else ""
    named = before[-1:] not in (["the"], ["every"])
    whole = day.day is not None and day.month is not None
    return early and named and (whole or (after in table["part"] and day.start < len(tokens) * _EARLY / 4))


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
def _table(name: str) -> dict[str, Any]:
    table: dict[str, Any] = raw("cuewright.parse", "opening.toml")[name]
    return table

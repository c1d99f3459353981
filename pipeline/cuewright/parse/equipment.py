"""What the coach says of kit: what is needed, whether that is all, or that nothing is."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import islice

from cuewright.parse.build import Quote
from cuewright.parse.marks import Marks
from cuewright.parse.sums import words
from cuewright.phrases import Phrases
from cuewright.tables import raw
from cuewright_models.divided import Divided
from cuewright_models.plan import Claim
from cuewright_models.tokens import Mention, norm_at, starting_in

_STEP = 10
"""Tokens from one item of a list to the next, at most."""
_BEFORE = 25
"""Tokens of a list before "no other kit"."""
_IF = 6
"""Tokens from "if" to "no kit" in "if you've got no kit"."""
_PART = 6
"""Tokens after "no kit" in which it may be said of which part that is so."""
_OTHER_DAYS = {"last", "next", "yesterday", "tomorrow"}
_NO = ("no", "not", "nor", "without")
_COMPLETE = ("kit-complete", "kit-whole")
_STOPS = (".", "?", "!")
_MOVING = ("cues", "scaling", "pacing")


def kit_claims(divided: Divided, marks: Marks, quote: Quote) -> Iterator[Claim]:
    """The ``equipment`` claims of a talk: that nothing is needed, then what is."""
    nouns = [n for n in _kit().longest(divided.reading.stems) if _is_kit(divided, n)]
    told = marks.all("kit-none")
    told += [
        m for m in _negated(divided) if not any(m.start < t.end and t.start < m.end for t in told)
    ]
    none = [m for m in sorted(told, key=_start) if _rules_out(divided, marks, m)]
    for mention in none:
        yield Claim(kind="equipment", about="none", said=(quote(mention.start, mention.end),))
    found: dict[tuple[str, bool], list[tuple[int, int]]] = {}
    seen: set[int] = set()
    for start, items, only in _lists(divided, marks, nouns, none):
        for noun in items:
            if noun.start not in seen:
                seen.add(noun.start)
                place = (min(start, noun.start), max(start, noun.end))
                found.setdefault((noun.name, only), []).append(place)
    for (name, only), listed in found.items():
        said = tuple(quote(start, end) for start, end in listed)
        yield Claim(kind="equipment", about=name, only=only, said=said)


def _negated(divided: Divided) -> Iterator[Mention]:
    """ "Not a bit of kit", "won't need a single thing", "bring nothing"."""
    tokens, table = divided.reading.tokens, words()
    for at, token in enumerate(tokens):
        if token.norm not in table["kit"]:
            continue
        first = at
        while first > 0 and tokens[first - 1].norm in table["between"]:
            first -= 1
        before = norm_at(tokens, first - 1)
        wanted = token.norm in table["whole-kit"] or not table["needs"].isdisjoint(
            t.norm for t in tokens[max(first - 2, 0) : at]
        )
        if wanted and before in table["none"] and at - first <= _PART:
            yield Mention(first - 1, at + 1, "kit-none")


def _is_kit(divided: Divided, noun: Mention) -> bool:
    """Whether a word means the thing, not "no rope", not "kettlebell swings"."""
    near = starting_in(divided.reading.movements, noun.start - _PART, noun.end)
    long = any(m.end >= noun.end and m.end - m.start > noun.end - noun.start for m in near)
    return not long and norm_at(divided.reading.tokens, noun.start - 1) not in _NO


def _rules_out(divided: Divided, marks: Marks, mention: Mention) -> bool:
    """Whether "no kit" is said of the session, not "if you've got no kit", "no kit but"."""
    tokens = divided.reading.tokens
    before = {token.norm for token in tokens[max(mention.start - _IF, 0) : mention.start]}
    after = {token.norm for token in tokens[mention.end : mention.end + 1]}
    if marks.section(mention.start) == "scaling" or "if" in before or before & _OTHER_DAYS:
        return False
    asked = tokens[mention.end - 1].after == "?"
    if asked or marks.inside("kit-part", mention.end, mention.end + _PART):
        return False
    return not after & {"apart", "but", "except", "other", "order", "list", "bag"}


def _lists(
    divided: Divided, marks: Marks, nouns: Sequence[Mention], none: Sequence[Mention]
) -> Iterator[tuple[int, list[Mention], bool]]:
    """The lists of kit: where each starts, its items, and whether it is called complete."""
    denied = {at for mention in none for at in range(mention.start, mention.end)}
    for mention in marks.all("kit-whole"):
        before = starting_in(nouns, mention.start - _BEFORE, mention.start)
        yield mention.start, [*before, *_items(divided, nouns, mention.end)], True
    for mention in marks.all("kit-complete"):
        if marks.section(mention.start) == "open":  # "grab a mat and a bell, that's your lot"
            first, _ = marks.around(mention.start, mention.end, _BEFORE)
            yield mention.start, [*starting_in(nouns, first, mention.start)], True
    for head in _heads(divided, marks):
        if denied.isdisjoint(range(head.start, head.end)):
            items = _items(divided, nouns, head.end)
            last = items[-1].end + _STEP if items else head.end
            ends = [m for name in _COMPLETE for m in marks.inside(name, head.start, last)]
            after = [m.start for m in ends if items and m.start >= items[0].end]
            stop = min(after, default=last)
            yield head.start, [item for item in items if item.start < stop], bool(ends)
    for mention in none:
        if divided.reading.tokens[mention.end - 1].after not in _STOPS:
            _, last = marks.around(mention.start, mention.end, 2 * _STEP)
            items = _items(divided, nouns, mention.end)
            yield mention.start, [item for item in items if item.start < last], False


def _heads(divided: Divided, marks: Marks) -> Iterator[Mention]:
    """The words that open a list of kit."""
    for head in marks.all("kit-list"):
        if not _of_doing(divided, head):
            yield head
    for head in marks.all("kit-need"):
        if not _of_doing(divided, head) and marks.section(head.start) not in _MOVING:
            yield head


def _of_doing(divided: Divided, head: Mention) -> bool:
    """ "You need to …", "if you need"."""
    tokens = divided.reading.tokens
    after = tokens[head.end].norm if head.end < len(tokens) else ""
    before = tokens[head.start - 1].norm if head.start else ""
    return after in ("to", "if") or before == "if"


def _items(divided: Divided, nouns: Sequence[Mention], start: int) -> list[Mention]:
    """The items of a list that starts at ``start``, each close to the one before.

    No full stop stands inside a list, only before it: "Kit. Gloves, a rope."
    """
    items: list[Mention] = []
    for noun in islice(nouns, bisect_left(nouns, start, key=_start), None):
        last = items[-1].end if items else start
        between = divided.reading.tokens[last - 1 : noun.start]
        if noun.start - last > _STEP or (items and any(t.after in _STOPS for t in between)):
            break
        items.append(noun)
    return items


def _start(mention: Mention) -> int:
    return mention.start


@cache
def _kit() -> Phrases:
    return Phrases(raw("cuewright.parse", "claims.toml")["kit"])

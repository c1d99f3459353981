"""True sentences about a session, made from its gold plan, each with the number to change.

They are what a coach says over again: the rounds, an amount, a sum, how long the whole
takes, a target, the day. Only what the gold plan holds once and for certain is said.
"""

from collections import Counter
from collections.abc import Iterator
from typing import Any, NamedTuple

from cuewright.movements.catalogue import catalogue

Gold = dict[str, Any]
WORK = ("conditioning", "strength", "accessory", "skill")
SAID = {
    "rounds": (
        "So that's <{n}> {turns} in all.",
        "One more time, <{n}> {turns} of the {name}.",
        "To sum up, it's <{n}> {turns} of the {name}.",
    ),
    "reps": (
        "To recap, it's <{n}> {name}.",
        "So to say it back, <{n}> {name}.",
        "One more time, <{n}> {name}.",
    ),
    "sum": (
        "By the end you'll have done <{n}> {name}.",
        "If you add it up, that's <{n}> {name}.",
        "That's <{n}> {name} in total.",
    ),
    "distance": (
        "If you add it up, that's <{n}> metres of {name}.",
        "That's <{n}> metres of {name} in total.",
    ),
    "length": (
        "The whole session is <{n}> minutes from start to finish.",
        "All in, start to finish, it's <{n}> minutes.",
        "You'll be out of here in <{n}> minutes, start to finish.",
    ),
    "target": (
        "Remember, I want the {name} done in <{n}> {unit}.",
        "Again, the {name} should take you <{n}> {unit}.",
    ),
    "date": (
        "It's <Tuesday> the 6th of October 2026.",
        "Today is <Wednesday> the 14th of January 2026.",
        "It's <Saturday>, the 11th of April 2026.",
    ),
}
KIND = {"distance": "sum"}


class Planted(NamedTuple):
    """A true sentence: what kind of truth, the words with the number marked, what else fits."""

    kind: str
    sentence: str
    fits: frozenset[float] = frozenset()
    first: bool = False
    """Said at the start of the talk, not at the end."""


class Work(NamedTuple):
    """An effort of a working block and how often it is done; ``None`` where that is open."""

    effort: Gold
    times: int | None
    block: Gold


def sentences(gold: Gold, minutes: int | None) -> Iterator[Planted]:
    """Every true sentence, each truth in every wording; ``minutes`` as told in the talk."""
    for kind, said, fits in (*_rounds(gold), *_amounts(gold), *_targets(gold), *_lengths(minutes)):
        for wording in SAID[kind]:
            yield Planted(KIND.get(kind, kind), wording.format(**said), fits)
    if not gold.get("date"):
        for wording in SAID["date"]:
            yield Planted("date", wording, first=True)


Truth = tuple[str, dict[str, object], frozenset[float]]


def _rounds(gold: Gold) -> Iterator[Truth]:
    blocks = [b for b in gold["blocks"] if b["kind"] in WORK]
    turning = [b for b in blocks if any(i["do"] == "repeat" for i in b["items"])]
    if len(turning) != 1 or any(b["structure"]["kind"] == "intervals" for b in blocks):
        return
    repeats = [item for item in turning[0]["items"] if item["do"] == "repeat"]
    times, names = repeats[0]["times"], [each for each in map(_name, repeats[0]["items"]) if each]
    if len(repeats) == 1 and times["low"] == times["high"] > 1 and names:
        turns = "sets" if turning[0]["structure"]["kind"] == "sets" else "rounds"
        yield "rounds", {"n": times["low"], "turns": turns, "name": names[0]}, frozenset()


def _amounts(gold: Gold) -> Iterator[Truth]:
    """Movements that the session has once, in reps or metres, on both sides at once."""
    work = list(_work(gold))
    often = Counter(e["movement"] for b in gold["blocks"] for e in _efforts(b["items"]))
    for effort, times, _ in work:
        much, name = effort.get("low"), _name(effort)
        one = (
            often[effort["movement"]] == 1 and not effort.get("per_side") and not effort.get("max")
        )
        if not one or not name or not much or much != effort.get("high"):
            continue
        fits = frozenset((much, much * (times or 1)))
        if effort["unit"] == "reps":
            yield "reps", {"n": much, "name": name}, fits
        if times and times > 1 and effort["unit"] in ("reps", "m"):
            kind = "sum" if effort["unit"] == "reps" else "distance"
            yield kind, {"n": much * times, "name": name}, fits


def _work(gold: Gold) -> Iterator[Work]:
    for block in gold["blocks"]:
        if block["kind"] in WORK:
            open_ = block["structure"]["kind"] in ("amrap", "every", "intervals")
            yield from _walk(block["items"], None if open_ else 1, block)


def _walk(items: list[Gold], times: int | None, block: Gold) -> Iterator[Work]:
    for item in items:
        if item["do"] == "effort":
            yield Work(item, times, block)
        elif item["do"] == "repeat":
            known = times and item["times"]["low"] == item["times"]["high"]
            yield from _walk(item["items"], times * item["times"]["low"] if known else None, block)


def _efforts(items: list[Gold]) -> Iterator[Gold]:
    for item in items:
        if item["do"] == "effort":
            yield item
        yield from _efforts(item.get("items", []))


def _targets(gold: Gold) -> Iterator[Truth]:
    often = Counter(e["movement"] for b in gold["blocks"] for e in _efforts(b["items"]))
    for target in gold.get("targets", ()):
        low = target["low"]
        if target["unit"] != "s" or low is None or low != target["high"]:
            continue
        if often[target["about"]] == 1 and (name := _plural(target["about"])):
            exact = low % 60 == 0
            said = {"n": low // 60 if exact else low, "unit": "minutes" if exact else "seconds"}
            yield "target", {**said, "name": name}, frozenset()


def _lengths(minutes: int | None) -> Iterator[Truth]:
    if minutes:
        yield "length", {"n": minutes}, frozenset()


def _name(item: Gold) -> str | None:
    return _plural(item["movement"]) if item["do"] == "effort" else None


def _plural(movement: str) -> str | None:
    """Many of a movement, as the catalogue calls it; none for one that it does not know."""
    if movement not in catalogue():
        return None
    plain = movement.replace("-", " ")
    return (
        plain
        if plain.endswith("s") and not plain.endswith("ss")
        else plain + ("es" if plain[-1] in "sh" else "s")
    )

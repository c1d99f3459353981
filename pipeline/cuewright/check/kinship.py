"""Which movements a coach may call by each other's names."""

from cuewright.movements.catalogue import catalogue, derived


@derived
def linked(name: str) -> frozenset[str]:
    """The movement with its easier and harder forms, whichever row names the link."""
    rows = catalogue()
    row = rows.get(name)
    named = {*row.easier, *row.harder} if row else set()
    naming = {other.name for other in rows.values() if name in (*other.easier, *other.harder)}
    return frozenset({name, *named, *naming}) - {"reduce"}


def related(name: str) -> set[str]:
    """The linked movements that share a word or all patterns: a plank is no crawl."""
    others = linked(name)
    shared = {o for o in others if _word_shared(name, o) or _patterns_shared(name, o)}
    return {name} | shared


def alike(name: str) -> set[str]:
    """The movements that one word may sum up: running is run, jog and sprint, not walk."""
    return {name} | {other for other in linked(name) if _patterns_shared(name, other, impact=True)}


def _patterns_shared(one: str, other: str, *, impact: bool = False) -> bool:
    """Whether two movements train the same; with ``impact``, both or neither jar the joints."""
    first, second = catalogue().get(one), catalogue().get(other)
    if not first or not second or first.patterns != second.patterns:
        return False
    return not impact or (first.impact == "none") == (second.impact == "none")


def _word_shared(one: str, other: str) -> bool:
    return bool(set(_words(one)) & set(_words(other)))


def names(name: str) -> tuple[str, ...]:
    """The canonical name and every other one in use."""
    row = catalogue().get(name)
    return (name, *row.said) if row else (name,)


def ends_with(long: str, short: str) -> bool:
    """Whether ``long`` is ``short`` with words before it: hand-release push-ups, push-up."""
    whole, part = _words(long), _words(short)
    return bool(part) and whole[-len(part) :] == part


def short_for(short: str, long: str) -> bool:
    """Whether the short name may stand for the long: a hill sprint is a sprint, a ring row
    is no row."""
    if short == long or not long.endswith(short):
        return short == long
    return ends_with(long, short) and _patterns_shared(short, long)


def _words(name: str) -> list[str]:
    return [word.removesuffix("s") for word in name.lower().replace("-", " ").split()]

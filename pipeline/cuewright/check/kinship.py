"""Which movements a coach may call by each other's names."""

from cuewright.movements.catalogue import catalogue


def linked(name: str) -> set[str]:
    """The movement with its easier and harder forms, whichever row names the link."""
    rows = catalogue()
    row = rows.get(name)
    named = {*row.easier, *row.harder} if row else set()
    naming = {other.name for other in rows.values() if name in (*other.easier, *other.harder)}
    return {name, *named, *naming} - {"reduce"}


def names(name: str) -> tuple[str, ...]:
    """The canonical name and every other one in use."""
    row = catalogue().get(name)
    return (name, *row.said) if row else (name,)


def ends_with(long: str, short: str) -> bool:
    """Whether ``long`` is ``short`` with words before it: hand-release push-ups, push-up."""
    whole, part = _words(long), _words(short)
    return bool(part) and whole[-len(part) :] == part


def _words(name: str) -> list[str]:
    return [word.removesuffix("s") for word in name.lower().replace("-", " ").split()]

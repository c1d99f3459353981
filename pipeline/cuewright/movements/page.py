"""The catalogue as plain text: every movement on a line, or one in full."""

from collections.abc import Callable, Mapping
from difflib import get_close_matches

from cuewright.errors import CuewrightError
from cuewright.movements.catalogue import catalogue
from cuewright_models.movement import Movement

_WIDTH = 80
_SKILL = {1: "anyone", 2: "practised", 3: "skilled"}


class UnknownMovement(CuewrightError):
    """A name that no movement has."""


def listing() -> str:
    """Every movement by name, with the other names it goes by as far as 80 columns hold."""
    rows = catalogue()
    wide = max(map(len, rows))
    lines = (f"{name:{wide}}  {_mark(name)}{', '.join(rows[name].said)}" for name in sorted(rows))
    return "".join(f"{_cut(line)}\n" for line in lines)


def describe(name: str, paces: Callable[[str], Mapping[str, str]]) -> str:
    """All that is known of one movement, asked for by its name or any other it goes by.

    ``paces`` says of a movement what is known of its pace. Raises UnknownMovement with the
    nearest names.
    """
    row = named(name)
    return _page(row, paces(row.name))


def named(name: str) -> Movement:
    """The movement by its name or any other it goes by, plurals too.

    Raises UnknownMovement with the nearest names.
    """
    names = {_plain(word): row for row in catalogue().values() for word in row.said}
    names |= {_plain(row.name): row for row in catalogue().values()}
    asked = _plain(name)
    for form in (asked, asked.removesuffix("s"), asked.removesuffix("es")):
        if form in names:
            return names[form]
    near = dict.fromkeys(names[word].name for word in get_close_matches(asked, names))
    hint = f"did you mean {' or '.join(near)}?" if near else "see `cuewright movements`."
    raise UnknownMovement(f"There is no movement {name!r}; {hint}")


def _plain(name: str) -> str:
    return " ".join(name.casefold().replace("-", " ").replace("_", " ").split())


def _page(row: Movement, paces: Mapping[str, str]) -> str:
    facts = {
        "also called": ", ".join(row.said),
        "captions write": ", ".join(row.misheard),
        "trains": ", ".join(row.patterns),
        "needs": ", ".join(row.kit) or "nothing",
        "counted in": ", ".join(row.counted_in) + (", each side" if row.one_sided else ""),
        "impact": row.impact,
        "for": _SKILL[row.skill],
        "mind": ", ".join(row.flags),
        **paces,
        "easier": ", ".join(row.easier),
        "harder": ", ".join(row.harder),
        "instead": ", ".join(row.swap),
    }
    lines = (f"  {label:14}  {text}\n" for label, text in facts.items() if text)
    return f"{row.name} {_mark(row.name)}".rstrip() + "\n" + "".join(lines)


def _mark(name: str) -> str:
    """Whether a coach's own file made the movement, or added words to it."""
    mark = catalogue().marks.get(name)
    return f"({mark}) " if mark else ""


def _cut(line: str) -> str:
    return line.rstrip() if len(line) <= _WIDTH else line[: _WIDTH - 2].rstrip(" ,") + " …"

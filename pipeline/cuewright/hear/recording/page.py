"""The models as plain text: what each size costs, and where it lies on this machine."""

from collections.abc import Iterator
from textwrap import fill

from cuewright.hear.recording.models import NEEDED, VOCABULARY, NoModel, on_disk, place
from cuewright.hear.recording.options import Listening
from cuewright.hear.recording.sizes import Processor, Size, sizes

_WIDTH = 80
_HEAD = ("size", "files", "memory", "speed", "on this machine")


def listing() -> str:
    """All sizes in a table, where those that are present lie, and where the figures are from."""
    found = {name: _found(name) for name in sizes()}
    rows = [_HEAD, *(_row(size, found[size.name]) for size in sizes().values())]
    wide = [max(len(row[column]) for row in rows) for column in range(len(_HEAD))]
    table = "".join(f"{_line(row, wide)}\n" for row in rows)
    return f"{table}\n" + "\n\n".join(fill(note, _WIDTH) for note in _notes()) + "\n"


def _row(size: Size, found: str) -> tuple[str, ...]:
    usual = ", the default" if size.name == Listening().model else ""
    files = f"{size.megabytes:,} MB"
    return (size.name, files, f"{size.memory_gb} GB", f"{size.speed}x", found + usual)


def _line(row: tuple[str, ...], wide: list[int]) -> str:
    name, *figures, found = row
    numbers = (f"{text:>{width}}" for text, width in zip(figures, wide[1:-1], strict=True))
    return "  ".join((f"{name:{wide[0]}}", *numbers, found))


def _found(name: str) -> str:
    try:
        here = on_disk(name)
    except NoModel:
        return "in part"
    if here is None:
        return "no"
    return "yes" if here.is_relative_to(place()) else "yes, in the hub's cache"


def _notes() -> Iterator[str]:
    yield (
        f"A size that is not here is fetched when it is first used, into {place()}. "
        "To put one there by hand, make a folder named like the size with "
        f"{', '.join(NEEDED)} and {' or '.join(VOCABULARY)} in it; "
        "any other folder with these is named by --model DIR."
    )
    yield (
        "Files: two bytes a parameter. Memory: what the original asks of a graphics card. "
        "Speed: against large, the original on one A100. Names that end in .en know English "
        f"alone. All three: {_sources()}."
    )
    for size in sizes().values():
        if size.processor is not None:
            yield _on_processor(size.name, size.processor)
    yield "No figure was measured on this machine."


def _sources() -> str:
    return "; ".join(sorted({size.source for size in sizes().values()}))


def _on_processor(name: str, cost: Processor) -> str:
    return (
        f"On a processor, as here, {name} took {cost.seconds} s and {cost.memory_mb:,} MB for "
        f"{cost.of_seconds // 60} minutes of speech, with {cost.on} ({cost.source})."
    )

"""What somebody at a terminal sees while a recording is listened to."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from time import monotonic
from typing import TYPE_CHECKING

from cuewright import console
from cuewright.clock import clock

if TYPE_CHECKING:
    from rich.progress import Progress as Bar
    from rich.progress import TaskID

    from cuewright.hear.recording.options import Progress

_LONGEST_NAME = 24


@contextmanager
def watching(name: str, *, quiet: bool) -> "Iterator[Progress]":
    """A progress to tell; the bar is gone when this ends, as if it had not been there.

    With ``quiet`` there is no bar.
    """
    seen = _Seen(name, quiet)
    try:
        yield seen.move
    finally:
        seen.close()


class _Seen:
    """How far one recording is, from where this run began."""

    def __init__(self, name: str, quiet: bool) -> None:
        self._name = name
        self._quiet = quiet
        self._from_s = 0.0
        self._since = 0.0
        self._bar: tuple[Bar, TaskID] | None = None
        self.begun = False

    def move(self, done_s: float, whole_s: float | None) -> None:
        """Seconds done, and of how many; the first call is where this run begins."""
        if not self.begun:
            self._begin(done_s, whole_s)
        if self._bar:
            bar, task = self._bar
            bar.update(task, completed=done_s, told=self._told(done_s, whole_s))
            bar.refresh()

    def close(self) -> None:
        """Take the bar away."""
        if self._bar:
            self._bar[0].stop()
            self._bar = None

    def _begin(self, done_s: float, whole_s: float | None) -> None:
        self.begun, self._from_s, self._since = True, done_s, monotonic()
        if self._quiet:
            return
        if done_s:
            console.tell(f"Going on with {self._name} at {clock(done_s)}, where it stopped.")
        if console.watched():
            bar = _bar()
            self._bar = bar, bar.add_task(_short(self._name), total=whole_s, told="")
            bar.start()

    def _told(self, done_s: float, whole_s: float | None) -> str:
        """``1:23 / 4:52  28 %  0:40 left``, as far as it is known."""
        if not whole_s:
            return clock(done_s)
        told = f"{clock(done_s)} / {clock(whole_s)} {100 * min(done_s / whole_s, 1):3.0f} %"
        fresh = done_s - self._from_s
        if not fresh:
            return told
        left = (monotonic() - self._since) / fresh * max(0.0, whole_s - done_s)
        return f"{told} {clock(left)} left"


def _bar() -> "Bar":
    """A bar on standard error, drawn anew only when there is something new to show."""
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn

    return Progress(
        TextColumn("{task.description}", markup=False),
        BarColumn(bar_width=None),
        TextColumn("{task.fields[told]}", markup=False),
        console=Console(file=sys.stderr, no_color=not console.colour(sys.stderr)),
        auto_refresh=False,
        transient=True,
        expand=True,
    )


def _short(name: str) -> str:
    """A file's name that leaves room for the bar, without signs that a terminal would obey."""
    name = "".join(sign if sign.isprintable() else " " for sign in name)
    return name if len(name) <= _LONGEST_NAME else f"{name[: _LONGEST_NAME - 1]}\u2026"

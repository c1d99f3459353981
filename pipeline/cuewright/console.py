"""Where a command's words go: data to standard output, messages to standard error.

Nothing else in the package prints. A failure is one sentence and a status; the traceback
of a fault of ours is shown only when ``CUEWRIGHT_DEBUG`` is set.
"""

import io
import os
import shutil
import signal
import sys
import traceback
from collections.abc import Callable, Iterable
from contextlib import suppress
from functools import partial, wraps
from textwrap import shorten
from typing import NoReturn, ParamSpec, TextIO, TypeVar

import typer

from cuewright.errors import CuewrightError

FINE, FOUND, FAILED = 0, 1, 2
"""Exit statuses: nothing to complain of, findings, bad use or an unreadable source."""

_PIPE_CLOSED = 128 + 13  # what a shell reports for a program that SIGPIPE ended
_INTERRUPTED = 128 + signal.SIGINT
_PLAIN_WIDTH, _WIDEST, _NARROWEST = 80, 100, 40
_LONGEST_REASON = 200

Given = ParamSpec("Given")
Thing = TypeVar("Thing")


def prepare() -> None:
    """Make both streams take any letter: UTF-8 into files and pipes, what fits on a terminal."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            encoding = None if stream.isatty() else "utf-8"
            stream.reconfigure(encoding=encoding, errors="replace")


def put(text: str) -> None:
    """Data. When nobody reads on, the command ends quietly; a full disk is told."""
    try:
        print(text, end="", flush=True)
    except BrokenPipeError:
        _leave(_PIPE_CLOSED)
    except OSError as error:
        tell(f"Standard output cannot be written ({error.strerror}); check where it goes.")
        _leave(FAILED)


def tell(text: str) -> None:
    """A message, on one line and without signs that a terminal would obey."""
    line = "".join(sign if sign.isprintable() else " " for sign in text)
    if sys.stderr is not None:
        with suppress(OSError):  # nobody is left to tell it to
            print(" ".join(line.split()), file=sys.stderr, flush=True)


def on_terminal() -> bool:
    """Whether somebody reads standard output as it comes."""
    return sys.stdout is not None and sys.stdout.isatty()


def width() -> int:
    """Cells a line: 80 in files and pipes, so that they do not hang on who writes them."""
    if not on_terminal():
        return _PLAIN_WIDTH
    return max(_NARROWEST, min(_WIDEST, shutil.get_terminal_size().columns))


def colour(stream: TextIO | None = None) -> bool:
    """Whether to colour: on a terminal that can, unless NO_COLOR says no (no-color.org)."""
    return _moves(stream or sys.stdout) and not os.environ.get("NO_COLOR")


def watched() -> bool:
    """Whether somebody may see a line on standard error change."""
    return _moves(sys.stderr)


def _moves(stream: TextIO | None) -> bool:
    return stream is not None and stream.isatty() and os.environ.get("TERM") != "dumb"


def guarded(body: Callable[Given, int]) -> Callable[Given, None]:
    """A command whose ``body`` returns the exit status, and whose failures are one sentence."""

    @wraps(body)
    def command(*args: Given.args, **kwargs: Given.kwargs) -> None:
        try:
            status = _attempt(partial(body, *args, **kwargs))
        except KeyboardInterrupt as stop:
            if stop.args:  # how to go on
                tell(str(stop))
            status = _INTERRUPTED
        raise typer.Exit(status)

    return command


def each(things: Iterable[Thing], work: Callable[[Thing], int]) -> int:
    """The gravest status of ``work`` on the things; one that fails does not stop the rest."""
    return max((_attempt(partial(work, thing)) for thing in things), default=FINE)


def _attempt(work: Callable[[], int]) -> int:
    try:
        return work()
    except typer.Exit:
        raise
    except CuewrightError as error:
        tell(str(error))
    except Exception as error:
        _own_up(error)
    return FAILED


def _own_up(error: Exception) -> None:
    """A fault of ours: what happened and how to report it."""
    if os.environ.get("CUEWRIGHT_DEBUG"):
        traceback.print_exception(error)
    reason = shorten(f"{type(error).__name__}: {error}", _LONGEST_REASON, placeholder=" …")
    tell(
        f"This is a fault in cuewright ({reason.strip(': ')}); please report it with the talk "
        "and what the same command prints with CUEWRIGHT_DEBUG=1 set."
    )


def _leave(status: int) -> NoReturn:
    """End at once; what is still held for standard output goes nowhere, without complaint."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    raise typer.Exit(status)

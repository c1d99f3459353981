"""The options of every command that listens to recordings, and how they reach the listening."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from enum import StrEnum
from functools import wraps
from inspect import Signature, signature
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, NamedTuple, TypedDict

import typer

from cuewright import console
from cuewright.errors import CuewrightError
from cuewright.watch import watching

if TYPE_CHECKING:
    from cuewright.hear.recording.options import Listening, Progress


class Device(StrEnum):
    """The devices of ``cuewright.hear.recording``, named here so that help need not load them."""

    auto = "auto"
    cpu = "cpu"
    cuda = "cuda"


class Hearing(TypedDict):
    """What ``cuewright.flow`` takes for a recording."""

    listening: "Listening"
    progress: "Progress"


class _Wish(NamedTuple):
    """The options as given; parameters of ``_options`` have the same names."""

    model: str = "small"
    device: Device = Device.auto
    threads: int = 0
    language: str | None = None
    hints: bool = False
    no_cache: bool = False


_wish: ContextVar[tuple[_Wish, bool]] = ContextVar("how to listen, and whether it is quiet")


def _options(
    model: Annotated[
        str,
        typer.Option("--model", metavar="NAME|DIR", help="Recogniser's model for recordings."),
    ] = "small",
    device: Annotated[Device, typer.Option("--device", help="Where to listen.")] = Device.auto,
    threads: Annotated[
        int,
        typer.Option(
            "--threads", min=0, metavar="N", show_default=False, help="Processor threads to use."
        ),
    ] = 0,
    language: Annotated[
        str | None,
        typer.Option("--language", metavar="CODE", help="What is spoken, such as en."),
    ] = None,
    hints: Annotated[
        bool, typer.Option("--hints", help="Tell the recogniser names of movements to expect.")
    ] = False,
    no_cache: Annotated[
        bool, typer.Option("--no-cache", help="Listen anew, and keep nothing of what was heard.")
    ] = False,
) -> None:
    """The options, as a signature."""


def listens(body: Callable[..., int]) -> Callable[..., int]:
    """A command with the options for recordings, in whose ``body`` ``hearing`` obeys them."""
    own, more = signature(body), signature(_options)

    @wraps(body)
    def command(*args: Any, **given: Any) -> int:
        wish = _Wish(**{name: given.pop(name) for name in more.parameters if name in given})
        token = _wish.set((wish, bool(given.get("quiet"))))
        try:
            return body(*args, **given)
        finally:
            _wish.reset(token)

    command.__annotations__ = {**_options.__annotations__, **body.__annotations__}
    both = [*own.parameters.values(), *more.parameters.values()]
    command.__signature__ = Signature(both)  # type: ignore[attr-defined]
    return command


@contextmanager
def hearing(source: str) -> Iterator[Hearing]:
    """How to listen to a source, if it is a recording, and whom to tell how far it is."""
    wish, quiet = _wish.get((_Wish(), False))
    listening = _listening(wish)
    _have_model(source, listening)
    with watching(Path(source).name, quiet=quiet) as progress:
        yield {"listening": listening, "progress": progress}


def _have_model(source: str, listening: "Listening") -> None:
    """Fetch the model if it must be, telling so; raises NoModel if it cannot be had.

    That may take long, so what is no recording after all is refused before.
    """
    from cuewright.hear.source import is_recording

    if is_recording(source):
        from cuewright.hear.recording import media, models

        media.probe(Path(source))
        models.folder(listening.model, console.tell)


def _listening(wish: _Wish) -> "Listening":
    from cuewright.hear.recording.options import Listening
    from cuewright.hear.recording.vocabulary import hints

    return Listening(
        model=wish.model,
        device=wish.device.value,
        threads=wish.threads,
        language=_language(wish.language),
        hints=hints() if wish.hints else None,
        keep=not wish.no_cache,
    )


def _language(code: str | None) -> str | None:
    """A language's code in small letters; raises CuewrightError for what cannot be one."""
    if code is None:
        return None
    if not (code.isascii() and code.isalpha() and len(code) in (2, 3)):
        raise CuewrightError(f"{code:.20} is no code of a language; give one such as en or de.")
    return code.lower()

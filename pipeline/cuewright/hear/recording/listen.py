"""A recording to what was said in it, window by window, going on where it stopped."""

import hashlib
from collections.abc import Iterator
from importlib.metadata import version
from pathlib import Path

from cuewright.errors import UnreadableSource
from cuewright.hear.recording import media, models
from cuewright.hear.recording.kept import Done, Kept
from cuewright.hear.recording.options import Listening, Progress, unwatched
from cuewright.hear.recording.recognise import SAME_ALWAYS, Recogniser
from cuewright.hear.recording.speech import CUT, Window, windows
from cuewright_models.hearing import Hearing, LeftOut

_LEAST_MISSING = 2.0
_MISSING_SHARE = 0.01
_NAMED = 10


def listen(path: Path, options: Listening, progress: Progress = unwatched) -> Hearing:
    """Everything that is said in a recording.

    Raises UnreadableSource for what is no recording, is damaged or holds no speech, and
    NoModel or NoRecogniser when there is nothing to listen with.
    """
    about = media.probe(path)
    model = models.folder(options.model)
    sha256 = _content(path)
    kept = Kept(models.cache(), _key(sha256, models.identity(model), options))
    hearing = kept.finished() if options.keep else None
    if hearing is None:
        hearing = _heard(path, about, sha256, model, options, kept, progress)
    return hearing.model_copy(update={"name": path.name})


def _heard(
    path: Path,
    about: media.Media,
    sha256: str,
    model: Path,
    options: Listening,
    kept: Kept,
    progress: Progress,
) -> Hearing:
    done = kept.windows() if options.keep else []
    progress(done[-1].end / media.RATE if done else 0.0, about.duration_s)
    sound = _Counted(media.samples(path))
    for new in _windows(done, sound, model, options):
        if options.keep:
            kept.add(new)
        done.append(new)
        progress(new.end / media.RATE, about.duration_s)
    hearing = _whole(path, about, sha256, model, done, sound.seconds)
    if options.keep:
        kept.finish(hearing)
    return hearing


class _Counted:
    """Sound that is counted as it passes."""

    def __init__(self, parts: "Iterator[media.Samples]") -> None:
        self._parts = parts
        self.seconds = 0.0

    def __iter__(self) -> "Iterator[media.Samples]":
        for part in self._parts:
            self.seconds += len(part) / media.RATE
            yield part


def _windows(done: list[Done], sound: _Counted, model: Path, options: Listening) -> Iterator[Done]:
    """The windows that are not done yet, heard one by one."""
    after = done[-1].start if done else -1
    known = done[-1].language if done else options.language
    recogniser: Recogniser | None = None
    for window in windows(sound, done[-1].block if done else 0):
        if window.start > after:
            recogniser = recogniser or Recogniser(model, options, known)
            yield _one(recogniser, window)


def _one(recogniser: Recogniser, window: Window) -> Done:
    pieces, left_out = recogniser.hear(window)
    return Done(
        block=window.block,
        start=window.start,
        end=window.end,
        language=recogniser.know_language(window.sound),
        pieces=tuple(pieces),
        left_out=tuple(left_out),
    )


def _whole(
    path: Path, about: media.Media, sha256: str, model: Path, done: list[Done], seconds: float
) -> Hearing:
    pieces = tuple(piece for each in done for piece in each.pieces)
    left_out = tuple(each for window in done for each in window.left_out)
    if not pieces:
        what = "sound, but no words could be made out of it" if done else "no speech"
        raise UnreadableSource(
            f"{path.name} holds {what}; give the recording in which the coach speaks."
        )
    return Hearing(
        name=path.name,
        sha256=sha256,
        duration_s=round(seconds, 2),
        language=done[0].language,
        model=model.name,
        pieces=pieces,
        left_out=left_out,
        warnings=(*_cut_off(path, about, seconds), *_unheard(left_out)),
    )


def _cut_off(path: Path, about: media.Media, seconds: float) -> Iterator[str]:
    """A recording that ends before it says it does was cut off, which no decoder tells."""
    whole = about.duration_s or 0.0
    if whole - seconds > max(_LEAST_MISSING, _MISSING_SHARE * whole):
        yield (
            f"{path.name} breaks off at {_clock(seconds)} of {_clock(whole)}; "
            "copy it again to have the rest."
        )


def _unheard(left_out: tuple[LeftOut, ...]) -> Iterator[str]:
    if left_out:
        places = ", ".join(_clock(each.start_s) for each in left_out[:_NAMED])
        more = " and later" if len(left_out) > _NAMED else ""
        yield f"No words could be made out at {places}{more}; listen there."


def _clock(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"


def _content(path: Path) -> str:
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def _key(sha256: str, model: str, options: Listening) -> dict[str, str | int | None]:
    """All that decides what is heard; another version of the recogniser may hear otherwise."""
    return {
        "content": sha256,
        "model": model,
        "language": options.language,
        "hints": options.hints,
        "options": repr(sorted(SAME_ALWAYS.items())),
        "recogniser": version("faster-whisper"),
        "engine": version("ctranslate2"),
        "windows": CUT,
    }

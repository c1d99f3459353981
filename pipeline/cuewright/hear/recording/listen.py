"""A recording to what was said in it, window by window, going on where it stopped."""

import hashlib
from collections.abc import Iterator
from importlib.metadata import version
from pathlib import Path

from cuewright.clock import clock
from cuewright.errors import UnreadableSource
from cuewright.hear.recording import media, models
from cuewright.hear.recording.kept import Done, Kept
from cuewright.hear.recording.options import Listening, Progress, unwatched
from cuewright.hear.recording.recognise import NO_MEMORY, SAME_ALWAYS, NoRecogniser, Recogniser
from cuewright.hear.recording.speech import CUT, Window, windows
from cuewright.hear.recording.whole import title, whole
from cuewright_models.hearing import Hearing


def listen(path: Path, options: Listening, progress: Progress = unwatched) -> Hearing:
    """Everything that is said in a recording.

    Raises UnreadableSource for what is no recording, is damaged or holds no speech,
    NoModel or NoRecogniser when there is nothing to listen with, CuewrightError when there
    is no room to keep what was heard, and KeyboardInterrupt with a sentence that says how
    to go on.
    """
    try:
        return _listened(path, options, progress)
    except MemoryError:
        raise NoRecogniser(NO_MEMORY) from None


def _listened(path: Path, options: Listening, progress: Progress) -> Hearing:
    about = media.probe(path)
    model = models.folder(options.model)
    sha256 = _content(path)
    key = _key(sha256, models.identity(model), options)
    kept = Kept(models.cache() if options.keep else None, key)
    hearing = kept.finished()
    if hearing is None:
        sound = media.Sound(path, about)
        done = _heard(sound, model, options, kept, progress)
        hearing = whole(path, sha256, model.name, sound, done)
        kept.finish(hearing)
    trouble = (kept.trouble,) if kept.trouble else ()
    return hearing.model_copy(
        update={"name": title(path), "warnings": (*hearing.warnings, *trouble)},
    )


def _heard(
    sound: media.Sound, model: Path, options: Listening, kept: Kept, progress: Progress
) -> list[Done]:
    """All windows, those kept from before and the others, which are kept one by one."""
    done = kept.windows()
    progress(done[-1].end / media.RATE if done else 0.0, sound.about.duration_s)
    try:
        for new in _new(done, sound, model, options):
            kept.add(new)
            done.append(new)
            progress(new.end / media.RATE, sound.about.duration_s)
    except KeyboardInterrupt:
        raise KeyboardInterrupt(_stopped(done, options.keep and not kept.trouble)) from None
    return done


def _stopped(done: list[Done], keeping: bool) -> str:
    at = clock(done[-1].end / media.RATE if done else 0.0)
    if keeping:
        return f"Stopped at {at}; the same command goes on from there."
    return f"Stopped at {at}; nothing was kept."


def _new(done: list[Done], sound: media.Sound, model: Path, options: Listening) -> Iterator[Done]:
    """The windows that are not done yet, heard one by one; ``done`` grows meanwhile."""
    after = done[-1].start if done else -1
    known = done[-1].language if done else options.language
    recogniser: Recogniser | None = None
    for window in windows(sound, done[-1].block if done else 0):
        if window.start > after:
            recogniser = recogniser or Recogniser(model, options, known)
            yield _one(recogniser, len(done), window)


def _one(recogniser: Recogniser, number: int, window: Window) -> Done:
    pieces, left_out = recogniser.hear(window)
    return Done(
        number=number,
        block=window.block,
        start=window.start,
        end=window.end,
        language=recogniser.know_language(window.sound),
        pieces=tuple(pieces),
        left_out=tuple(left_out),
    )


def _content(path: Path) -> str:
    try:
        with path.open("rb") as stream:
            return hashlib.file_digest(stream, "sha256").hexdigest()
    except OSError as error:
        why = (error.strerror or "unknown fault").lower()
        raise UnreadableSource(
            f"{path.name} cannot be read to its end ({why}); copy it to another disk."
        ) from None


def _key(sha256: str, model: str, options: Listening) -> dict[str, str | int | None]:
    """All that decides what is heard; another version of the recogniser may hear otherwise."""
    return {
        "content": sha256,
        "model": model,
        "device": options.device,
        "language": options.language,
        "hints": options.hints,
        "options": repr(sorted(SAME_ALWAYS.items())),
        "recogniser": version("faster-whisper"),
        "engine": version("ctranslate2"),
        "decoder": version("av"),
        "windows": CUT,
    }

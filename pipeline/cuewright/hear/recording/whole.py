"""Windows put together to the whole of what was heard, with what was missed."""

from collections.abc import Iterator
from pathlib import Path

from cuewright.clock import clock
from cuewright.errors import UnreadableSource
from cuewright.hear.recording.kept import Done
from cuewright.hear.recording.media import Media, Sound
from cuewright_models.hearing import Hearing, LeftOut

_LEAST_MISSING = 2.0
_MISSING_SHARE = 0.01
_NAMED = 10


def whole(path: Path, sha256: str, model: str, sound: Sound, done: list[Done]) -> Hearing:
    """All windows of a recording that was gone through to its end.

    Raises UnreadableSource when there is nothing in them.
    """
    pieces = tuple(piece for each in done for piece in each.pieces)
    left_out = tuple(each for window in done for each in window.left_out)
    if not pieces:
        nothing = "no speech, at most music or noise"
        what = "sound, but no words could be made out of it" if done else nothing
        raise UnreadableSource(
            f"{path.name} holds {what}; give the recording in which the coach speaks."
        )
    return Hearing(
        name=title(path),
        sha256=sha256,
        duration_s=round(sound.heard_s, 2),
        language=done[0].language,
        model=model,
        pieces=pieces,
        left_out=left_out,
        warnings=(*_tracks(sound.about), *_cut_off(sound), *_unheard(left_out)),
    )


def title(path: Path) -> str:
    """A file's name, which must print even where the file system holds it in another encoding."""
    return path.name.encode(errors="replace").decode()


def _tracks(about: Media) -> Iterator[str]:
    if about.tracks > 1:
        yield (
            f"The recording has {about.tracks} sound tracks; only the one that players take "
            "was listened to."
        )


def _cut_off(sound: Sound) -> Iterator[str]:
    """A recording that ends before it says it does was cut off, which no decoder tells.

    Sound that ends before the picture is no sign of that.
    """
    said, found = sound.about.duration_s or 0.0, max(sound.heard_s, sound.reached_s)
    if said - found > max(_LEAST_MISSING, _MISSING_SHARE * said):
        yield (
            f"The recording breaks off at {clock(found)} of {clock(said)}; "
            "copy it again to have the rest."
        )


def _unheard(left_out: tuple[LeftOut, ...]) -> Iterator[str]:
    if left_out:
        places = ", ".join(clock(each.start_s) for each in left_out[:_NAMED])
        more = " and later" if len(left_out) > _NAMED else ""
        yield f"No words could be made out at {places}{more}; listen there."

"""From a file that somebody has to a transcript: words with times, exactly as heard."""

import hashlib
from pathlib import Path
from typing import BinaryIO

from cuewright.errors import UnreadableSource
from cuewright.hear import captions, recogniser_json, timed_text
from cuewright.hear.decode import decode
from cuewright.hear.recording.options import Listening, Progress, unwatched
from cuewright.hear.script import Script, refuse_bulk
from cuewright.hear.source import fetch, is_recording
from cuewright_models.hearing import Hearing
from cuewright_models.transcript import SourceKind, Transcript

__all__ = ["hear", "is_recording", "read", "transcript"]


def read(
    source: str | Path,
    *,
    stdin: BinaryIO | None = None,
    listening: Listening | None = None,
    progress: Progress = unwatched,
) -> Transcript:
    """The talk in ``source``: a recording, WebVTT, SubRip, a recogniser's JSON, or text.

    ``"-"`` reads ``stdin`` (standard input unless given). What the file holds decides how
    it is read; its extension does not have to fit. A recording is listened to as
    ``listening`` says, and ``progress`` is told how far it is. Raises UnreadableSource with
    one sentence when there is no talk in it; what could be mended is told in ``warnings``.
    """
    if is_recording(source):
        return transcript(hear(source, listening, progress))
    name, raw = fetch(source, stdin)
    text, warnings = decode(name, raw)
    kind, script = _script(name, text)
    words, tags, turns, breaks = script.take_apart(name)
    if not any(any(map(str.isalnum, word.text)) for word in words):
        raise UnreadableSource(
            f"{name} holds no speech, only times or sound tags; give a file with the words in it."
        )
    return Transcript(
        name=name,
        kind=kind,
        sha256=hashlib.sha256(raw).hexdigest(),
        duration_s=script.duration_s,
        language=script.language,
        words=words,
        breaks=breaks,
        turns=turns,
        tags=tags,
        warnings=(*warnings, *script.warnings),
    )


def _script(name: str, text: str) -> tuple[SourceKind, Script]:
    if recogniser_json.recognise(text):
        return "captions", recogniser_json.parse(name, text)
    refuse_bulk(name, text)
    if captions.recognise(text):
        return "captions", captions.parse(name, text)
    if recogniser_json.recognise(text, expected=name.lower().endswith(".json")):
        return "captions", recogniser_json.parse(name, text)
    return "text", timed_text.parse(name, text)


def hear(
    source: str | Path, listening: Listening | None = None, progress: Progress = unwatched
) -> Hearing:
    """What is said in a recording; raises as ``cuewright.hear.recording.listen`` does."""
    from cuewright.hear.recording.listen import listen

    return listen(Path(source), listening or Listening(), progress)


def transcript(heard: Hearing) -> Transcript:
    """A hearing as the talk that every later stage takes."""
    return Transcript(
        name=heard.name,
        kind="recording",
        sha256=heard.sha256,
        duration_s=heard.duration_s,
        language=heard.language,
        words=tuple(word for piece in heard.pieces for word in piece.words),
        warnings=heard.warnings,
    )

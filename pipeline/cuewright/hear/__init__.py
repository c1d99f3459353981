"""From a file that somebody has to a transcript: words with times, exactly as heard."""

import hashlib
from collections.abc import Sequence
from pathlib import Path
from typing import BinaryIO

from cuewright.errors import UnreadableSource
from cuewright.hear import captions, recogniser_json, timed_text, written
from cuewright.hear.decode import Spelling, decode, spelling
from cuewright.hear.recording.options import Listening, Progress, unwatched
from cuewright.hear.script import Script, refuse_bulk
from cuewright.hear.source import fetch, is_recording
from cuewright_models.hearing import Hearing
from cuewright_models.outline import Line
from cuewright_models.transcript import SourceKind, Transcript

SAMPLE = 20_000
"""Characters in which a session shows that it was written down."""
MAX_LINES = 2_000
"""Lines of one written session; no year of a club's posts has as many."""

__all__ = [
    "Spelling",
    "fetch",
    "hear",
    "is_recording",
    "read",
    "read_written",
    "spelling",
    "taken_down",
    "transcript",
]


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
    taken = _session(name, text)
    if taken is not None:
        return _written(name, raw, taken, warnings)
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


def read_written(source: str | Path, *, stdin: BinaryIO | None = None) -> Transcript:
    """The text in ``source`` as a session that was written down, whatever its form.

    Every word knows its line; whole sentences have no outline, and go on through the spoken
    grammar. Of captions it is what their comments before the first cue hold. Raises
    UnreadableSource with one sentence when there are no words in it.
    """
    return taken_down(*fetch(source, stdin))


def taken_down(name: str, raw: bytes) -> Transcript:
    """As ``read_written``, of bytes that are there already."""
    text, warnings = decode(name, raw)
    refuse_bulk(name, text)
    taken = _noted(name, text) if captions.recognise(text) else written.taken_down(text)
    if not any(any(map(str.isalnum, word.text)) for word in taken.words):
        raise UnreadableSource(f"{name} holds no words; give a description of the session.")
    return _written(name, raw, taken, warnings)


def _noted(name: str, text: str) -> written.Outline:
    """The session that is written in the comments of a file of captions."""
    taken = written.noted(captions.notes(text))
    if not written.recognise(taken):
        raise UnreadableSource(
            f"{name} holds captions, and no session is written in its notes; give the description."
        )
    return taken


def _session(name: str, text: str) -> written.Outline | None:
    """The outline of a text that is laid out as a session and timed by no stamps."""
    if captions.recognise(text) or recogniser_json.recognise(text):
        return None
    if not written.recognise(written.taken_down(text[:SAMPLE])):
        return None
    if not written.is_web(text) and timed_text.parse(name, text).clock:
        return None
    taken = written.taken_down(text)
    return taken if written.recognise(taken) else None


def _written(name: str, raw: bytes, taken: written.Outline, warnings: Sequence[str]) -> Transcript:
    laid_out = written.recognise(taken)
    if laid_out and len(taken.lines) > MAX_LINES:
        raise UnreadableSource(
            f"{name} has more than {MAX_LINES:,} lines of sessions; give one session at a time."
        )
    return Transcript(
        name=name,
        kind="text",
        sha256=hashlib.sha256(raw).hexdigest(),
        words=tuple(taken.words),
        breaks=tuple(sorted({at for line in taken.lines for at in _starts(line, laid_out)})),
        outline=tuple(taken.lines) if laid_out else (),
        lines=tuple(taken.numbers),
        warnings=tuple(warnings),
    )


def _starts(line: Line, laid_out: bool) -> tuple[int, ...]:
    """Where a line, or a part of it, starts afresh; the lines of a wrapped paragraph do not."""
    if laid_out:
        return (line.first, *line.parts)
    return (line.first,) if line.gap or line.kind != "text" else ()


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

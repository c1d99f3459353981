"""A source's bytes, or one sentence that says why there are none."""

import codecs
import re
import sys
from pathlib import Path
from typing import BinaryIO

from cuewright.errors import UnreadableSource

MAX_BYTES = 20_000_000
"""Larger files are refused: a day of speech with every word's times is about half of this."""

_RECORDING = re.compile(
    r"\.(?:3gp|aac|ac3|aiff?|amr|avi|caf|flac|flv|m4[abv]|mk[av]|mov|mp[234]|mpe?g|mts|og[agv]"
    r"|opus|ts|wav|webm|wm[av])",
    re.IGNORECASE,
)
_LARGEST_HEAD = 4096
_DOCUMENTS = {
    b"%PDF": "a PDF",
    b"PK\x03\x04": "a zipped document",
    b"\xd0\xcf\x11\xe0": "an old office document",
    b"{\\rtf": "a rich-text document",
    b"\x1f\x8b": "a compressed file",
}


def fetch(source: str | Path, stdin: BinaryIO | None = None) -> tuple[str, bytes]:
    """Name without directory and all bytes of ``source``; ``"-"`` is standard input.

    Raises UnreadableSource for a missing, forbidden, empty or oversized file, a folder,
    a recording, and documents that are not plain text.
    """
    path = Path(source)
    if str(source) == "-":
        name = "standard input"
    else:
        # A name that the file system holds in another encoding must still print.
        name = (path.name or str(path)).encode(errors="replace").decode()
    if "\0" in str(source):
        raise UnreadableSource("A file name cannot hold a NUL character; correct the name.")
    try:
        if str(source) == "-":
            return name, _checked(name, stdin or sys.stdin.buffer)
        with path.open("rb") as stream:
            return name, _checked(name, stream)
    except OSError as error:
        raise UnreadableSource(_why(name, path, error)) from None


def is_recording(source: str | Path) -> bool:
    """Whether a file is sound or film, by its first bytes or, where these are no text, its name."""
    path = Path(source)
    try:
        if not path.is_file():  # a pipe can be read only once
            return False
        with path.open("rb") as stream:
            head = stream.read(_LARGEST_HEAD)
    except (OSError, ValueError):
        return False
    named = _RECORDING.fullmatch(path.suffix) is not None
    return bool(head) and (_is_media(head) or (named and not _is_text(head)))


def _why(name: str, path: Path, error: OSError) -> str:
    if isinstance(error, FileNotFoundError):
        return f"{name} does not exist; check the name and the folder."
    if isinstance(error, IsADirectoryError) or path.is_dir():
        return f"{name} is a folder; give the captions or transcript inside it."
    if isinstance(error, PermissionError):
        return f"{name} may not be read by you; change its permissions or copy it."
    reason = (error.strerror or "unknown fault").lower()
    return f"{name} cannot be opened ({reason}); check the name and the disk."


def _checked(name: str, stream: BinaryIO) -> bytes:
    head = stream.read(_LARGEST_HEAD)
    if not head:
        raise UnreadableSource(f"{name} is empty; give a file with captions or a transcript.")
    if _is_media(head):
        raise UnreadableSource(f"{name} holds a recording; give the name of its file.")
    for magic, what in _DOCUMENTS.items():
        if head.startswith(magic):
            raise UnreadableSource(f"{name} is {what}; save the talk as plain text (.txt) first.")
    raw = head + stream.read(MAX_BYTES + 1 - len(head))
    if len(raw) > MAX_BYTES:
        raise UnreadableSource(
            f"{name} is larger than {MAX_BYTES // 1_000_000} MB, more than a day of speech; "
            "give one talk at a time."
        )
    return raw


def _is_text(head: bytes) -> bool:
    if head.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return True
    try:
        return "\0" not in codecs.getincrementaldecoder("utf-8")().decode(head)
    except UnicodeDecodeError:
        return False


def _is_media(head: bytes) -> bool:
    """Whether the first bytes are those of a usual sound or film container.

    Signatures: ISO 14496-12 (``ftyp``), RIFF, EBML (Matroska), RFC 3533 (Ogg), FLAC, ID3v2,
    AIFF, ASF, and the sync word of MPEG audio frames.
    """
    if head[4:8] in (b"ftyp", b"moov", b"mdat", b"wide"):
        return True
    if head[:4] in (b"RIFF", b"RF64", b"FORM") and head[8:12] in (
        b"WAVE", b"AVI ", b"AIFF", b"AIFC",
    ):  # fmt: skip
        return True
    if head.startswith((b"\x1aE\xdf\xa3", b"OggS", b"fLaC", b"ID3", b"0&\xb2u", b"#!AMR", b"caff")):
        return True
    mpeg_audio = head[:1] == b"\xff" and head[1:2] in (b"\xfb", b"\xf3", b"\xf2", b"\xfa", b"\xf1")
    return mpeg_audio or head[:4] in (b"\0\0\1\xba", b"\0\0\1\xb3", b"FLV\1")

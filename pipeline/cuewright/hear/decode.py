"""Bytes to text."""

import codecs
import re
from typing import NamedTuple

from cuewright.errors import UnreadableSource

_BOMS = {
    codecs.BOM_UTF8: "utf-8",
    codecs.BOM_UTF16_LE: "utf-16-le",
    codecs.BOM_UTF16_BE: "utf-16-be",
}
_CONTROL = re.compile(r"[\x00-\x08\x0e-\x1a\x1c-\x1f\x7f-\x84\x86-\x9f\ufffd]")
_INVISIBLE = re.compile(
    r"[\x00-\x08\x0e-\x1f\x7f-\x84\x86-\x9f\u200b-\u200f\u2060\ufeff\ud800-\udfff]+"
)
_LINE_ENDS = "\r\f\v\x85\u2028\u2029"
_JUNK_SHARE = 0.02


def decode(name: str, raw: bytes) -> tuple[str, list[str]]:
    """The text of ``raw`` with ``\\n`` line ends, and warnings about how it was read.

    UTF-8, UTF-16 with a byte order mark, else Windows-1252 (which includes the letters of
    Latin-1). Raises UnreadableSource when the bytes are no text.
    """
    text, warnings = _by_bom(name, raw) or _utf8_or_older(name, raw)
    junk = len(_CONTROL.findall(text))
    if "\0" in text or junk > max(1, _JUNK_SHARE * len(text)):
        raise UnreadableSource(
            f"{name} is no text but binary data; "
            "give captions or a transcript (.vtt, .srt, .txt, .json)."
        )
    return tidy(text), warnings


class Spelling(NamedTuple):
    """A text with its line ends as they are, and how its bytes spell it."""

    text: str
    encoding: str
    mark: bytes

    def of(self, text: str) -> bytes:
        """Another text spelled so; in UTF-8 if it has letters that the encoding lacks."""
        try:
            return self.mark + text.encode(self.encoding, "surrogateescape")
        except UnicodeEncodeError:
            return text.encode()


def spelling(raw: bytes) -> Spelling:
    """The text of ``raw``, which ``of`` turns into the same bytes again."""
    for mark, encoding in _BOMS.items():
        if raw.startswith(mark):
            body = raw[len(mark) :]
            return Spelling(body.decode(encoding, "surrogateescape"), encoding, mark)
    for encoding in ("utf-8", "cp1252") if _by_older(raw) else ("utf-8",):
        try:
            return Spelling(raw.decode(encoding), encoding, b"")
        except UnicodeDecodeError:
            continue
    encoding = "latin-1" if _by_older(raw) else "utf-8"
    return Spelling(raw.decode(encoding, "surrogateescape"), encoding, b"")


def _by_older(raw: bytes) -> bool:
    """Whether ``decode`` reads the bytes as Windows-1252 or Latin-1."""
    return any("was read as Latin-1" in told for told in _utf8_or_older("", raw)[1])


def tidy(text: str) -> str:
    """``text`` with ``\\n`` line ends and without characters that cannot be seen."""
    if any(end in text for end in _LINE_ENDS):
        # Some converters write \r\r\n; as two line ends it would cut every cue in half.
        text = re.sub(rf"\r+\n|[{_LINE_ENDS}]", "\n", text)
    return _INVISIBLE.sub("", text)


def _by_bom(name: str, raw: bytes) -> tuple[str, list[str]] | None:
    for bom, encoding in _BOMS.items():
        if raw.startswith(bom):
            text = raw[len(bom) :].decode(encoding, "replace")
            return text, _damage(name, text)
    return None


def _utf8_or_older(name: str, raw: bytes) -> tuple[str, list[str]]:
    try:
        return raw.decode(), []
    except UnicodeDecodeError:
        text = raw.decode(errors="replace")
    bad = text.count("\ufffd")
    good = sum(len(run) for run in re.findall(r"[^\x00-\x7f\ufffd]+", text))
    if good >= bad or _cut_short(raw):
        return text, _damage(name, text)
    try:
        older = raw.decode("cp1252")
    except UnicodeDecodeError:
        older = raw.decode("latin-1")
    return older, [
        f"{name} is not UTF-8 and was read as Latin-1; if letters look wrong, save it as UTF-8."
    ]


def _cut_short(raw: bytes) -> bool:
    """Whether the only fault is a last character with bytes missing."""
    try:
        codecs.getincrementaldecoder("utf-8")().decode(raw)
    except UnicodeDecodeError:
        return False
    return True


def _damage(name: str, text: str) -> list[str]:
    bad = text.count("\ufffd")
    if not bad:
        return []
    letters = "One letter" if bad == 1 else f"{bad} letters"
    return [f"{letters} of {name} could not be read; the file may be damaged or cut short."]

"""The JSON that speech recognisers commonly write: segments with words, or words alone."""

import json
import re
from typing import Any

from cuewright.errors import UnreadableSource
from cuewright.hear.cues import Cue, to_script
from cuewright.hear.decode import tidy
from cuewright.hear.markup import plain
from cuewright.hear.script import Script

_REACH = 40
"""How many characters ahead a word may stand from where it is looked for."""


def recognise(text: str, *, expected: bool = False) -> bool:
    """Whether ``text`` is JSON, whole or broken; ``expected`` settles what is in doubt."""
    if re.match(r'\s*(?:\{\s*(?:["}]|$)|\[\s*(?:\{|\]\s*$|$))', text):
        return True
    return expected and re.match(r'\s*(?:[{["]|(?:null|true|false|-?\d+)\s*$)', text) is not None


def parse(name: str, text: str) -> Script:
    """The segments as one script; raises UnreadableSource for broken or other JSON."""
    try:
        data = json.loads(text)
    except (ValueError, RecursionError):
        raise UnreadableSource(
            f"{name} is JSON that breaks off or is damaged; write the transcript again."
        ) from None
    cues = _cues(data)
    if cues is None:
        raise UnreadableSource(
            f"{name} is JSON without segments or words of speech; "
            'give a transcript with "segments", each with "text", "start" and "end".'
        )
    script = to_script(name, [cue for cue in cues if cue.text])
    if isinstance(data, dict):
        script.duration_s = _number(data.get("duration")) or script.duration_s
        if isinstance(data.get("language"), str):
            script.language = tidy(data["language"]) or None
    return script


def _cues(data: Any) -> list[Cue] | None:
    rows = data
    if isinstance(data, dict):
        lists = [data[key] for key in ("segments", "words") if isinstance(data.get(key), list)]
        rows = next((rows for rows in lists if rows), lists[0] if lists else None)
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        return None
    if not all(_text(row) is not None or isinstance(row.get("words"), list) for row in rows):
        return None
    if _are_words(data, rows):
        rows = [{"words": rows}]
    return [_cue(row) for row in rows]


def _are_words(data: Any, rows: list[dict[str, Any]]) -> bool:
    named = isinstance(data, dict) and not data.get("segments")
    return bool(rows) and (named or all("word" in row for row in rows))


def _cue(row: dict[str, Any]) -> Cue:
    listed = row.get("words")
    words = [w for w in listed if isinstance(w, dict)] if isinstance(listed, list) else []
    text = row.get("text")
    if not isinstance(text, str) or not text.strip():
        text = _joined([_text(word) or "" for word in words])
    text = plain(tidy(text.strip()))
    stamps, confidence = _aligned(text, words)
    start, end = _number(row.get("start")), _number(row.get("end"))
    speaker = row.get("speaker")
    return Cue(
        stamps[0][1] if start is None and stamps else start,
        stamps[-1][1] if end is None and stamps else end,
        text,
        stamps,
        [(0, tidy(speaker))] if isinstance(speaker, str) and speaker else [],
        confidence,
    )


def _joined(words: list[str]) -> str:
    """Words as one text; recognisers that write parts of words mark each space themselves."""
    marked = any(word[:1].isspace() or word[-1:].isspace() for word in words[1:])
    return ("" if marked else " ").join(words)


def _aligned(
    text: str, words: list[dict[str, Any]]
) -> tuple[list[tuple[int, float]], dict[int, float]]:
    """Times and confidence by place, for each word that is found in ``text``."""
    stamps: list[tuple[int, float]] = []
    confidence: dict[int, float] = {}
    place = 0
    for word in words:
        token = (_text(word) or "").strip()
        found = text.find(token, place, place + len(token) + _REACH)
        if found < 0:
            token = plain(tidy(token))
            found = text.find(token, place, place + len(token) + _REACH)
        if not token or found < 0:
            continue
        place = found + len(token)
        for at, second in ((found, _number(word.get("start"))), (place, _number(word.get("end")))):
            if second is not None:
                stamps.append((at, second))
        sure = _number(word.get("probability", word.get("confidence")))
        if sure is not None:
            confidence[found] = min(sure, 1.0)
    return stamps, confidence


def _text(row: dict[str, Any]) -> str | None:
    text = row.get("word", row.get("text"))
    return text if isinstance(text, str) else None


def _number(value: Any) -> float | None:
    if isinstance(value, str) and re.fullmatch(r"\d{1,7}(?:\.\d{1,9})?", value):
        value = float(value)
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return float(value) if 0 <= value < 1e7 else None

"""A written text as lines: headings, items of lists, rows of tables and plain text.

Marks of a list and emphasis are left out of the words; all else stands as written.
"""

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from cuewright_models.outline import Line, LineKind
from cuewright_models.transcript import Word

_HEADING = re.compile(r"\s{0,3}#{1,6}\s+|\s*(?=(?:\*\*|__)\S)")
_RUNS_ON = re.compile(r"\s*(\*\*|__)[^*_]*[^*_:]\1\s+[a-z]")
"""A sentence that begins with a bold name: "**Low Tide** is a quiet session"."""
_BULLET = re.compile(r"(\s*)[-*•‣▪◦·●○■□▸►➤✓✔✅☑+\u2013\u2014](?:\ufe0f)?\s+(?=\S)")
_NUMBER = re.compile(r"(\s*)(?:\((\d{1,2})\)|(\d{1,2})[.)])\s+(?=\S)")
_LETTER = re.compile(r"(\s*)(?:\(?([A-Z]\d?)[).:]\s+|([A-Z]\d)\s+(?:[-\u2013\u2014:]\s*)?)(?=\S)")
_PART = re.compile(r"(\s*)(?:[Pp]art|[Bb]lock|PART|BLOCK)\s+([A-Z]\d?|\d)\s*[).:\u2013\u2014-]?\s*")
_RULE = re.compile(r"\s*(?:[-=*_\u2013\u2014~]\s*){3,}$")
_TABLE_RULE = re.compile(r"\s*\|?(?:\s*:?-+:?\s*\|)*\s*:?-+:?\s*\|?\s*$")
_EMPHASIS = re.compile(r"\*\*|__|`|~~|(?<![\w*])\*(?=\S)|(?<=\S)\*(?![\w*])")
_LINK = re.compile(r"\]\([^()\s]*\)|\[(?=[^\[\]]*\]\()")
_ALONE = frozenset(("/", "+", "|", "→", "->", ">", "//", "•", "·", "&"))
"""Signs that part a line where they stand alone."""
_MOST_WORDS = 9
"""A heading has no more."""
_WORD = re.compile(r"\S+")


@dataclass(slots=True)
class Outline:
    """The words of a text and the lines that they stand in."""

    words: list[Word] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    numbers: list[int] = field(default_factory=list)
    """For each word, its line in the source, from 1."""


@dataclass(slots=True)
class _Opened:
    """A line without the marks that open it."""

    kind: LineKind
    text: str
    indent: int = 0
    label: str = ""


def outline_of(lines: Iterable[tuple[int, str]]) -> Outline:
    """The outline of numbered lines; empty lines and rules only part others."""
    out, gap, indents = Outline(), False, _Indents()
    for number, line in lines:
        if _TABLE_RULE.fullmatch(line) and "|" in line:
            _head(out)
        elif not line.strip() or _RULE.fullmatch(line):
            gap = True
        elif _is_row(line):
            _add_row(out, number, line, indents.depth, gap=gap)
            gap = False
        else:
            opened = _opened(line)
            _add(out, number, opened, indents.level(opened), gap=gap)
            gap = False
    return out


class _Indents:
    """How deep a line stands, by its indent and those of the lines above it."""

    def __init__(self) -> None:
        self._levels: list[int] = []

    def level(self, opened: _Opened) -> int:
        """0 for text at the margin, 1 for a list there, one more for each further indent."""
        if opened.kind == "heading" or (opened.kind == "text" and not opened.indent):
            self._levels = []
            return 0
        while self._levels and self._levels[-1] > opened.indent:
            self._levels.pop()
        if not self._levels or self._levels[-1] < opened.indent:
            self._levels.append(opened.indent)
        return len(self._levels)

    @property
    def depth(self) -> int:
        """Where a table stands: inside what comes before it."""
        return len(self._levels) + 1


def _opened(line: str) -> _Opened:
    line = line.expandtabs(4)
    for pattern in (_NUMBER, _PART, _LETTER):
        if (found := pattern.match(line)) is not None:
            label = next(group for group in found.groups()[1:] if group)
            label = f"part {label}" if pattern is _PART else label
            return _Opened("item", line[found.end() :], len(found[1]), label)
    if (found := _BULLET.match(line)) is not None and not line.lstrip().startswith("**"):
        inner = _NUMBER.match(line, found.end())
        if inner is None:
            return _Opened("item", line[found.end() :], len(found[1]))
        return _Opened("item", line[inner.end() :], len(found[1]), inner[2] or inner[3])
    if (end := _emoji(line)) is not None:
        return _Opened("item", line[end:], len(line) - len(line.lstrip()))
    if (found := _HEADING.match(line)) is not None and not _RUNS_ON.match(line):
        return _Opened("heading", line[found.end() :].rstrip("# "), label=found[0].strip())
    kind: LineKind = "heading" if _is_loud(line) or _is_lead(line) else "text"
    return _Opened(kind, line, len(line) - len(line.lstrip()))


def _emoji(line: str) -> int | None:
    """Where the text starts after a pictograph that opens the line as a bullet."""
    at = len(line) - len(line.lstrip())
    start = at
    while at < len(line) and (
        unicodedata.category(line[at]) in ("So", "Sk") or line[at] in "\ufe0f\u200d\u20e3"
        or (at + 1 < len(line) and line[at].isdigit() and line[at + 1] in "\ufe0f\u20e3")
    ):  # fmt: skip
        at += 1
    return at if at > start and line[at:].strip() else None


def _is_loud(line: str) -> bool:
    """WARM UP, and the like."""
    letters = [letter for letter in line if letter.isalpha()]
    short = len(line.split()) <= _MOST_WORDS
    return short and len(letters) > 2 and line.isupper() and not line.lstrip()[0].isdigit()


def _is_lead(line: str) -> bool:
    """ "Warm-up:" alone on its line; "4 rounds of:" goes on."""
    text = line.strip()
    return text.endswith(":") and len(text.split()) <= 4 and not any(map(str.isdigit, text))


def _is_row(line: str) -> bool:
    text = line.strip()
    return text.startswith("|") and text.count("|") > 1


def _head(out: Outline) -> None:
    """The row before a rule is the table's head."""
    if out.lines and out.lines[-1].kind == "row":
        out.lines[-1] = out.lines[-1]._replace(kind="header")


def _add(out: Outline, number: int, opened: _Opened, depth: int, *, gap: bool) -> None:
    first, alone = len(out.words), False
    parts = []
    for word in _words(opened.text):
        if alone:
            parts.append(len(out.words))
        alone = word in _ALONE
        out.words.append(Word(word))
    out.numbers += [number] * (len(out.words) - first)
    if len(out.words) > first:
        line = Line(first, len(out.words), number, opened.kind, depth, opened.label, gap)
        notes = tuple(_between("(", ")", out.words, first))
        names = tuple(_between("\u201c", "\u201d", out.words, first))
        named = tuple(name for name in names if name[0] > first)
        out.lines.append(line._replace(parts=tuple(parts), brackets=notes, names=named))


def _between(left: str, right: str, words: list[Word], first: int) -> Iterator[tuple[int, int]]:
    """Where a pair of signs opens and closes from the word ``first`` on."""
    opened: int | None = None
    for at in range(first, len(words)):
        text = words[at].text
        opened = at if opened is None and left in text else opened
        if opened is not None and right in text:
            yield opened, at + 1
            opened = None


def _add_row(out: Outline, number: int, line: str, depth: int, *, gap: bool) -> None:
    first = len(out.words)
    parts, columns = [], []
    for column, cell in enumerate(line.strip().removeprefix("|").removesuffix("|").split("|")):
        if words := list(_words(cell)):
            parts.append(len(out.words))
            columns.append(column)
            out.words += map(Word, words)
    out.numbers += [number] * (len(out.words) - first)
    if parts:
        row = Line(first, len(out.words), number, "row", depth, "", gap)
        out.lines.append(row._replace(parts=tuple(parts), columns=tuple(columns)))


def _words(text: str) -> Iterator[str]:
    plain = _EMPHASIS.sub(" ", _LINK.sub(" ", text))
    return (match[0] for match in _WORD.finditer(re.sub(r"\s+(?=[:.,;)])", "", plain)))

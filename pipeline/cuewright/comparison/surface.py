"""Where the words of a description stand in its text, to the character."""

import html
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from cuewright.comparison.stations import Station
from cuewright_models.base import Said
from cuewright_models.transcript import Transcript

BREAK = re.compile(r"\r+\n|[\n\r\f\v\x85\u2028\u2029]")
"""The line ends that the reader of text knows."""
_UNSEEN = re.compile(
    r"&(?:#\d{1,7}|#[xX][\da-fA-F]{1,6}|[A-Za-z]\w{1,31});|<[^<>]*>|[\s*_`~\u200b-\u200f\u2060\ufeff]"
)


class Span(NamedTuple):
    """Characters ``start:end`` of a text."""

    start: int
    end: int


@dataclass(frozen=True)
class Surface:
    """A description's text beside the words that were read from it."""

    text: str
    read: Transcript
    stations: Sequence[Station] = ()

    @cached_property
    def lines(self) -> list[Span]:
        """Each line without its end."""
        out, start = [], 0
        for found in BREAK.finditer(self.text):
            out.append(Span(start, found.start()))
            start = found.end()
        return [*out, Span(start, len(self.text))]

    @cached_property
    def end(self) -> str:
        """The line end that the text uses."""
        found = BREAK.search(self.text)
        return found[0] if found else "\n"

    @cached_property
    def places(self) -> list[Span | None]:
        """Where each word stands, ``None`` where the text was written in another way."""
        out: list[Span | None] = [None] * len(self.read.words)
        seen = self._seen
        starts = {n: next((i for i, s in enumerate(seen) if s[1] >= span.start), len(seen))
                  for n, span in enumerate(self.lines, 1)}  # fmt: skip
        letters = "".join(sign for sign, _, _ in seen)
        web, at = self.web, len(letters)
        for place in range(len(out) - 1, -1, -1):  # from the end: labels stand in front
            number = self.read.lines[place]
            low = 0 if web else starts.get(number, 0)
            at = at if web else min(at, starts.get(number + 1, len(letters)))
            word = _UNSEEN.sub("", self.read.words[place].text)
            found = letters.rfind(word, low, at) if word else -1
            if found >= 0:
                out[place] = Span(seen[found][1], seen[found + len(word) - 1][2])
                at = found
        return out

    @cached_property
    def web(self) -> bool:
        """Whether the text is markup; then a line of the page can be more than one of the file."""
        return len(re.findall(r"</?(?:p|div|ul|ol|li|h\d|td|tr|br)\b", self.text)) > 1

    @cached_property
    def _seen(self) -> list[tuple[str, int, int]]:
        """Each sign that a reader sees, and what it is written as."""
        out, at = [], 0
        for hidden in _UNSEEN.finditer(self.text):
            out += [(self.text[i], i, i + 1) for i in range(at, hidden.start())]
            if hidden[0][0] == "&":
                shown = _UNSEEN.sub("", html.unescape(hidden[0]).replace("\xa0", " "))
                out += [(sign, hidden.start(), hidden.end()) for sign in shown.strip()]
            elif hidden[0][0] == "<" and not self.web:
                out += [(self.text[i], i, i + 1) for i in range(*hidden.span())]
            at = hidden.end()
        return out + [(self.text[i], i, i + 1) for i in range(at, len(self.text))]

    @cached_property
    def efforts(self) -> list[Span]:
        """Where each effort stands."""
        found = (self.span(station.effort.said) for station in self.stations)
        return [span for span in found if span]

    def span(self, said: Sequence[Said]) -> Span | None:
        """From the first to the last character of a quote, where all of it was found."""
        for one in said:
            words = one.quote.split()
            for first in self._on(one.line):
                read = [word.text for word in self.read.words[first : first + len(words)]]
                if read == words:
                    return self.words(first, first + len(words))
        return None

    def _on(self, line: int | None) -> list[int]:
        return [at for at, number in enumerate(self.read.lines) if number == line]

    def words(self, first: int, last: int) -> Span | None:
        """Where the words ``first:last`` stand."""
        found = [place for place in self.places[first:last] if place]
        return Span(found[0].start, found[-1].end) if found else None

    def line_of(self, at: int) -> int:
        """The line of a character, counted from 0."""
        return next((n for n, span in enumerate(self.lines) if at <= span.end), 0)

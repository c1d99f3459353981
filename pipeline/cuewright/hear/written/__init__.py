"""Sessions that were written down, not spoken: a post, a board, a description."""

import re
from collections.abc import Iterable

from cuewright.hear.markup import plain
from cuewright.hear.written.form import is_session
from cuewright.hear.written.outline import Outline, outline_of
from cuewright.hear.written.web import is_web, lines_of

__all__ = ["Outline", "is_web", "noted", "recognise", "taken_down"]

_LINE = re.compile(r"\r\n|[\n\r\x0b\x0c\u2028\u2029]")


def taken_down(text: str) -> Outline:
    """The lines and words of a written text, be it plain, Markdown or of a web editor."""
    if is_web(text):
        return outline_of(lines_of(text))
    return outline_of(enumerate(_LINE.split(plain(text)), 1))


def noted(lines: Iterable[tuple[int, str]]) -> Outline:
    """The same of numbered lines, such as the comments in a file of captions."""
    return outline_of((number, plain(line)) for number, line in lines)


def recognise(outline: Outline) -> bool:
    """Whether the text is laid out as a session; sentences are for the spoken grammar."""
    return is_session(outline.words, outline.lines)

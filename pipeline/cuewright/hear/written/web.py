"""What a web editor puts on the clipboard, as the lines that it shows."""

import re
from html.parser import HTMLParser

_TAGS = re.compile(r"</?(?:p|div|ul|ol|li|h[1-6]|table|tr|td|th|br|strong|span)\b[^<>]*>", re.I)
_FEWEST = 2
"""Tags from which a text is markup."""
_BREAKS = frozenset(("p", "div", "br", "table", "ul", "ol", "tr", "li", "section", "article"))
_HEADS = {f"h{level}": "#" * level + " " for level in range(1, 7)}
_BOLD = frozenset(("b", "strong"))
_SILENT = frozenset(("script", "style", "head", "title"))


def is_web(text: str) -> bool:
    """Whether a text is written in tags of a web page, not angle brackets here and there."""
    return len(_TAGS.findall(text, 0, 20_000)) >= _FEWEST


def lines_of(text: str) -> list[tuple[int, str]]:
    """The lines that a web page shows, lists and tables as Markdown, each with its source line."""
    page = _Page()
    page.feed(text)
    page.close()
    page.end_line()
    return page.lines


class _Page(HTMLParser):
    """Collects the lines; lists nest by two spaces."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.lines: list[tuple[int, str]] = []
        self._line = ""
        self._lists: list[int | None] = []
        self._hidden = 0
        self._cells = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in _BREAKS or tag in _HEADS:
            self.end_line()
        if tag in ("ul", "ol"):
            self._lists.append(0 if tag == "ol" else None)
        elif tag in _SILENT:
            self._hidden += 1
        elif tag in _BOLD:
            self._line += "**"
        elif tag in ("td", "th"):
            self._line += "| "
            self._cells += 1
        else:
            self._line += self._marker(tag)

    def _marker(self, tag: str) -> str:
        """What opens a heading or an item of a list."""
        if tag != "li":
            return _HEADS.get(tag, "")
        indent = "  " * (len(self._lists) - 1)
        if not self._lists or self._lists[-1] is None:
            return f"{indent}- "
        self._lists[-1] += 1
        return f"{indent}{self._lists[-1]}. "

    def handle_endtag(self, tag: str) -> None:
        if tag in _BOLD:
            self._line = self._line.rstrip() + "**"
        elif tag in _SILENT:
            self._hidden = max(0, self._hidden - 1)
        elif tag in ("ul", "ol") and self._lists:
            self.end_line()
            self._lists.pop()
        elif tag == "tr" and self._cells:
            self._line += "|"
        if tag in _BREAKS or tag in _HEADS:
            self.end_line(gap=tag in ("p", "table"))
        if tag == "tr":
            self._cells = 0

    def handle_data(self, data: str) -> None:
        if self._hidden:
            return
        for nth, piece in enumerate(data.split("\n")):
            tight = piece if self._line.strip() else piece.lstrip()
            self._line += (" " if nth and self._line.strip() else "") + tight

    def end_line(self, *, gap: bool = False) -> None:
        """Put the line away, and an empty one after it where a paragraph ends."""
        if self._line.strip(" *|#"):
            self.lines.append((self.getpos()[0], self._line.rstrip()))
        if gap and self.lines and self.lines[-1][1]:
            self.lines.append((self.getpos()[0], ""))
        self._line = ""

"""Pages of a plan, one module a form. No page writes a file; ``cuewright.files`` does."""

from collections.abc import Callable
from typing import NamedTuple

from cuewright.render import description, html, jsonfile, markdown, terminal
from cuewright_models.plan import Plan


class Form(NamedTuple):
    """How to make a page of a plan, and how its file's name ends."""

    page: Callable[[Plan], str]
    suffix: str


FORMS: dict[str, Form] = {
    "json": Form(jsonfile.page, ".plan.json"),
    "markdown": Form(markdown.page, ".plan.md"),
    "html": Form(html.page, ".plan.html"),
    "text": Form(terminal.page, ".plan.txt"),
    "description": Form(description.page, ".description.md"),
}
"""Every form that can be asked for, by the name the user gives."""

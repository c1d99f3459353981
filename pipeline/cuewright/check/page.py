"""The rules as pages: one of them as plain text, all of them as one Markdown document."""

from collections.abc import Iterable, Iterator
from textwrap import fill

from cuewright.check.rule import Rule

WIDTH = 80


def plain(rule: Rule) -> str:
    """One rule's page, at most 80 columns wide."""
    parts = (
        f"{rule.code} ({rule.severity})\n{_wrapped(rule.question)}",
        _wrapped(f"Why: {rule.why}"),
        "\n".join(("Fires:", *map(_quoted, rule.fires))),
        "\n".join(("Does not fire:", *map(_quoted, rule.silent))),
        _wrapped(f"Leaves alone: {rule.leaves_alone}"),
    )
    return "\n\n".join(parts) + "\n"


def _wrapped(text: str, first: str = "", then: str = "") -> str:
    return fill(text, WIDTH, initial_indent=first, subsequent_indent=then, break_on_hyphens=False)


def _quoted(talk: str) -> str:
    return _wrapped(f'"{talk}"', "  ", "   ")


def markdown(groups: Iterable[tuple[str, tuple[Rule, ...]]]) -> str:
    """The groups of rules below their headings."""
    return "\n\n".join(part for heading, rules in groups for part in _group(heading, rules)) + "\n"


def _group(heading: str, rules: tuple[Rule, ...]) -> Iterator[str]:
    if rules:
        yield f"## {heading}"
    for rule in rules:
        yield f"### {rule.code}"
        yield f"**{rule.question}** ({rule.severity})"
        yield rule.why
        yield from ("It speaks:", *(f"> {talk}" for talk in rule.fires))
        yield from ("It stays silent:", *(f"> {talk}" for talk in rule.silent))
        yield f"It leaves alone: {rule.leaves_alone}"

"""Which findings are wanted, by the codes of rules and by severity."""

from collections.abc import Iterable
from difflib import get_close_matches
from typing import Literal, get_args

from cuewright.check import RULES, UnknownRule
from cuewright_models.finding import Finding, Severity

Limit = Literal["error", "warning", "note", "never"]
"""The mildest severity that a run fails on."""
LIMITS: tuple[Limit, ...] = get_args(Limit)
SEVERITIES: tuple[Severity, ...] = get_args(Severity)
"""The gravest first."""


def checked(words: Iterable[str]) -> tuple[str, ...]:
    """The words, each the code of a rule or a severity.

    Raises UnknownRule with the nearest one for any other word.
    """
    words = tuple(words)
    known = (*(rule.code for rule in RULES), *SEVERITIES)
    for word in words:
        if word not in known:
            nearest, *_ = get_close_matches(word, known, n=1, cutoff=0)
            raise UnknownRule(f"There is no rule {word[:60]!r}; did you mean {nearest}?")
    return words


def chosen(
    findings: Iterable[Finding], select: tuple[str, ...], ignore: tuple[str, ...]
) -> tuple[Finding, ...]:
    """Those that ``select`` names, all if it is empty, less those that ``ignore`` names."""
    return tuple(
        finding
        for finding in findings
        if (not select or _named(finding, select)) and not _named(finding, ignore)
    )


def fails(finding: Finding, limit: Limit) -> bool:
    """Whether the finding is as grave as ``limit`` or graver."""
    return limit != "never" and SEVERITIES.index(finding.severity) <= SEVERITIES.index(limit)


def _named(finding: Finding, words: tuple[str, ...]) -> bool:
    return finding.rule in words or finding.severity in words

"""The one shape of a rule: what it asks, why, when it speaks, and the function that looks."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from cuewright_models.base import Evidence
from cuewright_models.finding import Finding, Severity
from cuewright_models.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One check. ``fires`` and ``silent`` are sentences as a coach would say them."""

    code: str
    severity: Severity
    question: str
    why: str
    fires: tuple[str, ...]
    silent: tuple[str, ...]
    leaves_alone: str
    find: Callable[[Plan], Iterator[Finding]]

    def finding(
        self,
        about: str,
        message: str,
        *,
        expected: str,
        found: str,
        said: Evidence,
        suggestion: str,
        severity: Severity | None = None,
        say: str | None = None,
    ) -> Finding:
        """A complaint of this rule; ``said`` holds every place that disagrees.

        ``severity`` where it is not the rule's usual one; ``say`` is a sentence to record
        or to put on the screen instead.
        """
        return Finding(
            rule=self.code,
            severity=severity or self.severity,
            about=about,
            message=message,
            expected=expected,
            found=found,
            said=said,
            suggestion=suggestion,
            say=say,
        )


def union(*places: Evidence) -> Evidence:
    """Every place once, in the order given."""
    return tuple(dict.fromkeys(said for evidence in places for said in evidence))

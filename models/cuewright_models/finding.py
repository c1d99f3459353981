"""What does not fit together."""

from typing import Literal

from cuewright_models.base import Evidence, Value

Severity = Literal["error", "warning", "note"]


class Finding(Value):
    """One rule's complaint, with every place that disagrees.

    ``expected`` and ``found`` are short texts with units; ``about`` is a canonical
    movement, a block id, ``"total"`` or ``"date"``. ``say`` is a sentence that the coach
    could record anew, or put on the screen, so that the finding goes away; it belongs where
    the last of ``said`` was said.
    """

    rule: str
    severity: Severity
    about: str
    message: str
    expected: str | None = None
    found: str | None = None
    said: Evidence = ()
    suggestion: str | None = None
    say: str | None = None

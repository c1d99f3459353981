"""How a recording is to be listened to."""

from collections.abc import Callable
from typing import Literal

from cuewright_models.base import Value

Device = Literal["auto", "cpu", "cuda"]


class Listening(Value):
    """All that the commands let somebody choose.

    ``model`` is a size or a folder; ``threads`` 0 leaves the number to the machine;
    ``language`` ``None`` has it recognised from the first words; ``hints`` are words to
    expect, separated by commas; ``keep`` tells whether
    what was heard is kept, to go on with or to have it at once the next time.
    """

    model: str = "small"
    device: Device = "auto"
    threads: int = 0
    language: str | None = None
    hints: str | None = None
    keep: bool = True


Progress = Callable[[float, float | None], None]
"""Told where listening begins, and then after every window: seconds of the recording done, and
of how many if it is known. A recording that was heard before is not told of."""


def unwatched(done_s: float, whole_s: float | None) -> None:
    """The progress that nobody wants to know."""

"""The sizes that the recogniser's models come in, and what each costs."""

from functools import cache

from cuewright import tables
from cuewright_models.base import Value


class Processor(Value):
    """``seconds`` of work and ``memory_mb`` for ``of_seconds`` of speech ``on`` a processor."""

    seconds: int
    of_seconds: int
    memory_mb: int
    on: str
    source: str


class Size(Value):
    """A row of ``models.toml``, whose head explains the fields."""

    name: str
    repo: str
    parameters: int
    memory_gb: int
    speed: int
    source: str
    processor: Processor | None = None

    @property
    def megabytes(self) -> int:
        """How large its files are: two bytes for each parameter."""
        return 2 * self.parameters


@cache
def sizes() -> dict[str, Size]:
    """All sizes by name, the smallest first."""
    table = tables.raw("cuewright.hear.recording", "models.toml")
    return tables.validated(table, Size, where="models.toml")

"""A talk from text in one call."""

import io
from collections.abc import Callable

import pytest

from cuewright.hear import read
from cuewright_models.transcript import Transcript

Hear = Callable[[str | bytes], Transcript]


@pytest.fixture
def hear() -> Hear:
    """Read what standard input holds."""

    def from_stdin(text: str | bytes) -> Transcript:
        raw = text.encode() if isinstance(text, str) else text
        return read("-", stdin=io.BytesIO(raw))

    return from_stdin

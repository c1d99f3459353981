"""Errors that a user can act on: what, where, and what to do."""


class CuewrightError(Exception):
    """A problem with what the user gave us, told in one sentence that holds the remedy."""


class UnreadableSource(CuewrightError):
    """A source that cannot be read at all."""


class BadTable(CuewrightError):
    """A data table with a row that does not fit."""

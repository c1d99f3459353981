"""The talks that a command is given: each read in turn, its warnings told."""

from collections.abc import Callable, Iterable
from pathlib import Path

from cuewright import console, recordings
from cuewright.movements.catalogue import Catalogue, catalogue, using
from cuewright.movements.own import extended, usual_file
from cuewright_models.plan import Plan
from cuewright_models.spoken import Spoken

Question = tuple[Iterable[str], Iterable[str]]
"""Paces, and amounts, that are not those of the talk."""


def known(own: Path | None) -> Catalogue:
    """The movements with those of the file given, else of the one in the user's folder."""
    path = own or usual_file()
    return extended(path) if path else catalogue()


def each(sources: Iterable[str], own: Path | None, one: Callable[[str], int]) -> int:
    """The gravest status of ``one`` on the sources in turn, with the movements of the user."""
    with using(known(own)):
        return console.each(sources, one)


def read(source: str, question: Question = ((), ())) -> Plan:
    """The plan, asked with other paces and amounts if any; its warnings told on the way."""
    from cuewright import flow  # a list of movements can do without it

    with recordings.hearing(source) as hearing:
        made = flow.asked(flow.read_plan(source, **hearing), *question)
    warn(made.warnings)
    if not made.blocks:
        console.tell(f"Warning: no session was found in {made.source.name}; its plan is empty.")
    return made


def spoken(source: str) -> Spoken:
    """What is said in a recording; its warnings told on the way."""
    from cuewright import flow

    with recordings.hearing(source) as hearing:
        said = flow.transcribe(source, **hearing)
    warn(said.hearing.warnings)
    return said


def warn(warnings: Iterable[str]) -> None:
    """Each as a message."""
    for warning in warnings:
        console.tell(f"Warning: {warning}")

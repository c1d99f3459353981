"""``cuewright compare``: what differs is printed, and the description corrected if so asked."""

import sys
from dataclasses import dataclass
from pathlib import Path

from cuewright import console, files, recordings, talks
from cuewright.errors import CuewrightError
from cuewright.flow import compare
from cuewright.hear import spelling
from cuewright.movements.catalogue import using
from cuewright.render import compared
from cuewright_models.comparison import Comparison

_MOST_BACKUPS = 1000


@dataclass(frozen=True, kw_only=True)
class Asked:
    """The options of the command."""

    as_json: bool = False
    html: bool = False
    write: bool = False
    in_place: bool = False
    yes: bool = False
    overwrite: bool = False
    quiet: bool = False
    movements: Path | None = None


def run(talk: str, description: str, asked: Asked) -> int:
    """Print the comparison, then write what was asked for; status 1 if anything differs.

    Raises CuewrightError with one sentence, before the talk is heard, for options that
    cannot be.
    """
    _check(talk, description, asked)
    with using(talks.known(asked.movements)), recordings.hearing(talk) as hearing:
        made = compare(talk, description, **hearing)
    talks.warn(made.warnings)
    console.put(_page(talk, description, made, asked))
    if made.remaining:
        number = len(made.remaining)
        console.tell(f"Warning: {number} of {len(made.findings)} must be corrected by hand.")
    if asked.write or asked.in_place:
        _save(Path(description), made, asked)
    return console.FOUND if made.findings else console.FINE


def _check(talk: str, description: str, asked: Asked) -> None:
    if talk == description == "-":
        raise CuewrightError("Only one of the two can be standard input; give a file for one.")
    if description == "-" and (asked.write or asked.in_place):
        raise CuewrightError("Standard input has no file to correct; leave out --write.")
    if asked.write and asked.in_place:
        raise CuewrightError("--write and --in-place save in two places; leave one out.")
    if asked.as_json and asked.html:
        raise CuewrightError("--json and --format html print different things; leave one out.")
    if asked.in_place and not (asked.yes or sys.stdin.isatty()):
        raise CuewrightError("--in-place asks first, and nobody is there to ask; add --yes.")


def _page(talk: str, description: str, made: Comparison, asked: Asked) -> str:
    if asked.as_json:
        return made.model_dump_json() + "\n"
    if asked.html:
        return compared.html(made)
    return compared.page(
        description, talk, made, width=console.width(), colour=console.colour(), brief=asked.quiet
    )


def _save(description: Path, made: Comparison, asked: Asked) -> None:
    """The corrected text, in the encoding of the given one."""
    if made.corrected == made.given:
        console.tell(f"{description} needs no correction; nothing was written.")
        return
    before = description.read_bytes()
    spelled = spelling(before)
    if spelled.text != made.given:
        raise CuewrightError(f"{description} was changed meanwhile; compare it again.")
    data = spelled.of(made.corrected)
    if asked.in_place:
        _replace(description, before, data, asked.yes)
    else:
        _beside(description, data, asked.overwrite)


def _beside(description: Path, data: bytes, overwrite: bool) -> None:
    target = description.with_name(f"{description.stem}.corrected{description.suffix}")
    if not overwrite and target.exists() and not _holds(target, data):
        raise CuewrightError(
            f"{target} is there with other words, perhaps corrected by hand; move it, or "
            "replace it with --overwrite."
        )
    files.put(target, data)
    console.tell(f"Wrote {target}.")


def _holds(target: Path, data: bytes) -> bool:
    try:
        return target.read_bytes() == data
    except OSError:
        return False


def _replace(description: Path, before: bytes, data: bytes, yes: bool) -> None:
    """The file itself, once somebody agrees; what it held goes into a backup."""
    if not yes and not _agreed(description):
        console.tell(f"{description} was left as it is.")
        return
    backup = _free(description)
    files.put(backup, before)
    files.put(description, data)
    console.tell(f"Corrected {description}; as it was it is {backup}.")


def _agreed(description: Path) -> bool:
    print(f"Correct {description}? [y/N] ", end="", file=sys.stderr, flush=True)
    return sys.stdin.readline().strip().lower() in ("y", "yes")


def _free(description: Path) -> Path:
    """``NAME.md.bak``, or the first ``NAME.md.bak.2`` and so on that is free."""
    names = (f"{description.name}.bak{f'.{n}' if n > 1 else ''}" for n in range(1, _MOST_BACKUPS))
    for name in names:
        if not (target := description.with_name(name)).exists():
            return target
    raise CuewrightError(f"{description} has a thousand backups; move them away.")

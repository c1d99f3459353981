"""Where the recogniser's models lie: a folder that was named, ours, or the hub's cache.

The network is asked last, and only for the sizes in ``models.toml``.
"""

import hashlib
import os
import shutil
from collections.abc import Callable
from pathlib import Path

from cuewright.errors import CuewrightError
from cuewright.hear.recording import fetching
from cuewright.hear.recording.sizes import Size, sizes

NEEDED = ("model.bin", "config.json", "tokenizer.json")
VOCABULARY = ("vocabulary.json", "vocabulary.txt")
_USED = "preprocessor_config.json"
_SAMPLE = 1 << 20


class NoModel(CuewrightError):
    """There is no model to listen with."""


def untold(sentence: str) -> None:
    """For who does not want to know that a model is being fetched."""


def folder(name: str, told: Callable[[str], None] = untold) -> Path:
    """The folder of a model by its size or its own path, fetched if it must be.

    ``told`` gets a sentence before the network is used. Raises NoModel with what is missing,
    where it was looked for and how to put it there, in one sentence.
    """
    if _is_path(name):
        return _complete(Path(name).expanduser())
    here = on_disk(name)
    if here is not None:
        return here
    if name not in sizes():
        raise NoModel(
            f"There is no model {name}; the sizes are {', '.join(sizes())}, and a model of "
            "your own is named by its folder."
        )
    return _fetched(sizes()[name], told)


def on_disk(name: str) -> Path | None:
    """The folder of a size on this machine: ours, else the hub's cache.

    Raises NoModel when it is in ours in part.
    """
    ours = place() / name
    return _complete(ours) if ours.is_dir() else _cached(name)


def place() -> Path:
    """The folder in which models are put by hand, one folder for each size."""
    from platformdirs import user_data_path

    return user_data_path("cuewright", appauthor=False) / "models"


def cache() -> Path:
    """The folder of what was heard."""
    from platformdirs import user_cache_path

    return user_cache_path("cuewright", appauthor=False) / "heard"


def identity(found: Path) -> str:
    """What tells one model from another: its files' sizes and both ends of each."""
    told = hashlib.sha256()
    for name in (*NEEDED, *VOCABULARY, _USED):
        path = found / name
        if path.is_file():
            told.update(f"{name} {path.stat().st_size}\n".encode())
            with path.open("rb") as stream:
                told.update(stream.read(_SAMPLE))
                stream.seek(max(0, path.stat().st_size - _SAMPLE))
                told.update(stream.read(_SAMPLE))
    return told.hexdigest()


def _is_path(name: str) -> bool:
    """A folder that happens to have a size's name is one only if a model is in it."""
    if os.sep in name or "/" in name or name.startswith("~"):
        return True
    return Path(name).is_dir() and (name not in sizes() or (Path(name) / NEEDED[0]).is_file())


def _complete(found: Path) -> Path:
    if not found.is_dir():
        raise NoModel(f"There is no model in {found}; put one there or choose another --model.")
    if missing := _missing(found):
        raise NoModel(f"The model in {found} lacks {', '.join(missing)}; copy it again, whole.")
    return found


def _missing(found: Path) -> list[str]:
    missing = [name for name in NEEDED if not (found / name).is_file()]
    if not any((found / name).is_file() for name in VOCABULARY):
        missing.append(VOCABULARY[0])
    return missing


def _cached(name: str) -> Path | None:
    """The folder in the hub's cache, if all of it is there; no network is used."""
    from huggingface_hub import try_to_load_from_cache

    if name not in sizes():
        return None
    weights = try_to_load_from_cache(sizes()[name].repo, NEEDED[0])
    found = Path(weights).parent if isinstance(weights, str) else None
    return None if found is None or _missing(found) else found


def _fetched(size: Size, told: Callable[[str], None]) -> Path:
    """The model in our folder, where it appears only when all of it has come."""
    ours = place() / size.name
    part = ours.with_name(f"{ours.name}.part")
    told(f"Fetching the model {size.name}, about {size.megabytes} MB, this once.")
    try:
        part.mkdir(parents=True, exist_ok=True)
        why = fetching.fetch(size.repo, part, (*NEEDED, "vocabulary.*", _USED))
        if why is None and not _missing(part):
            shutil.rmtree(part / ".cache", ignore_errors=True)
            part.replace(ours)
    except OSError as error:
        why = f"{(error.strerror or 'unknown fault').lower()} in {place()}"
    if ours.is_dir() and not _missing(ours):
        return ours
    raise NoModel(
        f"The model {size.name} is not on this machine and could not be fetched "
        f"({why or 'files are missing'}); put the files of {size.repo} into {ours} by hand, "
        "or name another folder with --model."
    )

"""Where the recogniser's models lie: a folder that was named, ours, or the hub's cache."""

import hashlib
import os
from pathlib import Path

from cuewright.errors import CuewrightError

_NEEDED = ("model.bin", "config.json", "tokenizer.json")
_VOCABULARY = ("vocabulary.json", "vocabulary.txt")
_SAMPLE = 1 << 20


class NoModel(CuewrightError):
    """There is no model to listen with."""


def folder(name: str) -> Path:
    """The folder of a model by its size or its own path, on this machine.

    Raises NoModel with what is missing, and where, in one sentence.
    """
    if os.sep in name or "/" in name or Path(name).is_dir():
        return _complete(Path(name))
    return _complete(place() / name)


def place() -> Path:
    """The folder in which models are put by hand, one folder for each size."""
    from platformdirs import user_data_path

    return user_data_path("cuewright", appauthor=False) / "models"


def cache() -> Path:
    """The folder of what was heard."""
    from platformdirs import user_cache_path

    return user_cache_path("cuewright", appauthor=False) / "heard"


def _complete(found: Path) -> Path:
    if not found.is_dir():
        raise NoModel(f"There is no model in {found}; put one there or choose another --model.")
    missing = [name for name in _NEEDED if not (found / name).is_file()]
    if not any((found / name).is_file() for name in _VOCABULARY):
        missing.append(_VOCABULARY[0])
    if missing:
        raise NoModel(f"The model in {found} lacks {', '.join(missing)}; copy it again, whole.")
    return found


def identity(found: Path) -> str:
    """What tells one model from another: its files' sizes and the ends of its weights."""
    told = hashlib.sha256()
    for name in (*_NEEDED, *_VOCABULARY):
        path = found / name
        if path.is_file():
            told.update(f"{name} {path.stat().st_size}\n".encode())
            with path.open("rb") as stream:
                told.update(stream.read(_SAMPLE))
                stream.seek(max(0, path.stat().st_size - _SAMPLE))
                told.update(stream.read(_SAMPLE))
    return told.hexdigest()

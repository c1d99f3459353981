"""The files of a model from the hub, by a process of its own that is ended when nothing comes.

The hub's client waits without end for one that takes the call and never answers, whatever
time it is told to wait.
"""

import errno
import os
import subprocess
import sys
from pathlib import Path
from time import monotonic, sleep

PATIENCE_S = 20.0
"""Seconds without anything coming after which it is given up."""

_LOOK_S = 0.1
_NO_ROOM = 3
_FETCH = f"""
import sys
try:
    from huggingface_hub import snapshot_download
    snapshot_download(sys.argv[1], local_dir=sys.argv[2], allow_patterns=sys.argv[3:])
except OSError as error:
    sys.exit({_NO_ROOM} if error.errno in ({errno.ENOSPC}, {errno.EDQUOT}) else 1)
"""
_PLAINLY = {
    "HF_HUB_DISABLE_PROGRESS_BARS": "1",
    "HF_HUB_DISABLE_TELEMETRY": "1",
    "HF_HUB_DISABLE_XET": "1",  # what comes must be seen to grow in the folder
}


def fetch(repo: str, into: Path, wanted: tuple[str, ...]) -> str | None:
    """Put the ``wanted`` files (names with ``*``) of the hub's ``repo`` into a folder.

    ``None`` when all are there, else in a few words why not. What came stays, and is gone on
    with the next time.
    """
    child = subprocess.Popen(
        [sys.executable, "-c", _FETCH, repo, str(into), *wanted],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env={**os.environ, **_PLAINLY},
    )
    try:
        if not _ends(child, into):
            return f"nothing came for {PATIENCE_S:g} seconds"
    finally:
        child.kill()
        child.wait()
    if child.returncode == _NO_ROOM:
        return "there is no room on the disk"
    return "the hub cannot be reached or does not have it" if child.returncode else None


def _ends(child: "subprocess.Popen[bytes]", into: Path) -> bool:
    """Wait as long as something comes; whether the process came to its own end."""
    size, since = _size(into), monotonic()
    while child.poll() is None:
        if (now := _size(into)) != size:
            size, since = now, monotonic()
        if monotonic() - since > PATIENCE_S:
            return False
        sleep(_LOOK_S)
    return True


def _size(folder: Path) -> int:
    """Bytes in a folder; files come and go while they are counted."""
    total = 0
    for path in folder.rglob("*"):
        try:
            total += path.stat().st_size
        except OSError:
            continue
    return total

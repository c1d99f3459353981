"""The folder that a run's files go to: no file twice, and never onto a source."""

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from cuewright import files
from cuewright.errors import CuewrightError


class Taken(CuewrightError):
    """A file name that is not free to be written."""


class Folder:
    """Names each source's files after it: ``talk.vtt`` gives ``talk.plan.json`` and so on."""

    def __init__(self, place: Path, sources: Sequence[str]) -> None:
        """Of sources with one stem the first has the name, whether it can be read or not."""
        self._place = place
        self._sources = {_real(source): source for source in sources if source != "-"}
        self._owners: dict[str, str] = {}
        for source in sources:
            self._owners.setdefault(_stem(source).casefold(), source)

    def put(self, source: str, pages: Mapping[str, str], *, overwrite: bool) -> list[Path]:
        """Pages by how their files' names end; none is written if one may not be.

        Raises Taken when a name belongs to another source, or is a source, and, unless
        ``overwrite``, when a file is there that holds anything else: somebody may have
        corrected it by hand.
        """
        targets = dict(zip(self.targets(source, pages), pages.values(), strict=True))
        for target, page in targets.items():
            if not overwrite and _differs(target, page):
                raise Taken(
                    f"{target} is there with other words, perhaps corrected by hand; "
                    "choose another folder, or replace it with --overwrite."
                )
        for target, page in targets.items():
            files.write(target, page)
        return list(targets)

    def targets(self, source: str, suffixes: Iterable[str]) -> list[Path]:
        """The files of a source, by how their names end; raises Taken as ``put`` does."""
        return [self._target(source, suffix) for suffix in suffixes]

    def _target(self, source: str, suffix: str) -> Path:
        target = self._place / (_stem(source) + suffix)
        owner = self._owners[_stem(source).casefold()]
        if owner != source:
            raise Taken(
                f"{source} would be written over {owner} as {target.name}; "
                "rename one, or read them into two folders."
            )
        if _real(target) in self._sources:
            raise Taken(f"{target} is one of the sources; choose another folder with --out.")
        return target


def _differs(target: Path, page: str) -> bool:
    """Whether there is a file, and it holds anything but this page."""
    try:
        return target.read_bytes() != page.encode()
    except FileNotFoundError:
        return False
    except OSError:
        return True


def _stem(source: str) -> str:
    return "standard-input" if source == "-" else Path(source).stem


def _real(path: str | Path) -> Path:
    try:
        return Path(path).resolve()
    except (OSError, ValueError):  # no such path can exist, so none can be written over
        return Path(path)

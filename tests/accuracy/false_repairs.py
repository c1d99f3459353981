"""How often plain English that is not about training is taken for misheard.

    python tests/accuracy/false_repairs.py [FOLDER ...] [--most RATE]

Reads the texts below each folder; without one, what every Python carries: the docstrings of
the standard library and the licences and descriptions of the installed packages. Each file is
one talk. Prints words, repairs (and other spellings taken for one of ours) for every 10,000
words, and each with its neighbours; exit status 1 above ``--most``, by default 1 in 10,000.
"""

import argparse
import ast
import sys
import sysconfig
from collections.abc import Iterable, Iterator
from importlib.metadata import distributions
from pathlib import Path
from typing import NamedTuple

from cuewright.normalise.mishearings import repair
from cuewright.normalise.spellings import respell
from cuewright.normalise.tokens import tokens
from cuewright_models.tokens import Token
from cuewright_models.transcript import Transcript, Word

MOST = 1.0
"""Repairs in 10,000 words, at most."""
OURS = "cuewright"
TEXTS = frozenset({"", ".txt", ".md", ".rst"})
PAPERS = ("licen", "copying", "notice", "copyright", "authors", "readme", "metadata", "changelog")
NEIGHBOURS = 4
PER = 10_000


class Text(NamedTuple):
    """A text and where it stands."""

    name: str
    words: str


class Repaired(NamedTuple):
    """One repair: where, the words around it as they stand, and what they were read as."""

    name: str
    around: str
    heard: str
    meant: str


def folder(top: Path) -> Iterator[Text]:
    """Every readable text below a folder, and the docstrings of its Python files."""
    for path in sorted(top.rglob("*")):
        if path.suffix == ".py" and path.is_file():
            yield Text(str(path), docstrings(path))
        elif path.suffix.lower() in TEXTS and path.is_file():
            yield Text(str(path), _read(path))


def installed() -> Iterator[Text]:
    """Licences and descriptions of the installed packages, less our own."""
    for package in distributions():
        if package.name == OURS:
            continue
        for file in package.files or ():
            if file.name.lower().startswith(PAPERS):
                yield Text(f"{package.name}/{file.name}", _read(Path(str(file.locate()))))


def standard() -> Iterator[Text]:
    """The docstrings of the standard library, without its tests and packages put beside it."""
    top = Path(sysconfig.get_path("stdlib"))
    for path in sorted(top.rglob("*.py")):
        if not {"site-packages", "test", "tests", "idle_test"} & set(path.relative_to(top).parts):
            yield Text(str(path.relative_to(top)), docstrings(path))


def docstrings(path: Path) -> str:
    """Every docstring of a Python file."""
    try:
        tree = ast.parse(_read(path))
    except (SyntaxError, ValueError):
        return ""
    kinds = ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef
    nodes = (node for node in ast.walk(tree) if isinstance(node, kinds))
    return "\n".join(ast.get_docstring(node) or "" for node in nodes)


def _read(path: Path) -> str:
    try:
        return path.read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        return ""


def once(texts: Iterable[Text]) -> Iterator[Text]:
    """Texts with words in them, each only once."""
    seen: set[str] = set()
    for text in texts:
        if text.words.strip() and text.words not in seen:
            seen.add(text.words)
            yield text


def repairs(text: Text) -> Iterator[Repaired]:
    """What is taken for misheard or for another spelling in one text."""
    words = text.words.split()
    heard = Transcript(name=text.name, kind="text", sha256="", words=tuple(map(Word, words)))
    plain = tokens(heard)
    spelt = respell(plain)
    mended, swaps = repair(spelt)
    places = [mended[swap.start].first for swap in swaps]
    places += sorted({token.first for token in _changed(plain, spelt)})
    for first in places:
        meant = " ".join(token.norm for token in mended if first in range(token.first, token.last))
        around = words[max(0, first - NEIGHBOURS) : first + NEIGHBOURS + 1]
        yield Repaired(text.name, " ".join(around), words[first], meant)


def _changed(plain: Iterable[Token], spelt: Iterable[Token]) -> Iterator[Token]:
    """The tokens that a spelling has changed."""
    before = {(token.first, token.norm) for token in plain}
    return (token for token in spelt if (token.first, token.norm) not in before)


def measure(texts: Iterable[Text]) -> tuple[int, list[Repaired]]:
    """The number of words, and every repair."""
    count, found = 0, []
    for text in once(texts):
        count += len(text.words.split())
        found += repairs(text)
    return count, found


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folders", type=Path, nargs="*", metavar="FOLDER")
    parser.add_argument("--most", type=float, default=MOST, metavar="RATE")
    asked = parser.parse_args()
    texts = [text for top in asked.folders for text in folder(top)]
    count, found = measure(texts if asked.folders else [*standard(), *installed()])
    for each in found:
        print(f"{each.name}: … {each.around} …  {each.heard} read as {each.meant}")
    rate = PER * len(found) / count if count else 0.0
    print(f"{count} words, {len(found)} repairs, {rate:.2f} in {PER} words; at most {asked.most:g}")
    return 1 if rate > asked.most else 0


if __name__ == "__main__":
    sys.exit(main())

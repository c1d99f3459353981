"""How well the written descriptions of the corpus and of our own talks are read alone.

    descriptions.py [--show]

Each is read without its talk and compared with the gold plan's efforts, corrected in
``descriptions.toml`` where the description differs on purpose. Prints precision, recall and F1.
"""

import json
import sys
import tomllib
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
FOLDERS = (HERE.parent / "corpus", HERE.parent / "talks")
sys.path.insert(0, str(HERE))

import score  # noqa: E402  (beside this file, which may be run from anywhere)

from cuewright.flow import read_description  # noqa: E402

Fact = tuple[Any, ...]


def wanted(gold: dict[str, Any], corrected: dict[str, Any]) -> Counter[Fact]:
    """The efforts that the description's own words ask for."""
    facts: Counter[Fact] = score.facts(gold, gold)["efforts"]
    changed = {(name, float(old)): float(new) for name, old, new in corrected.get("change", ())}
    dropped = {(name, float(low)) for name, low in corrected.get("drop", ())}
    out: Counter[Fact] = Counter()
    for fact, count in facts.items():
        key = (fact[1], fact[3])
        if key not in dropped:
            new = changed.get(key)
            out[fact if new is None else (*fact[:3], new, new, *fact[5:])] += count
    out.update(tuple(fact) for fact in corrected.get("add", ()))
    return out


def pairs(folder: Path) -> Iterator[tuple[str, Counter[Fact], Counter[Fact]]]:
    """Name, read and wanted efforts of each description in a folder."""
    table = tomllib.loads((HERE / "descriptions.toml").read_text())
    for path in sorted(folder.glob("*.description.md")):
        name = path.name.removesuffix(".description.md")
        gold = json.loads((folder / f"{name}.gold.json").read_text())
        plan = json.loads(read_description(path).model_dump_json())
        got = score.facts(plan, gold)["efforts"]
        yield name, got, wanted(gold, table.get(name, {}))


def f1(rows: list[tuple[str, Counter[Fact], Counter[Fact]]]) -> tuple[float, float, float]:
    """Precision, recall and F1 over all efforts."""
    hit = sum((got & gold).total() for _, got, gold in rows)
    said = sum(got.total() for _, got, _ in rows)
    want = sum(gold.total() for _, _, gold in rows)
    return hit / said, hit / want, 2 * hit / (said + want)


def main() -> None:
    for folder in FOLDERS:
        _print(folder.name, list(pairs(folder)))


def _print(where: str, rows: list[tuple[str, Counter[Fact], Counter[Fact]]]) -> None:
    """The figures of a folder, and its wrong facts where they are asked for."""
    if "--show" in sys.argv:
        for name, got, gold in rows:
            for sign, wrong in (("-", gold - got), ("+", got - gold)):
                for fact in wrong.elements():
                    print(name, sign, fact)
    precision, recall, both = f1(rows)
    print(f"descriptions of {where} alone: efforts {precision:.3f} {recall:.3f} F1 {both:.3f}")


if __name__ == "__main__":
    main()

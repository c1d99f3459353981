"""Score the number, quantity and date reader on test cases of public libraries.

    python tests/accuracy/public_cases.py FOLDER [--misses]

``FOLDER`` holds ``*.jsonl`` files with one case a line: ``text``; ``expect``, what the
library's own tests expect, as ``{kind, value}`` with values in s, m and kg; ``scope``, the
kinds that the case labels completely; ``ref``, the day of speaking for dates. A case is
right when every value in scope is there, in order, and nothing else. The reading is the
product's own; this file only puts it into the libraries' terms.
"""

import argparse
import json
import sys
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pint
from dateutil.relativedelta import relativedelta
from dateutil.rrule import DAILY, rrule, weekdays

from cuewright.normalise.amounts import amounts
from cuewright.normalise.dates import dates
from cuewright.normalise.tokens import tokens
from cuewright_models.tokens import Amount, CalendarDate, Token
from cuewright_models.transcript import Transcript, Word

HERE = Path(__file__).parent
UNITS = pint.UnitRegistry()
KIND = {None: "number", "kcal": "number", "s": "duration", "m": "length", "%": "percent"}
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
# These label a number without the "more than" beside it.
BOUNDLESS = ("NumberModel", "DimensionModel", "quantulum3", "Numeral")


@dataclass(frozen=True)
class Case:
    """One line of a file."""

    text: str
    expect: list[dict[str, Any]]
    scope: list[str]
    source: str
    ref: str | None


def cases(path: Path) -> list[Case]:
    """The cases of one file."""
    rows = (json.loads(line) for line in path.read_text("utf-8").splitlines() if line)
    return [Case(r["text"], r["expect"], r["scope"], r["from"], r.get("ref")) for r in rows]


def said(text: str) -> list[Token]:
    """Plain text as the tokens the reader works on."""
    words = tuple(Word(word) for word in text.split())
    return tokens(Transcript(name="case", kind="text", sha256="", words=words))


def read(case: Case) -> list[tuple[str, Any]]:
    """What the reader finds in a case, of the kinds in its scope."""
    heard = said(case.text)
    if "date" in case.scope:
        ref = date.fromisoformat((case.ref or "")[:10])
        return [("date", resolved(day, ref)) for day in dates(heard, relative=True)]
    whole = case.scope == ["number_range"]
    found = [pair for amount in amounts(heard) for pair in kinds(amount, case.source)]
    if whole:
        return [pair for pair in found if pair[0] == "number" and isinstance(pair[1], list)]
    return [pair for pair in found if pair[0] in case.scope]


def kinds(amount: Amount, source: str) -> Iterator[tuple[str, Any]]:
    """One amount as the kinds and values of the public cases."""
    if amount.shape in ("date", "other"):
        return
    if amount.shape == "ordinal":
        yield "ordinal", amount.low
    elif amount.shape in ("list", "pair"):
        yield from (_value(value, amount.unit) for value in amount.values)
    elif amount.shape == "by":
        last = 1 if amount.low == amount.high else 2
        yield from (("number", value) for value in amount.values[:-last])
        yield _ends(amount, source)
    else:
        yield _ends(amount, source)


def _ends(amount: Amount, source: str) -> tuple[str, Any]:
    low, high = amount.low, amount.high
    if low == high:
        return _value(low, amount.unit)
    if (low is None or high is None) and any(name in source for name in BOUNDLESS):
        return _value(high if low is None else low, amount.unit)
    kind, first = _value(low, amount.unit)
    return kind, [first, _value(high, amount.unit)[1]]


def _value(value: float | None, unit: str | None) -> tuple[str, float | None]:
    if unit in ("kg", "lb"):
        kilos = None if value is None else UNITS.Quantity(value, unit).to("kg").magnitude
        return "weight", kilos
    return KIND[unit], value


def resolved(day: CalendarDate, ref: date) -> list[str]:
    """The calendar days meant on the day ``ref``: one, or the last and the next that fit."""
    if day.days is not None:
        return [(ref + relativedelta(days=day.days)).isoformat()]
    if day.months is not None:
        there = ref + relativedelta(months=day.months)
        return [(there if day.day is None else there.replace(day=day.day)).isoformat()]
    if day.weeks is not None and day.weekday:
        monday = ref - relativedelta(days=ref.weekday()) + relativedelta(weeks=day.weeks)
        return [(monday + relativedelta(days=WEEKDAYS.index(day.weekday))).isoformat()]
    if day.year and day.month and day.day:
        return [date(day.year, day.month, day.day).isoformat()]
    return _nearest(day, ref)


def _nearest(day: CalendarDate, ref: date) -> list[str]:
    # The libraries let a month and its day stand even where the weekday does not agree.
    agrees = day.weekday is not None and day.month is None
    on = weekdays[WEEKDAYS.index(day.weekday)] if agrees and day.weekday else None
    fits = [
        found.date()
        for found in rrule(
            DAILY,
            dtstart=ref - relativedelta(years=5),
            until=ref + relativedelta(years=5),
            bymonth=day.month,
            bymonthday=day.day,
            byweekday=on,
        )
    ]
    past = [found for found in fits if found < ref][-1:]
    coming = [found for found in fits if found > ref][:1]
    if day.side is not None:
        return [found.isoformat() for found in (past if day.side < 0 else coming)]
    if ref in fits and day.day is not None and day.weekday is not None:
        return [ref.isoformat()]
    return [found.isoformat() for found in past + coming]


def right(case: Case) -> bool:
    """Every expected value, in order, and nothing else."""
    found = read(case)
    wanted = [(e["kind"], e.get("resolved", e["value"])) for e in case.expect]
    return len(found) == len(wanted) and all(map(_same, found, wanted))


def _same(found: tuple[str, Any], wanted: tuple[str, Any]) -> bool:
    return found[0] == wanted[0] and _close(found[1], wanted[1])


def _close(found: Any, wanted: Any) -> bool:
    if isinstance(found, list) and isinstance(wanted, list):
        return len(found) == len(wanted) and all(map(_close, found, wanted))
    if isinstance(found, float | int) and isinstance(wanted, float | int):
        return abs(found - wanted) <= 1e-5 * max(1.0, abs(wanted))
    return bool(found == wanted)


def declined() -> dict[str, str]:
    """Cases that the reader reads otherwise on purpose: text and reason."""
    table = tomllib.loads((HERE / "public_cases_declined.toml").read_text("utf-8"))
    return {row["text"]: row["why"] for row in table["case"]}


def floors() -> dict[str, int]:
    """The least that must be right in each file; only ever raised."""
    return tomllib.loads((HERE / "public_cases_floors.toml").read_text("utf-8"))["right"]


def main() -> None:
    """Print right/total for each file, and what is missed."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--misses", action="store_true")
    asked = parser.parse_args()
    apart = declined()
    for path in sorted(asked.folder.glob("*.jsonl")):
        every = cases(path)
        missed = [case for case in every if not right(case)]
        aside = sum(case.text in apart for case in missed)
        sys.stdout.write(
            f"{path.stem:18} {len(every) - len(missed):4} of {len(every):4}"
            f"   missed {len(missed)}, of these declined {aside}\n"
        )
        for case in missed if asked.misses else ():
            mark = "declined " if case.text in apart else ""
            wanted = [e.get("resolved", e["value"]) for e in case.expect]
            sys.stdout.write(f"    {mark}{case.text!r} {read(case)} not {wanted}\n")


if __name__ == "__main__":
    main()

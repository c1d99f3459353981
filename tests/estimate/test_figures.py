"""The figures of pace.toml: validated as they load, and about movements that exist."""

from copy import deepcopy
from typing import Any

import pytest

from cuewright.errors import BadTable
from cuewright.movements.catalogue import catalogue
from cuewright.paces import figures as module
from cuewright.paces.figures import Figures, figures
from cuewright.tables import raw
from cuewright_models.plan import BlockKind


def test_every_row_is_about_a_movement_that_exists() -> None:
    assert set(figures().movement) <= set(catalogue())


def test_every_row_of_records_exists() -> None:
    assert {row.records for row in figures().movement.values()} <= {None, *figures().records}


def test_the_shares_of_the_spread_add_up() -> None:
    assert sum(figures().number[name] for name in ("athlete", "day", "movement")) == 1


def test_limits_lie_below_the_fast_figure() -> None:
    limited = [row for row in figures().movement.values() if row.limit and row.reps]
    assert len(limited) >= 4
    assert all(row.limit <= row.reps.fast for row in limited)


def test_every_kind_of_block_has_its_rest() -> None:
    assert set(figures().rest) == set(BlockKind.__args__)


def test_machines_counted_in_kcal_have_a_pace_in_kcal() -> None:
    counted = {m.name for m in catalogue().values() if "kcal" in m.counted_in}
    assert counted == {name for name, row in figures().movement.items() if row.kcal}


def loaded(monkeypatch: pytest.MonkeyPatch, section: str, key: str, row: dict[str, Any]) -> Figures:
    table = deepcopy(raw("cuewright.paces", "pace.toml"))
    table[section][key] = row
    monkeypatch.setattr(module, "raw", lambda package, name: table)
    return figures.__wrapped__()


@pytest.mark.parametrize(
    ("section", "row", "named"),
    [
        ("seconds", {"low": 5, "likely": 3, "high": 9, "source": "x"}, "must not fall"),
        ("seconds", {"low": 1, "likely": 3, "hihg": 9, "source": "x"}, "hi"),
        ("number", {"value": -1, "source": "x"}, "value"),
        ("movement", {"stride_m": 1, "source": ""}, "source"),
        ("movement", {"reps": {"fast": 0, "typical": 4, "slow": 5}, "source": "x"}, "fast"),
        ("records", {"points": [[200, 19], [100, 10]], "source": "x"}, "must rise"),
    ],
)
def test_a_row_that_does_not_fit_is_named(
    monkeypatch: pytest.MonkeyPatch, section: str, row: dict[str, Any], named: str
) -> None:
    with pytest.raises(BadTable, match=rf"pace.toml: \[odd\].*{named}"):
        loaded(monkeypatch, section, "odd", row)

"""The movement catalogue: loads, agrees with itself, and says what the rest relies on."""

import re
from collections import defaultdict

import pytest

from cuewright.errors import BadTable
from cuewright.movements import catalogue as module
from cuewright.movements.catalogue import catalogue, shipped
from cuewright.paces.rates import rate
from cuewright_models.movement import Movement

ALL = tuple(catalogue().values())

PATTERNS = {
    "squat", "hinge", "lunge", "jump", "push-horizontal", "push-vertical", "pull-horizontal",
    "pull-vertical", "core-flexion", "core-rotation", "core-anti", "core-extension", "carry",
    "locomotion", "mobility", "olympic", "full-body",
}  # fmt: skip
FLAGS = {"floor", "loaded", "overhead", "inverted", "hang"}
CARRIED = {  # what can be picked up and loads a movement
    "barbell", "dumbbell", "kettlebell", "plate", "medicine ball", "sandbag", "backpack",
    "sled", "machine", "cable", "dip bars",
}  # fmt: skip


def spoken(name: str) -> str:
    """Hyphens, spaces and plurals are read alike."""
    return re.sub(r"[\s_-]+", "", name.lower()).removesuffix("s")


@pytest.mark.parametrize("movement", ALL, ids=lambda movement: movement.name)
def test_a_row_is_whole(movement: Movement) -> None:
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", movement.name)
    assert movement.patterns
    assert set(movement.patterns) <= PATTERNS
    assert set(movement.flags) <= FLAGS
    assert movement.counted_in
    assert len(set(movement.counted_in)) == len(movement.counted_in)
    assert movement.skill in (1, 2, 3)
    assert movement.name not in (*movement.easier, *movement.harder, *movement.swap)


@pytest.mark.parametrize("movement", ALL, ids=lambda movement: movement.name)
def test_counted_work_has_a_pace_in_the_one_place_for_it(movement: Movement) -> None:
    unit = movement.counted_in[0]
    assert unit == "s" or rate(movement.name, unit)
    assert movement.pace is movement.unbroken is None


def test_a_spoken_name_means_one_movement() -> None:
    meant = defaultdict(set)
    for movement in ALL:
        for name in (movement.name, *movement.said):
            meant[spoken(name)].add(movement.name)
    assert {name: who for name, who in meant.items() if len(who) > 1} == {}


def test_a_mishearing_is_no_other_movement_s_name() -> None:
    names = {spoken(name): m.name for m in ALL for name in (m.name, *m.said)}
    heard = defaultdict(set)
    for movement in ALL:
        for mishearing in movement.misheard:
            heard[spoken(mishearing)].add(movement.name)
            assert names.get(spoken(mishearing), movement.name) == movement.name
    assert {name: who for name, who in heard.items() if len(who) > 1} == {}


def test_kit_is_named_one_way() -> None:
    kit = {item for movement in ALL for item in movement.kit}
    assert all(re.fullmatch(r"[a-z]+([ -][a-z]+)*", item) for item in kit)
    assert len({spoken(item) for item in kit}) == len(kit)


def test_loaded_movements_name_what_loads_them() -> None:
    bare = {m.name for m in ALL if "loaded" in m.flags and not CARRIED & set(m.kit)}
    assert bare == set()


def test_easier_and_harder_never_point_the_same_way() -> None:
    """Two movements may not each be the easier one of the other, directly or in a ring."""
    easier = {m.name: set(m.easier) - {"reduce"} for m in ALL}
    for name in easier:
        seen, waiting = set(), list(easier[name])
        while waiting:
            other = waiting.pop()
            if other not in seen:
                seen.add(other)
                waiting.extend(easier[other])
        assert name not in seen


@pytest.mark.parametrize("field", ["easier", "harder", "swap"])
def test_a_name_that_is_not_in_the_table_stops_the_load(
    monkeypatch: pytest.MonkeyPatch, field: str
) -> None:
    table = {"push-up": {"patterns": ["push-horizontal"], field: ["puhs-up"]}}
    monkeypatch.setattr(module, "raw", lambda package, name: table)
    with pytest.raises(BadTable, match=r"\[push-up\] names puhs-up"):
        shipped.__wrapped__()


def test_a_misspelt_field_stops_the_load(monkeypatch: pytest.MonkeyPatch) -> None:
    table = {"push-up": {"patterns": ["push-horizontal"], "unbrokn": 12}}
    monkeypatch.setattr(module, "raw", lambda package, name: table)
    with pytest.raises(BadTable, match=r"\[push-up\] unbrokn"):
        shipped.__wrapped__()

"""What was left unsaid, and options that make another session of a station."""

import re
from collections.abc import Callable
from typing import Any

import pytest
from check.building import (
    about,
    advice,
    block,
    claim,
    cue,
    effort,
    findings,
    option,
    plan,
    rounds,
    said,
    target,
)
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st
from strategies import plans

from cuewright.check.care import care, rows, worst_first
from cuewright.estimate import estimate
from cuewright.movements.catalogue import Catalogue, catalogue, using
from cuewright.paces.rates import typical
from cuewright.tables import raw
from cuewright_models.movement import Movement, Pace
from cuewright_models.plan import Block, Effort, Load, Option, Plan, Unknown, efforts

RANDOM = settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def piece(*items: Any, name: str = "b9 conditioning", structure: str = "for-time") -> Block:
    """A block of work that no random plan has by that name."""
    return block(name, structure, *items)


def bare(base: Plan, movement: str, **fields: Any) -> Plan:
    """A random plan, less all that was said of its work, without the movement."""
    done = {each.movement for part in base.blocks for each in efforts(part.items)}
    assume(movement not in done)
    unsaid = dict.fromkeys(("targets", "options", "cues", "advice", "claims"), ())
    return base.model_copy(update=unsaid | fields)


def planted(base: Plan, *parts: Any) -> Plan:
    """The plan with the parts as its first block and its only statements."""
    more = plan(*parts)
    fields = {name: getattr(more, name) for name in ("targets", "options", "cues", "advice")}
    return base.model_copy(update={"blocks": (*more.blocks, *base.blocks), **fields})


def speaks(code: str, made: Plan, item: Effort) -> bool:
    """Whether the rule's finding is about the effort's movement, among others."""
    plain = item.movement.replace("-", " ")
    found = [re.split(": | has | have | gets | get ", f.message)[0] for f in findings(code, made)]
    return any(plain in re.split(", | and ", names.lower()) for names in found)


def with_number(made: Option, number: float, unit: str) -> Option:
    """An option with an amount."""
    return made.model_copy(update={"low": number, "high": number, "unit": unit})


# What care.toml says is true of the catalogue.


def test_care_is_in_the_catalogues_words() -> None:
    known = catalogue().values()
    assert {flag for row in rows() for flag in row.flags} <= {f for r in known for f in r.flags}
    patterns = {pattern for row in rows() for pattern in (*row.patterns, *row.never)}
    assert patterns <= {pattern for row in known for pattern in row.patterns}


@pytest.mark.parametrize("kind", ["both-at-once", "alternating"])
def test_listed_movements_are_one_sided(kind: str) -> None:
    for name in raw("cuewright.check", "words.toml")[kind]:
        assert catalogue()[name].one_sided


def test_the_worst_comes_first() -> None:
    names = ["goblet-squat", "box-jump", "push-up", "wall-walk", "box-jump"]
    assert worst_first(names) == ["wall-walk", "box-jump", "goblet-squat", "push-up"]
    assert care("push-up") is None
    assert care("grommet-flip") is None


def test_a_movement_of_ones_own_brings_its_pace() -> None:
    pace = Pace(fast=1, typical=2, slow=3)
    reps = Movement(name="grommet-flip", pace=pace)
    ways = Movement(name="grommet-haul", counted_in=("m",), pace=pace)
    with using(Catalogue({**catalogue(), reps.name: reps, ways.name: ways})):
        assert typical("grommet-flip", "reps") == 2
        assert typical("grommet-flip", "m") is None
        assert typical("grommet-haul", "m") == 0.02
    assert typical("grommet-flip", "reps") is None


# unit-missing


@pytest.mark.parametrize(
    ("item", "found"),
    [
        (effort("row", 20), ["row"]),
        (effort("plank", 30), ["plank"]),
        (effort("row", 20, "kcal"), []),
        (effort("row", 2), []),
        (effort("sprint", 10, as_said="sprints"), []),
        (effort("push-up", 20), []),
        (effort("row", 8, per_side=True), []),
        (effort("row", 20).model_copy(update={"said": said("row")}), []),
    ],
)
def test_a_number_wants_its_unit(item: Effort, found: list[str]) -> None:
    assert about("unit-missing", piece(item)) == found


def test_one_finding_quotes_all_numbers_without_unit() -> None:
    first, second = effort("row", 20), effort("bike", 15)
    (finding,) = findings("unit-missing", plan(piece(first, second)))
    assert finding.said == (*first.said, *second.said)
    assert finding.message.startswith("Row and bike")


@RANDOM
@given(plans(), st.integers(5, 300), st.sampled_from(["row", "bike", "ski", "plank", "run"]))
def test_units_in_any_plan(base: Plan, number: int, movement: str) -> None:
    base = bare(base, movement)
    unit = catalogue()[movement].counted_in[0]
    plain, whole = effort(movement, number), effort(movement, number, unit)
    assert speaks("unit-missing", planted(base, piece(plain)), plain)
    assert not speaks("unit-missing", planted(base, piece(whole)), whole)


# side-missing


@pytest.mark.parametrize(
    ("parts", "found"),
    [
        ([piece(effort("single-arm-row", 7))], ["single-arm-row"]),
        ([piece(effort("single-arm-row", 8))], []),
        ([piece(effort("single-arm-row", 7, per_side=True))], []),
        ([piece(effort("dead-bug", 12), effort("split-squat", 8, per_side=True))], []),
        (
            [piece(effort("single-arm-row", 8), effort("split-squat", 8, per_side=True))],
            ["single-arm-row"],
        ),
        ([piece(effort("kettlebell-clean", 5))], []),
        ([piece(effort("side-plank", 45, "s"))], []),
        ([piece(effort("push-up", 7))], []),
    ],
)
def test_a_number_wants_its_side(parts: list[Any], found: list[str]) -> None:
    assert about("side-missing", *parts) == found


def test_a_cue_that_speaks_of_sides_is_enough() -> None:
    spoken = cue("split-squat").model_copy(update={"said": said("swap legs halfway")})
    assert about("side-missing", piece(effort("split-squat", 9)), spoken) == []


@RANDOM
@given(plans(), st.integers(1, 20), st.sampled_from(["single-arm-row", "split-squat", "dead-bug"]))
def test_sides_in_any_plan(base: Plan, half: int, movement: str) -> None:
    base = bare(base, movement)
    odd = effort(movement, 2 * half + 1)
    assert speaks("side-missing", planted(base, piece(odd)), odd)
    each = odd.model_copy(update={"per_side": True})
    assert not speaks("side-missing", planted(base, piece(each)), each)


# load-missing

KG = (Load(low=60, high=60, unit="kg"),)
SETS = {"name": "b9 strength", "structure": "sets"}
SQUATS = piece(rounds(5, effort("back-squat", 5)), **SETS)


@pytest.mark.parametrize(
    ("parts", "found"),
    [
        ([SQUATS], ["back-squat"]),
        ([piece(rounds(5, effort("back-squat", 5, load=KG)), **SETS)], []),
        ([SQUATS, target("back-squat", 8, "rpe")], []),
        ([SQUATS, option("back-squat", "lighter")], []),
        ([SQUATS, cue("back-squat").model_copy(update={"said": said("start light")})], []),
        ([SQUATS, advice("total").model_copy(update={"said": said("pick a weight")})], []),
        ([piece(effort("kettlebell-swing", 10))], []),
        ([piece(effort("sandbag-clean", 10), effort("deadlift", 5, load=KG))], []),
        ([piece(effort("kettlebell-swing", 9, load=KG), effort("goblet-squat", 9))], []),
        ([piece(rounds(5, effort("push-up", 5)), **SETS)], []),
        (
            [
                piece(effort("kettlebell-swing", 9, load=KG), name="b8 conditioning"),
                piece(effort("single-arm-swing", 9)),
            ],
            [],
        ),
    ],
)
def test_a_lift_wants_its_load(parts: list[Any], found: list[str]) -> None:
    assert about("load-missing", *parts) == found


def test_kit_announced_with_its_weight_is_a_load() -> None:
    bell = claim("equipment", "barbell", said=said("a bar with sixty kilos on it"))
    assert about("load-missing", SQUATS, bell) == []


@RANDOM
@given(plans(), st.integers(1, 12), st.sampled_from(["back-squat", "front-squat"]))
def test_loads_in_any_plan(base: Plan, reps: int, movement: str) -> None:
    base = bare(base, movement)
    lift = effort(movement, reps)
    assert speaks("load-missing", planted(base, piece(rounds(3, lift), **SETS)), lift)
    told = piece(rounds(3, lift.model_copy(update={"load": KG})), **SETS)
    assert not speaks("load-missing", planted(base, told), lift)


# work-without-cue

THREE = piece(effort("thruster", 10), effort("push-up", 10), effort("sit-up", 10))


@pytest.mark.parametrize(
    ("parts", "found"),
    [
        ([THREE, cue("push-up"), cue("sit-up")], ["thruster"]),
        ([THREE, cue("push-up"), cue("sit-up"), cue("thruster")], []),
        ([THREE, cue("push-up")], []),
        ([piece(effort("thruster", 10), effort("push-up", 10)), cue("push-up")], []),
        ([THREE], []),
        ([THREE, cue("thruster"), cue("push-up")], []),
        (
            [
                THREE,
                cue("push-up"),
                cue("sit-up").model_copy(update={"said": said("and the thrusters, quick")}),
            ],
            [],
        ),
    ],
)
def test_one_of_many_wants_its_cue(parts: list[Any], found: list[str]) -> None:
    assert about("work-without-cue", *parts) == found


def test_the_piece_must_be_coached_by_half() -> None:
    names = ["thruster", "push-up", "sit-up", "box-jump", "deadlift"]
    many = piece(*(effort(name, 10) for name in names))
    assert about("work-without-cue", many, cue("push-up"), cue("sit-up")) == []


@RANDOM
@given(plans(), st.sampled_from(["thruster", "box-jump", "deadlift", "wall-walk"]))
def test_cues_in_any_plan(base: Plan, movement: str) -> None:
    base = bare(base, movement)
    item = effort(movement, 10)
    work = piece(item, effort("push-up", 10), effort("sit-up", 10))
    others = [cue("push-up"), cue("sit-up")]
    assert speaks("work-without-cue", planted(base, work, *others), item)
    assert not speaks("work-without-cue", planted(base, work, *others, cue(movement)), item)


# option-missing

WALKS = piece(effort("wall-walk", 5), effort("push-up", 10), effort("air-squat", 10))
JUMPS = piece(effort("box-jump", 5), effort("push-up", 10), effort("sit-up", 10))
EASED = [option("push-up", "easier", "knee-push-up"), option("sit-up", "substitute", "dead-bug")]


@pytest.mark.parametrize(
    ("parts", "found"),
    [
        ([WALKS], ["wall-walk"]),
        ([WALKS, option("wall-walk", "easier", "inchworm")], []),
        ([WALKS, option("total", "fewer")], []),
        ([WALKS, option("wall-walk", "harder")], ["wall-walk"]),
        ([piece(effort("wall-walk", 5, alternatives=("inchworm",)))], []),
        ([JUMPS], []),
        ([JUMPS, *EASED[:1]], []),
        ([JUMPS, *EASED], ["box-jump"]),
        ([JUMPS, *EASED, option("box-jump", "fewer")], []),
        ([piece(*JUMPS.items, effort("row", 500, "m"), effort("air-squat", 9)), *EASED], []),
        ([WALKS, option("push-up", "easier").model_copy(update={"said": said("walls too")})], []),
    ],
)
def test_what_is_hard_wants_an_easier_way(parts: list[Any], found: list[str]) -> None:
    assert about("option-missing", *parts) == found


def test_a_way_that_could_not_be_read_is_a_way() -> None:
    made = plan(WALKS).model_copy(
        update={"unknown": (Unknown(heard="inchworms", nearest=("inchworm",)),)}
    )
    assert findings("option-missing", made) == []


def test_the_worst_is_named_first_and_all_are_quoted() -> None:
    pulls, walks = effort("pull-up", 5), effort("wall-walk", 5)
    (finding,) = findings("option-missing", plan(piece(pulls, walks)))
    assert finding.about == "wall-walk"
    assert finding.message.startswith("Wall walk and pull up have")
    assert finding.said == (*pulls.said, *walks.said)


@RANDOM
@given(plans(), st.sampled_from(["wall-walk", "handstand-push-up", "pull-up", "toes-to-bar"]))
def test_ways_in_any_plan(base: Plan, movement: str) -> None:
    base = bare(base, movement)
    item = effort(movement, 5)
    work = piece(item, effort("air-squat", 10))
    assert speaks("option-missing", planted(base, work), item)
    assert not speaks("option-missing", planted(base, work, option(movement, "fewer")), item)


# option-changes-intent


def timed(made: Plan) -> Plan:
    """The plan with the time model's answer."""
    return made.model_copy(update={"estimate": estimate(made)})


RUN = piece(rounds(3, effort("run", 400, "m"), effort("push-up", 10)))
BIKE = option("run", "substitute", "bike")


@pytest.mark.parametrize(
    ("way", "wanted", "fires"),
    [
        (with_number(BIKE, 480, "s"), 120, True),
        (with_number(BIKE, 120, "s"), 120, False),
        (with_number(BIKE, 20, "s"), 120, True),
        (with_number(BIKE, 480, "s"), None, False),
        (with_number(option("run", "shorter"), 50, "m"), 120, True),
        (with_number(option("run", "shorter"), 200, "m"), 120, False),
        (with_number(option("run", "substitute", "row"), 3000, "m"), 120, True),
        (with_number(option("run", "substitute", "row"), 500, "m"), 120, False),
        (option("run", "substitute", "walk"), 110, True),
        (option("run", "substitute", "jog"), 110, False),
        (option("run", "lighter"), 120, False),
        (with_number(BIKE, 480, "s"), 20, False),  # the run itself does not fit
    ],
)
def test_an_option_keeps_its_station(way: Option, wanted: float | None, fires: bool) -> None:
    wishes = [] if wanted is None else [target("run", wanted)]
    found = findings("option-changes-intent", timed(plan(RUN, way, *wishes)))
    assert [finding.about for finding in found] == ["run"] * fires


def test_without_an_estimate_nothing_is_said() -> None:
    made = plan(RUN, with_number(BIKE, 480, "s"), target("run", 120))
    assert findings("option-changes-intent", made) == []


def test_the_option_furthest_off_is_told_with_its_quotes() -> None:
    far = with_number(BIKE, 1200, "s").model_copy(update={"said": said("bike for twenty")})
    wish = target("run", 120)
    made = timed(plan(RUN, with_number(BIKE, 480, "s"), far, wish))
    (finding,) = findings("option-changes-intent", made)
    assert {*far.said, *wish.said} <= set(finding.said)
    assert finding.severity == "warning"
    assert "20 min" in finding.message


@RANDOM
@given(plans(), st.integers(300, 3000), st.integers(70, 230))
def test_options_in_any_plan(base: Plan, far: int, near: int) -> None:
    base, wish = bare(base, "run"), target("run", 120)
    code = "option-changes-intent"
    off = planted(base, RUN, wish, with_number(BIKE, far, "s"))
    assert findings(code, timed(off))
    kept = planted(base, RUN, wish, with_number(BIKE, near, "s"))
    assert not findings(code, timed(kept))


SAYS: dict[str, Callable[[], Plan]] = {
    "unit-missing": lambda: plan(piece(effort("row", 20))),
    "side-missing": lambda: plan(piece(effort("split-squat", 9))),
    "load-missing": lambda: plan(SQUATS),
    "work-without-cue": lambda: plan(THREE, cue("push-up"), cue("sit-up")),
    "option-missing": lambda: plan(WALKS),
    "option-changes-intent": lambda: timed(
        plan(RUN, with_number(BIKE, 480, "s"), target("run", 120))
    ),
}


@pytest.mark.parametrize("code", SAYS)
def test_every_finding_has_a_sentence_to_say(code: str) -> None:
    (finding,) = findings(code, SAYS[code]())
    assert finding.say
    assert finding.say[0].isupper() or finding.say[0].isdigit()
    assert finding.say[-1] in ".…"
    assert (finding.suggestion or "").endswith(".")

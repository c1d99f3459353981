"""Ways to scale, read from short talks of the rowing club's land training."""

import pytest
from parse.told import CIRCUIT, WORK, told

Option = tuple[str, str, str | None, float | None]


def scaled(text: str, work: str = WORK) -> list[Option]:
    """The options of a talk whose scaling part is ``text``."""
    plan = told(f"{work}Options, then. {text}")
    return [(option.about, option.kind, option.to, option.low) for option in plan.options]


@pytest.mark.parametrize(
    ("text", "option"),
    [
        ("If your knees grumble, do step-ups instead of the box jumps.", ("box-jump", "step-up")),
        (
            "Swap the lunges for glute bridges if your knee is bad.",
            ("walking-lunge", "glute-bridge"),
        ),
        ("No box free? Do broad jumps.", ("box-jump", "broad-jump")),
        (
            "If your back doesn't like the swings, do glute bridges.",
            ("kettlebell-swing", "glute-bridge"),
        ),
        ("If the rower is taken, do the ski machine instead.", ("row", "ski")),
        ("If the rower's busy it's the ski machine.", ("row", "ski")),
        ("If your shins hurt, hop on the ski machine in place of the row.", ("row", "ski")),
        ("Sore shoulder? Pull-ups become dead bugs.", ("pull-up", "dead-bug")),
    ],
)
def test_another_movement_for_joints_kit_or_room_is_a_substitute(
    text: str, option: tuple[str, str]
) -> None:
    about, to = option
    assert scaled(text) == [(about, "substitute", to, None)]


@pytest.mark.parametrize(
    ("text", "about", "kind", "to"),
    [
        ("Push-ups can go on your knees.", "push-up", "easier", "knee-push-up"),
        ("Push-ups too hard? Hands on the bench.", "push-up", "easier", "incline-push-up"),
        ("Push-ups too easy? Feet up on the bench.", "push-up", "harder", "feet-elevated-push-up"),
        ("No pull-ups yet? Loop a band on the bar.", "pull-up", "easier", "band-assisted-pull-up"),
        ("Want more? Make the lunges jumping lunges.", "walking-lunge", "harder", "jumping-lunge"),
        ("If the plank is too much, put one knee down.", "plank", "easier", None),
        ("Push-ups too spicy? Go against the wall.", "push-up", "easier", "wall-push-up"),
        ("If the lunges are wobbly, hold on to the rig.", "walking-lunge", "easier", None),
    ],
)  # fmt: skip
def test_variants_of_a_movement_are_easier_or_harder(
    text: str, about: str, kind: str, to: str | None
) -> None:
    assert scaled(text) == [(about, kind, to, None)]


@pytest.mark.parametrize(
    ("text", "option"),
    [
        ("If fifteen swings is too many, do ten.", ("kettlebell-swing", "fewer", None, 10)),
        ("If the lunges are too many, cut them to twelve.", ("walking-lunge", "fewer", None, 12)),
        ("If the row is too long, make it 150 metres.", ("row", "shorter", None, 150)),
        (
            "If thirty seconds of plank is too long, hold it for twenty.",
            ("plank", "shorter", None, 20),
        ),
        ("If the bell's too heavy, take the 12.", ("kettlebell-swing", "lighter", None, 12)),
        ("If you're new, do the ten minute version.", ("total", "shorter", None, 600)),
        ("If it's your first week, do two rounds instead of four.", ("total", "fewer", None, 2)),
        ("If you're back from being ill, do half of everything.", ("total", "fewer", None, None)),
    ],
)
def test_less_of_the_same(text: str, option: Option) -> None:
    assert scaled(text) == [option]


def test_a_shorter_work_period_is_about_the_round() -> None:
    found = scaled("If forty seconds is too long, work for thirty.", CIRCUIT)
    assert found == [("round", "shorter", None, 30)]


def test_what_is_offered_next_goes_on_about_the_movement_before() -> None:
    found = scaled("Push-ups, do them from your knees. If that's still too hard, do eight.")
    assert found == [("push-up", "easier", "knee-push-up", None), ("push-up", "fewer", None, 8)]


def test_a_smaller_load_may_replace_a_load() -> None:
    work = WORK.replace("with a 16", "with a 16 kilo bell")
    found = scaled("If the 16 folds you up, drop to the 12.", work)
    assert found == [("kettlebell-swing", "lighter", None, 12)]


def test_two_conditions_may_share_an_offer() -> None:
    found = scaled("if forty seconds is too long if you have had that cough do thirty", CIRCUIT)
    assert found == [("round", "shorter", None, 30)]


def test_two_movements_may_be_offered_at_once() -> None:
    found = scaled("If you can't jump, swap the box jumps for step-ups or glute bridges.")
    assert [option[2] for option in found] == ["step-up", "glute-bridge"]


@pytest.mark.parametrize(
    "text",
    [
        "If you get lost, the list is on the boathouse door.",
        "If the clock stops, shout for Bram.",
        "Last week the rows hurt too much, so the eight did burpees instead.",
        "If you're new, I'm Nessa.",
        "If any station hurts, shout.",
        "If the swings hurt tomorrow, you went too heavy.",
    ],
)
def test_talk_with_a_condition_is_not_always_an_offer(text: str) -> None:
    assert told(WORK + text).options == ()


def test_an_option_says_where_it_was_said() -> None:
    (option,) = told(
        f"{WORK}Options. If your wrist hurts, do dead bugs instead of the plank."
    ).options
    assert option.said[0].quote == "If your wrist hurts, do dead bugs instead of the plank."

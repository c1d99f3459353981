"""Work asked for that stands in no block is listed, unless a block has what it is short for."""

from parse.telling import plan

TALK = "Main piece, four rounds for time: ten walking lunges, twelve hand release push ups. "


def heard(said: str) -> list[str]:
    return [unknown.heard for unknown in plan(TALK + said).unknown]


def test_a_short_name_of_what_is_done_is_nothing_new() -> None:
    assert heard("So lunges, push ups, four times round.") == []


def test_a_target_for_other_work_is_not_lost() -> None:
    assert heard("The goblet squats, I want those done in forty seconds.") == ["goblet squats"]

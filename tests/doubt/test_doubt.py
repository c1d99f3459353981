"""Amounts that rest on doubtful words. In the talks here ``~`` leads a doubtful word."""

import json

import pytest

from cuewright.flow import plan_of
from cuewright.render import html, jsonfile, markdown, terminal
from cuewright_models.plan import Plan
from cuewright_models.transcript import DOUBTFUL, Transcript, Word

SURE, UNSURE = 0.99, DOUBTFUL / 2
WORK = "Good evening. Three rounds for time of 15 push-ups, 20 air squats and a 400 metre run."
CLOCKS = [
    ("Every ~two minutes for ten minutes, 12 burpees.", "interval", "two minutes"),
    ("Every minute on the minute for ~12 minutes: 10 burpees.", "length", "12 minutes"),
    ("As many rounds as you can in ~20 minutes: 5 burpees, 10 sit-ups.", "length", "20 minutes"),
    ("~40 seconds on, 20 seconds off, 4 times through: burpees, sit-ups.", "work", "40 seconds"),
    ("40 seconds on, ~20 seconds off, 4 times through: burpees, sit-ups.", "rest", "20 seconds"),
    ("For time: 21, ~15, 9 burpees and sit-ups.", "rungs", "21, 15, 9"),
    ("Five sets of five back squats, rest ~two minutes.", "rest", "two minutes"),
    ("~Five rounds of 10 burpees and 12 sit-ups.", "rounds", "Five"),
    ("10 burpees and 12 sit-ups, ~twice through.", "rounds", "twice"),
    ("Three rounds for time of 10 burpees. Time cap ~12 minutes.", "cap", "12 minutes"),
]
OTHERS = [
    (WORK.replace("15", "~15"), ("push-up", "amount", "15")),
    (WORK.replace("metre", "~metre"), ("run", "amount", "400 metre")),
    (f"{WORK} The whole thing takes ~forty minutes.", ("total", "claim", "forty minutes")),
    (f"{WORK} Do 10 press-ups ~on your ~knees. ~Hello.", None),
    ("Thursday the ~14th of May. " + WORK, ("date", "date", "Thursday the 14th of May")),
    ("Thursday ~the 14th of May. " + WORK, None),
    (
        "5 sets of 10 kettlebell swings with a ~16 kilo kettlebell, rest a minute.",
        ("kettlebell-swing", "load", "16 kilo"),
    ),
    (
        f"{WORK} Targets: the run should take ~two minutes.",
        ("run", "target", "two minutes"),
    ),
    (
        f"{WORK} If the push-ups are too hard, do ~eight push-ups.",
        ("push-up", "option", "eight"),
    ),
]


def talk(text: str) -> Transcript:
    """``text`` as from a recording, two words a second."""
    said = (
        Word(word.removeprefix("~"), at / 2, at / 2 + 0.4, UNSURE if word[0] == "~" else SURE)
        for at, word in enumerate(text.split())
    )
    return Transcript(name="talk.m4a", kind="recording", sha256="", words=tuple(said))


def told(plan: Plan) -> list[tuple[str, str, str]]:
    """The doubts as what, which amount of it, and the words of that amount."""
    return [(doubt.about, doubt.where, doubt.said[0].quote.strip(".:,")) for doubt in plan.doubts]


@pytest.mark.parametrize(("text", "where", "quote"), CLOCKS)
def test_a_figure_of_a_block_is_doubted(text: str, where: str, quote: str) -> None:
    plan = plan_of(talk(text))
    assert (plan.blocks[-1].id, where, quote) in told(plan)
    assert not plan_of(talk(text.replace("~", ""))).doubts


@pytest.mark.parametrize(("text", "doubt"), OTHERS)
def test_an_amount_is_doubted_and_nothing_else(
    text: str, doubt: tuple[str, str, str] | None
) -> None:
    assert told(plan_of(talk(text))) == ([doubt] if doubt else [])


def test_a_doubt_has_the_words_and_their_times() -> None:
    (doubt,) = plan_of(talk(WORK.replace("15", "~15"))).doubts
    at = WORK.split().index("15") / 2
    assert doubt.words == ("15",)
    assert doubt.block == "b1"
    assert (doubt.said[0].start_s, doubt.said[0].end_s) == (at, round(at + 0.4, 2))


def test_of_two_equal_numbers_only_the_doubtful_one_is_doubted() -> None:
    text = "Three rounds for time of 15 push-ups, ~15 air squats and 15 burpees."
    assert told(plan_of(talk(text))) == [("air-squat", "amount", "15")]


def test_every_quote_tells_its_doubtful_words() -> None:
    plan = plan_of(talk(WORK.replace("15", "~15")))
    written = json.loads(jsonfile.page(plan))
    quotes = [said for block in written["blocks"] for said in block["said"]]
    places = [(said["quote"].split()[at]) for said in quotes for at in said.get("doubtful", ())]
    assert places == ["15"]
    assert Plan.model_validate(written).blocks == plan.blocks


def test_pages_say_what_to_check_and_mark_the_words() -> None:
    plan = plan_of(talk(WORK.replace("15", "~15")))
    moment = terminal.page(plan, width=80)
    assert "15 push-ups (check by ear)" in moment
    assert "- push-up in block 1: amount, heard as “15 (?)”" in moment
    assert "- **push-up in block 1**: amount, heard as “15 (?)” (0:03)" in markdown.page(plan)
    page = html.page(plan)
    assert "15 push-ups (check by ear)" in page
    assert "<mark>15 <abbr" in page
    assert "(?) stands after a word" in page


def test_captions_are_beyond_doubt() -> None:
    heard = talk(WORK)
    words = tuple(word._replace(confidence=None) for word in heard.words)
    plan = plan_of(heard.model_copy(update={"words": words}))
    assert plan.doubts == ()
    assert "doubtful" not in jsonfile.page(plan)
    assert "check by ear" not in html.page(plan).lower()
    assert "(?)" not in html.page(plan)
    assert "check by ear" not in terminal.page(plan).lower()


def test_words_without_times_are_doubted_too() -> None:
    heard = talk(WORK.replace("15", "~15"))
    words = tuple(word._replace(start_s=None, end_s=None) for word in heard.words)
    untimed = heard.model_copy(update={"words": words})
    assert told(plan_of(untimed)) == [("push-up", "amount", "15")]

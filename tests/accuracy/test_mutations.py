"""One changed number in a clean talk; `python tests/accuracy/mutations.py` looks at far more."""

import pytest
from accuracy.figures import changed, figures, planted
from accuracy.mutations import (
    CARD,
    MARK,
    ONCE,
    PLANTED,
    TWICE,
    Change,
    Outcome,
    outcome,
    sample,
    table,
    talks,
    under,
)

from cuewright_models.transcript import Transcript, Word

SHARES = {TWICE: 0.08, PLANTED: 0.04, ONCE: 0.02}
"""Some hundred and fifty changes."""


def heard(text: str) -> Transcript:
    words = tuple(Word(word, at * 0.3, at * 0.3 + 0.3) for at, word in enumerate(text.split()))
    return Transcript(name="talk", kind="captions", sha256="", words=words, breaks=(0, 4))


def spoken(of: Transcript) -> str:
    return " ".join(word.text for word in of.words)


@pytest.fixture(scope="module")
def found() -> list[Outcome]:
    return [outcome(change) for change in sample(SHARES, seed=2)]


def test_the_right_rule_speaks_and_no_other(found: list[Outcome]) -> None:
    assert sum(each.change.must for each in found) > 40
    assert under(found) == []


def test_the_talks_as_they_are_have_no_error() -> None:
    assert len(talks()) > 15
    whole = [Change(talk.name, ONCE, "any", "as it is", talk.heard) for talk in talks()]
    assert [each.errors for each in map(outcome, whole) if each.errors] == []


def test_the_card_is_of_these_changes() -> None:
    """Its changes and how many contradict; what came of them takes a minute to work out."""
    own = CARD.read_text("utf-8").split(MARK)[1].partition("\n## ")[0]
    written = own.strip().splitlines()
    now = table([Outcome(change, ()) for change in sample()]).splitlines()
    assert [line.split("|")[1:5] for line in written] == [line.split("|")[1:5] for line in now]


@pytest.mark.parametrize(
    ("text", "value", "new"),
    [
        ("then twenty-four reps, please", 12, "then twelve reps, please"),
        ("so it's twenty four swings", 36, "so it's thirty six swings"),
        ("Twelve of these.", 13, "Thirteen of these."),
        ("take 12, sorry, all", 13, "take 13, sorry, all"),
        ("it's Monday, March", 2, "it's Wednesday, March"),
    ],
)
def test_a_number_is_changed_as_it_stands(text: str, value: int, new: str) -> None:
    talk = heard(text)
    (figure,) = figures(talk.words)
    assert spoken(changed(talk, figure, value)) == new


def test_lines_and_times_go_on_after_a_longer_number() -> None:
    talk = heard("do ten of them then rest a bit")
    (figure,) = figures(talk.words)
    after = changed(talk, figure, 22)
    assert spoken(after) == "do twenty-two of them then rest a bit"
    assert after.words[after.breaks[1]].text == talk.words[talk.breaks[1]].text
    assert [word.start_s for word in after.words] == sorted(word.start_s for word in after.words)


def test_a_planted_sentence_is_spelt_as_the_talk() -> None:
    plain, written = heard("do ten of them then rest a bit"), heard("Do ten of them. Then rest.")
    assert spoken(planted(plain, 8, "So that's 4 rounds.")).endswith("bit so that's 4 rounds")
    assert spoken(planted(written, 6, "So that's 4 rounds.")).endswith("So that's 4 rounds.")

"""One changed item of a description; compare_mutations.py alone looks at all of them."""

from accuracy.compare_mutations import CARD, MARK, Case, Outcome, outcomes, sample, table, under


def test_a_sample_stays_above_its_floors() -> None:
    some = sample(share=0.06)
    assert len(some) > 60
    assert under(outcomes(some), "sample") == []


def test_the_sample_is_the_same_again() -> None:
    assert sample(share=0.02) == sample(share=0.02)


def test_a_miss_and_a_false_alarm_are_counted() -> None:
    right = (("description-missing", "row"),)
    case = Case("talk", "drop", "row", "", right)
    assert Outcome(case, right, 0).named
    assert not Outcome(case, (), 0).named
    more = Outcome(case, (*right, ("description-extra", "run")), 0)
    assert more.named
    assert more.others == 1
    found = [Outcome(case, (), 1), more]
    assert "| drop | 2 | 1 (50.0%) | 1 | 1 |" in table(found)
    assert len(under(found)) == 3


def test_the_card_holds_the_table() -> None:
    shown = CARD.read_text("utf-8").split(MARK)[1]
    assert "| all |" in shown

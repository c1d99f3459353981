"""What is accepted is not seen again, and everything else is."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuewright import accepted
from cuewright.accepted import Accepted, Entry
from cuewright_models.base import Said
from cuewright_models.finding import Finding

QUOTES = ("Fifty minutes,", "an hour all in", "five rounds", "15 m", "\ud800 odd", "é…")
said = st.builds(
    Said,
    start_s=st.none() | st.floats(0, 5000),
    end_s=st.none(),
    quote=st.sampled_from(QUOTES) | st.text(max_size=8),
)
findings = st.builds(
    Finding,
    rule=st.sampled_from(["total-said-twice", "rounds-said-twice", "date-vs-weekday"]),
    severity=st.sampled_from(["error", "warning", "note"]),
    about=st.sampled_from(["total", "b1", "row"]),
    message=st.text(max_size=8),
    said=st.lists(said, max_size=3).map(tuple),
)
several = st.lists(findings, max_size=6)
FILES = st.sampled_from(["a.vtt", "b/c.srt", "-"])
every = settings(deadline=None, derandomize=True, max_examples=100)


def after(file: str, found: list[Finding], before: Accepted | None = None) -> Accepted:
    return accepted.renewed(before or Accepted(), file, found, found)


@every
@given(FILES, several)
def test_what_was_accepted_is_nothing_new(file: str, found: list[Finding]) -> None:
    held = after(file, found)
    assert accepted.fresh(held, file, found) == ()
    assert accepted.gone(held, file, found) == ()
    assert after(file, found, held) == held


@every
@given(FILES, several, findings)
def test_one_new_finding_is_exactly_what_is_new(
    file: str, found: list[Finding], more: Finding
) -> None:
    more = more.model_copy(update={"about": "the new one"})
    assert accepted.fresh(after(file, found), file, [*found, more]) == (more,)


@every
@given(several, st.floats(-500, 500), st.text(max_size=8))
def test_times_and_the_rule_s_wording_may_change(
    found: list[Finding], shift: float, wording: str
) -> None:
    later = [
        finding.model_copy(
            update={
                "message": wording,
                "expected": wording,
                "said": tuple(
                    place.model_copy(update={"start_s": shift, "quote": place.quote.upper() + " ."})
                    if place.quote.isascii()
                    else place
                    for place in reversed(finding.said)
                ),
            }
        )
        for finding in found
    ]
    held = after("a.vtt", found)
    assert accepted.fresh(held, "a.vtt", later) == ()
    assert accepted.gone(held, "a.vtt", later) == ()


@every
@given(several, several)
def test_talks_do_not_touch_each_other(one: list[Finding], other: list[Finding]) -> None:
    held = after("b.vtt", other, after("a.vtt", one))
    dropped = after("a.vtt", [], held)
    assert [entry for entry in dropped.accepted if entry.file == "a.vtt"] == []
    assert accepted.fresh(dropped, "b.vtt", other) == ()


@every
@given(several, several)
def test_reasons_are_kept_and_only_what_is_gone_is_dropped(
    found: list[Finding], later: list[Finding]
) -> None:
    held = after("a.vtt", found)
    held = Accepted(
        accepted=tuple(entry.model_copy(update={"why": "agreed"}) for entry in held.accepted)
    )
    now = after("a.vtt", [*found[:2], *later], held)
    kept = {entry.key for entry in after("a.vtt", found[:2]).accepted}
    assert {entry.key for entry in now.accepted if entry.why == "agreed"} >= kept
    present = {entry.key for entry in after("a.vtt", [*found[:2], *later]).accepted}
    assert {entry.key for entry in now.accepted} == present


def test_a_change_of_figures_in_the_talk_is_new() -> None:
    quoted = [Said(quote="fifty minutes"), Said(quote="an hour")]
    finding = Finding(
        rule="total-said-twice", severity="error", about="total", message="", said=quoted
    )
    held = after("a.vtt", [finding])
    changed = finding.model_copy(update={"said": (quoted[0], Said(quote="two hours"))})
    assert accepted.fresh(held, "a.vtt", [changed]) == (changed,)


def test_what_was_not_looked_for_is_not_dropped() -> None:
    one, other = (
        Finding(rule=rule, severity="note", about="total", message="") for rule in ("a", "b")
    )
    held = after("a.vtt", [one, other])
    assert accepted.renewed(held, "a.vtt", [one, other], [one]) == held


@settings(deadline=None, derandomize=True, max_examples=40)
@given(several)
def test_the_file_is_read_back_as_written(
    tmp_path_factory: pytest.TempPathFactory, found: list[Finding]
) -> None:
    path = tmp_path_factory.mktemp("known") / "known.json"
    accepted.save(path, after("a.vtt", found))
    text = path.read_text("utf-8")
    held = accepted.load(path)
    assert accepted.fresh(held, "a.vtt", found) == ()
    accepted.save(path, held)
    assert path.read_text("utf-8") == text


def test_entries_stand_in_order_whoever_came_first(tmp_path: Path) -> None:
    entries = [
        Entry(file=file, rule=rule, about="total", said=("x",))
        for file in ("b.vtt", "a.vtt")
        for rule in ("z", "y")
    ]
    for order in (entries, entries[::-1]):
        accepted.save(tmp_path / "known.json", Accepted(accepted=tuple(order)))
        held = accepted.load(tmp_path / "known.json").accepted
        assert [(e.file, e.rule) for e in held] == [
            ("a.vtt", "y"), ("a.vtt", "z"), ("b.vtt", "y"), ("b.vtt", "z"),
        ]  # fmt: skip


def test_talks_are_named_by_their_way_from_the_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "club" / "known.json"
    assert accepted.name(str(tmp_path / "club/may/talk.vtt"), path) == "may/talk.vtt"
    assert accepted.name(str(tmp_path / "talk.vtt"), path) == "../talk.vtt"
    assert accepted.name("-", path) == "-"
    (tmp_path / "club" / "may").mkdir(parents=True)
    monkeypatch.chdir(tmp_path / "club" / "may")
    assert accepted.name("talk.vtt", Path("../known.json")) == "may/talk.vtt"
    assert accepted.name("caf\udce9.vtt", Path("known.json")) == "caf?.vtt"

"""Questions about the times, from the command line."""

import json
from pathlib import Path

import pytest
from cli.running import LOW_WATER, run, sentence

from cuewright_models.plan import Plan
from cuewright_models.timing import PlanTiming


def plan_of(*args: object) -> Plan:
    return Plan.model_validate_json(run("plan", LOW_WATER, "--json", *args).stdout)


def test_why_the_times_are_so_fits_eighty_columns() -> None:
    result = run("plan", LOW_WATER, "--why-time", "--profile", "newcomer")
    assert result.exit_code == 0
    assert "newcomer athlete" in result.stdout
    assert max(map(len, result.stdout.splitlines())) <= 80
    assert "10 hand-release" in result.stdout


def test_why_the_times_are_so_as_json() -> None:
    told = PlanTiming.model_validate_json(run("plan", LOW_WATER, "--why-time", "--json").stdout)
    assert told.profile == "regular"
    assert len(told.blocks) == 4


def test_another_amount_and_another_pace_change_the_times_and_say_so() -> None:
    said, asked = plan_of(), plan_of("--set", "b2.rounds=3", "--pace", "row=1:45/500m")
    assert asked.estimate
    assert said.estimate
    assert asked.estimate.total.regular.likely_s < said.estimate.total.regular.likely_s - 240
    assert any("b2.rounds=3, row=1:45/500m" in warning for warning in asked.warnings)


def test_one_profile_alone_is_shown() -> None:
    page = run("plan", LOW_WATER, "--profile", "advanced").stdout
    assert "advanced" in page
    assert "newcomer" not in page


def test_the_three_views_stand_side_by_side() -> None:
    page = run("plan", LOW_WATER).stdout
    whole = page[page.rindex("Whole session") :].splitlines()[1:4]
    assert [line.split("  ")[1].strip() for line in whole] == [
        "regular",
        "stated",
        "station targets",
    ]
    assert max(map(len, page.splitlines())) <= 80


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (("--set", "b9.rounds=4"), "There is no block b9"),
        (("--pace", "run=5:00/km"), "There is no run in this session"),
        (("--explain", "--why-time"), "leave one out"),
        (("--why-time", "--quiet"), "prints reasons and no plan"),
    ],
)
def test_what_cannot_be_asked_is_one_sentence(args: tuple[str, ...], told: str) -> None:
    result = run("plan", LOW_WATER, *args)
    assert result.exit_code == 2
    assert told in sentence(result)
    assert result.stdout == ""


def test_json_holds_all_profiles_whichever_is_asked_for() -> None:
    row = json.loads(run("plan", LOW_WATER, "--json", "--profile", "advanced").stdout)
    assert set(row["estimate"]["total"]) == {"newcomer", "regular", "advanced"}


def test_three_versions_stand_in_one_table() -> None:
    result = run("plan", LOW_WATER, "--scale-to", "45")
    assert result.exit_code == 0
    assert max(map(len, result.stdout.splitlines())) <= 80
    heads = next(line for line in result.stdout.splitlines() if "as said" in line)
    assert heads.split() == ["as", "said", "newcomer", "regular", "advanced"]


def test_three_versions_are_three_plans() -> None:
    lines = run("plan", LOW_WATER, "--scale-to", "45", "--json").stdout.splitlines()
    totals = [Plan.model_validate_json(line).estimate.total for line in lines]
    likely = (totals[0].newcomer, totals[1].regular, totals[2].advanced)
    assert [one.likely_s for one in likely] == pytest.approx([2700] * 3, rel=0.15)


def test_the_page_has_the_versions_in_one_table() -> None:
    page = run("plan", LOW_WATER, "--scale-to", "station targets", "--format", "html").stdout
    assert page.count('id="versions"') == 1
    assert "Made to fit" in page
    assert "Made to fit" not in run("plan", LOW_WATER, "--format", "html").stdout


def test_one_version_is_written_like_any_plan(tmp_path: Path) -> None:
    result = run("plan", LOW_WATER, "--scale-to", "45", "--profile", "newcomer", "--out", tmp_path)
    assert result.exit_code == 0
    assert "scaled for the newcomer athlete to 45" in result.stderr


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (("--scale-to", "-5"), "is no length"),
        (("--scale-to", "45", "--out", "x"), "name one with --profile"),
    ],
)
def test_a_fit_that_cannot_be_is_one_sentence(args: tuple[str, ...], told: str) -> None:
    result = run("plan", LOW_WATER, *args)
    assert result.exit_code == 2
    assert told in sentence(result)


def test_a_movement_shows_its_pace_and_where_it_is_from(tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text(
        '[towel-row]\npatterns = ["pull-horizontal"]\nunbroken = 10\n'
        "pace = { fast = 1.2, typical = 2.0, slow = 3.2 }\n"
    )
    own = run("movements", "towel-row", "--movements", mine).stdout
    assert "1.2 to 3.2 s a rep, mostly 2 s" in own
    assert "newcomer 5, regular 10, advanced 18" in own
    assert "Rozenek" in run("movements", "push-up").stdout
    assert "21 to 31 s a 100 m" in run("movements", "row").stdout
    assert "not known" in run("movements", "pigeon stretch").stdout

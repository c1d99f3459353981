"""The usual cautions."""

import html
import json
from pathlib import Path

import pytest
from cli.running import LOW_WATER, run
from render.sessions import plan

from cuewright.cautions import brief, usual
from cuewright.render import FORMS
from cuewright.tables import raw


def test_every_caution_names_its_source() -> None:
    table = raw("cuewright", "cautions.toml")
    assert all(row["source"].strip() for row in table.values())
    assert len(usual()) == len(table) > 0


# Signs for stopping, after the table copy of ACSM's list at jssm.org/suppls/7/T7.htm.
@pytest.mark.parametrize("sign", ["chest pain", "faintness", "confusion", "breathlessness"])
def test_the_signs_for_stopping_come_first(sign: str) -> None:
    assert sign in usual()[0]


@pytest.mark.parametrize(
    "topic", ["screened", "pregnancy", "after birth", "heat", "illness, injury", "ill", "Children",
              "older adults", "Clinicians, qualified coaches", "local rules"]
)  # fmt: skip
def test_each_topic_is_there(topic: str) -> None:
    assert topic in " ".join(usual())


@pytest.mark.parametrize("form", ["markdown", "html", "text"])
def test_a_plan_with_its_own_cautions_shows_those(form: str) -> None:
    page = FORMS[form].page(plan(cautions=("Mind the slipway.",)))
    assert "Mind the slipway." in page
    assert "Stop at once" not in page


def plain(page: str) -> str:
    """The words of a page, without its entities, signs and lines."""
    unmarked = html.unescape(page.replace("\\", ""))
    return " ".join(word for word in unmarked.split() if word != "-")


FIT = ("--scale-to", "45")


@pytest.mark.parametrize(
    "options",
    [
        (),
        ("--profile", "newcomer"),
        ("--set", "b2.rounds=2"),
        ("--format", "markdown"),
        ("--format", "html"),
        ("--format", "json"),
        ("--json",),
        FIT,
        (*FIT, "--profile", "newcomer"),
        (*FIT, "--format", "html"),
        (*FIT, "--json"),
    ],
    ids=" ".join,
)
def test_whatever_shows_a_session_carries_every_caution(options: tuple[str, ...]) -> None:
    page = plain(run("plan", LOW_WATER, *options).stdout)
    assert [text for text in usual() if text not in page] == []


def test_so_does_every_file(tmp_path: Path) -> None:
    forms = [word for form in FORMS for word in ("--format", form)]
    assert run("plan", LOW_WATER, "--out", tmp_path, *forms).exit_code == 0
    files = sorted(tmp_path.iterdir())
    assert len(files) == len(FORMS)
    for file in files:
        page = plain(file.read_text("utf-8"))
        cautions = brief() if file.name.endswith(".description.md") else usual()
        assert [text for text in cautions if text not in page] == [], file.name


def test_so_does_each_version_of_a_plan() -> None:
    lines = run("plan", LOW_WATER, *FIT, "--json").stdout.splitlines()
    assert [tuple(json.loads(line)["cautions"]) for line in lines] == [usual()] * 3


def test_so_does_a_plan_without_a_session() -> None:
    page = plain(run("plan", "-", stdin=b"Good evening, mind the step.").stdout)
    assert usual()[0] in page

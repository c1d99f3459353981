"""`check`: one finding a line, and a status that scripts can use."""

import json
import re
from pathlib import Path

import pytest
from cli.running import COLD_START, TALK, run

from cuewright import flow
from cuewright_models.base import Said
from cuewright_models.finding import Finding
from cuewright_models.plan import Plan, Source

LINE = re.compile(r"(?P<source>.+?)(:\d+:\d\d)?: (error|warning|note) [a-z-]+ \([^)]+\): .+")


def finding(severity: str, *said: Said) -> Finding:
    return Finding(
        rule="total-said-twice", severity=severity, about="total", message="20 or 25?", said=said
    )


@pytest.fixture
def found(monkeypatch: pytest.MonkeyPatch) -> list[Finding]:
    """The findings that every talk has."""
    findings: list[Finding] = []
    source = Source(name="talk.vtt", kind="captions", sha256="")

    def planned(_: str, **__: object) -> Plan:
        made = flow.plan_of(flow.read(COLD_START))
        return made.model_copy(update={"source": source, "findings": tuple(findings)})

    monkeypatch.setattr(flow, "read_plan", planned)
    return findings


def test_a_line_names_file_time_rule_and_place(found: list[Finding]) -> None:
    found.append(finding("error", Said(quote="x"), Said(start_s=91.4, end_s=92, quote="twenty")))
    result = run("check", "a/talk.vtt")
    assert result.stdout == "a/talk.vtt:1:31: error total-said-twice (total): 20 or 25?\n"


@pytest.mark.parametrize(
    ("severities", "status"), [([], 0), (["note", "warning"], 0), (["warning", "error"], 1)]
)
def test_status_one_when_there_is_an_error(
    found: list[Finding], severities: list[str], status: int
) -> None:
    found.extend(map(finding, severities))
    assert run("check", "talk.vtt").exit_code == status


def test_an_unreadable_source_outweighs_an_error(
    found: list[Finding], monkeypatch: pytest.MonkeyPatch
) -> None:
    found.append(finding("error"))
    planned = flow.read_plan

    def sometimes(source: str, **__: object) -> Plan:
        return planned(source) if source == "talk.vtt" else flow.plan_of(flow.read(source))

    monkeypatch.setattr(flow, "read_plan", sometimes)
    result = run("check", "talk.vtt", "no-such.vtt")
    assert result.exit_code == 2
    assert result.stdout.startswith("talk.vtt: error")


def test_json_lines_name_their_source(found: list[Finding]) -> None:
    found.append(finding("note"))
    rows = [
        json.loads(line)
        for line in run("check", "a.vtt", "b.vtt", "--json").stdout.split("\n")[:-1]
    ]
    assert [row["source"] for row in rows] == ["a.vtt", "b.vtt"]
    assert {row["rule"] for row in rows} == {"total-said-twice"}


def test_a_real_contradiction_is_found(tmp_path: Path) -> None:
    talk = tmp_path / "talk.txt"
    talk.write_text(
        "Good evening, it's Tuesday the 7th of January 2026.\n\n"
        "Warm up with ten air squats, then five rounds for time of ten burpees.\n"
    )
    result = run("check", talk)
    assert result.exit_code == 1
    # 7 January 2026 is a Wednesday: ISO 8601 calendar, `cal 1 2026`.
    assert "date-vs-weekday" in result.stdout
    assert all(LINE.fullmatch(line) for line in result.stdout.splitlines())


def test_nothing_to_complain_of(tmp_path: Path) -> None:
    (tmp_path / "talk.vtt").write_bytes(TALK)
    result = run("check", tmp_path / "talk.vtt")
    errors = [line for line in result.stdout.splitlines() if ": error " in line]
    assert (result.exit_code, errors) == (0, [])

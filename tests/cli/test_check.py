"""`check`: findings with their proof, the choice of them, and a status that scripts can use."""

import json
import re
from pathlib import Path

import pytest
from cli.running import COLD_START, TALK, run, sentence
from typer.testing import Result

from cuewright import flow
from cuewright_models.base import Said
from cuewright_models.finding import Finding
from cuewright_models.plan import Plan, Source

LINE = re.compile(
    r"(?P<source>.+?)(:\d+:\d\d)?: (error|warning|note) (?P<rule>[a-z-]+) \([^)]+\): .+"
)


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
    result = run("check", "a/talk.vtt", "--quiet")
    assert result.stdout == "a/talk.vtt:1:31: error total-said-twice (total): 20 or 25?\n"
    assert result.stderr == ""


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
    heads = [line for line in result.stdout.splitlines() if line[:1].strip()]
    assert len(heads) == 1
    assert LINE.fullmatch(heads[0])
    assert run("check", talk, "--quiet").stdout == f"{heads[0]}\n"


def test_nothing_to_complain_of(tmp_path: Path) -> None:
    (tmp_path / "talk.vtt").write_bytes(TALK)
    result = run("check", tmp_path / "talk.vtt")
    errors = [line for line in result.stdout.splitlines() if ": error " in line]
    assert (result.exit_code, errors) == (0, [])


def codes(result: Result) -> list[str]:
    return [match["rule"] for match in map(LINE.fullmatch, result.stdout.splitlines()) if match]


def test_findings_stand_in_the_order_of_the_recording_each_with_its_proof() -> None:
    result = run("check", COLD_START)
    heads = [line for line in result.stdout.splitlines() if LINE.fullmatch(line)]
    assert [line.split(":")[1:3] for line in heads] == [["0", "11"], ["2", "07"], ["2", "22"]]
    others = [line for line in result.stdout.splitlines() if line and line not in heads]
    assert all(line.startswith("    ") and len(line) <= 80 for line in others)
    assert "    expected    12 \N{MULTIPLICATION SIGN} (40 s + 20 s) = 12 min\n" in result.stdout
    assert "    2:07        “I want each of those 500s in two minutes" in result.stdout
    assert result.stderr == "3 errors in 1 talk.\n"


def test_over_an_hour_the_time_has_hours(found: list[Finding]) -> None:
    found.append(finding("error", Said(start_s=3725.0, quote="twenty")))
    assert run("check", "talk.vtt", "--quiet").stdout.startswith("talk.vtt:1:02:05: error ")


def test_the_summary_counts_by_severity_and_talk(found: list[Finding]) -> None:
    found.extend(map(finding, ("note", "error", "warning", "note")))
    assert run("check", "a.vtt", "b.vtt").stderr == "2 errors, 2 warnings, 4 notes in 2 talks.\n"
    found.clear()
    assert run("check", "a.vtt").stderr == "No findings in 1 talk.\n"


def test_several_talks_and_one_that_cannot_be_read(tmp_path: Path) -> None:
    result = run("check", COLD_START, tmp_path / "none.srt", COLD_START.with_name("talk.srt"))
    assert result.exit_code == 2
    assert result.stderr.splitlines() == [
        "none.srt does not exist; check the name and the folder.",
        "3 errors in 1 talk.",  # the same file twice is one talk
    ]
    alone = run("check", tmp_path / "none.srt")
    assert (alone.exit_code, alone.stdout, alone.stderr.count("\n")) == (2, "", 1)


def test_standard_input() -> None:
    result = run("check", "-", stdin=COLD_START.read_bytes())
    assert result.exit_code == 1
    assert result.stdout.startswith("-:0:11: error date-vs-weekday (date): ")


@pytest.mark.parametrize(
    ("options", "left"),
    [
        (["--select", "date-vs-weekday"], {"date-vs-weekday"}),
        (
            ["--select", "date-vs-weekday, interval-sum-wrong"],
            {"date-vs-weekday", "interval-sum-wrong"},
        ),
        (
            ["--select", "date-vs-weekday", "--select", "target-said-twice"],
            {"date-vs-weekday", "target-said-twice"},
        ),
        (["--ignore", "date-vs-weekday"], {"interval-sum-wrong", "target-said-twice"}),
        (["--select", "error", "--ignore", "date-vs-weekday,target-said-twice"],
         {"interval-sum-wrong"}),
        (["--select", "warning,note"], set()),
    ],
)  # fmt: skip
def test_rules_and_severities_are_selected_and_ignored(options: list[str], left: set[str]) -> None:
    result = run("check", COLD_START, *options)
    assert set(codes(result)) == left
    assert result.exit_code == bool(left)


@pytest.mark.parametrize("option", ["--select", "--ignore"])
def test_an_unknown_code_is_one_sentence_with_the_nearest(option: str) -> None:
    result = run("check", COLD_START, option, "date-vs-weekdy")
    assert (result.exit_code, result.stdout) == (2, "")
    assert sentence(result) == "There is no rule 'date-vs-weekdy'; did you mean date-vs-weekday?"


@pytest.mark.parametrize("limit", ["error", "warning", "note", "never"])
@pytest.mark.parametrize("severity", ["error", "warning", "note"])
def test_fail_on(found: list[Finding], severity: str, limit: str) -> None:
    found.append(finding(severity))
    graver = ["error", "warning", "note", "never"]
    fails = limit != "never" and graver.index(severity) <= graver.index(limit)
    assert run("check", "talk.vtt", "--fail-on", limit).exit_code == fails


def test_json_has_the_time_and_every_field() -> None:
    rows = [json.loads(line) for line in run("check", COLD_START, "--json").stdout.splitlines()]
    assert [row["at"] for row in rows] == ["0:11", "2:07", "2:22"]
    assert set(rows[0]) == {"source", "at", *Finding.model_fields}


def test_what_to_say_instead_is_in_the_order_of_the_recording() -> None:
    result = run("check", COLD_START, "--say-instead")
    assert result.exit_code == 1
    said = [line.split()[0] for line in result.stdout.splitlines()[1:]]
    assert said == ["0:11", "say", "2:57", "say", "5:59", "say"]
    assert "This part takes 12 min." in result.stdout
    rows = run("check", COLD_START, "--say-instead", "--json").stdout.splitlines()
    assert [json.loads(row)["at"] for row in rows] == ["0:11", "2:57", "5:59"]


def test_a_wide_head_stays_one_line_where_nobody_watches(found: list[Finding]) -> None:
    found.append(finding("error").model_copy(update={"message": "twenty " * 40}))
    (head, *_) = run("check", "talk.vtt").stdout.splitlines()
    assert head.count("twenty") == 40

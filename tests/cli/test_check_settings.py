"""`check` by a settings file, and less what was accepted."""

import json
import shutil
from pathlib import Path

import pytest
from cli.running import COLD_START, run, sentence

CODES = ("date-vs-weekday", "interval-sum-wrong", "target-said-twice")


@pytest.fixture
def talk(tmp_path: Path) -> Path:
    """A talk with three errors, two folders down."""
    place = tmp_path / "club" / "january" / "talk.srt"
    place.parent.mkdir(parents=True)
    shutil.copy(COLD_START, place)
    return place


def left(*args: object) -> list[str]:
    """The codes that are printed."""
    return sorted(line.split()[2] for line in run("check", *args, "--quiet").stdout.splitlines())


def test_the_nearest_file_holds(talk: Path) -> None:
    assert left(talk) == sorted(CODES)
    club = talk.parents[1]
    (club / "pyproject.toml").write_text('[tool.cuewright]\nselect = ["date-vs-weekday"]\n')
    assert left(talk) == ["date-vs-weekday"]
    (talk.parent / "pyproject.toml").write_text('[project]\nname = "theirs"\n')
    assert left(talk) == ["date-vs-weekday"]
    (club / "cuewright.toml").write_text('ignore = ["date-vs-weekday"]\n')
    assert left(talk) == ["interval-sum-wrong", "target-said-twice"]
    (talk.parent / "cuewright.toml").write_text("")
    assert left(talk) == sorted(CODES)


def test_each_talk_has_its_own(talk: Path, tmp_path: Path) -> None:
    other = tmp_path / "other" / "talk.srt"
    other.parent.mkdir()
    shutil.copy(COLD_START, other)
    (talk.parent / "cuewright.toml").write_text('select = ["date-vs-weekday"]\n')
    assert len(left(talk, other)) == 4


def test_the_command_line_wins(talk: Path) -> None:
    settings = talk.parent / "cuewright.toml"
    settings.write_text('select = ["date-vs-weekday"]\nfail-on = "never"\n')
    assert run("check", talk).exit_code == 0
    assert run("check", talk, "--fail-on", "error").exit_code == 1
    assert left(talk, "--select", "interval-sum-wrong") == ["interval-sum-wrong"]
    assert left(talk, "--no-settings") == sorted(CODES)
    settings.write_text('ignore = ["date-vs-weekday"]\n')
    assert left(talk, "--select", "date-vs-weekday") == ["date-vs-weekday"]


def test_a_file_that_is_named_is_taken_alone(talk: Path, tmp_path: Path) -> None:
    (talk.parent / "cuewright.toml").write_text('select = ["date-vs-weekday"]\n')
    named = tmp_path / "mine.toml"
    named.write_text('select = ["target-said-twice"]\n')
    assert left(talk, "--settings", named) == ["target-said-twice"]
    both = run("check", talk, "--settings", named, "--no-settings")
    assert "leave one out" in sentence(both)
    shared = tmp_path / "pyproject.toml"
    shared.write_text("[tool.other]\n")
    assert "has no [tool.cuewright]" in sentence(run("check", talk, "--settings", shared))


def test_standard_input_has_the_settings_of_the_current_folder(
    talk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (talk.parents[1] / "cuewright.toml").write_text('select = ["date-vs-weekday"]\n')
    monkeypatch.chdir(talk.parent)
    result = run("check", "-", "--quiet", stdin=COLD_START.read_bytes())
    assert result.stdout.count("\n") == 1


def test_paths_are_relative_to_the_file(talk: Path) -> None:
    club = talk.parents[1]
    (club / "cuewright.toml").write_text('baseline = "known.json"\nmovements = "mine.toml"\n')
    (club / "mine.toml").write_text('[heave]\nsaid = ["heaves"]\npatterns = ["hinge"]\n')
    assert run("check", talk, "--accept").exit_code == 0
    (first, *_) = json.loads((club / "known.json").read_text())["accepted"]
    assert first["file"] == "january/talk.srt"
    assert run("check", talk).stderr == "No findings in 1 talk; 3 accepted findings not shown.\n"
    (club / "mine.toml").unlink()
    assert "mine.toml does not exist" in sentence(run("check", talk))


def test_one_file_of_accepted_findings_for_two_folders(talk: Path) -> None:
    club = talk.parents[1]
    (club / "cuewright.toml").write_text('baseline = "known.json"\n')
    (talk.parent / "cuewright.toml").write_text('baseline = "../known.json"\n')
    shutil.copy(talk, club / "other.srt")
    run("check", talk, club / "other.srt", "--accept")
    assert len(json.loads((club / "known.json").read_text())["accepted"]) == 6
    assert left(talk, club / "other.srt") == []


JUNK = {
    "selct = []": "there is no key 'selct'; did you mean select?",
    "fail_on = 'note'": "did you mean fail-on?",
    "select = 'note'": "select: a list in square brackets is needed",
    "select = [1]": "select: words in quotation marks are needed",
    "select = ['date-vs-weekdy']": "did you mean date-vs-weekday?",
    "fail-on = 'bad'": "fail-on: ",
    "fail-on = ['note']": "fail-on: ",
    "movements = 3": "movements: a path in quotation marks is needed",
    "baseline = {}": "baseline: ",
    'baseline = "a\\u0000b"': "NUL",
    "baseline = ''": "is a folder",
    "baseline = 'none.json'": "none.json does not exist; --accept writes",
    "select = [": "is not TOML at line 1",
    "a = " + "[" * 5000: "is not TOML",
}


@pytest.mark.parametrize("text", JUNK)
def test_a_bad_setting_is_one_sentence_and_no_talk_is_read(talk: Path, text: str) -> None:
    (talk.parent / "cuewright.toml").write_text(text)
    result = run("check", talk)
    assert (result.exit_code, result.stdout) == (2, "")
    assert JUNK[text] in sentence(result)


@pytest.mark.parametrize("name", ["cuewright.toml", "pyproject.toml", "known.json"])
@pytest.mark.parametrize("what", ["binary", "folder", "unreadable", "long"])
def test_junk_in_place_of_a_file(
    talk: Path, name: str, what: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = talk.parent / name
    if what == "folder":
        place.mkdir()
    else:
        place.write_bytes({"long": b"#" * 2_000_000}.get(what, bytes(range(256))))
    if what == "unreadable":

        def forbidden(path: object, *_: object, **__: object) -> None:
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr("builtins.open", forbidden)
    more = ["--baseline", place] if name == "known.json" else []
    result = run("check", talk, *more)
    assert (result.exit_code, result.stdout) == (2, "")
    assert name in sentence(result)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{}x",
        "[]",
        "null",
        '{"accepted": 3}',
        '{"accepted": [{"rule": "x"}]}',
        '{"format": "cuewright-accepted/2", "accepted": []}',
        '{"accepted": [{"file": "a", "rule": "b", "about": "c", "said": "d"}]}',
        "[" * 100_000,
        "WEBVTT\n",
    ],
)
@pytest.mark.parametrize("accept", [[], ["--accept"]])
def test_a_damaged_file_of_accepted_findings_is_told_and_left(
    talk: Path, text: str, accept: list[str]
) -> None:
    place = talk.parent / "known.json"
    place.write_text(text)
    result = run("check", talk, "--baseline", place, *accept)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "known.json holds no accepted findings (" in sentence(result)
    assert place.read_text() == text


def test_only_new_findings_are_seen_and_those_gone_are_told(talk: Path) -> None:
    known = talk.parent / "known.json"
    one = run("check", talk, "--baseline", known, "--accept", "--select", "date-vs-weekday")
    assert one.stderr == f"Accepted 1 new finding in {known}.\n"
    assert left(talk, "--baseline", known) == ["interval-sum-wrong", "target-said-twice"]
    held = json.loads(known.read_text())
    held["accepted"][0]["why"] = "The poster is printed."
    known.write_text(json.dumps(held))
    assert run("check", talk, "--baseline", known, "--accept").exit_code == 0
    assert left(talk, "--baseline", known) == []
    assert json.loads(known.read_text())["accepted"][0]["why"] == "The poster is printed."

    text = talk.read_text().replace("14th of January", "13th of January")  # a Wednesday
    talk.write_text(text.replace("one minute fifty-five", "two minutes five"))
    again = run("check", talk, "--baseline", known)
    assert again.stderr.splitlines() == [
        f"2 accepted findings are gone from {talk}; --accept drops them.",
        "No findings in 1 talk; 1 accepted finding not shown.",
    ]
    assert run("check", talk, "--baseline", known, "--quiet").stderr == ""
    run("check", talk, "--baseline", known, "--accept")
    (entry,) = json.loads(known.read_text())["accepted"]
    assert entry["rule"] == "interval-sum-wrong"


def test_why_and_other_talks_are_kept(talk: Path) -> None:
    known, other = talk.parent / "known.json", talk.with_name("other.srt")
    shutil.copy(talk, other)
    run("check", talk, other, "--baseline", known, "--accept")
    held = json.loads(known.read_text())
    assert len(held["accepted"]) == 6
    for entry in held["accepted"]:
        entry["why"] = f"{entry['file']} {entry['rule']}"
    known.write_text(json.dumps(held))
    other.write_text("1\n00:00:01,000 --> 00:00:09,000\nWarm up with ten easy air squats.\n")
    result = run("check", other, "--baseline", known, "--accept")
    assert result.stderr.endswith("; dropped 3 that are gone.\n")
    after = json.loads(known.read_text())["accepted"]
    assert [entry["why"] for entry in after] == [f"talk.srt {code}" for code in CODES]


def test_a_talk_that_cannot_be_read_keeps_what_it_has(talk: Path) -> None:
    known = talk.parent / "known.json"
    run("check", talk, "--baseline", known, "--accept")
    before = known.read_text()
    talk.unlink()
    assert run("check", talk, "--baseline", known, "--accept").exit_code == 2
    assert known.read_text() == before
    other = talk.with_name("other.json")
    assert run("check", talk, "--baseline", other, "--accept").exit_code == 2
    assert not other.exists()


def test_accepting_needs_a_file_and_prints_no_findings(talk: Path) -> None:
    assert "--baseline FILE" in sentence(run("check", talk, "--accept"))
    for other in ("--json", "--say-instead"):
        result = run("check", talk, "--accept", "--baseline", talk.parent / "k.json", other)
        assert f"leave out {other}" in sentence(result)
    folder = talk.parent / "file"
    folder.write_text("")
    result = run("check", talk, "--accept", "--baseline", folder / "known.json")
    assert result.exit_code == 2

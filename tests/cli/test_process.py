"""What only a process of its own can show: imports, streams, terminals."""

import os
from pathlib import Path

import pytest
from cli.running import LOW_WATER, process, python

from cuewright.cli import app

posix = pytest.mark.skipif(os.name != "posix", reason="pipes and terminals of POSIX")
# pydantic is not among them: typer itself loads it for a command's help.
HEAVY = {"spacy", "faster_whisper", "numpy", "jinja2", "rich", "pysubs2", "rapidfuzz"}
COMMANDS = [command.callback.__name__ for command in app.registered_commands]

REPORT = """
import sys
from cuewright.cli import main
try:
    main()
except SystemExit as left:
    print(*sys.modules, file=sys.stderr)
    sys.exit(left.code)
"""


@pytest.mark.parametrize("args", [["--help"], ["--version"], *([c, "--help"] for c in COMMANDS)])
def test_help_loads_nothing_heavy_and_fits_80_columns(args: list[str]) -> None:
    done = python(REPORT, *args)
    assert done.returncode == 0
    assert HEAVY.isdisjoint(done.stderr.split())
    assert "cuewright" in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_importing_the_package_loads_nothing_heavy() -> None:
    done = python("import sys, cuewright; cuewright.Finding; print(*sys.modules)")
    assert done.returncode == 0
    assert HEAVY.isdisjoint(done.stdout.split())


@posix
@pytest.mark.parametrize("command", [["movements"], ["plan", LOW_WATER, "--json"], ["--help"]])
def test_a_closed_pipe_is_quiet(command: list[object]) -> None:
    reader, writer = os.pipe()
    os.close(reader)
    done = process(*command, stdout=writer)
    os.close(writer)
    assert done.stderr == ""
    assert done.returncode not in (0, 2)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_a_full_disk_behind_standard_output_is_told() -> None:
    with open("/dev/full", "w") as full:
        done = process("movements", stdout=full)
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1
    assert "No space left" in done.stderr


def test_data_is_utf_8_whatever_the_locale(tmp_path: Path) -> None:
    talk = tmp_path / "talk.txt"
    talk.write_text("Three rounds of ten burpees at the caf\u00e9 for time.\n", "utf-8")
    done = process("plan", talk, "--json", env={"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"})
    assert (done.returncode, done.stderr) == (0, "")
    assert "caf\u00e9" in done.stdout


@posix
@pytest.mark.parametrize(
    ("env", "coloured"),
    [
        ({"TERM": "xterm"}, True),
        ({"TERM": "xterm", "NO_COLOR": "1"}, False),
        ({"TERM": "dumb"}, False),
    ],
)
def test_colour_only_on_a_terminal_that_wants_it(env: dict[str, str], coloured: bool) -> None:
    import pty

    master, slave = pty.openpty()
    done = process("plan", LOW_WATER, stdout=slave, env=env)
    os.close(slave)
    text = os.read(master, 1_000_000)
    os.close(master)
    assert done.returncode == 0
    assert (b"\x1b[" in text) is coloured

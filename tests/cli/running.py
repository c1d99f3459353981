"""The command in this process, and as a process of its own."""

import os
import subprocess
import sys
from pathlib import Path

from typer.testing import CliRunner, Result

from cuewright.cli import app

ROOT = Path(__file__).parents[2]
LOW_WATER = ROOT / "samples/low-water/talk.vtt"
COLD_START = ROOT / "samples/cold-start/talk.srt"
ASR = ROOT / "tests/hear/recording/asr"
MODEL = ("--model", ASR / "model")
TALK = b"""WEBVTT

00:01.000 --> 00:06.000
Good evening. First a warm-up: two rounds of ten air squats and ten push-ups.

00:07.000 --> 00:12.000
Then for time, five rounds of fifteen burpees and a 400 metre run.
"""


def run(*args: object, stdin: bytes | None = None) -> Result:
    """The command with these arguments; standard output and error apart."""
    return CliRunner().invoke(app, [str(arg) for arg in args], input=stdin)


def python(code: str, *args: object, **more: object) -> "subprocess.CompletedProcess[str]":
    """``code`` in a process of its own, on this checkout; ``env`` is added to the environment."""
    here = os.pathsep.join((str(ROOT / "pipeline"), str(ROOT / "models")))
    env = os.environ | {"NO_COLOR": "", "PYTHONPATH": here} | dict(more.pop("env", {}))
    given = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE} | more
    call = [sys.executable, "-c", code, *map(str, args)]
    return subprocess.run(call, env=env, encoding="utf-8", timeout=60, check=False, **given)


def process(*args: object, **more: object) -> "subprocess.CompletedProcess[str]":
    """The command as the shell starts it."""
    return python("from cuewright.cli import main; main()", *args, **more)


def sentence(result: Result) -> str:
    """The one sentence on standard error."""
    lines = result.stderr.splitlines()
    assert len(lines) == 1, result.stderr
    assert lines[0].endswith((".", "?"))
    assert "Traceback" not in lines[0]
    return lines[0]

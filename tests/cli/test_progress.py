"""What is seen at a terminal while a recording is listened to, in terminals of 80 columns."""

import io
import os
import re
import select
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from cli.running import ASR, MODEL, process, run

from cuewright.watch import watching

pytestmark = pytest.mark.skipif(os.name != "posix", reason="terminals of POSIX")
COMMAND = "from cuewright.cli import main; main()"
PATIENCE_S = 120.0


@pytest.fixture
def talk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The talk, of which nothing is kept yet."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return ASR / "talk.ogg"


class Terminal:
    """A command in a terminal of its own."""

    def __init__(self, *args: object, **env: str) -> None:
        import fcntl
        import pty
        import struct
        import termios

        self._master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        usual = os.environ | {"TERM": "xterm", "NO_COLOR": "", "PYTHONPATH": ":".join(sys.path)}
        for name in ("COLUMNS", "LINES"):
            usual.pop(name, None)
        self._process = subprocess.Popen(
            [sys.executable, "-c", COMMAND, *map(str, args)],
            env=usual | env,
            stdin=slave,
            stdout=slave,
            stderr=slave,
            start_new_session=True,
            preexec_fn=lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0),
        )
        os.close(slave)
        self.seen = ""

    def until(self, pattern: str) -> None:
        """Watch until something is shown."""
        end = time.monotonic() + PATIENCE_S
        while not re.search(pattern, self.seen):
            assert time.monotonic() < end, self.seen
            assert self._more(), self.seen

    def interrupt(self) -> None:
        """Press the keys that interrupt."""
        os.write(self._master, b"\x03")

    def status(self) -> int:
        """Watch until the command has ended."""
        while self._more():
            pass
        os.close(self._master)
        return self._process.wait(PATIENCE_S)

    def _more(self) -> bool:
        if not select.select([self._master], [], [], PATIENCE_S)[0]:
            return False
        try:
            text = os.read(self._master, 65536).decode(errors="replace")
        except OSError:  # nobody has the other end any more
            return False
        self.seen += text
        return bool(text)

    def lines(self) -> Iterator[str]:
        """Every line as it was drawn, without what moves and colours."""
        for line in re.split(r"[\r\n]+", self.seen):
            yield re.sub(r"\x1b\[[\d;?]*[A-Za-z]", "", line)


def test_an_interrupted_run_goes_on_where_it_stopped(talk: Path, tmp_path: Path) -> None:
    call = ("transcribe", talk, *MODEL, "--out", tmp_path / "out")
    first = Terminal(*call)
    first.until(r"[1-9]\d? % \d+:\d\d left")
    first.interrupt()
    assert first.status() == 130
    *_, last = (line for line in first.lines() if line)
    assert re.fullmatch(r"Stopped at \d:\d\d; the same command goes on from there\.", last)
    assert not (tmp_path / "out").exists()
    done = re.findall(r"(\d+:\d\d) / 4:52", first.seen)[-1]

    second = Terminal(*call)
    assert second.status() == 0
    told = [line for line in second.lines() if line]
    assert told[0] == f"Going on with talk.ogg at {done}, where it stopped."
    assert re.findall(r"(\d+:\d\d) / 4:52", second.seen)[0] == done
    assert "".join(told[-3:]).count("Wrote") == 1
    assert max(map(len, told[1:-3])) <= 80
    assert all("talk.ogg" in line for line in told[1:-3])

    third = Terminal(*call)
    assert third.status() == 0
    assert "/ 4:52" not in third.seen  # nothing is heard again


def test_no_colour_where_none_is_wanted(talk: Path) -> None:
    seen = Terminal("plan", talk, *MODEL, "--no-cache", NO_COLOR="1")
    seen.until(r"0:00 / 4:52")
    seen.interrupt()
    assert seen.status() == 130
    assert not re.search(r"\x1b\[[\d;]*m", seen.seen)
    assert "goes on" not in seen.seen  # as nothing was kept


@pytest.mark.parametrize(("args", "env"), [(["--quiet"], {}), ([], {"TERM": "dumb"})])
def test_no_bar_where_none_is_wanted(short: Path, args: list[str], env: dict[str, str]) -> None:
    seen = Terminal("transcribe", short, *MODEL, "--no-cache", *args, **env)
    assert seen.status() == 0
    assert seen.seen.startswith("WEBVTT")


def test_no_bar_in_a_file(short: Path) -> None:
    done = process("transcribe", short, *MODEL, "--no-cache")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("WEBVTT")


class Screen(io.StringIO):
    """Standard error that takes itself for a terminal."""

    def isatty(self) -> bool:
        return True


def test_a_recording_of_unknown_length(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "xterm")
    screen = Screen()
    monkeypatch.setattr(sys, "stderr", screen)
    with watching("a-recording-with-a-very-long-name.mp4", quiet=False) as progress:
        progress(0.0, None)
        progress(3723.0, None)
    assert "1:02:03" in screen.getvalue()
    assert "%" not in screen.getvalue()
    assert "a-recording-with-a-very\u2026" in screen.getvalue()


def test_nothing_is_shown_of_captions(tmp_path: Path) -> None:
    talk = tmp_path / "talk.txt"
    talk.write_text("Three rounds for time of ten burpees, and that is all.\n")
    assert run("plan", talk).stderr == ""

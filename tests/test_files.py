"""Whole files or none."""

import errno
import os
from pathlib import Path
from typing import NoReturn

import pytest

from cuewright import files
from cuewright.errors import CuewrightError


def test_a_file_is_written_with_its_folders_as_it_stands(tmp_path: Path) -> None:
    target = tmp_path / "plans" / "low water.md"
    files.write(target, "5 \u00d7 5\n\u05e9\r\n")
    assert target.read_bytes() == "5 \u00d7 5\n\u05e9\r\n".encode()
    assert list(target.parent.iterdir()) == [target]


def test_a_file_is_replaced_whole(tmp_path: Path) -> None:
    target = tmp_path / "plan.md"
    files.write(target, "long " * 100)
    files.write(str(target), "short")
    assert target.read_text("utf-8") == "short"


@pytest.mark.skipif(os.name != "posix", reason="file modes are a POSIX matter")
def test_others_may_read_it_as_far_as_the_mask_lets_them(tmp_path: Path) -> None:
    before = os.umask(0o027)
    try:
        files.write(tmp_path / "plan.md", "x")
    finally:
        os.umask(before)
    assert (tmp_path / "plan.md").stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.ENOSPC, "no space left"),
        (errno.EACCES, "no permission"),
        (errno.EIO, "cannot be written"),
    ],
)
@pytest.mark.parametrize("call", ["fsync", "replace"])
def test_a_failure_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int, words: str, call: str
) -> None:
    def fail(*_: object) -> NoReturn:
        raise OSError(number, os.strerror(number))

    target = tmp_path / "plan.md"
    files.write(target, "old")
    monkeypatch.setattr(*((os, "fsync") if call == "fsync" else (Path, "replace")), fail)
    with pytest.raises(CuewrightError, match=words) as caught:
        files.write(target, "new")
    assert str(target) in str(caught.value)
    assert target.read_text("utf-8") == "old"
    assert list(tmp_path.iterdir()) == [target]


def test_a_folder_in_the_way(tmp_path: Path) -> None:
    (tmp_path / "plan.md").mkdir()
    with pytest.raises(CuewrightError, match="in the way"):
        files.write(tmp_path / "plan.md", "x")
    assert [path.name for path in tmp_path.iterdir()] == ["plan.md"]


def test_a_file_where_a_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "plans").write_text("x")
    with pytest.raises(CuewrightError, match="in the way"):
        files.write(tmp_path / "plans" / "plan.md", "x")


def test_an_interruption_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(*_: object) -> NoReturn:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stop)
    with pytest.raises(KeyboardInterrupt):
        files.write(tmp_path / "plan.md", "x")
    assert list(tmp_path.iterdir()) == []

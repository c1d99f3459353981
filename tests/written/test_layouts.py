"""Every written prescription of layouts.toml is read as it is meant."""

import tomllib
from pathlib import Path
from typing import NamedTuple

import pytest
from written.notation import blocks
from written.reading import plan, taken_down


class Means(NamedTuple):
    """A text in one layout and the blocks that it asks for."""

    layout: str
    text: str
    reads: list[str]


TABLE = tomllib.loads((Path(__file__).parent / "layouts.toml").read_text())["layout"]
ALL = [Means(each["name"], **means) for each in TABLE for means in each["means"]]


@pytest.mark.parametrize("means", ALL, ids=lambda m: f"{m.layout}: {m.text.split(chr(10))[0]}")
def test_a_written_session_is_read_as_meant(means: Means) -> None:
    assert blocks(plan(means.text)) == means.reads


@pytest.mark.parametrize("means", ALL, ids=lambda m: f"{m.layout}: {m.text.split(chr(10))[0]}")
def test_it_is_known_as_written_and_every_quote_is_its_own_words(means: Means) -> None:
    assert taken_down(means.text).outline
    lines = means.text.splitlines()
    for block in plan(means.text).blocks:
        for said in block.said:
            assert said.line is not None
            assert said.start_s is None
            if "<" not in means.text:
                assert said.quote.split()[0] in lines[said.line - 1]


def test_there_are_as_many_as_promised() -> None:
    assert len(TABLE) >= 25
    assert len(ALL) >= 150

"""Bars of text on one scale."""

from cuewright.render.bars import bars
from cuewright.render.timetable import Span
from cuewright.render.words import DASH


def test_a_range_with_its_middle_and_what_was_said() -> None:
    spans = [Span("regular", 300, 500, 400), Span("stated", 200, 600), Span("targets", 450, 450)]
    assert bars(spans, 600, width=44) == [
        "regular                 |--o-|    6:40",
        f"stated               [==========] 3:20{DASH}10:00",
        "targets                     #     7:30",
    ]


def test_bars_stay_inside_the_width() -> None:
    spans = [Span("regular", 0, 1e6, 10), Span("stated", 1e6, 1e6)]
    assert all(len(line) <= 60 for line in bars(spans, 1e6, width=60))
    assert bars([], 0, width=60) == []
    assert "o" in bars([Span("regular", 0, 0, 0)], 0, width=60)[0]

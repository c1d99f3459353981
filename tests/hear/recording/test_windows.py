"""A recording is cut in its pauses, and always in the same places."""

import itertools
from collections.abc import Iterator

import numpy as np
import pytest
import recordings
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from recordings import RATE, Samples

from cuewright.hear.recording import speech
from cuewright.hear.recording.speech import Stretch, Window, windows

LONGEST = 30 * RATE
SIZES = st.lists(st.integers(1, 40 * RATE), min_size=1, max_size=5)


def parts(sound: Samples, sizes: list[int]) -> Iterator[Samples]:
    at = number = 0
    while at < len(sound):
        yield sound[at : at + sizes[number % len(sizes)]]
        at += sizes[number % len(sizes)]
        number += 1


def places(found: list[Window]) -> list[tuple[Stretch, ...]]:
    return [window.stretches for window in found]


@pytest.fixture(scope="module")
def long(talk: Samples) -> Samples:
    """Nine minutes: the talk, a long pause, and half of it again."""
    return recordings.joined([talk, recordings.silence(100), talk[: len(talk) // 2]])


@pytest.fixture(scope="module")
def cut(long: Samples) -> list[Window]:
    return list(windows([long]))


def test_all_that_is_spoken_is_in_a_window(cut: list[Window], talk: Samples) -> None:
    covered = [(s.start / RATE, s.end / RATE) for window in cut for s in window.stretches]
    again = len(talk) / RATE + 100
    known = [(start, end) for _, start, end in recordings.said() if start is not None]
    spoken = known + [(s + again, e + again) for s, e in known if e < len(talk) / RATE / 2]
    lost = [
        middle
        for start, end in spoken
        for middle in [(start + end) / 2]
        if not any(first <= middle <= last for first, last in covered)
    ]
    assert lost == []


def test_windows_are_in_order_apart_and_short_enough(cut: list[Window], long: Samples) -> None:
    stretches = [stretch for window in cut for stretch in window.stretches]
    assert all(a.end <= b.start for a, b in itertools.pairwise(stretches))
    assert all(len(window.sound) <= LONGEST for window in cut)
    assert stretches[0].start >= 0
    assert stretches[-1].end <= len(long)
    assert len(cut) <= 1.25 * sum(len(window.sound) for window in cut) / LONGEST + 2


def test_a_window_holds_the_sound_of_its_stretches(cut: list[Window], long: Samples) -> None:
    for window in cut:
        meant = recordings.joined([long[s.start : s.end] for s in window.stretches])
        assert np.array_equal(window.sound, meant)


@settings(max_examples=4, deadline=None, suppress_health_check=list(HealthCheck))
@given(sizes=SIZES)
def test_in_what_parts_the_sound_comes_does_not_matter(
    sizes: list[int], long: Samples, cut: list[Window]
) -> None:
    sizes = [max(size, RATE // 50) for size in sizes]
    assert places(list(windows(parts(long, sizes)))) == places(cut)


def test_a_search_begun_again_at_any_block_finds_the_same(long: Samples, cut: list[Window]) -> None:
    for block in sorted({window.block for window in cut}):
        left = [window for window in cut if window.block >= block]
        assert places(list(windows(parts(long, [7 * RATE + 1]), block))) == places(left)


def test_no_sound_has_no_windows() -> None:
    assert list(windows([])) == []
    assert list(windows([recordings.silence(0.01)])) == []
    assert list(windows([recordings.silence(700)])) == []


@st.composite
def spoken(draw: st.DrawFn) -> list[Stretch]:
    """Stretches as the voice filter gives them, up to its own longest."""
    at, found = 0, []
    steps = st.tuples(st.integers(0, 40 * RATE), st.integers(RATE // 4, LONGEST))
    for pause, length in draw(st.lists(steps, max_size=30)):
        found.append(Stretch(at + pause, at + pause + length))
        at += pause + length
    return found


@given(spoken())
def test_stretches_are_put_together_whole_and_in_order(found: list[Stretch]) -> None:
    packed = speech._packed(found)
    flat = [stretch for window in packed for stretch in window]
    assert all(sum(s.end - s.start for s in window) <= LONGEST for window in packed)
    assert all(a.end <= b.start for a, b in itertools.pairwise(flat))
    assert all(any(w.start <= s.start and s.end <= w.end for w in flat) for s in found)


@given(spoken(), st.integers(0, 20 * RATE))
def test_every_block_gets_on_and_loses_nothing(found: list[Stretch], tail: int) -> None:
    size = max((found[-1].end if found else 0) + tail, 300 * RATE)
    packed = speech._packed(found)
    ready, go_on = speech._settled(packed, size)
    assert 0 < go_on <= size
    kept = [stretch for window in ready for stretch in window]
    assert all(s.end <= go_on or s in kept for s in found if s.start < go_on) or not found
    assert all(stretch.end <= go_on for stretch in kept)

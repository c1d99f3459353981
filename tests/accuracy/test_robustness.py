"""The wear of talks; `python tests/accuracy/robustness.py` measures what it costs."""

from itertools import pairwise
from random import Random

from accuracy.robustness import worn

from cuewright_models.transcript import Transcript, Word

COUNT = 5_000
TALK = Transcript(
    name="talk",
    kind="captions",
    sha256="",
    words=tuple(Word(str(at), at / 3, at / 3 + 0.3) for at in range(COUNT)),
    breaks=(0, 10, COUNT - 1),
)


def test_the_share_of_words_is_hit_and_the_rest_stay() -> None:
    heard, hits = worn(TALK, Random("1"), 0.02)
    dropped = {hit.at for hit in hits if hit.how == "dropped"}
    swapped = len(hits) - len(dropped)
    assert 0.015 < (len(dropped) + 2 * swapped) / COUNT < 0.025
    left = [int(word.text) for word in heard.words]
    assert sorted(left) == sorted(set(range(COUNT)) - dropped)
    assert sum(a > b for a, b in pairwise(left)) == swapped


def test_times_go_on_and_breaks_stay_at_their_words() -> None:
    heard, _ = worn(TALK, Random("1"), 0.02)
    starts = [word.start_s for word in heard.words]
    assert starts == sorted(starts)
    places = zip(heard.breaks, TALK.breaks, strict=True)
    assert all(abs(int(heard.words[at].text) - was) <= 1 for at, was in places)


def test_a_seed_always_hits_the_same_words() -> None:
    assert worn(TALK, Random("7"), 0.02) == worn(TALK, Random("7"), 0.02)
    assert worn(TALK, Random("7"), 0.0) == (TALK, [])

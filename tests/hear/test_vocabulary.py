"""Hints for the recogniser, as the catalogue in use gives them."""

from pathlib import Path

import tokenizers

from cuewright.hear.recording.vocabulary import MOST_TERMS, hints
from cuewright.movements.catalogue import catalogue, using
from cuewright.movements.own import extended

MODEL = Path(__file__).parent / "recording/asr/model"
LONGEST = 223
"""Pieces of words that the recogniser takes as hints (faster-whisper, ``get_prompt``)."""


def pieces(text: str) -> int:
    told = tokenizers.Tokenizer.from_file(str(MODEL / "tokenizer.json"))
    return len(told.encode(" " + text, add_special_tokens=False).ids)


def test_the_list_is_short_enough_to_be_taken_whole() -> None:
    terms = hints().split(", ")
    assert 20 <= len(terms) <= MOST_TERMS
    assert len(set(terms)) == len(terms)
    assert pieces(hints()) <= LONGEST


def test_a_coach_s_own_movements_come_first(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(
        '[oar-walk]\nsaid = ["walk with the oar"]\npatterns = ["locomotion"]\n'
        'counted_in = ["m"]\npace = { fast = 30, typical = 40, slow = 60 }\n'
    )
    shipped = hints()
    with using(extended(path)):
        terms = hints().split(", ")
        own = [term for term in terms if term in ("oar walk", "walk with the oar")]
        named = {name.replace("-", " ") for name in catalogue()}
        first = next(nth for nth, term in enumerate(terms) if term in named)
    assert own == ["oar walk", "walk with the oar"]
    assert terms[first : first + 2] == own
    assert hints() == shipped

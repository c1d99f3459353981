"""Sound of which nothing is believed: the place is told, what came out of it is not."""

import pytest

from cuewright import hear
from cuewright.flow import plan_of
from cuewright.render import FORMS
from cuewright_models.hearing import Hearing, LeftOut, Piece
from cuewright_models.transcript import Word

PLACES = "No words could be made out at 1:02, 2:10; listen there."


@pytest.mark.parametrize("form", [form for form in FORMS if form != "description"])
def test_the_places_stand_on_every_page_and_nothing_is_invented(form: str) -> None:
    said = ["Three", "rounds", "for", "time", "of", "15", "push-ups", "and", "20", "air", "squats."]
    words = tuple(Word(word, at / 2, at / 2 + 0.4, 0.99) for at, word in enumerate(said))
    heard = Hearing(
        name="session.m4a",
        sha256="",
        duration_s=180,
        language="en",
        model="small",
        pieces=(Piece(start_s=0, end_s=5, words=words, likelihood=-0.1, repetition=1, silence=0),),
        left_out=(
            LeftOut(start_s=62, end_s=70, text="40 burpees", why="no speech"),
            LeftOut(start_s=130, end_s=139, text="40 burpees", why="repetition"),
        ),
        warnings=(PLACES,),
    )
    # a post is for people who train; whoever writes it is told on standard error
    page = " ".join(FORMS[form].page(plan_of(hear.transcript(heard))).split())
    assert PLACES in page
    assert "burpee" not in page

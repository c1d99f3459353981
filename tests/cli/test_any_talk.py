"""Whatever is said, in whatever order, comes out as a plan that can be shown."""

from hypothesis import given, settings
from hypothesis import strategies as st

from cuewright.flow import plan_of
from cuewright.movements.catalogue import catalogue
from cuewright.render import FORMS
from cuewright_models.plan import Plan
from cuewright_models.transcript import Transcript, Word

SAID = """
ten twenty one fifteen nine 400 95/65 4x8 half a an the and or then of for by to in on off
rounds sets reps time cap minute minutes seconds metres kilos percent each side every
rest max sorry twelve instead scale if you can't lighter easier keep your chest up aim
under total session takes about warm up cool down finish main piece Tuesday January 2026
row run burpees, squats. push-ups pull-ups plank walk bike water parking okay? well, um
"""
anything = st.text(st.characters(exclude_categories=["Z", "C"]), min_size=1, max_size=6)
words = st.sampled_from(SAID.split()) | st.sampled_from(sorted(catalogue())) | anything


@settings(deadline=None, derandomize=True, max_examples=150)
@given(st.lists(words, min_size=1, max_size=60), st.booleans())
def test_any_words_make_a_plan_with_every_page(said: list[str], timed: bool) -> None:
    heard = tuple(Word(w, n, n + 0.5) if timed else Word(w) for n, w in enumerate(said))
    made = plan_of(Transcript(name="talk", kind="text", sha256="", words=heard))
    written = made.model_dump_json()
    assert Plan.model_validate_json(written).model_dump_json() == written
    assert all(form.page(made) for form in FORMS.values())

"""Whatever is said, in whatever order, comes out as a plan that can be shown."""

from hypothesis import given, settings
from hypothesis import strategies as st

from cuewright.flow import plan_of
from cuewright.movements.catalogue import catalogue
from cuewright.render import FORMS
from cuewright_models.plan import Plan
from cuewright_models.transcript import Transcript, Word

SAID = [
    *"ten twenty one fifteen nine 400 95/65 4x8 half a an the and or then of for by to in on off".split(),
    *"rounds sets reps time cap minute minutes seconds metres kilos percent each side every".split(),
    *"rest max sorry twelve instead scale if you can't lighter easier keep your chest up aim".split(),
    *"under total session takes about warm up cool down finish main piece Tuesday January 2026".split(),
    *"row run burpees, squats. push-ups pull-ups plank walk bike water parking okay? well, um".split(),
]  # fmt: skip
words = st.sampled_from(SAID) | st.sampled_from(sorted(catalogue())) | st.text(
    st.characters(exclude_categories=["Z", "C"]), min_size=1, max_size=6
)  # fmt: skip


@settings(deadline=None, derandomize=True, max_examples=150)
@given(st.lists(words, min_size=1, max_size=60), st.booleans())
def test_any_words_make_a_plan_with_every_page(said: list[str], timed: bool) -> None:
    clock = enumerate(said)
    heard = tuple(Word(w, n, n + 0.5) if timed else Word(w) for n, w in clock)
    made = plan_of(Transcript(name="talk", kind="text", sha256="", words=heard))
    assert Plan.model_validate_json(made.model_dump_json()) == made
    assert all(form.page(made) for form in FORMS.values())

"""A coach's own movements: what they add, what is refused, and that no reading sees another's."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cuewright import read_plan
from cuewright.errors import BadTable
from cuewright.movements.catalogue import Catalogue, catalogue, derived, shipped, using
from cuewright.movements.own import MORE, NEW, extended
from cuewright.reading import MAX_BYTES
from cuewright_models.plan import Effort, Plan, Repeat

TOWEL = """
[towel-row]
said = ["row with a towel", "coach\u2019s row"]
misheard = ["tower row"]
patterns = ["pull-horizontal"]
pace = { fast = 1.2, typical = 2.0, slow = 3.2 }
easier = ["ring-row"]
swap = ["quay-pull"]

[quay-pull]
patterns = ["pull-vertical"]

[push-up]
said = ["floor kisser"]
misheard = ["flaw kisser"]
"""
TALK = (
    "Warm up first. Five rows with a towel and seven coach's rows. Then for time, three rounds "
    "of ten floor kissers, eight flaw kissers, six tower rows and twelve burpees.\n"
)

Save = Callable[[str | bytes], Path]


@pytest.fixture
def save(tmp_path: Path) -> Save:
    def saved(content: str | bytes) -> Path:
        path = tmp_path / "mine.toml"
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    return saved


@pytest.fixture
def talk(tmp_path: Path) -> Path:
    path = tmp_path / "talk.txt"
    path.write_text(TALK, "utf-8")
    return path


def done(plan: Plan) -> list[tuple[str, float | None]]:
    """The movements of the plan with their amounts, repeats opened."""
    items = [item for block in plan.blocks for item in block.items]
    flat = [one for item in items for one in (item.items if isinstance(item, Repeat) else [item])]
    return [(item.movement, item.low) for item in flat if isinstance(item, Effort)]


def refused(save: Save, content: str | bytes) -> str:
    """The sentence with which a file is refused."""
    path = save(content)
    with pytest.raises(BadTable) as caught:
        extended(path)
    told = str(caught.value)
    assert told.startswith(str(path))
    assert told.endswith(".")
    assert len(told.removeprefix(str(path))) < 400
    return told


def fate(path: Path) -> str:
    """The sentence of a refusal; empty when the file was read. No other error may come."""
    try:
        extended(path)
    except BadTable as error:
        return str(error)
    return ""


def test_new_movements_and_words_are_read_in_a_talk(save: Save, talk: Path) -> None:
    assert done(read_plan(talk, save(TOWEL))) == [
        *(("towel-row", 5), ("towel-row", 7), ("push-up", 10), ("push-up", 8)),
        *(("towel-row", 6), ("burpee", 12)),
    ]


def test_what_stands_in_the_catalogue_is_kept_beside_the_words(save: Save) -> None:
    known, before = extended(save(TOWEL)), shipped()["push-up"]
    after = known["push-up"]
    assert after.said == (*before.said, "floor kisser")
    assert after.misheard == (*before.misheard, "flaw kisser")
    words = {"said", "misheard"}
    assert after.model_dump(exclude=words) == before.model_dump(exclude=words)
    assert known.marks == {"towel-row": NEW, "quay-pull": NEW, "push-up": MORE}
    assert set(known) == {*shipped(), "towel-row", "quay-pull"}


def test_an_unknown_name_is_near_to_the_coach_s_own(save: Save, tmp_path: Path) -> None:
    talk = tmp_path / "near.txt"
    talk.write_text("Warm up first. Ten quey bulls.\n", "utf-8")
    (unknown,) = read_plan(talk, save(TOWEL)).unknown
    assert "quay-pull" in unknown.nearest
    (unknown,) = read_plan(talk).unknown
    assert "quay-pull" not in unknown.nearest


def test_each_call_knows_its_own_file_alone(save: Save, talk: Path) -> None:
    plain = read_plan(talk)
    first = read_plan(talk, save(TOWEL))
    other = '[heave]\nsaid = ["floor kisser"]\npatterns = ["hinge"]\n'
    second = read_plan(talk, save(other))
    assert ("push-up", 10) in done(first)
    assert ("heave", 10) in done(second)
    assert "towel-row" not in dict(done(second))
    assert read_plan(talk, extended(save(TOWEL))) == first
    assert read_plan(talk) == plain
    assert catalogue() is shipped()


def test_threads_do_not_see_each_other_s_file(save: Save, talk: Path) -> None:
    own = extended(save(TOWEL))
    expected = {True: read_plan(talk, own), False: read_plan(talk)}
    turns = [True, False] * 4
    with ThreadPoolExecutor(4) as pool:
        plans = list(pool.map(lambda mine: read_plan(talk, own if mine else None), turns))
    assert plans == [expected[mine] for mine in turns]


def test_a_failure_inside_leaves_the_shipped_catalogue() -> None:
    with pytest.raises(ZeroDivisionError), using(Catalogue({})):
        raise ZeroDivisionError
    assert catalogue() is shipped()


def test_what_is_derived_is_kept_for_each_catalogue() -> None:
    made = []

    @derived
    def count(extra: int) -> int:
        made.append(extra)
        return len(catalogue()) + extra

    one = Catalogue({"push-up": shipped()["push-up"]})
    assert count(1) == count(1) == len(shipped()) + 1
    with using(one):
        assert count(1) == count(1) == 2
        assert count(2) == 3
    assert made == [1, 1, 2]


ROW = 'patterns = ["hinge"]\n'


@pytest.mark.parametrize(
    ("content", "told"),
    [
        ("[a]\nsaid = [\n", "not TOML at line 2 ("),
        ('[a]\npatterns = "x', "not TOML at line 2 ("),
        ("[a]\n\nsaid == 3\n", "not TOML at line 3 ("),
        ("[a]\n[a]\n", "not TOML at line 2 ("),
        ("x = " + "9" * 10_000, "not TOML at line 1 ("),
        ("x = " + "[" * 100_000, "not TOML (nested too deeply)"),
        ("\0\0\0", "not TOML at line 1 ("),
        ("", "is empty"),
        ("# nothing yet\n", "is empty"),
        (b"[a]\nsaid = ['caf\xe9']\n", "not UTF-8"),
        (b"\x7fELF\x02\x01\xff\xfe" * 50, "not UTF-8"),
        (b"PK\x03\x04\x00\x01", "not TOML at line 1 ("),
        (b"#" * (MAX_BYTES + 1), "larger than 1 MB"),
        ('said = ["x"]\n', "said belongs to no movement"),
        ("[[heave]]\n" + ROW, "heave belongs to no movement"),
        ("[Heave]\n" + ROW, "[Heave] is no name"),
        ('["heave ho"]\n' + ROW, "[heave ho] is no name"),
        ("[reduce]\n" + ROW, "[reduce] is no name"),
        (f"[{'a' * 5000}]\n" + ROW, "is no name"),
        ("[heave]\nunbrokn = 3\n" + ROW, "[heave] has an unknown field unbrokn; the fields are"),
        ('[heave]\nname = "push-up"\n' + ROW, "unknown field name"),
        ("[heave.ho]\n" + ROW, "unknown field ho"),
        ("[push-up]\nunbroken = 99\n", "[push-up] is in the catalogue already"),
        ("[heave]\nskill = 2\n", "[heave] has no patterns; say what it trains"),
        ('[heave]\npatterns = ["lift"]\n', "has lift among its patterns"),
        ('[heave]\nflags = ["wet"]\n' + ROW, "has wet among its flags"),
        ('[heave]\neasier = ["hieve"]\n' + ROW, "[heave] names hieve"),
        ('[heave]\nswap = ["hieve"]\n' + ROW, "[heave] names hieve"),
        ('[heave]\nswap = ["heave"]\n' + ROW, "[heave] names itself"),
        ('[heave]\nsaid = "heave ho"\n' + ROW, "[heave] said: a list in square brackets"),
        ('[push-up]\nsaid = "heave ho"\n', "[push-up] said: a list in square brackets"),
        ("[heave]\nsaid = [3]\n" + ROW, "[heave] said: words in quotation marks"),
        ("[heave]\nskill = 4\n" + ROW, "[heave] skill: "),
        ("[heave]\nunbroken = 0\n" + ROW, "[heave] unbroken: "),
        ('[heave]\ncounted_in = ["laps"]\n' + ROW, "[heave] counted_in: "),
        ("[heave]\ncounted_in = []\n" + ROW, "[heave] counted_in: "),
        ("[heave]\npace = 2\n" + ROW, "[heave] pace: a table in curly brackets"),
        ("[heave]\npace = { fast = 1, typical = 2 }\n" + ROW, "[heave] pace.slow: "),
        ("[heave]\npace = { fast = 3, typical = 2, slow = 1 }\n" + ROW, "must rise"),
        ("[heave]\npace = { fast = nan, typical = 2, slow = 3 }\n" + ROW, "[heave] pace.fast: "),
        ("[heave]\npace = { fast = 1, typical = 2, slow = inf }\n" + ROW, "[heave] pace.slow: "),
        ('[heave]\nsaid = ["Press Ups"]\n' + ROW, "'Press Ups', which already belongs to push-up"),
        ('[heave]\nmisheard = ["press ups"]\n' + ROW, "already belongs to push-up"),
        ('[heave]\nmisheard = ["push ops"]\n' + ROW, "already belongs to push-up"),
        ('[heave]\nsaid = ["dip station"]\n' + ROW, "already belongs to dip bars"),
        ('[heave]\nsaid = ["hup"]\n' + ROW + '[haul]\nsaid = ["hup"]\n' + ROW, "belongs to heave"),
        ('[pushup]\npatterns = ["push-horizontal"]\n', "already belongs to push-up"),
        ('[heave]\nsaid = [""]\n' + ROW, "cannot be called ''"),
        ('[heave]\nsaid = ["heave!"]\n' + ROW, "cannot be called 'heave!'"),
        ('[heave]\nsaid = ["400"]\n' + ROW, "cannot be called '400'"),
        ("[400]\n" + ROW, "[400] is no name"),
        ('[heave]\nmisheard = ["' + "he " * 9000 + '"]\n' + ROW, "cannot be called"),
    ],
)  # fmt: skip
def test_one_sentence_says_what_is_wrong(save: Save, content: str | bytes, told: str) -> None:
    assert told in refused(save, content)


def test_files_that_cannot_be_opened(tmp_path: Path) -> None:
    for path, told in [
        (tmp_path / "none.toml", "does not exist"),
        (tmp_path, "is a folder"),
        ("a\0b", "NUL"),
    ]:
        with pytest.raises(BadTable, match=told):
            extended(path)


def test_a_file_cut_short_anywhere_is_read_or_refused(save: Save) -> None:
    sentences = [said for end in range(0, len(TOWEL), 7) if (said := fate(save(TOWEL[:end])))]
    assert len(sentences) > 20
    assert all(said.endswith(".") and "\n" not in said for said in sentences)


@settings(max_examples=50, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=300) | st.text(max_size=300).map(lambda text: text.encode("utf-8")))
def test_any_bytes_are_read_or_refused(save: Save, content: bytes) -> None:
    told = fate(save(content))
    assert not told or told.endswith(".")


def test_thousands_of_movements_can_be_added(save: Save, talk: Path) -> None:
    letters = [f"{a}{b}{c}" for a in "bcdfgklnp" for b in "aeiou" for c in "bdfgkmnprt"]
    rows = (f'[{one}-heave]\nsaid = ["{one} haul"]\n{ROW}' for one in letters)
    known = extended(save("".join(rows)))
    assert len(known) == len(shipped()) + len(letters)
    assert dict(done(read_plan(talk, known)))["burpee"] == 12


def test_a_mark_of_byte_order_and_other_line_ends_do_no_harm(save: Save) -> None:
    plain = extended(save(TOWEL))
    assert extended(save(b"\xef\xbb\xbf" + TOWEL.replace("\n", "\r\n").encode())) == plain

"""Parts of the talk and roles of clauses, from labels and from short talks."""

from collections import Counter

import pytest
from readings import reading

from cuewright.divide import divide
from cuewright.divide.evidence import table
from cuewright.divide.roles import roles
from cuewright.divide.sections import SECTIONS, sections

TALK = (
    "Good evening Withy Reach. Right, warm up first. Jog for three minutes. Then ten air squats. "
    "Now the main piece, it's for time. Four rounds. Row 500 metres. Fifteen swings. Ten push ups. "
    "If you are new to push ups, do them from your knees. The cap is 18 minutes. "
    "Cool down. Walk for five minutes. Stretch for a minute each side. Thanks, see you next week."
)


def parted(text: str) -> dict[str, str]:
    """The section of each clause by its words."""
    read = reading(text)
    return {
        " ".join(t.norm for t in read.tokens[c.start : c.end]): c.section
        for c in divide(read).clauses
    }


def test_a_talk_runs_from_its_opening_to_its_close() -> None:
    found = parted(TALK)
    assert found["good evening withy reach"] == "open"
    assert found["then ten air squats"] == "warm-up"
    assert found["fifteen swings"] == "work"
    assert found["walk for five minutes"] == "cool-down"
    assert list(found.values())[-1] == "close"


def test_clauses_cover_every_token_once() -> None:
    read = reading(TALK)
    covered = [at for c in divide(read).clauses for at in range(c.start, c.end)]
    assert covered == list(range(len(read.tokens)))


def test_no_clauses_no_sections() -> None:
    assert sections([]) == []


def test_a_part_runs_on_until_the_next_is_named() -> None:
    found = [
        Counter({"header-warm-up": 1}),
        *(Counter({"plain": 1}) for _ in range(3)),
        Counter({"header-work": 1, "prescribes": 1}),
        Counter({"plain": 1}),
    ]
    assert sections(found) == ["warm-up"] * 4 + ["work"] * 2


def test_nothing_can_be_said_again_before_it_was_said() -> None:
    plain = [Counter({"prescribes": 1}) for _ in range(3)]
    recap = Counter({"header-recap": 1})
    assert sections([recap, *plain])[0] != "recap"
    assert sections([*plain, recap])[-1] == "recap"


@pytest.mark.parametrize(
    ("counts", "section", "role"),
    [
        ({"prescribes": 1}, "work", "prescription"),
        ({"prescribes": 1}, "recap", "restatement"),
        ({"plain": 1}, "close", "talk"),
        ({"plain": 1}, "cues", "cue"),
    ],
)
def test_a_role_depends_on_the_section(counts: dict[str, int], section: str, role: str) -> None:
    assert roles([Counter(counts)], [section], [False]) == [role]


def test_and_goes_on_with_what_the_clause_before_was_for() -> None:
    said = [Counter({"plain": 1}), Counter({"prescribes": 1})]
    restated = roles(said, ["recap", "work"], [False, True])
    assert restated == ["restatement", "restatement"]
    assert roles(said, ["recap", "work"], [False, False])[1] == "prescription"


def test_every_weight_is_for_a_known_section() -> None:
    assert all(set(row.section) <= set(SECTIONS) for row in table().values())

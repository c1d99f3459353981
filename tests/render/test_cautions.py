"""The usual cautions."""

import pytest
from render.sessions import plan

from cuewright.cautions import usual
from cuewright.render import FORMS
from cuewright.tables import raw


def test_every_caution_names_its_source() -> None:
    table = raw("cuewright", "cautions.toml")
    assert all(row["source"].strip() for row in table.values())
    assert len(usual()) == len(table) > 0


# Signs for stopping, after the table copy of ACSM's list at jssm.org/suppls/7/T7.htm.
@pytest.mark.parametrize("sign", ["chest pain", "faintness", "confusion", "breathlessness"])
def test_the_signs_for_stopping_come_first(sign: str) -> None:
    assert sign in usual()[0]


@pytest.mark.parametrize(
    "topic", ["screened", "pregnancy", "after birth", "heat", "illness, injury", "Children",
              "older adults", "Clinicians, qualified coaches", "local rules"]
)  # fmt: skip
def test_each_topic_is_there(topic: str) -> None:
    assert topic in " ".join(usual())


@pytest.mark.parametrize("form", ["markdown", "html", "text"])
def test_a_plan_with_its_own_cautions_shows_those(form: str) -> None:
    page = FORMS[form].page(plan(cautions=("Mind the slipway.",)))
    assert "Mind the slipway." in page
    assert "Stop at once" not in page

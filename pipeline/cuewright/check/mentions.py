"""Whether a movement is named in what was said of others: a guard against what was misread."""

import re
from collections.abc import Iterable

from cuewright_models.base import Evidence
from cuewright_models.plan import Effort

SHORTEST = 3
"""Letters of a word that can tell a movement: "row" can, "up" cannot."""


def mentioned(effort: Effort, told: Iterable[Evidence], others: Iterable[str] = ()) -> bool:
    """Whether any quote has a word of the movement's name, or of what it was called here.

    Words that the names of ``others`` have too tell nothing: "push" of a push press.
    """
    taken = {word for other in others if other != effort.movement for word in _words(other)}
    telling = (_words(effort.movement) | _words(effort.as_said)) - taken
    heard = " ".join(said.quote for evidence in told for said in evidence)
    spelt = re.sub(r"[^a-z]", "", heard.lower())  # captions write "sand bag" and "sandbag"
    long = {word for word in telling if len(word) > SHORTEST}
    return any(word in spelt for word in long) or not telling.isdisjoint(_words(heard))


def last_word(name: str) -> str:
    """What a movement is in the end: ``squat`` of a goblet squat; empty for ``pull-up``."""
    *_, last = ["", *name.lower().replace("-", " ").split()]
    last = last.removesuffix("s")
    return last if len(last) >= SHORTEST else ""


def _words(text: str) -> set[str]:
    found = re.findall(r"[a-z]+", text.lower())
    return {word.removesuffix("s") for word in found if len(word.removesuffix("s")) >= SHORTEST}

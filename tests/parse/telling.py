"""A land-training evening at Withy Reach Rowing Club, told in a few sentences."""

from cuewright.flow import plan_of
from cuewright_models.plan import Plan
from cuewright_models.transcript import Transcript, Word

EVENING = (
    "Right, warm up first. Three minutes of easy jogging, then two rounds of ten air squats and "
    "five inchworms. Then the main piece, it's for time. Run 800 metres along the towpath. Then "
    "five rounds of 15 kettlebell swings, 12 step ups and 9 push ups. Then row 500 metres. After "
    "that part two, strength. Three sets of eight goblet squats, rest a minute between sets."
)


def heard(text: str) -> Transcript:
    """``text`` with three words a second."""
    words = tuple(Word(w, at / 3, at / 3 + 0.3) for at, w in enumerate(text.split()))
    return Transcript(name="evening", kind="captions", sha256="0" * 64, words=words)


def parted(*sentences: str, silence_s: float) -> Plan:
    """The plan of sentences as unpunctuated captions, a silence between each and the next."""
    words: list[Word] = []
    for sentence in sentences:
        at = words[-1].end_s + silence_s if words and words[-1].end_s is not None else 0.0
        words += [
            Word(word, at + nth / 3, at + nth / 3 + 0.3)
            for nth, word in enumerate(plain(sentence).split())
        ]
    talk = heard("").model_copy(update={"words": tuple(words)})
    return plan_of(talk)


def plain(text: str) -> str:
    """``text`` as captions without punctuation or capitals have it."""
    return "".join(char for char in text.lower() if char not in ".,:?!")


def plan(text: str, *, captions: bool = False) -> Plan:
    """The plan of the whole of ``text``; with ``captions`` told without punctuation."""
    return plan_of(heard(plain(text) if captions else text))


def evening(*, first: str = "", last: str = "", captions: bool = False) -> Plan:
    """The plan of the evening with words before and after it."""
    return plan(f"{first} {EVENING} {last}", captions=captions)

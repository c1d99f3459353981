"""A short talk read end to end."""

from cuewright.flow import plan_of
from cuewright_models.plan import Plan
from cuewright_models.transcript import Transcript, Word

WORK = (
    "Right, the main piece. Four rounds: a 250 metre row, fifteen kettlebell swings "
    "with a 16, twelve push-ups, ten box jumps, eight pull-ups, twenty walking lunges "
    "and a thirty second plank. "
)
CIRCUIT = (
    "Right, the circuit. It is forty seconds on, twenty seconds off, three rounds through "
    "goblet squats, burpees and jumping jacks. "
)


def told(text: str) -> Plan:
    """The plan of ``text`` spoken at three words a second."""
    words = tuple(Word(word, at / 3, at / 3 + 0.3) for at, word in enumerate(text.split()))
    return plan_of(Transcript(name="talk", kind="text", sha256="", words=words))

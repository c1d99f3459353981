"""Text as the reader gets it, and readings in short."""

from cuewright.normalise.amounts import amounts
from cuewright.normalise.tokens import tokens
from cuewright_models.tokens import Amount, Token
from cuewright_models.transcript import Transcript, Word


def heard(text: str, pauses: dict[str, float] | None = None) -> list[Token]:
    """``text`` as tokens; ``pauses`` gives the silence before a word, in seconds."""
    said, clock = [], 0.0
    for word in text.split():
        clock += (pauses or {}).get(word, 0.0)
        said.append(Word(word, clock, clock + 0.2))
        clock += 0.2
    return tokens(Transcript(name="talk", kind="text", sha256="", words=tuple(said)))


def short(amount: Amount) -> str:
    """One amount as its numbers, unit and shape: ``8..10 s``, ``21 15 9 list``, ``..120 s``."""
    if amount.shape in ("date", "other"):
        return amount.shape
    if amount.values:
        numbers = " ".join(f"{value:g}" for value in amount.values)
    elif amount.low == amount.high:
        numbers = f"{amount.low:g}"
    else:
        ends = ("" if end is None else f"{end:g}" for end in (amount.low, amount.high))
        numbers = "..".join(ends)
    shape = "" if amount.shape in ("one", "range") and not amount.values else amount.shape
    return " ".join(part for part in (numbers, amount.unit, shape) if part)


def reading(text: str, pauses: dict[str, float] | None = None) -> list[str]:
    """Every amount of ``text`` in short, in order."""
    return [short(amount) for amount in amounts(heard(text, pauses))]

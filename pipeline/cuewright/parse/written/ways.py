"""A written list of options: what each line is about, a colon, and another way to do it.

"Push-up: knee push-up (easier)", "Swing: lighter, 12 kg", "Bike: ski instead, 300 m".
"""

from collections.abc import Sequence

from cuewright.parse.build import Quote
from cuewright.parse.names import Names
from cuewright.parse.written.labels import about, colon
from cuewright.parse.written.lines import Stated
from cuewright_models.plan import Block, Option
from cuewright_models.tokens import Amount, Reading, norm_at, starting_in

_KINDS = ("fewer", "shorter", "lighter", "easier", "harder")
_COUNTED = {
    "rep": "reps", "reps": "reps", "round": "rounds", "rounds": "rounds",
    "set": "sets", "sets": "sets", "times": "times",
}  # fmt: skip


def with_offered(
    told: Sequence[Option],
    lines: Sequence[Stated],
    reading: Reading,
    names: Names,
    blocks: Sequence[Block],
    quote: Quote,
) -> tuple[Option, ...]:
    """The options, those of a list as its lines have them; other sentences stay as ``told``."""
    found = [option for said in lines if (option := _way(said, reading, names, blocks, quote))]
    listed = {place.line for option in found for place in option.said}
    others = (o for o in told if not any(place.line in listed for place in o.said))
    return (*others, *found)


def _way(
    said: Stated, reading: Reading, names: Names, blocks: Sequence[Block], quote: Quote
) -> Option | None:
    """The option of a line that says in a word how it is another way."""
    start, subject = colon(said, reading), about(said, reading, names, blocks)
    if start is None or subject is None:
        return None
    end = _end(said, reading)
    norms = [reading.tokens[at].norm for at in range(start, end)]
    kind = "substitute" if "instead" in norms else next((k for k in _KINDS if k in norms), None)
    if kind is None:
        return None
    other = next((m.name for m in starting_in(reading.movements, start, end)), None)
    amount = next(iter(starting_in(reading.amounts, start, end)), None)
    return Option.model_validate(
        {
            "about": subject,
            "kind": kind,
            "to": None if other == subject else other,
            "low": amount.low if amount else None,
            "high": amount.high if amount else None,
            "unit": _unit(amount, reading) if amount else None,
            "said": (quote(said.start, said.end),),
        }
    )


def _end(said: Stated, reading: Reading) -> int:
    """Where the line ends, or the words begin that it quotes."""
    quoted = [first for first, _ in said.line.names]
    inside = range(said.start, said.end)
    return next((at for at in inside if reading.tokens[at].first in quoted), said.end)


def _unit(amount: Amount, reading: Reading) -> str:
    return amount.unit or _COUNTED.get(norm_at(reading.tokens, amount.end), "reps")

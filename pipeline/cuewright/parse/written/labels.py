"""What stands before the colon in a list of targets or of options."""

from collections.abc import Sequence

from cuewright.parse.names import Names
from cuewright.parse.written.lines import Stated
from cuewright.parse.written.words import goal_of
from cuewright_models.plan import Block
from cuewright_models.tokens import Reading, starting_in


def colon(said: Stated, reading: Reading) -> int | None:
    """The token after the colon of a line."""
    ends = (at + 1 for at in range(said.start, said.end) if reading.tokens[at].after == ":")
    return next(ends, None)


def about(said: Stated, reading: Reading, names: Names, blocks: Sequence[Block]) -> str | None:
    """What stands before the colon: a movement, a block by its number, a round, the whole."""
    end = colon(said, reading)
    if end is None:
        return None
    norms = [token.norm for token in reading.tokens[said.start : end]]
    if norms[:1] and goal_of(norms[0]) == "block" and len(norms) > 1 and norms[1].isdigit():
        at = int(norms[1])
        return f"b{at}" if 1 <= at <= len(blocks) else None
    if (whole := goal_of(" ".join(norms))) is not None:
        return whole
    named = [m for m in starting_in(reading.movements, said.start, end) if m.end <= end]
    return names.resolve(named[0]) if named else None

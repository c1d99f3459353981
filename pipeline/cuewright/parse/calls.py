"""What this coach calls a round: "five streets, and each street is 200 metres and ten burpees"."""

from cuewright.parse.words import letters, words
from cuewright_models.tokens import Reading, norm_at

_EACH = words("calls", "each")
_MEANS = words("structures", "means")
_NEVER = words("calls", "never") | words("spans", "nouns") | words("spans", "people")


def round_words(reading: Reading) -> frozenset[str]:
    """The words that are counted in one place and explained in another, singular and plural."""
    told = {stem for at, stem in enumerate(reading.stems) if _explained(reading, at)}
    if not told:
        return frozenset()
    named = {at for m in reading.movements for at in range(m.start, m.end)}
    counted = {
        reading.stems[amount.end]
        for amount in reading.amounts
        if amount.unit is None and amount.end < len(reading.stems) and amount.end not in named
    }
    both = told & counted
    return frozenset(
        token.norm
        for token, stem in zip(reading.tokens, reading.stems, strict=True)
        if stem in both and token.norm not in letters() and token.norm not in _NEVER
    )


def _explained(reading: Reading, at: int) -> bool:
    """Whether "each street is" stands at a token."""
    before = norm_at(reading.tokens, at - 1)
    return before in _EACH and norm_at(reading.tokens, at + 1) in _MEANS

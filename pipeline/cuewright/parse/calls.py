"""What this coach calls a round: "five streets, and each street is 200 metres and ten burpees"."""

from cuewright.parse.words import letters, words
from cuewright_models.tokens import Reading

_EACH = words("calls", "each")
_MEANS = words("structures", "means")
_NEVER = words("calls", "never") | words("spans", "nouns") | words("spans", "people")


def round_words(reading: Reading) -> frozenset[str]:
    """The words that are counted in one place and explained in another, singular and plural."""
    told = _explained(reading)
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


def _explained(reading: Reading) -> set[str]:
    """What stands between "each" and "is": "each street is"."""
    norms = [token.norm for token in reading.tokens]
    around = zip(norms, reading.stems[1:], norms[2:], strict=False)
    return {stem for before, stem, after in around if before in _EACH and after in _MEANS}

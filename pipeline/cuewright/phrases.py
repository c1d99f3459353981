"""Known phrases in a row of tokens, by spaCy's phrase matcher over word stems."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache, lru_cache

from spacy.matcher import PhraseMatcher
from spacy.tokens import Doc
from spacy.vocab import Vocab

from cuewright_models.tokens import Mention, Token

_IRREGULAR = {"calves": "calf", "feet": "foot", "men": "man", "women": "woman", "ups": "up"}
_NOT_PLURAL = frozenset((
    "that's", "it's", "there's", "what's", "let's", "here's", "he's", "she's", "who's", "where's",
    "how's", "one's", "everybody's", "nobody's", "press", "cross", "abs", "triceps", "biceps",
    "this", "is", "us", "plus", "bus", "less", "its", "was", "has", "as", "glass", "does", "goes",
))  # fmt: skip
"""Words whose last s stays."""
_WITHIN = frozenset(
    ("in", "on", "during", "after", "before", "that", "my", "our", "off", "from", "into")
)
"""Words before the name of a part that only speak of it."""
_THE = frozenset(("the", "this", "your", "our", "that"))
_SHORT = {"can't": "cannot", "won't": "will not", "let's": "let us", "i'm": "i am"}
"""Words drawn together whose full form their ending does not tell."""
_ENDINGS = {"n't": "not", "'re": "are", "'ll": "will", "'ve": "have", "'s": "is", "'d": "would"}
_DRAWN = frozenset(("that", "it", "there", "what", "here", "he", "she", "who", "where", "how"))
"""Words after which "'s" is "is"."""


@lru_cache(maxsize=50_000)
def stem(norm: str) -> str:
    """The form under which singular, plural and possessive are alike: "lunges" lunge."""
    if norm in _IRREGULAR:
        return _IRREGULAR[norm]
    if len(norm) < 4 or not norm.isascii() or norm in _NOT_PLURAL:
        return norm
    if norm.endswith("'s"):
        return norm[:-2]
    if not norm.endswith("s") or norm.endswith("ss"):
        return norm
    if norm.endswith(("sses", "ches", "shes", "xes")):
        return norm[:-2]
    if norm.endswith("ies") and len(norm) > 4:
        return norm[:-3] + "y"
    return norm[:-1]


def spoken_of(tokens: Sequence[Token], at: int) -> bool:
    """Whether the words at ``at`` only speak of a part: "in the finisher", "before the circuit"."""
    at -= 1
    named = at > 0 and tokens[at].norm in _THE and not tokens[at].after
    if named:
        at -= 1
    if at < 0 or tokens[at].after:
        return False
    if at > 0 and tokens[at].norm == "a" and tokens[at - 1].norm == "like":
        return True
    return tokens[at].norm in _WITHIN or (named and tokens[at].norm == "of")


def in_full(phrase: str) -> str:
    """A phrase with nothing drawn together: "when you're done", "when you are done"."""
    return " ".join(map(_in_full, phrase.split()))


def _in_full(word: str) -> str:
    if word in _SHORT:
        return _SHORT[word]
    for ending, full in _ENDINGS.items():
        lead = word.removesuffix(ending)
        if lead != word and (ending != "'s" or lead in _DRAWN):
            return f"{lead} {full}"
    return word


class Phrases:
    """A table of labels and their phrases, ready to be found in any talk.

    Each phrase is found as it stands and with its words in full.
    """

    def __init__(self, table: Mapping[str, Iterable[str]]) -> None:
        self._matcher = PhraseMatcher(_vocab(), attr="ORTH")
        for label, phrases in table.items():
            known = [phrase.lower().replace("-", " ") for phrase in phrases]
            spelt = dict.fromkeys(p for one in known for p in (one, in_full(one)))
            words = [tuple(map(stem, phrase.split())) for phrase in spelt]
            self._matcher.add(label, [_doc(one) for one in words])

    def everywhere(self, stems: Sequence[str]) -> list[Mention]:
        """Every occurrence of every phrase, overlaps included, in order of place."""
        strings = _vocab().strings
        found = self._matcher(_doc(tuple(stems)))
        return [Mention(start, end, strings[key]) for key, start, end in found]

    def longest(
        self, stems: Sequence[str], holds: Callable[[Mention], bool] = lambda _: True
    ) -> list[Mention]:
        """Occurrences that ``holds`` accepts, without overlaps: the longest, then the earlier."""
        taken: set[int] = set()
        kept = []
        for mention in sorted(
            filter(holds, self.everywhere(stems)), key=lambda m: (m.start - m.end, m.start)
        ):
            places = range(mention.start, mention.end)
            if taken.isdisjoint(places):
                taken.update(places)
                kept.append(mention)
        return sorted(kept, key=lambda m: m.start)


@cache
def _vocab() -> Vocab:
    return Vocab()


@lru_cache(maxsize=8)
def _doc(stems: tuple[str, ...]) -> Doc:
    """The words as spaCy wants them; the tables that read one talk share its document."""
    return Doc(_vocab(), words=list(stems))

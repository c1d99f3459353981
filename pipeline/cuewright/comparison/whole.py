"""What is said of the session as a whole, of a target or of another way, in both texts."""

from collections.abc import Iterable, Iterator, Sequence

from rapidfuzz.fuzz import partial_ratio

from cuewright.comparison.difference import Difference, Number
from cuewright.comparison.equal import same
from cuewright.render import words
from cuewright_models.base import Evidence, Range
from cuewright_models.plan import Claim, Date, Option, Plan, Target
from cuewright_models.tokens import Reading

_ALIKE = 80
"""From here on, of 100, a title is the same, misheard or with a word more."""


def whole(talk: Plan, other: Plan, reading: Reading) -> Iterator[Difference]:
    """Title, day, length, targets and options that both sides give, each otherwise."""
    yield from _title(talk, other, reading)
    yield from _date(talk.date, other.date)
    yield from _totals(talk, other)
    for target in other.targets:
        if (target.about, target.unit) != ("total", "s"):
            yield from _target(target, talk.targets)
    for option in other.options:
        yield from _option(option, talk.options)


def _title(talk: Plan, other: Plan, reading: Reading) -> Iterator[Difference]:
    if not talk.title or not other.title:
        return
    one, two = _letters(talk.title), _letters(other.title)
    heard = "".join(token.norm for token in reading.tokens)
    if two and two not in heard and partial_ratio(one, two) < _ALIKE:
        yield Difference(
            rule="description-differs",
            about="title",
            message=f"The description is called {other.title}; in the talk it is {talk.title}.",
            expected=talk.title,
            found=other.title,
            suggestion=f"Call it {talk.title}.",
            words=(other.title, talk.title),
        )


def _letters(text: str) -> str:
    return "".join(sign for sign in text.casefold() if sign.isalnum())


def _date(one: Date | None, two: Date | None) -> Iterator[Difference]:
    """A day that contradicts; less of it is none."""
    if one is None or two is None:
        return
    fields = ("year", "month", "day", "weekday")
    given = [(getattr(two, field), getattr(one, field)) for field in fields]
    wrong = [(old, new) for old, new in given if None not in (old, new) and old != new]
    if wrong:
        numbers = [Number(old, new, "day") for old, new in wrong if isinstance(old, int)]
        named = [(old, new) for old, new in wrong if isinstance(old, str)]
        yield Difference(
            rule="description-differs",
            about="date",
            message=f"The description has {words.date(two)}; in the talk it is {words.date(one)}.",
            expected=words.date(one),
            found=words.date(two),
            suggestion=f"Write {words.date(one)}.",
            heard=one.said,
            written=two.said,
            numbers=tuple(numbers),
            words=named[0] if named else None,
        )


def _totals(talk: Plan, other: Plan) -> Iterator[Difference]:
    """How long it is to take, the whole or the piece that the coach has a target for."""
    for kind in (_lengths, _targets):
        heard = [*kind(talk)]
        known = [*_lengths(talk), *_targets(talk)]
        for each in kind(other):
            if heard and not any(_fits(each, one) for one in known):
                yield _differs("total", "s", each, each.said, heard[0], heard[0].said)


def _lengths(plan: Plan) -> Iterator[Claim]:
    return (c for c in plan.claims if c.kind == "total-time" and c.about == "total")


def _targets(plan: Plan) -> Iterator[Target]:
    return (t for t in plan.targets if t.about == "total" and t.unit == "s")


def _fits(written: Range, heard: Range) -> bool:
    """Whether a range is the same, or one number within it."""
    if _same(written, heard):
        return True
    low, high, much = heard.low, heard.high, written.low
    inside = low is not None and high is not None and much is not None and low <= much <= high
    return inside and written.low == written.high


def _same(one: Range, two: Range) -> bool:
    return same(one.low, two.low, "s") and same(one.high, two.high, "s")


def _target(written: Target, known: Sequence[Target]) -> Iterator[Difference]:
    heard = [t for t in known if (t.about, t.unit) == (written.about, written.unit)]
    if heard and not any(_fits(written, each) for each in heard):
        about = "structure" if written.about == "round" else written.about
        yield _differs(about, written.unit, written, written.said, heard[0], heard[0].said)


def _option(written: Option, known: Iterable[Option]) -> Iterator[Difference]:
    """An amount of an option that the talk gives another."""
    heard = [
        option
        for option in known
        if (option.about, option.kind, option.unit) == (written.about, written.kind, written.unit)
        and option.low is not None
    ]
    if written.low is not None and heard and not any(_same(written, each) for each in heard):
        unit = written.unit or "reps"
        yield _differs(written.about, unit, written, written.said, heard[0], heard[0].said)


def _differs(
    about: str, unit: str, written: Range, there: Evidence, heard: Range, said: Evidence
) -> Difference:
    expected, found = words.amount(heard.low, heard.high, unit), words.amount(
        written.low, written.high, unit
    )  # fmt: skip
    ends = dict.fromkeys(((written.low, heard.low), (written.high, heard.high)))
    what = "the whole" if about == "total" else words.movement(about)
    return Difference(
        rule="description-differs",
        about=about,
        message=f"For {what} the description has {found}; in the talk it is {expected}.",
        expected=expected,
        found=found,
        suggestion=f"Write {expected}.",
        heard=said,
        written=there,
        numbers=tuple(
            Number(old, new, unit) for old, new in ends if old is not None and new is not None
        ),
    )

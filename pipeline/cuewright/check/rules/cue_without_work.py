"""A movement is coached or scaled but is not in the session."""

from collections.abc import Iterator

from cuewright.check.kinship import ends_with, names, related
from cuewright.check.leeway import words
from cuewright.check.rule import Rule, union
from cuewright.check.sums import session_efforts
from cuewright.movements.catalogue import catalogue, derived
from cuewright_models.finding import Finding
from cuewright_models.plan import Cue, Effort, Option, Plan


def find(plan: Plan) -> Iterator[Finding]:
    """One finding for each known movement that is spoken of and never done."""
    spoken: list[Cue | Option] = [*plan.cues, *plan.options]
    spoken = [each for each in spoken if each.about in catalogue() and _is_topic(each)]
    work = tuple(session_efforts(plan))
    if not work:
        return
    for about in dict.fromkeys(each.about for each in spoken):
        if not _offered(about, plan) and not _present(about, work) and not _unread(about, plan):
            yield _finding(about, [each for each in spoken if each.about == about])


def _is_topic(spoken: Cue | Option) -> bool:
    """Whether the words name the movement as a thing: "the rides:", not "ride the drive"."""
    if not spoken.said:  # no words to judge by
        return True
    heard = [word for said in spoken.said for word in said.quote.lower().replace("-", " ").split()]
    plain = [_plain(word) for word in heard]
    names = _called(spoken.about)
    return any(
        tuple(plain[at : at + len(name)]) == name and _is_thing(heard, at, at + len(name))
        for at, word in enumerate(plain)
        for name in names.get(word, ())
    )


@derived
def _called(movement: str) -> dict[str, list[tuple[str, ...]]]:
    """Every name and mishearing by its first word, less those that also say how to move."""
    row = catalogue()[movement]
    spelt = [name.lower().replace("-", " ") for name in (row.name, *row.said, *row.misheard)]
    called: dict[str, list[tuple[str, ...]]] = {}
    for name in spelt:
        if name not in words("manner"):
            first, *more = map(_plain, name.split())
            called.setdefault(first, []).append((first, *more))
    return called


def _is_thing(heard: list[str], start: int, end: int) -> bool:
    """A plural, a name before a comma or after an article, or one of two words."""
    last, first = heard[end - 1], heard[start - 1] if start else ""
    plural = last.endswith("s") and not last.endswith("ss")
    several = end - start > 1 and last not in words("particle")
    return plural or several or last[-1] in ",:;.?!" or first in words("article")


def _plain(word: str) -> str:
    return word.strip(',:;.?!…"').removesuffix("s")


def _offered(about: str, plan: Plan) -> bool:
    return any(option.to == about for option in plan.options)


def _present(about: str, work: tuple[Effort, ...]) -> bool:
    """Done as such, as an easier or harder form, or under a name that the coach may shorten."""
    done = {name for effort in work for name in (effort.movement, *effort.alternatives)}
    if related(about) & done:
        return True
    shortened = any(ends_with(name, own) for name in done for own in names(about))
    return shortened or any(ends_with(about, effort.as_said) for effort in work)


def _unread(about: str, plan: Plan) -> bool:
    """Whether work that was not understood may be this movement."""
    heard = [effort.as_said for effort in session_efforts(plan) if not effort.known]
    heard += [unknown.heard for unknown in plan.unknown]
    near = {name for unknown in plan.unknown for name in unknown.nearest}
    parts = {word for name in names(about) for word in name.lower().replace("-", " ").split()}
    return about in near or any(parts & set(text.lower().split()) for text in heard)


def _finding(about: str, spoken: list[Cue | Option]) -> Finding:
    row = catalogue()[about]
    plain = row.name.replace("-", " ")
    return RULE.finding(
        about,
        f"{plain.capitalize()} is coached or scaled as if it were in the session, and is not.",
        expected=f"{plain} in a block of the session",
        found="in no block",
        said=union(*(each.said for each in spoken)),
        suggestion=f"Say where {plain} belongs, or leave it out of the coaching.",
    )


RULE = Rule(
    code="cue-without-work",
    severity="error",
    question="Is every movement that is coached or scaled also done?",
    why="It is left over from another session, or the work itself was forgotten.",
    fires=(
        "Jog two minutes. Four rounds for time: fifteen push-ups and twenty lunges. "
        "Technique. Push-ups, elbows in, body in one line. Lunges, long step, knee over the "
        "foot. Kettlebell swings, snap the hips and keep your arms loose.",
        "Jog three minutes. Strength: five sets of five back squats, two minutes rest. Form. "
        "Back squats, chest up, knees out. On the deadlifts, keep the bar close to your shins "
        "and your back flat.",
    ),
    silent=(
        "March a minute. Main piece for time: 40 reverse lunges, 30 sit-ups. How they should "
        "look: lunges, knee kisses the floor. Sit-ups, no yanking on your neck.",
        "Jog two minutes. Three rounds for time: 500 metre row, 12 thrusters. Technique. "
        "Thrusters are one motion: ride the drive out of the bottom and let the bar float off "
        "your shoulders.",
        "Jog three minutes. Three rounds for time: 20 push-ups and 20 air squats. Push-ups, "
        "elbows in. Knee push-ups if you need them: hips low.",
    ),
    leaves_alone=(
        "Easier and harder forms, short names for longer ones, movements offered as an option, "
        "names that are in no table, verbs in passing, and work that could not be read."
    ),
    find=find,
)

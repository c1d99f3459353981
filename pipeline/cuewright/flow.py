"""The stages in order: read this first."""

from collections.abc import Iterable
from pathlib import Path

from cuewright.cautions import usual
from cuewright.check import check
from cuewright.comparison import Side, differences, stations
from cuewright.comparison.rewrite import Held, edits, rewritten
from cuewright.divide import divide
from cuewright.divide.explain import explain
from cuewright.doubt import doubts
from cuewright.errors import UnreadableSource
from cuewright.estimate import estimate
from cuewright.estimate.athletes import Given
from cuewright.estimate.scale import versions
from cuewright.estimate.whatif import changed, paces_of
from cuewright.estimate.why import why_time
from cuewright.hear import (
    fetch,
    hear,
    is_recording,
    read,
    read_written,
    spelling,
    taken_down,
    transcript,
)
from cuewright.hear.recording.options import Listening, Progress, unwatched
from cuewright.movements.catalogue import Catalogue, catalogue, using
from cuewright.movements.own import extended
from cuewright.normalise import normalise
from cuewright.normalise.mended import mended
from cuewright.parse import parse
from cuewright_models.comparison import Comparison
from cuewright_models.explained import Explained
from cuewright_models.plan import Plan, Source
from cuewright_models.profile import Profile
from cuewright_models.scaled import Version
from cuewright_models.spoken import Spoken
from cuewright_models.timing import PlanTiming
from cuewright_models.transcript import Transcript

LONGEST_DESCRIPTION = 5_000
"""Words; every change of a description is read again, and no post has a tenth of them."""


def plan_of(heard: Transcript) -> Plan:
    """Everything that happens to a talk once it has been heard, in order."""
    reading = normalise(heard)
    divided = divide(reading)
    parsed = parse(heard, divided)
    return _answered(parsed.model_copy(update={"doubts": doubts(heard, reading, parsed)}))


def _answered(plan: Plan, paces: dict[Given, float] | None = None) -> Plan:
    """The plan with its times, then its findings, then the usual cautions."""
    timed = plan.model_copy(update={"estimate": estimate(plan, paces=paces)})
    checked = timed.model_copy(update={"findings": check(timed)})
    return checked.model_copy(update={"cautions": usual()})


def asked(plan: Plan, paces: Iterable[str] = (), amounts: Iterable[str] = ()) -> Plan:
    """The plan as if athletes went at these paces and the amounts were others.

    ``paces`` such as ``run=5:00/km``, ``amounts`` such as ``b3.rounds=4``. A warning in the
    plan says what was asked. Raises BadQuestion with one sentence.
    """
    paces, amounts = tuple(paces), tuple(amounts)
    if not paces and not amounts:
        return plan
    told = f"This is not the plan as said: asked with {', '.join((*amounts, *paces))}."
    made = changed(plan, amounts).model_copy(update={"warnings": (*plan.warnings, told)})
    return _answered(made, paces_of(paces, made))


def scaled(plan: Plan, to: str, paces: Iterable[str] = ()) -> list[Version]:
    """A version of the plan for each profile that meets ``to``, each a checked plan again.

    ``to`` is "station targets" or a number of minutes; ``paces`` as for ``asked``. Raises
    BadQuestion with one sentence.
    """
    given = paces_of(paces, plan)
    return [_told(version, to, given) for version in versions(plan, to, given)]


def _told(version: Version, to: str, paces: dict[Given, float]) -> Version:
    """The version with its plan answered, which says that it is not as said."""
    told = f"This is not the plan as said: scaled for the {version.profile} athlete to {to}."
    plan = version.plan.model_copy(update={"warnings": (*version.plan.warnings, told)})
    return version.model_copy(update={"plan": _answered(plan, paces)})


def why_times(plan: Plan, profile: Profile | None = None, paces: Iterable[str] = ()) -> PlanTiming:
    """Of what the plan's times are made for a profile, the regular athlete unless said.

    ``paces`` as for ``asked``, which see.
    """
    return why_time(plan, profile or "regular", paces_of(paces, plan))


def read_plan(
    source: str | Path,
    movements: str | Path | Catalogue | None = None,
    *,
    listening: Listening | None = None,
    progress: Progress = unwatched,
) -> Plan:
    """The checked plan of the talk in ``source``: a recording, captions or text.

    ``movements`` is a TOML file of a coach's own movements and words, or what
    ``cuewright.movements.own.extended`` made of one, which saves reading it again.
    ``listening`` says how a recording is listened to, and ``progress`` is told how far it
    is. Raises UnreadableSource or, for the file of movements, BadTable, with one sentence;
    for a recording also NoModel and NoRecogniser.
    """
    with using(_known(movements)):
        return plan_of(read(source, listening=listening, progress=progress))


def read_description(source: str | Path, movements: str | Path | Catalogue | None = None) -> Plan:
    """The checked plan of a session that was written down.

    Every piece of evidence has the ``line`` of the text, whole sentences included. Raises as
    ``read_plan``.
    """
    with using(_known(movements)):
        return plan_of(read_written(source))


def compare(
    talk: str | Path,
    description: str | Path,
    movements: str | Path | Catalogue | None = None,
    *,
    listening: Listening | None = None,
    progress: Progress = unwatched,
) -> Comparison:
    """Where the ``description`` of a session says otherwise than its ``talk``, and made true.

    Arguments and errors as ``read_plan``; also UnreadableSource when there is no session in
    one of the two.
    """
    with using(_known(movements)):
        name, raw = fetch(description)
        heard = read(talk, listening=listening, progress=progress)
        return compared(side(heard), heard.warnings, name, raw)


def compared(said: Side, warnings: tuple[str, ...], name: str, raw: bytes) -> Comparison:
    """A description, its bytes given, held against a talk as read; as ``compare``."""
    if not said.plan.blocks:
        raise UnreadableSource(
            f"No session was found in {said.plan.source.name}; give the talk that says it."
        )
    spelled = spelling(raw)
    read_so = taken_down(name, raw)
    if len(read_so.words) > LONGEST_DESCRIPTION:
        raise UnreadableSource(
            f"{name} has more than {LONGEST_DESCRIPTION:,} words; give the description alone."
        )
    other = side(read_so, spelled.text)
    if not other.plan.blocks:
        raise UnreadableSource(
            f"No session was found in {name}; give the description that tells what to do."
        )

    def held(text: str, read_as: Transcript, as_side: Side) -> Held:
        return Held(text, read_as, stations(as_side.plan), differences(said, as_side))

    def again(text: str) -> Held | None:
        try:
            changed = taken_down(name, spelled.of(text))
        except UnreadableSource:
            return None
        return held(text, changed, side(changed, text))

    first = held(spelled.text, read_so, other)
    made = rewritten(first, again)
    return Comparison(
        talk=said.plan.source,
        description=other.plan.source,
        findings=tuple(each.finding() for each in first.wrong),
        given=spelled.text,
        corrected=made.text,
        edits=edits(spelled.text, made.text),
        remaining=tuple(each.finding() for each in made.wrong),
        warnings=(*warnings, *read_so.warnings),
    )


def side(heard: Transcript, text: str = "") -> Side:
    """A text as the comparison takes it: read, but neither timed nor checked."""
    reading = normalise(heard)
    return Side(parse(heard, divide(reading)), reading, text)


def explain_plan(
    source: str | Path,
    movements: str | Path | Catalogue | None = None,
    *,
    listening: Listening | None = None,
    progress: Progress = unwatched,
) -> Explained:
    """Why each clause of the talk in ``source`` was read as it was; as ``read_plan``."""
    with using(_known(movements)):
        heard = read(source, listening=listening, progress=progress)
        return Explained(
            source=Source(**{field: getattr(heard, field) for field in Source.model_fields}),
            clauses=explain(heard, divide(normalise(heard))),
            warnings=heard.warnings,
        )


def transcribe(
    source: str | Path,
    movements: str | Path | Catalogue | None = None,
    *,
    listening: Listening | None = None,
    progress: Progress = unwatched,
) -> Spoken:
    """What is said in a recording, with its mishearings; arguments and errors as ``read_plan``.

    Raises UnreadableSource for a source that has its words already.
    """
    with using(_known(movements)):
        if not is_recording(source):
            name = read(source).name
            raise UnreadableSource(
                f"{name} has its words already and no sound; use cuewright plan for it."
            )
        hearing = hear(source, listening, progress)
        return Spoken(hearing=hearing, repairs=mended(transcript(hearing)))


def _known(movements: str | Path | Catalogue | None) -> Catalogue:
    match movements:
        case None:
            return catalogue()
        case Catalogue():
            return movements
    return extended(movements)

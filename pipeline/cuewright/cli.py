"""The commands. Each fetches what it needs when it runs, so that help is quick."""

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NamedTuple

import typer

import cuewright
from cuewright import console, recordings
from cuewright.errors import CuewrightError
from cuewright.options import (
    Accept,
    Amount,
    Athlete,
    Baseline,
    Brief,
    CaptionForm,
    CaptionForms,
    CompareForm,
    CompareForms,
    Description,
    FailOn,
    FailOnWord,
    Form,
    Forms,
    Ignore,
    InPlace,
    Limit,
    Lines,
    Movements,
    NoSettings,
    OneObject,
    Out,
    Overwrite,
    Pace,
    Quiet,
    Recordings,
    SayInstead,
    ScaleTo,
    Select,
    SettingsFile,
    Silent,
    Sources,
    Talk,
    Who,
    Why,
    WhyTime,
    WriteBeside,
    Yes,
)

if TYPE_CHECKING:
    from cuewright.check.choice import Limit as Gravest
    from cuewright.talks import Question
    from cuewright_models.plan import Plan
    from cuewright_models.profile import Profile

app = typer.Typer(
    name="cuewright",
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,  # rich alone would double the time that help takes
)


def _version(wanted: bool) -> None:
    if wanted:
        console.put(f"cuewright {cuewright.__version__}\n")
        raise typer.Exit


@app.callback()
def root(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    """Turn a coach's spoken session walkthrough into a checked plan."""


@app.command()
@console.guarded
@recordings.listens
def plan(
    sources: Sources,
    out: Out = None,
    as_json: Lines = False,
    forms: Forms = None,
    quiet: Quiet = False,
    own: Movements = None,
    why: Why = False,
    why_time: WhyTime = False,
    pace: Pace = None,
    amounts: Amount = None,
    profile: Who = None,
    scale_to: ScaleTo = None,
    limit: Limit = None,
) -> int:
    """Read talks; print a summary, or write plan files with --out."""
    from cuewright import talks
    from cuewright.folder import Folder

    sources = list(dict.fromkeys(sources))
    question = pace or (), amounts or ()
    if why and why_time:
        raise CuewrightError("--explain and --why-time print different things; leave one out.")
    if why or why_time:
        if out or forms or quiet:
            raise CuewrightError(
                f"{'--explain' if why else '--why-time'} prints reasons and no plan; leave out "
                "--out, --format and --quiet."
            )
        if why:
            return _reasons(sources, own, as_json)
        return _time_reasons(sources, own, as_json, question, profile)
    if scale_to is not None and profile is None:
        if out or forms not in (None, [], [Form.html]) or quiet:
            raise CuewrightError(
                "--scale-to makes three versions; name one with --profile, or leave out --out, "
                "--quiet and any --format but html."
            )
        return _versions(sources, own, as_json, question, scale_to, bool(forms))
    wanted = list(dict.fromkeys(forms or ()))
    if limit is not None and Form.description not in wanted:
        raise CuewrightError("--limit is for --format description; add that, or leave it out.")
    if out is None and len(wanted) + as_json > 1:
        raise CuewrightError("Only one form can be printed at once; write several with --out DIR.")
    folder = Folder(out, sources) if out else None
    on_screen = Form.text if folder or not wanted else wanted[0]

    def one(source: str) -> int:
        made = talks.read(source, question)
        if scale_to is not None:
            made = _fitted(made, scale_to, question, profile)
        if folder:
            written = folder.put(source, _pages(made, _files(wanted), limit), overwrite=True)
            if not quiet:
                console.tell(f"Wrote {', '.join(map(str, written))}.")
        if not quiet:
            shown = _Screen(on_screen, source != sources[0], profile, limit)
            console.put(_line(made) if as_json else _page(made, shown))
        return console.FINE

    return talks.each(sources, own, one)


@app.command()
@console.guarded
@recordings.listens
def check(
    sources: Sources,
    as_json: Lines = False,
    select: Select = None,
    ignore: Ignore = None,
    fail_on: FailOn = None,
    baseline: Baseline = None,
    accept: Accept = False,
    say_instead: SayInstead = False,
    quiet: Brief = False,
    own: Movements = None,
    settings: SettingsFile = None,
    no_settings: NoSettings = False,
) -> int:
    """Print findings; status 1 if one is an error, or as --fail-on says."""
    from cuewright import checking

    asked = checking.Asked(
        select=_parted(select),
        ignore=_parted(ignore),
        fail_on=_limit(fail_on),
        movements=own,
        baseline=baseline,
        settings=settings,
        no_settings=no_settings,
        as_json=as_json,
        accept=accept,
        say_instead=say_instead,
        quiet=quiet,
    )
    return checking.run(list(dict.fromkeys(sources)), asked)


def _parted(given: list[str] | None) -> tuple[str, ...] | None:
    """The words between commas of an option that may stand more than once."""
    if not given:
        return None
    return tuple(word for one in given for word in map(str.strip, one.split(",")) if word)


def _limit(given: FailOnWord | None) -> "Gravest | None":
    """The severity by its name in the rules."""
    from cuewright.check.choice import LIMITS

    return next((limit for limit in LIMITS if limit == given), None)


@app.command()
@console.guarded
@recordings.listens
def compare(
    talk: Talk,
    description: Description,
    as_json: OneObject = False,
    form: CompareForms = CompareForm.text,
    write: WriteBeside = False,
    in_place: InPlace = False,
    yes: Yes = False,
    overwrite: Overwrite = False,
    quiet: Brief = False,
    own: Movements = None,
) -> int:
    """Print where a description differs from its talk; status 1 if it does."""
    from cuewright import comparing

    asked = comparing.Asked(
        as_json=as_json,
        html=form is CompareForm.html,
        write=write,
        in_place=in_place,
        yes=yes,
        overwrite=overwrite,
        quiet=quiet,
        movements=own,
    )
    return comparing.run(talk, description, asked)


@app.command()
@console.guarded
@recordings.listens
def transcribe(
    sources: Recordings,
    out: Out = None,
    forms: CaptionForms = None,
    overwrite: Overwrite = False,
    quiet: Silent = False,
    own: Movements = None,
) -> int:
    """Write down what is said; print WebVTT, or write caption files with --out."""
    from cuewright import talks
    from cuewright.folder import Folder
    from cuewright.render.captions import FORMS

    sources = list(dict.fromkeys(sources))
    wanted = list(dict.fromkeys(forms or ()))
    if out is None and (len(sources) > 1 or len(wanted) > 1):
        raise CuewrightError("Only one file can be printed at once; write several with --out DIR.")
    folder = Folder(out, sources) if out else None
    written_down = {FORMS[form].suffix: FORMS[form].page for form in ["json", *(wanted or FORMS)]}

    def one(source: str) -> int:
        if folder is None:
            form = wanted[0] if wanted else CaptionForm.vtt
            console.put(FORMS[form].page(talks.spoken(source)))
            return console.FINE
        folder.targets(source, written_down)  # before hours are listened to in vain
        spoken = talks.spoken(source)
        pages = {suffix: page(spoken) for suffix, page in written_down.items()}
        written = folder.put(source, pages, overwrite=overwrite)
        if not quiet:
            console.tell(f"Wrote {', '.join(map(str, written))}.")
        return console.FINE

    return talks.each(sources, own, one)


@app.command()
@console.guarded
def movements(
    name: Annotated[str | None, typer.Argument(metavar="[NAME]", help="One movement.")] = None,
    own: Movements = None,
) -> int:
    """List the movements that are known, or show one."""
    from cuewright import talks
    from cuewright.movements import page
    from cuewright.movements.catalogue import using

    with using(talks.known(own)):
        console.put(page.listing() if name is None else _movement(name))
    return console.FINE


def _movement(name: str) -> str:
    from cuewright.movements import page
    from cuewright.paces.rates import facts

    return page.describe(name, facts)


@app.command()
@console.guarded
def explain(
    rule: Annotated[str | None, typer.Argument(metavar="[RULE]", help="One rule's code.")] = None,
) -> int:
    """List the rules, or explain one."""
    from cuewright import check

    if rule is not None:
        console.put(check.explain(rule))
        return console.FINE
    for each in check.RULES:
        console.put(f"{each.code} ({each.severity})\n  {each.question}\n")
    return console.FINE


@app.command()
@console.guarded
def models() -> int:
    """List the models to listen with: what is here, and what each costs."""
    from cuewright.hear.recording import page

    console.put(page.listing())
    return console.FINE


@app.command()
@console.guarded
def schema() -> int:
    """Print the JSON Schema of the plan."""
    from cuewright_models.plan import Plan

    about = {"$schema": "https://json-schema.org/draft/2020-12/schema"}
    text = json.dumps(about | Plan.model_json_schema(mode="serialization"), indent=1)
    console.put(f"{text}\n")
    return console.FINE


def _reasons(sources: list[str], own: Path | None, as_json: bool) -> int:
    """Why each clause of the talks was read as it was, in place of their plans."""
    from cuewright import talks
    from cuewright.flow import explain_plan
    from cuewright.render import explained

    def one(source: str) -> int:
        with recordings.hearing(source) as hearing:
            made = explain_plan(source, **hearing)
        talks.warn(made.warnings)
        if as_json:
            console.put(made.model_dump_json() + "\n")
        else:
            page = explained.page(made, width=console.width(), colour=console.colour())
            console.put(_apart(page, source != sources[0]))
        return console.FINE

    return talks.each(sources, own, one)


def _time_reasons(
    sources: list[str],
    own: Path | None,
    as_json: bool,
    question: "Question",
    profile: Athlete | None,
) -> int:
    """Of what the times of the talks are made, in place of their plans."""
    from cuewright import talks
    from cuewright.flow import why_times
    from cuewright.render import whytime

    def one(source: str) -> int:
        made = why_times(talks.read(source, question), _profile(profile), question[0])
        if as_json:
            console.put(made.model_dump_json() + "\n")
        else:
            page = whytime.page(made, width=console.width(), colour=console.colour())
            console.put(_apart(page, source != sources[0]))
        return console.FINE

    return talks.each(sources, own, one)


def _versions(
    sources: list[str], own: Path | None, as_json: bool, question: "Question", to: str, html: bool
) -> int:
    """The three versions of each talk: a table, a page with it, or three plans, one a line."""
    from cuewright import talks
    from cuewright.flow import scaled
    from cuewright.render import html as web
    from cuewright.render import versions

    def one(source: str) -> int:
        made = talks.read(source, question)
        fitted = scaled(made, to, question[0])
        if as_json:
            console.put("".join(_line(version.plan) for version in fitted))
        elif html:
            console.put(web.page(made, fitted))
        else:
            page = versions.page(made, fitted, width=console.width(), colour=console.colour())
            console.put(_apart(page, source != sources[0]))
        return console.FINE

    return talks.each(sources, own, one)


def _fitted(made: "Plan", to: str, question: "Question", who: Athlete | None) -> "Plan":
    """The version of the plan for one profile, its warning told."""
    from cuewright import talks
    from cuewright.flow import scaled

    found = next(v for v in scaled(made, to, question[0]) if v.profile == who)
    talks.warn(found.plan.warnings[-1:])
    talks.warn(f"The {goal.about} does not fit: {goal.why}." for goal in found.goals if goal.why)
    return found.plan


def _profile(who: Athlete | None) -> "Profile | None":
    """The profile by its name in the models."""
    from cuewright_models.profile import PROFILES

    return next((profile for profile in PROFILES if profile == who), None)


def _files(wanted: list[Form]) -> list[Form]:
    """What goes into the folder: the plan itself always."""
    return list(dict.fromkeys([Form.json, *(wanted or [Form.markdown, Form.html])]))


def _pages(made: "Plan", forms: list[Form], limit: int | None) -> dict[str, str]:
    """The plan in each form, by how the file's name ends."""
    from cuewright.render import FORMS

    return {FORMS[form].suffix: _made(made, form, limit) for form in forms}


def _made(made: "Plan", form: Form, limit: int | None) -> str:
    """The plan in a form; ``limit`` is of a description."""
    from cuewright.render import FORMS, description

    if form is Form.description and limit is not None:
        return description.page(made, limit)
    return FORMS[form].page(made)


class _Screen(NamedTuple):
    """How a page is shown: in which form, after another, for whom, of how many characters."""

    form: Form
    follows: bool
    profile: Athlete | None
    limit: int | None


def _page(made: "Plan", shown: _Screen) -> str:
    """A page for the screen; one to be read that follows another stands apart from it."""
    from cuewright.render import terminal

    if shown.form is Form.description:
        return _apart(_made(made, shown.form, shown.limit), shown.follows)
    if shown.form is not Form.text:
        return _made(made, shown.form, None)
    text = terminal.page(
        made, width=console.width(), colour=console.colour(), profile=_profile(shown.profile)
    )
    return _apart(text, shown.follows)


def _apart(page: str, follows: bool) -> str:
    """A page for the screen, with a line between where it ``follows`` another."""
    return f"\n{page}" if follows else page


def _line(made: "Plan") -> str:
    return made.model_dump_json() + "\n"


def main() -> None:
    """The command ``cuewright``."""
    console.prepare()
    app(prog_name="cuewright")

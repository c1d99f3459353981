"""The commands. Each fetches what it needs when it runs, so that help is quick."""

import json
from collections.abc import Callable, Iterable
from contextlib import AbstractContextManager
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

import cuewright
from cuewright import console
from cuewright.errors import CuewrightError

if TYPE_CHECKING:
    from cuewright_models.finding import Finding
    from cuewright_models.plan import Plan
    from cuewright_models.profile import Profile

app = typer.Typer(
    name="cuewright",
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,  # rich alone would double the time that help takes
)


class Form(StrEnum):
    """The forms of ``cuewright.render``, named here so that help need not load them."""

    text = "text"
    markdown = "markdown"
    html = "html"
    json = "json"


class Athlete(StrEnum):
    """The profiles of ``cuewright_models.profile``, named here so that help need not load it."""

    newcomer = "newcomer"
    regular = "regular"
    advanced = "advanced"


Sources = Annotated[
    list[str],
    typer.Argument(metavar="SOURCE", help="Captions, timed text or text; - is standard input."),
]
Out = Annotated[
    Path | None, typer.Option("--out", metavar="DIR", help="Write files into this folder.")
]
Lines = Annotated[bool, typer.Option("--json", help="Print JSON, one line each.")]
Forms = Annotated[
    list[Form] | None,
    typer.Option("--format", metavar="FORM", help="text, markdown, html or json; repeatable."),
]
Movements = Annotated[
    Path | None,
    typer.Option("--movements", metavar="FILE", help="Your own movements and words, in TOML."),
]
Why = Annotated[
    bool, typer.Option("--explain", help="Print why each clause was read as it was instead.")
]
WhyTime = Annotated[
    bool, typer.Option("--why-time", help="Print of what the times are made instead.")
]
Pace = Annotated[
    list[str] | None,
    typer.Option("--pace", metavar="PACE", help="As if all went so: run=5:00/km; repeatable."),
]
Amount = Annotated[
    list[str] | None,
    typer.Option("--set", metavar="AMOUNT", help="As if it were so: b3.rounds=4; repeatable."),
]
ScaleTo = Annotated[
    str | None,
    typer.Option(
        "--scale-to",
        metavar='"station targets"|MINUTES',
        help="Make it fit each athlete; with --profile, print that version.",
    ),
]
Who = Annotated[
    Athlete | None, typer.Option("--profile", help="Show the times of this athlete alone.")
]
Quiet = Annotated[bool, typer.Option("--quiet", help="Print warnings and errors only.")]


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
) -> int:
    """Read talks; print a summary, or write plan files with --out."""
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
    if out is None and len(wanted) + as_json > 1:
        raise CuewrightError("Only one form can be printed at once; write several with --out DIR.")
    folder = Folder(out, sources) if out else None
    on_screen = Form.text if folder or not wanted else wanted[0]

    def one(source: str) -> int:
        made = _read(source, question)
        if scale_to is not None:
            made = _fitted(made, scale_to, question, profile)
        if folder:
            written = folder.write(source, made, _files(wanted))
            if not quiet:
                console.tell(f"Wrote {', '.join(map(str, written))}.")
        if not quiet:
            console.put(
                _line(made) if as_json else _page(made, on_screen, source != sources[0], profile)
            )
        return console.FINE

    return _each(sources, own, one)


@app.command()
@console.guarded
def check(sources: Sources, as_json: Lines = False, own: Movements = None) -> int:
    """Print findings only; status 1 if one is an error."""

    def one(source: str) -> int:
        findings = _read(source).findings
        for finding in findings:
            console.put(_row(source, finding) if as_json else _complaint(source, finding))
        return max((_status(finding) for finding in findings), default=console.FINE)

    return _each(dict.fromkeys(sources), own, one)


@app.command()
@console.guarded
def movements(
    name: Annotated[str | None, typer.Argument(metavar="[NAME]", help="One movement.")] = None,
    own: Movements = None,
) -> int:
    """List the movements that are known, or show one."""
    from cuewright.movements import page

    with _movements(own):
        console.put(page.listing() if name is None else _movement(name))
    return console.FINE


def _movement(name: str) -> str:
    from cuewright.estimate.paces import facts
    from cuewright.movements import page

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


Question = tuple[Iterable[str], Iterable[str]]
"""Paces, and amounts, that are not those of the talk."""


def _movements(own: Path | None) -> AbstractContextManager[None]:
    """The movements known inside: with the file given, else with the one in the user's folder."""
    from cuewright.movements.catalogue import catalogue, using
    from cuewright.movements.own import extended, usual_file

    path = own or usual_file()
    return using(extended(path) if path else catalogue())


def _each(sources: Iterable[str], own: Path | None, one: Callable[[str], int]) -> int:
    """Each source in turn, with the movements of the user."""
    with _movements(own):
        return console.each(sources, one)


def _read(source: str, question: Question = ((), ())) -> "Plan":
    """The plan, asked with other paces and amounts if any; its warnings told on the way."""
    from cuewright.flow import asked, read_plan

    made = asked(read_plan(source), *question)
    _warn(made.warnings)
    if not made.blocks:
        console.tell(f"Warning: no session was found in {made.source.name}; its plan is empty.")
    return made


def _warn(warnings: Iterable[str]) -> None:
    for warning in warnings:
        console.tell(f"Warning: {warning}")


def _reasons(sources: list[str], own: Path | None, as_json: bool) -> int:
    """Why each clause of the talks was read as it was, in place of their plans."""
    from cuewright.flow import explain_plan
    from cuewright.render import explained

    def one(source: str) -> int:
        made = explain_plan(source)
        _warn(made.warnings)
        if as_json:
            console.put(made.model_dump_json() + "\n")
        else:
            page = explained.page(made, width=console.width(), colour=console.colour())
            console.put(_apart(page, source != sources[0]))
        return console.FINE

    return _each(sources, own, one)


def _time_reasons(
    sources: list[str], own: Path | None, as_json: bool, question: Question, profile: Athlete | None
) -> int:
    """Of what the times of the talks are made, in place of their plans."""
    from cuewright.flow import why_times
    from cuewright.render import whytime

    def one(source: str) -> int:
        made = why_times(_read(source, question), _profile(profile), question[0])
        if as_json:
            console.put(made.model_dump_json() + "\n")
        else:
            page = whytime.page(made, width=console.width(), colour=console.colour())
            console.put(_apart(page, source != sources[0]))
        return console.FINE

    return _each(sources, own, one)


def _versions(
    sources: list[str], own: Path | None, as_json: bool, question: Question, to: str, html: bool
) -> int:
    """The three versions of each talk: a table, a page with it, or three plans, one a line."""
    from cuewright.flow import scaled
    from cuewright.render import html as web
    from cuewright.render import versions

    def one(source: str) -> int:
        made = _read(source, question)
        fitted = scaled(made, to, question[0])
        if as_json:
            console.put("".join(_line(version.plan) for version in fitted))
        elif html:
            console.put(web.page(made, fitted))
        else:
            page = versions.page(made, fitted, width=console.width(), colour=console.colour())
            console.put(_apart(page, source != sources[0]))
        return console.FINE

    return _each(sources, own, one)


def _fitted(made: "Plan", to: str, question: Question, who: Athlete | None) -> "Plan":
    """The version of the plan for one profile, its warning told."""
    from cuewright.flow import scaled

    found = next(v for v in scaled(made, to, question[0]) if v.profile == who)
    _warn(found.plan.warnings[-1:])
    _warn(f"The {goal.about} does not fit: {goal.why}." for goal in found.goals if goal.why)
    return found.plan


def _profile(who: Athlete | None) -> "Profile | None":
    """The profile by its name in the models."""
    from cuewright_models.profile import PROFILES

    return next((profile for profile in PROFILES if profile == who), None)


def _files(wanted: list[Form]) -> list[Form]:
    """What goes into the folder: the plan itself always."""
    return list(dict.fromkeys([Form.json, *(wanted or [Form.markdown, Form.html])]))


def _page(made: "Plan", form: Form, follows: bool, profile: Athlete | None) -> str:
    """A page for the screen; a summary that ``follows`` another stands apart from it."""
    from cuewright.render import FORMS, terminal

    if form is not Form.text:
        return FORMS[form].page(made)
    text = terminal.page(
        made, width=console.width(), colour=console.colour(), profile=_profile(profile)
    )
    return _apart(text, follows)


def _apart(page: str, follows: bool) -> str:
    """A page for the screen, with a line between where it ``follows`` another."""
    return f"\n{page}" if follows else page


def _line(made: "Plan") -> str:
    return made.model_dump_json() + "\n"


def _row(source: str, finding: "Finding") -> str:
    row: dict[str, Any] = {"source": source, **finding.model_dump(mode="json")}
    return json.dumps(row, ensure_ascii=False) + "\n"


def _complaint(source: str, finding: "Finding") -> str:
    """``talk.vtt:1:31: error total-said-twice (total): …``, the first place it points at."""
    from cuewright.render.words import clean, moment

    at = next(filter(None, map(moment, finding.said)), "")
    place = f"{source}:{at}" if at else source
    text = f"{place}: {finding.severity} {finding.rule} ({finding.about}): {finding.message}"
    return clean(text) + "\n"


def _status(finding: "Finding") -> int:
    return console.FOUND if finding.severity == "error" else console.FINE


def main() -> None:
    """The command ``cuewright``."""
    console.prepare()
    app(prog_name="cuewright")

"""The options of the commands, each by the name that a command takes it under."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer


class Form(StrEnum):
    """The forms of ``cuewright.render``, named here so that help need not load them."""

    text = "text"
    markdown = "markdown"
    html = "html"
    json = "json"
    description = "description"


class CaptionForm(StrEnum):
    """The forms of ``cuewright.render.captions``, named here so that help need not load them."""

    vtt = "vtt"
    srt = "srt"
    json = "json"


class CompareForm(StrEnum):
    """How a comparison is shown."""

    text = "text"
    html = "html"


class Athlete(StrEnum):
    """The profiles of ``cuewright_models.profile``, named here so that help need not load it."""

    newcomer = "newcomer"
    regular = "regular"
    advanced = "advanced"


class FailOnWord(StrEnum):
    """The limits of ``cuewright.check.choice``, named here so that help need not load them."""

    error = "error"
    warning = "warning"
    note = "note"
    never = "never"


Sources = Annotated[
    list[str],
    typer.Argument(metavar="SOURCE", help="Recording, captions or text; - is standard input."),
]
Recordings = Annotated[
    list[str], typer.Argument(metavar="RECORDING", help="Sound or film, of any usual kind.")
]
CaptionForms = Annotated[
    list[CaptionForm] | None,
    typer.Option("--format", metavar="FORM", help="vtt, srt or json; repeatable."),
]
Silent = Annotated[bool, typer.Option("--quiet", help="Show no progress; tell of trouble only.")]
Overwrite = Annotated[
    bool, typer.Option("--overwrite", help="Replace files that are there with other words.")
]
Out = Annotated[
    Path | None, typer.Option("--out", metavar="DIR", help="Write files into this folder.")
]
Lines = Annotated[bool, typer.Option("--json", help="Print JSON, one line each.")]
Forms = Annotated[
    list[Form] | None,
    typer.Option(
        "--format",
        metavar="FORM",
        help="text, markdown, html, json or description; repeatable.",
    ),
]
Limit = Annotated[
    int | None,
    typer.Option(
        "--limit",
        metavar="CHARACTERS",
        min=1,
        help="Of --format description, at most; 5000 unless given.",
    ),
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
Select = Annotated[
    list[str] | None,
    typer.Option("--select", metavar="RULE[,RULE]", help="Only these, or a severity; repeatable."),
]
Ignore = Annotated[
    list[str] | None,
    typer.Option("--ignore", metavar="RULE[,RULE]", help="Not these, or a severity; repeatable."),
]
FailOn = Annotated[
    FailOnWord | None,
    typer.Option("--fail-on", metavar="SEVERITY", help="error, warning, note or never."),
]
Baseline = Annotated[
    Path | None,
    typer.Option("--baseline", metavar="FILE", help="Leave out what is accepted in this file."),
]
Accept = Annotated[
    bool, typer.Option("--accept", help="Accept what is found, in the file of --baseline.")
]
SayInstead = Annotated[
    bool, typer.Option("--say-instead", help="Print what to record anew or to caption instead.")
]
Brief = Annotated[bool, typer.Option("--quiet", help="Print one line each and no summary.")]
SettingsFile = Annotated[
    Path | None,
    typer.Option("--settings", metavar="FILE", help="Settings, not those beside the talk."),
]
NoSettings = Annotated[bool, typer.Option("--no-settings", help="Read no settings.")]
Talk = Annotated[
    str, typer.Argument(metavar="TALK", help="Recording, captions or text of what was said.")
]
Description = Annotated[
    str,
    typer.Argument(
        metavar="DESCRIPTION", help="What is written, .md or .txt; - is standard input."
    ),
]
OneObject = Annotated[bool, typer.Option("--json", help="Print JSON, one object.")]
CompareForms = Annotated[
    CompareForm, typer.Option("--format", metavar="FORM", help="text or html.")
]
WriteBeside = Annotated[
    bool, typer.Option("--write", help="Save it corrected beside, as NAME.corrected.md.")
]
InPlace = Annotated[
    bool, typer.Option("--in-place", help="Correct the file, if you say yes; keeps NAME.md.bak.")
]
Yes = Annotated[bool, typer.Option("--yes", help="Say yes to --in-place.")]

"""``cuewright check``: each talk by its own settings, less what was accepted before."""

import os
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from cuewright import accepted, console, talks
from cuewright.accepted import Accepted
from cuewright.check.choice import SEVERITIES, Limit, checked, chosen, fails
from cuewright.errors import CuewrightError
from cuewright.movements.catalogue import Catalogue, using
from cuewright.render import findings as pages
from cuewright.render import instead
from cuewright.settings import Settings, load, settings_for
from cuewright_models.finding import Finding
from cuewright_models.plan import Plan


@dataclass(frozen=True, kw_only=True)
class Asked:
    """The options of the command; ``None`` leaves it to the settings."""

    select: tuple[str, ...] | None = None
    ignore: tuple[str, ...] | None = None
    fail_on: Limit | None = None
    movements: Path | None = None
    baseline: Path | None = None
    settings: Path | None = None
    no_settings: bool = False
    as_json: bool = False
    accept: bool = False
    say_instead: bool = False
    quiet: bool = False


def run(sources: Sequence[str], asked: Asked) -> int:
    """Print the findings of each talk; the gravest status.

    Raises CuewrightError with one sentence, before any talk is read, for options and
    settings that cannot be.
    """
    _check(asked)
    work = Work(asked, {source: _settled(source, asked) for source in sources})
    status = console.each(sources, work.one)
    work.finish()
    return status


def _check(asked: Asked) -> None:
    if asked.settings and asked.no_settings:
        raise CuewrightError("--settings and --no-settings contradict; leave one out.")
    if asked.accept and (asked.say_instead or asked.as_json):
        other = "--say-instead" if asked.say_instead else "--json"
        raise CuewrightError(f"--accept prints no findings; leave out {other}.")
    checked((*(asked.select or ()), *(asked.ignore or ())))


def _settled(source: str, asked: Asked) -> Settings:
    """The settings of a talk with the options over them.

    What the command selects it wants, so what the file ignores is then set aside.
    """
    if asked.no_settings:
        found = Settings()
    else:
        found = load(asked.settings) if asked.settings else settings_for(source)
    over = {key: getattr(asked, key) for key in Settings.model_fields}
    if asked.select is not None and asked.ignore is None:
        over["ignore"] = ()
    settled = found.model_copy(update={k: v for k, v in over.items() if v is not None})
    if asked.accept and settled.baseline is None:
        raise CuewrightError("--accept needs a file to write; name it with --baseline FILE.")
    return settled


@dataclass
class Work:
    """A run on its way: what was found so far, and what is accepted in which file."""

    asked: Asked
    settings: dict[str, Settings]
    count: Counter[str] = field(default_factory=Counter)
    """Findings by severity, ``talks`` read, findings ``accepted`` before or now, ``gone``."""
    shown: bool = False
    baselines: dict[Path, Accepted] = field(init=False)
    catalogues: dict[Path | None, Catalogue] = field(init=False)

    def __post_init__(self) -> None:
        """Every file that the talks have in common is read once, before the first of them."""
        wanted = {each.baseline for each in self.settings.values() if each.baseline}
        self.baselines = {path: self._baseline(path) for path in wanted}
        own = {each.movements for each in self.settings.values()}
        self.catalogues = {path: talks.known(path) for path in own}

    def _baseline(self, path: Path) -> Accepted:
        if os.path.exists(path) or "\0" in str(path):
            return accepted.load(path)
        if self.asked.accept:
            return Accepted()
        raise CuewrightError(f"{path} does not exist; --accept writes what is found into it.")

    def one(self, source: str) -> int:
        """One talk: its findings are printed, or accepted."""
        settings = self.settings[source]
        with using(self.catalogues[settings.movements]):
            plan = talks.read(source)
        found = self._fresh(source, plan, settings)
        self.count.update(["talks", *(finding.severity for finding in found)])
        if self.asked.accept:
            return console.FINE
        self._show(source, found)
        failing = any(fails(finding, settings.fail_on) for finding in found)
        return console.FOUND if failing else console.FINE

    def _fresh(self, source: str, plan: Plan, settings: Settings) -> tuple[Finding, ...]:
        """What is wanted and not accepted yet; accepts it if so asked."""
        wanted = chosen(plan.findings, settings.select, settings.ignore)
        path = settings.baseline
        if path is None:
            return wanted
        before, file = self.baselines[path], accepted.name(source, path)
        found = accepted.fresh(before, file, wanted)
        gone = accepted.gone(before, file, plan.findings)
        if self.asked.accept:
            self.baselines[path] = accepted.renewed(before, file, plan.findings, wanted)
        elif gone and not self.asked.quiet:
            is_gone, it = ("are gone", "them") if len(gone) > 1 else ("is gone", "it")
            number = pages.many(len(gone), "accepted finding")
            console.tell(f"{number} {is_gone} from {source}; --accept drops {it}.")
        self.count.update(accepted=len(wanted) - len(found), gone=len(gone))
        return found

    def _show(self, source: str, found: tuple[Finding, ...]) -> None:
        """The findings in the form asked for; a page that follows another stands apart from it."""
        page = self._page(source, found)
        apart = not (self.asked.as_json or self.asked.quiet)
        console.put(f"\n{page}" if page and apart and self.shown else page)
        self.shown = self.shown or bool(page)

    def _page(self, source: str, found: tuple[Finding, ...]) -> str:
        width, colour = console.width(), console.colour()
        match self.asked:
            case Asked(say_instead=True, as_json=True):
                return instead.rows(source, found)
            case Asked(say_instead=True):
                return instead.page(source, found, width=width, colour=colour)
            case Asked(as_json=True):
                return pages.rows(source, found)
            case Asked(quiet=True):
                return pages.heads(source, found, colour=colour)
        whole = not console.on_terminal()
        return pages.page(source, found, width=width, colour=colour, whole_heads=whole)

    def finish(self) -> None:
        """Write what was accepted and say how much was found, if any talk could be read."""
        if not self.count["talks"]:
            return
        if self.asked.accept:
            for path, held in self.baselines.items():
                accepted.save(path, held)
        if not self.asked.quiet:
            console.tell(self._summary())

    def _summary(self) -> str:
        if not self.asked.accept:
            return pages.summary(self.count, self.count["talks"], self.count["accepted"])
        new = sum(self.count[severity] for severity in SEVERITIES)
        dropped = self.count["gone"]
        files = ", ".join(str(path) for path in sorted(self.baselines))
        more = f"; dropped {dropped} that {'is' if dropped == 1 else 'are'} gone" if dropped else ""
        return f"Accepted {pages.many(new, 'new finding')} in {files}{more}."

"""A plan as one HTML file that needs nothing else: no network, no script, no font."""

from collections import Counter
from collections.abc import Iterable, Sequence

from cuewright.render import words
from cuewright.render.sheet import NO_SESSION, quotes, sheet
from cuewright.render.templates import template
from cuewright.render.timeline import timeline
from cuewright.render.versions import fit
from cuewright_models.base import Said
from cuewright_models.plan import Plan
from cuewright_models.scaled import Version


def page(plan: Plan, versions: Sequence[Version] = ()) -> str:
    """The plan as a page; every fact links to its words, which stand in order at the end.

    ``versions`` of it for each profile stand beside it in one table.
    """
    view = sheet(plan)
    heard = quotes(view)
    text = template("page.html.jinja").render(
        view=view,
        line=timeline(view.times),
        fit=fit(plan, versions) if versions else None,
        heard=heard,
        place=_places(heard),
        moment=words.moment,
        no_session=NO_SESSION,
    )
    return text.rstrip("\n") + "\n"


def _places(heard: Iterable[Said]) -> dict[Said, str]:
    """An anchor for each quote: ``t-123`` for second 123, then ``t-123-2`` and so on."""
    seen: Counter[str] = Counter()
    places = {}
    for said in heard:
        second = "untimed" if said.start_s is None else str(int(said.start_s))
        seen[second] += 1
        count = seen[second]
        places[said] = f"t-{second}" if count == 1 else f"t-{second}-{count}"
    return places

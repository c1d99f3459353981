"""A divided talk to a plan: blocks, targets, options, cues, advice and claims."""

from cuewright.parse.blocks import fold
from cuewright.parse.build import build
from cuewright.parse.cues import advice, cues
from cuewright.parse.names import Names
from cuewright.parse.opening import date, title
from cuewright.parse.options import options
from cuewright.parse.places import places
from cuewright.parse.targets import targets
from cuewright_models.base import Said
from cuewright_models.divided import Divided
from cuewright_models.plan import Plan, Repair, Source
from cuewright_models.transcript import Transcript


def parse(heard: Transcript, divided: Divided) -> Plan:
    """The plan that the talk prescribes, every fact with the words and seconds it was said in."""
    tokens = divided.reading.tokens

    def quote(start: int, end: int) -> Said:
        return heard.quote(tokens[start].first, tokens[max(end - 1, start)].last)

    drafts = fold(divided)
    blocks = build(drafts, quote)
    names = Names(divided.reading, blocks)
    where = places(drafts, blocks, quote)
    return Plan(
        source=Source(
            name=heard.name,
            kind=heard.kind,
            sha256=heard.sha256,
            duration_s=heard.duration_s,
            language=heard.language,
        ),
        title=title(heard, divided),
        date=date(divided, quote),
        blocks=blocks,
        targets=targets(divided, blocks, names, where, quote),
        options=options(divided, blocks, names, quote),
        cues=cues(divided, blocks, names, quote),
        advice=advice(divided, blocks, names, quote),
        repairs=tuple(
            Repair(heard=s.heard, meant=s.meant, said=(quote(s.start, s.end),))
            for s in divided.reading.swaps
        ),
        warnings=heard.warnings,
    )

"""A divided talk to a plan: blocks, targets, options, cues, advice and claims."""

from cuewright.parse.blocks import fold
from cuewright.parse.build import build
from cuewright.parse.claims import claims
from cuewright.parse.cues import advice, cues
from cuewright.parse.lengths import lengths, with_stated_times, without_lengths
from cuewright.parse.loads import with_loads
from cuewright.parse.marks import Marks
from cuewright.parse.names import Names
from cuewright.parse.opening import date, title
from cuewright.parse.options import options
from cuewright.parse.places import places
from cuewright.parse.subjects import Subjects
from cuewright.parse.targets import targets
from cuewright.parse.unknown import unknown
from cuewright.parse.unplaced import unplaced
from cuewright.parse.written import fold_written
from cuewright.parse.written.goals import with_listed
from cuewright.parse.written.loads import parted, with_written_loads
from cuewright.parse.written.title import opening_name
from cuewright.parse.written.ways import with_offered
from cuewright_models.base import Said
from cuewright_models.divided import Divided
from cuewright_models.plan import Plan, Repair, Source
from cuewright_models.transcript import Transcript


def parse(heard: Transcript, divided: Divided) -> Plan:
    """The plan that the talk prescribes, every fact with the words and seconds it was said in."""
    written = fold_written(heard, divided) if heard.outline else None
    if written is not None:
        divided = written.divided
    tokens = divided.reading.tokens

    def quote(start: int, end: int) -> Said:
        return heard.quote(tokens[start].first, tokens[max(end - 1, start)].last)

    drafts = written.drafts if written is not None else fold(divided)
    blocks = build(drafts, quote)
    names = Names(divided.reading, blocks)
    if written is None:
        blocks = with_loads(blocks, divided, names)
    else:
        blocks = with_written_loads(blocks, divided, names, heard)
        blocks = parted(blocks, divided.reading)
    where = places(drafts, blocks, quote)
    subjects, marks = Subjects(divided, blocks, names, where), Marks(divided, "claims.toml")
    wanted, figures = targets(divided, subjects, quote)
    long = tuple(lengths(divided, blocks, where, marks, figures))
    aims = without_lengths(wanted, long, blocks)
    ways = options(divided, blocks, names, quote)
    if written is not None:
        ways = with_offered(ways, written.offered, divided.reading, names, blocks, quote)
        aims = with_listed(aims, written.wanted, divided.reading, names, blocks, quote)
    return Plan(
        source=Source(
            name=heard.name,
            kind=heard.kind,
            sha256=heard.sha256,
            duration_s=heard.duration_s,
            language=heard.language,
        ),
        title=written.title if written is not None else _title(heard, divided),
        date=date(divided, quote),
        blocks=with_stated_times(blocks, long, quote),
        targets=aims,
        options=ways,
        cues=cues(divided, blocks, names, quote),
        advice=advice(divided, blocks, names, quote),
        claims=claims(divided, blocks, subjects, where, marks, long, quote),
        repairs=tuple(
            Repair(heard=s.heard, meant=s.meant, said=(quote(s.start, s.end),))
            for s in divided.reading.swaps
        ),
        unknown=(*unknown(divided, quote), *unplaced(divided, blocks, quote)),
        warnings=heard.warnings,
    )


def _title(heard: Transcript, divided: Divided) -> str | None:
    """The name as spoken; a description in sentences mostly begins with it."""
    return title(heard, divided) or (opening_name(heard) if heard.lines else None)

"""The page of every rule in one document: ``pipeline/RULES.md``.

    python tests/rules.py [--write]

Without ``--write``, says whether the document is current; status 1 if not.
"""

import sys
from pathlib import Path

from cuewright.check import GROUPS
from cuewright.check.page import markdown
from cuewright.files import write

DOCUMENT = Path(__file__).parents[1] / "pipeline/RULES.md"
HEAD = """\
# What the check asks

Written by `python tests/rules.py --write` from the rules in `cuewright/check/rules/`;
`tests/check/test_talks.py` reads every example as a talk and holds the rule to it. One page alone:
`cuewright explain RULE`. Findings come in this order, what can hurt somebody first.

An error is a contradiction inside the talk, a warning a misfit with what people can do or are
asked to do, a note advice. A finding may be milder or graver than its rule usually is.

"""


def document() -> str:
    """The whole file as the rules make it now."""
    return HEAD + markdown(GROUPS)


def main() -> int:
    if "--write" in sys.argv[1:]:
        write(DOCUMENT, document())
    current = DOCUMENT.is_file() and DOCUMENT.read_text("utf-8") == document()
    print("The rules are current." if current else f"{DOCUMENT} is not current; run with --write.")
    return 0 if current else 1


if __name__ == "__main__":
    sys.exit(main())

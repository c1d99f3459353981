"""What does not fit together in a plan: one rule, one file, one code.

``check`` runs every rule; ``explain`` prints one rule's page. To add a rule, copy a file
of ``rules/``, give it the code as its name, and list it here where its findings belong.
"""

from difflib import get_close_matches

from cuewright.check.rule import Rule
from cuewright.check.rules import (
    amount_implausible,
    cue_without_work,
    date_vs_weekday,
    equipment_vs_claim,
    interval_sum_wrong,
    ladder_vs_rounds,
    load_missing,
    option_changes_intent,
    option_missing,
    rounds_said_twice,
    side_missing,
    sum_claim_wrong,
    target_said_twice,
    total_said_twice,
    total_vs_targets,
    unit_missing,
    warm_up_missing,
    work_without_cue,
)
from cuewright.errors import CuewrightError
from cuewright_models.finding import Finding
from cuewright_models.plan import Plan

RULES: tuple[Rule, ...] = (
    total_said_twice.RULE,
    total_vs_targets.RULE,
    target_said_twice.RULE,
    rounds_said_twice.RULE,
    ladder_vs_rounds.RULE,
    sum_claim_wrong.RULE,
    interval_sum_wrong.RULE,
    amount_implausible.RULE,
    cue_without_work.RULE,
    equipment_vs_claim.RULE,
    date_vs_weekday.RULE,
    option_changes_intent.RULE,
    unit_missing.RULE,
    side_missing.RULE,
    load_missing.RULE,
    option_missing.RULE,
    work_without_cue.RULE,
    warm_up_missing.RULE,
)


class UnknownRule(CuewrightError):
    """A code that no rule has."""


def check(plan: Plan) -> tuple[Finding, ...]:
    """Every rule's findings on ``plan``, in the order of ``RULES``; ``plan`` stays as it is."""
    return tuple(finding for rule in RULES for finding in rule.find(plan))


def explain(code: str) -> str:
    """The page of one rule as plain text.

    Raises UnknownRule with the nearest code when there is no such rule.
    """
    rules = {rule.code: rule for rule in RULES}
    if code not in rules:
        nearest, *_ = get_close_matches(code, rules, n=1, cutoff=0)
        raise UnknownRule(f"There is no rule {code!r}; did you mean {nearest}?")
    return _page(rules[code])


def _page(rule: Rule) -> str:
    fires = "\n".join(f'  "{line}"' for line in rule.fires)
    silent = "\n".join(f'  "{line}"' for line in rule.silent)
    return (
        f"{rule.code} ({rule.severity})\n{rule.question}\n\n"
        f"Why: {rule.why}\n\nFires:\n{fires}\n\nDoes not fire:\n{silent}\n\n"
        f"Leaves alone: {rule.leaves_alone}\n"
    )

"""What does not fit together in a plan: one rule, one file, one code.

``check`` runs every rule; ``explain`` gives one rule's page. To add a rule, copy a file
of ``rules/``, give it the code as its name, and list it here in the group where its findings
belong.
"""

from difflib import get_close_matches

from cuewright.check.page import plain
from cuewright.check.rule import Rule
from cuewright.check.rules import (
    amount_implausible,
    cap_vs_model,
    cue_without_work,
    date_vs_weekday,
    equipment_vs_claim,
    interval_overfull,
    interval_sum_wrong,
    ladder_vs_rounds,
    load_missing,
    option_changes_intent,
    option_missing,
    rounds_said_twice,
    sets_vs_amount,
    side_missing,
    sum_claim_wrong,
    target_said_twice,
    target_vs_model,
    total_said_twice,
    total_vs_model,
    total_vs_targets,
    unit_missing,
    volume_caution,
    warm_up_gap,
    warm_up_missing,
    work_without_cue,
)
from cuewright.errors import CuewrightError
from cuewright_models.finding import Finding
from cuewright_models.plan import Plan

HARM: tuple[Rule, ...] = (  # what can hurt somebody, the worst first
    amount_implausible.RULE,
    volume_caution.RULE,
    warm_up_missing.RULE,
    warm_up_gap.RULE,
    option_missing.RULE,
    load_missing.RULE,
    interval_overfull.RULE,
    option_changes_intent.RULE,
)
MISFIT: tuple[Rule, ...] = (  # what does not fit together
    total_said_twice.RULE,
    total_vs_targets.RULE,
    total_vs_model.RULE,
    target_said_twice.RULE,
    target_vs_model.RULE,
    sets_vs_amount.RULE,
    cap_vs_model.RULE,
    rounds_said_twice.RULE,
    ladder_vs_rounds.RULE,
    sum_claim_wrong.RULE,
    interval_sum_wrong.RULE,
    cue_without_work.RULE,
    equipment_vs_claim.RULE,
    date_vs_weekday.RULE,
)
ADVICE: tuple[Rule, ...] = (  # what could be said better
    unit_missing.RULE,
    side_missing.RULE,
    work_without_cue.RULE,
)

GROUPS = (
    ("What can hurt somebody", HARM),
    ("What does not fit together", MISFIT),
    ("What could be said better", ADVICE),
)
RULES: tuple[Rule, ...] = tuple(rule for _, rules in GROUPS for rule in rules)


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
    return plain(rules[code])

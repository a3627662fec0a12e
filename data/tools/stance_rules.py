"""Rules of stances and caps: what a cap may bring, and that a bar says why and what instead."""

from __future__ import annotations

from decimal import Decimal

from fill import full_values
from model import Feedstock, Rules
from problems import Problems

SALT_OF_SODIUM = Decimal("2.54")
# A cap is computed from its reason: it uses at least this share of that budget.
LEAST_OF_BUDGET = Decimal("0.25")
# A line on a terminal, "never: " before it.
WORDS_AT_MOST = 69


def brought_by_cap(row: Feedstock, rules: Rules) -> dict[str, Decimal]:
    """Grams of ammonia nitrogen, salt, acid, oil, starch and dry meal that the cap of a row brings.

    Ammonia nitrogen is the share of the nitrogen of its kind that is ammonia or freed within a
    week or two (quick_nitrogen of properties.yaml).
    """
    if row.most is None:
        return {}
    values = {value.key: value.value for value in full_values(row, rules)}

    def number(key: str) -> Decimal:
        return values.get(key, Decimal(0))

    wet = row.most.wet_grams
    dry = wet * (1 - number("moisture") / 100)
    quick = rules.quick_nitrogen.get(row.kind, Decimal(0)) / 100
    return {
        "nitrogen": dry * number("nitrogen") / 100 * quick,
        "salt": wet * number("sodium") / 100000 * SALT_OF_SODIUM,
        "acid": wet * number("titratable_acidity") / 1000,
        "oil": dry * number("fat") / 100,
        "starch": dry if row.kind == "starch" else Decimal(0),
        "meal": dry if row.most.reason == "meal" else Decimal(0),
    }


def check_stance(row: Feedstock, rules: Rules, problems: Problems) -> None:
    """Adds what does not fit in the stance, the cap and the words of a bar of one row."""
    _check_cap(row, rules, problems)
    barred = row.stance == "avoid"
    for key, text in (("why_barred", row.why_barred), ("instead", row.instead)):
        if barred and not text:
            problems.add(row.place, "barred-without-words", f"'{row.id}' is barred without '{key}'")
        elif text and not barred:
            problems.add(row.place, "barred-without-words", f"'{row.id}' has '{key}' but no bar")
        elif len(text) > WORDS_AT_MOST:
            problems.add(
                row.place,
                "barred-without-words",
                f"{key} of '{row.id}' has {len(text)} characters, more than {WORDS_AT_MOST}",
            )
    if row.stance_pre_composted and not barred:
        problems.add(
            row.place,
            "unknown-stance",
            f"'{row.id}' has a stance after pre-composting but is not barred before it",
        )


def _check_cap(row: Feedstock, rules: Rules, problems: Problems) -> None:
    if row.most is None:
        return
    brought = brought_by_cap(row, rules)
    for reason, budget in rules.cap_budgets.items():
        if brought.get(reason, Decimal(0)) > budget:
            problems.add(
                row.most.place,
                "cap-over-budget",
                f"{row.most.wet_grams} g bring {brought[reason]:.2g} g of {reason},"
                f" more than {budget} g a kg of worms",
            )
    budget = rules.cap_budgets.get(row.most.reason, Decimal(0))
    if budget and brought[row.most.reason] < budget * LEAST_OF_BUDGET:
        problems.add(
            row.most.place,
            "cap-against-reason",
            f"{row.most.wet_grams} g bring {brought[row.most.reason]:.2g} g of"
            f" {row.most.reason}, below a quarter of {budget} g: that is not what limits it",
        )

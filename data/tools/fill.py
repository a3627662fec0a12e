"""Fills what follows from the rules of properties.yaml: ranges, settled density, pool shares."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal

from model import (
    POOLS,
    Citation,
    Feedstock,
    MeasureValue,
    PoolRule,
    Rules,
    SourceRef,
    Triple,
    Value,
)

HUNDRED = Decimal(100)
SHARE_DIGITS = Decimal("0.01")
# Methods whose range is the span of a few records.
SPANS = ("derived F6", "derived F7", "derived F12")
# Properties whose end is a limit of chemistry, not the largest of a few records.
LIMITED = ("neutralising_value",)


@dataclass(frozen=True)
class FullValue:
    """A value with its range, as the header stores it, still in file units."""

    key: str
    value: Decimal
    low: Decimal
    high: Decimal
    grade: str
    citation: Citation
    range_grade: str
    range_citation: Citation


def full_values(row: Feedstock, rules: Rules) -> list[FullValue]:
    """Every value of a feedstock in the order of properties.yaml."""
    values = dict(row.values)
    found = {key: with_range(value, row.group, rules) for key, value in values.items()}
    tie_nitrogen(row, found)
    for key, kinds in rules.estimates.items():
        if key not in found and row.kind in kinds:
            found[key] = estimate(row, key, kinds[row.kind], rules)
    loose = found.get("bulk_density")
    if loose is not None and "bulk_density_settled" not in found:
        found["bulk_density_settled"] = settled_density(loose, row.group, rules)
    if row.pools:
        for share in pool_shares(found, rules.pool_rules[row.pools]):
            found[share.key] = share
    return [found[key] for key in rules.kinds if key in found]


def significant(number: Decimal, digits: int = 3, rounding: str = ROUND_HALF_EVEN) -> Decimal:
    """The number rounded to so many significant digits."""
    if number == 0:
        return Decimal(0)
    step = Decimal(1).scaleb(number.adjusted() - digits + 1)
    return number.quantize(step, rounding=rounding)


def outward(low: Decimal, high: Decimal) -> tuple[Decimal, Decimal]:
    """The ends of a range with three significant digits, never narrower than they were."""
    return significant(low, rounding=ROUND_FLOOR), significant(high, rounding=ROUND_CEILING)


def with_range(value: Value, group: str, rules: Rules) -> FullValue:
    """The value with its own range, with the default of its group, or with both.

    A sourced range goes before a default. It is widened by the default where it is only the span
    of a few records (F6, F7, F12), and on the side where the value stands at its very end: two
    records, of which one is the value, do not bound a third.
    """
    low, high, said = default_range(value, group, rules)
    default = Citation((SourceRef("RULE-RANGE"),), f"judgement, {said}")
    if value.low is None or value.high is None or value.range_citation is None:
        return FullValue(
            value.key, value.value, low, high, value.grade, value.citation, "D", default
        )
    own_low, own_high, own = value.low, value.high, value.range_citation
    span = own.method in SPANS
    exact = own_low == own_high or value.key in LIMITED
    widened_low = min(own_low, low) if span or own_low == value.value else own_low
    widened_high = max(own_high, high) if span or own_high == value.value else own_high
    if exact or (widened_low == own_low and widened_high == own_high):
        return FullValue(
            value.key,
            value.value,
            own_low,
            own_high,
            value.grade,
            value.citation,
            value.range_grade,
            own,
        )
    citation = Citation(
        (*own.sources, SourceRef("RULE-RANGE")), f"judgement, {own.method} widened by {said}"
    )
    return FullValue(
        value.key,
        value.value,
        widened_low,
        widened_high,
        value.grade,
        value.citation,
        "D",
        citation,
    )


def default_range(value: Value, group: str, rules: Rules) -> tuple[Decimal, Decimal, str]:
    """Low and high by the rule of the group, and the rule in words."""
    kind = rules.kinds[value.key]
    factor = rules.default_factors[group].get(value.key)
    if factor is not None:
        low, high = outward(value.value / factor, value.value * factor)
        said = f"times or divided by {factor}"
    else:
        width = rules.default_ranges[group][value.key]
        whole = kind.hard[1] if kind.unit in ("%", "g/100 g") else None
        if kind.unit == "pH":
            half = width
            said = f"{width} pH units"
        elif whole is not None:
            half = min(value.value, whole - value.value) * width / HUNDRED
            said = f"{width} % of the value or its remainder"
        else:
            half = value.value * width / HUNDRED
            said = f"{width} % of the value"
        low, high = outward(value.value - half, value.value + half)
    return (
        min(value.value, max(kind.hard[0], low)),
        max(value.value, min(kind.hard[1], high)),
        said,
    )


def tie_nitrogen(row: Feedstock, found: dict[str, FullValue]) -> None:
    """F8 on ranges: where one of C:N and nitrogen has a range of its own, the other follows."""
    carbon, nitrogen, ratio = (found.get(key) for key in ("carbon", "nitrogen", "cn_ratio"))
    if carbon is None or nitrogen is None or ratio is None or nitrogen.value == 0:
        return
    own_nitrogen = row.values["nitrogen"].low is not None
    own_ratio = row.values["cn_ratio"].low is not None
    if own_nitrogen == own_ratio:
        return
    given, tied = (ratio, nitrogen) if own_ratio else (nitrogen, ratio)
    method = "derived F8" if given.range_grade != "D" else f"judgement, F8 of {given.key}"
    grade = max(given.range_grade, "B")
    low, high = outward(carbon.value / given.high, carbon.value / given.low)
    found[tied.key] = replace(
        tied,
        low=min(tied.value, low),
        high=max(tied.value, high),
        range_grade=grade,
        range_citation=Citation(given.range_citation.sources, method),
    )


def measure_range(row: Feedstock, measure: MeasureValue, rules: Rules) -> tuple[Decimal, Decimal]:
    """What another piece, sheet or cup may weigh: its own range, the sizes of the row, the rule."""
    if measure.low_grams is not None and measure.high_grams is not None:
        return measure.low_grams, measure.high_grams
    share = rules.measure_ranges[measure.measure] / HUNDRED
    low = significant(measure.wet_grams * (1 - share))
    high = significant(measure.wet_grams * (1 + share))
    small, large = row.measures.get("piece_small"), row.measures.get("piece_large")
    if measure.measure == "piece" and small is not None:
        low = min(low, small.wet_grams)
    if measure.measure == "piece" and large is not None:
        high = max(high, large.wet_grams)
    return low, high


def estimate(row: Feedstock, key: str, by_kind: Triple, rules: Rules) -> FullValue:
    """The stated estimate of the kind, or of the pH band for the acid of a scrap."""
    guess, of = by_kind, f"kind {row.kind}"
    ph = row.values.get("ph")
    if key == "titratable_acidity" and ph is not None and row.group == "scraps":
        below, guess = next(band for band in rules.acid_by_ph if ph.value <= band[0])
        of = f"pH up to {below}"
    citation = Citation((SourceRef("RULE-EST"),), f"judgement, estimate for {of}")
    return FullValue(key, guess.value, guess.low, guess.high, "D", citation, "D", citation)


def settled_density(loose: FullValue, group: str, rules: Rules) -> FullValue:
    """F24: loose density times the factor of the group, up to the cap."""
    factor = rules.settled_factors[group]

    def settle(density: Decimal, by: Decimal) -> Decimal:
        return max(density, min(rules.settled_cap, significant(density * by)))

    citation = Citation((SourceRef("RULE-SETTLED"),), "derived F24")
    value = settle(loose.value, factor.value)
    low = min(value, settle(loose.low, factor.low))
    high = max(value, settle(loose.high, factor.high))
    return FullValue("bulk_density_settled", value, low, high, "D", citation, "D", citation)


def pool_shares(found: dict[str, FullValue], rule: PoolRule) -> list[FullValue]:
    """Labile, cellulosic and lignin-like shares of the volatile solids, in per cent; sum 100."""
    lignin, method = lignin_like(found, rule)
    rest = rule.labile_of_rest

    def split(part: Decimal, of: Decimal) -> Decimal:
        return ((HUNDRED - of) * part / HUNDRED).quantize(SHARE_DIGITS)

    labile = Triple(
        split(rest.value, lignin.value), split(rest.low, lignin.high), split(rest.high, lignin.low)
    )
    cellulosic = Triple(
        HUNDRED - lignin.value - labile.value,
        split(HUNDRED - rest.high, lignin.high),
        split(HUNDRED - rest.low, lignin.low),
    )
    citation = Citation((SourceRef("RULE-POOL"),), f"judgement, pool rule {rule.name}{method}")
    shares = dict(zip(POOLS, (labile, cellulosic, lignin), strict=True))
    return [
        FullValue(
            key,
            share.value,
            min(share.low, share.value),
            max(share.high, share.value),
            "D",
            citation,
            "D",
            citation,
        )
        for key, share in shares.items()
    ]


def lignin_like(found: dict[str, FullValue], rule: PoolRule) -> tuple[Triple, str]:
    """The lignin-like share and how it was found."""
    known = found.get("lignin")
    if not rule.from_lignin or known is None:
        return rule.lignin_like, ""
    ash = found["ash"].value if "ash" in found else Decimal(0)

    def share(lignin: Decimal) -> Decimal:
        return (lignin * HUNDRED / (HUNDRED - ash)).quantize(SHARE_DIGITS)

    value = share(known.value)
    if value > rule.lignin_cap:
        low = min(rule.lignin_like.low, rule.lignin_cap)
        high = min(HUNDRED, max(rule.lignin_like.high, value))
        return Triple(rule.lignin_cap, low, high), ", lignin held at its cap"
    return Triple(value, share(known.low), min(HUNDRED, share(known.high))), " with its lignin"

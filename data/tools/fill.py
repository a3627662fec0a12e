"""Fills what follows from the rules of properties.yaml: ranges, settled density, pool shares."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal

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


def significant(number: Decimal, digits: int = 3) -> Decimal:
    """The number rounded to so many significant digits."""
    if number == 0:
        return Decimal(0)
    step = Decimal(1).scaleb(number.adjusted() - digits + 1)
    return number.quantize(step, rounding=ROUND_HALF_EVEN)


def with_range(value: Value, group: str, rules: Rules) -> FullValue:
    """The value with its own range, or with the default range of its group."""
    if value.low is not None and value.high is not None and value.range_citation is not None:
        return FullValue(
            value.key,
            value.value,
            value.low,
            value.high,
            value.grade,
            value.citation,
            value.range_grade,
            value.range_citation,
        )
    kind = rules.kinds[value.key]
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
    low = min(value.value, max(kind.hard[0], significant(value.value - half)))
    high = max(value.value, min(kind.hard[1], significant(value.value + half)))
    citation = Citation((SourceRef("RULE-RANGE"),), f"judgement, {said}")
    return FullValue(value.key, value.value, low, high, value.grade, value.citation, "D", citation)


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

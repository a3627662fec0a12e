"""Sums that cannot be: parts against their whole, carbon against organic matter, measures."""

from __future__ import annotations

from decimal import Decimal

from model import Feedstock, Rules
from problems import Problems

CN_TOLERANCE = Decimal("0.05")
CARBON_OF_ORGANIC_MATTER = Decimal("0.80")
# Carbon of the organic matter without fat: starch 0.40 to lignin 0.63, plants and food between.
CARBON_WITHOUT_FAT = (Decimal("0.40"), Decimal("0.56"))
CARBON_OF_FAT = Decimal("0.77")
# Where nitrogen is above this the matter is urea or its like, not tissue.
NITROGEN_OF_TISSUE = Decimal(16)
# Analyses of one food add up to 100 g within their own errors.
FOOD_PARTS_AT_MOST = Decimal("102.5")
DRY_PARTS_AT_MOST = Decimal("102.5")
# Wettest tissue: what holds more water is a liquid.
MOISTURE_OF_TISSUE = Decimal(98)
CUP_LITRES = Decimal("0.236588")
SPOONS = {"tablespoon": CUP_LITRES / 16, "teaspoon": CUP_LITRES / 48, "cup": CUP_LITRES}
# A spoon is cut finer and pressed more than a cup, so the two may differ by so much.
SPOON_FACTOR = Decimal(3)
# A grasped handful, loose (L).
HANDFUL_LITRES = (Decimal("0.05"), Decimal("0.6"))


def implied_carbon_is_plausible(carbon: Decimal, ash: Decimal) -> bool:
    """Carbon and ash in per cent of dry mass: carbon is at most 80 % of the organic matter."""
    return carbon <= CARBON_OF_ORGANIC_MATTER * (100 - ash)


def check_sums(row: Feedstock, rules: Rules, problems: Problems) -> None:
    """Adds what cannot be in the sums of one row."""
    _check_ratio(row, problems)
    _check_carbon(row, rules, problems)
    _check_parts(row, problems)
    _check_water(row, problems)
    _check_measures(row, problems)


def _number(row: Feedstock, key: str) -> Decimal | None:
    value = row.values.get(key)
    return value.value if value else None


def _check_ratio(row: Feedstock, problems: Problems) -> None:
    carbon, nitrogen, ratio = (_number(row, key) for key in ("carbon", "nitrogen", "cn_ratio"))
    if carbon is None or nitrogen is None or ratio is None:
        return
    place = row.values["cn_ratio"].place
    if nitrogen == 0:
        problems.add(place, "cn-mismatch", "cn_ratio stands where nitrogen is zero")
    elif abs(carbon / nitrogen / ratio - 1) > CN_TOLERANCE:
        problems.add(
            place,
            "cn-mismatch",
            f"cn_ratio {ratio} but carbon {carbon} / nitrogen {nitrogen} is"
            f" {carbon / nitrogen:.4g}",
        )


def _check_carbon(row: Feedstock, rules: Rules, problems: Problems) -> None:
    carbon = _number(row, "carbon")
    if not carbon:
        return
    place = row.values["carbon"].place
    ash, fat = _number(row, "ash"), _number(row, "fat")
    if not implied_carbon_is_plausible(carbon, ash or Decimal(0)):
        problems.add(
            place,
            "implausible",
            f"carbon {carbon} % is above 80 % of the organic matter (ash {ash or 0} %)",
        )
        return
    nitrogen = _number(row, "nitrogen")
    if nitrogen is not None and nitrogen >= NITROGEN_OF_TISSUE:
        return
    # Where ash or fat is not given, anything the estimate of the kind allows will do.
    lows, highs = [], []
    for key, given in (("ash", ash), ("fat", fat)):
        guess = rules.estimates.get(key, {}).get(row.kind)
        lows.append(given if given is not None else guess.low if guess else Decimal(0))
        highs.append(given if given is not None else guess.high if guess else Decimal(0))
    shares = [
        (carbon - CARBON_OF_FAT * f) / (100 - a - f)
        for a in (lows[0], highs[0])
        for f in (lows[1], highs[1])
        if 100 - a - f > 3
    ]
    least, most = CARBON_WITHOUT_FAT
    if shares and (max(shares) < least or min(shares) > most):
        problems.add(
            place,
            "carbon-of-organic-matter",
            f"carbon {carbon} % is {min(shares):.2f} to {max(shares):.2f} of the organic matter"
            f" without fat, not {least} to {most}",
        )


def _check_parts(row: Feedstock, problems: Problems) -> None:
    def number(key: str) -> Decimal | None:
        return _number(row, key)

    food = ("moisture", "protein", "fat_fresh", "carbohydrate")
    parts = [number(key) for key in food]
    total = sum((part for part in parts if part is not None), Decimal(0))
    if "protein" in row.values and total > FOOD_PARTS_AT_MOST:
        problems.add(
            row.values["protein"].place,
            "parts-over-whole",
            f"{' + '.join(food)} is {total} g/100 g",
        )
    dry = ("ash", "lignin", "fat")
    total = sum((number(key) or Decimal(0) for key in dry), Decimal(0))
    if total > DRY_PARTS_AT_MOST:
        first = next(key for key in dry if key in row.values)
        problems.add(
            row.values[first].place, "parts-over-whole", f"{' + '.join(dry)} is {total} % of dry"
        )


def _check_water(row: Feedstock, problems: Problems) -> None:
    """A solid holds at most its capacity of water; what is nearly all water is a liquid."""
    moisture = row.values.get("moisture")
    if moisture is None or "water" in row.roles:
        return
    if MOISTURE_OF_TISSUE < moisture.value <= 100:
        problems.add(
            moisture.place,
            "moisture-over-capacity",
            f"moisture {moisture.value} % is above {MOISTURE_OF_TISSUE} %, what the wettest tissue"
            " holds: a liquid has the role water",
        )
    capacity = row.values.get("water_holding_capacity")
    if capacity is None:
        return
    held = capacity.high if capacity.high is not None else capacity.value
    most = 100 * held / (1 + held)
    if moisture.value > most:
        problems.add(
            moisture.place,
            "moisture-over-capacity",
            f"moisture {moisture.value} % is above {most:.0f} %, which {held} g/g can hold",
        )


def _check_measures(row: Feedstock, problems: Problems) -> None:
    """Measures of one row against each other and against the loose density."""
    grams = {key: measure.wet_grams for key, measure in row.measures.items()}

    def wrong(key: str, message: str) -> None:
        problems.add(row.measures[key].place, "measures-disagree", message)

    for smaller, larger in (
        ("piece_small", "piece"),
        ("piece", "piece_large"),
        ("leaf", "head"),
        ("slice", "head"),
        ("stalk", "bunch"),
        ("leaf", "bunch"),
    ):
        if smaller in grams and larger in grams and grams[smaller] > grams[larger]:
            wrong(smaller, f"{smaller} {grams[smaller]} g is above {larger} {grams[larger]} g")
    density = _number(row, "bulk_density")
    if density is None:
        return
    for key, litres in SPOONS.items():
        if key not in grams:
            continue
        its = grams[key] / litres
        if not density / SPOON_FACTOR <= its <= density * SPOON_FACTOR:
            wrong(key, f"{key} {grams[key]} g is {its:.0f} kg/m3, not near {density} kg/m3")
    if "handful" in grams:
        litres = grams["handful"] / density
        if not HANDFUL_LITRES[0] <= litres <= HANDFUL_LITRES[1]:
            wrong("handful", f"handful {grams['handful']} g is {litres:.2f} L at {density} kg/m3")
    settled = _number(row, "bulk_density_settled")
    if settled is not None and settled < density:
        problems.add(
            row.values["bulk_density_settled"].place,
            "measures-disagree",
            f"settled density {settled} kg/m3 is below the loose {density} kg/m3",
        )

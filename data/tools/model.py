"""The table in memory. Numbers are decimals in the units of the data files."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from problems import Place

GROUPS = ("scraps", "beddings", "manures", "amendments", "water", "guarded")
ROLES = ("scraps", "bedding", "amendment", "water")
STANCES = ("feed", "feed_little", "avoid")
DECAY_CLASSES = ("inert", "fast", "medium", "slow", "very_slow")
GRADES = ("A", "B", "C", "D")
SOURCE_STATUSES = ("read", "recalled", "derived", "judgement")
CAUTIONS = (
    "acidity", "salt", "oil", "ammonia", "heating", "pathogen", "sharp", "plastic_film",
    "pesticide", "allium", "citrus_oil", "dust", "seeds_sprout", "matting", "caustic", "coated",
    "meat_dairy", "pet_waste", "treated_manure", "lime_dust",
)  # fmt: skip
MEASURES = (
    "piece", "piece_small", "piece_large", "cup", "handful", "sheet", "slice", "tablespoon",
    "teaspoon", "leaf", "stalk", "head", "bunch", "bag",
)  # fmt: skip
POOLS = ("labile_share", "cellulosic_share", "lignin_like_share")


@dataclass(frozen=True)
class Source:
    id: str
    citation: str
    covers: str
    licence: str
    status: str
    remark: str
    place: Place


@dataclass(frozen=True)
class SourceRef:
    """A source with the records of it that were used."""

    id: str
    records: tuple[str, ...] = ()

    def __str__(self) -> str:
        if not self.records:
            return self.id
        return " ".join(f"{self.id}:{record}" for record in self.records)


@dataclass(frozen=True)
class Citation:
    sources: tuple[SourceRef, ...]
    method: str

    @property
    def text(self) -> str:
        return " ".join(str(source) for source in self.sources)


@dataclass(frozen=True)
class PropertyKind:
    key: str
    stored: str
    basis: str
    unit: str
    hard: tuple[Decimal, Decimal]
    plausible: tuple[Decimal, Decimal]
    about: str
    place: Place


@dataclass(frozen=True)
class Triple:
    value: Decimal
    low: Decimal
    high: Decimal


@dataclass(frozen=True)
class PoolRule:
    name: str
    about: str
    from_lignin: bool
    labile_of_rest: Triple
    lignin_like: Triple
    lignin_cap: Decimal


@dataclass(frozen=True)
class Value:
    """One value; low and high are None until the default range fills them."""

    key: str
    value: Decimal
    grade: str
    citation: Citation
    place: Place
    low: Decimal | None = None
    high: Decimal | None = None
    range_grade: str = "D"
    range_citation: Citation | None = None


@dataclass(frozen=True)
class MeasureValue:
    """Wet grams of one measure; low and high are None until the rule of the measure fills them."""

    measure: str
    wet_grams: Decimal
    grade: str
    citation: Citation
    of: str
    place: Place
    low_grams: Decimal | None = None
    high_grams: Decimal | None = None


@dataclass(frozen=True)
class MostAtATime:
    """Most wet grams at a time a kilogram of worms, and what limits it."""

    wet_grams: Decimal
    reason: str
    grade: str
    citation: Citation
    note: str
    place: Place


@dataclass(frozen=True)
class HeapStance:
    """What a small heap takes where that differs from a worm bed."""

    stance: str
    citation: Citation
    grade: str
    place: Place


@dataclass(frozen=True)
class Alias:
    """A name a keeper may type; rank 0 is the first choice of a word that names several parts."""

    text: str
    part: str
    feedstock: str
    rank: int
    place: Place


@dataclass
class Feedstock:
    id: str
    name: str
    group: str
    kind: str
    place: Place
    roles: tuple[str, ...] = ()
    stance: str = ""
    heap: HeapStance | None = None
    stance_pre_composted: str = ""
    why_barred: str = ""
    instead: str = ""
    decay_class: str = ""
    pools: str = ""
    cautions: tuple[str, ...] = ()
    aliases: list[Alias] = field(default_factory=list)
    preparation: str = ""
    sold_as: str = ""
    note: str = ""
    most: MostAtATime | None = None
    values: dict[str, Value] = field(default_factory=dict)
    measures: dict[str, MeasureValue] = field(default_factory=dict)


@dataclass
class Rules:
    """What properties.yaml says."""

    data_version: str = ""
    kinds: dict[str, PropertyKind] = field(default_factory=dict)
    default_ranges: dict[str, dict[str, Decimal]] = field(default_factory=dict)
    default_factors: dict[str, dict[str, Decimal]] = field(default_factory=dict)
    measure_ranges: dict[str, Decimal] = field(default_factory=dict)
    feedstock_kinds: dict[str, str] = field(default_factory=dict)
    estimates: dict[str, dict[str, Triple]] = field(default_factory=dict)
    acid_by_ph: list[tuple[Decimal, Triple]] = field(default_factory=list)
    cap_budgets: dict[str, Decimal] = field(default_factory=dict)
    cap_reasons: dict[str, str] = field(default_factory=dict)
    quick_nitrogen: dict[str, Decimal] = field(default_factory=dict)
    settled_cap: Decimal = Decimal(0)
    settled_factors: dict[str, Triple] = field(default_factory=dict)
    decay_classes: dict[str, str] = field(default_factory=dict)
    pool_rules: dict[str, PoolRule] = field(default_factory=dict)
    formulas: dict[str, str] = field(default_factory=dict)


@dataclass
class Table:
    rules: Rules
    sources: dict[str, Source]
    feedstocks: list[Feedstock]

    def find(self, identifier: str) -> Feedstock | None:
        return next((row for row in self.feedstocks if row.id == identifier), None)


def words(text: str) -> str:
    """The form in which names are compared: lower case, hyphens as blanks, single blanks."""
    return " ".join(text.casefold().replace("-", " ").split())

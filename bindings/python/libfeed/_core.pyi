"""
The compiled part of libfeed: every number comes from here.

Import libfeed, not this module.
"""

from __future__ import annotations
import collections.abc
import datetime
import numpy
import numpy.typing
import os
import typing

__all__: list[str] = [
    "Answer",
    "Answers",
    "Bed",
    "BinSheet",
    "Blend",
    "Blends",
    "Calibration",
    "Candidate",
    "CautionFinding",
    "CheckResult",
    "Diagnosis",
    "Diary",
    "DiaryNews",
    "Entry",
    "Estimate",
    "Estimates",
    "FeedFile",
    "Feeding",
    "Feedstock",
    "FirstOrderFit",
    "Forecast",
    "Found",
    "HazardFinding",
    "Mend",
    "Observation",
    "Portion",
    "Problem",
    "PutIn",
    "RateChange",
    "Ration",
    "Reached",
    "Rest",
    "Series",
    "SignStep",
    "Signs",
    "Source",
    "TABLE_CONTENT_SHA256",
    "TABLE_LAYOUT_VERSION",
    "TABLE_VERSION",
    "TakeOut",
    "Target",
    "TrialPlan",
    "TrialReading",
    "Value",
    "answer_json",
    "append_observation",
    "balance",
    "balance_many",
    "bin_sheet",
    "blend",
    "blend_many",
    "check",
    "diagnose",
    "feedstock",
    "feedstock_from_label",
    "feedstock_from_report",
    "feedstocks",
    "fit_first_order",
    "forecast",
    "hazard_limits",
    "look_up",
    "own_feedstock",
    "plan_trial",
    "portion",
    "portions",
    "ration",
    "read_feed_file",
    "read_feed_text",
    "read_trial",
    "search",
    "source",
    "species_limits",
    "target_set",
    "with_observation",
]

class Value:
    """
    One number of a feedstock: typical value, range, grade and where it comes from.

    The unit and the basis belong to the property; fractions are kg per kg, never per cent.
    Grades: A read in its source, B derived from such values by a named formula, C recalled,
    D a judgement.
    """
    def __float__(self) -> float: ...
    def __repr__(self) -> str: ...
    @property
    def basis(self) -> str:
        """
        What the number is relative to: wet, dry, volatile solids or none.
        """
    @property
    def grade(self) -> str:
        """
        Grade of the value, A to D.
        """
    @property
    def high(self) -> float:
        """
        High end of the range.
        """
    @property
    def key(self) -> str:
        """
        Key of the property.
        """
    @property
    def low(self) -> float:
        """
        Low end of the range.
        """
    @property
    def method(self) -> str:
        """
        How the number was obtained.
        """
    @property
    def range_grade(self) -> str:
        """
        Grade of the range, A to D.
        """
    @property
    def sources(self) -> str:
        """
        Ids and places of the sources, parted by blanks.
        """
    @property
    def unit(self) -> str:
        """
        Unit of the numbers, such as "kg/kg".
        """
    @property
    def value(self) -> float:
        """
        Typical number.
        """

class Feedstock:
    """
    A material with properties, from the table or your own. Never changes.

    Examples
    --------
    >>> coffee = libfeed.feedstock("coffee grounds")
    >>> coffee.id
    'coffee-grounds'
    >>> coffee["moisture"].unit
    'kg/kg'
    >>> coffee.get("bulk_density") is None
    False
    """
    def __eq__(self, arg0: typing.Any) -> bool: ...
    def __getitem__(self, property: str) -> Value:
        """
        The value of a property.

        Raises
        ------
        FeedNameError
            There is no such property, or it is not known of this feedstock.
        """
    def __hash__(self) -> int: ...
    def __repr__(self) -> str: ...
    def _repr_html_(self) -> str: ...
    def get(self, property: str) -> Value | None:
        """
        The value of a property, or None where it is not known (unknown never means zero).

        Raises
        ------
        FeedNameError
            There is no such property.
        """
    def prepared(self, *args: str) -> Feedstock:
        """
        The feedstock after preparations, in their order.

        Parameters
        ----------
        *preparations : str
            whole, chopped, blended, frozen and thawed, drained, soaked, damped, dried, pre-composted.

        Returns
        -------
        Feedstock
            With moisture, density and rate of decay changed; what changed is grade D (judgement).

        Examples
        --------
        >>> peel = libfeed.feedstock("banana peel")
        >>> drained = peel.prepared("frozen and thawed", "drained")
        >>> drained["moisture"].value < peel["moisture"].value
        True
        """
    def to_dict(self) -> typing.Any:
        """
        Everything known of it as plain Python objects.
        """
    def to_json(self) -> str:
        """
        Everything known of it as JSON text.
        """
    @property
    def cautions(self) -> list[str]:
        """
        Warnings that belong to it.
        """
    @property
    def decay_class(self) -> str:
        """
        inert, fast, medium, slow or very slow (a judgement, grade D).
        """
    @property
    def group(self) -> str:
        """
        scraps, beddings, manures, amendments, water or guarded.
        """
    @property
    def id(self) -> str:
        """
        Id, such as "coffee-grounds".
        """
    @property
    def measures(self) -> dict[str, float]:
        """
        Wet kg of one household measure, by its word.
        """
    @property
    def most_wet_kg_per_kg_worms(self) -> float | None:
        """
        Most wet kg at a time for each kg of worms, or None where nothing special is said.
        """
    @property
    def name(self) -> str:
        """
        Name for people.
        """
    @property
    def note(self) -> str:
        """
        What a keeper should know, or empty.
        """
    @property
    def preparation_hint(self) -> str:
        """
        How it is best prepared, or empty.
        """
    @property
    def prepared_as(self) -> str:
        """
        What was done to it, or empty.
        """
    @property
    def roles(self) -> list[str]:
        """
        What it may be in a feeding: scraps, bedding, amendment, water.
        """
    @property
    def stance(self) -> str:
        """
        May it be fed to a worm bin: feed, feed little or avoid.
        """
    @property
    def values(self) -> dict[str, Value]:
        """
        Every known value by the key of its property. What is missing is unknown, not zero.
        """

class Candidate:
    """
    A feedstock of the table that words may mean.
    """
    def __repr__(self) -> str: ...
    @property
    def id(self) -> str:
        """
        Id of the feedstock.
        """
    @property
    def name(self) -> str:
        """
        Name of the feedstock.
        """
    @property
    def part(self) -> str:
        """
        Part of the plant, or empty.
        """

class Found:
    """
    What words were taken to mean.
    """
    def __repr__(self) -> str: ...
    @property
    def alternatives(self) -> list[Candidate]:
        """
        The other parts.
        """
    @property
    def feedstock(self) -> Feedstock:
        """
        The feedstock taken.
        """
    @property
    def part(self) -> str:
        """
        The part of the plant taken, or empty.
        """
    @property
    def said(self) -> str:
        """
        One sentence where a choice was made, or empty.
        """

class Portion:
    """
    An amount of a feedstock.

    Parameters
    ----------
    feedstock : Feedstock or str
        The feedstock, or words for one of the table.
    amount : str, optional
        "1.2 kg", "3 L", "6 piece", "half a bucket": a number and a unit.
    wet_kg : float, optional
        Wet mass, kg; instead of ``amount``.
    containers : list of (str, float), optional
        Vessels of your own and their volumes in litres.

    Raises
    ------
    FeedNameError
        The words mean no feedstock.
    FeedValueError
        The amount is no amount, or no weight is known for its measure.

    Examples
    --------
    >>> libfeed.Portion("coffee grounds", "250 g").wet_kg
    0.25
    >>> libfeed.Portion("cardboard", wet_kg=0.5).feedstock.id
    'cardboard-corrugated'
    """
    def __init__(
        self,
        feedstock: Feedstock | str,
        amount: str | None = None,
        *,
        wet_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        containers: collections.abc.Sequence[
            tuple[str, typing.SupportsFloat | typing.SupportsIndex]
        ] = [],
    ) -> None: ...
    def __repr__(self) -> str: ...
    @property
    def feedstock(self) -> Feedstock:
        """
        The feedstock.
        """
    @property
    def how(self) -> str:
        """
        How a measure became a mass ("3 L at 94 kg/m3, loose"), or empty.
        """
    @property
    def label(self) -> str:
        """
        The keeper's own words for the feedstock, else its name.
        """
    @property
    def measure(self) -> str:
        """
        The amount in a keeper's measure ("2 handfuls").
        """
    @property
    def wet_kg(self) -> float:
        """
        Wet mass, kg.
        """

class Estimate:
    """
    A computed quantity: value, range, how much of it is known, and the worst grade it leans on.

    ``value``, ``low`` and ``high`` are None where the quantity is not known in full; then ``at_least``
    may give its known part. Unknown never means zero.
    """
    def __float__(self) -> float: ...
    def __repr__(self) -> str: ...
    @property
    def at_least(self) -> float | None:
        """
        Lower bound where a property is missing for a small share of the mass, or None.
        """
    @property
    def covered(self) -> float:
        """
        Share of the mass concerned whose property is known, 0 to 1.
        """
    @property
    def grade(self) -> str:
        """
        Worst grade it leans on, A to D.
        """
    @property
    def high(self) -> float | None:
        """
        High end of the range, or None.
        """
    @property
    def is_known(self) -> bool:
        """
        Whether value, low and high hold.
        """
    @property
    def low(self) -> float | None:
        """
        Low end of the range, or None.
        """
    @property
    def value(self) -> float | None:
        """
        Typical value, or None.
        """

class Blend:
    """
    Portions together: each property with its range, its grade and how much of it is known.
    """
    def __getitem__(self, key: str) -> Estimate:
        """
        The quantity of a key such as "moisture".
        """
    def __repr__(self) -> str: ...
    def _repr_html_(self) -> str: ...
    def to_dict(self) -> typing.Any:
        """
        The answer as plain Python objects, with the keys of `feed blend`.
        """
    def to_json(self) -> str:
        """
        The answer as JSON text, with the keys of `feed blend`.
        """
    @property
    def acid_g_citric(self) -> Estimate:
        """
        Titratable acid as citric acid, g.
        """
    @property
    def assumed(self) -> list[str]:
        """
        What was taken for granted, a sentence each.
        """
    @property
    def available_cn_ratio(self) -> Estimate:
        """
        Degradable (lignin-limited) carbon over nitrogen, by mass.
        """
    @property
    def bulk_density_kg_m3(self) -> Estimate:
        """
        Wet mass over loose volume, kg/m3.
        """
    @property
    def carbon_kg(self) -> Estimate:
        """
        Organic carbon, kg.
        """
    @property
    def cautions(self) -> list[str]:
        """
        Warnings that belong to the feedstocks.
        """
    @property
    def cn_ratio(self) -> Estimate:
        """
        Total carbon over total nitrogen, by mass.
        """
    @property
    def dry_mass_kg(self) -> Estimate:
        """
        Dry mass, kg.
        """
    @property
    def fat_kg(self) -> Estimate:
        """
        Fat, kg.
        """
    @property
    def free_air_space(self) -> Estimate:
        """
        Share of the settled volume that is air, 0 to 1.
        """
    @property
    def moisture(self) -> Estimate:
        """
        Water over wet mass, 0 to 1.
        """
    @property
    def neutralising_g_caco3(self) -> Estimate:
        """
        Acid that it neutralises, g as calcium carbonate.
        """
    @property
    def nitrogen_kg(self) -> Estimate:
        """
        Total nitrogen, kg.
        """
    @property
    def portions(self) -> list[Portion]:
        """
        The portions.
        """
    @property
    def potassium_g(self) -> Estimate:
        """
        Potassium, g.
        """
    @property
    def salt_g(self) -> Estimate:
        """
        Sodium as NaCl, g.
        """
    @property
    def unknown(self) -> list[str]:
        """
        Keys of the quantities without a number.
        """
    @property
    def volatile_solids_kg(self) -> Estimate:
        """
        Volatile solids, kg.
        """
    @property
    def volume_l(self) -> Estimate:
        """
        Loose volume, L.
        """
    @property
    def water_kg(self) -> Estimate:
        """
        Water, kg.
        """
    @property
    def wet_mass_kg(self) -> float:
        """
        Wet mass, kg.
        """

class Estimates:
    """
    One quantity of many blends, an array each.

    Where a quantity is only known in part, ``known`` is False and ``value`` is a lower bound; where it
    is unknown all three numbers are NaN.
    """
    def __len__(self) -> int: ...
    def __repr__(self) -> str: ...
    @property
    def high(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        High ends of the ranges.
        """
    @property
    def known(self) -> numpy.typing.NDArray[numpy.bool]:
        """
        Whether value, low and high hold.
        """
    @property
    def low(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Low ends of the ranges.
        """
    @property
    def value(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Typical values.
        """

class Blends:
    """
    Many blends of the same feedstocks.
    """
    def __getitem__(self, key: str) -> Estimates:
        """
        The arrays of a quantity such as "moisture".
        """
    def __len__(self) -> int: ...
    def __repr__(self) -> str: ...
    @property
    def quantities(self) -> list[str]:
        """
        Keys of the quantities.
        """

class Entry:
    """
    One feedstock at hand and how much of it may go in. Without an amount: any amount.

    Parameters
    ----------
    feedstock : Feedstock or str
        The feedstock, or words for one of the table.
    amount, wet_kg : str, float
        An exact amount, in words ("1.2 kg", "6 piece") or as wet kg.
    least, least_wet_kg : str, float
        At least this much.
    most, most_wet_kg : str, float
        At most this much.
    usual, usual_wet_kg : str, float
        Amount in your usual recipe, for the objective "closest to usual".
    cost_per_wet_kg : float, optional
        In any money, for the objective "cheapest".
    use_up_priority : int
        0 none, 1 used up first, 2 second ...
    label : str, optional
        Your own words for it, used in the answer.
    containers : list of (str, float), optional
        Vessels of your own and their volumes in litres.

    Examples
    --------
    >>> libfeed.Entry("banana peel", most="8 piece").most_wet_kg > 0.5
    True
    >>> libfeed.Entry("cardboard")
    <Entry cardboard, any amount>
    """
    def __init__(
        self,
        feedstock: Feedstock | str,
        amount: str | None = None,
        *,
        wet_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        least: str | None = None,
        least_wet_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        most: str | None = None,
        most_wet_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        usual: str | None = None,
        usual_wet_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        cost_per_wet_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        use_up_priority: typing.SupportsInt | typing.SupportsIndex = 0,
        label: str | None = None,
        containers: collections.abc.Sequence[
            tuple[str, typing.SupportsFloat | typing.SupportsIndex]
        ] = [],
    ) -> None: ...
    def __repr__(self) -> str: ...
    @property
    def cost_per_wet_kg(self) -> float | None:
        """
        Cost of a wet kg, or None.
        """
    @property
    def feedstock(self) -> Feedstock:
        """
        The feedstock.
        """
    @property
    def label(self) -> str:
        """
        What it is called in answers.
        """
    @property
    def least_wet_kg(self) -> float:
        """
        At least this much, wet kg.
        """
    @property
    def most_wet_kg(self) -> float | None:
        """
        At most this much, wet kg, or None.
        """
    @property
    def use_up_priority(self) -> int:
        """
        0 none, 1 used up first ...
        """
    @property
    def usual_wet_kg(self) -> float | None:
        """
        Amount in the usual recipe, wet kg, or None.
        """

class Target:
    """
    A window on one property of the whole.

    Parameters
    ----------
    key : str
        The property: cn_ratio, moisture (0 to 1), acid_g_citric_per_wet_kg, salt_wet_fraction (0 to 1),
        fat_wet_fraction (0 to 1), free_air_space (0 to 1), total_wet_kg, total_volume_l,
        bedding_l_per_scraps_l or water_kg_per_wet_scraps_kg.
    low, high, aim : float, optional
        Lower limit, upper limit and what is best, in the unit of the property.
    label : str, optional
        Your own words, used where targets conflict.
    source : str, optional
        Where the numbers come from.

    Examples
    --------
    >>> libfeed.Target("moisture", low=0.7, high=0.8, aim=0.75)
    <Target moisture, at least 0.7, at most 0.8, aim 0.75>
    """
    def __init__(
        self,
        key: str,
        *,
        low: typing.SupportsFloat | typing.SupportsIndex | None = None,
        high: typing.SupportsFloat | typing.SupportsIndex | None = None,
        aim: typing.SupportsFloat | typing.SupportsIndex | None = None,
        label: str = "",
        source: str = "",
    ) -> None: ...
    def __repr__(self) -> str: ...
    @property
    def aim(self) -> float | None:
        """
        What is best, or None.
        """
    @property
    def high(self) -> float | None:
        """
        Upper limit, or None.
        """
    @property
    def key(self) -> str:
        """
        Key of the property.
        """
    @property
    def label(self) -> str:
        """
        Your own words, or empty.
        """
    @property
    def low(self) -> float | None:
        """
        Lower limit, or None.
        """
    @property
    def source(self) -> str:
        """
        Where the numbers come from.
        """
    @property
    def unit(self) -> str:
        """
        Unit of low, high and aim.
        """

class Reached:
    """
    What one target came to.
    """
    def __repr__(self) -> str: ...
    @property
    def binding(self) -> bool:
        """
        Whether it decides the answer.
        """
    @property
    def inside(self) -> bool:
        """
        Whether the window is kept.
        """
    @property
    def quantity(self) -> Estimate:
        """
        In the unit of the target.
        """
    @property
    def target(self) -> Target:
        """
        The target.
        """

class Mend:
    """
    The smallest single addition that lets all targets be met.
    """
    def __repr__(self) -> str: ...
    @property
    def add_wet_kg(self) -> float:
        """
        How much, wet kg.
        """
    @property
    def feedstock(self) -> Feedstock:
        """
        What to add.
        """
    @property
    def label(self) -> str:
        """
        Its name in the problem, or its own.
        """

class Answer:
    """
    The answer of a balance.

    ``status`` is "solved" only after an independent check of the optimum. Of an infeasible problem
    ``portions`` is the closest blend, ``conflict`` a minimal set of your own entries and targets that
    contradict each other, and ``mend`` the smallest single addition that helps.
    """
    def __repr__(self) -> str: ...
    def _repr_html_(self) -> str: ...
    def to_dict(self) -> typing.Any:
        """
        The answer as plain Python objects, with the keys of `feed balance`.
        """
    def to_json(self) -> str:
        """
        The answer as JSON text, with the keys of `feed balance`.
        """
    @property
    def advice(self) -> list[str]:
        """
        What helps when the targets cannot be met, best first.
        """
    @property
    def assumed(self) -> list[str]:
        """
        What was taken for granted, a sentence each.
        """
    @property
    def blend(self) -> Blend:
        """
        The portions together.
        """
    @property
    def conflict(self) -> list[str]:
        """
        Labels of a minimal set of entries and targets that cannot be met together.
        """
    @property
    def grade(self) -> str:
        """
        The worst grade it leans on, A to D.
        """
    @property
    def largest_deviation(self) -> float:
        """
        How far the worst property is from its aim: 0 at the aims, 1 at a window edge.
        """
    @property
    def mend(self) -> Mend | None:
        """
        The smallest single addition that helps, or None.
        """
    @property
    def portions(self) -> list[Portion]:
        """
        How much of each entry, in their order.
        """
    @property
    def reached(self) -> dict[str, Reached]:
        """
        What each target came to, by its property.
        """
    @property
    def solved(self) -> bool:
        """
        Whether all targets are met.
        """
    @property
    def status(self) -> str:
        """
        solved, infeasible, unbounded or failed.
        """
    @property
    def unbounded_entry(self) -> str:
        """
        What nothing limits, or empty.
        """
    @property
    def water_released_kg(self) -> float:
        """
        Water poured in and coming out of the scraps, kg (grade D).
        """
    @property
    def water_spare_kg(self) -> float:
        """
        Water that the bedding can still take up, kg (grade D).
        """
    @property
    def wet_kg(self) -> dict[str, float]:
        """
        Wet kg of each entry, by its label.
        """

class Problem:
    """
    Everything at hand and everything asked for; built once, solved as often as wanted.

    Parameters
    ----------
    entries : sequence of Entry or str
        What is at hand. A text with an amount ("1.2 kg coffee grounds") is an exact amount, one
        without ("cardboard") any amount.
    targets : sequence of Target, optional
        Your own targets; one on a property of the set replaces it.
    target_set : {"worm-bed", "hot-heap"} or None
        The ready set to start from.
    objective : str
        closest to aims, closest to usual, least added, cheapest or use up most.
    containers : list of (str, float), optional
        Vessels of your own and their volumes in litres.

    Raises
    ------
    FeedError
        Every problem at once: no amount is fixed, a window above its end, a value that is missing.

    Examples
    --------
    >>> problem = libfeed.Problem(["1.2 kg kitchen scraps", "cardboard", "water"])
    >>> problem.solve().status
    'solved'
    """
    def __init__(
        self,
        entries: collections.abc.Sequence[Entry | str],
        *,
        targets: collections.abc.Sequence[Target] = [],
        target_set: str | None = "worm-bed",
        objective: str = "closest to aims",
        containers: collections.abc.Sequence[
            tuple[str, typing.SupportsFloat | typing.SupportsIndex]
        ] = [],
    ) -> None: ...
    def __repr__(self) -> str: ...
    def solve(self) -> Answer:
        """
        Solves it. The answer is unique: ties go to the least mass, then to the order of the entries.

        Returns
        -------
        Answer
        """
    @property
    def entries(self) -> list[Entry]:
        """
        What is at hand.
        """
    @property
    def objective(self) -> str:
        """
        What best means.
        """
    @property
    def targets(self) -> list[Target]:
        """
        What is asked for.
        """

class Answers:
    """
    The answers of many balances that share a structure.
    """
    def __len__(self) -> int: ...
    def __repr__(self) -> str: ...
    @property
    def labels(self) -> list[str]:
        """
        What the columns are.
        """
    @property
    def largest_deviation(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        How far the worst property is from its aim, a number a balance.
        """
    @property
    def solved(self) -> numpy.typing.NDArray[numpy.bool]:
        """
        Whether each balance is solved.
        """
    @property
    def status(self) -> list[str]:
        """
        solved, infeasible, unbounded or failed, a word a balance.
        """
    @property
    def wet_kg(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Wet kg, a row a balance and a column an entry; the closest blend where the targets cannot be met, NaN where there is none.
        """

class Feeding:
    """
    A blend put into a bed on a day.

    Parameters
    ----------
    day : float
        Days from the day for which the bed is described: negative before it.
    portions : sequence of Portion or str
        Scraps with their bedding, water and amendments.
    containers : list of (str, float), optional
        Vessels of your own and their volumes in litres.

    Examples
    --------
    >>> libfeed.Feeding(-7, ["400 g banana peel", "100 g shredded cardboard"]).day
    -7.0
    """
    def __init__(
        self,
        day: typing.SupportsFloat | typing.SupportsIndex,
        portions: collections.abc.Sequence[Portion | str],
        *,
        containers: collections.abc.Sequence[
            tuple[str, typing.SupportsFloat | typing.SupportsIndex]
        ] = [],
    ) -> None: ...
    def __repr__(self) -> str: ...
    @property
    def day(self) -> float:
        """
        Day.
        """
    @property
    def portions(self) -> list[Portion]:
        """
        What went in.
        """

class Bed:
    """
    A worm bed as its keeper describes it. Whatever is left out is assumed, and answers say so.

    Parameters
    ----------
    container : str
        tray, tote, bucket, bath, flow-through, windrow or box.
    inside_m : (float, float, float), optional
        Inside length, width and depth, m.
    volume_l : float, optional
        Nominal volume, L, where no size is given.
    stacked : int
        Working trays on top of each other.
    depth_of_contents_m : float, optional
        Depth of the contents, m.
    drainage, lid, ventilation : str, optional
        open, tap or none; none, loose or tight; open top, holes or closed.
    species : str, optional
        eisenia fetida (and andrei), eisenia hortensis, perionyx excavatus, eudrilus eugeniae.
    worms_wet_kg, worms_count : float, optional
        Worms by weight, kg, or by number.
    worms_known : str, optional
        weighed, counted or as bought.
    temperature_c : float, (float, float) or list of float, optional
        Of the bed, deg C: one value, a range, or one a day from day 0.
    bedding : sequence of Portion or str, optional
        What the bed is made of, water included, if it was weighed.
    squeeze : str, optional
        What a handful does in the fist: crumbly, damp, drops, many drops, streams or pooling.
    moisture : float, optional
        Water over wet mass, 0 to 1, measured by drying; wins over the squeeze test.
    ph : float, optional
        Only if measured.
    lime_kg : float, optional
        Lime or ground shell already in the bed, kg as calcium carbonate.
    earlier : sequence of Feeding, optional
        Feedings before day 0.
    age_days : float, optional
        Since the worms moved in.
    own_feeding_rate_per_day : float, optional
        Wet scraps for each kg of worms and day that this bed has been seen to clear.

    Examples
    --------
    >>> bed = libfeed.Bed(container="tote", volume_l=60, worms_wet_kg=0.5, squeeze="damp")
    """
    def __init__(
        self,
        *,
        container: str = "tote",
        inside_m: tuple[
            typing.SupportsFloat | typing.SupportsIndex,
            typing.SupportsFloat | typing.SupportsIndex,
            typing.SupportsFloat | typing.SupportsIndex,
        ]
        | None = None,
        volume_l: typing.SupportsFloat | typing.SupportsIndex | None = None,
        stacked: typing.SupportsInt | typing.SupportsIndex = 1,
        depth_of_contents_m: typing.SupportsFloat | typing.SupportsIndex | None = None,
        drainage: str | None = None,
        lid: str | None = None,
        ventilation: str | None = None,
        species: str | None = None,
        worms_wet_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        worms_count: typing.SupportsFloat | typing.SupportsIndex | None = None,
        worms_known: str | None = None,
        temperature_c: typing.SupportsFloat
        | typing.SupportsIndex
        | tuple[
            typing.SupportsFloat | typing.SupportsIndex, typing.SupportsFloat | typing.SupportsIndex
        ]
        | collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex]
        | None = None,
        bedding: collections.abc.Sequence[Portion | str] = [],
        squeeze: str | None = None,
        moisture: typing.SupportsFloat | typing.SupportsIndex | None = None,
        ph: typing.SupportsFloat | typing.SupportsIndex | None = None,
        lime_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        earlier: collections.abc.Sequence[Feeding] = [],
        age_days: typing.SupportsFloat | typing.SupportsIndex | None = None,
        own_feeding_rate_per_day: typing.SupportsFloat | typing.SupportsIndex | None = None,
    ) -> None: ...
    def __repr__(self) -> str: ...
    @property
    def container(self) -> str:
        """
        What the worms live in.
        """
    @property
    def earlier(self) -> list[Feeding]:
        """
        Feedings before day 0.
        """
    @property
    def ph(self) -> float | None:
        """
        pH, or None.
        """
    @property
    def squeeze(self) -> str | None:
        """
        The squeeze test, or None.
        """
    @property
    def worms_wet_kg(self) -> float | None:
        """
        Worms, wet kg, or None.
        """

class Observation:
    """
    One look at a bin: whatever was seen, weighed or done that day. Only the date must be said.

    Parameters
    ----------
    date : datetime.date or str
        The day, as a date or as "2026-03-14".
    by : str
        Who looked.
    of_feeding : datetime.date or str, optional
        Day of the feeding looked at; the last one before ``date`` where it is left out.
    left_wet_kg : float, optional
        Leftovers of that feeding, weighed, wet kg.
    share_gone : float, optional
        Gone by eye, 0 to 1.
    gone : bool, optional
        Found to be gone, or not.
    worms, vigour : str, optional
        gathered, spread, at the lid or leaving; active, sluggish or dying.
    squeeze : str, optional
        crumbly, damp, drops, many drops, streams or pooling.
    moisture : float, optional
        Water over wet mass, 0 to 1, measured by drying.
    pooling : bool, optional
        Water stands in the tray or bed.
    smell : str, optional
        earthy, none, sour, rotten, ammonia, vinegar or swampy.
    ph : float, optional
        Of a strip.
    temperature_c : float or dict of str to float, optional
        Of the bed, deg C: one, or by place ("back", "middle", "front").
    air_low_c, air_high_c : float, optional
        Of the air in the last 24 hours, deg C.
    weight_in_wet_kg, running_total_wet_kg : float, optional
        Put in that day and so far, wet kg, as a site counts it.
    worm_weight_wet_kg : float, optional
        All worms of the bin, weighed, wet kg; later answers count with it.
    bedding, pests, action, note : str
        In the keeper's own words.

    Raises
    ------
    FeedValueError
        A number or word that cannot be; ``field`` says which.

    Examples
    --------
    >>> libfeed.Observation("2026-03-20", share_gone=0.75, worms="spread", squeeze="drops")
    <Observation 2026-03-20, 0.75 gone, worms spread, drops>
    """
    def __init__(
        self,
        date: datetime.date | str,
        *,
        by: str = "",
        of_feeding: datetime.date | str | None = None,
        left_wet_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        share_gone: typing.SupportsFloat | typing.SupportsIndex | None = None,
        gone: bool | None = None,
        worms: str | None = None,
        vigour: str | None = None,
        squeeze: str | None = None,
        moisture: typing.SupportsFloat | typing.SupportsIndex | None = None,
        pooling: bool | None = None,
        smell: str | None = None,
        ph: typing.SupportsFloat | typing.SupportsIndex | None = None,
        temperature_c: typing.SupportsFloat
        | typing.SupportsIndex
        | collections.abc.Mapping[str, typing.SupportsFloat | typing.SupportsIndex]
        | None = None,
        air_low_c: typing.SupportsFloat | typing.SupportsIndex | None = None,
        air_high_c: typing.SupportsFloat | typing.SupportsIndex | None = None,
        weight_in_wet_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        running_total_wet_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        worm_weight_wet_kg: typing.SupportsFloat | typing.SupportsIndex | None = None,
        bedding: str = "",
        pests: str = "",
        action: str = "",
        note: str = "",
    ) -> None: ...
    def __repr__(self) -> str: ...
    def to_yaml(self) -> str:
        """
        The entry of ``observations`` in a feed file that says this.
        """
    @property
    def action(self) -> str:
        """
        What was done.
        """
    @property
    def air_high_c(self) -> float | None:
        """
        Highest of the air in the last 24 hours, deg C.
        """
    @property
    def air_low_c(self) -> float | None:
        """
        Lowest of the air in the last 24 hours, deg C.
        """
    @property
    def bedding(self) -> str:
        """
        Bedding added, in the site's own measure.
        """
    @property
    def by(self) -> str:
        """
        Who looked.
        """
    @property
    def date(self) -> datetime.date:
        """
        datetime.date.
        """
    @property
    def gone(self) -> bool | None:
        """
        The feeding was found to be gone, or not.
        """
    @property
    def left_wet_kg(self) -> float | None:
        """
        Leftovers weighed, wet kg.
        """
    @property
    def moisture(self) -> float | None:
        """
        Measured by drying, 0 to 1.
        """
    @property
    def note(self) -> str:
        """
        Remarks.
        """
    @property
    def of_feeding(self) -> datetime.date | None:
        """
        datetime.date of the feeding that was looked at, or None for the last one.
        """
    @property
    def pests(self) -> str:
        """
        Pests seen.
        """
    @property
    def ph(self) -> float | None:
        """
        Of a strip.
        """
    @property
    def pooling(self) -> bool | None:
        """
        Water stands in the tray or bed.
        """
    @property
    def running_total_wet_kg(self) -> float | None:
        """
        Put in so far, wet kg, as the site counts it.
        """
    @property
    def share_gone(self) -> float | None:
        """
        Gone by eye, 0 to 1.
        """
    @property
    def smell(self) -> str | None:
        """
        earthy, none, sour, rotten, ammonia, vinegar or swampy.
        """
    @property
    def squeeze(self) -> str | None:
        """
        The squeeze test.
        """
    @property
    def temperature_c(self) -> dict[str, float]:
        """
        Temperatures taken, deg C, by place; "" is the whole bin.
        """
    @property
    def vigour(self) -> str | None:
        """
        active, sluggish or dying.
        """
    @property
    def weight_in_wet_kg(self) -> float | None:
        """
        Put in that day, wet kg.
        """
    @property
    def worm_weight_wet_kg(self) -> float | None:
        """
        All worms of the bin, weighed, wet kg.
        """
    @property
    def worms(self) -> str | None:
        """
        gathered, spread, at the lid or leaving.
        """

class RateChange:
    """
    One rate before and after learning, per day at 25 C, with the interval that holds 90 %.
    """
    def __repr__(self) -> str: ...
    @property
    def after_high_per_day(self) -> float:
        """
        After, high end.
        """
    @property
    def after_low_per_day(self) -> float:
        """
        After, low end.
        """
    @property
    def after_per_day(self) -> float:
        """
        After.
        """
    @property
    def before_high_per_day(self) -> float:
        """
        Before, high end.
        """
    @property
    def before_low_per_day(self) -> float:
        """
        Before, low end.
        """
    @property
    def before_per_day(self) -> float:
        """
        Before.
        """
    @property
    def outside_published(self) -> bool:
        """
        The new rate lies outside the published range.
        """
    @property
    def parameter(self) -> str:
        """
        Which rate.
        """

class Calibration:
    """
    A bin's own rates, learned from what its keeper saw.
    """
    def __repr__(self) -> str: ...
    @property
    def misfits(self) -> list[str]:
        """
        Looks that do not fit, a sentence each.
        """
    @property
    def rates(self) -> list[RateChange]:
        """
        labile, cellulosic and lignin-like.
        """
    @property
    def unused(self) -> int:
        """
        Number of looks at leftovers that no feeding explains.
        """
    @property
    def used(self) -> int:
        """
        Number of looks that were used.
        """

class DiaryNews:
    """
    What a diary teaches, its newest look included.
    """
    def __repr__(self) -> str: ...
    def _repr_html_(self) -> str: ...
    def to_dict(self) -> typing.Any:
        """
        The answer as plain Python objects, with the keys of `feed observe`.
        """
    def to_json(self) -> str:
        """
        The answer as JSON text, with the keys of `feed observe`.
        """
    @property
    def added(self) -> str:
        """
        The lines that were added to the file, or empty.
        """
    @property
    def before(self) -> Calibration:
        """
        The bin's rates without the newest observation.
        """
    @property
    def calibration(self) -> Calibration:
        """
        The bin's rates with everything.
        """
    @property
    def look_back(self) -> str:
        """
        How the newest look compares with what was expected, or empty.
        """
    @property
    def misfits(self) -> list[str]:
        """
        Looks that do not fit or could not be used, a sentence each.
        """
    @property
    def observations(self) -> int:
        """
        Number of observations now.
        """
    @property
    def slips(self) -> list[str]:
        """
        What does not add up, a sentence each.
        """

class Diary:
    """
    The record of one bin, read from a feed file.
    """
    def __repr__(self) -> str: ...
    def bed_on(self, date: datetime.date | str) -> Bed:
        """
        The bed on a day: earlier feedings counted in, what the last looks saw taken over.

        Parameters
        ----------
        date : datetime.date or str
            Day 0 of the bed.

        Returns
        -------
        Bed
        """
    def calibrate(self) -> Calibration:
        """
        The bin's own rates from the looks at its leftovers.

        Returns
        -------
        Calibration
            The rates that every verb takes for this bin: learned with its lag, the keeper's own bias and
            the spread between feedings (docs/diary.md).
        """
    def news(self, *, newest_is_new: bool = False) -> DiaryNews:
        """
        What the diary teaches, as ``feed observe`` says it.

        Parameters
        ----------
        newest_is_new : bool
            The last observation was just added: ``before`` is then what the diary said without it.

        Returns
        -------
        DiaryNews
        """
    def with_observation(self, observation: Observation) -> Diary:
        """
        The same diary with one more observation at its end. Files are left alone.

        Parameters
        ----------
        observation : Observation
            What was seen.

        Returns
        -------
        Diary

        Examples
        --------
        >>> diary = libfeed.read_feed_text("libfeed: 1\\nbed: {container: 60 L tote}\\n").diary
        >>> len(diary.with_observation(libfeed.Observation("2026-03-20", gone=True)).observations)
        1
        """
    @property
    def feedings(self) -> list[tuple[datetime.date, list[Portion]]]:
        """
        What went in: (date, portions) for each feeding.
        """
    @property
    def observations(self) -> list[Observation]:
        """
        What was seen.
        """
    @property
    def slips(self) -> list[str]:
        """
        What does not add up, a sentence each. Pointed out, never refused.
        """

class HazardFinding:
    """
    The judgement on one hazard.
    """
    def __repr__(self) -> str: ...
    @property
    def hazard(self) -> str:
        """
        sour, wet, dry, hot, ammonia, salty, overfed, underfed, airless, greasy or cold.
        """
    @property
    def higher_is_worse(self) -> bool:
        """
        Whether the limits are upper ones.
        """
    @property
    def level(self) -> str:
        """
        none, watch, act or unknown.
        """
    @property
    def limit(self) -> float:
        """
        Where it begins to matter, in ``unit``.
        """
    @property
    def limit_act(self) -> float:
        """
        Where to act, in ``unit``.
        """
    @property
    def source(self) -> str:
        """
        Where the limits come from.
        """
    @property
    def unit(self) -> str:
        """
        Unit of the value and its limits.
        """
    @property
    def value(self) -> Estimate:
        """
        What was found, in ``unit``.
        """
    @property
    def why(self) -> str:
        """
        One sentence with the numbers.
        """

class CautionFinding:
    """
    A warning that belongs to a feedstock.
    """
    def __repr__(self) -> str: ...
    @property
    def caution(self) -> str:
        """
        Its word.
        """
    @property
    def feedstock(self) -> str:
        """
        Name of the feedstock, or empty where several share it.
        """
    @property
    def level(self) -> str:
        """
        none, watch, act or unknown.
        """
    @property
    def source(self) -> str:
        """
        Where it comes from.
        """
    @property
    def text(self) -> str:
        """
        What to beware of.
        """

class TakeOut:
    """
    Something that is never fed here.
    """
    def __repr__(self) -> str: ...
    @property
    def feedstock(self) -> str:
        """
        Id of the feedstock.
        """
    @property
    def instead(self) -> str:
        """
        Where with it.
        """
    @property
    def label(self) -> str:
        """
        The keeper's own words for it.
        """
    @property
    def why(self) -> str:
        """
        Why, in a few words.
        """

class PutIn:
    """
    One thing that goes in.
    """
    def __repr__(self) -> str: ...
    @property
    def at_hand(self) -> bool:
        """
        False where it is offered because nothing of its kind is at hand.
        """
    @property
    def feedstock(self) -> str:
        """
        Id of the feedstock.
        """
    @property
    def label(self) -> str:
        """
        The keeper's own words for it.
        """
    @property
    def measure(self) -> str:
        """
        How much in the keeper's own measure, with the weight.
        """
    @property
    def part(self) -> str:
        """
        scraps, bedding, amendment or water.
        """
    @property
    def wet_kg(self) -> float:
        """
        How much, wet kg, as printed.
        """

class Rest:
    """
    Something at hand that does not go in today.
    """
    def __repr__(self) -> str: ...
    @property
    def capped(self) -> bool:
        """
        It is too much of it at a time.
        """
    @property
    def feedstock(self) -> str:
        """
        Id of the feedstock.
        """
    @property
    def label(self) -> str:
        """
        The keeper's own words for it.
        """
    @property
    def wet_kg(self) -> float:
        """
        How much stays out, wet kg.
        """

class Ration:
    """
    What to put into a bed today, and when again. Days count from today. What must be taken out comes
    before the answer. Masses are as printed, and were judged as printed.
    """
    def __repr__(self) -> str: ...
    def _repr_html_(self) -> str: ...
    def lines(self, units: str = "metric") -> list[str]:
        """
        What `feed ration` prints first, a line each.
        """
    def to_dict(self) -> typing.Any:
        """
        The answer as plain Python objects, with the keys of `feed ration`.
        """
    def to_json(self) -> str:
        """
        The answer as JSON text, with the keys of `feed ration`.
        """
    def to_text(self, units: str = "metric") -> str:
        """
        The lines as one text.
        """
    @property
    def after(self) -> dict[str, str]:
        """
        The level of every hazard with what is put in.
        """
    @property
    def answer(self) -> str:
        """
        act_first, wait, feed_less or feed.
        """
    @property
    def assumed(self) -> list[str]:
        """
        What was taken for granted, a sentence each.
        """
    @property
    def before(self) -> dict[str, str]:
        """
        The level of every hazard without food.
        """
    @property
    def cautions(self) -> list[CautionFinding]:
        """
        Warnings of what is put in.
        """
    @property
    def crowded(self) -> bool:
        """
        Whether the worms have too little room.
        """
    @property
    def date(self) -> datetime.date | None:
        """
        datetime.date of today, or None.
        """
    @property
    def grade(self) -> str:
        """
        The worst grade it leans on, A to D.
        """
    @property
    def lime_wet_kg(self) -> float:
        """
        Lime or ground shell, kg.
        """
    @property
    def next_feeding_day(self) -> int | None:
        """
        When to feed again, or None where the bed must be seen first.
        """
    @property
    def next_feeding_earliest_day(self) -> int | None:
        """
        At the earliest.
        """
    @property
    def next_feeding_latest_day(self) -> int | None:
        """
        At the latest.
        """
    @property
    def next_look_day(self) -> int:
        """
        When to look; 0: before food.
        """
    @property
    def put_in(self) -> list[PutIn]:
        """
        Scraps, then bedding, water and lime.
        """
    @property
    def raised(self) -> list[str]:
        """
        Words of the hazards that the bed has without food.
        """
    @property
    def reasons(self) -> list[str]:
        """
        At most two reasons, a sentence each.
        """
    @property
    def rest(self) -> list[Rest]:
        """
        What does not go in today.
        """
    @property
    def scraps_wet_kg(self) -> float:
        """
        Scraps that go in, wet kg.
        """
    @property
    def share_left(self) -> float:
        """
        Of today's food by the next look.
        """
    @property
    def share_left_high(self) -> float:
        """
        The same at most.
        """
    @property
    def spread_m2(self) -> float:
        """
        Surface over which the food is laid, m2.
        """
    @property
    def take_out(self) -> list[TakeOut]:
        """
        What is never fed here.
        """
    @property
    def water_kg(self) -> float:
        """
        Water to pour, kg.
        """
    @property
    def week_wet_kg(self) -> float:
        """
        Scraps that these worms may have in a week, wet kg.
        """
    @property
    def weigh(self) -> list[str]:
        """
        What is worth weighing or measuring, what moves the answer most first.
        """

class CheckResult:
    """
    The answer of a check.
    """
    def __repr__(self) -> str: ...
    def _repr_html_(self) -> str: ...
    def to_dict(self) -> typing.Any:
        """
        The answer as plain Python objects, with the keys of `feed check`.
        """
    def to_json(self) -> str:
        """
        The answer as JSON text, with the keys of `feed check`.
        """
    @property
    def as_planned(self) -> bool:
        """
        The ration puts in all that was planned.
        """
    @property
    def assumed(self) -> list[str]:
        """
        What was taken for granted, a sentence each.
        """
    @property
    def cautions(self) -> list[CautionFinding]:
        """
        Warnings of the feedstocks planned.
        """
    @property
    def grade(self) -> str:
        """
        The worst grade it leans on, A to D.
        """
    @property
    def hazards(self) -> dict[str, HazardFinding]:
        """
        Every hazard by its word.
        """
    @property
    def ration(self) -> Ration:
        """
        What to do, with what is planned as what is at hand.
        """

class SignStep:
    """
    A step against one cause. Amounts that do not belong to it are 0.
    """
    def __repr__(self) -> str: ...
    @property
    def add_wet_kg(self) -> float:
        """
        How much to add, wet kg.
        """
    @property
    def feed_later_wet_kg(self) -> float:
        """
        Scraps to keep for later, wet kg.
        """
    @property
    def feed_now_wet_kg(self) -> float:
        """
        Scraps to feed now, wet kg.
        """
    @property
    def kind(self) -> str:
        """
        none, look, feed less, leave out, cool, add bedding, add water, spread or add lime.
        """
    @property
    def later_days(self) -> float:
        """
        Until then nothing is fed, days.
        """
    @property
    def material(self) -> str:
        """
        Id of the feedstock to add, or empty.
        """
    @property
    def spread_m2(self) -> float:
        """
        Surface to lay food over, m2.
        """
    @property
    def text(self) -> str:
        """
        One or two sentences with amounts.
        """

class Diagnosis:
    """
    One possible cause of what was noticed.
    """
    def __repr__(self) -> str: ...
    @property
    def harmless(self) -> bool:
        """
        Whether it needs no step.
        """
    @property
    def name(self) -> str:
        """
        What it is.
        """
    @property
    def remedy(self) -> SignStep:
        """
        One step, to be taken when the test says so.
        """
    @property
    def share(self) -> float:
        """
        Share of the likelihood, 0 to 1: an order, not a measurement (grade D).
        """
    @property
    def test(self) -> str:
        """
        One quick test.
        """
    @property
    def why(self) -> str:
        """
        What the bed says for or against it, or empty.
        """

class Signs:
    """
    The causes of what was noticed, likeliest first.
    """
    def __repr__(self) -> str: ...
    def _repr_html_(self) -> str: ...
    def to_dict(self) -> typing.Any:
        """
        The answer as plain Python objects, with the keys of `feed signs`.
        """
    def to_json(self) -> str:
        """
        The answer as JSON text, with the keys of `feed signs`.
        """
    @property
    def assumed(self) -> list[str]:
        """
        What was taken for granted, a sentence each.
        """
    @property
    def causes(self) -> list[Diagnosis]:
        """
        The causes.
        """
    @property
    def harmless(self) -> bool:
        """
        The likeliest cause is harmless.
        """
    @property
    def notes(self) -> list[str]:
        """
        What is good to know of the signs, a sentence or two each.
        """
    @property
    def steps(self) -> list[int]:
        """
        Places in ``causes`` in the order to act, most reversible step first.
        """
    @property
    def text(self) -> str:
        """
        One sentence.
        """

class Source:
    """
    One published source of the table.
    """
    def __repr__(self) -> str: ...
    @property
    def citation(self) -> str:
        """
        Authors, year, title.
        """
    @property
    def covers(self) -> str:
        """
        What was taken from it.
        """
    @property
    def id(self) -> str:
        """
        Its id.
        """
    @property
    def licence(self) -> str:
        """
        Its terms.
        """

class FeedFile:
    """
    A feed file; every section is optional.
    """
    def __repr__(self) -> str: ...
    def check(self, *, units: str = "metric") -> CheckResult:
        """
        What is planned today, judged as `feed check` judges it, and the ration.
        """
    def ration(self, *, units: str = "metric") -> Ration:
        """
        What to do today, as `feed ration` says it, with alarms, looks and own rates.
        """
    @property
    def assumed(self) -> list[str]:
        """
        What reading took for granted, a sentence each.
        """
    @property
    def bed(self) -> Bed | None:
        """
        Its bed on day 0 with the feedings before that day, or None.
        """
    @property
    def blend(self) -> list[Portion] | None:
        """
        The portions of its blend, or None.
        """
    @property
    def day_zero(self) -> datetime.date | None:
        """
        datetime.date of day 0, or None.
        """
    @property
    def diary(self) -> Diary:
        """
        Its feedings and observations.
        """
    @property
    def feedstocks(self) -> list[Feedstock]:
        """
        Feedstocks of its own.
        """
    @property
    def name(self) -> str:
        """
        Name of the file.
        """
    @property
    def planned(self) -> list[Feeding]:
        """
        What is fed from day 0 on.
        """
    @property
    def problem(self) -> Problem | None:
        """
        Its balance, or None.
        """
    @property
    def title(self) -> str:
        """
        Its title, or empty.
        """

class TrialPlan:
    """
    A plan of a trial: places, portions, days, and what it can tell.
    """
    def __repr__(self) -> str: ...
    def _repr_html_(self) -> str: ...
    def sheet_html(self, *, paper: str = "a4") -> str:
        """
        The sheet to hang up: map, boxes to tick, and the key on a page of its own.

        Parameters
        ----------
        paper : {"a4", "letter"}
            Size of the pages.

        Returns
        -------
        str
            HTML.
        """
    def to_dict(self) -> typing.Any:
        """
        What ``feed trial plan --json`` prints, as a dict.
        """
    def to_yaml(self) -> str:
        """
        The whole file with seed, days and key: to be laid, noted in and read.
        """
    @property
    def look_days(self) -> list[int]:
        """
        Days after laying on which to look.
        """
    @property
    def seed(self) -> int:
        """
        What the places were drawn from.
        """
    @property
    def smallest_p(self) -> float:
        """
        The smallest chance by luck that it can reach, 0 to 1.
        """
    @property
    def text(self) -> str:
        """
        The plan in at most twelve lines.
        """
    @property
    def why(self) -> str:
        """
        The plan with all that lies behind it.
        """

class TrialReading:
    """
    What the looks at a trial say: counts, the chance by luck, ratios, and one word a pair.
    """
    def __repr__(self) -> str: ...
    def _repr_html_(self) -> str: ...
    def to_dict(self) -> typing.Any:
        """
        What ``feed trial read --json`` prints, as a dict.
        """
    def to_svg(self) -> str:
        """
        The picture of ``feed trial read --svg``.
        """
    @property
    def ended(self) -> bool:
        """
        The planned end is reached; before it nothing is called clear.
        """
    @property
    def feeds(self) -> list[str]:
        """
        The feeds in the order of the file.
        """
    @property
    def p(self) -> float:
        """
        Chance by luck of feeds as far apart, 0 to 1, by the exact test.
        """
    @property
    def text(self) -> str:
        """
        The answer in at most twelve lines.
        """
    @property
    def why(self) -> str:
        """
        The answer with all pairs and how it was worked out.
        """

class FirstOrderFit:
    """
    The curve plateau (1 - exp(-rate day)) through what was lost by each day.
    """
    def __repr__(self) -> str: ...
    @property
    def plateau(self) -> float:
        """
        In the unit of what was lost.
        """
    @property
    def plateau_standard_error(self) -> float:
        """
        In the unit of what was lost.
        """
    @property
    def rate_per_day(self) -> float:
        """
        Per day.
        """
    @property
    def rate_standard_error_per_day(self) -> float:
        """
        Per day.
        """
    @property
    def residual_standard_deviation(self) -> float:
        """
        With two degrees of freedom less than points.
        """
    @property
    def residual_sum_of_squares(self) -> float:
        """
        Of the points.
        """

class Series:
    """
    One quantity day by day, with the envelope of the runs at the ends of the ranges.

    The envelope is what may happen if every constant errs the same way: no confidence interval.
    """
    def __len__(self) -> int: ...
    def __repr__(self) -> str: ...
    @property
    def high(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Highest of the runs.
        """
    @property
    def low(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Lowest of the runs.
        """
    @property
    def value(self) -> numpy.typing.NDArray[numpy.float64]:
        """
        Typical run.
        """

class Forecast:
    """
    A bed day by day. Entry d of a series is day d, after what is fed on it.
    """
    def __getitem__(self, key: str) -> Series:
        """
        The series of a key such as "moisture".
        """
    def __repr__(self) -> str: ...
    def _repr_html_(self) -> str: ...
    def to_dict(self) -> typing.Any:
        """
        The answer as plain Python objects, with the keys of `feed forecast`.
        """
    def to_json(self) -> str:
        """
        The answer as JSON text, with the keys of `feed forecast`.
        """
    def to_svg(
        self,
        *,
        title: str = "",
        day_zero: datetime.date | str | None = None,
        species: str = "eisenia fetida",
        units: str = "metric",
        next_feeding_day: typing.SupportsInt | typing.SupportsIndex | None = None,
    ) -> str:
        """
        A picture of moisture, food left and acid with their limits, as ``feed forecast --svg`` draws it.

        Parameters
        ----------
        title : str
            Above the picture.
        day_zero : datetime.date or str, optional
            Dates below the axis instead of day numbers.
        species : str
            Whose limits are drawn.
        units : {"metric", "us"}
            Units of the axes.
        next_feeding_day : int, optional
            Marked in the picture: that of the ration (``Ration.next_feeding_day``).

        Returns
        -------
        str
            SVG 1.1. For Matplotlib see ``libfeed.plot.forecast``.
        """
    @property
    def acid_class(self) -> list[str]:
        """
        near neutral, turning sour or sour, a word a day. A pH is never computed.
        """
    @property
    def acid_g_citric(self) -> Series:
        """
        Acid, g as citric acid.
        """
    @property
    def acid_g_per_air_litre(self) -> Series:
        """
        Acid for each litre of air space, g.
        """
    @property
    def assumed(self) -> list[str]:
        """
        What was taken for granted, a sentence each.
        """
    @property
    def castings_dry_kg(self) -> Series:
        """
        Castings formed since day 0, dry kg.
        """
    @property
    def cn_ratio(self) -> Series:
        """
        Total carbon over total nitrogen.
        """
    @property
    def days(self) -> int:
        """
        Number of days after day 0.
        """
    @property
    def depth_m(self) -> Series:
        """
        Depth of the contents, m.
        """
    @property
    def feeding_days(self) -> list[int]:
        """
        Days on which something is fed.
        """
    @property
    def food_left_wet_kg(self) -> Series:
        """
        Scraps left, as the wet mass fed that they stand for, kg.
        """
    @property
    def free_ammonia_g_n_per_wet_kg(self) -> Series:
        """
        Free ammonia nitrogen, g per wet kg.
        """
    @property
    def free_water_kg(self) -> Series:
        """
        Water above what the bed can hold, kg.
        """
    @property
    def grade(self) -> str:
        """
        The worst grade it leans on, A to D.
        """
    @property
    def harvest_day(self) -> int | None:
        """
        When to harvest, or None.
        """
    @property
    def harvest_reason(self) -> str:
        """
        Why then.
        """
    @property
    def moisture(self) -> Series:
        """
        Water over wet mass, 0 to 1.
        """
    @property
    def new_bedding_day(self) -> int | None:
        """
        When to give new bedding, or None.
        """
    @property
    def new_bedding_reason(self) -> str:
        """
        Why then.
        """
    @property
    def pocket_temperature_c(self) -> Series:
        """
        Temperature of the food fed from day 0 on, deg C.
        """
    @property
    def series(self) -> list[str]:
        """
        Keys of the series.
        """
    @property
    def temperature_c(self) -> Series:
        """
        Temperature of the bed, deg C.
        """
    @property
    def temperature_rise_c(self) -> Series:
        """
        Above the bed without food, deg C.
        """
    @property
    def unknown(self) -> list[str]:
        """
        Keys of the series without a meaning.
        """
    @property
    def volume_l(self) -> Series:
        """
        Volume of the contents, L.
        """

class BinSheet:
    """
    A page to hang beside a bin.
    """
    def __repr__(self) -> str: ...
    def to_html(self) -> str:
        """
        The page as HTML for one side of paper, with nothing to fetch.
        """
    def to_text(self) -> str:
        """
        The page as plain text, at most 80 columns wide.
        """
    @property
    def bin(self) -> str:
        """
        Name of the bin.
        """
    @property
    def lime(self) -> bool:
        """
        Lime is kept beside the bin.
        """
    @property
    def rows(self) -> int:
        """
        Empty rows of the record.
        """
    @property
    def today(self) -> list[str]:
        """
        What to do, a line each.
        """

def _answer_request(request: str) -> str:
    """
    The JSON answer to a request in JSON.

    Parameters
    ----------
    request : str
        A JSON object with the key ``verb`` and what the verb takes.

    Returns
    -------
    str
        What ``feed VERB --json`` prints.
    """

def answer_json(verb: str, file: FeedFile) -> str:
    """
    The JSON answer of the command to a feed file.

    Parameters
    ----------
    verb : {"blend", "balance", "ration", "check", "forecast", "trial plan",
        "trial read"}
        What is asked.
    file : FeedFile
        A feed file.

    Returns
    -------
    str
        What ``feed VERB --json FILE`` prints.
    """

def append_observation(
    path: os.PathLike[str] | str | bytes,
    observation: Observation,
    *,
    wait_seconds: typing.SupportsInt | typing.SupportsIndex = 10,
) -> DiaryNews:
    """
    Adds an observation to a diary file and says what it teaches, as ``feed observe`` does.

    Comments, order and blank lines of the file stay. Two that add at once wait for each other; a crash
    leaves the file with the entry or without it, never half.

    Parameters
    ----------
    path : str or os.PathLike[str]
        An existing feed file.
    observation : Observation
        What was seen.
    wait_seconds : int
        How long to wait for others, s, 0 to 600.

    Returns
    -------
    DiaryNews

    Raises
    ------
    FeedFileError
        The file cannot be read or written.
    FeedError
        The file has errors; it is then left as it is.

    Examples
    --------
    >>> import pathlib, tempfile
    >>> path = pathlib.Path(tempfile.mkdtemp(), "tote.yaml")
    >>> _ = path.write_text("libfeed: 1\\nbed: {container: 60 L tote}\\n")
    >>> libfeed.append_observation(path, libfeed.Observation("2026-03-20", smell="earthy")).added
    '  - date: 2026-03-20\\n    smell: earthy\\n'
    """

def balance(
    entries: collections.abc.Sequence[Entry | str],
    *,
    targets: collections.abc.Sequence[Target] = [],
    target_set: str | None = "worm-bed",
    objective: str = "closest to aims",
    containers: collections.abc.Sequence[
        tuple[str, typing.SupportsFloat | typing.SupportsIndex]
    ] = [],
) -> Answer:
    """
    Finds how much of each feedstock to take so that all targets are met.

    Parameters
    ----------
    entries, targets, target_set, objective, containers
        As for ``Problem``.

    Returns
    -------
    Answer

    Raises
    ------
    FeedError
        Every problem of the input at once. Targets that cannot be met are an answer, not an error.

    Examples
    --------
    >>> answer = libfeed.balance(["1.2 kg kitchen scraps", "cardboard", "water"])
    >>> answer.reached["moisture"].inside
    True
    """

def balance_many(
    problem: Problem,
    *,
    wet_kg: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] | None = None,
    least_wet_kg: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] | None = None,
    most_wet_kg: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] | None = None,
    threads: typing.SupportsInt | typing.SupportsIndex | None = None,
) -> Answers:
    """
    Many balances that differ in their amounts, the same bits as one by one.

    The GIL is released and the rows are shared out among threads.

    Parameters
    ----------
    problem : Problem
        What they share.
    wet_kg, least_wet_kg, most_wet_kg : array of shape (balances, entries), optional
        Exact amounts, lower and upper limits, kg; NaN leaves an entry as the problem has it.
    threads : int, optional
        Number of threads; all cores where it is left out.

    Returns
    -------
    Answers

    Raises
    ------
    FeedValueError
        A shape that does not fit, a mass that cannot be (``field`` says in which row).

    Examples
    --------
    >>> import numpy as np
    >>> problem = libfeed.Problem(["1 kg kitchen scraps", "cardboard", "water"])
    >>> amounts = np.full((3, 3), np.nan)
    >>> amounts[:, 0] = [0.5, 1.0, 2.0]
    >>> many = libfeed.balance_many(problem, wet_kg=amounts)
    >>> many.wet_kg.shape
    (3, 3)
    """

def bin_sheet(
    name: str,
    ration: Ration,
    *,
    units: str = "metric",
    lime: bool = False,
    rows: typing.SupportsInt | typing.SupportsIndex = 20,
) -> BinSheet:
    """
    A page to hang beside a bin, in words that a ten-year-old reads: what the ration says, look, feed,
    never, stay clean.

    Parameters
    ----------
    name : str
        Of the bin.
    ration : Ration
        What to do, from ``ration`` or ``FeedFile.ration``.
    units : {"metric", "us"}
        Units of the amounts; us also means letter paper.
    lime : bool
        Lime is kept beside the bin: the page says who may use it.
    rows : int
        Most empty rows of the record, 0 to 20; no more than fit the page.

    Returns
    -------
    BinSheet

    Examples
    --------
    >>> bed = libfeed.Bed(squeeze="damp")
    >>> today = libfeed.ration(bed, ["500 g kitchen scraps", "shredded cardboard"], date="2026-03-20")
    >>> sheet = libfeed.bin_sheet("Green tote", today)
    >>> "Green tote" in sheet.to_text()
    True
    """

def blend(
    portions: collections.abc.Sequence[Portion | str],
    *,
    containers: collections.abc.Sequence[
        tuple[str, typing.SupportsFloat | typing.SupportsIndex]
    ] = [],
) -> Blend:
    """
    The properties of portions together.

    C:N is total carbon over total nitrogen, never a mean of ratios; its range and that of moisture are
    exact for the ranges of the feedstocks (Dinkelbach 1967). Salt is sodium x 2.54 as NaCl.

    Parameters
    ----------
    portions : sequence of Portion or str
        Portions, or texts such as "1.2 kg coffee grounds".
    containers : list of (str, float), optional
        Vessels of your own and their volumes in litres.

    Returns
    -------
    Blend

    Raises
    ------
    FeedError
        With the problems of all portions at once.

    Examples
    --------
    >>> made = libfeed.blend(["1.2 kg coffee grounds", "300 g shredded cardboard"])
    >>> round(made.wet_mass_kg, 3)
    1.5
    >>> made.cn_ratio.low < made.cn_ratio.value < made.cn_ratio.high
    True
    """

def blend_many(
    feedstocks: collections.abc.Sequence[Feedstock | str],
    wet_kg: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    *,
    quantities: collections.abc.Sequence[str] | None = None,
    threads: typing.SupportsInt | typing.SupportsIndex | None = None,
) -> Blends:
    """
    Many blends of the same feedstocks in one call, the same bits as ``blend`` one by one.

    The GIL is released and the rows are shared out among threads.

    Parameters
    ----------
    feedstocks : sequence of Feedstock or str
        One for each column.
    wet_kg : array of shape (blends, feedstocks)
        Wet masses, kg, at least 0.
    quantities : list of str, optional
        Keys of the quantities wanted; all where it is left out.
    threads : int, optional
        Number of threads; all cores where it is left out.

    Returns
    -------
    Blends

    Raises
    ------
    FeedValueError
        The shape does not fit, or a mass is negative or not finite (``field`` says which).

    Examples
    --------
    >>> import numpy as np
    >>> many = libfeed.blend_many(
    ...     ["coffee grounds", "cardboard"], np.array([[1.0, 0.2], [1.0, 0.4]]))
    >>> bool(many["cn_ratio"].value[0] < many["cn_ratio"].value[1])
    True
    """

def check(
    bed: Bed,
    portions: collections.abc.Sequence[Portion | str],
    *,
    spread_m2: typing.SupportsFloat | typing.SupportsIndex | None = None,
    bedding_at_hand: Feedstock | str | None = None,
    calibration: Calibration | None = None,
    containers: collections.abc.Sequence[
        tuple[str, typing.SupportsFloat | typing.SupportsIndex]
    ] = [],
) -> CheckResult:
    """
    Judges a planned feeding against a bed: every hazard with its limit and reason, and the ration.

    Parameters
    ----------
    bed : Bed
        The bed; what it leaves out is assumed.
    portions : sequence of Portion or str
        The feeding: scraps with their bedding, water and amendments. May be empty.
    spread_m2 : float, optional
        Surface over which it is laid, m2.
    bedding_at_hand : Feedstock or str, optional
        A bedding of which the ration may take as much as it wants.
    calibration : Calibration, optional
        The bin's own rates.
    containers : list of (str, float), optional
        Vessels of your own and their volumes in litres.

    Returns
    -------
    CheckResult
        Follow local codes first; nothing here says that pathogens are killed.

    Examples
    --------
    >>> bed = libfeed.Bed(container="tote", worms_wet_kg=0.2, squeeze="drops")
    >>> result = libfeed.check(bed, ["8 kg kitchen scraps"])
    >>> result.hazards["overfed"].level
    'act'
    >>> result.ration.answer
    'feed_less'
    """

def diagnose(bed: Bed | None, signs: collections.abc.Sequence[str]) -> Signs:
    """
    What may be behind the signs in this bed: ordered causes, each with a quick test and one step.

    Parameters
    ----------
    bed : Bed or None
        The bed; without one, steps are shares of the bed.
    signs : sequence of str
        What was noticed, in everyday words: "worms leaving", "smells of vinegar", "fruit flies".

    Returns
    -------
    Signs
        The weights are judgements (grade D) in the order that keepers' accounts give them.

    Examples
    --------
    >>> bed = libfeed.Bed(container="tote", squeeze="streams")
    >>> libfeed.diagnose(bed, ["swampy smell", "streams"]).causes[0].name
    'too wet'
    """

def feedstock(words: str) -> Feedstock:
    """
    The feedstock of the table that words mean.

    Parameters
    ----------
    words : str
        A name, alias or id in any case, number and order of words.

    Returns
    -------
    Feedstock

    Raises
    ------
    FeedNameError
        Nothing is called that (``allowed`` has the nearest names), or several things are.

    Examples
    --------
    >>> libfeed.feedstock("shredded cardboard").group
    'beddings'
    """

def feedstock_from_label(
    name: str,
    *,
    protein: typing.SupportsFloat | typing.SupportsIndex,
    fat: typing.SupportsFloat | typing.SupportsIndex,
    carbohydrate: typing.SupportsFloat | typing.SupportsIndex,
    carbohydrate_has_fibre: bool = True,
    sugars: typing.SupportsFloat | typing.SupportsIndex | None = None,
    fibre: typing.SupportsFloat | typing.SupportsIndex | None = None,
    water: typing.SupportsFloat | typing.SupportsIndex | None = None,
    ash: typing.SupportsFloat | typing.SupportsIndex | None = None,
    salt: typing.SupportsFloat | typing.SupportsIndex | None = None,
    sodium: typing.SupportsFloat | typing.SupportsIndex | None = None,
    protein_factor: typing.SupportsFloat | typing.SupportsIndex = 6.25,
    values: collections.abc.Mapping[
        str,
        typing.SupportsFloat
        | typing.SupportsIndex
        | tuple[
            typing.SupportsFloat | typing.SupportsIndex,
            typing.SupportsFloat | typing.SupportsIndex,
            typing.SupportsFloat | typing.SupportsIndex,
        ],
    ] = {},
    like: Feedstock | str | None = None,
    roles: collections.abc.Sequence[str] | None = None,
    stance: str | None = None,
    decay_class: str | None = None,
    note: str = "",
) -> tuple[Feedstock, list[str]]:
    """
    A feedstock from the nutrition label of a food.

    All numbers are fractions of the wet mass (8.5 g in 100 g is 0.085). Carbon follows from the
    macronutrients, nitrogen from protein over its factor.

    Parameters
    ----------
    name : str
        What you call it.
    protein, fat, carbohydrate : float
        As the label says, over 100.
    carbohydrate_has_fibre : bool
        True for carbohydrate by difference (US tables), False where fibre stands beside it (EU).
    sugars, fibre, water, ash, salt, sodium : float, optional
        As the label says, over 100. Water that is not given is what the other parts leave.
    protein_factor : float
        Protein over nitrogen that the label's maker used.
    values, like, roles, stance, decay_class, note
        What else is known, as for ``own_feedstock``.

    Returns
    -------
    (Feedstock, list of str)
        The feedstock, and what was taken for granted in making it.

    Raises
    ------
    FeedValueError
        Parts that are more than the whole, and every other problem at once.

    Examples
    --------
    >>> bread, said = libfeed.feedstock_from_label(
    ...     "rye bread", protein=0.085, fat=0.033, carbohydrate=0.483, fibre=0.058, water=0.373)
    >>> 20 < bread["cn_ratio"].value < 40
    True
    """

def feedstock_from_report(
    name: str,
    *,
    moisture: typing.SupportsFloat | typing.SupportsIndex,
    basis: str = "dry",
    carbon: typing.SupportsFloat | typing.SupportsIndex | None = None,
    nitrogen: typing.SupportsFloat | typing.SupportsIndex | None = None,
    cn_ratio: typing.SupportsFloat | typing.SupportsIndex | None = None,
    ash: typing.SupportsFloat | typing.SupportsIndex | None = None,
    volatile_solids: typing.SupportsFloat | typing.SupportsIndex | None = None,
    values: collections.abc.Mapping[
        str,
        typing.SupportsFloat
        | typing.SupportsIndex
        | tuple[
            typing.SupportsFloat | typing.SupportsIndex,
            typing.SupportsFloat | typing.SupportsIndex,
            typing.SupportsFloat | typing.SupportsIndex,
        ],
    ] = {},
    like: Feedstock | str | None = None,
    roles: collections.abc.Sequence[str] | None = None,
    stance: str | None = None,
    decay_class: str | None = None,
    note: str = "",
) -> tuple[Feedstock, list[str]]:
    """
    A feedstock from a laboratory report.

    Parameters
    ----------
    name : str
        What you call it.
    moisture : float
        Water over wet mass, 0 to 1.
    basis : {"dry", "as received"}
        What the other fractions are relative to.
    carbon, nitrogen, ash, volatile_solids : float, optional
        Fractions 0 to 1 of the mass named by ``basis``. Carbon is taken as volatile solids over 1.8
        (Adams et al. 1951) only where the report gives nothing better.
    cn_ratio : float, optional
        kg carbon per kg nitrogen.
    values, like, roles, stance, decay_class, note
        What else is known, as for ``own_feedstock``.

    Returns
    -------
    (Feedstock, list of str)
        The feedstock, and what was taken for granted in making it.

    Examples
    --------
    >>> manure, said = libfeed.feedstock_from_report(
    ...     "stable manure", moisture=0.72, carbon=0.38, nitrogen=0.016)
    >>> round(manure["cn_ratio"].value, 2)
    23.75
    """

def feedstocks() -> list[Feedstock]:
    """
    Every feedstock of the table.

    Returns
    -------
    list of Feedstock
        In the order of the table.
    """

def fit_first_order(
    elapsed_days: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    lost: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
) -> FirstOrderFit:
    """
    Fits first-order loss, or gas release, by unweighted least squares.

    Parameters
    ----------
    elapsed_days : array of float
        Days since the start, above 0.
    lost : array of float
        What has gone by then, in any one unit.

    Returns
    -------
    FirstOrderFit

    Raises
    ------
    FeedValueError
        Fewer than three points, or points that do not flatten out.

    Notes
    -----
    The form is that of biochemical oxygen demand (Bates and Watts 1988, appendix A4.1).

    Examples
    --------
    >>> days, oxygen = [1, 2, 3, 4, 5, 7], [8.3, 10.3, 19.0, 16.0, 15.6, 19.8]
    >>> libfeed.fit_first_order(days, oxygen)
    <FirstOrderFit 0.531 per day, plateau 19.1>
    """

def forecast(
    bed: Bed,
    feedings: collections.abc.Sequence[Feeding],
    *,
    days: typing.SupportsInt | typing.SupportsIndex = 28,
    humidity: typing.SupportsFloat | typing.SupportsIndex = 0.6,
    calibration: Calibration | None = None,
) -> Forecast:
    """
    The bed day by day, with an envelope.

    Parameters
    ----------
    bed : Bed
        The bed on day 0.
    feedings : sequence of Feeding
        From day 0 on, in any order; negative days are earlier feedings.
    days : int
        How far, 1 to 366 days.
    humidity : float
        Of the air around the bed, 0 to 1.
    calibration : Calibration, optional
        The bin's own rates.

    Returns
    -------
    Forecast
        Rates: labile 0.22, cellulosic 0.07, lignin-like 0.014 a day at 25 C; see docs/forecast.md.

    Examples
    --------
    >>> bed = libfeed.Bed(container="tote", worms_wet_kg=0.5, temperature_c=20)
    >>> ahead = libfeed.forecast(bed, [libfeed.Feeding(0, ["500 g kitchen scraps"])], days=14)
    >>> len(ahead.moisture)
    15
    """

def hazard_limits() -> dict[str, tuple[float, float, str, str]]:
    """
    The limits of the check that do not depend on the species.

    Returns
    -------
    dict of str to (float, float, str, str)
        By name: where it begins to matter, where to act, the unit, the source.

    Examples
    --------
    >>> watch, act, unit, source = libfeed.hazard_limits()["salt"]
    >>> watch < act
    True
    """

def look_up(words: str) -> Found:
    """
    The feedstock of the table that words mean, and what else they may mean.

    Parameters
    ----------
    words : str
        A name, alias or id in any case, number and order of words.

    Returns
    -------
    Found

    Raises
    ------
    FeedNameError
        Nothing is called that (``allowed`` has the nearest names), or several things are.

    Examples
    --------
    >>> found = libfeed.look_up("apple")
    >>> found.part
    'whole'
    >>> [other.part for other in found.alternatives]
    ['core', 'flesh']
    """

def own_feedstock(
    name: str,
    *,
    values: collections.abc.Mapping[
        str,
        typing.SupportsFloat
        | typing.SupportsIndex
        | tuple[
            typing.SupportsFloat | typing.SupportsIndex,
            typing.SupportsFloat | typing.SupportsIndex,
            typing.SupportsFloat | typing.SupportsIndex,
        ],
    ] = {},
    like: Feedstock | str | None = None,
    roles: collections.abc.Sequence[str] | None = None,
    stance: str | None = None,
    decay_class: str | None = None,
    cautions: collections.abc.Sequence[str] | None = None,
    measures_wet_kg: collections.abc.Mapping[str, typing.SupportsFloat | typing.SupportsIndex] = {},
    note: str = "",
) -> tuple[Feedstock, list[str]]:
    """
    A feedstock of your own: all of it, or what differs from one it is like.

    Parameters
    ----------
    name : str
        What you call it.
    values : dict of str to float or (float, float, float)
        By the key of the property, in its stored unit (fractions 0 to 1): the value, or low,
        value and high. Of carbon, nitrogen and C:N the given ones stand and the others follow.
    like : Feedstock or str, optional
        A feedstock to start from.
    roles : list of str, optional
        scraps, bedding, amendment, water.
    stance : str, optional
        feed, feed little or avoid.
    decay_class : str, optional
        inert, fast, medium, slow or very slow.
    cautions : list of str, optional
        Warnings that belong to it.
    measures_wet_kg : dict of str to float, optional
        Wet kg of one piece, handful ...
    note : str, optional
        What a keeper should know.

    Returns
    -------
    (Feedstock, list of str)
        The feedstock, and what was taken for granted in making it.

    Raises
    ------
    FeedValueError
        Every problem at once: per cent where a fraction is due, numbers that contradict.

    Examples
    --------
    >>> husks, said = libfeed.own_feedstock(
    ...     "cocoa husks", values={"moisture": 0.12, "carbon": 0.46, "nitrogen": 0.025})
    >>> round(husks["cn_ratio"].value, 1)
    18.4
    """

def plan_trial(file: FeedFile) -> TrialPlan:
    """
    Plans the trial of a feed file: places from a seed, equal portions, days to look, power.

    Parameters
    ----------
    file : FeedFile
        With a section ``trial``.

    Returns
    -------
    TrialPlan

    Raises
    ------
    FeedError
        No trial in the file, or one that cannot be.

    Examples
    --------
    >>> text = "libfeed: 1\\ntrial: {feeds: [watermelon rind, pumpkin], bins: 6, seed: 7}\\n"
    >>> libfeed.plan_trial(libfeed.read_feed_text(text))
    <TrialPlan of 12 plots, seed 7>
    """

def portion(
    text: str,
    *,
    containers: collections.abc.Sequence[
        tuple[str, typing.SupportsFloat | typing.SupportsIndex]
    ] = [],
) -> Portion:
    """
    The portion that a text means.

    Parameters
    ----------
    text : str
        An amount and a feedstock: "1.2 kg coffee grounds", "6 apples".
    containers : list of (str, float), optional
        Vessels of your own and their volumes in litres.

    Returns
    -------
    Portion

    Examples
    --------
    >>> libfeed.portion("1.2 kg coffee grounds")
    <Portion 1.2 kg coffee-grounds, 1.2 kg>
    """

def portions(
    text: str,
    *,
    containers: collections.abc.Sequence[
        tuple[str, typing.SupportsFloat | typing.SupportsIndex]
    ] = [],
) -> list[Portion]:
    """
    The portions that a text means, as people write what they have.

    Parameters
    ----------
    text : str
        One thing or several: "3 apples, a cup of coffee grounds and 2 banana peels".
    containers : list of (str, float), optional
        Vessels of your own and their volumes in litres.

    Returns
    -------
    list of Portion
        In the order of the text; what is never fed is among them.

    Raises
    ------
    FeedNameError, FeedValueError
        What has to be asked: an unknown name, an amount with two readings, no amount.

    Examples
    --------
    >>> [portion.feedstock.id for portion in libfeed.portions("3 apples and 2 banana peels")]
    ['apple-whole', 'banana-peel']
    """

def ration(
    bed: Bed,
    at_hand: collections.abc.Sequence[Portion | Entry | str] = [],
    *,
    date: datetime.date | str | None = None,
    spread_m2: typing.SupportsFloat | typing.SupportsIndex | None = None,
    calibration: Calibration | None = None,
    units: str = "metric",
    containers: collections.abc.Sequence[
        tuple[str, typing.SupportsFloat | typing.SupportsIndex]
    ] = [],
) -> Ration:
    """
    What to put into a bed today, from the bed as it stands and what is at hand.

    Parameters
    ----------
    bed : Bed
        The bed as it stands today, with its earlier feedings; what it leaves out is assumed.
    at_hand : sequence of Portion, Entry or str
        "500 g carrot": so much at most; "shredded cardboard": as much as is wanted. An ``Entry`` with
        a ``use_up_priority`` is used first. Without scraps the answer is for soft mixed ones.
    date : datetime.date or str, optional
        Today, so that the answer names days.
    spread_m2 : float, optional
        Surface over which the food is laid, m2.
    calibration : Calibration, optional
        The bin's own rates.
    units : {"metric", "us"}
        Units in which amounts are rounded.
    containers : list of (str, float), optional
        Vessels of your own and their volumes in litres.

    Returns
    -------
    Ration
        Follow local codes first; nothing here says that pathogens are killed. What was seen lately,
        alarms among it, is only in a diary: ``FeedFile.ration`` heeds it.

    Examples
    --------
    >>> bed = libfeed.Bed(container="tote", worms_wet_kg=0.5, squeeze="drops", age_days=365)
    >>> today = libfeed.ration(bed, ["300 g carrot", "shredded cardboard"])
    >>> today.answer, today.scraps_wet_kg
    ('feed', 0.3)
    """

def read_feed_file(path: os.PathLike[str] | str | bytes) -> FeedFile:
    """
    Reads a feed file (YAML or JSON).

    Parameters
    ----------
    path : str or os.PathLike[str]
        File of at most 8 MB.

    Returns
    -------
    FeedFile

    Raises
    ------
    FeedFileError
        The file cannot be read.
    FeedError
        Every problem of its content at once, each with line and column.
    """

def read_feed_text(text: str, *, name: str = "text") -> FeedFile:
    """
    Reads the text of a feed file (YAML or JSON).

    Parameters
    ----------
    text : str
        The text.
    name : str
        What errors call it.

    Returns
    -------
    FeedFile

    Raises
    ------
    FeedError
        Every problem at once, each with line and column.

    Examples
    --------
    >>> file = libfeed.read_feed_text("libfeed: 1\\nblend:\\n  - 1.2 kg coffee grounds\\n")
    >>> file.blend
    [<Portion 1.2 kg coffee-grounds, 1.2 kg>]
    """

def read_trial(file: FeedFile) -> TrialReading:
    """
    Reads the trial of a feed file from the looks in its observations.

    Parameters
    ----------
    file : FeedFile
        With a section ``trial`` that has seed, start and last day.

    Returns
    -------
    TrialReading

    Raises
    ------
    FeedError
        No trial in the file, or seed, start or last day are missing.
    """

def search(words: str) -> list[Candidate]:
    """
    All feedstocks of the table that have every one of the words, or its start, in a name.

    Parameters
    ----------
    words : str
        Words or starts of words; an empty text gives the whole table.

    Returns
    -------
    list of Candidate
        In the order of the table.

    Examples
    --------
    >>> [one.id for one in libfeed.search("coffee grounds")]
    ['coffee-grounds']
    """

def source(id: str) -> Source:
    """
    The published source of an id.

    Parameters
    ----------
    id : str
        An id, alone or with its place, as in ``Value.sources``.

    Returns
    -------
    Source

    Examples
    --------
    >>> value = libfeed.feedstock("coffee grounds")["moisture"]
    >>> libfeed.source(value.sources.split()[0]).id in value.sources
    True
    """

def species_limits(species: str) -> dict[str, float]:
    """
    What a species likes and what it survives.

    Parameters
    ----------
    species : str
        eisenia fetida (and andrei), eisenia hortensis, perionyx excavatus, eudrilus eugeniae.

    Returns
    -------
    dict of str to float
        Temperatures in deg C, moistures 0 to 1. Sources: Edwards, Kaplan et al. 1980, Muyima et al.
        1994, Hallatt et al. 1992, Viljoen and Reinecke; see docs/bed.md.
    """

def target_set(name: str) -> list[Target]:
    """
    A ready set of targets, each with its source.

    Parameters
    ----------
    name : {"worm-bed", "hot-heap"}
        For a feeding to a worm bed with its bedding, or for a small heap that shall heat.

    Returns
    -------
    list of Target

    Examples
    --------
    >>> [target.key for target in libfeed.target_set("hot-heap")]
    ['cn_ratio', 'moisture', 'free_air_space']
    """

def with_observation(text: str, observation: Observation, *, name: str = "text") -> str:
    """
    The text of a feed file with one more observation; all else stays as its keeper wrote it.

    Parameters
    ----------
    text : str
        A feed file as YAML.
    observation : Observation
        What was seen.
    name : str
        What errors call the text.

    Returns
    -------
    str

    Raises
    ------
    FeedError
        The text has errors, or its observations are not a list in lines.

    Examples
    --------
    >>> print(libfeed.with_observation("libfeed: 1\\n", libfeed.Observation("2026-03-20", gone=True)))
    libfeed: 1
    <BLANKLINE>
    observations:
      - date: 2026-03-20
        gone: true
    <BLANKLINE>
    """

TABLE_CONTENT_SHA256: str
TABLE_LAYOUT_VERSION: int
TABLE_VERSION: str
__version__: str

"""Answers as pandas tables, for those who have pandas."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ._core import Answer, Blend, CheckResult, Feedstock, Forecast, Ration, TrialPlan, TrialReading

if TYPE_CHECKING:
    import pandas as pd


def _quantity_rows(quantities: dict[str, Any]) -> list[dict[str, Any]]:
    """A row for each computed quantity of an answer."""
    rows = []
    for key, quantity in quantities.items():
        if isinstance(quantity, dict) and ("value" in quantity or "at_least" in quantity):
            rows.append({"quantity": key, **quantity})
    return rows


def _feedstock_rows(feedstocks: list[Feedstock]) -> list[dict[str, Any]]:
    rows = []
    for one in feedstocks:
        row: dict[str, Any] = {"id": one.id, "name": one.name, "group": one.group}
        row.update({key: value.value for key, value in one.values.items()})
        rows.append(row)
    return rows


def _hazard_rows(result: CheckResult) -> list[dict[str, Any]]:
    return [
        {
            "hazard": word,
            "level": finding.level,
            "value": finding.value.value,
            "limit": finding.limit,
            "unit": finding.unit,
            "why": finding.why,
        }
        for word, finding in result.hazards.items()
    ]


def _ration_rows(ration: Ration) -> list[dict[str, Any]]:
    return [
        {
            "feedstock": one.feedstock,
            "label": one.label,
            "part": one.part,
            "wet_kg": one.wet_kg,
            "measure": one.measure,
            "at_hand": one.at_hand,
        }
        for one in ration.put_in
    ]


def _forecast_columns(ahead: Forecast) -> dict[str, Any]:
    columns: dict[str, Any] = {}
    for key in ahead.series:
        columns[key] = ahead[key].value
        columns[f"{key}_low"] = ahead[key].low
        columns[f"{key}_high"] = ahead[key].high
    return columns


def _plot_rows(plots: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """A row for each plot; of an interval its two ends."""
    rows = []
    for plot in plots:
        row: dict[str, Any] = {}
        for key, value in plot.items():
            if isinstance(value, dict):
                row[f"{key}_after_days"] = value["after_days"]
                row[f"{key}_by_days"] = value["by_days"]
            else:
                row[key] = value
        rows.append(row)
    return rows


def to_pandas(
    answer: Answer
    | Blend
    | CheckResult
    | Forecast
    | Ration
    | TrialPlan
    | TrialReading
    | list[Feedstock],
) -> pd.DataFrame:
    """An answer, or feedstocks, as a pandas table.

    Parameters
    ----------
    answer : Blend, Answer, CheckResult, Ration, Forecast, TrialPlan, TrialReading, or Feedstocks
        A blend gives a row a quantity, a balance a row a target, a check a row a hazard, a ration
        a row a thing that goes in, a forecast a row a day, a trial a row a plot, feedstocks a row
        each.

    Returns
    -------
    pandas.DataFrame
        Units are in the names; fractions run from 0 to 1; what is unknown is missing.

    Raises
    ------
    ImportError
        pandas is not installed.
    """
    import pandas as pd

    table: pd.DataFrame
    if isinstance(answer, Forecast):
        table = pd.DataFrame(_forecast_columns(answer)).rename_axis("day")
    elif isinstance(answer, (TrialPlan, TrialReading)):
        table = pd.DataFrame(_plot_rows(answer.to_dict()["plots"])).set_index("plot")
    elif isinstance(answer, Ration):
        table = pd.DataFrame(
            _ration_rows(answer),
            columns=["feedstock", "label", "part", "wet_kg", "measure", "at_hand"],
        ).set_index("feedstock")
    elif isinstance(answer, CheckResult):
        table = pd.DataFrame(_hazard_rows(answer)).set_index("hazard")
    elif isinstance(answer, Blend):
        table = pd.DataFrame(_quantity_rows(answer.to_dict())).set_index("quantity")
    elif isinstance(answer, Answer):
        table = pd.DataFrame(_quantity_rows(answer.to_dict()["reached"])).set_index("quantity")
    else:
        table = pd.DataFrame(_feedstock_rows(answer)).set_index("id")
    return table

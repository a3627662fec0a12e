"""The picture of a forecast, day by day."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from .._core import Forecast, hazard_limits, species_limits
from ._style import BLUE, GREEN, GREY, RED, SKY, tidy

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure


def _panel(axes: Axes, ahead: Forecast, key: str, label: str, scale: float) -> None:
    series = ahead[key]
    days = np.arange(len(series))
    axes.fill_between(
        days,
        scale * series.low,
        scale * series.high,
        facecolor=SKY,
        alpha=0.35,
        linewidth=0,
        label="range",
    )
    axes.plot(days, scale * series.value, color=BLUE, linewidth=1.8, label="typical")
    axes.set_ylabel(label, fontsize=9)
    axes.set_xlim(-0.3, len(series) - 1)
    tidy(axes)


def _limit(axes: Axes, level: float, text: str) -> None:
    low, high = axes.get_ylim()
    room = 0.14 * (high - low)  # for the words above the line
    axes.set_ylim(min(low, level - 0.25 * room), max(high, level + room))
    axes.axhline(level, color=RED, linewidth=1.2, linestyle="--")
    axes.annotate(
        text,
        (1.0, level),
        xycoords=("axes fraction", "data"),
        xytext=(-4, 2),
        textcoords="offset points",
        ha="right",
        fontsize=7.5,
        color=RED,
    )


def forecast(
    ahead: Forecast, *, species: str = "eisenia fetida", next_feeding_day: int | None = None
) -> Figure:
    """Draws a forecast day by day with its envelope and the limits of the worms.

    Parameters
    ----------
    ahead : Forecast
        The forecast.
    species : str
        Whose limits are drawn.
    next_feeding_day : int, optional
        Marked in the picture: that of the ration (``Ration.next_feeding_day``).

    Returns
    -------
    matplotlib Figure
    """
    import matplotlib.pyplot as plt
    from matplotlib.lines import Line2D

    limits = species_limits(species)
    acid = hazard_limits()["acid"]
    figure, panels = plt.subplots(4, 1, figsize=(6.4, 8.4), sharex=True, layout="constrained")
    moisture, heat, food, sour = panels
    _panel(moisture, ahead, "moisture", "moisture, %", 100.0)
    _limit(moisture, 100 * limits["wettest_moisture"], "too wet above")
    _limit(moisture, 100 * limits["driest_moisture"], "too dry below")
    _panel(heat, ahead, "temperature_c", "temperature, deg C", 1.0)
    _limit(heat, limits["warmest_c"], "too warm above")
    _panel(food, ahead, "food_left_wet_kg", "food left, wet kg", 1.0)
    food.set_ylim(bottom=0)
    _panel(sour, ahead, "acid_g_per_air_litre", f"acid, {acid[2]}", 1.0)
    _limit(sour, acid[0], "watch above")
    _limit(sour, acid[1], "act above")
    sour.set_ylim(bottom=0)
    for panel in panels:
        for day in ahead.feeding_days:
            panel.axvline(day, color=GREY, linewidth=1.0, linestyle=":")
        if next_feeding_day is not None:
            panel.axvline(next_feeding_day, color=GREEN, linewidth=1.6, linestyle="-.")
    handles, labels = moisture.get_legend_handles_labels()
    handles.append(Line2D([], [], color=GREY, linestyle=":"))
    labels.append("feeding")
    if next_feeding_day is not None:
        handles.append(Line2D([], [], color=GREEN, linestyle="-."))
        labels.append(f"next feeding, day {next_feeding_day}")
    figure.legend(handles, labels, loc="outside upper center", ncols=4, fontsize=8, frameon=False)
    sour.set_xlabel("day")
    figure.align_ylabels()
    return figure

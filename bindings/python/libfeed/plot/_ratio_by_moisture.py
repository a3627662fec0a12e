"""The plane of C:N ratio by moisture, with what the targets ask for in it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from .._core import Target
from ._style import GREEN, legend_above, tidy

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def draw_window(axes: Axes, targets: Sequence[Target], name: str = "targets") -> None:
    """The frame of what is asked for, and the aims in it, where there are both targets."""
    window = _window(axes, targets)
    if window is None:
        return
    left, right, low, high = window
    axes.fill(
        [left, right, right, left],
        [low, low, high, high],
        facecolor="none",
        edgecolor=GREEN,
        linewidth=1.8,
        linestyle="--",
        label=name,
        zorder=3,
    )
    aims = {target.key: target.aim for target in targets}
    moisture, ratio = aims["moisture"], aims["cn_ratio"]
    if moisture is not None and ratio is not None:
        axes.plot(
            100 * moisture,
            ratio,
            "+",
            color=GREEN,
            markersize=12,
            markeredgewidth=2,
            linestyle="none",
            label="aims",
            zorder=3,
        )


def _window(axes: Axes, targets: Sequence[Target]) -> tuple[float, float, float, float] | None:
    """Left, right, lowest and highest of the targets in the picture, where both are given."""
    by_key = {target.key: target for target in targets}
    moisture, ratio = by_key.get("moisture"), by_key.get("cn_ratio")
    if moisture is None or ratio is None:
        return None
    return (
        0.0 if moisture.low is None else 100 * moisture.low,
        100.0 if moisture.high is None else 100 * moisture.high,
        axes.get_ylim()[0] if ratio.low is None else ratio.low,
        axes.get_ylim()[1] if ratio.high is None else ratio.high,
    )


def window_outline(axes: Axes, targets: Sequence[Target]) -> list[tuple[float, float]]:
    """Points on the frame of the targets, for labels to keep off."""
    window = _window(axes, targets)
    if window is None:
        return []
    left, right, low, high = window
    across = [(x, y) for x in np.linspace(left, right, 12).tolist() for y in (low, high)]
    return across + [(x, y) for y in np.geomspace(low, high, 12).tolist() for x in (left, right)]


def finish_axes(axes: Axes) -> None:
    """Scales, names and the legend, once everything that the legend tells is drawn."""
    _ratio_scale(axes)
    axes.set_xlabel("moisture, % of wet mass")
    axes.set_ylabel("C:N ratio, carbon to nitrogen by mass")
    tidy(axes)
    legend_above(axes, ncols=3, borderpad=0.2)


def _ratio_scale(axes: Axes) -> None:
    from matplotlib.ticker import FixedLocator, NullLocator, StrMethodFormatter

    ticks = [0.5, 1, 2, 5, 10, 20, 30, 50, 100, 200, 500, 1000, 2000, 5000]
    axes.yaxis.set_major_locator(FixedLocator(ticks))
    axes.yaxis.set_minor_locator(NullLocator())
    axes.yaxis.set_major_formatter(StrMethodFormatter("{x:g}"))

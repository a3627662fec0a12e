"""The picture of feedstocks by C:N ratio and moisture."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from .._core import Feedstock, feedstocks, target_set
from ._labels import place_labels
from ._ratio_by_moisture import draw_window, finish_axes
from ._style import BLUE, GREEN, ORANGE, PURPLE, RED, SKY, axes_or_new

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_GROUPS = {
    "scraps": (GREEN, "o"),
    "beddings": (ORANGE, "s"),
    "manures": (PURPLE, "D"),
    "amendments": (SKY, "^"),
    "water": (BLUE, "v"),
    "guarded": (RED, "X"),
}


def feedstock_map(
    materials: Sequence[Feedstock] | None = None,
    *,
    label: Sequence[str] = (),
    axes: Axes | None = None,
) -> Axes:
    """Draws feedstocks by C:N ratio and moisture.

    Parameters
    ----------
    materials : sequence of Feedstock, optional
        What to draw; the whole table where it is left out. Those without C:N are left out.
    label : sequence of str
        Ids of the feedstocks to name; all where there are at most 25.
    axes : matplotlib Axes, optional
        Where to draw.

    Returns
    -------
    matplotlib Axes
    """
    shown = list(feedstocks() if materials is None else materials)
    axes = axes_or_new(axes, 7.2, 5.4)
    axes.set_yscale("log")
    named: list[tuple[float, float, str]] = []
    everything: list[tuple[float, float]] = []
    for group, (colour, marker) in _GROUPS.items():
        points = [
            (100 * one["moisture"].value, one["cn_ratio"].value, one)
            for one in shown
            if one.group == group and one.get("moisture") and one.get("cn_ratio")
        ]
        if not points:
            continue
        axes.scatter(
            [point[0] for point in points],
            [point[1] for point in points],
            c=colour,
            marker=marker,
            s=30,
            alpha=0.75,
            edgecolors="black",
            linewidths=0.5,
            label=group,
        )
        everything += [point[:2] for point in points]
        wanted = [point for point in points if point[2].id in label or len(shown) <= 25]
        named += [(x, y, one.name.split(",")[0]) for x, y, one in wanted]
    axes.set_xlim(-3, 103)
    draw_window(axes, target_set("worm-bed"), "worm-bed targets, for a whole feeding")
    finish_axes(axes)
    axes.plot(
        [x for x, _, _ in named],
        [y for _, y, _ in named],
        "o",
        markersize=10,
        markerfacecolor="none",
        markeredgecolor="black",
        linestyle="none",
    )
    place_labels(axes, named, everything)
    return axes

"""The picture of a trial."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .._core import TrialComparison
from ._style import BLUE, GREEN, GREY, PURPLE, RED, axes_or_new, legend_above, tidy

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def trial(comparison: TrialComparison, *, axes: Axes | None = None) -> Axes:
    """Draws how much of each feed of a trial was still there day by day.

    Parameters
    ----------
    comparison : TrialComparison
        The trial.
    axes : matplotlib Axes, optional
        Where to draw.

    Returns
    -------
    matplotlib Axes
        Kaplan-Meier curves, told apart by line, mark and colour.
    """
    axes = axes_or_new(axes, 6.4, 4.2)
    looks = [
        (BLUE, "-", "o"),
        (RED, "--", "s"),
        (GREEN, "-.", "^"),
        (PURPLE, ":", "D"),
    ]
    for place, label in enumerate(comparison.labels):
        colour, line, mark = looks[place % len(looks)]
        steps = comparison.curves[label]
        median = comparison.median_days[label]
        axes.step(
            [0.0, *(step.day for step in steps)],
            [100.0, *(100 * step.share_left for step in steps)],
            where="post",
            color=colour,
            linestyle=line,
            linewidth=1.8,
            marker=mark,
            markersize=5,
            label=label if median is None else f"{label}: half gone by day {median:g}",
        )
    axes.axhline(50, color=GREY, linewidth=1.0, linestyle=(0, (1, 3)))
    axes.set_ylim(-3, 103)
    axes.set_xlim(left=0)
    axes.set_xlabel("days after the feeding")
    axes.set_ylabel("portions still there, %")
    tidy(axes)
    legend_above(
        axes,
        ncols=2,
        title=f"log-rank p = {comparison.p_value:.2g}",
        title_fontsize=8,
        alignment="left",
    )
    return axes

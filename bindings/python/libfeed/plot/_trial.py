"""The picture of a trial."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .._core import TrialReading
from ._style import BLUE, GREEN, PURPLE, RED, axes_or_new, legend_above, tidy

if TYPE_CHECKING:
    from matplotlib.axes import Axes

MARKS = "os^Dv<>P"


def trial(reading: TrialReading, *, axes: Axes | None = None) -> Axes:
    """Draws between which looks each portion of a trial was gone.

    Parameters
    ----------
    reading : TrialReading
        The trial.
    axes : matplotlib Axes, optional
        Where to draw.

    Returns
    -------
    matplotlib Axes
        A bar for each portion, from the last look with some to the first without; feeds told apart
        by line, place and colour, bins by the mark. What is not gone yet has an open end.
    """
    axes = axes_or_new(axes, 6.4, 4.2)
    looks = [(BLUE, "-"), (RED, "--"), (GREEN, "-."), (PURPLE, ":")]
    plots = reading.to_dict()["plots"]
    bins = list(dict.fromkeys(plot["bin"] for plot in plots))
    names: list[str] = []
    row = 0
    for place, label in enumerate(reading.feeds):
        colour, line = looks[place]
        for plot in (one for one in plots if one["feed"] == label):
            after, by = plot["gone"]["after_days"], plot["gone"]["by_days"]
            end = after if by is None else by
            axes.plot(
                [after, end],
                [row, row],
                color=colour,
                linestyle=line,
                linewidth=2.4,
                marker=MARKS[bins.index(plot["bin"]) % len(MARKS)],
                markevery=[1],
                markerfacecolor="white" if by is None else colour,
                label=label if plot is next(p for p in plots if p["feed"] == label) else None,
            )
            names.append(f"{plot['plot']}, {plot['bin']}")
            row += 1
    axes.set_yticks(range(row), names, fontsize=7)
    axes.invert_yaxis()
    axes.set_xlim(left=0)
    axes.set_xlabel("days after laying; an open mark is not gone yet")
    axes.set_ylabel("plot and bin")
    tidy(axes)
    legend_above(axes, ncols=2)
    return axes

"""What can be reached with what is at hand, as numbers and as a picture."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from .._core import Answer, Problem, Target
from ._labels import place_labels
from ._ratio_by_moisture import draw_window, finish_axes, window_outline
from ._style import BLUE, GREY, RED, SKY, axes_or_new

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def _extreme(problem: Problem, total_kg: float, targets: Sequence[Target]) -> Answer | None:
    """The answer of the same amounts with other targets, or None where there is none."""
    whole = Target("total_wet_kg", high=total_kg)
    answer = Problem(problem.entries, targets=[whole, *targets], target_set=None).solve()
    return answer if answer.solved else None


def _edge(problem: Problem, total_kg: float, moisture: float, cn_aim: float) -> float | None:
    """Lowest or highest C:N at one moisture, whichever lies towards the aim."""
    answer = _extreme(
        problem,
        total_kg,
        [Target("moisture", low=moisture, high=moisture), Target("cn_ratio", aim=cn_aim)],
    )
    return None if answer is None else answer.blend.cn_ratio.value


def reachable_region(
    problem: Problem, *, total_wet_kg: float, points: int = 40
) -> tuple[list[float], list[float], list[float]]:
    """The C:N ratios that can be reached at each moisture with what is at hand.

    Every point of the edge is a balance of its own: exact, not sampled.

    Parameters
    ----------
    problem : Problem
        Its amounts count, its targets do not.
    total_wet_kg : float
        The most that the whole may weigh, kg: what is at hand in any amount needs an end.
    points : int
        Number of moistures, at least 3.

    Returns
    -------
    (list of float, list of float, list of float)
        Moistures from 0 to 1, lowest and highest C:N ratio at each.
    """
    ends = []
    for aim in (0.0, 1.0):
        answer = _extreme(problem, total_wet_kg, [Target("moisture", aim=aim)])
        moisture = None if answer is None else answer.blend.moisture.value
        if moisture is None:
            return [], [], []
        ends.append(moisture)
    moistures, lowest, highest = [], [], []
    for moisture in np.linspace(ends[0], ends[1], points).tolist():
        low = _edge(problem, total_wet_kg, moisture, 1.0)
        high = _edge(problem, total_wet_kg, moisture, 1000.0)
        if low is not None and high is not None:
            moistures.append(moisture)
            lowest.append(low)
            highest.append(high)
    return moistures, lowest, highest


def _entry_points(problem: Problem) -> list[tuple[float, float, str]]:
    """Where the feedstocks at hand lie themselves, those that have a C:N ratio."""
    points = []
    for entry in problem.entries:
        moisture, ratio = entry.feedstock.get("moisture"), entry.feedstock.get("cn_ratio")
        if moisture is not None and ratio is not None:
            points.append((100 * moisture.value, ratio.value, entry.label))
    return points


def reachable(
    problem: Problem, *, total_wet_kg: float | None = None, axes: Axes | None = None
) -> Axes:
    """Draws the C:N and moisture that what is at hand can reach, with the answer in it.

    Parameters
    ----------
    problem : Problem
        What is at hand and what is asked for.
    total_wet_kg : float, optional
        The most that the whole may weigh, kg; five times the answer where it is left out.
    axes : matplotlib Axes, optional
        Where to draw.

    Returns
    -------
    matplotlib Axes
    """
    answer = problem.solve()
    answer_kg = sum(portion.wet_kg for portion in answer.portions)
    fixed_kg = sum(entry.least_wet_kg for entry in problem.entries)
    total = total_wet_kg or 5.0 * max(answer_kg, fixed_kg)
    moistures, lowest, highest = reachable_region(problem, total_wet_kg=total)
    axes = axes_or_new(axes, 6.4, 4.6)
    axes.set_yscale("log")
    percent = [100 * moisture for moisture in moistures]
    axes.fill_between(
        percent,
        lowest,
        highest,
        facecolor=SKY,
        alpha=0.35,
        edgecolor=BLUE,
        linewidth=1.8,
        label=f"reachable, up to {total:.2g} kg in all",
    )
    at_hand = _entry_points(problem)
    axes.plot(
        [x for x, _, _ in at_hand],
        [y for _, y, _ in at_hand],
        "o",
        color=GREY,
        markersize=5,
        linestyle="none",
        label="at hand",
    )
    draw_window(axes, problem.targets)
    made = answer.blend
    if made.moisture.value is not None and made.cn_ratio.value is not None:
        axes.plot(
            100 * made.moisture.value,
            made.cn_ratio.value,
            "*",
            color=RED,
            markeredgecolor="black",
            markersize=15,
            linestyle="none",
            label="answer" if answer.solved else f"closest blend ({answer.status})",
        )
    finish_axes(axes)
    place_labels(axes, at_hand, window_outline(axes, problem.targets))
    return axes

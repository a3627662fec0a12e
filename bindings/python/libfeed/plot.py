"""Pictures of answers, for those who have matplotlib.

What is told apart by colour is also told apart by shape, line or words, in colours that people with
any colour vision can tell apart (Okabe and Ito 2008), and stays readable in grey print.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from ._core import (
    Answer,
    Feedstock,
    Forecast,
    Problem,
    Target,
    TrialComparison,
    feedstocks,
    hazard_limits,
    species_limits,
    target_set,
)

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_BLUE, _ORANGE, _GREEN, _PURPLE, _SKY, _RED, _GREY = (
    "#0072B2",
    "#E69F00",
    "#009E73",
    "#CC79A7",
    "#56B4E9",
    "#D55E00",
    "#595959",
)
_GROUPS = {
    "scraps": (_GREEN, "o"),
    "beddings": (_ORANGE, "s"),
    "manures": (_PURPLE, "D"),
    "amendments": (_SKY, "^"),
    "water": (_BLUE, "v"),
    "guarded": (_RED, "X"),
}


def _axes(axes: Axes | None, width: float, height: float) -> Axes:
    if axes is not None:
        return axes
    import matplotlib.pyplot as plt

    return plt.subplots(figsize=(width, height), layout="constrained")[1]


def _tidy(axes: Axes) -> None:
    axes.spines[["top", "right"]].set_visible(False)
    axes.grid(color="#DDDDDD", linewidth=0.6)
    axes.set_axisbelow(True)


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


def _draw_windows(axes: Axes, targets: Sequence[Target], name: str = "targets") -> None:
    window = _window(axes, targets)
    if window is None:
        return
    left, right, low, high = window
    axes.fill(
        [left, right, right, left],
        [low, low, high, high],
        facecolor="none",
        edgecolor=_GREEN,
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
            color=_GREEN,
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
    axes = _axes(axes, 6.4, 4.6)
    axes.set_yscale("log")
    percent = [100 * moisture for moisture in moistures]
    axes.fill_between(
        percent,
        lowest,
        highest,
        facecolor=_SKY,
        alpha=0.35,
        edgecolor=_BLUE,
        linewidth=1.8,
        label=f"reachable, up to {total:.2g} kg in all",
    )
    at_hand = _entry_points(problem)
    axes.plot(
        [x for x, _, _ in at_hand],
        [y for _, y, _ in at_hand],
        "o",
        color=_GREY,
        markersize=5,
        linestyle="none",
        label="at hand",
    )
    _draw_windows(axes, problem.targets)
    made = answer.blend
    if made.moisture.value is not None and made.cn_ratio.value is not None:
        axes.plot(
            100 * made.moisture.value,
            made.cn_ratio.value,
            "*",
            color=_RED,
            markeredgecolor="black",
            markersize=15,
            linestyle="none",
            label="answer" if answer.solved else f"closest blend ({answer.status})",
        )
    _ratio_scale(axes)
    axes.set_xlabel("moisture, % of wet mass")
    axes.set_ylabel("C:N ratio, carbon to nitrogen by mass")
    _tidy(axes)
    _legend_above(axes)
    _place_labels(axes, at_hand, _edges(axes, problem.targets))
    return axes


def _edges(axes: Axes, targets: Sequence[Target]) -> list[tuple[float, float]]:
    """Points on the frame of the targets, for labels to keep off."""
    window = _window(axes, targets)
    if window is None:
        return []
    left, right, low, high = window
    across = [(x, y) for x in np.linspace(left, right, 12).tolist() for y in (low, high)]
    return across + [(x, y) for y in np.geomspace(low, high, 12).tolist() for x in (left, right)]


def _legend_above(axes: Axes) -> None:
    """A legend that covers nothing."""
    axes.legend(
        fontsize=8,
        loc="lower left",
        bbox_to_anchor=(0.0, 1.0),
        ncols=3,
        frameon=False,
        borderpad=0.2,
    )


def _ratio_scale(axes: Axes) -> None:
    from matplotlib.ticker import FixedLocator, NullLocator, StrMethodFormatter

    ticks = [0.5, 1, 2, 5, 10, 20, 30, 50, 100, 200, 500, 1000, 2000, 5000]
    axes.yaxis.set_major_locator(FixedLocator(ticks))
    axes.yaxis.set_minor_locator(NullLocator())
    axes.yaxis.set_major_formatter(StrMethodFormatter("{x:g}"))


def _panel(axes: Axes, ahead: Forecast, key: str, label: str, scale: float) -> None:
    series = ahead[key]
    days = np.arange(len(series))
    axes.fill_between(
        days,
        scale * series.low,
        scale * series.high,
        facecolor=_SKY,
        alpha=0.35,
        linewidth=0,
        label="range",
    )
    axes.plot(days, scale * series.value, color=_BLUE, linewidth=1.8, label="typical")
    axes.set_ylabel(label, fontsize=9)
    axes.set_xlim(-0.3, len(series) - 1)
    _tidy(axes)


def _limit(axes: Axes, level: float, text: str) -> None:
    low, high = axes.get_ylim()
    room = 0.14 * (high - low)  # for the words above the line
    axes.set_ylim(min(low, level - 0.25 * room), max(high, level + room))
    axes.axhline(level, color=_RED, linewidth=1.2, linestyle="--")
    axes.annotate(
        text,
        (1.0, level),
        xycoords=("axes fraction", "data"),
        xytext=(-4, 2),
        textcoords="offset points",
        ha="right",
        fontsize=7.5,
        color=_RED,
    )


def forecast(ahead: Forecast, *, species: str = "eisenia fetida") -> Figure:
    """Draws a forecast day by day with its envelope and the limits of the worms.

    Parameters
    ----------
    ahead : Forecast
        The forecast.
    species : str
        Whose limits are drawn.

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
            panel.axvline(day, color=_GREY, linewidth=1.0, linestyle=":")
        if ahead.next_feeding_day is not None:
            panel.axvline(ahead.next_feeding_day, color=_GREEN, linewidth=1.6, linestyle="-.")
    handles, labels = moisture.get_legend_handles_labels()
    handles.append(Line2D([], [], color=_GREY, linestyle=":"))
    labels.append("feeding")
    if ahead.next_feeding_day is not None:
        handles.append(Line2D([], [], color=_GREEN, linestyle="-."))
        labels.append(f"next feeding, day {ahead.next_feeding_day}")
    figure.legend(handles, labels, loc="outside upper center", ncols=4, fontsize=8, frameon=False)
    sour.set_xlabel("day")
    figure.align_ylabels()
    return figure


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
    axes = _axes(axes, 6.4, 4.2)
    looks = [
        (_BLUE, "-", "o"),
        (_RED, "--", "s"),
        (_GREEN, "-.", "^"),
        (_PURPLE, ":", "D"),
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
    axes.axhline(50, color=_GREY, linewidth=1.0, linestyle=(0, (1, 3)))
    axes.set_ylim(-3, 103)
    axes.set_xlim(left=0)
    axes.set_xlabel("days after the feeding")
    axes.set_ylabel("portions still there, %")
    _tidy(axes)
    axes.legend(
        fontsize=8,
        loc="lower left",
        bbox_to_anchor=(0.0, 1.0),
        ncols=2,
        frameon=False,
        title=f"log-rank p = {comparison.p_value:.2g}",
        title_fontsize=8,
        alignment="left",
    )
    return axes


def _place_labels(
    axes: Axes,
    points: Sequence[tuple[float, float, str]],
    obstacles: Sequence[tuple[float, float]] = (),
) -> None:
    """Labels near their points and inside the picture: never on another label, on as few of the
    points and obstacles as can be, and near rather than far. A label without a place is left out.
    """
    from matplotlib.patheffects import withStroke
    from matplotlib.text import Text

    axes.figure.canvas.draw()
    frame = axes.get_window_extent()
    in_the_way = np.array([*((x, y) for x, y, _ in points), *obstacles]).reshape(-1, 2)
    pixels = axes.transData.transform(in_the_way)
    margin = 5.0 * axes.figure.dpi / 72.0
    taken: list[Any] = []
    offsets = [
        (side * across, up)
        for across in (8, 24, 44)
        for up in (4, -10, 16, -22, 30, -36)
        for side in (1, -1)
    ]
    for x, y, text in sorted(points, key=lambda point: point[1]):
        best: tuple[float, tuple[int, int], Any] | None = None
        for dx, dy in offsets:
            label = axes.annotate(
                text,
                (x, y),
                xytext=(dx, dy),
                textcoords="offset points",
                ha="left" if dx > 0 else "right",
                fontsize=8,
                path_effects=[withStroke(linewidth=2.5, foreground="white")],
                arrowprops={"arrowstyle": "-", "color": "black", "linewidth": 0.6, "shrinkB": 3},
                zorder=5,
            )
            label.get_window_extent()  # moves it to its place
            box = Text.get_window_extent(label)  # without the line to its point
            label.remove()
            inside = frame.contains(box.x0, box.y0) and frame.contains(box.x1, box.y1)
            if not inside or any(box.overlaps(other) for other in taken):
                continue
            covered = (
                (pixels[:, 0] > box.x0 - margin)
                & (pixels[:, 0] < box.x1 + margin)
                & (pixels[:, 1] > box.y0 - margin)
                & (pixels[:, 1] < box.y1 + margin)
            )
            cost = float(covered.sum()) + 0.04 * (abs(dx) + abs(dy))
            if best is None or cost < best[0]:
                best = (cost, (dx, dy), (label, box))
        if best is not None:
            axes.add_artist(best[2][0])
            taken.append(best[2][1])


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
    axes = _axes(axes, 7.2, 5.4)
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
    _draw_windows(axes, target_set("worm-bed"), "worm-bed targets, for a whole feeding")
    _ratio_scale(axes)
    axes.set_xlabel("moisture, % of wet mass")
    axes.set_ylabel("C:N ratio, carbon to nitrogen by mass")
    _tidy(axes)
    _legend_above(axes)
    axes.plot(
        [x for x, _, _ in named],
        [y for _, y, _ in named],
        "o",
        markersize=10,
        markerfacecolor="none",
        markeredgecolor="black",
        linestyle="none",
    )
    _place_labels(axes, named, everything)
    return axes

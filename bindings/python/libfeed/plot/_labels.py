"""Labels beside points, none on another."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def place_labels(
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

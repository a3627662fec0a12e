"""What the pictures share: their colours, axes to draw on and the look of these."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from matplotlib.axes import Axes

BLUE, ORANGE, GREEN, PURPLE, SKY, RED, GREY = (
    "#0072B2",
    "#E69F00",
    "#009E73",
    "#CC79A7",
    "#56B4E9",
    "#D55E00",
    "#595959",
)


def axes_or_new(axes: Axes | None, width: float, height: float) -> Axes:
    """The axes that were given, or those of a new figure of so many inches."""
    if axes is not None:
        return axes
    import matplotlib.pyplot as plt

    return plt.subplots(figsize=(width, height), layout="constrained")[1]


def tidy(axes: Axes) -> None:
    """A light grid behind what is drawn, and no frame above and at the right."""
    axes.spines[["top", "right"]].set_visible(False)
    axes.grid(color="#DDDDDD", linewidth=0.6)
    axes.set_axisbelow(True)


def legend_above(axes: Axes, **look: Any) -> None:
    """A legend that covers nothing; ``look`` as in ``Axes.legend``."""
    axes.legend(fontsize=8, loc="lower left", bbox_to_anchor=(0.0, 1.0), frameon=False, **look)

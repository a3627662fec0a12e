"""Draws how the time of a balance grows with the feedstocks, from what bench_balance prints.

Usage: bench_balance | plot_balance_growth.py docs/balance_growth.svg
"""

from __future__ import annotations

import math
import re
import sys
from pathlib import Path

LINE = re.compile(r"^(closest to \w+) +(\d+) feedstocks +([\d.]+) us")
WIDTH, HEIGHT, LEFT, TOP, RIGHT, BOTTOM = 640, 400, 70, 20, 150, 50
FEEDSTOCKS = (4, 200)
MICROSECONDS = (0.1, 1000.0)
COLOURS = {"closest to usual": "#1b6ca8", "closest to aims": "#b4501e"}


def place(feedstocks: float, microseconds: float) -> tuple[float, float]:
    """Both axes are logarithmic."""

    def share(value: float, ends: tuple[float, float]) -> float:
        return math.log(value / ends[0]) / math.log(ends[1] / ends[0])

    return (
        LEFT + share(feedstocks, FEEDSTOCKS) * (WIDTH - LEFT - RIGHT),
        HEIGHT - BOTTOM - share(microseconds, MICROSECONDS) * (HEIGHT - TOP - BOTTOM),
    )


def text(x: float, y: float, words: str, anchor: str = "middle", colour: str = "#222") -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="{colour}">{words}</text>'


def line(start: tuple[float, float], end: tuple[float, float]) -> str:
    return (
        f'<line x1="{start[0]:.1f}" y1="{start[1]:.1f}" x2="{end[0]:.1f}" y2="{end[1]:.1f}" '
        'stroke="#ddd"/>'
    )


def axes() -> list[str]:
    parts = []
    for count in (4, 8, 16, 32, 60, 100, 200):
        x, low = place(count, MICROSECONDS[0])
        parts += [line((x, TOP), (x, low)), text(x, low + 18, str(count))]
    for time in (0.1, 1.0, 10.0, 100.0, 1000.0):
        x, y = place(FEEDSTOCKS[0], time)
        parts += [line((x, y), (WIDTH - RIGHT, y)), text(x - 8, y + 4, f"{time:g}", "end")]
    parts.append(text((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 10, "feedstocks"))
    parts.append(text(LEFT, 14, "microseconds, solve and check", "start"))
    return parts


def curve(name: str, points: list[tuple[int, float]]) -> list[str]:
    colour = COLOURS[name]
    placed = [place(*point) for point in sorted(points)]
    path = " ".join(f"{x:.1f},{y:.1f}" for x, y in placed)
    parts = [f'<polyline points="{path}" fill="none" stroke="{colour}" stroke-width="2"/>']
    parts += [f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>' for x, y in placed]
    x, y = placed[-1]
    return [*parts, text(x + 8, y + 4, name, "start", colour)]


def main() -> None:
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    measured: dict[str, list[tuple[int, float]]] = {}
    for printed in sys.stdin:
        if found := LINE.match(printed):
            measured.setdefault(found[1], []).append((int(found[2]), float(found[3])))
    parts = axes()
    for name, points in measured.items():
        parts += curve(name, points)
    body = "\n".join(parts)
    Path(sys.argv[1]).write_text(
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
        f'font-family="sans-serif" font-size="13">\n'
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="white"/>\n{body}\n</svg>\n',
        encoding="utf-8",
    )


if __name__ == "__main__":
    main()

"""Movement against length as a chart: its points and ticks, in the units that the brief shows."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from specgen.scope import Scope
from specgen.showing import figure
from specgen.units import Quantity

MILLIMETERS_PER_INCH = 25.4
METERS_PER_FOOT = 0.3048
ROWS = 12


@dataclass(frozen=True, slots=True)
class Chart:
    """A line through points, with ``mark`` the point of this roof, None where it lies outside."""

    points: tuple[tuple[float, float], ...]
    mark: tuple[float, float] | None
    x_unit: str
    y_unit: str
    x_ticks: tuple[float, ...]
    y_ticks: tuple[float, ...]

    @property
    def rows(self) -> tuple[tuple[float, float], ...]:
        """A few of the points for a table, with the one of this roof among them."""
        step = math.ceil(len(self.points) / ROWS)
        picked = dict(self.points[::step])
        picked[self.points[-1][0]] = self.points[-1][1]
        if self.mark is not None:
            picked[self.mark[0]] = self.mark[1]
        return tuple(sorted(picked.items()))


def chart_of(scope: Scope, series: Sequence[tuple[float, float]]) -> Chart | None:
    """The chart of a series of (length in ft, movement in in); None for less than two points."""
    metric = scope.printer.system == "si"
    x_factor, y_factor = (METERS_PER_FOOT, MILLIMETERS_PER_INCH) if metric else (1.0, 1.0)
    points = tuple(sorted((round(x * x_factor, 6), y * y_factor) for x, y in series))
    if len(points) < 2 or points[0][0] == points[-1][0]:
        return None
    run = scope.lookup("panel_run")[0] if "panel_run" in scope.library.questions else None
    mark = None
    if isinstance(run, Quantity):
        length = round(run.to("m" if metric else "ft"), 6)
        if points[0][0] <= length <= points[-1][0]:
            mark = (length, between(points, length))
    return Chart(
        points,
        mark,
        "m" if metric else "ft",
        "mm" if metric else "in",
        ticks(points[-1][0], 8),
        ticks(max(y for _, y in points), 5),
    )


def between(points: Sequence[tuple[float, float]], x: float) -> float:
    """The value at x on the straight lines between the points, which are in order of x."""
    for (x0, y0), (x1, y1) in pairwise(points):
        if x0 <= x <= x1 and x1 > x0:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return points[-1][1]


def ticks(highest: float, about: int) -> tuple[float, ...]:
    """Round figures from 0 to the first at or above the highest, about so many."""
    if highest <= 0:
        return (0.0, 1.0)
    rough = highest / about
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(m * power for m in (1, 2, 2.5, 5, 10) if m * power >= rough * (1 - 1e-9))
    count = math.ceil(highest / step - 1e-9)
    return tuple(round(step * number, 10) for number in range(count + 1))


def tick(value: float) -> str:
    """A tick's figure."""
    return figure(value, 4)


def moved_shown(chart: Chart, moved: float) -> str:
    """A movement to a tenth of a millimeter or a hundredth of an inch."""
    return f"{moved:.{1 if chart.y_unit == 'mm' else 2}f}"


def chart_lines(chart: Chart, width: int = 60, height: int = 12) -> list[str]:
    """The chart in characters: a star for each column of the line, an O where this roof stands."""
    across, up = chart.x_ticks[-1], chart.y_ticks[-1]

    def column(x: float) -> int:
        return round(x / across * (width - 1))

    def row(y: float) -> int:
        return height - round(y / up * height)

    grid = [[" "] * width for _ in range(height + 1)]
    if chart.mark is not None:
        for line in range(row(chart.mark[1]), height + 1):
            grid[line][column(chart.mark[0])] = ":"
    for place in range(width):
        x = place / (width - 1) * across
        if chart.points[0][0] <= x <= chart.points[-1][0]:
            grid[row(between(chart.points, x))][place] = "*"
    if chart.mark is not None:
        grid[row(chart.mark[1])][column(chart.mark[0])] = "O"
    labels = {row(value): tick(value) for value in chart.y_ticks}
    margin = max(len(label) for label in labels.values())
    lines = [f"{labels.get(i, '').rjust(margin)} |{''.join(cells)}" for i, cells in enumerate(grid)]
    axis, figures = ["-"] * width, [" "] * (width + 8)
    for value in chart.x_ticks:
        axis[column(value)] = "+"
        label = tick(value)
        start = max(0, column(value) - len(label) // 2)
        if all(cell == " " for cell in figures[max(0, start - 1) : start + len(label) + 1]):
            figures[start : start + len(label)] = label
    pad = " " * margin
    return [
        f"{chart.y_unit.rjust(margin)} |",
        *(line.rstrip() for line in lines),
        f"{pad} +{''.join(axis)}",
        f"{pad}  {''.join(figures).rstrip()} {chart.x_unit}",
    ]

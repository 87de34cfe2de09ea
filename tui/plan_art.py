"""The roof in plan, in characters: roof zones by their marks, ridge and hips over them.

Zones are snapped to whole characters, each at least one wide, so that a narrow strip is never lost.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from specgen.drawing_plan import MARKS, Point, Polygon, RoofPlan

# From the lightest zone to the heaviest.
SHADES = {1: "·", 2: "·▓", 3: "·▒█", 4: "·░▒█", 5: "·░▒▓█"}
MANY = "·:░▒▓█ABCDEFGHIJKLMNOPQRSTUVWXYZ"
WIDENED = 0.6


@dataclass(frozen=True, slots=True)
class PlanArt:
    """``lines`` of characters, ``ranks`` the zone under each (-1 outside), ``widened`` if a strip
    is drawn wider than it is."""

    lines: tuple[str, ...]
    ranks: tuple[tuple[int, ...], ...]
    widened: bool


def zone_mark(rank: int, count: int, *, plain: bool) -> str:
    """The character that a zone is filled with."""
    if plain:
        return MARKS[min(rank, len(MARKS) - 1)]
    shades = SHADES.get(count, MANY)
    return shades[min(rank, len(shades) - 1)]


def plan_art(plan: RoofPlan, columns: int, rows: int, *, plain: bool) -> PlanArt:
    """The plan as large as it goes into so many columns and rows."""
    zones = tuple(zone.polygons for zone in plan.zones)
    names = tuple(zone.name.removeprefix("Zone ") for zone in plan.zones)
    return _drawn(zones, names, plan.creases, columns, rows, plain)


@lru_cache(maxsize=16)
def _drawn(
    zones: tuple[tuple[Polygon, ...], ...],
    names: tuple[str, ...],
    creases: tuple[tuple[str, Point, Point], ...],
    columns: int,
    rows: int,
    plain: bool,
) -> PlanArt:
    points = [point for polygons in zones for polygon in polygons for point in polygon]
    xs, ys = _Axis(zones, 0), _Axis(zones, 1)
    foot = max(xs.size / columns, ys.size / 2 / rows)
    wide = xs.divide(max(1, round(xs.size / foot)), columns)
    high = ys.divide(max(1, round(ys.size / 2 / foot)), rows)
    ranks = _ranks(zones, xs, ys)
    marks = [zone_mark(rank, len(zones), plain=plain) for rank in range(len(zones))]
    grid = [[marks[rank] if rank >= 0 else " " for rank in row] for row in ranks]
    for crease in creases:
        _crease(grid, crease, points, plain)
    for rank, name in enumerate(names):
        _label(grid, ranks, rank, name)
    lines = tuple("".join(row) for row in grid)
    return PlanArt(lines, tuple(map(tuple, ranks)), wide or high)


class _Axis:
    """One direction of the plan, divided so that every zone's edge falls between two cells."""

    def __init__(self, zones: Sequence[Sequence[Polygon]], axis: int) -> None:
        found: set[float] = set()
        for polygon in (polygon for polygons in zones for polygon in polygons):
            for start, end in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
                found |= {round(start[axis], 3), round(end[axis], 3)}
        self.edges = sorted(found)
        self.size = self.edges[-1] - self.edges[0]
        self.middles: list[float] = []

    def divide(self, cells: int, most: int) -> bool:
        """Lay out about so many cells, at most ``most``; whether a strip had to be widened."""
        for lost in (0.05, 0.2, 0.4, 0.7, 1.0):
            widened = self._laid(cells, lost)
            if 0 < len(self.middles) <= most:
                return widened
        count = min(cells, most)
        self.middles = [self.edges[0] + self.size * (n + 0.5) / count for n in range(count)]
        return False

    def _laid(self, cells: int, lost: float) -> bool:
        """Lay out the cells; strips narrower than ``lost`` of one are left out."""
        cell = self.size / cells
        marks = [round((edge - self.edges[0]) / cell) for edge in self.edges]
        widened = False
        for at in range(1, len(marks)):
            if self.edges[at] - self.edges[at - 1] < lost * cell:
                marks[at] = max(marks[at], marks[at - 1])
            elif marks[at] <= marks[at - 1]:
                marks[at] = marks[at - 1] + 1
        marks[-1] = min(marks[-1], max(cells, len(marks) - 1))
        for at in range(len(marks) - 2, -1, -1):
            near = self.edges[at + 1] - self.edges[at] < lost * cell
            marks[at] = min(marks[at], marks[at + 1] - (0 if near else 1))
        self.middles = []
        for (a, b), (low, high) in zip(pairwise(marks), pairwise(self.edges), strict=True):
            count = b - a
            widened = widened or (count == 1 and high - low < WIDENED * cell)
            self.middles += [low + (high - low) * (n + 0.5) / count for n in range(count)]
        return widened


def _ranks(zones: Sequence[Sequence[Polygon]], xs: _Axis, ys: _Axis) -> list[list[int]]:
    """The zone at the middle of every cell, from the top; a heavier zone lies above."""
    rows = []
    for y in reversed(ys.middles):
        row = [-1] * len(xs.middles)
        for rank, polygons in enumerate(zones):
            for polygon in polygons:
                for start, end in _crossed(polygon, y):
                    first = bisect_right(xs.middles, start)
                    last = bisect_right(xs.middles, end)
                    row[first:last] = [rank] * (last - first)
        rows.append(row)
    return rows


def _crossed(polygon: Polygon, y: float) -> list[tuple[float, float]]:
    """Where a level line lies inside a polygon, from x to x."""
    found = sorted(
        x0 + (y - y0) / (y1 - y0) * (x1 - x0)
        for (x0, y0), (x1, y1) in zip(polygon, (*polygon[1:], polygon[0]), strict=True)
        if (y0 > y) != (y1 > y)
    )
    return list(zip(found[::2], found[1::2], strict=False))


def _crease(
    grid: list[list[str]], crease: tuple[str, Point, Point], points: Sequence[Point], plain: bool
) -> None:
    """A ridge or a hip over the zones."""
    kind, start, end = crease
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    bottom, top = min(y for _, y in points), max(y for _, y in points)
    height, width = len(grid), len(grid[0])

    def cell(point: Point) -> tuple[float, float]:
        across = (point[0] - left) / (right - left) * width
        return across, (top - point[1]) / (top - bottom) * height

    (x0, y0), (x1, y1) = cell(start), cell(end)
    leaning = kind == "hip"
    sign = ("/" if plain else "╱") if (x1 - x0) * (y1 - y0) < 0 else ("\\" if plain else "╲")
    if not leaning:
        sign = ("=" if plain else "═") if abs(x1 - x0) >= abs(y1 - y0) else ("|" if plain else "║")
    steps = max(1, round(max(abs(x1 - x0), abs(y1 - y0)) * (1 if not leaning else 0.5)))
    for step in range(steps):
        part = (step + 0.5) / steps
        x, y = int(x0 + (x1 - x0) * part), int(y0 + (y1 - y0) * part)
        grid[min(height - 1, y)][min(width - 1, x)] = sign


def _label(grid: list[list[str]], ranks: list[list[int]], rank: int, name: str) -> None:
    """The zone's name where the zone is widest, off its edges if that can be."""
    best: tuple[int, int, int] | None = None
    for y, row in enumerate(ranks):
        x = 0
        while x < len(row):
            if row[x] != rank:
                x += 1
                continue
            start = x
            while x < len(row) and row[x] == rank:
                x += 1
            clear = all(character not in "═=║|╱╲/\\" for character in grid[y][start:x])
            if clear and (best is None or x - start > best[0]):
                best = (x - start, y, start)
    if best is None or best[0] < len(name) + 2:
        return
    run, y, start = best
    at = start + (run - len(name)) // 2
    grid[y][at - 1 : at + len(name) + 1] = f" {name} "

"""The roof plan in characters, for a terminal: to scale, each zone in its own mark."""

from __future__ import annotations

from dataclasses import dataclass

from specgen.drawing_plan import Point, RoofPlan, rank_at

SAMPLES = tuple(0.02 + 0.96 * step / 5 for step in range(6))


@dataclass(frozen=True, slots=True)
class Raster:
    """The plan in characters, a character standing for ``cell`` feet across and up.

    ``widened`` is true if a strip narrower than a character is drawn one character wide.
    """

    lines: tuple[str, ...]
    cell: tuple[float, float]
    widened: bool


def raster(plan: RoofPlan, most_columns: int = 60, most_rows: int = 30) -> Raster:
    """The plan drawn with the zones' marks, each character twice as high as it is wide."""
    width, height = plan.size
    foot = max(width / most_columns, height / 2 / most_rows)
    columns, rows = max(1, round(width / foot)), max(1, round(height / 2 / foot))
    cell = (width / columns, height / rows)
    left, _, _, top = plan.box
    grid = [[" "] * columns for _ in range(rows)]
    thin: dict[str, list[tuple[int, int]]] = {}
    counts = dict.fromkeys((zone.name for zone in plan.zones), 0)
    for row in range(rows):
        for column in range(columns):
            corner = (left + column * cell[0], top - (row + 1) * cell[1])
            shares = _shares(plan, corner, cell)
            if not shares:
                continue
            heaviest = max((z for z in shares if shares[z] >= 0.4), default=max(shares))
            grid[row][column] = plan.zones[heaviest].mark
            counts[plan.zones[heaviest].name] += 1
            for rank in shares:
                if rank != heaviest:
                    thin.setdefault(plan.zones[rank].name, []).append((row, column))
    widened = False
    for zone in plan.zones:
        if counts[zone.name] * cell[0] * cell[1] < zone.area / 2:
            for row, column in thin.get(zone.name, ()):
                grid[row][column] = zone.mark
                widened = True
    return Raster(tuple("".join(line).rstrip() for line in grid), cell, widened)


def _shares(plan: RoofPlan, corner: Point, cell: tuple[float, float]) -> dict[int, float]:
    """How much of a character's cell each zone takes, by rank; a zone drawn later lies above."""
    shares: dict[int, float] = {}
    for across in SAMPLES:
        for up in SAMPLES:
            x, y = corner[0] + across * cell[0], corner[1] + up * cell[1]
            rank = rank_at(plan, x, y)
            if rank is not None:
                shares[rank] = shares.get(rank, 0.0) + 1 / len(SAMPLES) ** 2
    return shares

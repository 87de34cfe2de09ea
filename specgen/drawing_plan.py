"""The roof in plan with its roof zones: what each zone covers and carries, and how to draw it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from specgen.computing.registry import ZoneShape
from specgen.scope import Scope
from specgen.showing import figure, show
from specgen.units import Quantity
from specgen.values import Choice
from specgen.wording import print_value

Point = tuple[float, float]
Polygon = tuple[Point, ...]

# From the lightest zone to the heaviest; letters where there are more zones than marks.
MARKS = ".:+x#@%&ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class PlanZone:
    """A zone of the plan; ``rank`` 0 carries least, ``uplift`` and ``spacing`` are as shown."""

    name: str
    rank: int
    mark: str
    polygons: tuple[Polygon, ...]
    uplift: str
    spacing: str

    @property
    def area(self) -> float:
        """Square feet in plan."""
        return sum(area_of(polygon) for polygon in self.polygons)


@dataclass(frozen=True)
class RoofPlan:
    """A roof in plan, in feet; ``creases`` are its ridge and hips, each named."""

    zones: tuple[PlanZone, ...]
    creases: tuple[tuple[str, Point, Point], ...]

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top in feet."""
        points = [p for zone in self.zones for polygon in zone.polygons for p in polygon]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def size(self) -> tuple[float, float]:
        left, bottom, right, top = self.box
        return right - left, top - bottom

    @cached_property
    def borders(self) -> tuple[tuple[Point, Point], ...]:
        return _borders(self)

    def breaks(self, axis: int) -> tuple[float, ...]:
        """Where zones begin and end along x (0) or y (1), in feet, by the borders across it."""
        found = sorted(
            start[axis] for start, end in self.borders if abs(start[axis] - end[axis]) < 0.01
        )
        kept: list[float] = []
        for value in found:
            if not kept or value - kept[-1] > 0.01:
                kept.append(value)
        return tuple(kept)


def roof_plan(scope: Scope, shapes: Sequence[ZoneShape]) -> RoofPlan | None:
    """The plan of the zones found, with what each carries; None where none were found."""
    drawn = [shape for shape in shapes if len(shape.points) > 2]
    if not drawn:
        return None
    uplift = _column(scope, "computed_pressures", "upward")
    spacing = _column(scope, "computed_spacing", "spacing")
    names = list(dict.fromkeys(shape.zone for shape in drawn))
    names.sort(key=lambda name: _size(uplift.get(name)))
    zones = tuple(
        PlanZone(
            name,
            rank,
            MARKS[min(rank, len(MARKS) - 1)],
            tuple(shape.points for shape in drawn if shape.zone == name),
            _shown(scope, uplift.get(name)),
            _shown(scope, spacing.get(name)),
        )
        for rank, name in enumerate(names)
    )
    plan = RoofPlan(zones, ())
    return RoofPlan(zones, _creases(scope, plan.size, plan.box))


def _column(scope: Scope, table: str, column: str) -> dict[str, object]:
    """A column of a computed table by zone; empty where it is not there."""
    if table not in scope.library.calculations:
        return {}
    ids = [each.id for each in scope.library.columns_of(table)]
    value, _ = scope.lookup(table)
    if not isinstance(value, tuple) or column not in ids:
        return {}
    place = ids.index(column)
    return {str(row[0]): row[place] for row in value if isinstance(row, tuple)}


def _shown(scope: Scope, cell: object) -> str:
    return print_value(cell, scope.printer) if isinstance(cell, Quantity | str) else ""


def _size(cell: object) -> float:
    return abs(cell.magnitude) if isinstance(cell, Quantity) else 0.0


def _creases(
    scope: Scope, size: tuple[float, float], box: tuple[float, float, float, float]
) -> tuple[tuple[str, Point, Point], ...]:
    """Ridge and hips of a roof of equal slopes; panels of a gable run across its length."""
    shape = scope.lookup("roof_shape")[0] if "roof_shape" in scope.library.questions else None
    left, bottom, right, top = box
    width, height = size
    if not isinstance(shape, Choice):
        return ()
    middle = (bottom + top) / 2
    if shape.id == "gable":
        return (("ridge", (left, middle), (right, middle)),)
    if shape.id != "hip":
        return ()
    half = min(width, height) / 2
    if width >= height:
        start, end = (left + half, middle), (right - half, middle)
        near, far = ((left, bottom), (left, top)), ((right, bottom), (right, top))
    else:
        center = (left + right) / 2
        start, end = (center, bottom + half), (center, top - half)
        near, far = ((left, bottom), (right, bottom)), ((left, top), (right, top))
    ridge = (("ridge", start, end),) if math.dist(start, end) > 0.01 else ()
    return (
        *ridge,
        *(("hip", corner, start) for corner in near),
        *(("hip", corner, end) for corner in far),
    )


def feet_shown(scope: Scope, feet: float) -> str:
    """A length of the plan to a tenth of a foot or meter, as a drawing is dimensioned."""
    meters = f"{figure(feet * 0.3048, 1)} m"
    if scope.printer.system == "si":
        return meters
    shown = f"{figure(feet, 1)} ft"
    return shown if scope.printer.system == "inch-pound" else f"{shown} ({meters})"


def area_shown(scope: Scope, square_feet: float) -> str:
    """An area of the plan to the square foot or meter."""
    return show(Quantity(float(round(square_feet)), "area", "sq ft", ""), scope.printer.system)


def area_of(polygon: Polygon) -> float:
    """The area inside a polygon, whichever way round it runs."""
    turned = (*polygon[1:], polygon[0])
    cross = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(polygon, turned, strict=True))
    return abs(cross) / 2


def inside(polygon: Polygon, x: float, y: float) -> bool:
    """Whether a point lies inside a polygon."""
    found = False
    for (x0, y0), (x1, y1) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            found = not found
    return found


def _from_edge(edge: tuple[Point, Point], x: float, y: float) -> float:
    """The distance from a point to an edge."""
    (x0, y0), (x1, y1) = edge
    span = (x1 - x0) ** 2 + (y1 - y0) ** 2
    along = 0.0 if span == 0 else ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / span
    along = min(1.0, max(0.0, along))
    return math.hypot(x - x0 - along * (x1 - x0), y - y0 - along * (y1 - y0))


def _edges(polygon: Polygon) -> list[tuple[Point, Point]]:
    return list(zip(polygon, (*polygon[1:], polygon[0]), strict=True))


def roomiest(polygon: Polygon, clear_of: Sequence[tuple[Point, Point]]) -> tuple[Point, float]:
    """A point well inside a polygon and off some lines, and its distance to the nearest of all."""
    xs, ys = [x for x, _ in polygon], [y for _, y in polygon]
    edges = [*_edges(polygon), *clear_of]
    best, room = polygon[0], 0.0
    for i in range(1, 24):
        for j in range(1, 24):
            x = min(xs) + (max(xs) - min(xs)) * i / 24
            y = min(ys) + (max(ys) - min(ys)) * j / 24
            near = min(_from_edge(edge, x, y) for edge in edges)
            if near > room + 1e-9 and inside(polygon, x, y):
                best, room = (x, y), near
    return best, room


def _borders(plan: RoofPlan) -> tuple[tuple[Point, Point], ...]:
    """The lines between zones, without those between two parts of one zone."""
    corners = [p for zone in plan.zones for polygon in zone.polygons for p in polygon]
    found: dict[tuple[Point, Point], None] = {}
    for zone in plan.zones:
        for start, end in (edge for polygon in zone.polygons for edge in _edges(polygon)):
            length = math.dist(start, end)
            if length < 0.01:
                continue
            cuts = {0.0, 1.0}
            for corner in corners:
                if _from_edge((start, end), *corner) < 0.005:
                    cuts.add(round(math.dist(start, corner) / length, 6))
            ordered = sorted(cuts)
            for a, b in pairwise(ordered):
                piece = (_along(start, end, a), _along(start, end, b))
                if _divides(plan, piece):
                    found.setdefault(min(piece, piece[::-1]))
    return tuple(found)


def _along(start: Point, end: Point, part: float) -> Point:
    return (
        round(start[0] + (end[0] - start[0]) * part, 4),
        round(start[1] + (end[1] - start[1]) * part, 4),
    )


def _divides(plan: RoofPlan, piece: tuple[Point, Point]) -> bool:
    """Whether different zones lie on the two sides of a line; outside the roof is none."""
    (x0, y0), (x1, y1) = piece
    length = math.hypot(x1 - x0, y1 - y0)
    if length < 0.01:
        return False
    aside = (0.01 * (y1 - y0) / length, 0.01 * (x0 - x1) / length)
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    return rank_at(plan, middle[0] + aside[0], middle[1] + aside[1]) != rank_at(
        plan, middle[0] - aside[0], middle[1] - aside[1]
    )


def rank_at(plan: RoofPlan, x: float, y: float) -> int | None:
    """The rank of the zone at a point, of two the one drawn above; None outside the roof."""
    for zone in reversed(plan.zones):
        if any(inside(polygon, x, y) for polygon in zone.polygons):
            return zone.rank
    return None

"""Where the roof zones lie in plan, as pieces to draw.

The plan is cut zone by zone in the order of the layout (wind_layouts), so that where strips meet,
or a small roof has no room for all, the zone named first keeps the ground and nothing is counted
twice. Coordinates are in ft: x along building_length from 0, y along building_width from 0.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from math import sqrt

from specgen.calculations.wind_layouts import Layout
from specgen.calculations.wind_zones import layout_unit, roof_layout

# A sliver of less than this many square feet is the rounding of a cut, not a zone.
_SLIVER_SQFT = 1e-7

PlanPoint = tuple[float, float]
# (nx, ny, c): the edge where nx x + ny y = c, its unit normal pointing into the roof, so that the
# distance of a point from it is nx x + ny y - c.
Edge = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class ZoneArea:
    """One convex piece of a zone: its corners (x, y) in ft, in order round it."""

    zone: str
    points: tuple[PlanPoint, ...]

    @property
    def area_sqft(self) -> float:
        """Plan area in sq ft."""
        return _area(self.points)

    def holds(self, x_ft: float, y_ft: float) -> bool:
        """Whether a point of the plan lies in this piece or on its border."""
        turns = [
            (bx - ax) * (y_ft - ay) - (by - ay) * (x_ft - ax)
            for (ax, ay), (bx, by) in zip(
                self.points, self.points[1:] + self.points[:1], strict=True
            )
        ]
        return all(turn >= -1e-9 for turn in turns)


def zone_plan(
    *,
    edition: str,
    roof_shape: str,
    roof_angle_deg: float,
    building_length_ft: float,
    building_width_ft: float,
    mean_roof_height_ft: float,
) -> tuple[ZoneArea, ...]:
    """The roof plan as convex pieces, each of one zone, that cover it without overlap.

    The zone that yields to the others comes first, so that drawing in order draws right.

    The ridge of a gable runs along building_length; that of a hip roof, whose faces are taken to
    be of one slope, along the longer side; a single slope rises from y = 0 to y = building_width.
    Overhangs are not added: give the size of the roof if it is the roof that is drawn. Errors as
    edge_width and roof_layout. Source: as zone_widths.
    """
    layout = roof_layout(edition, roof_shape, roof_angle_deg)
    length, width = building_length_ft, building_width_ft
    unit = layout_unit(layout, length, width, mean_roof_height_ft, roof_angle_deg)
    turned = layout.faces == "hip" and length < width
    if turned:
        length, width = width, length
    pieces = [
        ZoneArea(zone, points)
        for face, edges in _FACES[layout.faces](length, width)
        for zone, points in _peel(face, edges, layout, unit)
    ]
    if turned:
        # Exchanging x and y reverses the way round a piece, so its points are turned about too.
        pieces = [ZoneArea(p.zone, tuple((y, x) for x, y in reversed(p.points))) for p in pieces]
    rank = {rule.zone: index for index, rule in reversed(tuple(enumerate(layout.rules)))}
    return tuple(sorted(pieces, key=lambda piece: -rank.get(piece.zone, len(layout.rules))))


def zone_at(plan: tuple[ZoneArea, ...], x_ft: float, y_ft: float) -> str:
    """The zone at a point of a plan, empty outside it.

    On a border it is the zone that keeps the ground there, commonly the more severe.
    """
    return next((piece.zone for piece in reversed(plan) if piece.holds(x_ft, y_ft)), "")


Face = tuple[tuple[PlanPoint, ...], dict[str, tuple[Edge, ...]]]


def _flat_faces(length: float, width: float) -> Iterator[Face]:
    ends, (low, high) = _ends(length), _sides(width)
    yield _rectangle(0, length, width), {"end": ends, "side": (low, high)}


def _single_slope_faces(length: float, width: float) -> Iterator[Face]:
    low, high = _sides(width)
    edges = {"rake": _ends(length), "low eave": (low,), "high eave": (high,)}
    yield _rectangle(0, length, width), edges


def _gable_faces(length: float, width: float) -> Iterator[Face]:
    ends, (low, high), ridge = _ends(length), _sides(width), width / 2
    below = {"rake": ends, "eave": (low,), "ridge": ((0.0, -1.0, -ridge),)}
    above = {"rake": ends, "eave": (high,), "ridge": ((0.0, 1.0, ridge),)}
    yield _rectangle(0, length, ridge), below
    yield _rectangle(ridge, length, width), above


def _hip_faces(length: float, width: float) -> Iterator[Face]:
    """Two long faces and two hipped ends; length is not less than width."""
    half, r = width / 2, 1 / sqrt(2)
    left, right = (half, half), (length - half, half)
    ends, (low, high) = _ends(length), _sides(width)
    # The four hips, each as an edge of the face below, above, left or right of it.
    south = ((r, -r, 0.0), (-r, -r, -length * r))
    north = ((r, r, width * r), (-r, r, (width - length) * r))
    west = ((-r, r, 0.0), (-r, -r, -width * r))
    east = ((r, r, length * r), (r, -r, (length - width) * r))
    yield (
        ((0, 0), (length, 0), right, left),
        {"eave": (low,), "corner": ends, "hip": south, "ridge": ((0.0, -1.0, -half),)},
    )
    yield (
        ((length, width), (0, width), left, right),
        {"eave": (high,), "corner": ends, "hip": north, "ridge": ((0.0, 1.0, half),)},
    )
    yield (
        ((0, width), (0, 0), left),
        {"eave": (ends[0],), "corner": (low, high), "hip": west, "ridge": ()},
    )
    yield (
        ((length, 0), (length, width), right),
        {"eave": (ends[1],), "corner": (low, high), "hip": east, "ridge": ()},
    )


_FACES = {
    "flat": _flat_faces,
    "single slope": _single_slope_faces,
    "gable": _gable_faces,
    "hip": _hip_faces,
}


def _ends(length: float) -> tuple[Edge, Edge]:
    return (1.0, 0.0, 0.0), (-1.0, 0.0, -length)


def _sides(width: float) -> tuple[Edge, Edge]:
    return (0.0, 1.0, 0.0), (0.0, -1.0, -width)


def _rectangle(low: float, length: float, high: float) -> tuple[PlanPoint, ...]:
    return (0.0, low), (length, low), (length, high), (0.0, high)


def _peel(
    face: tuple[PlanPoint, ...], edges: dict[str, tuple[Edge, ...]], layout: Layout, unit: float
) -> Iterator[tuple[str, tuple[PlanPoint, ...]]]:
    """The face cut zone by zone, in the order of the layout's rules."""
    left = [face]
    for rule in layout.rules:
        for chosen in product(*(edges[kind] for kind, _ in rule.near)):
            sizes = [size * unit for _, size in rule.near]
            left_now, left = left, []
            for piece in left_now:
                for edge, size in zip(chosen, sizes, strict=True):
                    piece, beyond = _cut(piece, edge, size)
                    if beyond:
                        left.append(beyond)
                if piece:
                    yield rule.zone, piece
    for piece in left:
        yield layout.rest, piece


def _cut(
    piece: tuple[PlanPoint, ...], edge: Edge, size: float
) -> tuple[tuple[PlanPoint, ...], tuple[PlanPoint, ...]]:
    """A convex piece in two: what lies within ``size`` ft of an edge, and what lies beyond."""
    nx, ny, c = edge
    near: list[PlanPoint] = []
    far: list[PlanPoint] = []
    depths = [nx * x + ny * y - c - size for x, y in piece]
    for index, (point, depth) in enumerate(zip(piece, depths, strict=True)):
        before, depth_before = piece[index - 1], depths[index - 1]
        if (depth < 0 < depth_before) or (depth_before < 0 < depth):
            t = depth_before / (depth_before - depth)
            crossing = (
                before[0] + t * (point[0] - before[0]),
                before[1] + t * (point[1] - before[1]),
            )
            near.append(crossing)
            far.append(crossing)
        if depth <= 0:
            near.append(point)
        if depth >= 0:
            far.append(point)
    return _kept(near), _kept(far)


def _kept(points: list[PlanPoint]) -> tuple[PlanPoint, ...]:
    return tuple(points) if len(points) > 2 and _area(points) > _SLIVER_SQFT else ()


def _area(points: tuple[PlanPoint, ...] | list[PlanPoint]) -> float:
    return sum(
        points[i - 1][0] * y - x * points[i - 1][1] for i, (x, y) in enumerate(points)
    ) / 2  # fmt: skip

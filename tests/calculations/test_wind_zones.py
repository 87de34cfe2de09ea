"""Zone widths and plans: what they measure, and that a plan is covered once and wholly."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.record import OutsideMethod
from specgen.calculations.wind_coefficients import roof_figure
from specgen.calculations.wind_plan import ZoneArea, zone_at, zone_plan
from specgen.calculations.wind_zones import edge_width, roof_layout, zone_widths

# edition, shape, angle: one of every layout
ROOFS = [
    ("7-22", "gable", 2.0),
    ("7-16", "single-slope", 2.0),
    ("7-16", "gable", 15.0),
    ("7-16", "gable", 40.0),
    ("7-22", "gable", 25.0),
    ("7-22", "gable", 40.0),
    ("7-16", "hip", 15.0),
    ("7-22", "hip", 30.0),
    ("7-22", "single-slope", 5.0),
    ("7-16", "single-slope", 20.0),
]
roofs = st.sampled_from(ROOFS)
sizes, heights = st.floats(6, 600), st.floats(5, 60)


def plan(
    roof: tuple[str, str, float], length: float, width: float, height: float
) -> tuple[ZoneArea, ...]:
    edition, shape, angle = roof
    return zone_plan(
        edition=edition,
        roof_shape=shape,
        roof_angle_deg=angle,
        building_length_ft=length,
        building_width_ft=width,
        mean_roof_height_ft=height,
    )


def area_of(pieces: tuple[ZoneArea, ...], zone: str) -> float:
    return sum(piece.area_sqft for piece in pieces if piece.zone == zone)


@given(roofs, sizes, sizes, heights)
def test_the_zones_cover_the_plan(
    roof: tuple[str, str, float], length: float, width: float, height: float
) -> None:
    pieces = plan(roof, length, width, height)
    assert all(piece.area_sqft > 0 for piece in pieces)
    assert sum(piece.area_sqft for piece in pieces) == pytest.approx(length * width, rel=1e-6)
    for piece in pieces:
        for x, y in piece.points:
            assert -1e-6 <= x <= length + 1e-6
            assert -1e-6 <= y <= width + 1e-6


@given(roofs, sizes, sizes, heights, st.floats(0, 1), st.floats(0, 1))
def test_no_two_zones_share_ground(
    roof: tuple[str, str, float], length: float, width: float, height: float, u: float, v: float
) -> None:
    pieces = plan(roof, length, width, height)
    x, y = u * length, v * width

    def depth(piece: ZoneArea) -> float:
        """How far inside a piece the point lies, in ft; below zero outside."""
        ring = zip(piece.points, piece.points[1:] + piece.points[:1], strict=True)
        return min(
            ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / math.hypot(bx - ax, by - ay)
            for (ax, ay), (bx, by) in ring
            if math.hypot(bx - ax, by - ay) > 1e-9
        )

    assert sum(depth(piece) > 1e-6 for piece in pieces) <= 1
    assert max(depth(piece) for piece in pieces) > -1e-6


@given(roofs, sizes, sizes, heights)
def test_the_zones_of_a_plan_are_those_of_its_figure(
    roof: tuple[str, str, float], length: float, width: float, height: float
) -> None:
    named = {zone for zone, _ in roof_figure(*roof).zones}
    assert {piece.zone for piece in plan(roof, length, width, height)} <= named


@given(roofs)
def test_a_large_plan_has_every_zone_of_its_figure(roof: tuple[str, str, float]) -> None:
    named = {zone for zone, _ in roof_figure(*roof).zones}
    assert {piece.zone for piece in plan(roof, 300, 200, 20)} == named


@given(roofs, sizes, sizes, heights, st.floats(0.001, 0.999), st.floats(0.001, 0.999))
def test_a_plan_is_the_same_from_either_end(
    roof: tuple[str, str, float], length: float, width: float, height: float, u: float, v: float
) -> None:
    pieces = plan(roof, length, width, height)
    mirrored = tuple(
        ZoneArea(p.zone, tuple((length - x, y) for x, y in reversed(p.points))) for p in pieces
    )
    for zone in {piece.zone for piece in pieces}:
        assert area_of(pieces, zone) == pytest.approx(area_of(mirrored, zone))
        left = clipped_left(pieces, zone, length / 2)
        assert left == pytest.approx(area_of(pieces, zone) / 2, rel=1e-6, abs=1e-4)


def clipped_left(pieces: tuple[ZoneArea, ...], zone: str, middle: float) -> float:
    """Plan area of a zone left of the middle, by cutting each piece there."""
    total = 0.0
    for piece in pieces:
        if piece.zone != zone:
            continue
        kept: list[tuple[float, float]] = []
        for (ax, ay), (bx, by) in zip(
            piece.points, piece.points[1:] + piece.points[:1], strict=True
        ):
            if ax <= middle:
                kept.append((ax, ay))
            if (ax < middle < bx) or (bx < middle < ax):
                kept.append((middle, ay + (by - ay) * (middle - ax) / (bx - ax)))
        if len(kept) > 2:
            total += ZoneArea(zone, tuple(kept)).area_sqft
    return total


def test_a_low_slope_plan_is_measured_by_height() -> None:
    # h 20: zone 3 four Ls of legs 12 x 4; zone 2 strips of 12; zone 1 from 12 to 24.
    pieces = plan(("7-22", "gable", 2.0), 200, 100, 20)
    corners = 4 * (12 * 4 + 4 * 8)
    assert area_of(pieces, "3") == pytest.approx(corners)
    assert area_of(pieces, "2") == pytest.approx(200 * 100 - 176 * 76 - corners)
    assert area_of(pieces, "1") == pytest.approx(176 * 76 - 152 * 52)
    assert area_of(pieces, "1'") == pytest.approx(152 * 52)


def test_a_gable_plan_of_7_16_has_a_square_at_each_end_of_eaves_and_ridge() -> None:
    # a = 0.1 x 60 = 6
    pieces = plan(("7-16", "gable", 15.0), 120, 60, 20)
    assert area_of(pieces, "3e") == pytest.approx(4 * 36)
    assert area_of(pieces, "3r") == pytest.approx(4 * 36)
    assert area_of(pieces, "2n") == pytest.approx(4 * 6 * 18)
    assert area_of(pieces, "2e") == pytest.approx(2 * 6 * 108)
    assert area_of(pieces, "2r") == pytest.approx(2 * 6 * 108)
    assert area_of(pieces, "1") == pytest.approx(2 * 108 * 18)


def test_a_gable_plan_of_7_22_has_its_corners_at_the_ridge_or_when_steep_at_the_eaves() -> None:
    low, steep = (plan(("7-22", "gable", a), 120, 60, 20) for a in (15.0, 40.0))
    assert (zone_at(low, 1, 29), zone_at(low, 1, 1), zone_at(low, 60, 29)) == ("3", "2", "2")
    assert (zone_at(steep, 1, 29), zone_at(steep, 1, 1), zone_at(steep, 60, 29)) == ("2", "3", "1")


def test_a_hip_plan_has_bands_along_its_hips() -> None:
    new, old = (plan((e, "hip", 15.0), 120, 60, 20) for e in ("7-22", "7-16"))
    # a = 6: a strip of 6 all round; a band each side of the 45 degree hips and of the ridge
    assert area_of(new, "3") == pytest.approx(120 * 60 - 108 * 48)
    assert area_of(old, "3") == pytest.approx(4 * 36)
    assert area_of(old, "2e") + area_of(old, "3") == pytest.approx(area_of(new, "3"))
    assert area_of(old, "2r") == pytest.approx(area_of(new, "2"))
    assert (zone_at(new, 20, 20), zone_at(new, 60, 30), zone_at(new, 60, 15)) == ("2", "2", "1")
    assert zone_at(new, 20 + 6 * math.sqrt(2) + 0.01, 20) == "1"
    assert zone_at(new, 20 + 6 * math.sqrt(2) - 0.01, 20) == "2"


@given(sizes, sizes, heights)
def test_a_hip_plan_turned_is_the_same_plan(length: float, width: float, height: float) -> None:
    one, two = (
        plan(("7-22", "hip", 15.0), *size, height) for size in ((length, width), (width, length))
    )
    for zone in ("1", "2", "3"):
        assert area_of(one, zone) == pytest.approx(area_of(two, zone), rel=1e-6, abs=1e-6)


def test_a_single_slope_plan_has_its_primed_zones_at_the_high_eave() -> None:
    pieces = plan(("7-22", "single-slope", 5.0), 120, 60, 20)
    # a = 6: 3' 24 x 12, 3 12 x 12
    assert area_of(pieces, "3'") == pytest.approx(2 * 24 * 12)
    assert area_of(pieces, "3") == pytest.approx(2 * 12 * 12)
    assert (zone_at(pieces, 23, 59), zone_at(pieces, 60, 59)) == ("3'", "2'")
    assert (zone_at(pieces, 11, 1), zone_at(pieces, 60, 1), zone_at(pieces, 1, 30)) == (
        "3",
        "2",
        "2",
    )
    assert zone_at(pieces, 60, 30) == "1"
    assert zone_at(pieces, -1, 30) == ""


@pytest.mark.parametrize(
    ("length", "width", "height", "angle", "a"),
    [
        (100, 60, 20, 15, 6.0),  # 0.1 B
        (100, 60, 12, 15, 4.8),  # 0.4 h
        (100, 20, 20, 15, 3.0),  # not below 3 ft
        (500, 400, 20, 15, 16.0),  # not below 0.04 B
        (500, 400, 15, 5, 12.0),  # low slope, B over 300 ft: not above 0.8 h
        (500, 400, 15, 15, 16.0),
    ],
)
def test_the_edge_width_follows_its_rule(
    length: float, width: float, height: float, angle: float, a: float
) -> None:
    found = edge_width(
        building_length_ft=length,
        building_width_ft=width,
        mean_roof_height_ft=height,
        roof_angle_deg=angle,
    )
    assert found.a_ft == pytest.approx(a)
    assert found.steps[-1].value == found.a_ft
    assert found.capped == ("0.8 h" in found.steps[-1].formula)


@given(roofs, sizes, sizes, heights)
def test_widths_are_told_for_every_zone_of_the_figure(
    roof: tuple[str, str, float], length: float, width: float, height: float
) -> None:
    found = zone_widths(
        edition=roof[0],
        roof_shape=roof[1],
        roof_angle_deg=roof[2],
        building_length_ft=length,
        building_width_ft=width,
        mean_roof_height_ft=height,
    )
    assert {one.zone for one in found} == {zone for zone, _ in roof_figure(*roof).zones}
    assert found[-1].width_ft is None
    assert all(one.width_ft and one.width_ft > 0 for one in found[:-1])


def test_widths_are_written_in_a_or_in_h() -> None:
    low, steep = (
        zone_widths(
            edition="7-16",
            roof_shape="gable",
            roof_angle_deg=angle,
            building_length_ft=120,
            building_width_ft=60,
            mean_roof_height_ft=20,
        )
        for angle in (2.0, 15.0)
    )
    assert (low[0].formula, low[0].width_ft, low[0].length_ft) == ("0.2 h x 0.6 h", 4, 12)
    assert (steep[0].formula, steep[0].width_ft, steep[0].length_ft) == ("a x a", 6, 6)


def test_a_layout_less_well_known_says_so() -> None:
    for roof in ROOFS:
        layout = roof_layout(*roof)
        assert (layout.grade in "AB") == (layout.caution == "")


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"building_length_ft": 5.9}, "building length is 5.9 ft; the limits are 6 to 2000"),
        ({"building_width_ft": 2001}, "building width"),
        ({"building_width_ft": math.nan}, "building width"),
        ({"building_width_ft": -40}, "building width"),
        ({"mean_roof_height_ft": 61}, "mean roof height"),
        ({"roof_angle_deg": 46}, "roof angle"),
        ({"edition": "7-10"}, "zone plans are not held"),
        ({"roof_shape": "dome"}, "roof shape"),
    ],
)
def test_a_plan_outside_the_method_is_refused_by_name(changed: dict[str, Any], says: str) -> None:
    usual: dict[str, Any] = {
        "edition": "7-16",
        "roof_shape": "gable",
        "roof_angle_deg": 15.0,
        "building_length_ft": 100.0,
        "building_width_ft": 60.0,
        "mean_roof_height_ft": 20.0,
    }
    with pytest.raises(OutsideMethod, match=says):
        zone_plan(**(usual | changed))

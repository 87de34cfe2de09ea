"""Wind pressures by roof zone, from the answers under wind and roof."""

from __future__ import annotations

import math

from specgen.calculations.record import OutsideMethod
from specgen.calculations.wind import ZonePressure, zone_pressures
from specgen.calculations.wind_plan import zone_plan
from specgen.calculations.wind_zones import ZoneWidth, zone_widths
from specgen.computing.inputs import Inputs, quantity
from specgen.computing.registry import Outcome, ZoneShape
from specgen.units import Quantity
from specgen.values import Row

# The smallest area of the figures, which governs nearly every clip spacing: a clip's own area is
# span x width, and not less than span x span / 3 (ASCE/SEI 7-16 and 7-22, 26.2).
EFFECTIVE_AREA_SQFT = 10.0
EDITIONS = {"asce-7-16": "7-16", "asce-7-22": "7-22"}


def compute(inputs: Inputs) -> Outcome:
    """Zone pressures at both levels for 10 sq ft, with the plan of the zones."""
    edition = EDITIONS.get(inputs.choice("wind_standard"))
    if edition is None:
        raise OutsideMethod("the wind standard is neither ASCE/SEI 7-16 nor 7-22")
    shape = inputs.choice("roof_shape")
    angle = math.degrees(math.atan(inputs.figure("lowest_slope", ":12") / 12))
    length = inputs.figure("building_length", "ft")
    width = inputs.figure("building_width", "ft")
    height = inputs.figure("mean_roof_height", "ft")
    result = zone_pressures(
        edition=edition,
        speed_mph=inputs.figure("wind_speed", "mph"),
        exposure=inputs.choice("exposure"),
        enclosure=inputs.choice("enclosure"),
        roof_shape=shape,
        roof_angle_deg=angle,
        mean_roof_height_ft=height,
        building_length_ft=length,
        building_width_ft=width,
        effective_area_sqft=EFFECTIVE_AREA_SQFT,
        ground_elevation_ft=inputs.figure("ground_elevation", "ft"),
        topographic_factor=inputs.figure("topographic_factor", ""),
        exposure_b_floor=inputs.holds("kz_floor"),
    )
    plan = zone_plan(
        edition=edition,
        roof_shape=shape,
        roof_angle_deg=angle,
        building_length_ft=length,
        building_width_ft=width,
        mean_roof_height_ft=height,
    )
    mildest_first = sorted(result.zones, key=lambda zone: (zone.allowable_up_psf, zone.zone))
    limits = zone_widths(
        edition=edition,
        roof_shape=shape,
        roof_angle_deg=angle,
        building_length_ft=length,
        building_width_ft=width,
        mean_roof_height_ft=height,
    )
    return Outcome(
        values={
            "computed_pressures": tuple(map(_pressure_row, mildest_first)),
            "velocity_pressure": quantity(result.velocity.qh_psf, "pressure", "psf", 1),
            "zone_limits": tuple(dict.fromkeys(map(_limits_row, reversed(limits)))),
        },
        steps=(*result.steps, *result.edge.steps),
        cautions=result.cautions,
        plan=tuple(ZoneShape(f"Zone {area.zone}", area.points) for area in plan),
    )


def _pressure_row(zone: ZonePressure) -> Row:
    pressures = (
        zone.allowable_up_psf,
        zone.allowable_down_psf,
        zone.strength_up_psf,
        zone.strength_down_psf,
    )
    return (f"Zone {zone.zone}", *(quantity(each, "pressure", "psf", 1) for each in pressures))


def _limits_row(limit: ZoneWidth) -> Row:
    return (f"Zone {limit.zone}", limit.place, _width(limit.width_ft), _width(limit.length_ft))


def _width(feet: float | None) -> Quantity | str:
    """A width of a zone; a dash for one that the others leave over."""
    return "-" if feet is None else quantity(math.ceil(feet * 12 - 1e-6) / 12, "length", "ft", 4)

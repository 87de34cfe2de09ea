"""Load along the slope: at the fixed point of a panel, and on snow retention.

A panel that slides on its clips hands everything that pulls it downslope to its one fixed point.
Snow loads are given per square foot of horizontal projection. A foot of slope length carries
p cos(theta) of it, of which the part along the slope is p cos(theta) sin(theta): the strict form.
The usual form of trade literature leaves the cosine out, p sin(theta), as if p lay on the slope; it
is larger by 1 / cos(theta), 12 percent at 6:12. Both are given, and **the usual form is the one in
the fields without** ``strict``. Friction of snow, clips and underlayment is not counted.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from specgen.calculations.record import OutsideMethod, Step, within

_FORM_SOURCE = "common practice; the strict form by statics"
_LEVEL_CAUTION = (
    "At the level of the loads put in: compare it with an allowable strength only if they are at "
    "service level (a snow load of ASCE/SEI 7-22 is at strength level)."
)


@dataclass(frozen=True, slots=True)
class DownslopeLoad:
    """What pulls one panel down the slope at its fixed point.

    ``angle_deg`` is the slope; ``per_foot_lb`` is pounds on each foot of roof width (along the
    eave), ``per_panel_lb`` on one panel, both in the usual form p sin; ``strict_per_foot_lb`` and
    ``strict_per_panel_lb`` count the snow as p cos sin.
    """

    angle_deg: float
    per_foot_lb: float
    per_panel_lb: float
    strict_per_foot_lb: float
    strict_per_panel_lb: float
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class SnowRetentionLoad:
    """What snow puts on retention along an eave.

    ``per_foot_lb`` is pounds on each foot of eave, all rows together, in the usual form p sin;
    ``per_row_foot_lb`` on a foot of one row; ``per_clamp_lb`` on one clamp, with a clamp on each
    seam of each row; ``strict_per_foot_lb`` counts the snow as p cos sin, all rows together.
    """

    angle_deg: float
    per_foot_lb: float
    per_row_foot_lb: float
    per_clamp_lb: float
    strict_per_foot_lb: float
    steps: tuple[Step, ...]


def downslope_load(
    *,
    slope_in_12: float,
    panel_length_ft: float,
    coverage_in: float,
    dead_psf: float,
    snow_psf: float,
) -> DownslopeLoad:
    """Load along the slope at the fixed point: F = (D + S) sin(theta) L per foot, usual form.

    D is the dead load of what slides with the panel, in psf of the slope itself (the panel's own
    weight, and what stands on it); S the roof snow load in psf of horizontal projection; L the
    panel's length along the slope in feet, laps included from the fixed point on; ``coverage_in``
    the panel's width in inches; ``slope_in_12`` the rise in inches in 12. Strict form:
    F = (D sin + S cos sin) L. Linear in loads, length and width; grows with slope in the usual
    form, while the strict snow term is largest at 12:12.

    Raises OutsideMethod for a slope outside 0 to 48 in 12, a length outside 0.5 to 500 ft, a
    coverage outside 6 to 36 in, a dead load outside 0 to 50 psf or snow outside 0 to 500 psf.
    Source: common practice; the strict form by statics.
    """
    angle = _angle(slope_in_12)
    length = within("panel_length_ft", panel_length_ft, 0.5, 500, "ft")
    coverage = within("coverage_in", coverage_in, 6, 36, "in")
    dead = within("dead_psf", dead_psf, 0, 50, "psf")
    snow = within("snow_psf", snow_psf, 0, 500, "psf")
    sine, cosine = math.sin(angle), math.cos(angle)
    per_foot = (dead + snow) * sine * length
    strict = (dead + snow * cosine) * sine * length
    steps = (
        *_slope_steps(slope_in_12, angle),
        Step("L", "length of the panel along the slope", length, "ft"),
        Step("c", "coverage width", coverage, "in"),
        Step("D", "dead load that slides with the panel, per area of slope", dead, "psf"),
        Step("S", "roof snow load, per area of horizontal projection", snow, "psf"),
        Step(
            "F",
            "load along the slope on each foot of width, usual form",
            per_foot,
            "lb/ft",
            "F = (D + S) sin(theta) L",
            f"F = ({dead:g} + {snow:g}) x {sine:.4f} x {length:g}",
            _FORM_SOURCE,
            "Friction is not counted. " + _LEVEL_CAUTION,
        ),
        Step(
            "P",
            "load along the slope on one panel, usual form",
            per_foot * coverage / 12,
            "lb",
            "P = F c / 12",
            f"P = {per_foot:g} x {coverage:g} / 12",
            _FORM_SOURCE,
            "The fixed point's fasteners, panel and deck carry this; their strength is the "
            "engineer's to show.",
        ),
        Step(
            "F_s",
            "load along the slope on each foot of width, strict form",
            strict,
            "lb/ft",
            "F_s = (D + S cos(theta)) sin(theta) L",
            f"F_s = ({dead:g} + {snow:g} x {cosine:.4f}) x {sine:.4f} x {length:g}",
            "statics",
        ),
        Step(
            "P_s",
            "load along the slope on one panel, strict form",
            strict * coverage / 12,
            "lb",
            "P_s = F_s c / 12",
            f"P_s = {strict:g} x {coverage:g} / 12",
            "statics",
        ),
    )
    return DownslopeLoad(
        math.degrees(angle),
        per_foot,
        per_foot * coverage / 12,
        strict,
        strict * coverage / 12,
        steps,
    )


def snow_retention_load(
    *,
    slope_in_12: float,
    run_above_ft: float,
    coverage_in: float,
    snow_psf: float,
    rows: int = 1,
) -> SnowRetentionLoad:
    """Load on snow retention for each foot of eave: R = S sin(theta) L, usual form.

    S is the roof snow load in psf of horizontal projection; L (``run_above_ft``) the slope length
    in feet from the lowest row to the ridge; ``coverage_in`` the spacing of the seams in inches;
    ``rows`` share it evenly. The dead load of the roof is not counted: the panels hang on their
    fixed points and not on the retention. Strict form: S cos(theta) sin(theta) L.

    Raises OutsideMethod for a slope outside 0 to 48 in 12, a run outside 0.5 to 500 ft, a coverage
    outside 6 to 36 in, snow outside 0 to 500 psf or rows that are not a whole number from 1 to 50.
    Source: common practice; the strict form by statics.
    """
    angle = _angle(slope_in_12)
    run = within("run_above_ft", run_above_ft, 0.5, 500, "ft")
    coverage = within("coverage_in", coverage_in, 6, 36, "in")
    snow = within("snow_psf", snow_psf, 0, 500, "psf")
    count = within("rows", rows, 1, 50, "")
    if count != int(count):
        raise OutsideMethod(f"rows is {rows:g}; it is a whole number")
    sine, cosine = math.sin(angle), math.cos(angle)
    per_foot = snow * sine * run
    row = per_foot / count
    clamp = row * coverage / 12
    steps = (
        *_slope_steps(slope_in_12, angle),
        Step("L", "slope length of roof above the lowest row", run, "ft"),
        Step("c", "spacing of the seams", coverage, "in"),
        Step("S", "roof snow load, per area of horizontal projection", snow, "psf"),
        Step("n", "rows", count, ""),
        Step(
            "R",
            "snow on each foot of eave, usual form, all rows",
            per_foot,
            "lb/ft",
            "R = S sin(theta) L",
            f"R = {snow:g} x {sine:.4f} x {run:g}",
            _FORM_SOURCE,
            "Friction is not counted; snow sliding onto this roof from a higher one comes on top. "
            + _LEVEL_CAUTION,
        ),
        Step(
            "r",
            "snow on each foot of one row",
            row,
            "lb/ft",
            "r = R / n",
            f"r = {per_foot:g} / {count:g}",
            "common practice",
            "Rows share evenly only where each has the same length of roof above it.",
        ),
        Step(
            "k",
            "load on one clamp, a clamp on each seam",
            clamp,
            "lb",
            "k = r c / 12",
            f"k = {row:g} x {coverage:g} / 12",
            "common practice",
            "Compared with the clamp's tested strength on this seam over its factor. Through the "
            "panel it reaches the fixed point, which must carry it as well.",
        ),
        Step(
            "R_s",
            "snow on each foot of eave, strict form, all rows",
            per_foot * cosine,
            "lb/ft",
            "R_s = S cos(theta) sin(theta) L",
            f"R_s = {snow:g} x {cosine:.4f} x {sine:.4f} x {run:g}",
            "statics",
        ),
    )
    return SnowRetentionLoad(math.degrees(angle), per_foot, row, clamp, per_foot * cosine, steps)


def _angle(slope_in_12: float) -> float:
    """The slope as an angle in radians."""
    return math.atan(within("slope_in_12", slope_in_12, 0, 48, "in 12") / 12)


def _slope_steps(slope_in_12: float, angle: float) -> tuple[Step, ...]:
    return (
        Step("m", "slope, rise in 12", slope_in_12, "in"),
        Step(
            "theta",
            "slope as an angle",
            math.degrees(angle),
            "deg",
            "theta = atan(m / 12)",
            f"theta = atan({slope_in_12:g} / 12)",
        ),
    )

"""Pressures of water tests: one pressure in its many units, and what the methods imply."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from specgen.calculations.record import Step, within
from specgen.units import DIMENSIONS

# psf of one mph squared at sea level in standard air, ASCE/SEI 7 Chapter 26, factors all 1
PSF_PER_MPH2 = 0.00256
# psf of one inch of water: 62.4 lb/cu ft, the engineer's weight of fresh water
PSF_PER_INCH_OF_WATER = 62.4 / 12
PA_PER_PSF = 1 / DIMENSIONS["pressure"].units["Pa"]

# ASTM E1646 where no test pressure is named, from memory
E1646_FRACTION = 0.20
E1646_FLOOR_PSF = 2.86
E1646_CAP_PSF = 12.0
# ASTM E1646 preloads, published by a test laboratory
PRELOAD_OF_LIVE = 0.75
PRELOAD_OF_WIND = 0.50


@dataclass(frozen=True, slots=True)
class Equivalents:
    """One pressure in psf, Pa and inches of water, and the wind that presses so.

    ``mph`` is the speed whose velocity pressure this is, q = 0.00256 V squared;
    ``meters_per_second`` is the same speed.
    """

    psf: float
    pa: float
    inches_of_water: float
    mph: float
    meters_per_second: float
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class WaterTestPressure:
    """Test pressure of ASTM E1646 where none is named, in psf and Pa.

    ``governs`` says which decided: the fraction of the design pressure, the floor or the cap.
    """

    psf: float
    pa: float
    governs: Literal["fraction", "floor", "cap"]
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Preloads:
    """Loads put on a specimen before the water test, both in psf and without a sign."""

    positive_psf: float
    negative_psf: float
    steps: tuple[Step, ...]


def psf_from_pa(pressure_pa: float) -> float:
    """psf of a pressure in Pa, 0 to 100,000. Source: definition of the units (NIST SP 811)."""
    return within("pressure_pa", pressure_pa, 0, 100_000, "Pa") / PA_PER_PSF


def psf_from_inches_of_water(inches_of_water: float) -> float:
    """psf of 0 to 400 inches of water, p = 5.2 h. Source: water at 62.4 lb/cu ft."""
    return within("inches_of_water", inches_of_water, 0, 400, "in") * PSF_PER_INCH_OF_WATER


def psf_from_mph(speed_mph: float) -> float:
    """Velocity pressure in psf of a wind of 0 to 300 mph, q = 0.00256 V squared.

    Source: ASCE/SEI 7 Chapter 26 with Kz, Kzt, Kd and Ke at 1. It says how hard a wind blows to
    press as a test does, and is no design wind pressure of a roof.
    """
    return PSF_PER_MPH2 * within("speed_mph", speed_mph, 0, 300, "mph") ** 2


def equivalents(*, pressure_psf: float) -> Equivalents:
    """A pressure of 0 to 2,000 psf in Pa, inches of water and as a wind speed.

    p_Pa = 47.880 p; h = p / 5.2; V = sqrt(p / 0.00256). Raises OutsideMethod outside the limits.
    Source: NIST SP 811; water at 62.4 lb/cu ft; ASCE/SEI 7 Chapter 26 with all factors 1.
    """
    psf = within("pressure_psf", pressure_psf, 0, 2000, "psf")
    pa = psf * PA_PER_PSF
    inches = psf / PSF_PER_INCH_OF_WATER
    mph = math.sqrt(psf / PSF_PER_MPH2)
    steps = (
        Step("p", "pressure", psf, "psf"),
        Step(
            "p_Pa",
            "the same in pascals",
            pa,
            "Pa",
            "p_Pa = 47.8803 p",
            f"p_Pa = 47.8803 x {psf:g}",
            "NIST SP 811",
        ),
        Step(
            "h",
            "the same as a head of water",
            inches,
            "in",
            "h = p / 5.2",
            f"h = {psf:g} / 5.2",
            "water at 62.4 lb/cu ft",
        ),
        Step(
            "V",
            "wind whose velocity pressure this is",
            mph,
            "mph",
            "V = sqrt(p / 0.00256)",
            f"V = sqrt({psf:g} / 0.00256)",
            "ASCE/SEI 7 Chapter 26, all factors 1",
            "For a sense of size only; no design wind speed or pressure of a roof.",
        ),
    )
    return Equivalents(psf, pa, inches, mph, mph * 1609.344 / 3600, steps)


def static_head(*, head_in: float) -> Equivalents:
    """Pressure at the foot of water standing ``head_in`` inches deep, p = 5.2 h psf.

    Raises OutsideMethod for a head outside 0 to 36 in. Source: water at 62.4 lb/cu ft; the test is
    ASTM E2140, whose usual head of 6 in is from memory.
    """
    head = within("head_in", head_in, 0, 36, "in")
    psf = psf_from_inches_of_water(head)
    result = equivalents(pressure_psf=psf)
    steps = (
        Step("h", "depth of standing water", head, "in"),
        Step(
            "p",
            "pressure at its foot",
            psf,
            "psf",
            "p = 62.4 h / 12",
            f"p = 62.4 x {head:g} / 12",
            "water at 62.4 lb/cu ft",
            "It stands for hours and on the seam itself; a seam that only sheds water does not "
            "resist it.",
        ),
        result.steps[1],
        result.steps[3],
    )
    return Equivalents(psf, result.pa, head, result.mph, result.meters_per_second, steps)


def water_penetration_pressure(*, design_positive_psf: float) -> WaterTestPressure:
    """Test pressure of ASTM E1646 where none is named: 0.20 p, at least 2.86 and at most 12.0 psf.

    ``design_positive_psf`` is the downward design wind pressure, without a sign. Raises
    OutsideMethod outside 0 to 500 psf. Source: ASTM E1646, from memory.
    """
    design = within("design_positive_psf", design_positive_psf, 0, 500, "psf")
    fraction = E1646_FRACTION * design
    governs: Literal["fraction", "floor", "cap"] = "fraction"
    if fraction < E1646_FLOOR_PSF:
        governs = "floor"
    elif fraction > E1646_CAP_PSF:
        governs = "cap"
    psf = min(max(fraction, E1646_FLOOR_PSF), E1646_CAP_PSF)
    steps = (
        Step(
            "p",
            "downward design wind pressure",
            design,
            "psf",
            caution="At allowable level: the method is older than wind speeds at strength level. "
            "State which level was used.",
        ),
        Step(
            "p_t",
            "pressure of the water test",
            psf,
            "psf",
            "p_t = min(max(0.20 p, 2.86), 12.0)",
            f"p_t = min(max(0.20 x {design:g}, 2.86), 12.0)",
            "ASTM E1646, from memory",
            "Confirm it in the edition cited, and write the figure into the section.",
        ),
        Step(
            "p_t,Pa",
            "the same in pascals",
            psf * PA_PER_PSF,
            "Pa",
            "p_t,Pa = 47.8803 p_t",
            f"p_t,Pa = 47.8803 x {psf:g}",
            "NIST SP 811",
        ),
    )
    return WaterTestPressure(psf, psf * PA_PER_PSF, governs, steps)


def water_test_preloads(
    *, design_positive_psf: float, design_uplift_psf: float, live_load_psf: float
) -> Preloads:
    """Preloads of ASTM E1646: down, max(0.75 L, 0.50 p); up, 0.50 u. All in psf, without a sign.

    p is the downward and u the uplift design wind pressure, L the roof live load. Raises
    OutsideMethod outside 0 to 500 psf (live load 0 to 200). Source: a test laboratory's page on
    ASTM E1646, which also gives a floor of 15 psf whose place in the method is not confirmed.
    """
    positive = within("design_positive_psf", design_positive_psf, 0, 500, "psf")
    uplift = within("design_uplift_psf", design_uplift_psf, 0, 500, "psf")
    live = within("live_load_psf", live_load_psf, 0, 200, "psf")
    down = max(PRELOAD_OF_LIVE * live, PRELOAD_OF_WIND * positive)
    up = PRELOAD_OF_WIND * uplift
    steps = (
        Step("L", "roof live load", live, "psf"),
        Step("p", "downward design wind pressure", positive, "psf"),
        Step("u", "uplift design wind pressure", uplift, "psf"),
        Step(
            "P_down",
            "preload downward",
            down,
            "psf",
            "P_down = max(0.75 L, 0.50 p)",
            f"P_down = max(0.75 x {live:g}, 0.50 x {positive:g})",
            "ASTM E1646, by a test laboratory's page",
            "The page also gives a least pressure of 15 psf, probably of this preload; confirm it.",
        ),
        Step(
            "P_up",
            "preload upward",
            up,
            "psf",
            "P_up = 0.50 u",
            f"P_up = 0.50 x {uplift:g}",
            "ASTM E1646, by a test laboratory's page",
        ),
    )
    return Preloads(down, up, steps)

"""Velocity pressure at mean roof height, each edition of ASCE 7 with its own constants.

ASCE 7-10: qh = 0.00256 Kz Kzt Kd V^2. ASCE 7-16 adds the ground elevation factor Ke. ASCE 7-22
takes Kd out of qh and puts it into the pressure equation: qh is larger by 1/0.85, and pressures
are not.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from specgen.calculations.record import OutsideMethod, Step, within
from specgen.calculations.wind_coefficients import one_of
from specgen.calculations.wind_curves import EDITIONS

EXPOSURES = ("b", "c", "d")
KZ_FROM = ("equation", "table")
# ASCE 7 Table 26.6-1, components and cladding of buildings.
DIRECTIONALITY = 0.85
# ASCE 7 Equation 26.10-1: half the density of air at sea level, for mph and psf.
AIR = 0.00256
# Feet per e-folding of air density, ASCE 7 section 26.9, as the exponent's factor.
ELEVATION_RATE = 0.0000362
SPEED_LIMITS_MPH = (85.0, 220.0)
# The method ends at 60 ft. Below 15 ft Kz stays that of 15 ft; below 5 ft nothing is a roof.
HEIGHT_LIMITS_FT = (5.0, 60.0)
LOWEST_KZ_HEIGHT_FT = 15.0
B_FLOOR = 0.70


@dataclass(frozen=True, slots=True)
class Roughness:
    """Kz = ``factor`` (z / zg)^(2 / alpha); ``terrain`` gives (alpha, zg in ft) by exposure."""

    factor: float
    terrain: dict[str, tuple[float, float]]
    table: str


_TO_7_16 = {"b": (7.0, 1200.0), "c": (9.5, 900.0), "d": (11.5, 700.0)}
ROUGHNESS = {
    "7-10": Roughness(2.01, _TO_7_16, "ASCE 7-10 Tables 26.9-1 and 30.3-1"),
    "7-16": Roughness(2.01, _TO_7_16, "ASCE 7-16 Tables 26.11-1 and 26.10-1"),
    "7-22": Roughness(
        2.41,
        {"b": (7.5, 3280.0), "c": (9.8, 2460.0), "d": (11.5, 1935.0)},
        "ASCE 7-22 Tables 26.11-1 and 26.10-1 (the factor 2.41 from memory)",
    ),
}
# ASCE 7-22 Table 26.10-1 to 60 ft, straight between heights. Not the equation throughout: exposure
# B at 30 ft reads 0.70 (equation 0.689), and exposure D lies 0.5 to 1 percent below it.
KZ_TABLE_7_22 = {
    "b": ((15, 0.57), (20, 0.62), (25, 0.66), (30, 0.70), (40, 0.74), (50, 0.79), (60, 0.83)),
    "c": ((15, 0.85), (20, 0.90), (25, 0.94), (30, 0.98), (40, 1.04), (50, 1.09), (60, 1.13)),
    "d": ((15, 1.03), (20, 1.08), (25, 1.12), (30, 1.16), (40, 1.22), (50, 1.27), (60, 1.31)),
}


@dataclass(frozen=True, slots=True)
class VelocityPressure:
    """Velocity pressure at mean roof height, and what it was made of.

    ``qh_psf`` is as the edition defines it: with Kd in 7-10 and 7-16, without in 7-22; the
    pressures are made from ``qh_psf`` x ``kd_in_pressure`` (1 or 0.85). ``kz_from`` is "equation"
    or "table"; ``floored`` says that Kz was raised to 0.70 (exposure B).
    """

    edition: str
    speed_mph: float
    exposure: str
    height_ft: float
    topographic_factor: float
    elevation_ft: float
    kz: float
    kz_from: str
    floored: bool
    ke: float
    kd_in_pressure: float
    qh_psf: float

    @property
    def steps(self) -> tuple[Step, ...]:
        """Every line from basic wind speed to velocity pressure."""
        code = f"ASCE {self.edition}"
        v, kzt = self.speed_mph, self.topographic_factor
        factors, figures = "Kz Kzt", f"{self.kz:.5g} x {kzt:g}"
        lines = [
            Step("V", "basic wind speed", v, "mph", source=f"{code} section 26.5"),
            Step("h", "mean roof height", self.height_ft, "ft", caution=self._height_caution()),
            self._kz_step(),
            Step("Kzt", "topographic factor", kzt, "", source=f"{code} section 26.8"),
        ]
        kd = Step("Kd", "directionality factor", DIRECTIONALITY, "", source=f"{code} Table 26.6-1")
        if self.edition != "7-22":
            lines.append(kd)
            factors, figures = factors + " Kd", f"{figures} x {DIRECTIONALITY}"
        if self.edition != "7-10":
            lines.append(self._ke_step())
            factors, figures = factors + " Ke", f"{figures} x {self.ke:.5g}"
        equation = "30.3-1" if self.edition == "7-10" else "26.10-1"
        lines.append(
            Step(
                "qh",
                "velocity pressure at mean roof height",
                self.qh_psf,
                "psf",
                f"{AIR} {factors} V^2",
                f"{AIR} x {figures} x {v:g}^2",
                f"{code} Equation {equation}",
            )
        )
        return (*lines, kd) if self.edition == "7-22" else tuple(lines)

    def _height_caution(self) -> str:
        if self.height_ft < LOWEST_KZ_HEIGHT_FT:
            return "below 15 ft Kz stays that of 15 ft"
        return ""

    def _ke_step(self) -> Step:
        return Step(
            "Ke", "ground elevation factor", self.ke, "", f"e^(-{ELEVATION_RATE:.7f} ze)",
            f"e^(-{ELEVATION_RATE:.7f} x {self.elevation_ft:g})",
            f"ASCE {self.edition} section 26.9 (1.0 is always permitted)",
        )  # fmt: skip

    def _kz_step(self) -> Step:
        z = max(self.height_ft, LOWEST_KZ_HEIGHT_FT)
        rough, label = ROUGHNESS[self.edition], f"exposure coefficient, exposure {self.exposure}"
        label = label[:-1] + label[-1].upper()
        if self.kz_from == "table":
            formula, worked = "table, straight between heights", f"at {z:g} ft"
            source, caution = "ASCE 7-22 Table 26.10-1", "read from the table, not the equation"
        else:
            alpha, zg = rough.terrain[self.exposure]
            formula = f"{rough.factor} (z/zg)^(2/α)"
            worked = f"{rough.factor} x ({z:g}/{zg:g})^(2/{alpha:g})"
            source, caution = rough.table, ""
            if self.edition == "7-22":
                caution = "from the equation; the printed table differs by up to 2 percent"
        if self.floored:
            formula, worked = f"{formula}, not below {B_FLOOR:.2f}", f"{worked}, raised"
            caution = "the 0.70 of exposure B is a rule of ASCE 7-10; kept here on the safe side"
            if self.edition == "7-10":
                caution = "0.70 is the least for components and cladding in exposure B"
        elif self.exposure == "b" and self.kz < B_FLOOR:
            below = "below the 0.70 that simplified pressure tables keep for exposure B"
            caution = f"{caution}; {below}" if caution else below
        return Step("Kz", label, self.kz, "", formula, worked, source, caution)


def velocity_pressure(
    *,
    edition: str,
    speed_mph: float,
    exposure: str,
    mean_roof_height_ft: float,
    topographic_factor: float = 1.0,
    ground_elevation_ft: float = 0.0,
    kz_from: str = "equation",
    exposure_b_floor: bool = False,
) -> VelocityPressure:
    """Velocity pressure in psf at mean roof height, as the edition defines it.

    7-10: qh = 0.00256 Kz Kzt Kd V^2; 7-16: with Ke; 7-22: with Ke and without Kd. V in mph, Kd
    0.85, Ke = e^(-0.0000362 ze) with ze in ft above sea level. ``kz_from`` "table" takes Kz from
    Table 26.10-1 of 7-22. ``exposure_b_floor`` keeps Kz at 0.70 or more in exposure B (it
    bites to 30 ft, by the equation of 7-22 to 32 ft). 7-10 always does, and has no Ke, so that its
    elevation counts for nothing.

    Raises OutsideMethod beyond 85 to 220 mph, 5 to 60 ft, Kzt 1 to 3, 0 to 12,000 ft above sea
    level, and for a table of an edition that is not held. Source: ASCE 7-10 Equation 30.3-1, ASCE
    7-16 and 7-22 Equation 26.10-1, Tables 26.6-1, 26.9-1, 26.10-1 and 26.11-1.
    """
    one_of("wind standard edition", edition, EDITIONS)
    speed = within("basic wind speed", speed_mph, *SPEED_LIMITS_MPH, "mph")
    height = within("mean roof height", mean_roof_height_ft, *HEIGHT_LIMITS_FT, "ft")
    kzt = within("topographic factor", topographic_factor, 1.0, 3.0, "")
    elevation = within("ground elevation", ground_elevation_ft, 0.0, 12_000.0, "ft")
    kz = exposure_coefficient(edition=edition, exposure=exposure, height_ft=height, kz_from=kz_from)
    keeps_floor = exposure_b_floor or edition == "7-10"
    floored = exposure == "b" and keeps_floor and kz < B_FLOOR
    if floored:
        kz = B_FLOOR
    ke = 1.0 if edition == "7-10" else math.exp(-ELEVATION_RATE * elevation)
    kd_in_pressure = DIRECTIONALITY if edition == "7-22" else 1.0
    qh = AIR * kz * kzt * ke * (DIRECTIONALITY / kd_in_pressure) * speed**2
    return VelocityPressure(
        edition, speed, exposure, height, kzt, elevation, kz, kz_from, floored, ke,
        kd_in_pressure, qh,
    )  # fmt: skip


def exposure_coefficient(
    *, edition: str, exposure: str, height_ft: float, kz_from: str = "equation"
) -> float:
    """Kz at a height of 5 to 60 ft, without the floor of 0.70 that 7-10 has in exposure B.

    Kz = 2.01 (z/zg)^(2/alpha) in 7-10 and 7-16, 2.41 (z/zg)^(2/alpha) in 7-22, z not below 15 ft.
    Raises OutsideMethod beyond those heights and for the table of another edition than 7-22.
    Source: ASCE 7-16 and 7-22 Table 26.10-1, terrain constants Table 26.11-1.
    """
    one_of("wind standard edition", edition, EDITIONS)
    one_of("exposure", exposure, EXPOSURES)
    one_of("kz_from", kz_from, KZ_FROM)
    z = max(within("height", height_ft, *HEIGHT_LIMITS_FT, "ft"), LOWEST_KZ_HEIGHT_FT)
    if kz_from == "equation":
        rough = ROUGHNESS[edition]
        alpha, zg = rough.terrain[exposure]
        return rough.factor * math.pow(z / zg, 2.0 / alpha)
    if edition != "7-22":
        raise OutsideMethod(
            f"kz_from is 'table' under ASCE {edition}; the table is held for 7-22 alone, as that "
            "of the editions before is the equation rounded"
        )
    rows = KZ_TABLE_7_22[exposure]
    for (low, kz_low), (high, kz_high) in pairwise(rows):
        if z <= high:
            return kz_low + (kz_high - kz_low) * (z - low) / (high - low)
    raise AssertionError("the height was checked against the end of the table")

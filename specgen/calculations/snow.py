"""Flat roof snow load from ground snow load, by ASCE/SEI 7-16 and 7-22, Section 7.3."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from specgen.calculations.record import OutsideMethod, Step, within

Edition = Literal["asce-7-16", "asce-7-22"]

# degrees: below this a monoslope, hip or gable roof is low-slope and has a minimum load,
# ASCE/SEI 7-16 7.3.4
LOW_SLOPE_DEG = 15.0
# psf of ground snow up to which the minimum is Is pg, and beyond which it stays Is x 20
MINIMUM_GROUND_PSF = 20.0
# load factor on snow at allowable stress level in ASCE/SEI 7-22 2.4.1, from memory
ALLOWABLE_OF_7_22 = 0.7


@dataclass(frozen=True, slots=True)
class FlatRoofSnow:
    """Flat roof snow load.

    All in psf of horizontal projection. ``flat_psf`` is pf at the level of the standard's own
    ground snow load: service level in 7-16, strength level in 7-22. ``allowable_psf`` is the same
    at allowable stress level. ``minimum_psf`` is the least load of a low-slope roof, a case of its
    own beside pf: 0 for a steeper roof, None where it is not computed (7-22, or no slope given).
    """

    flat_psf: float
    allowable_psf: float
    minimum_psf: float | None
    steps: tuple[Step, ...]


def flat_roof_snow(
    *,
    ground_snow_psf: float,
    exposure_factor: float = 1.0,
    thermal_factor: float = 1.0,
    importance_factor: float = 1.0,
    edition: Edition = "asce-7-16",
    slope_in_12: float | None = None,
) -> FlatRoofSnow:
    """Flat roof snow load pf = 0.7 Ce Ct Is pg (ASCE/SEI 7-16 Eq. 7.3-1); without Is in 7-22.

    pg is the ground snow load in psf; Ce (Table 7.3-1), Ct (Table 7.3-2) and Is (Table 1.5-2) are
    the standard's factors, without unit. ``slope_in_12`` (inches of rise in 12) adds the minimum of
    a low-slope roof, Is x the lesser of pg and 20 psf (7-16 7.3.4). The slope factor Cs, drifts,
    sliding and unbalanced snow and the rain-on-snow surcharge are the structural engineer's.

    Raises OutsideMethod for a ground snow load outside 0 to 500 psf, Ce outside 0.7 to 1.2, Ct
    outside 0.8 to 1.3, Is outside 0.8 to 1.2 (1.0 alone in 7-22), a slope outside 0 to 48 in 12 or
    an unknown edition. Limits of the factors: the tables of 7-16, from memory.
    """
    if edition not in ("asce-7-16", "asce-7-22"):
        raise OutsideMethod(f"edition is {edition!r}; known are asce-7-16, asce-7-22")
    strength_level = edition == "asce-7-22"
    ground = within("ground_snow_psf", ground_snow_psf, 0, 500, "psf")
    ce = within("exposure_factor", exposure_factor, 0.7, 1.2, "")
    ct = within("thermal_factor", thermal_factor, 0.8, 1.3, "")
    low, high = (1.0, 1.0) if strength_level else (0.8, 1.2)
    importance = within("importance_factor", importance_factor, low, high, "")
    flat = 0.7 * ce * ct * importance * ground
    standard = "ASCE/SEI 7-22" if strength_level else "ASCE/SEI 7-16"
    steps = [
        _ground_step(ground, strength_level),
        Step("Ce", "exposure factor", ce, "", source=f"{standard} Table 7.3-1"),
        Step("Ct", "thermal factor", ct, "", source=f"{standard} Table 7.3-2"),
        Step(
            "Is",
            "importance factor",
            importance,
            "",
            source="in the ground snow load since ASCE/SEI 7-22, from memory"
            if strength_level
            else "ASCE/SEI 7-16 Table 1.5-2",
        ),
        Step(
            "pf",
            "flat roof snow load",
            flat,
            "psf",
            "pf = 0.7 Ce Ct Is pg",
            f"pf = 0.7 x {ce:g} x {ct:g} x {importance:g} x {ground:g}",
            "ASCE/SEI 7-22 Eq. 7.3-1, from memory; Is is 1"
            if strength_level
            else "ASCE/SEI 7-16 Eq. 7.3-1",
            "Per horizontal projection. The slope factor Cs of a slippery metal roof, drifts, "
            "sliding and unbalanced snow and rain on snow are the structural engineer's.",
        ),
    ]
    allowable = flat * ALLOWABLE_OF_7_22 if strength_level else flat
    if strength_level:
        steps.append(
            Step(
                "pf_a",
                "the same at allowable stress level",
                allowable,
                "psf",
                "pf_a = 0.7 pf",
                f"pf_a = 0.7 x {flat:g}",
                "ASCE/SEI 7-22 2.4.1, from memory",
            )
        )
    minimum = None
    if slope_in_12 is not None:
        angle = math.degrees(math.atan(within("slope_in_12", slope_in_12, 0, 48, "in 12") / 12))
        if not strength_level:
            steps_of_minimum, minimum = _minimum(ground, importance, angle)
            steps += steps_of_minimum
    return FlatRoofSnow(flat, allowable, minimum, tuple(steps))


def _ground_step(ground: float, strength_level: bool) -> Step:
    caution = (
        "A ground snow load of 7-22 is at strength level and for one risk category; one of 7-16 "
        "is neither. Do not mix the two."
    )
    source = "ASCE/SEI 7-22 Section 7.2" if strength_level else "ASCE/SEI 7-16 Section 7.2"
    return Step("pg", "ground snow load", ground, "psf", source=source, caution=caution)


def _minimum(ground: float, importance: float, angle_deg: float) -> tuple[list[Step], float]:
    """Minimum snow load of a low-slope roof (ASCE/SEI 7-16 7.3.4), and its lines; 0 if steeper."""
    if angle_deg >= LOW_SLOPE_DEG:
        return [], 0.0
    minimum = importance * min(ground, MINIMUM_GROUND_PSF)
    step = Step(
        "pm",
        "minimum snow load of a low-slope roof",
        minimum,
        "psf",
        "pm = Is x min(pg, 20)",
        f"pm = {importance:g} x min({ground:g}, 20)",
        "ASCE/SEI 7-16 7.3.4",
        "A uniform load case of its own: not added to drifts, sliding or unbalanced snow.",
    )
    return [step], minimum

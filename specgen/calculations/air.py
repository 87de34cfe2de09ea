"""Air leakage of panels: units of the rate, the rate at another pressure, the air of a roof."""

from __future__ import annotations

from dataclasses import dataclass

from specgen.calculations.record import Step, within
from specgen.units import DIMENSIONS

CFM_SQFT_PER_L_S_SQM = DIMENSIONS["leakage"].units["L/s per sq m"]
# exponent of flow through cracks, from memory; 0.5 is turbulent, 1 laminar
CRACK_EXPONENT = 0.65


@dataclass(frozen=True, slots=True)
class AirLeakage:
    """Air that a roof area may leak at a test's limit.

    ``rate_cfm_sqft`` and ``rate_l_s_sqm`` are the rate per area in cfm/sq ft and L/s per sq m;
    ``total_cfm`` and ``total_l_s`` that of the whole area in cubic feet a minute and liters a
    second.
    """

    rate_cfm_sqft: float
    rate_l_s_sqm: float
    total_cfm: float
    total_l_s: float
    steps: tuple[Step, ...]


def rate_at_pressure(
    *, rate_cfm_sqft: float, at_psf: float, wanted_psf: float, exponent: float = CRACK_EXPONENT
) -> float:
    """Leakage rate at another pressure, q2 = q1 (p2 / p1) ** n, in cfm/sq ft.

    For comparing rates that were stated at different pressures; not a test result. n is 0.65 for
    cracks (from memory). Raises OutsideMethod for a rate outside 0 to 10 cfm/sq ft, pressures
    outside 0.1 to 100 psf or an exponent outside 0.5 to 1.
    """
    rate = within("rate_cfm_sqft", rate_cfm_sqft, 0, 10, "cfm/sq ft")
    first = within("at_psf", at_psf, 0.1, 100, "psf")
    second = within("wanted_psf", wanted_psf, 0.1, 100, "psf")
    power: float = (second / first) ** within("exponent", exponent, 0.5, 1, "")
    return rate * power


def air_leakage(*, rate_cfm_sqft: float, area_sqft: float, pressure_psf: float) -> AirLeakage:
    """Air through a roof area at a leakage rate, Q = q A, in cfm and in L/s.

    ``pressure_psf`` is the pressure that the rate is stated at, and goes into the record alone.
    Raises OutsideMethod for a rate outside 0 to 10 cfm/sq ft, an area outside 1 to 10,000,000
    sq ft or a pressure outside 0.1 to 100 psf. Source: definition of the units (NIST SP 811).
    """
    rate = within("rate_cfm_sqft", rate_cfm_sqft, 0, 10, "cfm/sq ft")
    area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    pressure = within("pressure_psf", pressure_psf, 0.1, 100, "psf")
    metric = rate / CFM_SQFT_PER_L_S_SQM
    total = rate * area
    liters = total * 0.3048**3 * 1000 / 60
    steps = (
        Step("p", "pressure that the rate is stated at", pressure, "psf"),
        Step("A", "roof area", area, "sq ft"),
        Step(
            "q",
            "leakage rate",
            rate,
            "cfm/sq ft",
            caution="Of the panel field. Ridge, eave, rake and penetrations are not in the test, "
            "and most air passes there.",
        ),
        Step(
            "q_m",
            "the same, metric",
            metric,
            "L/s per sq m",
            "q_m = 5.08 q",
            f"q_m = 5.08 x {rate:g}",
            "NIST SP 811",
        ),
        Step("Q", "air through the area", total, "cfm", "Q = q A", f"Q = {rate:g} x {area:g}"),
        Step(
            "Q_m",
            "the same, metric",
            liters,
            "L/s",
            "Q_m = 0.471947 Q",
            f"Q_m = 0.471947 x {total:g}",
            "NIST SP 811",
        ),
    )
    return AirLeakage(rate, metric, total, liters, steps)

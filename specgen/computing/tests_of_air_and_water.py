"""What the air, water and standing-water tests of the brief mean in pressure."""

from __future__ import annotations

from specgen.calculations.air import air_leakage
from specgen.calculations.pressures import equivalents, static_head, water_penetration_pressure
from specgen.calculations.record import Step
from specgen.computing.inputs import Inputs, quantity
from specgen.computing.pressures import downward_allowable
from specgen.computing.registry import Outcome
from specgen.values import NOT_ASKED, Value


def compute(inputs: Inputs) -> Outcome:
    """Equivalents of the test pressures, leakage of the roof, the water test that wind implies."""
    steps: list[Step] = []
    cautions: list[str] = []
    values: dict[str, Value] = {"head_pressure": NOT_ASKED, "default_water_pressure": NOT_ASKED}
    air = inputs.optional("air_pressure", "psf")
    if air is not None:
        steps += equivalents(pressure_psf=air).steps
        steps += air_leakage(
            rate_cfm_sqft=inputs.figure("air_rate", "cfm/sq ft"),
            area_sqft=inputs.figure("building_length", "ft")
            * inputs.figure("building_width", "ft"),
            pressure_psf=air,
        ).steps
    head = inputs.optional("static_head", "in")
    if head is not None:
        standing = static_head(head_in=head)
        steps += standing.steps
        values["head_pressure"] = quantity(standing.psf, "pressure", "psf", 1)
    given = inputs.optional("water_pressure", "psf")
    if given is not None:
        steps += equivalents(pressure_psf=given).steps
        downward = downward_allowable(inputs)
        if downward:
            implied = water_penetration_pressure(design_positive_psf=max(downward))
            steps += implied.steps
            values["default_water_pressure"] = quantity(implied.psf, "pressure", "psf")
            if given < implied.psf - 0.005:
                cautions.append(
                    f"The water test is asked at {given:g} psf, less than the {implied.psf:.2f} psf"
                    " that the method takes from the wind where no pressure is named."
                )
    return Outcome(values=values, steps=tuple(steps), cautions=tuple(cautions))

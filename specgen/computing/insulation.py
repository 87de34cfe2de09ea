"""Thermal resistance, the energy code's minimum, and fasteners through the boards."""

from __future__ import annotations

from typing import cast

from specgen.calculations.energy_code import BuildingCode, code_minimum_r
from specgen.calculations.fastener import FastenerLength, fastener_length
from specgen.calculations.insulation import InsulationKind, Layer, resistance, thickness_for_r
from specgen.calculations.record import OutsideMethod
from specgen.computing.inputs import Inputs, quantity
from specgen.computing.registry import Outcome
from specgen.values import NOT_ASKED, Value

# inches below or into the support, by support; common practice
PENETRATION = {"steel-deck": 0.75, "steel-deck-insulated": 0.75, "wood-deck": 1.0}
COVER_BOARD_IN = 0.5


def compute(inputs: Inputs) -> Outcome:
    """R of the boards against the R specified and the R that the code asks; fastener length."""
    kind = cast("InsulationKind", inputs.choice("insulation"))
    count = int(inputs.figure("insulation_layers", ""))
    each = inputs.figure("insulation_thickness", "in") / max(count, 1)
    layers = resistance([Layer(kind, each)] * count)
    steps = [*layers.steps]
    cautions = []
    specified = inputs.figure("insulation_r", "")
    if layers.r < specified - 0.05:
        cautions.append(
            f"The boards give R-{layers.r:.1f}, less than the R-{specified:g} that the brief asks."
        )
    try:
        minimum = code_minimum_r(
            code=cast("BuildingCode", inputs.choice("code")),
            climate_zone=inputs.choice("climate_zone"),
        )
        least = minimum.r if minimum.r_by_u_factor is None else minimum.r_by_u_factor
        code_r: Value = float(round(least, 1))
        steps += minimum.steps
        if layers.r < least - 0.05:
            needed = thickness_for_r(kind=kind, required_r=least, layers=max(count, 2))
            steps += needed.steps
            cautions.append(
                f"The boards give R-{layers.r:.1f}, less than the R-{least:.3g} of the energy"
                f" code; {needed.layers} layers of {needed.layer_in:g} in reach it."
            )
    except OutsideMethod as refusal:
        code_r = NOT_ASKED
        cautions.append(f"The energy code's minimum is not computed: {refusal}.")
    values: dict[str, Value] = {"computed_r": round(layers.r, 1), "code_r": code_r}
    fastener = _fastener(inputs)
    if fastener is not None:
        values["fastener_length"] = quantity(fastener.length_in, "length", "in", 1)
        steps += fastener.steps
    return Outcome(values=values, steps=tuple(steps), cautions=tuple(cautions))


def _fastener(inputs: Inputs) -> FastenerLength | None:
    """The screw through boards into a deck; None over supports that have none to screw into."""
    support = inputs.choice("support")
    if support not in PENETRATION:
        return None
    covered = inputs.choice("cover_board") not in ("", "none")
    given = inputs.optional("fastener_penetration", "in")
    return fastener_length(
        insulation_in=inputs.figure("insulation_thickness", "in"),
        deck_in=0.0,
        penetration_in=PENETRATION[support] if given is None else given,
        cover_board_in=COVER_BOARD_IN if covered else 0.0,
    )

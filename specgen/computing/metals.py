"""The panel's metal by the name that the tables of densities and expansion use."""

from __future__ import annotations

from typing import cast

from specgen.calculations.weight import Metal
from specgen.computing.inputs import Inputs


def metal_of(inputs: Inputs) -> Metal:
    """The metal, stainless steel told apart by its type (304 where that is not answered)."""
    metal = inputs.choice("metal")
    if metal == "stainless":
        metal = (
            "stainless-316" if inputs.choice("stainless_type") == "type-316" else "stainless-304"
        )
    return cast("Metal", metal)

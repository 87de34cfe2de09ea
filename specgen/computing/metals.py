"""The panel's metal by the name that the tables of densities and expansion use."""

from __future__ import annotations

from typing import cast

from specgen.calculations.weight import Metal
from specgen.computing.inputs import Inputs


def metal_of(inputs: Inputs) -> Metal:
    """The metal, stainless steel told apart by its type where that is answered."""
    metal = inputs.choice("metal")
    if metal == "stainless":
        metal = inputs.choice("stainless_type") or metal
    return cast("Metal", metal)

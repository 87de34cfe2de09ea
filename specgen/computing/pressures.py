"""The zone pressures of a brief at allowable level, whether computed here or given."""

from __future__ import annotations

from specgen.computing.inputs import Inputs
from specgen.units import Quantity

ALLOWABLE = 0.6


def zones_allowable(inputs: Inputs) -> tuple[tuple[str, float, float], ...]:
    """(zone, uplift, downward) in psf at allowable level (0.6 W), as sizes without a sign.

    Computed pressures stand in the first columns of their table at that level; given ones are
    brought to it where the engineer gave them at strength level. Source: ASCE/SEI 7-16 and 7-22,
    Chapter 2.
    """
    computed = inputs.rows("computed_pressures")
    given = inputs.rows("zone_pressures")
    factor = ALLOWABLE if inputs.choice("pressure_level") == "strength" else 1.0
    rows = computed or given
    scale = 1.0 if computed else factor
    return tuple((str(row[0]), _psf(row[1]) * scale, _psf(row[2]) * scale) for row in rows)


def downward_allowable(inputs: Inputs) -> tuple[float, ...]:
    """The downward pressures of the zones in psf at allowable level."""
    return tuple(downward for _, _, downward in zones_allowable(inputs))


def _psf(cell: object) -> float:
    if not isinstance(cell, Quantity):
        raise TypeError(f"{cell!r} is no pressure")
    return abs(cell.to("psf"))

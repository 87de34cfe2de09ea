"""Thermal resistance of roof insulation, and thickness for a resistance.

R is in h sq ft degF/Btu, RSI in sq m K/W. Boards alone are counted: no air films, deck, cover
board or facer beyond the board's own, and nothing is taken off for screws and clips that bridge
the board. What the energy code asks stands in specgen.calculations.energy_code.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from specgen.calculations.record import OutsideMethod, Step, within
from specgen.units import RSI_PER_R

InsulationKind = Literal["polyiso", "xps", "eps", "mineral-wool", "blanket"]
EpsType = Literal["I", "VIII", "II", "IX"]

# inches -> R: long-term thermal resistance of faced polyisocyanurate board (ASTM C1289), in two
# public tables that agree. R per inch goes up with thickness from 5.6 to 5.9, so it is read from
# the table and not multiplied.
POLYISO_LTTR = {
    1.0: 5.6,
    1.5: 8.6,
    2.0: 11.4,
    2.2: 12.6,
    2.5: 14.4,
    2.6: 15.0,
    3.0: 17.4,
    3.5: 20.5,
    4.0: 23.6,
}
# R per inch that a roofing contractors' association recommends for polyisocyanurate in heating
# conditions, below which cold takes it (2016)
POLYISO_WINTER_PER_IN = 5.0
# R per inch at 75 degF, per type of ASTM C578; per-type values from memory
EPS_PER_IN: dict[EpsType, float] = {"I": 3.6, "VIII": 3.8, "II": 4.0, "IX": 4.2}
# R per inch, thinnest and thickest layer in inches (sizes are common practice), source of R
_PER_INCH: dict[InsulationKind, tuple[float, str]] = {
    "xps": (5.0, "ASTM C578, aged 180 days at 75 degF; published sheets give 4.5 to 5.0"),
    "mineral-wool": (4.0, "from memory; published sheets give 3.8 to 4.2"),
    "blanket": (3.1, "from memory; R-19 in 6-1/4 in"),
}
_LAYER_IN: dict[InsulationKind, tuple[float, float]] = {
    "polyiso": (1.0, 4.0),
    "xps": (0.5, 4.0),
    "eps": (0.5, 12.0),
    "mineral-wool": (1.0, 8.0),
    "blanket": (1.0, 12.0),
}
_CAUTION: dict[InsulationKind, str] = {
    "polyiso": "The long-term value is at 75 degF; in deep cold less is left of it.",
    "xps": "Aged and wet board falls to 4.5 to 4.7 an inch.",
    "eps": "By the type named; does not lose R with age.",
    "mineral-wool": "By density; the board maker's figure governs.",
    "blanket": "Crushed over each purlin: the rated R is not what is left of it.",
}


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of insulation: kind, thickness in inches, and for EPS its type in ASTM C578."""

    kind: InsulationKind
    thickness_in: float
    eps_type: EpsType = "II"


@dataclass(frozen=True, slots=True)
class Resistance:
    """Thermal resistance of layers laid one on another.

    ``r`` in h sq ft degF/Btu, ``rsi`` the same in sq m K/W; ``winter_r`` with polyisocyanurate
    at 5.0 an inch, what to count on in heating conditions; ``thickness_in`` of all layers.
    """

    r: float
    rsi: float
    winter_r: float
    thickness_in: float
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Thickness:
    """Insulation that reaches a resistance.

    ``layers`` of ``layer_in`` inches each, ``total_in`` together, of ``r`` in h sq ft degF/Btu.
    """

    layers: int
    layer_in: float
    total_in: float
    r: float
    steps: tuple[Step, ...]


def rsi(r: float) -> float:
    """RSI in sq m K/W of an R in h sq ft degF/Btu. OutsideMethod outside 0 to 1000.

    Source: NIST SP 811.
    """
    return within("r", r, 0, 1000, "h sq ft degF/Btu") * RSI_PER_R


def layer_r(layer: Layer) -> float:
    """R of one layer in h sq ft degF/Btu.

    Polyisocyanurate by straight line between the thicknesses of POLYISO_LTTR, others by R per inch.
    Raises OutsideMethod for an unknown kind or type and for a thickness that the kind is not made
    in: 1 to 4 in polyisocyanurate (the table's ends), 0.5 to 4 in XPS, 0.5 to 12 in EPS, 1 to 8 in
    mineral wool, 1 to 12 in blanket. Source: at the tables.
    """
    if layer.kind not in _LAYER_IN:
        raise OutsideMethod(f"kind is {layer.kind!r}; known are {', '.join(_LAYER_IN)}")
    low, high = _LAYER_IN[layer.kind]
    thickness = within(f"thickness_in of {layer.kind}", layer.thickness_in, low, high, "in")
    if layer.kind != "polyiso":
        return thickness * _per_inch(layer.kind, layer.eps_type)[0]
    inches = list(POLYISO_LTTR)
    above = max(1, bisect_left(inches, thickness))
    x0, x1 = inches[above - 1], inches[above]
    y0, y1 = POLYISO_LTTR[x0], POLYISO_LTTR[x1]
    return y0 + (y1 - y0) * (thickness - x0) / (x1 - x0)


def resistance(layers: Sequence[Layer]) -> Resistance:
    """R of layers in series: the sum of theirs, with RSI and the winter figure beside it.

    Raises OutsideMethod for no layer, more than 10, or one that layer_r refuses. Source: at the
    tables; the winter figure of polyisocyanurate is 5.0 an inch.
    """
    within("number of layers", len(layers), 1, 10, "")
    steps: list[Step] = []
    for number, layer in enumerate(layers, start=1):
        steps += [
            Step(f"t{number}", f"thickness of layer {number}", layer.thickness_in, "in"),
            _layer_step(number, layer),
        ]
    total = sum(layer_r(layer) for layer in layers)
    winter = sum(
        POLYISO_WINTER_PER_IN * layer.thickness_in if layer.kind == "polyiso" else layer_r(layer)
        for layer in layers
    )
    sum_of = " + ".join(f"R{number}" for number in range(1, len(layers) + 1))
    figures = " + ".join(f"{layer_r(layer):.4g}" for layer in layers)
    steps += [
        Step(
            "R", "R of the insulation", total, "h sq ft degF/Btu", f"R = {sum_of}", f"R = {figures}"
        ),
        Step(
            "RSI",
            "the same, metric",
            rsi(total),
            "sq m K/W",
            "RSI = 0.1761102 R",
            f"RSI = 0.1761102 x {total:.4g}",
            "NIST SP 811",
        ),
    ]
    if any(layer.kind == "polyiso" for layer in layers):
        steps.append(
            Step(
                "R_w",
                "R with polyisocyanurate at 5.0 an inch",
                winter,
                "h sq ft degF/Btu",
                source="a roofing contractors' association, for heating conditions (2016)",
                caution="For dew point and heat loss in the cold; energy codes go by the "
                "long-term value.",
            )
        )
    return Resistance(
        total, rsi(total), winter, sum(layer.thickness_in for layer in layers), tuple(steps)
    )


def thickness_for_r(
    *, kind: InsulationKind, required_r: float, layers: int = 2, eps_type: EpsType = "II"
) -> Thickness:
    """Least thickness, in equal layers of whole tenths of an inch, whose R reaches a figure.

    ``required_r`` is in h sq ft degF/Btu. Each layer has R not below required_r / layers.

    Raises OutsideMethod for an R outside 1 to 200, layers that are not a whole number from 1 to
    10, an unknown kind, or a layer that would be thicker than the kind is made in (the message
    says how thick). Source: as layer_r.
    """
    required = within("required_r", required_r, 1, 200, "h sq ft degF/Btu")
    within("layers", layers, 1, 10, "")
    if layers != int(layers):
        raise OutsideMethod(f"layers is {layers:g}; it is a whole number")
    if kind not in _LAYER_IN:
        raise OutsideMethod(f"kind is {kind!r}; known are {', '.join(_LAYER_IN)}")
    low, high = _LAYER_IN[kind]
    for tenths in range(math.ceil(low * 10), math.floor(high * 10) + 1):
        each = layer_r(Layer(kind, tenths / 10, eps_type))
        if each * layers >= required - 1e-9:
            return _thickness(Layer(kind, tenths / 10, eps_type), int(layers), required)
    raise OutsideMethod(
        f"required_r is {required:g} in {layers} layers; the limit is {each * layers:.4g}, of "
        f"{layers} layers of {kind} {high:g} in thick"
    )


def _per_inch(kind: InsulationKind, eps_type: EpsType) -> tuple[float, str]:
    """R per inch of a kind whose R goes with its thickness, and the source of it."""
    if kind != "eps":
        return _PER_INCH[kind]
    if eps_type not in EPS_PER_IN:
        raise OutsideMethod(f"eps_type is {eps_type!r}; known are {', '.join(EPS_PER_IN)}")
    return EPS_PER_IN[eps_type], f"ASTM C578 Type {eps_type}, from memory"


def _layer_step(number: int, layer: Layer) -> Step:
    """The line of one layer's R."""
    value = layer_r(layer)
    label = f"R of layer {number}, {layer.kind}"
    if layer.kind == "polyiso":
        formula, worked = "from the table, straight line between its thicknesses", ""
        source = "long-term thermal resistance, ASTM C1289, published by thickness"
    else:
        per_inch, source = _per_inch(layer.kind, layer.eps_type)
        formula, worked = "R = r t", f"R = {per_inch:g} x {layer.thickness_in:g}"
    return Step(
        f"R{number}",
        label,
        value,
        "h sq ft degF/Btu",
        formula,
        worked,
        source,
        _CAUTION[layer.kind],
    )


def _thickness(layer: Layer, layers: int, required: float) -> Thickness:
    """The result for equal layers that reach the resistance."""
    # a sum of tenths, so that 3 x 0.7 is 2.1
    total = round(layers * layer.thickness_in, 6)
    reached = layers * layer_r(layer)
    steps = (
        Step("R_req", "R required", required, "h sq ft degF/Btu"),
        Step("n", "layers, joints staggered", layers, ""),
        Step(
            "t1",
            "thickness of each layer, to the next 0.1 in",
            layer.thickness_in,
            "in",
            "least t1 with n R(t1) >= R_req",
            f"{layers} x {layer_r(layer):.4g} >= {required:g}",
            "R of the layers as below; the step of 0.1 in is common practice",
            caution="Boards are stocked in steps of 0.1 to 1/2 in; see what is made.",
        ),
        _layer_step(1, layer),
        Step(
            "t",
            "thickness of the insulation",
            total,
            "in",
            "t = n t1",
            f"t = {layers} x {layer.thickness_in:g}",
        ),
        Step(
            "R",
            "R reached",
            reached,
            "h sq ft degF/Btu",
            "R = n R1",
            f"R = {layers} x {layer_r(layer):.4g}",
        ),
    )
    return Thickness(layers, layer.thickness_in, total, reached, steps)

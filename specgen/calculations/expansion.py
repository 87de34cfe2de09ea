"""Linear thermal expansion: coefficients of panel metals and of what panels are clipped to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from specgen.calculations.record import OutsideMethod, within

FAHRENHEIT_PER_CELSIUS = 1.8


@dataclass(frozen=True, slots=True)
class Coefficient:
    """Growth of a unit length for each degree.

    ``name`` is the material's; ``per_degf`` is 1/degF; ``source`` where it stands; ``trust`` is
    high (two independent sources or a primary one), medium (one good source) or low.
    """

    name: str
    per_degf: float
    source: str
    trust: Literal["high", "medium", "low"]

    @property
    def per_degc(self) -> float:
        """The same in 1/degC."""
        return FAHRENHEIT_PER_CELSIUS * self.per_degf


_STEEL_SOURCE = (
    "Construction Canada, controlling thermal movement in metal panel roofs, after a contractors'"
    " association manual; 12.0e-6 per degC in a sheet table; 6.5e-6 per degF is also met with"
)
_304 = Coefficient(
    "stainless steel, Type 304",
    9.6e-6,
    "from memory; a sheet table has 17.0e-6 per degC, which is 9.4e-6 per degF",
    "medium",
)

METALS: Mapping[str, Coefficient] = MappingProxyType(
    {
        "coated-steel": Coefficient("metallic-coated steel", 6.7e-6, _STEEL_SOURCE, "high"),
        "aluminum": Coefficient(
            "aluminum, alloys 3003, 3004 and 3105",
            13.0e-6,
            "mean of published values of the alloys, 23 to 24e-6 per degC",
            "high",
        ),
        "copper": Coefficient(
            "copper",
            9.8e-6,
            "Copper Development Association, 68 to 572 degF; nearer 9.4e-6 at roof temperatures,"
            " so on the safe side",
            "high",
        ),
        "zinc": Coefficient(
            "rolled titanium-zinc, along the rolling",
            12.2e-6,
            "0.022 mm per m and K, technical page of a rolling mill; pure zinc moves more, 17.4e-6",
            "high",
        ),
        # The type is not always decided; 304 moves more, so it stands for both.
        "stainless": _304,
        "type-304": _304,
        "type-316": Coefficient(
            "stainless steel, Type 316",
            8.9e-6,
            "from memory; 9.2e-6 per degF is also met with",
            "medium",
        ),
    }
)

DECKS: Mapping[str, Coefficient] = MappingProxyType(
    {
        # The low end: a deck that warms and cools with the panel is credited with less movement, so
        # more is left between them.
        "wood-deck": Coefficient(
            "wood panel deck",
            1.7e-6,
            "from memory: low end along the grain, Wood Handbook; plywood is near 3.4e-6, and wood"
            " moves more with moisture than with heat",
            "low",
        ),
        "steel-deck": Coefficient("steel deck", 6.7e-6, _STEEL_SOURCE, "high"),
        "steel-deck-insulated": Coefficient(
            "steel deck under insulation", 6.7e-6, _STEEL_SOURCE, "high"
        ),
        "concrete": Coefficient(
            "concrete, normal weight",
            5.5e-6,
            "from memory; 4e-6 to 7e-6 per degF with the aggregate",
            "low",
        ),
        "open-framing": Coefficient("steel framing", 6.7e-6, _STEEL_SOURCE, "high"),
    }
)


def coefficient(material: str, materials: Mapping[str, Coefficient]) -> Coefficient:
    """The coefficient of a material by its id; OutsideMethod, naming those known, for another."""
    found = materials.get(material.strip().lower())
    if found is None:
        kind = "deck" if materials is DECKS else "metal"
        raise OutsideMethod(f"{kind} is {material}; those known are {', '.join(materials)}")
    return found


def rule_of_thumb_in(metal: str) -> float:
    """Movement of 10 ft over 100 degF, in: alpha x 120 x 100. OutsideMethod for an unknown metal.

    Source: definition; the coefficient as in METALS.
    """
    return coefficient(metal, METALS).per_degf * 120 * 100


def free_movement_in(*, length_in: float, per_degf: float, change_degf: float) -> float:
    """Movement of a length free to move, in: alpha L dT, negative when it cools.

    Raises OutsideMethod outside 0 to 12,000 in, 1e-7 to 3e-5 per degF, -400 to 400 deltaF.
    Source: definition of the coefficient of linear expansion.
    """
    length = within("length_in", length_in, 0, 12_000, "in")
    alpha = within("per_degf", per_degf, 1e-7, 3e-5, "per degF")
    return alpha * length * within("change_degf", change_degf, -400, 400, "deltaF")


def restrained_stress_psi(
    *, elastic_modulus_psi: float, per_degf: float, change_degf: float
) -> float:
    """Stress in a strip held at both ends, psi: E alpha dT; compression when it warms.

    It is why a panel is fixed once: light sheet buckles, or its screws shear, long before. Raises
    OutsideMethod outside 1e6 to 4e7 psi and as free_movement_in. Source: Hooke's law.
    """
    modulus = within("elastic_modulus_psi", elastic_modulus_psi, 1e6, 4e7, "psi")
    return modulus * free_movement_in(length_in=1, per_degf=per_degf, change_degf=change_degf)

"""Quantities as the trade writes them: reading ``16 in``, ``1/2:12``, ``24 ga``; showing them.

A quantity is kept in the inch-pound unit of its dimension and remembers how it was typed. The
conversion factors are exact by definition (inch = 25.4 mm, pound-mass = 0.45359237 kg, standard
gravity = 9.80665 m/s2, all NIST SP 811) except those of sheet gauges, whose source stands at the
table; tests hold every unit against a general units library.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

System = Literal["inch-pound", "si", "both"]

# Beyond it nothing on a roof is measured or counted.
LARGEST = 1e9

# inches, Manufacturers' Standard Gauge for uncoated sheet steel: weight in oz/sq ft divided by
# 16 x 41.82 lb/sq ft per inch.
STEEL_GAUGE = {
    gauge: round(ounces / 16 / 41.82, 4)
    for gauge, ounces in {16: 40, 18: 32, 20: 24, 22: 20, 24: 16, 26: 12, 28: 10}.items()
}
# Copper is sold by weight: 1 oz/sq ft is 0.00135 in (density 0.322 lb/cu in, Copper Development
# Association).
COPPER_INCHES_PER_OUNCE = 1 / 16 / 144 / 0.322
# sq m K/W to one h sq ft degF/Btu, NIST SP 811 (with the International Table Btu).
RSI_PER_R = 0.1761102


class UnitError(ValueError):
    """A text that is not a quantity of the kind asked for; the message says what would be."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """What a kind of quantity measures: its units as factors to the first, and an example."""

    name: str
    units: dict[str, float]
    example: str
    negative: bool = False


_PA_PER_PSF = 0.45359237 * 9.80665 / 0.3048**2

DIMENSIONS = {
    d.name: d
    for d in (
        Dimension(
            "length",
            {
                "in": 1.0,
                "ft": 12.0,
                "mi": 63360.0,
                "mm": 1 / 25.4,
                "cm": 10 / 25.4,
                "m": 1000 / 25.4,
                "km": 1e6 / 25.4,
            },
            "16 in, 3/4 in, 40 ft or 400 mm",
        ),
        Dimension(
            "thickness",
            {"in": 1.0, "mil": 0.001, "mm": 1 / 25.4, "um": 0.001 / 25.4},
            "24 ga, 0.032 in, 0.8 mm, 40 mil or 16 oz",
        ),
        Dimension(
            "pressure",
            {"psf": 1.0, "psi": 144.0, "Pa": 1 / _PA_PER_PSF, "kPa": 1000 / _PA_PER_PSF},
            "45 psf, 25 psi or 2.2 kPa",
            negative=True,
        ),
        Dimension("slope", {":12": 1.0}, "1/2:12, 3:12, 25 percent or 14 deg"),
        Dimension("speed", {"mph": 1.0, "m/s": 3600 / 1609.344, "km/h": 1 / 1.609344}, "115 mph"),
        Dimension("temperature", {"degF": 1.0}, "180 degF or 82 degC", negative=True),
        Dimension(
            "temperature difference", {"deltaF": 1.0, "deltaC": 1.8}, "100 deltaF", negative=True
        ),
        Dimension(
            "leakage",
            {"cfm/sq ft": 1.0, "L/s per sq m": 0.001 / 0.3048 * 60},
            "0.06 cfm/sq ft or 0.30 L/s per sq m",
        ),
        Dimension("area", {"sq ft": 1.0, "sq m": 1 / 0.3048**2}, "100 sq ft or 10 sq m"),
        Dimension(
            "force",
            {"lbf": 1.0, "N": 1 / 4.4482216152605, "kN": 1000 / 4.4482216152605},
            "150 lbf or 0.7 kN",
        ),
        Dimension(
            "line load",
            {"lbf/ft": 1.0, "N/m": 0.3048 / 4.4482216152605, "kN/m": 304.8 / 4.4482216152605},
            "120 lbf/ft or 1.75 kN/m",
        ),
        Dimension("torque", {"in-lbf": 1.0, "N-m": 1 / 0.1129848290276167}, "150 in-lbf or 17 N-m"),
        Dimension(
            "coating mass", {"oz/sq ft": 1.0, "g/sq m": 0.3048**2 / 28.349523125}, "0.50 oz/sq ft"
        ),
        Dimension("permeance", {"perm": 1.0, "ng/Pa-s-sq m": 1 / 57.2135}, "0.1 perm"),
        Dimension("density", {"lb/cu ft": 1.0, "kg/cu m": 1 / 16.018463373960142}, "1.8 lb/cu ft"),
    )
}

_ALIASES = {
    "in": 'in in. inch inches " ″ ”',
    "ft": "ft ft. foot feet ' ′ ’",
    "mi": "mi mi. mile miles",
    "mm": "mm millimeter millimeters millimetre millimetres",
    "cm": "cm",
    "m": "m meter meters metre metres",
    "km": "km",
    "mil": "mil mils",
    "um": "um µm μm micron microns",
    "ga": "ga ga. gauge gage",
    "oz": "oz oz. ounce ounces",
    "psf": "psf lb/sqft lb/ft2 lbf/sqft lbf/ft2",
    "psi": "psi lb/sqin lb/in2 lbf/in2",
    "Pa": "pa",
    "kPa": "kpa",
    "mph": "mph",
    "m/s": "m/s mps",
    "km/h": "km/h kph kmh",
    "degF": "degf f °f",
    "degC": "degc c °c",
    "deltaF": "deltaf",
    "deltaC": "deltac k",
    "cfm/sq ft": "cfm/sqft cfm/ft2",
    "L/s per sq m": "l/spersqm l/sm2 l/s·m2 l/(s·m2) l/(sm2) l/s/m2 l/s/sqm",
    "sq ft": "sqft ft2",
    "sq m": "sqm m2",
    "lbf": "lbf lb lbs pounds",
    "N": "n",
    "kN": "kn",
    "lbf/ft": "lbf/ft lb/ft plf",
    "N/m": "n/m",
    "kN/m": "kn/m",
    "in-lbf": "in-lbf in-lb",
    "N-m": "n-m nm n·m",
    "oz/sq ft": "oz/sqft oz/ft2",
    "g/sq m": "g/sqm g/m2",
    "perm": "perm perms",
    "ng/Pa-s-sq m": "ng/pa-s-sqm",
    "lb/cu ft": "lb/cuft lb/ft3 pcf",
    "kg/cu m": "kg/cum kg/m3",
    "percent": "% percent",
    "deg": "deg ° degree degrees",
}
_UNIT_OF = {alias: unit for unit, aliases in _ALIASES.items() for alias in aliases.split()}

_NUMBER = r"[-+]?(?:\d{1,3}(?:,\d{3})+|\d+)?(?:\.\d+)?"
_AMOUNT = re.compile(
    rf"\s*(?:(?P<whole>[-+]?\d+)[\s-]+)?(?P<top>[-+]?\d+)\s*/\s*(?P<bottom>\d+)|\s*(?P<plain>{_NUMBER})"
)
_FEET_INCHES = re.compile(
    r"^\s*([\d.,]+)\s*(?:ft|feet|foot|'|′|’)\.?\s*-?\s*(\d.*?)\s*(?:in|inch|inches|\"|″|”)\.?\s*$"
)
_SLOPE = re.compile(r"^\s*([\d./\s-]+?)\s*(?::|in|on|/)\s*12\s*$")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A magnitude in the first unit of its dimension, with the unit and text it was typed in."""

    magnitude: float
    dimension: str
    unit: str
    typed: str

    def to(self, unit: str) -> float:
        """The magnitude in another unit of the same dimension; KeyError for one of another."""
        if self.dimension == "temperature":
            return (self.magnitude - 32) / 1.8 if unit == "degC" else self.magnitude
        return self.magnitude / DIMENSIONS[self.dimension].units[unit]


@lru_cache(maxsize=4096)
def read(text: str, dimension: str) -> Quantity:
    """The quantity that ``text`` states, of the dimension named.

    Raises UnitError, in a sentence, for a text that is not a number with a unit of that kind, for
    a division by zero, for a figure that is not finite and for a negative one where none makes
    sense.
    """
    kind = DIMENSIONS[dimension]
    quantity = _read_slope(text) if dimension == "slope" else _read_with_unit(text, kind)
    if not abs(quantity.magnitude) <= LARGEST:
        raise UnitError(f"{text.strip()[:40]} is out of all proportion")
    if quantity.magnitude < 0 and not kind.negative:
        raise UnitError(f"{text.strip()[:40]} is negative; a {dimension} is not")
    return quantity


def read_any(text: str) -> Quantity:
    """The quantity that ``text`` states, its dimension told by its unit (``0.03 in`` is a length).

    Raises UnitError if no dimension has that unit.
    """
    if _SLOPE.match(text):
        return read(text, "slope")
    if _FEET_INCHES.match(text):
        return read(text, "length")
    _, rest = _amount(text)
    unit = _UNIT_OF.get(_squeeze(rest), "")
    if unit in ("ga", "oz"):
        return read(text, "thickness")
    if unit == "degC":
        return read(text, "temperature")
    for dimension in DIMENSIONS.values():
        if unit in dimension.units:
            return read(text, dimension.name)
    raise UnitError(f"{text!r} has no unit that is known here")


def read_number(text: str) -> float:
    """A plain number (``6``, ``0.7``, ``1,200``, ``2-1/2``); UnitError if it is not one."""
    number, rest = _amount(text)
    if rest:
        raise UnitError(f"{text.strip()[:40]} is not a plain number")
    if not abs(number) <= LARGEST:
        raise UnitError(f"{text.strip()[:40]} is out of all proportion")
    return number


def thickness(text: str) -> Quantity:
    """Sheet or film thickness: a gauge of steel, a weight of copper, or a length."""
    return read(text, "thickness")


def _squeeze(text: str) -> str:
    return re.sub(r"\s+", "", text).lower()


def _amount(text: str) -> tuple[float, str]:
    """The leading number of a text and what follows it."""
    match = _AMOUNT.match(text)
    if match is None or not match.group(0).strip():
        raise UnitError(f"{text.strip()[:40] or 'an empty text'} does not begin with a number")
    rest = text[match.end() :].strip()
    if match["plain"] is not None:
        try:
            return float(match["plain"].replace(",", "")), rest
        except ValueError:
            raise UnitError(f"{text.strip()[:40]} does not begin with a number") from None
    # Read as floats: digits without end then come to infinity, and not to an error of their own.
    bottom = float(match["bottom"])
    if bottom == 0:
        raise UnitError(f"{text.strip()[:40]} divides by zero")
    size = abs(float(match["whole"] or 0)) + abs(float(match["top"])) / bottom
    return (-size if text.lstrip().startswith("-") else size), rest


def _read_slope(text: str) -> Quantity:
    match = _SLOPE.match(text)
    if match:
        rise, rest = _amount(match[1])
        if not rest:
            return Quantity(rise, "slope", ":12", text.strip())
    else:
        number, rest = _amount(text)
        unit = _UNIT_OF.get(_squeeze(rest))
        if unit == "percent":
            return Quantity(number * 0.12, "slope", "percent", text.strip())
        if unit == "deg" and 0 <= number < 90:
            return Quantity(12 * math.tan(math.radians(number)), "slope", "deg", text.strip())
    example = DIMENSIONS["slope"].example
    raise UnitError(f"{text.strip()[:40]} is not a slope; write it as {example}")


def _read_with_unit(text: str, kind: Dimension) -> Quantity:
    stripped = text.strip()
    if kind.name == "length" and (match := _FEET_INCHES.match(stripped)):
        feet, _ = _amount(match[1])
        inches, rest = _amount(match[2])
        if not rest:
            return Quantity(feet * 12 + inches, "length", "ft", stripped)
    number, rest = _amount(text)
    if not rest and number == 0 and kind.name != "temperature":
        return Quantity(0.0, kind.name, next(iter(kind.units)), stripped)
    if not rest:
        raise UnitError(f"{stripped[:40]} has no unit; write it as {kind.example}")
    unit = _UNIT_OF.get(_squeeze(rest))
    if unit in kind.units:
        return Quantity(number * kind.units[unit], kind.name, unit, stripped)
    if kind.name == "temperature" and unit == "degC":
        return Quantity(number * 1.8 + 32, kind.name, "degC", stripped)
    if kind.name == "thickness" and unit == "ga":
        if number not in STEEL_GAUGE:
            known = ", ".join(str(gauge) for gauge in STEEL_GAUGE)
            raise UnitError(f"{stripped[:40]} is not a sheet gauge used here ({known})")
        return Quantity(STEEL_GAUGE[int(number)], kind.name, "ga", stripped)
    if kind.name == "thickness" and unit == "oz":
        return Quantity(number * COPPER_INCHES_PER_OUNCE, kind.name, "oz", stripped)
    raise UnitError(f"{stripped[:40]} is not a {kind.name}; write it as {kind.example}")

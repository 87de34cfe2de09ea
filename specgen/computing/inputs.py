"""The answers that a calculation takes, in the units its formulas are written in."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from specgen.units import Quantity, read
from specgen.values import Choice, NotAsked, Row, Value


@dataclass(frozen=True, slots=True)
class Inputs:
    """Decided values by name; NOT_ASKED for one that does not arise or was rightly left out."""

    values: Mapping[str, Value]

    def has(self, name: str) -> bool:
        """Whether a value was given."""
        return not isinstance(self.values[name], NotAsked)

    def choice(self, name: str) -> str:
        """The id of a choice; an empty string if there is none."""
        value = self.values[name]
        return value.id if isinstance(value, Choice) else ""

    def figure(self, name: str, unit: str) -> float:
        """A quantity in a unit of its dimension, or a plain number with the unit left empty."""
        value = self.values[name]
        if isinstance(value, Quantity):
            return value.to(unit)
        if isinstance(value, float) and not unit:
            return value
        raise TypeError(f"{name} is {value!r} and not a figure in {unit}")

    def optional(self, name: str, unit: str) -> float | None:
        """A figure that may rightly be missing."""
        return self.figure(name, unit) if self.has(name) else None

    def holds(self, name: str) -> bool:
        """A yes-no answer or fact; no where it is not asked."""
        return self.values[name] is True

    def rows(self, name: str) -> tuple[Row, ...]:
        """The rows of a table; none where it is not asked."""
        value = self.values[name]
        if not isinstance(value, tuple):
            return ()
        return tuple(row for row in value if isinstance(row, tuple))


def quantity(value: float, dimension: str, unit: str, places: int = 2) -> Quantity:
    """A computed figure as a quantity, rounded to so many places of its unit."""
    return read(f"{value:.{places}f} {unit}", dimension)


def upward_to_sixteenth(inches: float) -> Quantity:
    """A computed length rounded up to the next sixteenth of an inch, as a rule has it."""
    return quantity(math.ceil(inches * 16 - 1e-6) / 16, "length", "in", 4)

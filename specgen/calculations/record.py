"""What a calculation leaves behind, line by line, for an engineer to check."""

from __future__ import annotations

from dataclasses import dataclass


class OutsideMethod(ValueError):
    """An input outside the limits of a method; the message names the input and the limit."""


@dataclass(frozen=True, slots=True)
class Step:
    """One line of a calculation.

    ``value`` is in ``unit`` (empty for a pure number); ``formula`` is in symbols and ``worked`` the
    same with the figures put in, both empty for a given input; ``source`` names where the formula
    or figure stands; ``caution`` is what a careful engineer would say beside it.
    """

    symbol: str
    label: str
    value: float
    unit: str
    formula: str = ""
    worked: str = ""
    source: str = ""
    caution: str = ""


def within(name: str, value: float, low: float, high: float, unit: str) -> float:
    """The value, if it is a figure between its limits; OutsideMethod naming both if not."""
    if not low <= value <= high:
        given = f"{value:g} {unit}".rstrip()
        raise OutsideMethod(f"{name} is {given}; the limits are {low:g} to {high:g}")
    return value

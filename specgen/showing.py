"""Showing quantities as a section prints them, in inch-pound units, SI or both.

Conversions carry no more figures than the trade uses: sheet to 0.01 mm, lengths to the millimeter
(0.1 mm below 3 mm), runs to 0.1 m, pressures to 0.01 kPa, or 1 Pa below 10 psf.
"""

from __future__ import annotations

import math
from string import ascii_letters

from specgen.units import COPPER_INCHES_PER_OUNCE, RSI_PER_R, Quantity, System


def show(quantity: Quantity, system: System) -> str:
    """A quantity as a section prints it: ``18 in``, ``457 mm``, or ``18 in (457 mm)``.

    Conversions carry no more figures than the trade uses: sheet to 0.01 mm, lengths to the
    millimeter (0.1 mm below 3 mm), runs to 0.1 m, pressures to 0.01 kPa or 1 Pa below 10 psf.
    """
    custom, metric = _SHOWN[quantity.dimension](quantity)
    if system == "both":
        if custom == metric:
            return custom
        if custom.endswith(")"):
            return f"{custom[:-1]}, {metric})"
        return f"{custom} ({metric})"
    return metric if system == "si" else custom


def show_thickness(quantity: Quantity, system: System) -> str:
    """A thickness as a decimal, without the gauge or weight it may have been typed as."""
    plain = Quantity(quantity.magnitude, "thickness", "in", "")
    return show(plain, system)


def show_resistance(r: float, system: System) -> str:
    """A thermal resistance in h sq ft degF/Btu: ``R-30``, in SI with sq m K/W before it.

    Boards are sold by their R wherever they are measured, so R stands in SI too.
    """
    custom, metric = f"R-{figure(r, 1)}", f"RSI-{figure(r * RSI_PER_R, 2)}"
    if system == "inch-pound":
        return custom
    return f"{custom} ({metric})" if system == "both" else f"{metric} ({custom})"


def figure(value: float, places: int) -> str:
    """A number to so many decimal places, without trailing zeros, thousands set off by commas."""
    text = f"{value:,.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def inches(value: float, *, nearest: bool = False) -> str:
    """Inches as a mixed fraction in sixteenths, or as a decimal where they are not sixteenths.

    ``nearest`` rounds to the sixteenth whatever is lost, as for a length that came from metric.
    """
    sixteenths = round(value * 16)
    if not nearest and abs(value * 16 - sixteenths) > 0.02:
        return figure(value, 3)
    whole, part = divmod(sixteenths, 16)
    if not part:
        return figure(whole, 0)
    divisor = math.gcd(part, 16)
    fraction = f"{part // divisor}/{16 // divisor}"
    return f"{whole}-{fraction}" if whole else fraction


def _length(q: Quantity) -> tuple[str, str]:
    value = q.magnitude
    unit = q.unit if q.unit in ("in", "ft", "mi") else _fitting_unit(value)
    if unit == "mi":
        custom = f"{figure(q.to('mi'), 2)} mi"
    elif unit == "ft":
        custom = _feet(value) if q.unit == "ft" else f"{figure(q.to('ft'), 1)} ft"
    else:
        custom = f"{inches(value, nearest=q.unit != 'in')} in"
    if q.unit in ("mm", "cm", "m", "km"):
        return custom, f"{figure(q.to(q.unit), 3)} {q.unit}"
    if unit == "mi":
        return custom, f"{figure(q.to('km'), 1)} km"
    if unit == "ft":
        return custom, f"{figure(q.to('m'), 1 if value < 1200 else 0)} m"
    mm = q.to("mm")
    return custom, f"{figure(mm, 1 if mm < 3 else 0)} mm"


def _fitting_unit(value: float) -> str:
    return "in" if value < 72 else "ft" if value < 12 * 5280 else "mi"


def _feet(value: float) -> str:
    feet, rest = divmod(value, 12)
    if rest < 0.005:
        return f"{figure(feet, 0)} ft"
    if 12 - rest < 0.005:
        return f"{figure(feet + 1, 0)} ft"
    return f"{figure(feet, 0)} ft {inches(rest, nearest=True)} in"


def _thickness(q: Quantity) -> tuple[str, str]:
    mm = q.to("mm")
    if q.unit in ("mil", "um"):
        metric = f"{figure(mm, 2 if mm < 1 else 1)} mm"
        if mm < 0.25:
            metric = f"{figure(q.to('um'), 0)} µm"
        return f"{figure(q.to('mil'), 2)} mil", metric
    decimal = f"{q.magnitude:.4f}"
    decimal = f"{decimal[:-1] if decimal.endswith('0') else decimal} in"
    if q.unit == "ga":
        gauge = q.typed.split()[0].rstrip(ascii_letters + ".")
        return f"{gauge} gauge ({decimal})", f"{mm:.2f} mm"
    if q.unit == "oz":
        ounces = figure(q.magnitude / COPPER_INCHES_PER_OUNCE, 1)
        return f"{ounces} oz per sq ft ({decimal})", f"{mm:.2f} mm"
    return decimal, f"{mm:.2f} mm"


def _pressure(q: Quantity) -> tuple[str, str]:
    if q.unit == "psi":
        return f"{figure(q.to('psi'), 1)} psi", f"{figure(q.to('kPa'), 0)} kPa"
    custom = f"{figure(q.magnitude, 2 if q.unit == 'psf' else 1)} psf"
    if abs(q.magnitude) < 10 and q.unit != "kPa":
        return custom, f"{figure(q.to('Pa'), 0)} Pa"
    return custom, f"{figure(q.to('kPa'), 2)} kPa"


def _slope(q: Quantity) -> tuple[str, str]:
    rise = q.magnitude
    return f"{inches(rise)}:12", f"{figure(rise / 12 * 100, 1)} percent"


def _temperature(q: Quantity) -> tuple[str, str]:
    return f"{figure(q.magnitude, 0)} °F", f"{figure(q.to('degC'), 0)} °C"


def _difference(q: Quantity) -> tuple[str, str]:
    return f"{figure(q.magnitude, 0)} °F", f"{figure(q.to('deltaC'), 0)} °C"


def _speed(q: Quantity) -> tuple[str, str]:
    return f"{figure(q.magnitude, 0)} mph", f"{figure(q.to('m/s'), 0)} m/s"


def _leakage(q: Quantity) -> tuple[str, str]:
    return f"{figure(q.magnitude, 3)} cfm/sq ft", f"{q.to('L/s per sq m'):.2f} L/s per sq m"


def _area(q: Quantity) -> tuple[str, str]:
    metric = q.to("sq m")
    return f"{figure(q.magnitude, 1)} sq ft", f"{figure(metric, 1 if metric < 100 else 0)} sq m"


def _force(q: Quantity) -> tuple[str, str]:
    newtons = q.to("N")
    metric = (
        f"{_significant(newtons / 1000)} kN" if newtons >= 1000 else f"{_significant(newtons)} N"
    )
    return f"{figure(q.magnitude, 0)} lbf", metric


def _line_load(q: Quantity) -> tuple[str, str]:
    return f"{figure(q.magnitude, 0)} lbf/ft", f"{_significant(q.to('kN/m'))} kN/m"


def _torque(q: Quantity) -> tuple[str, str]:
    return f"{figure(q.magnitude, 0)} in-lbf", f"{figure(q.to('N-m'), 1)} N-m"


def _coating_mass(q: Quantity) -> tuple[str, str]:
    return f"{q.magnitude:.2f} oz/sq ft", f"{figure(q.to('g/sq m'), 0)} g/sq m"


def _permeance(q: Quantity) -> tuple[str, str]:
    return f"{figure(q.magnitude, 2)} perm", f"{_significant(q.to('ng/Pa-s-sq m'), 2)} ng/Pa-s-sq m"


def _density(q: Quantity) -> tuple[str, str]:
    return f"{figure(q.magnitude, 2)} lb/cu ft", f"{figure(q.to('kg/cu m'), 0)} kg/cu m"


def _significant(value: float, figures: int = 3) -> str:
    if value == 0:
        return "0"
    places = max(0, figures - 1 - math.floor(math.log10(abs(value))))
    return figure(round(value, places), places)


_SHOWN = {
    "length": _length,
    "thickness": _thickness,
    "pressure": _pressure,
    "slope": _slope,
    "temperature": _temperature,
    "temperature difference": _difference,
    "speed": _speed,
    "leakage": _leakage,
    "area": _area,
    "force": _force,
    "line load": _line_load,
    "torque": _torque,
    "coating mass": _coating_mass,
    "permeance": _permeance,
    "density": _density,
}

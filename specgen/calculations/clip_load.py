"""What one clip carries: its load under a roof zone's uplift, and the spacing that load allows."""

from __future__ import annotations

import math
from dataclasses import dataclass

from specgen.calculations.record import OutsideMethod, Step, within

_SOURCE = "tributary area of a clip x pressure: UFC 3-320-03A; one clip a seam carries a panel"


@dataclass(frozen=True, slots=True)
class RoofZone:
    """A roof zone by name, and the uplift that acts there at allowable level (0.6 W), psf, upward
    counted positive. Raises OutsideMethod outside 0.1 to 500 psf, or for an empty name."""

    name: str
    required_allowable_psf: float

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise OutsideMethod("name is empty; a roof zone has one")
        within("required_allowable_psf", self.required_allowable_psf, 0.1, 500, "psf")


@dataclass(frozen=True, slots=True)
class ClipLoadSpacing:
    """A zone's spacing by clip load alone: ``widest_in`` before and ``spacing_in`` after rounding
    (None: closer than one module), ``clip_load_lb`` and ``utilization`` at that spacing, against
    ``allowable_clip_load_lb``."""

    zone: RoofZone
    allowable_clip_load_lb: float
    widest_in: float
    spacing_in: float | None
    clip_load_lb: float | None
    utilization: float | None
    steps: tuple[Step, ...]


def clip_load_lb(*, pressure_psf: float, width_in: float, spacing_in: float) -> float:
    """The load on one clip, lb: pressure (psf) x coverage width x clip spacing (both in), /144.

    Raises OutsideMethod outside 0.1 to 1000 psf, 2 to 60 in wide, 0.25 to 144 in apart. Clips at
    ridge, eave and first interior support see other reactions. Source: UFC 3-320-03A.
    """
    pressure = within("pressure_psf", pressure_psf, 0.1, 1000, "psf")
    width = within("width_in", width_in, 2, 60, "in")
    return pressure * width * within("spacing_in", spacing_in, 0.25, 144, "in") / 144


def round_down(spacing_in: float, *, module_in: float = 1.0) -> float:
    """A spacing down to a whole number of modules, in; 0 if it is closer than one.

    Raises OutsideMethod outside 0 to 100,000 in, or for a module outside 0.25 to 120 in.
    """
    module = within("module_in", module_in, 0.25, 120, "in")
    # 29.999999999 is 30 that went through a division.
    return module * math.floor(within("spacing_in", spacing_in, 0, 1e5, "in") / module + 1e-9)


def spacing_by_clip_load(
    zone: RoofZone, *, width_in: float, allowable_clip_load_lb: float, module_in: float = 1.0
) -> ClipLoadSpacing:
    """The widest spacing by a clip's allowable load alone: s = 144 F / (p w), in; 144 in at most.

    An alternative where no record covers: it says nothing of the seam or of the pan between clips.
    Raises OutsideMethod for a load outside 1 to 10,000 lb and as clip_load_lb. Source: UFC
    3-320-03A (tributary area of a clip x pressure).
    """
    allowable = within("allowable_clip_load_lb", allowable_clip_load_lb, 1, 10_000, "lb")
    width = within("width_in", width_in, 2, 60, "in")
    required = zone.required_allowable_psf
    widest = min(144.0, 144 * allowable / (required * width))
    spacing = round_down(widest, module_in=module_in) or None
    worked = f"144 ({allowable:g})/({required:g} x {width:g})"
    caution = "Shows the clip alone; the seam and the pan between clips are not shown by it."
    steps = [
        *given_steps(zone, width),
        Step("F_a", "allowable clip load, given", allowable, "lbf"),
        Step("s_F", "widest spacing by clip load, at most 144 in", widest, "in",
             "144 F_a/(p w)", worked, _SOURCE, caution),
    ]  # fmt: skip
    if spacing is None:
        return ClipLoadSpacing(zone, allowable, widest, None, None, None, tuple(steps))
    load = clip_load_lb(pressure_psf=required, width_in=width, spacing_in=spacing)
    steps += [rounded_step(spacing, widest, module_in), clip_load_step(zone, width, spacing)]
    return ClipLoadSpacing(zone, allowable, widest, spacing, load, load / allowable, tuple(steps))


def given_steps(zone: RoofZone, width_in: float) -> tuple[Step, ...]:
    """The zone's uplift and the panel's width as lines of a calculation."""
    caution = "Allowable level, 0.6 W; a strength-level pressure does not belong beside it."
    return (
        Step("p", f"required allowable uplift, {zone.name}", zone.required_allowable_psf, "psf",
             caution=caution),
        Step("w", "coverage width", width_in, "in"),
    )  # fmt: skip


def rounded_step(spacing_in: float, widest_in: float, module_in: float) -> Step:
    """The rounding down to a module as a line of a calculation."""
    return Step("s", f"clip spacing, down to a module of {module_in:g} in", spacing_in, "in",
                "m floor(s/m)", f"{module_in:g} floor({widest_in:.5g}/{module_in:g})",
                "common practice")  # fmt: skip


def clip_load_step(zone: RoofZone, width_in: float, spacing_in: float) -> Step:
    """The load on one clip of a zone as a line of a calculation."""
    pressure = zone.required_allowable_psf
    load = clip_load_lb(pressure_psf=pressure, width_in=width_in, spacing_in=spacing_in)
    return Step("F", "load on one clip", load, "lbf", "p w s/144",
                f"{pressure:g} x {width_in:g} x {spacing_in:g}/144", _SOURCE,
                "Clips at ridge, eave and first interior support see other reactions; the screws"
                " into the support are to be checked for this load.")  # fmt: skip

"""Sheet for the panels: strip width, strips from a coil, and panels across a roof plane.

A strip is as wide as the panel covers plus what the two seam legs take up. Take-up is modeled as

    u = 2 h + a

two legs of the seam height h, and an allowance a for the folds, which does not grow with the
height. For double-lock, a is set by one figure of common practice: a 2 in seam on 18-3/4 in of
coverage takes 5-9/16 in more, a strip of 24-5/16 in, two of which are slit from a 48-5/8 in coil;
hence a = 1-9/16 in. Single-lock takes the same strip, because the second fold turns down metal that
the first already took. The allowances for snap-lock and batten are common practice. Profiles of one
kind and height differ by 1/2 in and more: the panel manufacturer's figure governs, and
``take_up_in`` puts it in place of the model's.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from specgen.calculations.record import OutsideMethod, Step, within

SeamKind = Literal["snap-lock", "single-lock", "double-lock", "batten"]

# inches beyond two seam heights; see the module's docstring for where each comes from
FOLD_ALLOWANCE_IN: dict[SeamKind, float] = {
    "snap-lock": 1.25,
    "single-lock": 1.5625,
    "double-lock": 1.5625,
    "batten": 1.0,
}
_FOLDS = {
    "snap-lock": "hem of one leg and return of the other",
    "single-lock": "flange, cover and hem, as for double-lock",
    "double-lock": "flange, cover and hem",
    "batten": "a 1/2 in flange on each leg",
}
# inches of batten cap beyond the batten: over each 1/2 in flange and under it again
CAP_ALLOWANCE_IN = 2.0
# A whole number of strips or panels is not lost to the last digit of a metric width.
_HAIR = 1e-6

_PROFILE_CAUTION = (
    "Profiles of one kind and height differ by 1/2 in and more; the panel manufacturer's take-up "
    "governs. Have it before coil is ordered."
)


@dataclass(frozen=True, slots=True)
class Strip:
    """Width of flat sheet that one panel is formed from.

    ``take_up_in`` is what the strip is wider than the panel covers. ``cap_strip_in`` is the
    separate strip of a batten cap, 0 for other seams. All in inches.
    """

    coverage_in: float
    seam_kind: SeamKind
    seam_height_in: float
    take_up_in: float
    strip_in: float
    cap_strip_in: float
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class CoilStrips:
    """Strips slit from a coil.

    ``strips`` is how many; ``used_in`` and ``waste_in`` are inches of coil width; ``waste_percent``
    is the waste in percent of the coil width.
    """

    strips: int
    used_in: float
    waste_in: float
    waste_percent: float
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class PanelLayout:
    """Panels side by side across a rectangular roof plane.

    ``panels`` counts all of them, ``full_panels`` those of full coverage; ``end_panel_in`` is the
    coverage of the first and of the last panel, in inches, the same at both ends.
    """

    panels: int
    full_panels: int
    end_panel_in: float
    steps: tuple[Step, ...]


def strip_width(
    *,
    coverage_in: float,
    seam_kind: SeamKind,
    seam_height_in: float,
    take_up_in: float | None = None,
    batten_width_in: float = 1.5,
) -> Strip:
    """Strip width s = c + u, with take-up u = 2 h + a; for a batten seam, less the batten width b.

    ``coverage_in`` (c) runs from seam to seam, for battens from center to center. ``take_up_in``,
    where given, is the profile's own u and replaces the model. ``batten_width_in`` (b) matters to
    batten seams alone; its cap takes a strip of its own, b + 2 in. All in inches.

    Raises OutsideMethod for a coverage outside 6 to 36 in, a seam outside 1/2 to 4 in high, a
    take-up outside 0 to 16 in, a batten outside 1/2 to 6 in wide or an unknown kind of seam.
    Source: common practice, calibrated as the module's docstring says.
    """
    if seam_kind not in FOLD_ALLOWANCE_IN:
        raise OutsideMethod(f"seam_kind is {seam_kind!r}; known are {', '.join(FOLD_ALLOWANCE_IN)}")
    coverage = within("coverage_in", coverage_in, 6, 36, "in")
    height = within("seam_height_in", seam_height_in, 0.5, 4, "in")
    batten = within("batten_width_in", batten_width_in, 0.5, 6, "in")
    is_batten = seam_kind == "batten"
    steps = [
        Step("c", "coverage width, seam to seam", coverage, "in"),
        Step("h", "seam height", height, "in"),
    ]
    if is_batten:
        steps.append(Step("b", "width of the batten", batten, "in"))
    if take_up_in is not None:
        take_up = within("take_up_in", take_up_in, 0, 16, "in")
        steps.append(Step("u", "take-up of the profile, as given", take_up, "in"))
    else:
        folds = FOLD_ALLOWANCE_IN[seam_kind]
        take_up = 2 * height + folds - (batten if is_batten else 0)
        less = f" - {batten:g}" if is_batten else ""
        steps += [
            Step("a", f"folds: {_FOLDS[seam_kind]}", folds, "in", source="common practice"),
            Step(
                "u",
                "take-up of the seam",
                take_up,
                "in",
                "u = 2 h + a" + (" - b" if is_batten else ""),
                f"u = 2 x {height:g} + {folds:g}{less}",
                "common practice",
                _PROFILE_CAUTION,
            ),
        ]
    strip = coverage + take_up
    steps.append(
        Step("s", "strip width", strip, "in", "s = c + u", f"s = {coverage:g} + {take_up:g}")
    )
    cap = batten + CAP_ALLOWANCE_IN if is_batten else 0.0
    if is_batten:
        steps.append(
            Step(
                "s_cap",
                "strip width of the batten cap",
                cap,
                "in",
                "s_cap = b + 2 in",
                f"s_cap = {batten:g} + {CAP_ALLOWANCE_IN:g}",
                "common practice",
                _PROFILE_CAUTION,
            )
        )
    return Strip(coverage, seam_kind, height, take_up, strip, cap, tuple(steps))


def strips_from_coil(
    *, strip_in: float, coil_width_in: float, edge_trim_in: float = 0.0
) -> CoilStrips:
    """Strips n = floor((C - t) / s) of a coil C wide, and the waste C - n s.

    ``edge_trim_in`` (t) is what slitting trims off both edges together; it counts as waste. All
    in inches.

    Raises OutsideMethod for a strip outside 4 to 60 in, a trim outside 0 to 4 in, or a coil that
    is wider than 80 in or not as wide as one strip and the trim. Source: arithmetic.
    """
    strip = within("strip_in", strip_in, 4, 60, "in")
    trim = within("edge_trim_in", edge_trim_in, 0, 4, "in")
    coil = within("coil_width_in", coil_width_in, (strip + trim) * (1 - _HAIR / 10), 80, "in")
    strips = math.floor((coil - trim) / strip + _HAIR)
    used = strips * strip
    waste = max(0.0, coil - used)
    percent = 100 * waste / coil
    steps = (
        Step("C", "coil width", coil, "in"),
        Step("t", "trimmed off both edges together", trim, "in"),
        Step("s", "strip width", strip, "in"),
        Step(
            "n",
            "strips from the coil",
            strips,
            "",
            "n = floor((C - t) / s)",
            f"n = floor(({coil:g} - {trim:g}) / {strip:g})",
            caution="Mill edge and slitting tolerances are the supplier's; a coil that comes out "
            "even leaves no room for either.",
        ),
        Step("w", "waste", waste, "in", "w = C - n s", f"w = {coil:g} - {strips} x {strip:g}"),
        Step(
            "w_p",
            "waste",
            percent,
            "percent",
            "w_p = 100 w / C",
            f"w_p = 100 x {waste:g} / {coil:g}",
        ),
    )
    return CoilStrips(strips, used, waste, percent, steps)


def panels_across(*, plane_width_ft: float, coverage_in: float) -> PanelLayout:
    """Panels across a plane W wide: n = ceil(W / c), the two end panels (W - (n - 2) c) / 2 each.

    The layout is balanced: both end panels are equal, and neither covers less than half a panel.
    Where W is a whole number of panels, all are full; a hair beyond, one more panel is added and
    both ends fall to half a panel. ``plane_width_ft`` is measured along the eave in feet,
    ``coverage_in`` (c) in inches. For a plane of at most one panel the end panel is that panel.

    Raises OutsideMethod for a coverage outside 6 to 36 in or a plane narrower than half a panel or
    wider than 10,000 ft. Source: common practice.
    """
    coverage = within("coverage_in", coverage_in, 6, 36, "in")
    width_ft = within("plane_width_ft", plane_width_ft, coverage / 24, 10_000, "ft")
    width = width_ft * 12
    panels = max(1, math.ceil(width / coverage - _HAIR))
    whole = abs(width / coverage - panels) <= _HAIR
    if whole:
        end, full = coverage, panels
    elif panels == 1:
        end, full = width, 0
    else:
        end, full = (width - (panels - 2) * coverage) / 2, panels - 2
    steps = (
        Step("W", "width of the roof plane along the eave", width_ft, "ft"),
        Step("c", "coverage width", coverage, "in"),
        Step(
            "n",
            "panels across the plane",
            panels,
            "",
            "n = ceil(12 W / c)",
            f"n = ceil(12 x {width_ft:g} / {coverage:g})",
        ),
        Step(
            "e",
            "coverage width of each end panel",
            end,
            "in",
            *_end_formula(width_ft, coverage, panels, whole),
            source="common practice",
            caution="Of a rectangular plane. Edges out of square, and seams that must line up over "
            "a ridge or clear a curb, are laid out on the shop drawings.",
        ),
    )
    return PanelLayout(panels, full, end, steps)


def _end_formula(width_ft: float, coverage: float, panels: int, whole: bool) -> tuple[str, str]:
    """Formula and figures of the end panel, for each of the three ways that a plane divides."""
    if whole:
        return "e = c", f"e = {coverage:g}"
    if panels == 1:
        return "e = 12 W", f"e = 12 x {width_ft:g}"
    return (
        "e = (12 W - (n - 2) c) / 2",
        f"e = (12 x {width_ft:g} - ({panels} - 2) x {coverage:g}) / 2",
    )

"""The zone layouts of the roof figures of ASCE 7 chapter 30, as data for wind_zones.

A Rule reads: zone 3 lies within so many widths of this edge and so many of that one. The edges of a
roof are, by its kind: flat, "end" and "side"; gable, "rake", "eave" and "ridge"; single slope,
"rake", "low eave" and "high eave"; hip, "eave", "corner" (the neighboring eave), "hip" and "ridge".
Rules stand with the zone first that keeps the ground where two meet. Grades as in wind_curves; no
layout was read from the print.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Rule:
    """``near`` pairs a kind of edge with the number of widths from it, measured in plan."""

    zone: str
    place: str
    near: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class Layout:
    """The zones of one kind of roof.

    ``unit`` is the width that the rules multiply: "a" (edge width) or "h" (mean roof height).
    ``rest`` is the zone of what no rule takes. ``faces`` is the kind of roof: flat, single slope,
    gable or hip. ``caution`` is empty at grades A and B.
    """

    faces: str
    unit: str
    rules: tuple[Rule, ...]
    rest: str
    rest_place: str
    grade: str
    caution: str = ""


_ONE_READING = "the zone layout is held from one secondary reading; check it against the print"
_FROM_MEMORY = "the zone layout is from memory; check it against the print"

_LEG = "corners, an L of two legs along the edges"
_LOW_SLOPE = (
    Rule("3", _LEG, (("end", 0.6), ("side", 0.2))),
    Rule("3", _LEG, (("end", 0.2), ("side", 0.6))),
    Rule("2", "strip along the ends", (("end", 0.6),)),
    Rule("2", "strip along the sides", (("side", 0.6),)),
    Rule("1", "to 1.2 h from the ends", (("end", 1.2),)),
    Rule("1", "to 1.2 h from the sides", (("side", 1.2),)),
)
_RIDGE_END = Rule("3r", "where ridge and rake meet", (("rake", 1.0), ("ridge", 1.0)))
_EAVE_END = Rule("3e", "where eave and rake meet", (("rake", 1.0), ("eave", 1.0)))
_STRIPS_16 = (
    Rule("2n", "strip along the rakes", (("rake", 1.0),)),
    Rule("2r", "strip each side of the ridge", (("ridge", 1.0),)),
    Rule("2e", "strip along the eaves", (("eave", 1.0),)),
)
_HIPS = (("hip", 1.0),)
_HIP_16 = (
    Rule("3", "corners of the eaves", (("eave", 1.0), ("corner", 1.0))),
    Rule("2e", "strip along the eaves", (("eave", 1.0),)),
    Rule("2r", "band each side of the hips", _HIPS),
    Rule("2r", "band each side of the ridge", (("ridge", 1.0),)),
)
_HIP_22 = (
    Rule("3", "strip along the eaves", (("eave", 1.0),)),
    Rule("2", "band each side of the hips", _HIPS),
    Rule("2", "band each side of the ridge", (("ridge", 1.0),)),
)
_GABLE_22 = (
    Rule("3", "where ridge and rake meet", (("rake", 1.0), ("ridge", 1.0))),
    Rule("2", "strip along the rakes", (("rake", 1.0),)),
    Rule("2", "strip each side of the ridge", (("ridge", 1.0),)),
)
_GABLE_22_STEEP = (
    Rule("3", "where eave and rake meet", (("rake", 1.0), ("eave", 1.0))),
    Rule("2", "strip along the rakes", (("rake", 1.0),)),
)
_SINGLE_3_10 = (
    Rule("3'", "corners of the high eave, long side along it", (("rake", 4.0), ("high eave", 2.0))),
    Rule("3", "corners of the low eave", (("rake", 2.0), ("low eave", 2.0))),
    Rule("2'", "strip along the high eave", (("high eave", 2.0),)),
    Rule("2", "strip along the rakes", (("rake", 1.0),)),
    Rule("2", "strip along the low eave", (("low eave", 1.0),)),
)
_SINGLE_10_30 = (
    Rule("3", "corners of the high eave, long side along it", (("rake", 4.0), ("high eave", 2.0))),
    Rule("2", "strip along the high eave", (("high eave", 2.0),)),
    Rule("2", "strip along the rakes", (("rake", 1.0),)),
    Rule("2", "strip along the low eave", (("low eave", 1.0),)),
)
_REST = "the rest of the roof"

LAYOUTS = {
    "low slope": Layout("flat", "h", _LOW_SLOPE, "1'", "farther than 1.2 h from the edges", "B"),
    "gable 7-16 to 27": Layout(
        "gable", "a", (_RIDGE_END, _EAVE_END, *_STRIPS_16), "1", _REST, "C", _ONE_READING
    ),
    "gable 7-16 over 27": Layout(
        "gable", "a", (_EAVE_END, _RIDGE_END, *_STRIPS_16), "1", _REST, "C", _ONE_READING
    ),
    "gable 7-22 to 27": Layout("gable", "a", _GABLE_22, "1", _REST, "B"),
    "gable 7-22 over 27": Layout("gable", "a", _GABLE_22_STEEP, "1", _REST, "B"),
    "hip 7-16": Layout("hip", "a", _HIP_16, "1", _REST, "C", _ONE_READING),
    "hip 7-22": Layout("hip", "a", _HIP_22, "1", _REST, "B"),
    "single slope 3-10": Layout(
        "single slope", "a", _SINGLE_3_10, "1", _REST, "C",
        "which side of the high corners is the longer, and where the 2a and a strips lie, is from "
        "memory; check it against the print",
    ),
    "single slope 10-30": Layout(
        "single slope", "a", _SINGLE_10_30, "1", _REST, "C", _FROM_MEMORY
    ),
}  # fmt: skip

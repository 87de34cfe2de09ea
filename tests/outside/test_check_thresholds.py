"""The thresholds of the checks against the codes and standards that the checks name.

Each row has a published figure and the side of it on which the check speaks; the check is run with
its own brief and that one answer moved to just below the figure, onto it and just above it.
`confirmed`: the figure was read in a copy or an excerpt of the source, or in a public page that
quotes it. `from memory`: recalled, and held against nothing; the check then says so too.
"""

from __future__ import annotations

import operator
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

import pytest

from specgen.checks import finding_of
from specgen.conditions import Comparison, Expression, Name, parts_of
from specgen.conditions import Literal as Constant
from specgen.library import Check, Library
from specgen.questions import AnswerError, read_answer
from specgen.scope import Scope
from specgen.units import DIMENSIONS, Quantity
from specgen.values import Value

Status = Literal["confirmed", "from memory"]
Speaks = Literal["<", "<=", ">", ">=", "=="]

HOLDS: Mapping[Speaks, Callable[[float, float], bool]] = {
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
    "==": operator.eq,
}


@dataclass(frozen=True)
class Threshold:
    """A check, the answer it compares, the figure as published, the side on which it speaks.

    ``given`` are answers to be changed in the brief that raises the check: another row of the same
    table, or one that its condition reads on the other side of the figure alone. ``step`` is how
    far the answer is moved, in its own unit; a thousandth of the figure if nothing is given.
    """

    check: str
    answer: str
    speaks: Speaks
    figure: str
    source: str
    status: Status
    given: Mapping[str, str] = field(default_factory=dict)
    step: float = 0

    @property
    def id(self) -> str:
        return "-".join([self.check, self.answer, self.figure, *self.given.values()])


@dataclass(frozen=True)
class Class:
    """A check, the choice it compares, a choice that the source rules out and one that it takes."""

    check: str
    answer: str
    out: str
    taken: str
    source: str
    status: Status

    @property
    def id(self) -> str:
        return f"{self.check}-{self.out}-{self.taken}"


# IECC Table C402.1.3, insulation entirely above deck; IRC Table N1102.1.2, ceiling, as 1 / U
ABOVE_DECK: list[tuple[str, str, str, str, Status]] = [
    ("ibc-2018", "1", "20", "IECC 2018 Table C402.1.3", "confirmed"),
    ("ibc-2018", "3", "25", "IECC 2018 Table C402.1.3", "confirmed"),
    ("ibc-2018", "7", "35", "IECC 2018 Table C402.1.3", "confirmed"),
    ("ibc-2021", "1", "25", "IECC 2021 Table C402.1.3", "confirmed"),
    ("ibc-2021", "4", "30", "IECC 2021 Table C402.1.3", "confirmed"),
    ("ibc-2021", "7", "35", "IECC 2021 Table C402.1.3", "confirmed"),
    ("ibc-2024", "4", "30", "IECC 2024 Table C402.1.3", "from memory"),
    ("fbc-2023", "2", "25", "Florida Building Code, Energy Conservation, 2023", "confirmed"),
    ("irc-2021", "4", "41.7", "IRC 2021 Table N1102.1.2, U-factor 0.024", "from memory"),
]
# Florida Building Code, Building, 1620.2: mph by risk category in Broward, the lower of the two
# counties (Miami-Dade has 165, 175, 186 and 195)
BROWARD = {"i": "156 mph", "ii": "170 mph", "iii": "180 mph", "iv": "185 mph"}

COOL_LOW_ROOF = "IECC C402.3 and Table C402.3"

THRESHOLDS = [
    # ---- Safety of workers
    Threshold(
        "walkway-on-steep-roof",
        "lowest_slope",
        ">",
        "4:12",
        "29 CFR 1926.500(b), low-slope and steep roof",
        "from memory",
    ),
    # ---- ASCE/SEI 7
    Threshold(
        "computed-above-60-ft",
        "mean_roof_height",
        ">",
        "60 ft",
        "ASCE/SEI 7-16 and 7-22, 30.3",
        "confirmed",
    ),
    Threshold(
        "computed-roof-too-steep",
        "lowest_slope",
        ">",
        "45 deg",
        "ASCE/SEI 7-16 and 7-22, Figure 30.3-2D, gable",
        "confirmed",
        {"roof_shape": "gable"},
    ),
    Threshold(
        "computed-roof-too-steep",
        "lowest_slope",
        ">",
        "45 deg",
        "ASCE/SEI 7-22, Figure 30.3-2G, hip",
        "confirmed",
        {"roof_shape": "hip", "wind_standard": "asce-7-22"},
    ),
    Threshold(
        "computed-roof-too-steep",
        "lowest_slope",
        ">",
        "27 deg",
        "ASCE/SEI 7-16, Figure 30.3-2G, hip; the steeper figures are not used",
        "confirmed",
        {"roof_shape": "hip", "wind_standard": "asce-7-16"},
    ),
    Threshold(
        "computed-roof-too-steep",
        "lowest_slope",
        ">",
        "30 deg",
        "ASCE/SEI 7-16 and 7-22, Figure 30.3-5B, monoslope",
        "confirmed",
    ),
    Threshold(
        "entrances-without-snow-retention",
        "lowest_slope",
        ">",
        "1/4:12",
        "ASCE/SEI 7-16, 7.9, slippery roofs",
        "from memory",
    ),
    Threshold(
        "shore-exposure",
        "salt_water_distance",
        "<",
        "600 ft",
        "ASCE/SEI 7-16 and 7-22, 26.7.3, Exposure D",
        "from memory",
    ),
    # ---- IBC: sheet, slope, air space
    Threshold(
        "aluminum-below-code",
        "panel_thickness",
        "<",
        "0.024 in",
        "IBC 2018 Table 1507.4.3(1), roll-formed aluminum",
        "confirmed",
    ),
    Threshold(
        "copper-below-code",
        "panel_thickness",
        "<",
        "16 oz",
        "IBC 2018 Table 1507.4.3(1), copper",
        "confirmed",
    ),
    Threshold(
        "zinc-below-code",
        "panel_thickness",
        "<",
        "0.027 in",
        "IBC Table 1507.4.3(1), zinc",
        "from memory",
    ),
    Threshold(
        "slope-at-code-minimum",
        "lowest_slope",
        "<=",
        "1/4:12",
        "IBC 1507.4.2, standing seam",
        "confirmed",
    ),
    # A valley between equal slopes at a right angle falls at their slope over the root of two.
    Threshold(
        "valley-below-code-slope",
        "lowest_slope",
        "<",
        "0.353553:12",
        "IBC 1507.4.2, standing seam 1/4:12, times the root of two",
        "confirmed",
    ),
    Threshold("air-space-too-shallow", "air_space_depth", "<", "1 in", "IBC 1202.2", "from memory"),
    # ---- IECC
    *(
        Threshold(check, "insulation_r", "<", r, source, status, {"code": code, "climate_zone": z})
        for check in ("insulation-below-energy-code", "insulation-may-fall-short")
        for code, z, r, source, status in ABOVE_DECK
    ),
    Threshold(
        "insulation-in-one-layer",
        "insulation_layers",
        "<",
        "2",
        "IECC C402.2.1",
        "from memory",
        step=1,
    ),
    Threshold(
        "low-slope-without-reflectance",
        "lowest_slope",
        "<",
        "2:12",
        COOL_LOW_ROOF,
        "from memory",
    ),
    Threshold(
        "reflectance-below-energy-code",
        "lowest_slope",
        "<",
        "2:12",
        COOL_LOW_ROOF,
        "from memory",
    ),
    Threshold(
        "reflectance-below-energy-code",
        "aged_reflectance",
        "<",
        "0.55",
        COOL_LOW_ROOF,
        "from memory",
    ),
    # ---- Florida Building Code
    *(
        Threshold(
            "hvhz-wind-speed-low",
            "wind_speed",
            "<",
            speed,
            "Florida Building Code, Building, 1620.2, Broward",
            "from memory",
            {"risk_category": category},
        )
        for category, speed in BROWARD.items()
    ),
    Threshold(
        "hvhz-low-slope",
        "lowest_slope",
        "<",
        "2:12",
        "Florida Building Code, Building, Table 1515.2, architectural metal panels",
        "from memory",
    ),
    Threshold(
        "florida-deck-not-sealed",
        "lowest_slope",
        ">=",
        "2:12",
        "Florida Building Code, Building, 1507.1.1 and its tables",
        "from memory",
    ),
    # ---- Test methods
    Threshold(
        "sheet-too-thick-for-e1592",
        "panel_thickness",
        ">",
        "0.050 in",
        "ASTM E1592, scope",
        "confirmed",
    ),
    Threshold(
        "water-pressure-below-method",
        "water_pressure",
        "<",
        "2.86 psf",
        "ASTM E1646, least pressure where none is named",
        "from memory",
    ),
    Threshold(
        "water-pressure-below-wind",
        "water_pressure",
        ">=",
        "2.86 psf",
        "ASTM E1646, least pressure where none is named",
        "from memory",
    ),
    # a fifth of the 30 psf downward that the check's own brief gives
    Threshold(
        "water-pressure-below-wind",
        "water_pressure",
        "<",
        "6 psf",
        "ASTM E1646, 20 percent of the downward design pressure",
        "from memory",
    ),
    Threshold(
        "water-pressure-beyond-records",
        "water_pressure",
        ">",
        "12 psf",
        "ASTM E1646, greatest pressure where none is named",
        "from memory",
    ),
    Threshold(
        "air-pressure-below-usual",
        "air_pressure",
        "<",
        "75 Pa",
        "ASTM E1680, pressure where none is named",
        "from memory",
    ),
    Threshold(
        "air-rate-of-air-barrier",
        "air_rate",
        "==",
        "0.04 cfm/sq ft",
        "IECC C402, assemblies by ASTM E2357",
        "from memory",
    ),
    Threshold(
        "air-rate-of-air-barrier",
        "air_rate",
        "==",
        "0.004 cfm/sq ft",
        "IECC C402, materials by ASTM E2178",
        "from memory",
    ),
    Threshold(
        "air-rate-of-air-barrier",
        "air_pressure",
        "==",
        "1.57 psf",
        "IECC C402, both at 75 Pa",
        "from memory",
    ),
    Threshold(
        "static-head-shallow",
        "static_head",
        "<",
        "6 in",
        "ASTM E2140, head above the pan",
        "from memory",
    ),
    Threshold(
        "static-head-short",
        "static_head_hours",
        "<",
        "6",
        "ASTM E2140, duration",
        "from memory",
    ),
    # ---- Materials, handbooks, criteria
    # two layers of 2.6 in reach R-30 by the long-term values; the R is rounded to a tenth
    Threshold(
        "boards-thinner-than-their-r",
        "insulation_thickness",
        "<",
        "5.2 in",
        "ASTM C1289 long-term values, two layers for R-30",
        "confirmed",
        step=0.02,
    ),
    Threshold(
        "screws-short-of-steel-deck",
        "fastener_penetration",
        "<",
        "3/4 in",
        "FM Data Sheet 1-29, screws through steel deck",
        "from memory",
    ),
    Threshold(
        "framing-far-apart",
        "framing_spacing",
        ">",
        "60 in",
        "UFC 3-320-03A, clips in the field of the roof",
        "confirmed",
    ),
    Threshold(
        "copper-wide-and-light",
        "panel_thickness",
        "<",
        "20 oz",
        "CDA Copper in Architecture Handbook, weight of wide standing seam pans",
        "from memory",
    ),
    Threshold(
        "copper-seam-below-3-12",
        "lowest_slope",
        "<",
        "3:12",
        "CDA Copper in Architecture Handbook, standing seam",
        "from memory",
    ),
    Threshold(
        "batten-below-3-12",
        "lowest_slope",
        "<",
        "3:12",
        "CDA Copper in Architecture Handbook, batten seam",
        "from memory",
        {"support": "wood-deck", "underlayment": "synthetic"},
    ),
]

CLASSES = [
    *(
        Class(
            "wind-standard-newer-than-code",
            "code",
            code,
            "ibc-2024",
            "IBC and IRC, referenced standards: ASCE/SEI 7-16 to 2021, 7-22 from 2024",
            "from memory",
        )
        for code in ("ibc-2018", "ibc-2021", "irc-2021")
    ),
    *(
        Class(
            "wind-standard-older-than-code",
            "code",
            code,
            "ibc-2021",
            "IBC 2024 and Florida Building Code 2023, referenced standards: ASCE/SEI 7-22",
            "from memory",
        )
        for code in ("ibc-2024", "fbc-2023")
    ),
    *(
        Class(
            "tornado-loads",
            "risk_category",
            category,
            "ii",
            "ASCE/SEI 7-22, Chapter 32",
            "from memory",
        )
        for category in ("iii", "iv")
    ),
    *(
        Class(
            "dwelling-code-for-essential-building",
            "risk_category",
            category,
            "ii",
            "IBC Table 1604.5",
            "from memory",
        )
        for category in ("iii", "iv")
    ),
    Class(
        "hvhz-exposure-b",
        "exposure",
        "b",
        "c",
        "Florida Building Code, Building, 1620.3",
        "from memory",
    ),
    *(
        Class("florida-climate-zone", "climate_zone", "3", zone, "IECC Table C301.1", "from memory")
        for zone in ("1", "2")
    ),
    *(
        Class(check, "climate_zone", zone, "4", COOL_LOW_ROOF, "from memory")
        for check in ("low-slope-without-reflectance", "reflectance-below-energy-code")
        for zone in ("0", "3")
    ),
    *(
        Class("no-fire-class", "fire_class", "none", taken, "IBC Table 1505.1", "from memory")
        for taken in ("class-b", "class-c")
    ),
    # a steel ball of 1-3/4 in for Class 3, of 2 in for Class 4
    Class("severe-hail-low-class", "impact_class", "class-3", "class-4", "UL 2218", "confirmed"),
    # 0.4 mil for Class II, 0.7 mil for Class I
    Class(
        "anodic-class-too-thin", "anodic_class", "class-ii", "class-i", "AAMA 611", "from memory"
    ),
]

NO_SLOPE_IN_E2140 = "ASTM E2140 sets no slope; where a seam has to be sealed is common practice"
NO_FIGURE_IN_NDS = "the NDS has strength by length of thread and no least thickness or depth"
TWO_ANSWERS = "compares two answers with each other"

# Checks that compare a figure and name a code or standard for something else.
NO_PUBLISHED_FIGURE = {
    "ridge-vent-in-high-wind": "TAS 100(A) is a method; the speed is common practice",
    "computed-without-overhang": "speaks of every overhang, however small",
    "soft-copper-long-pan": "the handbook tells what soft copper is for and sets it no length",
    "boards-span-framing": "IBC 2603.4 is named for the thermal barrier and has no span",
    "screws-short-of-wood-deck": f"{TWO_ANSWERS}; {NO_FIGURE_IN_NDS}",
    "thin-wood-deck": NO_FIGURE_IN_NDS,
    "thin-steel-deck": "AISI S100 has pull-out by thickness and no least deck",
    "fixed-point-heavily-loaded": "AISI S100 has the strength of a screw and no least or most",
    "roof-snow-above-ground-snow": TWO_ANSWERS,
    "roof-snow-load-not-given": "speaks of every ground snow load that matters",
    "snow-where-there-is-none": "any ground snow load that governs a detail; that is the fact's",
    "noble-metal-on-felt": "the handbook asks for the paper and names no temperature",
    "self-adhering-sheet-not-for-heat": "ASTM D1970 has no grade for heat; makers rate the sheet",
    "deck-without-underlayment": "IBC 1507.1.1 asks at each slope; 3:12 parts it from other checks",
    "ice-dams-over-open-framing": NO_SLOPE_IN_E2140,
    "snap-lock-below-2-12": NO_SLOPE_IN_E2140,
    "low-slope-seam-unsealed": NO_SLOPE_IN_E2140,
    "low-slope-without-static-head": NO_SLOPE_IN_E2140,
    "end-laps-at-low-slope": NO_SLOPE_IN_E2140,
    "end-laps-at-low-slope-tested": NO_SLOPE_IN_E2140,
    "static-head-on-steep-roof": NO_SLOPE_IN_E2140,
    "static-head-below-seam": TWO_ANSWERS,
    "no-driven-rain-test": "ASTM E1646 sets no slope",
    "steel-double-lock-below-half-in-12": "1/2:12 is the makers' limit; the code's is 1/4:12",
    "weathertight-slope-too-low": "1/2:12 is the makers' limit; the code's is 1/4:12",
    "low-uplift-class": "UL 580 has no wind speed",
}

BODIES = re.compile(
    r"\b(IBC|IRC|IECC|FBC|Florida Building Code|ASCE|ASTM|AAMA|UL|FM|NFPA|AISI|TAS"
    r"|CFR|UFC|CDA|NDS|EN|ANSI|SPRI|ASHRAE)\b"
)


def _answers(library: Library, typed: Mapping[str, object]) -> dict[str, Value]:
    return {name: read_answer(library.questions[name], raw) for name, raw in typed.items()}


def _speaks(library: Library, check: Check, changed: Mapping[str, str]) -> bool:
    """Whether a check speaks of its own brief with some answers changed."""
    scope = Scope(library, _answers(library, {**dict(check.raises), **changed}))
    return finding_of(check, scope) is not None


def _moved(value: Value, by: float) -> str:
    """The answer that lies this far from another, as somebody would type it."""
    if isinstance(value, Quantity):
        unit = next(iter(DIMENSIONS[value.dimension].units))
        return f"{value.magnitude + by:.9g}{'' if unit.startswith(':') else ' '}{unit}"
    assert isinstance(value, float)
    return f"{value + by:.9g}"


@pytest.mark.parametrize("row", THRESHOLDS, ids=lambda row: row.id)
def test_a_check_speaks_on_one_side_of_the_published_figure(
    library: Library, row: Threshold
) -> None:
    check, question = library.checks[row.check], library.questions[row.answer]
    assert set(row.given) <= set(library.questions)
    figure = read_answer(question, row.figure)
    size = figure.magnitude if isinstance(figure, Quantity) else figure
    assert isinstance(size, float)
    spoken = {}
    for side in (-1, 0, 1):
        by = side * (row.step or size / 1000)
        typed = _moved(figure, by) if side else row.figure
        try:
            read_answer(question, typed)
        except AnswerError:
            continue  # the question itself refuses what lies beyond the figure
        spoken[typed] = (_speaks(library, check, {**row.given, row.answer: typed}), by)
    assert {found for found, _ in spoken.values()} == {True, False}, spoken
    for typed, (found, by) in spoken.items():
        assert found == HOLDS[row.speaks](by, 0), f"{row.answer}: {typed}"


@pytest.mark.parametrize("row", CLASSES, ids=lambda row: row.id)
def test_a_check_speaks_of_the_class_that_the_source_rules_out(
    library: Library, row: Class
) -> None:
    check = library.checks[row.check]
    assert _speaks(library, check, {row.answer: row.out})
    assert not _speaks(library, check, {row.answer: row.taken})


@pytest.mark.parametrize("row", [*THRESHOLDS, *CLASSES], ids=lambda row: row.id)
def test_a_figure_from_memory_is_called_so_by_the_check(
    library: Library, row: Threshold | Class
) -> None:
    source = library.checks[row.check].source
    assert BODIES.search(row.source)
    if row.status == "from memory":
        assert "from memory" in source


def _compares_a_figure(library: Library, condition: Expression) -> bool:
    """Whether a condition, or a fact that it reads, compares a number or a quantity."""
    for part in parts_of(condition.tree):
        if isinstance(part, Name) and part.name in library.facts:
            if _compares_a_figure(library, library.facts[part.name].condition):
                return True
        elif isinstance(part, Comparison):
            for sign, other in part.steps:
                if sign in ("lt", "lteq", "gt", "gteq"):
                    return True
                value = other.value if isinstance(other, Constant) else None
                if isinstance(value, float | int | Quantity) and not isinstance(value, bool):
                    return True
    return False


def _with_a_figure(library: Library) -> set[str]:
    """Every check that names a code or standard and compares a figure."""
    return {
        check.id
        for check in library.checks.values()
        if check.when is not None
        and BODIES.search(check.source)
        and _compares_a_figure(library, check.when)
    }


def test_every_check_that_names_a_code_and_compares_a_figure_is_held_to_it(
    library: Library,
) -> None:
    held = {row.check for row in THRESHOLDS}
    assert _with_a_figure(library) - held - set(NO_PUBLISHED_FIGURE) == set()


def test_a_check_without_a_published_figure_is_there_and_not_in_the_table(
    library: Library,
) -> None:
    assert set(NO_PUBLISHED_FIGURE) <= _with_a_figure(library)
    assert set(NO_PUBLISHED_FIGURE) & {row.check for row in THRESHOLDS} == set()


def test_each_row_is_a_row_of_its_own() -> None:
    for rows in ([row.id for row in THRESHOLDS], [row.id for row in CLASSES]):
        assert len(rows) == len(set(rows))


def test_a_wrong_threshold_would_be_found(library: Library) -> None:
    """The same check with its figure moved by a tenth no longer passes for the published one."""
    row = next(row for row in THRESHOLDS if row.check == "sheet-too-thick-for-e1592")
    wrong = replace(row, figure="0.055 in")
    with pytest.raises(AssertionError):
        test_a_check_speaks_on_one_side_of_the_published_figure(library, wrong)

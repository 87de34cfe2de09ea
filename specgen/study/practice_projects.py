"""Roofs for invented projects: answers drawn at random that hold together, with nothing to find.

Every name, place and report in them is invented. What is drawn is held against the library's
checks; what conflicts all the same is settled, and what cannot be settled is drawn again.
"""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from specgen.document_checks import document_findings
from specgen.engine import Engine
from specgen.library import Library
from specgen.questions import AnswerError, read_answer
from specgen.review.findings import review
from specgen.review.outline import Block, Outline
from specgen.review.section_outline import outline_of_section
from specgen.review.shapes import Review
from specgen.section import Section, open_questions
from specgen.settle import settle, typed_answers
from specgen.units import Quantity, read
from specgen.values import Value

MOST_DRAWS = 16
# Answers tried to settle a draw, counted so that the same draw comes out alike on every machine.
MOST_TRIED = 60
_FIXED = frozenset(("metal", "seam", "support", "lowest_slope", "building_width"))

_FIRST = (
    "Kestrel", "Marrow", "Thistle", "Osprey", "Larch", "Quarry", "Sedge", "Bramble", "Heron",
    "Juniper", "Millrace", "Tansy", "Copperhead", "Wren", "Fallow", "Saltgrass", "Ironwood",
    "Plover",
)  # fmt: skip
_SECOND = ("Bend", "Hollow", "Ridge", "Ford", "Landing", "Crossing", "Fork", "Mills")
_BUILDING = (
    ("Branch Library", "Library District"),
    ("Elementary School", "School District"),
    ("Fire Station", "Fire District"),
    ("Community Center", "Park Board"),
    ("Records Archive", "County Clerk"),
    ("Town Hall", "Town Council"),
    ("Visitor Center", "Trail Trust"),
    ("Clinic", "Health District"),
)
_STATE = (
    ("Ohio", "4"), ("Kentucky", "4"), ("Iowa", "5"), ("Indiana", "5"), ("Missouri", "4"),
    ("Nebraska", "5"), ("Illinois", "5"), ("Tennessee", "4"),
)  # fmt: skip
_CODES = (("ibc-2018", "asce-7-16"), ("ibc-2021", "asce-7-16"), ("ibc-2024", "asce-7-22"))
_COLORS = ("dove gray", "slate gray", "barn red", "forest green", "bone white", "dark bronze")

_ALWAYS: Mapping[str, object] = {
    "issue": "for-bid", "product_basis": "performance-only", "design_responsibility": "computed",
    "units_shown": "inch-pound", "roof_shape": "gable", "overhang": "0 ft", "valleys": "no",
    "panel_plan": "straight", "occupancy": "ordinary", "ice_dams": "no",
    "salt_water_distance": "300 mi", "entrances_below": "no", "wildfire": "no", "hail": "low",
    "risk_category": "ii", "enclosure": "enclosed", "topographic_factor": "1.0",
    "insulation": "none", "vapor_retarder": "none", "ventilated_space": "no",
    "cover_board": "none", "ice_barrier": "no", "forming": "factory", "end_laps": "no",
    "oil_canning": "not-a-defect", "clip_kind": "two-piece", "spacing_basis": "computed",
    "water_test": "yes", "water_pressure": "6.24 psf", "air_test": "no", "static_head_test": "no",
    "fire_class": "class-a", "impact_class": "none", "cool_roof": "no",
    "exposed_sealant": "silyl-terminated", "seam_sealant": "none", "weathertight_warranty": "no",
    "workmanship_years": "2", "single_source": "yes", "snow_retention": "none",
    "ridge_vent": "no", "walkways": "no", "lightning_protection": "no", "photovoltaic": "none",
    "eave_hook": "yes", "installer_years": "5", "installer_approved": "yes",
    "preinstallation_meeting": "yes", "mock_up": "none", "field_water_test": "hose",
    "pull_tests": "no", "seaming_means": "powered",
}  # fmt: skip

# What carries the clips, with the tests that go with it and the name it has in a test record.
_SUPPORTS: Mapping[str, Mapping[str, object]] = {
    "steel deck with insulation above": {
        "support": "steel-deck-insulated", "steel_deck_profile": "b-1.5",
        "steel_deck_thickness": "20 ga", "insulation": "polyiso", "insulation_layers": "2",
        "insulation_thickness": "5.2 in", "insulation_r": "30", "cover_board": "glass-mat-gypsum",
        "underlayment": "self-adhering", "underlayment_temperature": "250 degF",
        "slip_sheet": "synthetic-slip", "bearing_plates": "yes", "spacing_module": "6 in",
        "pull_tests": "yes", "uplift_tests": ["ul-580", "ul-1897"], "ul580_class": "class-90",
    },
    "plywood deck": {
        "support": "wood-deck", "wood_deck_kind": "plywood", "wood_deck_thickness": "5/8 in",
        "underlayment": "self-adhering", "underlayment_temperature": "250 degF",
        "slip_sheet": "synthetic-slip", "uplift_tests": ["ul-580", "ul-1897"],
        "ul580_class": "class-90",
    },
    "steel deck": {
        "support": "steel-deck", "steel_deck_profile": "b-1.5", "steel_deck_thickness": "20 ga",
        "cover_board": "glass-mat-gypsum", "underlayment": "self-adhering",
        "underlayment_temperature": "250 degF", "slip_sheet": "synthetic-slip",
        "spacing_module": "6 in", "uplift_tests": ["ul-580", "ul-1897"], "ul580_class": "class-90",
    },
    "open framing": {
        "support": "open-framing", "framing_kind": "steel-purlins", "framing_spacing": "5 ft",
        "insulation": "blanket", "insulation_thickness": "6 in", "insulation_r": "19",
        "deflection_limit": "l-180", "uplift_tests": ["astm-e1592"], "air_test": "yes",
        "air_rate": "0.06 cfm/sq ft", "air_pressure": "6.24 psf",
    },
}  # fmt: skip

# The sheet, with the clips, screws and finish that go with it and the name it has in a test record.
_METALS: Mapping[str, Mapping[str, object]] = {
    "metallic-coated steel": {
        "metal": "coated-steel", "steel_coating": "az50", "steel_grade": "grade-50",
        "panel_thickness": "24 ga", "clip_metal": "coated-steel",
        "fastener_metal": "coated-carbon-steel", "finish": "pvdf", "finish_coats": "two",
        "finish_gloss": "low", "finish_warranty_covers": ["film", "chalk", "fade"],
        "finish_warranty_years": "30",
    },
    "aluminum": {
        "metal": "aluminum", "aluminum_alloy": "alloy-3004", "panel_thickness": "0.040 in",
        "clip_metal": "stainless", "fastener_metal": "stainless", "finish": "pvdf",
        "finish_coats": "two", "finish_gloss": "low",
        "finish_warranty_covers": ["film", "chalk", "fade"], "finish_warranty_years": "20",
    },
    "titanium-zinc": {
        "metal": "zinc", "panel_thickness": "0.8 mm", "clip_metal": "stainless",
        "fastener_metal": "stainless", "finish": "preweathered",
    },
    "copper": {
        "metal": "copper", "copper_temper": "cold-rolled", "panel_thickness": "20 oz",
        "clip_metal": "stainless", "fastener_metal": "stainless", "finish": "natural",
    },
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Sort:
    """A sort of roof: its slopes, seams as (id, height in inches), metals and supports."""

    slopes: tuple[str, ...]
    seams: tuple[tuple[str, str], ...]
    metals: tuple[str, ...]
    supports: tuple[str, ...]
    widths: tuple[str, ...]
    reach: tuple[int, int] = (48, 104)


_SEALED = {
    "seam_sealant": "factory", "static_head_test": "yes", "static_head": "6 in",
    "static_head_hours": "6",
}  # fmt: skip
# The trade's ways: a low roof is steel, folded twice and sealed; a steep one of any metal may shed.
_LOW = _Sort(
    ("1/2:12", "3/4:12", "1:12", "1-1/2:12"),
    (("double-lock", "2 in"),),
    ("metallic-coated steel",),
    ("steel deck with insulation above", "open framing", "plywood deck"),
    ("12 in", "16 in", "18 in"),
)
_MIDDLE = _Sort(
    ("2:12", "2-1/2:12", "3:12"),
    (("double-lock", "2 in"),),
    ("metallic-coated steel",),
    ("steel deck with insulation above", "open framing", "steel deck"),
    ("12 in", "16 in", "18 in"),
)
_STEEP = _Sort(
    ("4:12", "5:12", "6:12", "8:12"),
    (("snap-lock", "1-3/4 in"), ("double-lock", "1-1/2 in"), ("single-lock", "1-1/2 in")),
    ("metallic-coated steel",),
    ("plywood deck", "steel deck"),
    ("12 in", "16 in"),
)
_LIGHT = _Sort(
    ("3:12", "4:12", "6:12"),
    (("double-lock", "1-3/4 in"), ("single-lock", "1-1/2 in")),
    ("aluminum",),
    ("plywood deck",),
    ("12 in", "16 in"),
)
_CRAFTED = _Sort(
    ("4:12", "5:12", "7:12"),
    (("double-lock", "1-1/4 in"),),
    ("titanium-zinc", "copper"),
    ("plywood deck",),
    ("16 in", "17 in"),
    (28, 48),
)
_SORTS = (_LOW, _LOW, _MIDDLE, _STEEP, _LIGHT, _CRAFTED)


@dataclass(frozen=True)
class Project:
    """An invented project: its name and place, its answers as typed, the engine that holds them,
    and the review of its section, which finds nothing."""

    name: str
    place: str
    typed: Mapping[str, object]
    engine: Engine
    reviewed: Review

    @property
    def outline(self) -> Outline:
        return self.reviewed.outline


@lru_cache(maxsize=256)
def project(library: Library, number: int, *, low: bool = False) -> Project:
    """The project of a number, with ``low`` one whose roof is low and its seams sealed.

    The same library, number and sort give the same project. Raises LookupError if none can be
    drawn: an office's clauses may contradict whatever is drawn.
    """
    chance = random.Random(f"project {number} {low}")
    for _ in range(MOST_DRAWS):
        typed_ = _settled(library, _drawn(chance, low))
        if typed_ is None:
            continue
        engine = engine_of(library, typed_)
        if not is_clean(engine):
            continue
        name, place = (str(typed_[each]) for each in ("project_name", "place"))
        done = review(headed_outline(engine.section, name, place), library)
        if not done.found:
            return Project(name, place, typed_, engine, done)
    raise LookupError(f"no roof without a finding can be drawn for {number}")


def engine_of(library: Library, typed_: Mapping[str, object]) -> Engine:
    """An engine that holds answers as typed."""
    return Engine(library, values_of(library, typed_))


def values_of(library: Library, typed_: Mapping[str, object]) -> dict[str, Value]:
    """Answers as typed, read; a question that the library does not have, or takes otherwise, is
    passed over."""
    values: dict[str, Value] = {}
    for name, answer in typed_.items():
        try:
            values[name] = read_answer(library.questions[name], answer)
        except (KeyError, AnswerError):
            continue
    return values


def headed_outline(section: Section, name: str, place: str) -> Outline:
    """The outline of a section with the project's name above it, as a document's pages have it."""
    outline = outline_of_section(section, name)
    head = Block(0, "page", f"{name}, {place}", origin=("section", (0,)))
    blocks = (head, *outline.blocks)
    numbered = tuple(
        replace(block, index=index, origin=("section", (index,)))
        for index, block in enumerate(blocks)
    )
    return Outline(outline.name, outline.number, outline.title, numbered, outline.notes)


def is_clean(engine: Engine) -> bool:
    """Whether nothing but cautions is found in the answers and the section, and nothing is open."""
    found = [*engine.findings, *document_findings(engine.scope, engine.section)]
    grave = [finding for finding in found if finding.kind != "caution"]
    return not grave and not open_questions(engine.section)


def _settled(library: Library, drawn: Mapping[str, object]) -> Mapping[str, object] | None:
    """The answers as typed, with room to move, and conflicts settled; None where none can be."""
    moving = {**drawn, **_room_to_move(engine_of(library, drawn))}
    engine = engine_of(library, moving)
    if not engine.conflicts:
        return moving
    tried = itertools.count()
    ways = settle(engine, _FIXED, stopped=lambda: next(tried) > MOST_TRIED).ways
    return {**moving, **typed_answers(ways[0])} if ways else None


def _room_to_move(engine: Engine) -> dict[str, object]:
    """Travel of the clips and a gap at the free end somewhat above what is needed."""
    room: dict[str, object] = {}
    for needed, question in (("travel_needed", "clip_travel"), ("gap_needed", "free_end_gap")):
        value, _ = engine.scope.lookup(needed)
        if isinstance(value, Quantity):
            room[question] = next(
                (each for each in _LENGTHS if read(each, "length").magnitude >= value.magnitude),
                _LENGTHS[-1],
            )
    return room


_LENGTHS = ("3/4 in", "1 in", "1-1/4 in", "1-1/2 in", "1-3/4 in", "2 in", "2-1/2 in", "3 in")


# ------------------------------------------------------------------------------------- the draw


def _drawn(chance: random.Random, low: bool) -> dict[str, object]:
    """Answers as typed, of one sort of roof."""
    sort = _LOW if low else chance.choice(_SORTS)
    slope, metal = chance.choice(sort.slopes), chance.choice(sort.metals)
    support, width = chance.choice(sort.supports), chance.choice(sort.widths)
    seam, height = chance.choice(sort.seams)
    answers = {**_ALWAYS, **_SUPPORTS[support], **_METALS[metal]}
    answers.update(_names(chance), **_building(chance, slope, sort.reach))
    answers.update(
        lowest_slope=slope, seam=seam, seam_height=height, panel_width=width,
        pan_profile=chance.choice(("striated", "ribbed") if sort is not _CRAFTED else ("flat",)),
        clip_travel="1 in", free_end_gap="1 in",
        fixed_point=chance.choice(("ridge", "ridge", "eave")),
        gutters=chance.choice(("this-section", "none")),
        penetrations=chance.choice((["pipes"], [])), finish_color=chance.choice(_COLORS),
        field_water_areas=str(chance.randint(2, 4)), manufacturer_visits=str(chance.randint(2, 4)),
        test_records=_records(metal, support, width, seam, str(answers["panel_thickness"])),
    )  # fmt: skip
    if sort in (_LOW, _MIDDLE):
        answers.update(_SEALED)
    if answers["finish"] == "pvdf":
        answers.update(
            weathertight_warranty="yes", weathertight_years=chance.choice(("15", "20")),
            weathertight_limit="no-dollar-limit", weathertight_inspection="manufacturer",
        )  # fmt: skip
    if chance.random() < 0.4:
        answers.update(mock_up="in-place", mock_up_size="10 ft", oil_canning="judged-by-mock-up")
    return answers


def _names(chance: random.Random) -> dict[str, object]:
    town = f"{chance.choice(_FIRST)} {chance.choice(_SECOND)}"
    state, zone = chance.choice(_STATE)
    building, owner = chance.choice(_BUILDING)
    code, standard = chance.choice(_CODES)
    return {
        "project_name": f"{town} {building}",
        "client": f"{town} {owner}",
        "place": f"{town}, {state}",
        "climate_zone": zone,
        "issue_date": f"2027-{chance.randint(1, 12):02d}-{chance.randint(1, 28):02d}",
        "code": code,
        "wind_standard": standard,
        "public_work": chance.choice(("yes", "no")),
    }


def _building(chance: random.Random, slope: str, reach: tuple[int, int]) -> dict[str, object]:
    """A gable building whose panels run from eave to ridge."""
    width = chance.randrange(*reach, 4)
    run = round(width / 2 * math.hypot(12, read(slope, "slope").magnitude))
    return {
        "building_width": f"{width} ft",
        "building_length": f"{width + chance.randrange(20, 90, 10)} ft",
        "panel_run": f"{run // 12} ft {run % 12} in" if run % 12 else f"{run // 12} ft",
        "mean_roof_height": f"{chance.randint(16, 26)} ft",
        "ground_snow": f"{chance.choice((10, 15))} psf",
        "ground_elevation": f"{chance.randrange(500, 1000, 100)} ft",
        "wind_speed": f"{chance.choice((100, 105, 110))} mph",
        "exposure": chance.choice(("b", "c")),
        "panel_temperature_low": f"{chance.choice((-20, -10, 0))} degF",
        "panel_temperature_high": f"{chance.choice((150, 160))} degF",
    }


def _records(
    metal: str, support: str, width: str, seam: str, thickness: str
) -> Sequence[Mapping[str, object]]:
    """Invented test records of the assembly, the closer its clips the stronger."""
    framing = support == "open framing"
    spacings = (("60 in", "95 psf"), ("30 in", "170 psf")) if framing else (
        ("36 in", "80 psf"), ("24 in", "110 psf"), ("12 in", "180 psf"), ("6 in", "240 psf")
    )  # fmt: skip
    screws = "two No. 10 screws" if support == "plywood deck" else "two No. 14 screws"
    return [
        {
            "test": "ASTM E1592" if framing else "UL 1897",
            "support": support,
            "metal": metal,
            "thickness": thickness,
            "width": width,
            "seam": seam,
            "clip": "two-piece",
            "fastener": screws,
            "spacing": spacing,
            "ultimate": ultimate,
            "factor": "1.67" if framing else "2.0",
            "report": f"Invented report {number}01",
        }
        for number, (spacing, ultimate) in enumerate(spacings, 11)
    ]

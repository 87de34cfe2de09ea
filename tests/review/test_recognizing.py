"""What the library's recognizers make of sentences in the trade's many wordings.

The sentences are invented here, as offices of different habits write them.
"""

from __future__ import annotations

import time

import pytest

from specgen.domain import typed
from specgen.library import Library
from specgen.review.contradictions import contradictions
from specgen.review.outline import Block, Outline
from specgen.review.understanding import understand


def outline_of(text: str, article: str, *above: str) -> Outline:
    """A document of one paragraph, below others in one article."""
    blocks = [
        Block(index, "paragraph", each, level=index + 1, part=2, article=article)
        for index, each in enumerate((*above, text))
    ]
    return Outline("", "", "", tuple(blocks))


def answers_in(
    library: Library, text: str, article: str = "MATERIALS", *above: str
) -> dict[str, str]:
    """The answers of one paragraph, as they would be typed."""
    answers = understand(outline_of(text, article, *above), library).answers
    return {name: typed(value) for name, value in answers.items()}


SAID = [
    ("PANELS", "Minimum 22-ga. galvanized steel sheet complying with ASTM A 653, G-90, Grade 40.",
     {"metal": "coated-steel", "panel_thickness": "22 ga", "steel_coating": "g90",
      "steel_grade": "grade-40"}),
    ("PANELS", "0.7 mm titanium zinc, pans 430 mm wide, double-lock standing seams 25 mm high.",
     {"metal": "zinc", "panel_thickness": "0.7 mm", "panel_width": "430 mm",
      "seam": "double-lock", "seam_height": "25 mm"}),
    ("PANELS", "Material: Aluminium sheet, 3105-H14 alloy, 1.0 mm thick.",
     {"metal": "aluminum", "aluminum_alloy": "alloy-3105", "panel_thickness": "1.0 mm"}),
    ("SHEET COPPER", "20 oz. cold-rolled copper, ASTM B 370, temper H00.",
     {"metal": "copper", "copper_temper": "cold-rolled", "panel_thickness": "20 oz"}),
    ("PANELS", "Seams shall be closed with an electric seaming machine to a 180-degree double-fold"
     " standing seam, 2-3/8\" high.",
     {"seam": "double-lock", "seam_height": "2-3/8 in", "seaming_means": "powered"}),
    ("PANELS", "Panels shall be 18\" wide with 1-3/4\" tall mechanically seamed ribs.",
     {"panel_width": "18 in", "seam_height": "1-3/4 in", "seaming_means": "powered"}),
    ("PANELS", "Snap-together seams, 1 3/4 inches high, with two pencil ribs in each pan.",
     {"seam": "snap-lock", "seam_height": "1 3/4 in", "pan_profile": "ribbed"}),
    ("PANELS", "Panels shall be continuous from eave to ridge, without transverse splices.",
     {"end_laps": "no"}),
    ("FABRICATION", "Factory-form panels; field roll forming is not acceptable.",
     {"forming": "factory"}),
    ("PANELS", "Oil canning is not grounds for rejection.", {"oil_canning": "not-a-defect"}),
    ("DESIGN", "Slope: 1/4 inch per foot minimum.", {"lowest_slope": "1/4:12"}),
    ("DESIGN", "The roof has a pitch of 3 in 12.", {"lowest_slope": "3:12"}),
    ("DESIGN", "Basic wind speed 51 m/s, Exposure Category C, Occupancy Category III.",
     {"wind_speed": "51 m/s", "exposure": "c", "risk_category": "iii"}),
    ("DESIGN", "Wind loads to ASCE 7-22, building partially enclosed, mean roof height 28 feet.",
     {"wind_standard": "asce-7-22", "enclosure": "partially-enclosed",
      "mean_roof_height": "28 ft"}),
    ("TESTS", "Air infiltration: maximum 0.09 cfm per square foot at 6.24 psf, ASTM E 1680.",
     {"air_test": "yes", "air_rate": "0.09 cfm/sq ft", "air_pressure": "6.24 psf"}),
    ("TESTS", "Air leakage: 0.3 L/s per sq m at 300 Pa to ASTM E1680.",
     {"air_test": "yes", "air_rate": "0.3 L/s per sq m", "air_pressure": "300 Pa"}),
    ("TESTS", "No uncontrolled water when tested per ASTM E 1646 at 12.0 psf.",
     {"water_test": "yes", "water_pressure": "12.0 psf"}),
    ("TESTS", "Hydrostatic head: no leakage to ASTM E2140 with 150 mm of water for 6 h.",
     {"static_head_test": "yes", "static_head": "150 mm", "static_head_hours": "6"}),
    ("TESTS", "Roof assembly: UL 580 Class 90, and FM 4471 Class 1-105.",
     {"uplift_tests": "[ul-580, fm-4471]", "ul580_class": "class-90", "fm_rating": "fm-105"}),
    ("TESTS", "Class A in accordance with ASTM E108.", {"fire_class": "class-a"}),
    ("TESTS", "Impact resistance: Class 4 per UL 2218.", {"impact_class": "class-4"}),
    ("TESTS", "Allow for movement over metal temperatures from minus 20 deg F to 160 deg F.",
     {"panel_temperature_low": "-20 degF", "panel_temperature_high": "160 degF"}),
    ("FINISH", "Two-coat system with 70 percent polyvinylidene fluoride resin; color: slate gray.",
     {"finish": "pvdf", "finish_coats": "two", "finish_color": "slate gray"}),
    ("FINISH", "Siliconized polyester, low gloss.", {"finish": "smp", "finish_gloss": "low"}),
    ("FINISH", "Prepatinated at the mill.", {"finish": "preweathered"}),
    ("CLIPS", "Floating type, 300 series stainless steel, with 1-1/2\" movement each way.",
     {"clip_kind": "two-piece", "clip_metal": "stainless", "clip_travel": "1-1/2 in"}),
    ("CLIPS", "Clip screws: zinc-plated carbon steel.", {"fastener_metal": "coated-carbon-steel"}),
    ("INSTALLATION", "Panels shall be fixed at the eave and free to move at the ridge.",
     {"fixed_point": "eave"}),
    ("INSTALLATION", "Space clips 24 inches o.c. in field and 12 inches o.c. at corners.",
     {"clip_schedule": "2 rows"}),
    ("UNDERLAYMENT", "High temperature self-adhered membrane underlayment, rated to 260 deg F.",
     {"underlayment": "self-adhering", "underlayment_temperature": "260 degF"}),
    ("UNDERLAYMENT", "No. 30 asphalt-saturated organic felt.", {"underlayment": "felt"}),
    ("UNDERLAYMENT", "Red rosin-sized paper under the pans.", {"slip_sheet": "building-paper"}),
    ("DECK", "22 gauge, 1-1/2\" deep, wide-rib steel deck by others.",
     {"steel_deck_thickness": "22 ga", "steel_deck_profile": "b-1.5"}),
    ("INSULATION", "Polyiso boards in two layers, total thickness 5.2 inches, R-value 30.",
     {"insulation": "polyiso", "insulation_layers": "2", "insulation_thickness": "5.2 in",
      "insulation_r": "30"}),
    ("INSULATION", "Vapor barrier: 10 mil polyethylene.", {"vapor_retarder": "polyethylene"}),
    ("SEALANTS", "Factory-applied butyl in the seam.", {"seam_sealant": "factory"}),
    ("SEALANTS", "Exposed sealant: one-part neutral-cure silicone.",
     {"exposed_sealant": "silicone"}),
    ("ACCESSORIES", "Snow guards: clamp-on two-rail system.", {"snow_retention": "rails"}),
    ("QUALIFICATIONS", "Applicator: ten (10) years documented experience, approved by the"
     " manufacturer.", {"installer_years": "10", "installer_approved": "yes"}),
    ("MEETINGS", "Convene a pre-roofing conference two weeks before work.",
     {"preinstallation_meeting": "yes"}),
    ("MOCK-UP", "Build a mock-up 12 ft by 12 ft in place; accepted, it stays as part of the work.",
     {"mock_up": "in-place", "mock_up_size": "12 ft"}),
    ("FIELD TESTS", "Water spray test to AAMA 501.2 at 3 locations.",
     {"field_water_test": "hose", "field_water_areas": "3"}),
    ("WARRANTY", "Provide a twenty (20) year, No Dollar Limit weathertightness warranty.",
     {"weathertight_warranty": "yes", "weathertight_years": "20",
      "weathertight_limit": "no-dollar-limit"}),
    ("WARRANTY", "Contractor's warranty: two years covering workmanship.",
     {"workmanship_years": "2"}),
    ("WARRANTY", "Finish: 35 years against peeling, chalking and fading.",
     {"finish_warranty_years": "35", "finish_warranty_covers": "[film, chalk, fade]"}),
    ("PANELS", "Ridge to eave 62 feet.", {"panel_run": "62 ft"}),
    ("PANELS", "Vertical leg, two inches tall.", {"seam_height": "2 in"}),
    ("PANELS", ".050 alum., 3105, 12 in. cov., power seamed.",
     {"metal": "aluminum", "aluminum_alloy": "alloy-3105", "panel_thickness": ".050 in",
      "panel_width": "12 in", "seaming_means": "powered"}),
    ("PANELS", "Factory-applied hot-melt mastic in the female rib.", {"seam_sealant": "factory"}),
    ("ROOF", "Pitch: 4/12.", {"lowest_slope": "4:12"}),
    ("ROOF", "Roof rises nine inches in twelve.", {"lowest_slope": "9:12"}),
    ("ROOF", "The roof falls 4.8 degrees.", {"lowest_slope": "4.8 deg"}),
    ("ROOF", "Fall: 1 in 40.", {"lowest_slope": "2.5 percent"}),
    ("DESIGN", "V = 118 mph, Exp. C, Risk Cat. II, enclosed.",
     {"wind_speed": "118 mph", "exposure": "c", "risk_category": "ii", "enclosure": "enclosed"}),
    ("DESIGN", "The delegated engineer computes wind pressures and clip spacing.",
     {"design_responsibility": "delegated", "spacing_basis": "delegated"}),
    ("WARRANTY", "Manufacturer's inspector to visit at 50% and 100% completion.",
     {"manufacturer_visits": "2", "weathertight_inspection": "manufacturer"}),
    ("MOCK-UP", "Trial piece 2 m by 2 m on a frame in the yard.",
     {"mock_up": "separate", "mock_up_size": "2 m"}),
    ("INSULATION", "Two layers of polyiso on bearing plates, over the steel deck.",
     {"insulation": "polyiso", "support": "steel-deck-insulated", "bearing_plates": "yes"}),
    ("ATTACHMENT", "Space clips 24 inches o.c. in field and 12 inches o.c. at corners.",
     {"spacing_basis": "schedule"}),
]  # fmt: skip


@pytest.mark.parametrize(
    ("article", "text", "states"), SAID, ids=[text[:40] for _, text, _ in SAID]
)
def test_a_sentence_gives_the_answers_that_a_reader_takes_from_it(
    library: Library, article: str, text: str, states: dict[str, str]
) -> None:
    found = answers_in(library, text, article)
    assert {name: found.get(name) for name in states} == states


DENIED = [
    ("Snap-lock seams are not permitted.", "seam", None),
    ("Do not use snap-lock panels.", "seam", None),
    ("Panels shall be installed without end laps.", "end_laps", "no"),
    ("Snow guards: not required.", "snow_retention", "none"),
    ("This section does not include roof walkways or lightning protection.", "walkways", "no"),
    ("This section does not include roof walkways or lightning protection.",
     "lightning_protection", "no"),
    ("No photovoltaic modules, walkways, lightning conductors or ridge vents stand on this roof.",
     "ridge_vent", "no"),
    ("No slip sheet is used under the panels.", "slip_sheet", "none"),
    ("Do not lay insulation on wet decks.", "insulation", None),
    ("Air leakage of not more than 0.06 cfm/sq ft under ASTM E1680.", "air_test", "yes"),
    ("Snow guards: not in contract.", "snow_retention", "none"),
    ("Snap-together panels will be refused.", "seam", None),
    ("Copper sheet, 20 oz; half hard copper is not suitable.", "metal", "copper"),
    ("A separate ice barrier is therefore not needed.", "ice_barrier", "no"),
    ("No leak warranty is asked of the manufacturer.", "weathertight_warranty", "no"),
    ("No inspection is made for the weathertightness warranty.", "weathertight_warranty", "yes"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "question", "answer"), DENIED, ids=[t[:40] for t, _, _ in DENIED])
def test_a_no_is_understood(library: Library, text: str, question: str, answer: str | None) -> None:
    assert answers_in(library, text).get(question) == answer


SPARED = [
    ("REFERENCES", "UL 580, Tests for Uplift Resistance of Roof Assemblies.", "uplift_tests"),
    ("DEFINITIONS", "Double-lock seam: one folded twice.", "seam"),
    ("CLIPS", "Clips: galvanized steel, 16 gauge.", "panel_thickness"),
    ("FLASHINGS", "Flashing: stainless steel, 0.018 in.", "metal"),
    ("FINISH", "Color as selected by the Architect.", "finish_color"),
    ("UNDERLAYMENT", "Ice barrier at eaves: self-adhering sheet, ASTM D1970.", "underlayment"),
    ("WARRANTY", "Installer: five years against leaks.", "weathertight_years"),
    ("INSTALLATION", "Stop work when wind speed exceeds 25 mph during installation.", "wind_speed"),
    ("PANELS", "Is the seam a double-lock seam?", "seam"),
    ("RELATED SECTIONS", "Section 05 31 00 - Steel Decking.", "support"),
    ("RELATED SECTIONS", "06 10 00 Rough Carpentry: plywood roof sheathing.", "support"),
    ("SCOPE", "Flat roofs, with their walkways, are in Section 07 54 19.", "walkways"),
    ("SOFFIT PANELS", "Snap-lock aluminum panels, 12 inches wide.", "seam"),
    ("ALTERNATES", "Alternate 1: double-lock seams.", "seam"),
    ("BASE BID", "Alternate 2: add pipe snow guards.", "snow_retention"),
    ("MOCK-UP", "Erect a mockup 8 ft. x 10 ft. on the roof.", "mock_up_size"),
    ("PANELS", "22 ga. aluminum-zinc alloy coated steel.", "aluminum_alloy"),
    ("SEALANTS", "Exposed sealant: silicone or urethane.", "exposed_sealant"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("article", "text", "question"), SPARED, ids=[t[:40] for _, t, _ in SPARED]
)
def test_words_about_something_else_answer_nothing(
    library: Library, article: str, text: str, question: str
) -> None:
    assert question not in answers_in(library, text, article)


def test_a_term_takes_its_warranty_from_the_paragraph_above(library: Library) -> None:
    term = "Warranty period: 15 years from Substantial Completion."
    leaks = answers_in(library, term, "WARRANTY", "Weathertightness warranty by the manufacturer")
    finish = answers_in(library, term, "WARRANTY", "Finish warranty")
    assert leaks["weathertight_years"] == "15"
    assert finish["finish_warranty_years"] == "15"
    assert "finish_warranty_years" not in leaks
    assert "weathertight_years" not in finish


def test_a_title_tells_the_metal_and_an_article_of_what_is_left_out_denies(
    library: Library,
) -> None:
    title = Block(0, "title", "COPPER BATTEN ROOF")
    out = Block(1, "paragraph", "Walkways, lightning rods.", level=1, part=1, article="EXCLUDED")
    answers = understand(Outline("", "", "", (title, out)), library).answers
    assert {name: typed(value) for name, value in answers.items()} == {
        "metal": "copper",
        "seam": "batten",
        "walkways": "no",
        "lightning_protection": "no",
    }


def test_a_sentence_is_limited_by_its_own_label_and_not_that_of_the_sentence_before(
    library: Library,
) -> None:
    text = "Warranty, weathertight: 10 yr. Warranty, workmanship: 2 yr."
    answers = answers_in(library, text, "DATA")
    assert answers["weathertight_years"] == "10"
    assert answers["workmanship_years"] == "2"


def test_two_gauges_offered_are_no_answer_and_are_told_as_open(library: Library) -> None:
    outline = outline_of("Provide panels of 22 or 24 gauge steel.", "PANELS")
    understanding = understand(outline, library)
    assert "panel_thickness" not in understanding.answers
    (found,) = contradictions(understanding, outline, library)
    assert found.finding.kind == "ambiguity"
    assert found.finding.answers == ("panel_thickness",)
    assert "22 or 24" in found.finding.says


def test_a_statement_points_at_its_words(library: Library) -> None:
    text = "Furnish panels of 24 gauge steel, with a coverage of 16 in."
    understanding = understand(outline_of(text, "PANELS"), library)
    at = understanding.given_by["panel_width"].at
    assert text[at.start : at.end] == "coverage of 16 in"


def test_an_answer_that_its_question_does_not_take_is_kept_with_the_reason(
    library: Library,
) -> None:
    understanding = understand(outline_of("Panel width: 48 inches.", "PANELS"), library)
    (statement,) = understanding.statements
    assert statement.value is None
    assert "above what is sensible" in statement.fault
    assert "panel_width" not in understanding.answers


def test_what_is_written_to_stall_a_pattern_is_read_in_a_moment(library: Library) -> None:
    words = ("thickness 22 ", "panels seams ", "1-1/2 ", "wind speed ", "zone 1 ", "self adhering ")
    blocks = tuple(
        Block(index, "paragraph", word * 2_000, level=1, part=2, article="PANELS")
        for index, word in enumerate(words)
    )
    started = time.perf_counter()
    understand(Outline("", "", "", blocks), library)
    assert time.perf_counter() - started < 10

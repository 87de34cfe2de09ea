"""What is drawn: the layers of the assembly, the seam, the roof plan and the movement chart."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.computing.registry import ZoneShape
from specgen.drawing import Layer, layers_of
from specgen.drawing_chart import between, chart_lines, chart_of, ticks
from specgen.drawing_plan import area_of, feet_shown, inside, roof_plan
from specgen.drawing_raster import raster
from specgen.drawing_seam import seam_lines
from specgen.library import Library
from specgen.scope import Scope
from tests.support import brief_of

INSULATED = """
bearing_plates: no
support: steel-deck-insulated
steel_deck_profile: b-1.5
steel_deck_thickness: 20 ga
insulation: polyiso
insulation_layers: 2
insulation_thickness: 5 in
cover_board: glass-mat-gypsum
vapor_retarder: self-adhering
ventilated_space: no
underlayment: synthetic
ice_barrier: yes
slip_sheet: none
metal: coated-steel
panel_thickness: 24 ga
panel_width: 16 in
seam: double-lock
seam_height: 2 in
clip_kind: two-piece
clip_metal: coated-steel
units_shown: inch-pound
"""


def scope_of(text: str, library: Library, folder: Path) -> Scope:
    return Scope(library, brief_of(text, library, folder).answers)


def _layers(text: str, library: Library, folder: Path) -> dict[str, Layer]:
    return {layer.id: layer for layer in layers_of(scope_of(text, library, folder))}


def test_layers_stand_in_order_from_the_support_up(library: Library, tmp_path: Path) -> None:
    layers = _layers(INSULATED, library, tmp_path)
    assert list(layers) == [
        "support",
        "vapor-retarder",
        "insulation-1",
        "insulation-2",
        "cover-board",
        "ice-barrier",
        "underlayment",
        "clip",
        "panel",
        "seam",
    ]
    assert not any(layer.waits_on for layer in layers.values())


def test_a_bearing_plate_lies_under_the_clip_alone(library: Library, tmp_path: Path) -> None:
    with_plates = INSULATED.replace("bearing_plates: no", "bearing_plates: yes")
    layers = _layers(with_plates, library, tmp_path)
    assert list(layers).index("bearing-plate") + 1 == list(layers).index("clip")
    assert layers["bearing-plate"].local


def test_boards_share_the_thickness_and_name_the_questions_they_come_from(
    library: Library, tmp_path: Path
) -> None:
    board = _layers(INSULATED, library, tmp_path)["insulation-2"]
    assert board.thickness == 2.5
    assert board.name == "polyisocyanurate insulation board, layer 2 of 2, 2-1/2 in"
    assert board.questions == ("insulation", "insulation_thickness", "insulation_layers")


def test_every_question_of_a_layer_is_one_of_the_library(library: Library, tmp_path: Path) -> None:
    for layer in layers_of(scope_of(INSULATED, library, tmp_path)):
        assert layer.questions
        assert set(layer.questions) <= set(library.questions)


def test_what_is_undecided_is_a_layer_that_says_so(library: Library, tmp_path: Path) -> None:
    layers = _layers("support: wood-deck\nvapor_retarder: none\n", library, tmp_path)
    assert layers["support"].waits_on == {"wood_deck_kind", "wood_deck_thickness"}
    assert layers["underlayment"].waits_on == {"underlayment"}
    assert layers["underlayment"].name == "(open: underlayment)"
    assert "vapor-retarder" not in layers


def test_what_hangs_on_another_open_question_is_not_drawn_yet(
    library: Library, tmp_path: Path
) -> None:
    layers = _layers("metal: zinc\n", library, tmp_path)
    assert layers["support"].waits_on == {"support"}
    assert "underlayment" not in layers


def test_battens_and_open_framing_have_layers(library: Library, tmp_path: Path) -> None:
    framing = (
        "support: open-framing\nframing_kind: steel-purlins\ninsulation: blanket\n"
        "insulation_thickness: 4 in\n"
    )
    vented = "support: wood-deck\nventilated_space: yes\nair_space_depth: 1-1/2 in\n"
    layers = _layers(framing, library, tmp_path)
    assert layers["support"].material == "framing"
    assert layers["support"].thickness is None
    assert layers["insulation-1"].material == "blanket"
    assert _layers(vented, library, tmp_path)["air-space"].inches == 1.5


def test_a_library_that_does_not_ask_leaves_what_it_does_not_ask_out(
    small: Library, tmp_path: Path
) -> None:
    layers = layers_of(Scope(small, {}))
    assert [layer.id for layer in layers] == ["support", "clip", "panel", "seam"]


# --------------------------------------------------------------------------------------- the seam


@pytest.mark.parametrize("clip", ["one-piece", "two-piece", ""])
@pytest.mark.parametrize("kind", ["snap-lock", "single-lock", "double-lock", "batten", ""])
def test_a_seam_stands_as_high_as_it_is_and_reaches_both_sides(kind: str, clip: str) -> None:
    lines = seam_lines(kind, clip, 60.0, 3.0, 200.0)
    points = [point for line in lines for point in line.points]
    assert min(x for x, _ in points) == -200
    assert max(x for x, _ in points) == 200
    assert min(y for _, y in points) >= 0
    above = 3.0 if kind == "batten" else 0.0  # the cap lies on top of the pans' edges
    assert max(y for _, y in points) == 60 + above


def test_a_double_lock_encloses_the_inner_sheet_twice() -> None:
    lines = {line.part: line.points for line in seam_lines("double-lock", "", 60.0, 3.0, 200.0)}
    end = lines["right"][-1]
    across = [x for x, y in lines["left"][2:] if x != end[0]]
    assert any(x < end[0] for x in across)
    assert any(x > end[0] for x in across)
    assert min(y for _, y in lines["left"][2:]) < end[1]


# --------------------------------------------------------------------------------------- the plan

# 100 ft by 40 ft with strips of 4 ft and corners of 4 ft square.
PLAN = (
    ZoneShape("Zone 1", ((4, 4), (96, 4), (96, 36), (4, 36))),
    ZoneShape("Zone 2", ((4, 0), (96, 0), (96, 4), (4, 4))),
    ZoneShape("Zone 2", ((4, 36), (96, 36), (96, 40), (4, 40))),
    ZoneShape("Zone 2", ((0, 4), (4, 4), (4, 36), (0, 36))),
    ZoneShape("Zone 2", ((96, 4), (100, 4), (100, 36), (96, 36))),
    *(
        ZoneShape("Zone 3", ((x, y), (x + 4, y), (x + 4, y + 4), (x, y + 4)))
        for x in (0, 96)
        for y in (0, 36)
    ),
)


def test_a_plan_knows_its_size_and_the_area_of_each_zone(library: Library) -> None:
    plan = roof_plan(Scope(library, {}), PLAN)
    assert plan is not None
    assert plan.size == (100, 40)
    areas = {zone.name: zone.area for zone in plan.zones}
    assert areas == {"Zone 1": 92 * 32, "Zone 2": 2 * 92 * 4 + 2 * 4 * 32, "Zone 3": 64}
    assert plan.breaks(0) == (0, 4, 96, 100)
    assert plan.breaks(1) == (0, 4, 36, 40)
    assert roof_plan(Scope(library, {}), ()) is None


def test_borders_do_not_run_between_two_parts_of_one_zone(library: Library) -> None:
    halves = (
        ZoneShape("Zone 1", ((0, 0), (10, 0), (10, 10), (0, 10))),
        ZoneShape("Zone 1", ((10, 0), (20, 0), (20, 10), (10, 10))),
    )
    plan = roof_plan(Scope(library, {}), halves)
    assert plan is not None
    assert plan.breaks(0) == (0, 20)


def test_the_raster_is_to_scale_and_shows_every_zone(library: Library) -> None:
    plan = roof_plan(Scope(library, {}), PLAN)
    assert plan is not None
    drawn = raster(plan)
    marks = "".join(drawn.lines)
    assert drawn.cell[1] / drawn.cell[0] == pytest.approx(2, rel=0.1)
    assert len(drawn.lines) * drawn.cell[1] == pytest.approx(40)
    for zone in plan.zones:
        share = marks.count(zone.mark) / len(marks)
        assert share == pytest.approx(zone.area / 4000, abs=0.06)


def test_a_strip_narrower_than_a_character_is_drawn_all_the_same(library: Library) -> None:
    shapes = (
        ZoneShape("Zone 1", ((3, 0), (1000, 0), (1000, 400), (3, 400))),
        ZoneShape("Zone 2", ((0, 0), (3, 0), (3, 400), (0, 400))),
    )
    plan = roof_plan(Scope(library, {}), shapes)
    assert plan is not None
    drawn = raster(plan)
    assert drawn.widened
    assert all(line.startswith(":.") for line in drawn.lines)


def test_polygons_have_areas_and_insides() -> None:
    ell = ((0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 4.0), (0.0, 4.0))
    assert area_of(ell) == 7
    assert inside(ell, 0.5, 3)
    assert not inside(ell, 3, 3)


def test_a_gable_has_a_ridge_and_a_hip_has_four_hips_too(library: Library, tmp_path: Path) -> None:
    gable = roof_plan(scope_of("roof_shape: gable\n", library, tmp_path), PLAN)
    hip = roof_plan(scope_of("roof_shape: hip\n", library, tmp_path), PLAN)
    assert gable is not None
    assert hip is not None
    assert gable.creases == (("ridge", (0, 20), (100, 20)),)
    assert [name for name, _, _ in hip.creases] == ["ridge", "hip", "hip", "hip", "hip"]
    assert hip.creases[0][1:] == ((20, 20), (80, 20))


def test_lengths_of_the_plan_are_in_the_units_of_the_brief(
    library: Library, tmp_path: Path
) -> None:
    shown = {
        system: feet_shown(scope_of(f"units_shown: {system}\n", library, tmp_path), 4.4)
        for system in ("inch-pound", "si", "both")
    }
    assert shown == {"inch-pound": "4.4 ft", "si": "1.3 m", "both": "4.4 ft (1.3 m)"}


# -------------------------------------------------------------------------------------- the chart


def test_ticks_are_round_and_reach_the_highest() -> None:
    assert ticks(46.1, 8) == (0, 10, 20, 30, 40, 50)
    assert ticks(0.667, 5) == (0, 0.2, 0.4, 0.6, 0.8)
    assert ticks(0, 5) == (0, 1)


def test_the_chart_marks_this_roof_between_the_points_of_the_series(
    library: Library, tmp_path: Path
) -> None:
    series = ((0.0, 0.0), (40.0, 0.4), (80.0, 0.8))
    chart = chart_of(
        scope_of("panel_run: 60 ft\nunits_shown: inch-pound\n", library, tmp_path), series
    )
    assert chart is not None
    assert chart.mark == pytest.approx((60, 0.6))
    assert dict(chart.rows)[60.0] == pytest.approx(0.6)
    assert between(chart.points, 20) == pytest.approx(0.2)
    lines = chart_lines(chart)
    assert sum(line.count("O") for line in lines) == 1
    assert max(map(len, lines)) <= 78


def test_a_chart_in_si_is_in_meters_and_millimeters(library: Library, tmp_path: Path) -> None:
    scope = scope_of("panel_run: 100 ft\nunits_shown: si\n", library, tmp_path)
    chart = chart_of(scope, ((0.0, 0.0), (50.0, 1.0)))
    assert chart is not None
    assert chart.points[-1] == pytest.approx((15.24, 25.4))
    assert chart.mark is None
    assert (chart.x_unit, chart.y_unit) == ("m", "mm")
    assert chart_of(scope, ((50.0, 1.0),)) is None

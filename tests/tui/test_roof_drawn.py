"""The roof drawn: in section and in plan, its parts chosen and followed."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from textual.pilot import Pilot

from specgen.drawing import layers_of
from specgen.engine import Engine
from specgen.library import Library
from specgen.session import Session
from specgen.units import Quantity
from tests.tui.roof_support import drive, settled, shown
from tui.leads import LeadList, Leads, leads_of
from tui.roof import RoofScreen
from tui.roof_drawing import RoofDrawing
from tui.roof_parts import RoofPart, drawn_plan, drawn_section
from tui.section_art import section_art
from tui.section_seams import SEAMS
from tui.topics import Topics


def test_moving_along_the_choices_draws_the_roof_as_it_would_be(session: Session) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        screen.go_to("seam")
        await settled(pilot)
        assert "as it would be" not in shown(screen, RoofDrawing)[0]
        await pilot.press("up")
        await pilot.pause()
        lines = shown(screen, RoofDrawing)
        assert "as it would be: single-lock seam" in lines[0]
        assert "single-lock seam, 2 in high" in lines[1]
        assert session.typed_of("seam") == "double-lock"
        await pilot.press("down")
        await pilot.pause()
        assert "as it would be" not in shown(screen, RoofDrawing)[0]

    drive(session, job)


def test_a_layer_is_chosen_by_keyboard_and_leads_to_its_question(session: Session) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        screen.go_to("seam")
        await pilot.press("ctrl+l")
        await pilot.pause()
        assert screen.drawing.part is not None
        assert screen.drawing.part.id == "seam"
        assert screen.query_one(Leads).display
        for _ in range(20):
            await pilot.press("down")
        assert screen.drawing.part.id == "support"
        await pilot.press("enter", "enter")
        await settled(pilot)
        assert screen.question == "support"
        assert screen.card.display
        assert not screen.query_one(Leads).display

    drive(session, job)


def test_escape_leads_back_from_the_leads_to_the_drawing_and_to_the_question(
    session: Session,
) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        await pilot.press("ctrl+l", "enter")
        assert screen.query_one(LeadList).has_focus
        await pilot.press("escape")
        assert screen.drawing.has_focus
        await pilot.press("escape")
        await pilot.pause()
        assert screen.card.display
        assert screen.card.choices.has_focus or screen.card.field.has_focus

    drive(session, job)


def test_every_part_of_the_roof_leads_to_a_question_and_zones_to_numbers_and_clauses(
    session: Session,
) -> None:
    engine = session.engine
    for draw in (drawn_section, drawn_plan):
        drawn = draw(engine, 40, 8)
        for part in drawn.parts:
            kinds = {lead.kind for lead in leads_of(engine, part)}
            assert "question" in kinds
            if part.look == "zone":
                assert kinds == {"question", "number", "clause"}


def test_the_plan_shows_zones_with_uplift_and_clip_spacing(session: Session) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        screen.go_to("seam")
        await pilot.press("ctrl+r")
        await pilot.pause()
        lines = shown(screen, RoofDrawing)
        assert "▸plan " in lines[0]
        legend = "\n".join(lines)
        # as computed for this example: 92 ft x 160 ft, 110 mph, exposure C
        assert "Zone 3   47.9 psf  clips 18 in" in legend
        assert "Zone 1'  15.3 psf  clips 36 in" in legend
        await pilot.press("ctrl+r")
        await pilot.pause()
        assert "▸section " in shown(screen, RoofDrawing)[0]

    drive(session, job)


def test_a_plan_that_cannot_be_drawn_names_the_questions_it_waits_on(new: Session) -> None:
    drawn = drawn_plan(new.engine, 40, 8)
    assert [part.id for part in drawn.parts] == ["design_responsibility"]
    assert all(part.waits for part in drawn.parts)


def test_a_click_on_a_layer_chooses_it_and_a_click_on_a_topic_goes_there(
    session: Session,
) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        screen.go_to("seam")
        await pilot.click(RoofDrawing, offset=(20, 8))
        await pilot.pause()
        assert screen.drawing.part is not None
        assert screen.drawing.part.id == "support"
        await pilot.click(RoofDrawing, offset=(12, 0))
        await pilot.pause()
        assert screen.drawing.view == "plan"
        line = str(screen.query_one(Topics).render())
        await pilot.click(Topics, offset=(line.index("finish") + 1, 0))
        await pilot.pause()
        assert session.library.questions[screen.question].topic == "finish"

    drive(session, job)


@pytest.mark.parametrize("seam", sorted(SEAMS))
@pytest.mark.parametrize("rows", [4, 8, 16, 30])
def test_the_section_keeps_to_its_rows_and_columns_and_shows_every_layer(
    library: Library, example: Path, seam: str, rows: int, tmp_path: Path
) -> None:
    engine = _with_seam(library, example, seam, tmp_path)
    layers = layers_of(engine.scope)
    for columns in (24, 40, 66):
        art = section_art(layers, columns, rows, width=16.0, width_shown="16 in")
        assert len(art.rows) <= max(rows, 4)
        assert all(len(row.text) == columns for row in art.rows)
        if rows >= 8:
            named = [layer.id for row in art.rows for layer in row.named]
            assert sorted(named) == sorted(layer.id for layer in layers)


def _with_seam(library: Library, example: Path, seam: str, folder: Path) -> Engine:
    path = folder / "roof.yaml"
    shutil.copy(example, path)
    session = Session(path, library)
    session.answer("seam", seam or None)
    session.close()
    return session.engine


def test_thicker_boards_take_more_rows(session: Session) -> None:
    def rows_of(prefix: str) -> int:
        layers = layers_of(session.engine.scope)
        art = section_art(layers, 60, 30, width=16.0)
        return sum(row.owners[-1].startswith(prefix) for row in art.rows)

    session.answer("insulation_thickness", "2 in")
    thin = rows_of("insulation-")
    session.answer("insulation_thickness", "8 in")
    assert rows_of("insulation-") > thin


def test_a_roof_of_any_size_has_its_plan_in_the_space_given(session: Session) -> None:
    for length, width in (("30 ft", "20 ft"), ("600 ft", "40 ft"), ("60 ft", "500 ft")):
        for shape in ("gable", "hip", "single-slope"):
            for slope in ("1/2:12", "4:12", "8:12"):
                session.answer("building_length", length)
                session.answer("building_width", width)
                session.answer("roof_shape", shape)
                session.answer("lowest_slope", slope)
                for columns, rows in ((24, 5), (40, 8), (66, 16)):
                    drawn = drawn_plan(session.engine, columns, rows)
                    assert len(drawn.drawing) <= rows
                    lines = ["".join(text for text, _ in line) for line in drawn.drawing]
                    assert all(len(line) <= columns for line in lines), (length, shape, slope)


def test_a_brief_without_a_width_is_drawn_with_a_usual_one(new: Session) -> None:
    assert not isinstance(new.engine.scope.lookup("panel_width")[0], Quantity)
    drawn = drawn_section(new.engine, 40, 8)
    assert {part.id for part in drawn.parts} >= {"seam", "panel", "support"}
    assert all(isinstance(part, RoofPart) and part.waits for part in drawn.parts)

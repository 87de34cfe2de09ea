"""The numbers screen: every figure, where it comes from, what it moved from, and who reads it."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot

from specgen.session import Session
from specgen.writers.calculations_shown import shown_results
from tests.tui.lines_support import (
    SIZES,
    all_lines,
    click_lead,
    click_row,
    document,
    drive,
    lead,
    press,
    rested,
    said,
    seen,
)
from tests.tui.numbers_support import numbers, put_cursor, records, row_of, words
from tui.app import RoofApp
from tui.numbers import LEAD_KEYS, NumbersScreen
from tui.roof import RoofScreen


@pytest.mark.parametrize("size", SIZES)
def test_every_calculation_is_a_line_with_its_telling_figure(
    session: Session, size: tuple[int, int]
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        for shown in shown_results(session.engine.scope):
            line = words(row_of(screen, "calculation", shown.result.calculation.id))
            assert shown.title[:30] in line
        assert "15.3 psf to 47.9 psf" in words(row_of(screen, "calculation", "wind"))
        assert "36 in to 18 in" in words(row_of(screen, "calculation", "attachment"))
        await press(pilot, "u", "f")
        assert max(map(len, all_lines(screen.list))) <= size[0] - 2

    drive(session, "numbers", job, size)


def test_enter_unfolds_a_calculation_and_folds_it_again(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        folded = len(screen.list.rows)
        await press(pilot, "enter")
        lines = " ".join(" ".join(all_lines(screen.list)).split())
        for head in ("Roof plan by roof zone", "Gives", "To heed", "Made from", "Worked out"):
            assert head in lines
        assert "Basic wind speed 110 mph" in lines
        assert "Velocity pressure at mean roof height 23.6 psf" in lines
        await press(pilot, "enter")
        assert len(screen.list.rows) == folded

    drive(session, "numbers", job)


def test_formulas_are_shown_with_the_figures_put_in_and_hidden_again(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        await press(pilot, "enter")
        step = next(row for row in screen.list.rows if row.step is not None and row.step.worked)
        assert step.step is not None
        formula = f"{step.step.formula} = {step.step.worked}"
        assert formula not in words(step)
        await press(pilot, "f")
        assert formula in words(row_of(screen, "step", step.subject.name))
        await press(pilot, "f")
        assert formula not in words(row_of(screen, "step", step.subject.name))

    drive(session, "numbers", job, (120, 40))


def test_the_plan_shows_each_zone_and_the_chart_where_this_roof_stands(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        await press(pilot, "u")
        plan = words(row_of(screen, "drawing", "plan"))
        for zone, uplift in (("Zone 1'", "15.3 psf"), ("Zone 3", "47.9 psf")):
            assert zone in plan
            assert uplift in plan
        assert "160 ft" in plan
        assert "92 ft" in plan
        assert "this roof" in words(row_of(screen, "drawing", "chart"))

    drive(session, "numbers", job)


def test_an_input_leads_to_its_question_and_a_value_to_the_clauses_that_read_it(
    session: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        await press(pilot, "enter")
        put_cursor(screen, "from question", "wind_speed")
        await press(pilot, "enter")
        assert isinstance(app.screen, RoofScreen)
        assert app.screen.question == "wind_speed"
        await press(pilot, "f4")
        put_cursor(screen, "value", "computed_pressures")
        await rested(pilot)
        assert lead(screen.strip, "clause").id == "computed-pressure-table"
        await press(pilot, "enter")
        row = document(app).list.row
        assert row is not None
        assert row.clause == "computed-pressure-table"

    drive(session, "numbers", job)


def test_a_lead_is_followed_by_its_letter_and_by_a_click(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        await press(pilot, "enter")
        put_cursor(screen, "value", "computed_pressures")
        await rested(pilot)
        wanted = lead(screen.strip, "number", "attachment")
        await press(pilot, wanted.key)
        assert screen.list.row == row_of(screen, "calculation", "attachment")
        put_cursor(screen, "from question", "seam")
        await rested(pilot)
        await click_lead(pilot, screen.strip, lead(screen.strip, "question"))
        assert isinstance(app.screen, RoofScreen)
        assert app.screen.question == "seam"

    drive(session, "numbers", job, (120, 40))


def test_no_letter_that_leads_is_a_key_of_the_screen() -> None:
    keys = {key for binding in NumbersScreen.BINDINGS for key in binding.key.split(",")}  # type: ignore[union-attr]
    assert not keys & set(LEAD_KEYS)


def test_what_the_last_answers_moved_is_marked_with_what_it_was(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        await press(pilot, "u")
        assert not [line for line in all_lines(screen.list) if " = " in line[:6]]
        app.answer("panel_run", "30 ft")
        await rested(pilot)
        moved = words(row_of(screen, "value", "panel_movement"))
        assert moved.startswith("= Movement at the free end")
        assert "(was 11/16 in)" in moved
        assert " = " in words(row_of(screen, "calculation", "movement"))
        assert " = " not in words(row_of(screen, "calculation", "insulation"))
        put_cursor(screen, "calculation", "wind")
        await press(pilot, "m")
        assert screen.list.row is not None
        assert screen.list.row.subject.calculation == "movement"

    drive(session, "numbers", job)


def test_answers_given_on_another_screen_are_marked_when_one_comes_back(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await press(pilot, "f4")
        await press(pilot, "f1")
        app.answer("panel_run", "30 ft")
        await rested(pilot)
        await press(pilot, "f4")
        assert " = " in words(row_of(numbers(app), "calculation", "movement"))

    drive(session, "roof", job)


def test_answers_not_saved_are_marked_when_the_screen_is_first_shown(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        app.answer("panel_run", "30 ft")
        await press(pilot, "f4")
        assert " = " in words(row_of(numbers(app), "calculation", "movement"))
        assert " = " not in words(row_of(numbers(app), "calculation", "insulation"))

    drive(session, "roof", job)


def test_undo_marks_the_figure_that_it_moves_back(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        app.go_to_number("movement")
        app.answer("panel_run", "30 ft")
        await rested(pilot)
        was = words(row_of(screen, "value", "panel_movement"))
        await press(pilot, "ctrl+z")
        now = words(row_of(screen, "value", "panel_movement"))
        assert "11/16 in (was" in now
        assert now != was

    drive(session, "numbers", job)


def test_what_is_open_names_the_answers_it_waits_on_and_leads_to_them(new: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        put_cursor(screen, "calculation", "movement")
        await rested(pilot)
        assert "o Thermal movement" in words(row_of(screen, "calculation", "movement"))
        waits = shown_results(new.engine.scope)[2].settles
        assert {name for name, _ in waits} == {
            each.id for each in screen.strip.leads if each.kind == "question"
        }
        wanted = lead(screen.strip, "question")
        await press(pilot, wanted.key)
        assert isinstance(app.screen, RoofScreen)
        assert app.screen.question == wanted.id

    drive(new, "numbers", job, (120, 40))


def test_a_figure_outside_its_method_says_why_and_leads_to_what_settles_it(
    session: Session,
) -> None:
    session.answer("mean_roof_height", "90 ft")
    shown = next(s for s in shown_results(session.engine.scope) if s.state == "refused")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        name = shown.result.calculation.id
        put_cursor(screen, "calculation", name)
        await rested(pilot)
        assert "! " in words(row_of(screen, "calculation", name))
        assert "outside its method" in words(row_of(screen, "calculation", name))
        assert shown.result.refused.lower().rstrip(".") in said(screen.strip).lower()
        assert lead(screen.strip, "question").id == shown.result.calculation.settled_by

    drive(session, "numbers", job, (120, 40))


def test_the_line_under_the_cursor_stays_there_when_an_answer_changes_the_figures(
    session: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        await press(pilot, "u")
        put_cursor(screen, "value", "fixed_point_load")
        await rested(pilot)
        y = next(n for n, line in enumerate(seen(screen.list)) if line.startswith("▸"))
        app.answer("panel_run", "30 ft")
        await rested(pilot)
        assert screen.list.row == row_of(screen, "value", "fixed_point_load")
        assert seen(screen.list)[y].startswith("▸")

    drive(session, "numbers", job)


def test_tables_of_the_brief_are_listed_and_enter_opens_their_rows(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        assert "Uplift test records 3 rows" in words(row_of(screen, "table", "test_records"))
        put_cursor(screen, "table", "test_records")
        await press(pilot, "enter")
        assert records(app).rows.question.id == "test_records"
        await press(pilot, "escape")
        put_cursor(numbers(app), "calculation", "wind")
        await press(pilot, "r")
        assert records(app).rows.question.id == "test_records"

    drive(session, "numbers", job)


def test_a_double_click_unfolds_a_calculation(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = numbers(app)
        place = list(screen.list.rows).index(row_of(screen, "calculation", "insulation"))
        await click_row(pilot, screen.list, place, times=2)
        assert row_of(screen, "value", "computed_r")

    drive(session, "numbers", job)


def test_without_unicode_every_sign_is_ascii(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SPECGEN_ASCII", "1")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await press(pilot, "u", "f")
        assert all(line.isascii() for line in all_lines(numbers(app).list))

    drive(session, "numbers", job)

"""The rows of a table: typed, chosen, pasted, moved and taken back, each said to cover or not."""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest
from textual import events
from textual.pilot import Pilot

from specgen.journal import journal_of
from specgen.library import Library
from specgen.session import Session
from tests.support import EXAMPLES
from tests.tui.app_support import text_shown, told, type_words
from tests.tui.lines_support import SIZES, drive, press, rested, said, seen
from tests.tui.numbers_support import open_rows, records, typed_rows
from tui.app import RoofApp
from tui.cell_field import CellNote
from tui.numbers import NumbersScreen

FILLED = {
    "test": "UL 1897",
    "support": "steel deck with insulation above",
    "metal": "metallic-coated steel",
    "thickness": "24 ga",
    "width": "16 in",
    "seam": "double-lock seam",
    "clip": "two-piece, sliding",
    "fastener": "two screws",
    "spacing": "18 in",
    "ultimate": "110 psf",
    "factor": "2",
    "report": "Invented report 7",
}


def note(app: RoofApp) -> str:
    return str(app.screen.query_one(CellNote).content)


def column(app: RoofApp, name: str) -> int:
    return records(app).rows.ids.index(name)


async def to_cell(pilot: Pilot[None], app: RoofApp, row: int, name: str) -> None:
    records(app).grid.put_cursor(row, column(app, name))
    await rested(pilot)


@pytest.mark.parametrize("size", SIZES)
def test_every_cell_can_be_reached_and_is_seen_with_its_label_and_unit(
    session: Session, size: tuple[int, int]
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        for place, name in enumerate(screen.rows.ids):
            assert screen.grid.column == place
            lines = seen(screen.grid)
            label = session.library.questions["test_records"].columns[place].label
            assert all(word in " ".join(lines[:3]) for word in label.split())
            cell = screen.rows[0][name]
            assert cell in lines[screen.grid.head_height] or cell[:20] in text_shown(app)
            assert label in said(screen.strip)
            await pilot.press("right")
        assert screen.grid.row == 1
        await to_cell(pilot, app, 0, "ultimate")
        assert any("psf, kPa" in line for line in seen(screen.grid)[:3])

    drive(session, "numbers", job, size)


def test_a_cell_is_typed_and_is_an_answer_on_disk_at_once(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await open_rows(pilot, app)
        await to_cell(pilot, app, 1, "ultimate")
        await type_words(pilot, "96 psf")
        await press(pilot, "enter")
        assert typed_rows(session)[1]["ultimate"] == "96 psf"
        assert "96 psf" in journal_of(session.path).read_text()
        await press(pilot, "ctrl+z")
        assert typed_rows(session)[1]["ultimate"] == "90 psf"
        assert records(app).rows[1]["ultimate"] == "90 psf"
        await press(pilot, "ctrl+y")
        assert records(app).rows[1]["ultimate"] == "96 psf"

    drive(session, "numbers", job)


def test_what_a_cell_does_not_take_is_said_below_it_at_every_key(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        await to_cell(pilot, app, 0, "ultimate")
        await type_words(pilot, "66")
        await rested(pilot)
        assert note(app).startswith("! ")
        assert "has no unit; write it as 45 psf" in note(app)
        field, below = screen.field.region, screen.query_one(CellNote).region
        assert below.y == field.y + 1
        assert field.x == screen.grid.region.x + screen.grid.cell_region().x
        await press(pilot, "enter")
        assert screen.field.display
        assert typed_rows(session)[0]["ultimate"] == "66 psf"
        await type_words(pilot, " psf")
        await rested(pilot)
        assert not note(app).startswith("! ")
        await press(pilot, "escape")
        assert not screen.field.display
        assert not session.can_undo

    drive(session, "numbers", job)


def test_a_cell_of_a_finished_row_is_not_emptied(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        await to_cell(pilot, app, 0, "factor")
        await press(pilot, "enter", "backspace", "backspace", "backspace", "enter")
        assert screen.field.display
        assert "cannot be empty" in note(app)
        assert len(typed_rows(session)) == 3

    drive(session, "numbers", job)


def test_a_row_is_filled_by_keyboard_alone_and_is_in_the_brief_when_it_is_finished(
    new: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        for text in FILLED.values():
            assert new.typed_of("test_records") is None
            await type_words(pilot, text.replace(",", ""))
            await pilot.press("enter")
        await rested(pilot)
        assert len(typed_rows(new)) == 1
        row = typed_rows(new)[0]
        assert row == {**FILLED, "clip": "two-piece sliding"}
        assert screen.grid.row == 1
        await press(pilot, "ctrl+z")
        assert new.typed_of("test_records") is None

    drive(new, "numbers", job)


def test_space_puts_the_next_choice_into_a_cell_this_roofs_own_first(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        await press(pilot, "ctrl+n", "right", "space")
        assert screen.rows[1]["support"] == "steel deck with insulation above"
        await press(pilot, "space", "space")
        assert screen.rows[1]["support"] not in ("", "steel deck with insulation above")
        await to_cell(pilot, app, 0, "seam")
        before = typed_rows(session)[0]["seam"]
        await press(pilot, "space")
        assert typed_rows(session)[0]["seam"] != before

    drive(session, "numbers", job)


def test_up_and_down_in_the_field_go_through_the_choices_that_begin_so(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        await to_cell(pilot, app, 0, "seam")
        await press(pilot, "s", "i", "down")
        assert screen.field.value == "single-lock seam"
        await press(pilot, "up")
        assert screen.field.value == "snap-lock seam"
        await press(pilot, "enter")
        assert typed_rows(session)[0]["seam"] == "snap-lock seam"

    drive(session, "numbers", job)


def test_rows_are_copied_moved_and_deleted_each_as_one_answer(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        first, second, third = typed_rows(session)
        await press(pilot, "ctrl+d")
        assert typed_rows(session) == [first, first, second, third]
        assert screen.grid.row == 1
        await press(pilot, "ctrl+down")
        assert typed_rows(session) == [first, second, first, third]
        assert screen.grid.row == 2
        await press(pilot, "delete")
        assert typed_rows(session) == [first, second, third]
        for expected in ([first, second, first, third], [first, first, second, third],
                         [first, second, third]):  # fmt: skip
            await press(pilot, "ctrl+z")
            assert typed_rows(session) == expected
        assert session.saved

    drive(session, "numbers", job)


def test_a_table_without_rows_is_no_answer(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await open_rows(pilot, app)
        await press(pilot, "delete", "delete", "delete")
        assert session.typed_of("test_records") is None

    drive(session, "numbers", job)


def test_each_record_tells_whether_it_covers_this_roof_and_why_not(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        assert "3 rows, 3 cover this roof" in text_shown(app)
        assert "covers this roof." in said(screen.strip)
        assert "carries Zone 1', Zone 1, Zone 2" in said(screen.strip)
        await to_cell(pilot, app, 0, "seam")
        await type_words(pilot, "snap-lock")
        await press(pilot, "enter")
        signs = [line.split()[1] for line in seen(screen.grid)[screen.grid.head_height :][1:3]]
        assert signs == ["+", "+"]
        assert " 1 - " in seen(screen.grid)[screen.grid.head_height]
        assert "not this roof." in said(screen.strip)
        assert "Seam: the record has snap-lock" in said(screen.strip)
        assert "3 rows, 2 cover this roof" in text_shown(app)

    drive(session, "numbers", job)


def test_a_record_with_a_figure_outside_the_method_says_so_and_the_others_stand(
    session: Session,
) -> None:
    rows = typed_rows(session)
    rows[0]["factor"] = "9"
    session.answer("test_records", rows)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        assert "design_factor is 9; the limits are 1 to 5" in said(screen.strip)
        assert "3 rows, 2 cover this roof" in text_shown(app)

    drive(session, "numbers", job)


def test_before_the_roof_is_known_nothing_is_said_to_cover_it(new: Session) -> None:
    new.answer("test_records", [FILLED])

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        assert "not known before the support" in said(screen.strip)
        assert "cover" not in text_shown(app).splitlines()[2]

    drive(new, "numbers", job)


def test_rows_of_a_spreadsheet_are_pasted_as_one_answer(session: Session) -> None:
    pasted = "\n".join("\t".join({**FILLED, "report": f"R{n}"}.values()) for n in range(20))

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        screen.grid.put_cursor(3, 0)
        screen.grid.post_message(events.Paste(pasted))
        await rested(pilot)
        assert [row["report"] for row in typed_rows(session)[3:]] == [f"R{n}" for n in range(20)]
        await press(pilot, "ctrl+z")
        assert len(typed_rows(session)) == 3

    drive(session, "numbers", job)


def test_a_pasted_cell_that_is_not_taken_leaves_its_row_begun_and_is_told(
    session: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        screen.grid.put_cursor(3, 0)
        bad = "\t".join({**FILLED, "ultimate": "much"}.values())
        screen.grid.post_message(events.Paste(bad))
        await rested(pilot)
        assert len(typed_rows(session)) == 3
        assert " 4 ! " in seen(screen.grid)[screen.grid.head_height + 3]
        assert any("1 cell" in notice for notice in told(app))
        await to_cell(pilot, app, 3, "ultimate")
        await type_words(pilot, "99 psf")
        await press(pilot, "enter")
        assert typed_rows(session)[3]["ultimate"] == "99 psf"

    drive(session, "numbers", job)


def test_a_row_that_was_begun_is_there_when_one_comes_back(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        await press(pilot, "ctrl+n", "space", "f3")
        screen = await open_rows(pilot, app)
        assert len(screen.rows) == 4
        assert screen.rows[1]["test"]
        assert not screen.rows[1]["report"]
        assert len(typed_rows(session)) == 3
        screen.grid.put_cursor(1, 0)
        await press(pilot, "delete", "f3")
        assert len((await open_rows(pilot, app)).rows) == 3

    drive(session, "numbers", job)


def test_escape_goes_back_to_where_the_table_was_opened_and_shows_what_moved(
    session: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await open_rows(pilot, app)
        await press(pilot, "delete", "delete", "escape")
        assert isinstance(app.screen, NumbersScreen)
        heading = next(line for line in seen(app.screen.list) if "Attachment" in line)
        assert " =" in heading

    drive(session, "numbers", job)


def test_a_cell_is_chosen_by_a_click_and_opened_by_another(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        y = screen.grid.head_height + 1
        x = screen.grid.lead + len("UL 1897") + 4
        await pilot.click(screen.grid, offset=(x, y))
        await rested(pilot)
        assert (screen.grid.row, screen.grid.column) == (1, 1)
        await pilot.click(screen.grid, offset=(x, y))
        await rested(pilot)
        assert screen.field.display
        assert screen.field.value == "steel deck with insulation above"

    drive(session, "numbers", job)


def test_the_zones_of_a_table_are_those_that_have_pressures(session: Session) -> None:
    session.answer("design_responsibility", "pressures-given")
    session.answer("zone_pressures", [{"zone": "Field", "upward": "20 psf", "downward": "10 psf"}])
    session.answer("spacing_basis", "schedule")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app, "clip_schedule")
        await press(pilot, "space", "right", "2", "4", "space", "i", "n", "enter")
        assert typed_rows(session, "clip_schedule") == [{"zone": "Field", "spacing": "24 in"}]
        assert screen.grid.row == 1

    drive(session, "numbers", job)


def test_two_hundred_records_are_all_there_and_the_last_is_reached(session: Session) -> None:
    rows = [{**FILLED, "report": f"R{n}"} for n in range(200)]
    session.answer("test_records", rows)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        assert "200 rows, 200 cover this roof" in text_shown(app)
        screen.grid.put_cursor(199, column(app, "report"))
        await rested(pilot)
        assert any("R199" in line for line in seen(screen.grid))
        await type_words(pilot, "Q")
        await press(pilot, "enter")
        assert typed_rows(session)[199]["report"] == "Q"

    drive(session, "numbers", job)


def test_without_unicode_the_table_is_ascii(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SPECGEN_ASCII", "1")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        await press(pilot, "ctrl+n", "enter")
        assert all(line.isascii() for line in seen(screen.grid))
        assert note(app).isascii()

    drive(session, "numbers", job)


def test_what_was_entered_is_in_the_brief_after_it_is_saved(
    tmp_path: Path, library: Library
) -> None:
    path = tmp_path / "roof.yaml"
    path.write_text((EXAMPLES / "low-slope-library.yaml").read_text())
    session = Session(path, library)

    async def job() -> None:
        app = RoofApp(session, first="numbers")
        async with app.run_test(size=(80, 24)) as pilot:
            await open_rows(pilot, app)
            await press(pilot, "ctrl+d")
            await to_cell(pilot, app, 1, "report")
            await type_words(pilot, "Other 5")
            await press(pilot, "enter", "ctrl+s")

    asyncio.run(job())
    session.close()
    again = Session(path, library)
    assert [row["report"] for row in typed_rows(again)][1] == "Other 5"
    again.close()


def test_no_key_is_lost_however_fast_one_types(new: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await open_rows(pilot, app)
        assert app._driver is not None
        for key in ("U", "L", "enter", "s", "t", "e", "down", "enter", "z", "i", "n", "c", "tab"):
            event = events.Key(key, key if len(key) == 1 else None)
            event.set_sender(app)
            app._driver.send_message(event)
        await rested(pilot)
        row = screen.rows[0]
        assert (row["test"], row["support"], row["metal"]) == ("UL", "steel deck", "zinc")
        assert screen.grid.column == column(app, "thickness")

    drive(new, "numbers", job)

"""What the tests of the numbers and of the rows of a table share."""

from __future__ import annotations

from typing import Any

from textual.pilot import Pilot

from specgen.session import Session
from tests.tui.lines_support import rested
from tui.app import RoofApp
from tui.number_lines import NumberRow
from tui.numbers import NumbersScreen
from tui.record_rows import Row
from tui.records import RecordsScreen


def numbers(app: RoofApp) -> NumbersScreen:
    assert isinstance(app.screen, NumbersScreen)
    return app.screen


def records(app: RoofApp) -> RecordsScreen:
    assert isinstance(app.screen, RecordsScreen)
    return app.screen


async def open_rows(pilot: Pilot[None], app: RoofApp, table: str = "test_records") -> RecordsScreen:
    app.edit_table(table)
    await rested(pilot)
    return records(app)


def row_of(screen: NumbersScreen, kind: str, name: str) -> NumberRow:
    """The row about a question, value or step; of a calculation, by its id."""
    return next(
        row
        for row in screen.list.rows
        if row.subject.kind == kind and name in (row.subject.name, row.subject.calculation)
    )


def put_cursor(screen: NumbersScreen, kind: str, name: str) -> None:
    """Put the cursor on such a row."""
    screen.list.put_cursor(list(screen.list.rows).index(row_of(screen, kind, name)))


def words(row: NumberRow) -> str:
    """All that a row says."""
    return " ".join("".join(piece.text for line in row.lines for piece in line).split())


def typed_rows(session: Session, table: str = "test_records") -> list[Row]:
    """The rows of a table as the brief has them."""
    rows: Any = session.typed_of(table)
    return [dict(row) for row in rows or []]

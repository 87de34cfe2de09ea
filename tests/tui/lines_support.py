"""What the tests of the document and findings screens share: driving them, what they show."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from typing import Any

from textual.pilot import Pilot

from specgen.session import Session
from tui.app import RoofApp
from tui.document import DocumentScreen
from tui.document_rows import Row
from tui.findings import FindingsScreen
from tui.lead_strip import Lead, LeadStrip
from tui.line_list import LineList
from tui.lines import Lines

Job = Callable[[Pilot[None], RoofApp], Awaitable[None]]
SIZES = [(60, 20), (80, 24), (120, 40)]


def drive(session: Session, place: str, job: Job, size: tuple[int, int] = (80, 24)) -> None:
    """Run the app on a session, one of its screens first, and do a job."""

    async def run() -> None:
        app = RoofApp(session, first=place)
        async with app.run_test(size=size) as pilot:
            await rested(pilot)
            await job(pilot, app)

    asyncio.run(run())


async def rested(pilot: Pilot[None]) -> None:
    """Wait until the screen has caught up with the brief, and with what it does beside the keys."""
    await pilot.pause(0.05)
    await pilot.app.workers.wait_for_complete()
    await pilot.pause(0.15)


async def press(pilot: Pilot[None], *keys: str) -> None:
    await pilot.press(*keys)
    await rested(pilot)


def document(app: RoofApp) -> DocumentScreen:
    assert isinstance(app.screen, DocumentScreen)
    return app.screen


def findings(app: RoofApp) -> FindingsScreen:
    assert isinstance(app.screen, FindingsScreen)
    return app.screen


def paragraph(app: RoofApp) -> Row:
    """The row of the document that the cursor is on."""
    row = document(app).list.row
    assert row is not None
    return row


def seen(widget: Lines) -> list[str]:
    """The lines of a widget that are on the screen."""
    return [widget.render_line(y).text.rstrip() for y in range(widget.size.height)]


def said(strip: LeadStrip) -> str:
    """All that a strip tells, on one line."""
    lines = ("".join(piece.text for piece in line) for line in strip._lines)
    return " ".join(" ".join(lines).split())


def all_lines(widget: LineList[Any]) -> list[str]:
    """Every line of a list, shown or not."""
    return ["".join(piece.text for piece in line) for row in widget._lines for line in row]


def lead(strip: LeadStrip, kind: str, name: str = "") -> Lead:
    """The first lead of a kind; with a name, the one that leads there."""
    return next(each for each in strip.leads if each.kind == kind and name in ("", each.id))


async def click_lead(pilot: Pilot[None], strip: LeadStrip, wanted: Lead) -> None:
    """Click a lead where it is shown."""
    index = strip.leads.index(wanted)
    for line, pieces in enumerate(strip._lines):
        at = 0
        for piece in pieces:
            if piece.lead == index:
                # One line down: the strip has a border above.
                await pilot.click(strip, offset=(at + 1, line - strip.scroll_offset.y + 1))
                await rested(pilot)
                return
            at += len(piece.text)
    raise AssertionError(f"{wanted} is not shown")


async def click_row(pilot: Pilot[None], rows: LineList[Any], index: int, times: int = 1) -> None:
    """Click a row of a list where it is shown."""
    line = rows._tops[index] + len(rows._lines[index]) - 1 - rows.scroll_offset.y
    await pilot.click(rows, offset=(10, line), times=times)
    await rested(pilot)

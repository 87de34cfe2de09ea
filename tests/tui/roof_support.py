"""What the tests of the roof screen share: a session, driving the app, what is shown."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable

from textual.pilot import Pilot

from specgen.session import Session
from tui.app import RoofApp
from tui.cursor_list import CursorList
from tui.question_card import QuestionCard
from tui.roof import RoofScreen
from tui.roof_drawing import RoofDrawing

Job = Callable[[Pilot[None], RoofScreen], Awaitable[None]]


def drive(session: Session, job: Job, size: tuple[int, int] = (80, 24)) -> None:
    """Run the app on a session and do a job on its roof screen."""

    async def run() -> None:
        app = RoofApp(session)
        async with app.run_test(size=size) as pilot:
            await settled(pilot)
            assert isinstance(app.screen, RoofScreen)
            await job(pilot, app.screen)

    asyncio.run(run())


async def settled(pilot: Pilot[None]) -> None:
    """Wait until every answer to the question on the screen was tried."""
    screen = pilot.app.screen
    for _ in range(200):
        await pilot.pause(0.02)
        trials = screen.query_one(QuestionCard).choices.trials
        if all(trial.change is not None or trial.raw is None for trial in trials):
            break
    await pilot.pause()


def shown(screen: RoofScreen, kind: type[CursorList] | type[RoofDrawing]) -> list[str]:
    """The lines of a widget drawn by the line API."""
    widget = screen.query_one(kind)
    return [widget.render_line(y).text.rstrip() for y in range(widget.size.height)]


def choices_shown(screen: RoofScreen) -> list[str]:
    choices = screen.query_one(QuestionCard).choices
    return [choices.render_line(y).text.rstrip() for y in range(choices.size.height)]

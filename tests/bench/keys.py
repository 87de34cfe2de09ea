"""Keys pressed in the app, each timed from the press to the screen that follows from it."""

from __future__ import annotations

import asyncio
import time
from asyncio.events import Handle
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from rich.console import RenderableType
from textual import events
from textual._compositor import CompositorUpdate
from textual.screen import Screen

from specgen.session import Session
from tui.app import RoofApp

QUIET_SECONDS = 0.12
LONGEST_SECONDS = 3.0
CHARACTERS = {"space": " "}


@dataclass(frozen=True, slots=True)
class Press:
    """One key: milliseconds to the first screen that follows from it, and the longest for which
    nothing else could be done, until all that it causes is shown."""

    key: str
    painted: float
    blocked: float


class TimedApp(RoofApp):
    """The app; it notes when each screen is ready to be written, and how long its making took."""

    def __init__(self, session: Session, first: str) -> None:
        super().__init__(session, first=first)
        self.painted: list[float] = []

    def _display(self, screen: Screen[object], renderable: RenderableType | None) -> None:
        # Without a terminal nothing is written; the text for one is made all the same.
        if isinstance(renderable, CompositorUpdate):
            renderable.render_segments(self.console)
            self.painted.append(time.perf_counter())


@contextmanager
def longest_block() -> Iterator[list[float]]:
    """Gathers, in seconds, how long the event loop was held by each piece of work."""
    held: list[float] = []
    run = Handle._run

    def timed(handle: Handle) -> None:
        start = time.perf_counter()
        run(handle)
        held.append(time.perf_counter() - start)

    Handle._run = timed  # type: ignore[method-assign, assignment]
    try:
        yield held
    finally:
        Handle._run = run  # type: ignore[method-assign]


def press_all(
    session: Session,
    first: str,
    keys: Sequence[str],
    size: tuple[int, int] = (120, 40),
    before: Callable[[RoofApp], object] = lambda app: None,
) -> list[Press]:
    """Press keys on a screen, one when all that the last one caused is shown."""

    async def run() -> list[Press]:
        app = TimedApp(session, first)
        async with app.run_test(size=size) as pilot:
            await pilot.pause(0.3)
            before(app)
            await _quiet(app)
            return [await _press(app, key) for key in keys]

    return asyncio.run(run())


async def _press(app: TimedApp, key: str) -> Press:
    character = CHARACTERS.get(key, key if len(key) == 1 else None)
    event = events.Key(key, character)
    event.set_sender(app)
    assert app._driver is not None
    with longest_block() as held:
        app.painted.clear()
        start = time.perf_counter()
        app._driver.send_message(event)
        await _quiet(app)
    # A key that changes nothing on the screen, such as down on the last line, paints nothing.
    painted = app.painted[0] - start if app.painted else 0.0
    return Press(key, painted * 1000, max(held, default=0.0) * 1000)


async def _quiet(app: TimedApp) -> None:
    """Wait until nothing has been painted for a while."""
    end = time.perf_counter() + LONGEST_SECONDS
    while (now := time.perf_counter()) < end:
        last = app.painted[-1] if app.painted else now
        if app.painted and now - last > QUIET_SECONDS:
            return
        if not app.painted and now > end - LONGEST_SECONDS + QUIET_SECONDS * 2:
            return
        await asyncio.sleep(0.01)

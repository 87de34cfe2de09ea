"""What the tests of the whole app share: driving it, what it shows, answering what is asked."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from typing import Any

from textual.pilot import Pilot

from specgen.session import Session
from tui.app import RoofApp
from tui.writing import OUTPUTS

Job = Callable[[Pilot[None], RoofApp], Awaitable[None]]


def drive_app(given: Session | RoofApp, job: Job, size: tuple[int, int] = (80, 24)) -> None:
    """Run the app, on a session or as it was made, and do a job in it."""
    app = given if isinstance(given, RoofApp) else RoofApp(given)

    async def run() -> None:
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            await job(pilot, app)

    asyncio.run(run())


def lines_shown(app: RoofApp) -> list[str]:
    """The lines on the terminal, as somebody reads them."""
    return [
        "".join(segment.text for segment in strip).rstrip()
        for strip in app.screen._compositor.render_strips()
    ]


def text_shown(app: RoofApp) -> str:
    return "\n".join(lines_shown(app))


async def come_to(pilot: Pilot[None], kind: type[Any]) -> None:
    """Wait until a screen of a kind is shown."""
    for _ in range(100):
        if isinstance(pilot.app.screen, kind):
            break
        await pilot.pause(0.02)
    assert isinstance(pilot.app.screen, kind), f"{pilot.app.screen} is shown"
    await pilot.pause()


async def wait_until(pilot: Pilot[None], done: Callable[[], bool]) -> None:
    """Wait until something is so, five seconds at most."""
    for _ in range(250):
        if done():
            break
        await pilot.pause(0.02)
    assert done()
    await pilot.pause()


async def type_words(pilot: Pilot[None], words: str) -> None:
    """Type a text, key by key."""
    names = {" ": "space", "/": "slash", ":": "colon", ".": "full_stop", "-": "minus"}
    await pilot.press(*(names.get(letter, letter) for letter in words))


def output_number(name: str) -> int:
    """The place of an output in the list of the write screen."""
    return next(index for index, output in enumerate(OUTPUTS) if output.id == name)


def told(app: RoofApp) -> list[str]:
    """What was told at the edge of the screen and still stands there."""
    return [notice.message for notice in app._notifications]

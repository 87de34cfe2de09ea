"""The screen that DEVELOPERS.md adds, run as it stands there."""

from __future__ import annotations

import asyncio
import re

from textual.widgets import Static

from specgen.session import Session
from tests.support import ROOT
from tui.app import RoofApp
from tui.frame import Frame

DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def _screen() -> type[Frame]:
    (code,) = re.findall(r"```python\n(class CountScreen.*?)```", DEVELOPERS, re.DOTALL)
    names: dict[str, type[Frame]] = {}
    exec(code, {"Frame": Frame, "Static": Static}, names)
    return names["CountScreen"]


def test_the_screen_of_the_examples_follows_the_answers(session: Session) -> None:
    async def run() -> None:
        app = RoofApp(session)
        async with app.run_test(size=(80, 24)) as pilot:
            screen = _screen()()
            await app.push_screen(screen)
            await pilot.pause()

            def told() -> str:
                return str(screen.query_one("#body Static", Static).render())

            def standing() -> int:
                standings = session.engine.standings.values()
                return sum(1 for each in standings if each.stands is True)

            before = standing()
            assert told() == f"{before} clauses stand"
            app.answer("walkways", "no")
            await pilot.pause()
            assert standing() < before
            assert told() == f"{standing()} clauses stand"

    asyncio.run(run())

"""A terminal that is too small, without color or without Unicode: said or drawn otherwise."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot

from specgen.session import Session
from tests.tui.app_support import come_to, drive_app, lines_shown, text_shown
from tui.app import RoofApp
from tui.finder import Finder
from tui.head import PLACES
from tui.help import Help

KEYS = [f"f{number}" for number in range(1, len(PLACES) + 1)]
OVER = {"f9": Help, "ctrl+p": Finder, "ctrl+f": Finder}


@pytest.mark.parametrize("size", [(59, 24), (80, 19), (20, 5), (3, 2), (1, 1)])
def test_a_terminal_that_is_too_small_says_so_on_every_screen_and_takes_keys(
    session: Session, size: tuple[int, int]
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        for key in KEYS:
            await pilot.press(key, "down", "enter", "escape")
            await pilot.pause()
            if size[0] >= 40:
                assert f"This terminal is {size[0]} x {size[1]}." in text_shown(app)
                assert "specgen needs 60 x 20." in text_shown(app)

    drive_app(session, job, size=size)


def test_the_screen_is_back_when_the_terminal_is_made_larger(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        assert "This terminal is" in text_shown(app)
        await pilot.resize_terminal(80, 24)
        await pilot.pause()
        assert "F1 Roof" in text_shown(app)
        await pilot.resize_terminal(40, 10)
        await pilot.pause()
        assert "F1 Roof" not in text_shown(app)

    drive_app(session, job, size=(40, 10))


@pytest.mark.parametrize("size", [(60, 20), (80, 24), (120, 40)])
def test_without_unicode_every_screen_and_dialog_is_ascii(
    session: Session, monkeypatch: pytest.MonkeyPatch, size: tuple[int, int]
) -> None:
    monkeypatch.setenv("SPECGEN_ASCII", "1")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        session.answer("seam", "snap-lock")
        for key in KEYS:
            await pilot.press(key)
            await pilot.pause(0.1)
            assert _strange(app) == [], key
            for over, kind in OVER.items():
                await pilot.press(over)
                await come_to(pilot, kind)
                if kind is Finder:
                    await pilot.press("s", "e", "a")
                    await pilot.pause()
                assert _strange(app) == [], over
                await pilot.press("escape")
                await pilot.pause()
        await pilot.press("ctrl+q")
        await pilot.pause()
        assert _strange(app) == []

    drive_app(session, job, size=size)


def _strange(app: RoofApp) -> list[str]:
    """The lines that hold what this terminal cannot show."""
    return [line for line in lines_shown(app) if not line.isascii()]


def test_without_color_where_one_is_and_the_cursor_are_told_by_signs(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        assert app.no_color
        for number, (key, title) in enumerate(zip(KEYS, PLACES.values(), strict=True), 1):
            await pilot.press(key)
            await pilot.pause(0.1)
            assert f"▸F{number} {title}" in lines_shown(app)[1]
        await pilot.press("f5")
        await pilot.pause()
        assert sum("▸" in line for line in lines_shown(app)) == 2
        for sign in "!?~.":
            assert f"{sign} " in lines_shown(app)[0]

    drive_app(session, job)

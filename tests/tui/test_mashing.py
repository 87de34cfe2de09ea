"""Keys pressed at random, thousands of them, on every screen: nothing breaks, nothing is lost."""

from __future__ import annotations

import random
import shutil
import string
from collections.abc import Iterator
from pathlib import Path

import pytest
from textual import events
from textual.pilot import Pilot

from specgen.brief import read_brief
from specgen.journal import changes_in, journal_of
from specgen.library import Library
from specgen.session import Session
from tests.support import EXAMPLES
from tests.tui.app_support import drive_app
from tui.app import RoofApp
from tui.head import PLACES

KEYS_EACH = 200
KEYS_BETWEEN_LOOKS = 40
MOVES = (
    "up", "down", "down", "left", "right", "pageup", "pagedown", "home", "end", "tab", "shift+tab",
)  # fmt: skip
DOES = (
    "enter", "enter", "enter", "space", "escape", "escape", "delete", "backspace", "ctrl+z",
    "ctrl+y", "ctrl+s", "ctrl+p", "ctrl+f", "ctrl+t", "ctrl+r", "ctrl+o", "ctrl+l", "f9",
)  # fmt: skip
PLACE_KEYS = tuple(f"f{number}" for number in range(1, len(PLACES) + 1))
# Characters, among them those that a line of a brief must not be broken by.
CHARACTERS = string.ascii_letters + string.digits + "#:'\"[]{}-,/?!\\&*%@|> éß²漢"


def _keys(chance: random.Random, count: int) -> Iterator[events.Key]:
    for _ in range(count):
        kind = chance.random()
        if kind < 0.4:
            yield events.Key(chance.choice(MOVES), None)
        elif kind < 0.65:
            yield events.Key(chance.choice(DOES), None)
        elif kind < 0.7:
            yield events.Key(chance.choice(PLACE_KEYS), None)
        else:
            character = chance.choice(CHARACTERS)
            name = "question_mark" if character == "?" else character
            yield events.Key("space" if character == " " else name, character)


def _assert_kept(session: Session) -> None:
    """What the brief and its journal hold together is what the screens hold."""
    path = session.path
    saved = dict(read_brief(path, session.library).typed) if path.exists() else {}
    for name, raw in changes_in(journal_of(path)).items():
        if name in session.library.questions:
            saved[name] = raw
    assert {name: raw for name, raw in saved.items() if raw is not None} == dict(session.typed)


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("brief", ["low-slope-library", ""], ids=["answered", "new"])
def test_random_keys_never_break_a_screen_and_never_lose_an_answer(
    place: str,
    brief: str,
    library: Library,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    path = Path("roof.yaml")
    if brief:
        shutil.copy(EXAMPLES / f"{brief}.yaml", path)
    session = Session(path, library)
    chance = random.Random(f"{place} {brief}")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        for pressed, key in enumerate(_keys(chance, KEYS_EACH)):
            app.post_message(key)
            if pressed % KEYS_BETWEEN_LOOKS == 0:
                await pilot.pause()
                _assert_kept(session)
                for out in (*["escape"] * 3, PLACE_KEYS[list(PLACES).index(place)]):
                    app.post_message(events.Key(out, None))
        await pilot.pause()
        _assert_kept(session)

    size = (80, 24) if brief else (120, 40)
    drive_app(RoofApp(session, first=place), job, size=size)
    session.save()
    assert dict(read_brief(path, library).typed) == dict(session.typed)
    session.close()


def test_random_keys_on_the_first_page_open_a_brief_or_none_and_break_nothing(
    library: Library, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    shutil.copy(EXAMPLES / "low-slope-library.yaml", tmp_path / "branch.yaml")
    before = (tmp_path / "branch.yaml").read_bytes()
    chance = random.Random(5)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        for key in _keys(chance, 300):
            if app.is_open:
                break
            app.post_message(key)
            await pilot.pause()
        if app.is_open:
            app.session.close()

    drive_app(RoofApp(library=library), job)
    assert (tmp_path / "branch.yaml").read_bytes() == before

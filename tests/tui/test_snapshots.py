"""What each screen looks like, at two sizes, in the dark and in the light.

A picture that changes for a reason is drawn anew with ``pytest --snapshot-update``, and looked at.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from specgen.library import Library
from specgen.session import Session
from tests.support import EXAMPLES
from tui.app import RoofApp
from tui.head import PLACES
from tui.looks import LOOKS
from tui.question_card import QuestionCard
from tui.study import StudyScreen

pytest.importorskip("pytest_textual_snapshot")

SIZES = [(80, 24), (120, 40)]
LOOK_NAMES = [look.name for look in LOOKS]
KEYS = {name: f"f{number}" for number, name in enumerate(PLACES, 1)}
_FOREIGN = re.compile(r"@font-face \{.*?\}|<!--.*?-->", re.DOTALL)
Compare = Callable[..., bool]


class Pictured(RoofApp):
    """The app with pictures that carry no fonts from elsewhere and need no clock."""

    def export_screenshot(self, **options: Any) -> str:
        return _FOREIGN.sub("", super().export_screenshot(**options))


def _before(look: str, *keys: str) -> Callable[[Pilot[None]], Awaitable[None]]:
    """Put on a look, press keys, and wait until nothing moves any more."""

    async def run(pilot: Pilot[None]) -> None:
        pilot.app.theme = look
        for key in keys:
            await pilot.press(key)
            await _at_rest(pilot)
        await _at_rest(pilot)

    return run


async def _at_rest(pilot: Pilot[None]) -> None:
    await pilot.pause()
    await pilot.app.workers.wait_for_complete()
    for _ in range(100):
        await pilot.pause(0.05)
        cards = pilot.app.screen.query(QuestionCard)
        trials = [trial for card in cards for trial in card.choices.trials]
        screen = pilot.app.screen
        if isinstance(screen, StudyScreen) and screen.working:
            continue
        if all(trial.change is not None or trial.raw is None for trial in trials):
            break
    for field in pilot.app.screen.query(Input):
        field.cursor_blink = False
    await pilot.pause(0.1)


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A brief with a conflict and open questions, by a name without a folder."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    text = (EXAMPLES / "low-slope-library.yaml").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith(("vapor_retarder:",))]
    path = Path("branch.yaml")
    path.write_text("\n".join(lines).replace("\nseam: double-lock", "\nseam: snap-lock") + "\n")
    return path


@pytest.mark.parametrize("look", LOOK_NAMES)
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("place", PLACES)
def test_screen(
    snap_compare: Compare,
    library: Library,
    path: Path,
    place: str,
    size: tuple[int, int],
    look: str,
) -> None:
    session = Session(path, library)
    app = Pictured(session)

    async def before(pilot: Pilot[None]) -> None:
        await _before(look, KEYS[place])(pilot)
        assert app.screen is app.frame_of(place)

    assert snap_compare(app, terminal_size=size, run_before=before)
    session.close()


@pytest.mark.parametrize("look", LOOK_NAMES)
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_choices_and_what_each_would_cause(
    snap_compare: Compare, library: Library, path: Path, size: tuple[int, int], look: str
) -> None:
    session = Session(path, library)
    app = Pictured(session)

    async def before(pilot: Pilot[None]) -> None:
        app.go_to_question("seam")
        await _before(look, "down")(pilot)

    assert snap_compare(app, terminal_size=size, run_before=before)
    session.close()


OVER = {
    "help": ("f9",),
    "search": ("ctrl+f", *"sealant"),
    "actions": ("ctrl+p", *"find"),
    "leaving": ("space", "ctrl+q"),
}


@pytest.mark.parametrize("keys", OVER.values(), ids=OVER)
def test_what_stands_over_a_screen(
    snap_compare: Compare, library: Library, path: Path, keys: tuple[str, ...]
) -> None:
    session = Session(path, library)
    app = Pictured(session)

    async def before(pilot: Pilot[None]) -> None:
        app.go_to_question("seam")
        await _before(LOOK_NAMES[0], "down", *keys)(pilot)

    assert snap_compare(app, terminal_size=SIZES[0], run_before=before)
    session.close()


STUDIES = {
    "question": ("f6", "r"),
    "answered": ("f6", "r", "1"),
    "exercise": ("f6", "3", "p"),
    "kinds": ("f6", "3", "p", "down", "m", *"standard"),
    "graded": ("f6", "3", "p", "down", "m", "enter", "g", "g"),
    "score": ("f6", "3", "p", "g", "g", "escape"),
}


@pytest.mark.parametrize("look", LOOK_NAMES)
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("keys", STUDIES.values(), ids=STUDIES)
def test_studying(
    snap_compare: Compare,
    library: Library,
    path: Path,
    monkeypatch: pytest.MonkeyPatch,
    keys: tuple[str, ...],
    size: tuple[int, int],
    look: str,
) -> None:
    monkeypatch.setattr(StudyScreen, "next_seed", lambda self: 11)
    session = Session(path, library)
    app = Pictured(session)
    assert snap_compare(app, terminal_size=size, run_before=_before(look, *keys))
    session.close()


@pytest.mark.parametrize("look", LOOK_NAMES)
def test_first_page(snap_compare: Compare, library: Library, path: Path, look: str) -> None:
    shutil.copy(EXAMPLES / "snow-country-lodge.yaml", "lodge.yaml")
    left = Session(Path("barn.yaml"), library)
    left.answer("project_name", "Cold Spring Barn")
    left.close()
    app = Pictured(library=library)
    assert snap_compare(app, terminal_size=SIZES[0], run_before=_before(look))

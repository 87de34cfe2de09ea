"""Nothing is lost: saving, leaving, what was left behind, and two versions of one brief."""

from __future__ import annotations

import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from specgen.journal import journal_of
from specgen.library import Library
from specgen.session import Session
from tests.support import EXAMPLES, ROOT
from tests.tui.app_support import come_to, drive_app, lines_shown, text_shown, told, wait_until
from tui.app import RoofApp
from tui.dialog import AskLine, Dialog
from tui.first_page import FirstPage
from tui.keeping import free_name
from tui.roof import RoofScreen

COMMENT = "# changed by an editor\n"


def _leaves(app: RoofApp) -> bool:
    return app._exit


def _edit(path: Path, *, seam: str = "double-lock") -> str:
    """Change a brief as an editor would; its new text."""
    text = COMMENT + path.read_text().replace("\nseam: double-lock", f"\nseam: {seam}")
    path.write_text(text)
    return text


# -- saving and leaving ------------------------------------------------------------------------


def test_ctrl_s_writes_the_brief_with_its_comments_and_the_head_says_saved(
    session: Session,
) -> None:
    before = session.path.read_text()

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        app.answer("seam", "snap-lock")
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert session.path.read_text() == before.replace("\nseam: double-", "\nseam: snap-")
        assert " saved  " in lines_shown(app)[0]

    drive_app(session, job)


def test_leaving_asks_nothing_when_everything_is_saved(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await pilot.press("ctrl+q")
        assert _leaves(app)

    drive_app(session, job)


@pytest.mark.parametrize(
    ("key", "leaves", "saved"), [("s", True, True), ("k", True, False), ("b", False, False)]
)
def test_leaving_with_unsaved_answers_saves_keeps_or_stays(
    session: Session, key: str, leaves: bool, saved: bool
) -> None:
    before = session.path.read_text()

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        app.answer("seam", "snap-lock")
        await pilot.press("ctrl+q")
        await come_to(pilot, Dialog)
        assert "seam" in text_shown(app)
        assert "snap-lock" in text_shown(app)
        await pilot.press(key)
        await pilot.pause()
        assert _leaves(app) == leaves
        assert (session.path.read_text() != before) == saved
        assert ("snap-lock" in journal_of(session.path).read_text()) == (not saved)

    drive_app(session, job)


@pytest.mark.parametrize("keys", [("escape",), ("down", "down", "enter")])
def test_the_dialog_is_used_by_arrows_and_left_by_escape(
    session: Session, keys: tuple[str, ...]
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        app.answer("seam", "snap-lock")
        await pilot.press("ctrl+q")
        await come_to(pilot, Dialog)
        await pilot.press(*keys)
        await come_to(pilot, RoofScreen)
        assert not _leaves(app)

    drive_app(session, job)


def test_a_brief_that_cannot_be_written_says_so_and_keeps_the_answers(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        app.answer("project_name", "A new name")
        session.path.unlink()
        session.path.mkdir()
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert not _leaves(app)
        assert session.typed["project_name"] == "A new name"
        assert "A new name" in journal_of(session.path).read_text()

    drive_app(session, job)


# -- what was left behind ----------------------------------------------------------------------


@pytest.fixture
def killed(tmp_path: Path) -> Path:
    """A brief whose session was killed with two answers not saved."""
    path = tmp_path / "roof.yaml"
    shutil.copy(EXAMPLES / "low-slope-library.yaml", path)
    code = (
        "import os, signal, sys; from pathlib import Path;"
        "from specgen.loading import load_library; from specgen.session import Session;"
        "session = Session(Path(sys.argv[1]), load_library());"
        "session.answer('seam', 'snap-lock'); session.answer('project_name', 'Left Hall');"
        "os.kill(os.getpid(), signal.SIGKILL)"
    )
    run = [sys.executable, "-c", code, str(path)]
    assert subprocess.run(run, cwd=ROOT, check=False).returncode == -signal.SIGKILL
    return path


@pytest.mark.parametrize(("key", "seam"), [("t", "snap-lock"), ("d", "double-lock")])
def test_after_a_kill_the_answers_are_shown_and_taken_up_or_dropped(
    killed: Path, library: Library, key: str, seam: str
) -> None:
    session = Session(killed, library)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await come_to(pilot, Dialog)
        assert "Left Hall" in text_shown(app)
        assert "snap-lock" in text_shown(app)
        await pilot.press(key)
        await come_to(pilot, RoofScreen)
        assert session.typed["seam"] == seam
        assert session.saved == (key == "d")
        name = "Left Hall" if key == "t" else "Fernhollow"
        assert name in lines_shown(app)[0]

    drive_app(session, job)
    session.close()


# -- changed by an editor meanwhile ------------------------------------------------------------


def test_a_change_on_disk_is_noticed_without_a_key(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tui.app.WATCH_SECONDS", 0.05)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        _edit(session.path)
        await wait_until(pilot, lambda: "changed on disk" in lines_shown(app)[0])
        assert any("Nothing was written over" in each for each in told(app))

    drive_app(session, job)


def _both(session: Session, text: str) -> None:
    assert session.typed["seam"] == "snap-lock"
    assert session.typed["project_name"] == "My Name"
    session.save()
    assert session.path.read_text().startswith(COMMENT)


def _theirs(session: Session, text: str) -> None:
    assert session.typed["seam"] == "snap-lock"
    assert session.typed["project_name"] == "Fernhollow Branch Library"
    assert session.saved


def _neither(session: Session, text: str) -> None:
    assert session.typed["seam"] == "double-lock"
    assert session.typed["project_name"] == "My Name"


@pytest.mark.parametrize(
    ("key", "holds"), [("a", _both), ("r", _theirs), ("b", _neither), ("escape", _neither)]
)
def test_a_brief_changed_on_disk_is_not_written_over_and_the_choice_is_ones_own(
    session: Session, key: str, holds: Callable[[Session, str], None]
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        app.answer("project_name", "My Name")
        text = _edit(session.path, seam="snap-lock")
        await pilot.press("ctrl+s")
        await come_to(pilot, Dialog)
        assert session.path.read_text() == text
        await pilot.press(key)
        await come_to(pilot, RoofScreen)
        assert session.path.read_text() == text
        holds(session, text)

    drive_app(session, job)


def test_mine_is_saved_beside_theirs_whole_and_under_a_name_that_is_free(
    session: Session, library: Library, tmp_path: Path
) -> None:
    (tmp_path / "roof-2.yaml").write_text("metal: copper\n")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        app.answer("project_name", "My Name")
        text = _edit(session.path, seam="snap-lock")
        await pilot.press("ctrl+s")
        await come_to(pilot, Dialog)
        await pilot.press("o")
        await come_to(pilot, AskLine)
        field = app.screen.query_one(Input)
        assert field.value == str(tmp_path / "roof-3.yaml")
        field.value = str(tmp_path / "roof-2.yaml")
        await pilot.press("enter")
        await pilot.pause()
        assert "exists; choose another" in text_shown(app)
        field.value = str(tmp_path / "roof-3.yaml")
        await pilot.press("enter")
        await come_to(pilot, RoofScreen)
        assert session.path.read_text() == text

    drive_app(session, job)
    beside = Session(tmp_path / "roof-3.yaml", library)
    assert dict(beside.typed) == dict(session.typed)
    beside.close()


def test_a_brief_that_was_deleted_is_saved_again_whole(session: Session) -> None:
    before = dict(session.typed)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        session.path.unlink()
        await pilot.press("ctrl+s")
        await come_to(pilot, Dialog)
        assert "is gone" in text_shown(app)
        await pilot.press("o")
        await come_to(pilot, AskLine)
        assert app.screen.query_one(Input).value == str(session.path)
        await pilot.press("enter")
        await come_to(pilot, RoofScreen)
        assert dict(session.typed) == before
        assert session.path.exists()
        assert not session.changed_on_disk

    drive_app(session, job)


def test_a_brief_that_an_editor_broke_is_left_alone_and_mine_saved_beside(
    session: Session, library: Library, tmp_path: Path
) -> None:
    mine = dict(session.typed)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        session.path.write_text("seam: [broken\n")
        await pilot.press("ctrl+s")
        await come_to(pilot, Dialog)
        await pilot.press("r")
        await come_to(pilot, RoofScreen)
        assert any("YAML" in each for each in told(app))
        assert dict(session.typed) == mine
        await pilot.press("ctrl+s")
        await come_to(pilot, Dialog)
        await pilot.press("o")
        await come_to(pilot, AskLine)
        await pilot.press("enter")
        await come_to(pilot, RoofScreen)
        assert session.path.read_text() == "seam: [broken\n"

    drive_app(session, job)
    beside = Session(tmp_path / "roof-2.yaml", library)
    assert dict(beside.typed) == mine
    beside.close()


# -- open elsewhere ----------------------------------------------------------------------------


def test_a_brief_that_is_open_elsewhere_is_not_opened_until_it_is_free(
    session: Session, library: Library, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(session.path.parent)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await come_to(pilot, Dialog)
        assert "open elsewhere" in text_shown(app)
        await pilot.press("t")
        await pilot.pause()
        await come_to(pilot, Dialog)
        session.close()
        await pilot.press("t")
        await come_to(pilot, RoofScreen)
        app.session.close()

    drive_app(RoofApp(library=library, wanted=session.path), job)


def test_another_brief_can_be_chosen_where_one_is_open_elsewhere(
    session: Session, library: Library, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(session.path.parent)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await come_to(pilot, Dialog)
        await pilot.press("b")
        await come_to(pilot, FirstPage)
        assert not app.is_open

    drive_app(RoofApp(library=library, wanted=session.path), job)


def test_a_free_name_is_one_that_no_file_and_no_journal_has(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    assert free_name(path) == path
    path.touch()
    (tmp_path / "a-2.yaml").touch()
    journal_of(tmp_path / "a-3.yaml").touch()
    assert free_name(path) == tmp_path / "a-4.yaml"

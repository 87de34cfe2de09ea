"""The app: from screen to screen, head and keys, undo, saving, the first page, the command."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from specgen.library import Library
from specgen.session import Session
from tests.support import EXAMPLES, specgen
from tests.tui.app_support import come_to, drive_app, lines_shown, text_shown, told, type_words
from tui.app import RoofApp
from tui.document import DocumentScreen
from tui.findings import FindingsScreen
from tui.first_page import FirstPage
from tui.help import Help
from tui.roof import RoofScreen
from tui.write import WriteScreen

SIZES = [(80, 24), (120, 40), (60, 20)]


def test_each_function_key_shows_its_screen_and_the_head_says_which(session: Session) -> None:
    kinds = {"f2": DocumentScreen, "f3": FindingsScreen, "f5": WriteScreen, "f1": RoofScreen}

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        for key, kind in kinds.items():
            await pilot.press(key)
            await come_to(pilot, kind)
            title = f"{key.upper()} {kind.place.title()}"
            assert f"▸{title}" in lines_shown(app)[1]
            assert lines_shown(app)[1].count("▸") == 1

    drive_app(session, job)


def test_a_click_on_a_name_in_the_head_shows_its_screen(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        at = lines_shown(app)[1].index("F3")
        await pilot.click(offset=(at + 4, 1))
        await come_to(pilot, FindingsScreen)

    drive_app(session, job)


def test_a_question_a_clause_a_finding_and_back_are_each_one_call_away(session: Session) -> None:
    finding = session.report.standing[0].id

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        app.go_to_clause("panel-length")
        app.go_to_finding(finding)
        await come_to(pilot, FindingsScreen)
        screen = app.screen
        assert isinstance(screen, FindingsScreen)
        assert screen.finding is not None
        assert screen.finding.id == finding
        app.go_to_question("seam")
        await come_to(pilot, RoofScreen)
        assert isinstance(app.screen, RoofScreen)
        assert app.screen.question == "seam"

    drive_app(session, job)


def test_a_screen_that_was_not_shown_takes_up_what_was_answered_meanwhile(
    session: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await pilot.press("f5")
        await come_to(pilot, WriteScreen)
        assert "Nothing is open and nothing conflicts." in text_shown(app)
        await pilot.press("f1")
        await come_to(pilot, RoofScreen)
        app.answer("lowest_slope", None)
        await pilot.press("f5")
        await come_to(pilot, WriteScreen)
        assert "1 question open" in text_shown(app)

    drive_app(session, job)


def test_the_head_counts_what_is_unsaved_and_what_is_found(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        cautions = len(session.engine.findings)
        assert lines_shown(app)[0].endswith(f"saved   ! 0  ? 0  ~ 0  . {cautions}   o 0 open")
        app.answer("seam", "snap-lock")
        await pilot.pause()
        conflicts = len(session.engine.conflicts)
        assert conflicts
        assert f"1 unsaved   ! {conflicts}  " in lines_shown(app)[0]

    drive_app(session, job)


def test_undo_and_redo_work_from_every_screen_and_say_where_they_end(session: Session) -> None:
    before = dict(session.typed)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        for key in ("f1", "f2", "f3", "f5"):
            await pilot.press(key)
            app.answer("seam", "snap-lock")
            await pilot.press("ctrl+z")
            assert dict(session.typed) == before
            await pilot.press("ctrl+y")
            assert session.typed["seam"] == "snap-lock"
            await pilot.press("ctrl+z", "ctrl+z")
            await pilot.pause()
            assert "Nothing to undo." in told(app)

    drive_app(session, job)


def test_an_answer_that_is_refused_changes_nothing_and_says_why(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        app.go_to_question("lowest_slope")
        await pilot.pause()
        assert not app.answer("lowest_slope", "steep")
        await pilot.pause()
        assert session.saved
        assert "! Cannot be read" in text_shown(app)

    drive_app(session, job)


def test_help_on_every_screen_shows_what_it_is_for_and_its_keys(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        for key in ("f1", "f2", "f3", "f5"):
            await pilot.press(key)
            await pilot.pause()
            help_text = app.screen.help_text  # type: ignore[attr-defined]
            keys = {
                active.binding.description
                for active in app.screen.active_bindings.values()
                if active.binding.show and active.node is not app
            }
            await pilot.press("f9")
            await come_to(pilot, Help)
            text = text_shown(app)
            assert help_text.split()[0] in text
            for description in keys:
                assert description in text
            assert "Keys everywhere" in text
            await pilot.press("escape")
            await pilot.pause()

    drive_app(session, job, size=(120, 60))


def test_the_theme_turns_from_dark_to_light_and_back(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        dark = app.theme
        await pilot.press("ctrl+t")
        assert not app.current_theme.dark
        await pilot.press("ctrl+t")
        assert app.theme == dark

    drive_app(session, job)


@pytest.mark.parametrize("size", SIZES)
def test_the_keys_that_lead_out_are_always_shown(session: Session, size: tuple[int, int]) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        for key in ("f1", "f2", "f3", "f5"):
            await pilot.press(key)
            await pilot.pause()
            last = lines_shown(app)[-1]
            assert "help" in last
            assert "^Q leave" in last
            assert len(last) <= size[0]

    drive_app(session, job, size=size)


# -- the first page ----------------------------------------------------------------------------


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a brief and a YAML file that is none, in which the program is started."""
    shutil.copy(EXAMPLES / "low-slope-library.yaml", tmp_path / "branch.yaml")
    (tmp_path / "other.yaml").write_text("services: {web: 1}\n")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_the_first_page_lists_the_briefs_of_the_folder_and_opens_one(
    folder: Path, library: Library
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        text = text_shown(app)
        assert "branch.yaml  Fernhollow Branch Library" in text
        assert "other.yaml" not in text
        await pilot.press("enter")
        await come_to(pilot, RoofScreen)
        assert app.session.path == Path("branch.yaml")
        app.session.close()

    drive_app(RoofApp(library=library), job)


def test_a_name_begins_a_new_brief_and_its_ending_is_added(folder: Path, library: Library) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await pilot.press("tab")
        assert isinstance(app.screen.focused, Input)
        app.screen.focused.value = ""
        await type_words(pilot, "lodge")
        await pilot.press("enter")
        await come_to(pilot, RoofScreen)
        assert app.session.path == Path("lodge.yaml")
        assert not app.session.typed
        app.answer("project_name", "Lodge")
        await pilot.press("ctrl+s")
        assert (folder / "lodge.yaml").read_text() == "project_name: Lodge\n"
        app.session.close()

    drive_app(RoofApp(library=library), job)


def test_a_brief_that_was_never_saved_is_listed_by_its_journal(
    folder: Path, library: Library
) -> None:
    session = Session(Path("barn.yaml"), library)
    session.answer("project_name", "Barn")
    session.close()

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        assert "barn.yaml    Barn  1 answer, 1 of them not saved" in text_shown(app)

    drive_app(RoofApp(library=library), job)


def test_names_that_cannot_be_opened_are_refused_in_a_sentence(
    folder: Path, library: Library
) -> None:
    (folder / "torn.yaml").write_text("seam: [double-lock\n")
    (folder / "sub").mkdir()

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        for name, says in (
            ("torn", "not YAML"),
            ("none/new", "does not exist"),
            ("sub", "is a folder"),
            ("", "Type a name"),
        ):
            field = app.screen.query_one(Input)
            field.focus()
            field.value = name
            await pilot.press("enter")
            await pilot.pause()
            assert isinstance(app.screen, FirstPage)
            assert says in text_shown(app).replace("\n  ", " ")

    drive_app(RoofApp(library=library), job)


def test_until_a_brief_is_open_only_leaving_and_the_theme_are_to_be_had(
    folder: Path, library: Library
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await pilot.press("f2", "ctrl+s", "ctrl+z", "ctrl+p", "ctrl+f", "f9")
        assert isinstance(app.screen, FirstPage)
        await pilot.press("ctrl+q")
        await pilot.pause()
        assert not app.is_running or app._exit

    drive_app(RoofApp(library=library), job)


# -- the command -------------------------------------------------------------------------------


@pytest.mark.parametrize("arguments", [(), ("ask",), ("ask", "roof.yaml")])
def test_without_a_terminal_the_command_says_so_and_makes_nothing(
    tmp_path: Path, arguments: tuple[str, ...]
) -> None:
    result = specgen(*arguments, cwd=tmp_path)
    assert result.returncode == 2
    assert "the screens need a terminal" in result.stderr
    assert not list(tmp_path.iterdir())


def test_the_command_knows_no_screen_until_one_is_asked_for() -> None:
    code = "import specgen.cli, sys; print([m for m in sys.modules if m[:3] in ('tui', 'tex')])"
    run = [sys.executable, "-c", code]
    shown = subprocess.run(run, capture_output=True, text=True, check=True).stdout
    assert "textual" not in shown
    assert "'tui" not in shown

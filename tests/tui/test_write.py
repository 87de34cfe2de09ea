"""The write screen: what is written, where it goes, what is refused, and that no key waits."""

from __future__ import annotations

import json
import threading
import zipfile
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from specgen.faults import BadInput
from specgen.session import Session
from tests.support import specgen
from tests.tui.app_support import (
    come_to,
    drive_app,
    output_number,
    text_shown,
    wait_until,
)
from tui.app import RoofApp
from tui.dialog import AskLine
from tui.write import WriteScreen
from tui.writing import OUTPUTS, Job, Output, write_output


async def _to(pilot: Pilot[None], app: RoofApp, name: str) -> WriteScreen:
    """The write screen, its cursor on an output."""
    await pilot.press("f5")
    await come_to(pilot, WriteScreen)
    await pilot.press(*["down"] * output_number(name))
    assert isinstance(app.screen, WriteScreen)
    return app.screen


async def _written(pilot: Pilot[None], screen: WriteScreen) -> None:
    await wait_until(pilot, lambda: screen._now is None)


@pytest.mark.parametrize("output", OUTPUTS, ids=lambda output: output.id)
def test_enter_writes_each_output_beside_the_brief_and_shows_its_path(
    session: Session, output: Output
) -> None:
    path = output.path_beside(session.path)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _to(pilot, app, output.id)
        await pilot.press("enter")
        await _written(pilot, screen)
        assert path.stat().st_size > 500
        assert f"* Wrote {path}" in text_shown(app)

    drive_app(session, job, size=(200, 40))


def test_what_the_screen_writes_is_what_the_commands_write(
    session: Session, tmp_path: Path
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _to(pilot, app, "docx")
        await pilot.press("a")
        await _written(pilot, screen)

    drive_app(session, job, size=(120, 40))
    by_command = tmp_path / "command"
    by_command.mkdir()
    brief = session.path
    register, page = by_command / "roof-submittals.csv", by_command / "roof-numbers.html"
    assert specgen("draft", brief, "-o", by_command / "roof.docx").returncode == 0
    assert specgen("draft", brief, "-o", by_command / "roof.txt").returncode == 0
    drafted = specgen("draft", brief, "-o", by_command / "roof.md", "--register", register)
    assert drafted.returncode == 0
    assert specgen("calc", brief, "--html", page).returncode == 0
    for path in by_command.iterdir():
        assert _content(path) == _content(tmp_path / path.name), path.name
    found = json.loads(specgen("check", brief, "--json").stdout)
    assert found == json.loads((tmp_path / "roof-findings.json").read_text())
    assert specgen("check", brief).stdout == (tmp_path / "roof-findings.txt").read_text()


def _content(path: Path) -> object:
    """What a file holds; of a package its parts, without the time at which it was made."""
    if path.suffix != ".docx":
        return path.read_bytes()
    with zipfile.ZipFile(path) as package:
        names = [name for name in package.namelist() if name != "docProps/core.xml"]
        return {name: package.read(name) for name in names}


def test_notes_are_written_when_they_are_asked_for(session: Session) -> None:
    path = session.path.with_suffix(".docx")

    def comments() -> int:
        with zipfile.ZipFile(path) as package:
            names = [name for name in package.namelist() if name.endswith("comments.xml")]
            return sum(package.read(name).count(b"<w:comment ") for name in names)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _to(pilot, app, "docx")
        await pilot.press("enter")
        await _written(pilot, screen)
        assert comments() == 0
        await pilot.press("n", "enter")
        await _written(pilot, screen)
        assert "with notes" in text_shown(app)
        assert comments() > 100

    drive_app(session, job, size=(200, 40))


def test_the_path_is_edited_and_an_ending_that_is_not_the_files_is_refused(
    session: Session, tmp_path: Path
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _to(pilot, app, "md")
        await pilot.press("e")
        await come_to(pilot, AskLine)
        field = app.screen.query_one(Input)
        assert field.value == str(tmp_path / "roof.md")
        field.value = str(tmp_path / "other.pdf")
        await pilot.press("enter")
        assert isinstance(app.screen, AskLine)
        await pilot.pause()
        assert "The name ends in .md" in text_shown(app)
        field.value = str(tmp_path / "other.md")
        await pilot.press("enter")
        await come_to(pilot, WriteScreen)
        await pilot.press("enter")
        await _written(pilot, screen)
        assert (tmp_path / "other.md").exists()
        assert not (tmp_path / "roof.md").exists()

    drive_app(session, job)


def test_for_construction_with_conflicts_is_refused_until_they_are_asked_for_as_comments(
    session: Session,
) -> None:
    session.answer("issue", "for-construction")
    session.answer("seam", "snap-lock")
    path = session.path.with_suffix(".docx")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _to(pilot, app, "docx")
        assert "in the answers. F3 shows each" in text_shown(app)
        await pilot.press("enter")
        await _written(pilot, screen)
        assert not path.exists()
        assert "issued for construction with the conflict" in text_shown(app)
        await pilot.press("c", "enter")
        await _written(pilot, screen)
        assert path.exists()

    drive_app(session, job, size=(120, 40))


def test_a_folder_that_is_missing_is_told_and_the_next_output_is_written_all_the_same(
    session: Session, tmp_path: Path
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _to(pilot, app, "docx")
        screen._paths["docx"] = tmp_path / "none" / "a.docx"
        await pilot.press("a")
        await _written(pilot, screen)
        assert (tmp_path / "roof.md").exists()
        assert (tmp_path / "roof-findings.json").exists()
        assert "does not exist" in "\n".join(line.plain for line in screen._lines)

    drive_app(session, job)


def test_the_brief_itself_is_never_written_over(session: Session) -> None:
    before = session.path.read_bytes()
    job = Job(session.brief, session.library)
    with pytest.raises(BadInput, match="the brief itself"):
        write_output(OUTPUTS[0], session.path, job)
    assert session.path.read_bytes() == before


def test_keys_are_taken_while_something_is_written_and_its_sign_moves(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on = threading.Event()

    def slow(output: Output, path: Path, job: Job) -> str:
        go_on.wait(10)
        return "much"

    monkeypatch.setattr("tui.write.write_output", slow)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _to(pilot, app, "docx")
        await pilot.press("enter")
        await pilot.pause(0.3)
        first = text_shown(app)
        assert "Writing " in first
        await pilot.pause(0.3)
        assert text_shown(app) != first
        await pilot.press("f1")
        app.answer("project_name", "Another name")
        await pilot.press("f5")
        await come_to(pilot, WriteScreen)
        go_on.set()
        await _written(pilot, screen)
        assert "Another name" in text_shown(app)
        assert "much" in text_shown(app)
        assert "Writing " not in text_shown(app)

    drive_app(session, job, size=(160, 40))

"""A whole job by keyboard alone: from the first page to a section, answering only what is asked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

import docx
import pytest
from textual import events
from textual.pilot import Pilot

from specgen.brief import read_brief
from specgen.library import Library
from specgen.section import open_questions
from tests.support import EXAMPLES, specgen
from tests.tui.app_support import come_to, drive_app, lines_shown, text_shown, wait_until
from tui.app import RoofApp
from tui.asked import asked_of
from tui.question_card import QuestionCard
from tui.records import RecordsScreen
from tui.roof import RoofScreen
from tui.write import WriteScreen

MOST_QUESTIONS = 200


async def _press(pilot: Pilot[None], *keys: str) -> None:
    """Press keys one right after the other, as somebody who types fast, then wait."""
    for key in keys:
        character = " " if key == "space" else key if len(key) == 1 else None
        pilot.app.post_message(events.Key(key, character))
    await pilot.pause()


async def _answer(pilot: Pilot[None], screen: RoofScreen, raw: object) -> None:
    """Answer the question on the screen with the keys that it is answered by."""
    question = screen.library.questions[screen.question]
    choices = screen.query_one(QuestionCard).choices
    if question.kind in ("choice", "yes-no"):
        names = [c.id for c in question.choices] or ["yes", "no"]
        await _press(pilot, *_to(choices.cursor, names.index(str(raw))), "enter")
    elif question.kind == "choices":
        assert isinstance(raw, list)
        for picked in raw:
            place = [c.id for c in question.choices].index(picked)
            await _press(pilot, *_to(choices.cursor, place), "space")
        await _press(pilot, "enter")
    elif question.kind == "table":
        assert isinstance(raw, list)
        await _fill_in(pilot, question.id, raw)
    else:
        await _press(pilot, *_typed(str(raw)), "enter")


def _to(now: int, wanted: int) -> list[str]:
    return ["down"] * (wanted - now) if wanted >= now else ["up"] * (now - wanted)


def _typed(words: str) -> Iterable[str]:
    return ("space" if letter == " " else letter for letter in words)


async def _fill_in(pilot: Pilot[None], question: str, rows: list[Mapping[str, str]]) -> None:
    """Enter the rows of a table, cell by cell, and come back."""
    await _press(pilot, "enter")
    await come_to(pilot, RecordsScreen)
    columns = pilot.app.library.questions[question].columns  # type: ignore[attr-defined]
    for number, row in enumerate(rows):
        if number:
            await _press(pilot, "ctrl+n")
        for column in columns:
            await _press(pilot, *_typed(row[column.id]), "enter")
    await _press(pilot, "escape")
    await come_to(pilot, RoofScreen)


@pytest.mark.parametrize("brief", ["low-slope-library", "snow-country-lodge"])
def test_a_new_brief_becomes_a_section_by_keys_alone_and_only_what_is_asked_is_answered(
    brief: str, library: Library, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    wanted = read_brief(EXAMPLES / f"{brief}.yaml", library).typed
    answered: list[str] = []

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await _press(pilot, "enter")  # the name that is offered for a new brief
        await come_to(pilot, RoofScreen)
        screen = app.screen
        assert isinstance(screen, RoofScreen)
        while asked_of(app.session.engine).open and len(answered) < MOST_QUESTIONS:
            question = screen.question
            assert question not in answered, f"{question} is asked twice"
            await _answer(pilot, screen, wanted[question])
            assert app.session.typed_of(question) is not None, question
            answered.append(question)
            if screen.question == question or screen.question in answered:
                await _press(pilot, "ctrl+o")
        assert "o 0 open" in lines_shown(app)[0]
        await _press(pilot, "f5")
        await come_to(pilot, WriteScreen)
        assert "Nothing is open and nothing conflicts." in text_shown(app)
        await _press(pilot, "enter")
        write = app.screen
        assert isinstance(write, WriteScreen)
        await wait_until(pilot, lambda: write._now is None)
        await _press(pilot, "ctrl+s")
        await _press(pilot, "ctrl+q")
        assert app._exit
        assert not open_questions(app.session.engine.section)
        app.session.close()

    drive_app(RoofApp(library=library), job)
    assert {name: wanted[name] for name in answered} == read_brief(Path("roof.yaml"), library).typed
    paragraphs = [paragraph.text for paragraph in docx.Document("roof.docx").paragraphs]
    assert "END OF SECTION" in paragraphs[-1]
    assert len(paragraphs) > 300
    assert specgen("check", tmp_path / "roof.yaml").returncode == 0

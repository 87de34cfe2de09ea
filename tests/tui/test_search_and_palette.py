"""Search and palette: everything is found by its words, every action by its name."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot

from specgen.library import Library
from specgen.session import Session
from specgen.values import NOT_ASKED
from tests.tui.app_support import come_to, drive_app, text_shown, told, type_words
from tui.app import RoofApp, frame_class
from tui.document import DocumentScreen
from tui.findings import FindingsScreen
from tui.head import PLACES
from tui.palette import Palette, actions_from
from tui.roof import RoofScreen
from tui.search import Search, entries_of
from tui.write import WriteScreen


async def _search(pilot: Pilot[None], words: str) -> None:
    await pilot.press("ctrl+f")
    await come_to(pilot, Search)
    await type_words(pilot, words)
    await pilot.pause()


# -- search ------------------------------------------------------------------------------------


def test_a_question_is_found_by_its_label_and_enter_goes_to_it(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await pilot.press("f5")
        await _search(pilot, "lowest slope")
        await pilot.press("enter")
        await come_to(pilot, RoofScreen)
        assert isinstance(app.screen, RoofScreen)
        assert app.screen.question == "lowest_slope"

    drive_app(session, job)


def test_a_clause_is_found_by_its_words_and_enter_puts_the_cursor_on_it(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        standing = next(s for s in session.engine.standings.values() if s.stands is True)
        await _search(pilot, standing.text[:30].lower())
        await pilot.press("enter")
        await come_to(pilot, DocumentScreen)
        await pilot.pause(0.1)
        assert isinstance(app.screen, DocumentScreen)
        assert app.screen.list.row is not None
        assert app.screen.list.row.clause == standing.clause.id

    drive_app(session, job)


def test_a_finding_is_found_and_enter_goes_to_it(session: Session) -> None:
    finding = session.report.standing[0]

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await _search(pilot, finding.id)
        await pilot.press("enter")
        await come_to(pilot, FindingsScreen)
        await pilot.pause(0.1)
        assert isinstance(app.screen, FindingsScreen)
        assert app.screen.finding is not None
        assert app.screen.finding.id == finding.id

    drive_app(session, job)


def test_a_standard_leads_to_the_paragraph_that_cites_it(session: Session) -> None:
    standings = session.engine.standings.values()
    cited = next(s.clause.cites[0] for s in standings if s.stands is True and s.clause.cites)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await _search(pilot, f"standard {cited}")
        await pilot.press("enter")
        await come_to(pilot, DocumentScreen)
        await pilot.pause(0.1)
        assert isinstance(app.screen, DocumentScreen)
        assert app.screen.list.row is not None
        assert cited in session.library.clauses[app.screen.list.row.clause].cites

    drive_app(session, job)


def test_a_standard_that_nothing_cites_says_so(new: Session) -> None:
    cited = {
        name
        for standing in new.engine.standings.values()
        if standing.stands is True
        for name in standing.clause.cites
    }
    free = next(name for name in new.library.standards if name not in cited and "E" in name)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await _search(pilot, f"standard {free.lower()}")
        await pilot.press("enter")
        await come_to(pilot, RoofScreen)
        await pilot.pause(0.1)
        assert any("No paragraph of this section cites" in each for each in told(app))

    drive_app(new, job)


def test_a_calculation_is_found_and_every_number_that_stands_is_there(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        numbers = [entry for entry in entries_of(app) if entry.words.startswith("number ")]
        values = {
            provided.label
            for result in session.engine.scope.results()
            if result.outcome is not None
            for provided in result.calculation.provides
            if result.outcome.values.get(provided.id, NOT_ASKED) is not NOT_ASKED
        }
        assert len(numbers) >= len(values) > 10

    drive_app(session, job)


def test_every_question_finding_standard_and_standing_clause_can_be_found(
    session: Session, library: Library
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        words = [entry.words for entry in entries_of(app)]
        text = "\n".join(words)
        for name in (*library.questions, *library.standards):
            assert name.lower() in text
        for finding in session.report.standing:
            assert finding.id in text
        for standing in session.engine.standings.values():
            if standing.stands is True:
                assert standing.clause.id in text

    drive_app(session, job)


def test_words_that_nothing_holds_find_nothing_and_enter_stays(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await _search(pilot, "zzzz qqqq")
        assert "Nothing holds these words." in text_shown(app)
        await pilot.press("enter")
        await come_to(pilot, Search)
        await pilot.press("escape")
        await come_to(pilot, RoofScreen)

    drive_app(session, job)


def test_names_come_before_what_only_mentions_the_word(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await _search(pilot, "seam height")
        screen = app.screen
        assert isinstance(screen, Search)
        first = "".join(text for text, _ in screen._found[0].row)
        assert first.startswith("* question  seam height")

    drive_app(session, job)


# -- palette -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "kind"),
    [("go findings", FindingsScreen), ("gowrite", WriteScreen), ("search", Search)],
)
def test_an_action_is_found_by_some_of_its_letters_and_done(
    session: Session, typed: str, kind: type
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await pilot.press("ctrl+p")
        await come_to(pilot, Palette)
        await type_words(pilot, typed)
        await pilot.press("enter")
        await come_to(pilot, kind)

    drive_app(session, job)


def test_an_action_of_another_screen_shows_that_screen_and_is_done_there(
    session: Session, tmp_path: object
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await pilot.press("ctrl+p")
        await come_to(pilot, Palette)
        await type_words(pilot, "write: notes")
        await pilot.press("enter")
        await come_to(pilot, WriteScreen)
        await pilot.pause(0.2)
        assert isinstance(app.screen, WriteScreen)
        assert app.screen._notes

    drive_app(session, job)


def test_every_action_that_the_last_line_can_show_is_in_the_palette(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        for place in PLACES:
            names = {action.name for action in actions_from(app.frame_of("roof"))}
            for binding in frame_class(place).BINDINGS:
                if getattr(binding, "show", False):
                    said = binding.description  # type: ignore[union-attr]
                    wanted = said if place == "roof" else f"{PLACES[place]}: {said}"
                    assert wanted in names, wanted
        for word in ("undo", "redo", "save", "light or dark", "leave", "help", "go to Document"):
            assert word in names

    drive_app(session, job)


def test_undo_from_the_palette_takes_the_last_answer_back(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        app.answer("seam", "snap-lock")
        await pilot.press("ctrl+p")
        await come_to(pilot, Palette)
        await type_words(pilot, "undo")
        await pilot.press("enter")
        await come_to(pilot, RoofScreen)
        await pilot.pause(0.1)
        assert session.typed["seam"] == "double-lock"

    drive_app(session, job)

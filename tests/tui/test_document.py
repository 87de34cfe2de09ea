"""The document screen: the section live, its reasons, its open decisions, what has changed."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from textual.pilot import Pilot

from specgen.library import Library
from specgen.section import numbered
from specgen.session import Session
from specgen.writers.docx import write_docx
from tests.support import EXAMPLES
from tests.tui.lines_support import (
    SIZES,
    all_lines,
    click_lead,
    click_row,
    document,
    drive,
    findings,
    lead,
    paragraph,
    press,
    rested,
    said,
    seen,
)
from tui.app import RoofApp
from tui.document import LEAD_KEYS, DocumentScreen
from tui.last_draft import drafted_answers
from tui.marks import KINDS
from tui.roof import RoofScreen


@pytest.fixture
def partly(tmp_path: Path, library: Library) -> Session:
    """A session on a brief of five answers."""
    path = tmp_path / "five.yaml"
    shutil.copy(EXAMPLES / "five-answers.yaml", path)
    return Session(path, library)


def words(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("size", SIZES)
def test_every_paragraph_of_the_section_stands_there_word_for_word_and_fits(
    session: Session, size: tuple[int, int]
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        rows = document(app).list
        lines = all_lines(rows)
        assert max(map(len, lines)) <= size[0]
        whole = words(" ".join(lines))
        section = session.engine.section
        for article in section.articles():
            assert f"{article.number} {article.title}" in whole
            for each, _ in numbered(article):
                assert words(section.plain(each.spans)) in whole
        assert whole.endswith("END OF SECTION")

    drive(session, "document", job, size)


def test_a_paragraph_tells_its_clause_its_reason_and_what_it_came_from(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = document(app)
        library, section = session.library, session.engine.section
        reasons = [p.reason for p in section.paragraphs() if p.reason.clause]
        full = next(r for r in reasons if r.needs and r.cites and r.answers)
        counted = next(r for r in reasons if r.calculations)
        for reason in (full, counted):
            screen.go_to(reason.clause)
            await pilot.pause()
            told = said(screen.strip)
            assert reason.clause in told
            assert words(reason.why) in told
            for name, value in reason.answers:
                assert f"{library.questions[name].label}: {value}" in told
            for cited in reason.cites:
                assert f"{cited}, {library.standards[cited].title.rstrip('.')}" in told
            for _, value in reason.calculations:
                assert value in told
            for needed in reason.needs:
                place = section.places[needed]
                assert f"{place} {needed} {words(library.clauses[needed].why)}" in told

    drive(session, "document", job, (120, 40))


def test_an_open_decision_leads_to_its_question_and_the_answer_puts_its_clauses_there(
    partly: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = document(app)
        question = partly.library.questions["underlayment"]
        for _ in range(40):
            await pilot.press("o")
            row = paragraph(app)
            assert row.questions
            if row.questions == ("underlayment",):
                break
        row = paragraph(app)
        assert f"Open decision: {question.label}." in row.words
        waited = {name for _, name in row.waiting}
        assert question.ask in said(screen.strip)
        await press(pilot, "enter")
        assert isinstance(app.screen, RoofScreen)
        assert app.screen.question == "underlayment"
        app.answer("underlayment", question.choices[0].id)
        await press(pilot, "f2")
        standing = [each for each in screen.list.rows if not each.gone]
        assert not any("underlayment" in each.questions for each in standing)
        assert paragraph(app).clause in waited

    drive(partly, "document", job)
    partly.close()


def test_each_letter_goes_where_it_says(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        reasons = [p.reason for p in session.engine.section.paragraphs() if p.reason.clause]
        kinds = {
            "question": ("roof", next(r for r in reasons if r.answers)),
            "number": ("numbers", next(r for r in reasons if r.calculations)),
            "clause": ("document", next(r for r in reasons if r.needs)),
        }
        for kind, (place, reason) in kinds.items():
            app.go_to_clause(reason.clause)
            await rested(pilot)
            wanted = lead(document(app).strip, kind)
            await press(pilot, wanted.key)
            frame = app.screen
            assert getattr(frame, "place", "") == place
            if isinstance(frame, RoofScreen):
                assert frame.question == wanted.id
            elif isinstance(frame, DocumentScreen):
                assert paragraph(app).clause == wanted.id

    drive(session, "document", job, (120, 40))


def test_no_letter_of_a_lead_is_also_a_key_of_the_screen() -> None:
    keys = {key for bound in DocumentScreen.BINDINGS for key in bound.key.split(",")}  # type: ignore[union-attr]
    assert not keys & set(LEAD_KEYS)


def test_a_finding_shows_at_its_place_and_leads_to_it(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = document(app)
        placed = [f for f in session.report.standing if f.place]
        await press(pilot, "f")
        row = paragraph(app)
        found = [f for f in placed if f.place == row.number]
        assert found
        here = screen.list._top_of(screen.list.cursor) - screen.list.scroll_offset.y
        assert f" {KINDS[found[0].kind]} " in seen(screen.list)[here][:6]
        assert words(found[0].says) in said(screen.strip)
        await press(pilot, lead(screen.strip, "finding").key)
        assert findings(app).finding == found[0]

    drive(session, "document", job)


def test_what_changed_since_the_last_draft_is_marked_and_undo_takes_the_marks_away(
    session: Session,
) -> None:
    draft = session.path.with_suffix(".docx")
    draft.write_bytes(write_docx(session.engine.section, session.brief))
    session.answer("seam", "snap-lock")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = document(app)
        marks = {row.clause: row.mark for row in screen.list.rows if row.mark and row.clause}
        assert {"in", "out", "reworded"} <= set(marks.values())
        places = session.engine.section.places
        assert all((mark == "out") == (clause not in places) for clause, mark in marks.items())
        await press(pilot, "n")
        assert "since the draft of " in said(screen.strip)
        first = paragraph(app)
        assert first.mark in ("in", "out", "reworded")
        if first.mark == "reworded":
            assert "double-lock" in said(screen.strip)
        await press(pilot, "ctrl+z")
        assert not [row for row in screen.list.rows if row.mark]

    drive(session, "document", job)


def test_without_a_draft_changes_are_marked_since_the_brief_as_saved(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        assert not [row for row in document(app).list.rows if row.mark]
        app.answer("walkways", "no")
        await rested(pilot)
        gone = [row for row in document(app).list.rows if row.gone]
        assert any("alkway" in row.words for row in gone)
        await press(pilot, "n")
        assert "since the brief as saved" in said(document(app).strip)
        app.action_save()
        await rested(pilot)
        assert not [row for row in document(app).list.rows if row.mark]

    drive(session, "document", job)


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04 not a package", b"plain text"])
def test_a_file_that_is_no_draft_of_ours_is_passed_over(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "roof.docx"
    path.write_bytes(content)
    assert drafted_answers(path) is None


def test_the_cursor_stays_with_its_paragraph_when_others_come_and_go(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = document(app)
        screen.go_to("install-walkways")
        await pilot.pause()
        before = paragraph(app)
        line = screen.list._top_of(screen.list.cursor) - screen.list.scroll_offset.y
        app.answer("seam", "snap-lock")
        await rested(pilot)
        assert paragraph(app).clause == before.clause == "install-walkways"
        assert screen.list._top_of(screen.list.cursor) - screen.list.scroll_offset.y == line

    drive(session, "document", job, (120, 40))


def test_a_click_moves_the_cursor_and_a_second_leads_to_the_question(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = document(app)
        wanted = next(i for i, row in enumerate(screen.list.rows) if row.number == "1.1.A.1")
        await click_row(pilot, screen.list, wanted)
        assert screen.list.cursor == wanted
        first = screen.strip.first("question")
        assert first is not None
        await click_row(pilot, screen.list, wanted, times=2)
        assert isinstance(app.screen, RoofScreen)
        assert app.screen.question == first.id
        await press(pilot, "f2")
        other = screen.strip.leads[-1]
        await click_lead(pilot, screen.strip, other)
        assert isinstance(app.screen, RoofScreen)
        assert app.screen.question == other.id

    drive(session, "document", job, (120, 40))


def test_the_leads_are_reached_by_tab_and_arrows_too(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = document(app)
        screen.go_to("1.1.A.1")
        await press(pilot, "tab")
        assert screen.strip.has_focus
        await press(pilot, "escape")
        assert screen.list.has_focus
        await press(pilot, "tab", "right")
        second = screen.strip.leads[1]
        await press(pilot, "enter")
        assert isinstance(app.screen, RoofScreen)
        assert app.screen.question == second.id

    drive(session, "document", job)


def test_brackets_go_from_article_to_article_and_page_keys_to_both_ends(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        rows = document(app).list
        articles = [a.number for a in session.engine.section.articles()]
        for number in articles[:4]:
            await pilot.press("right_square_bracket")
            assert paragraph(app).number == f"{number}.A"
        await pilot.press("left_square_bracket")
        assert paragraph(app).number == f"{articles[2]}.A"
        await pilot.press("end")
        last = rows.cursor
        await pilot.press("home")
        assert rows.cursor == 0
        for _ in range(len(rows.rows)):
            await pilot.press("pagedown")
            if rows.cursor == last:
                break
        assert rows.cursor == last

    drive(session, "document", job, (120, 40))


def test_what_is_not_there_is_said(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        before = document(app).list.cursor
        app.go_to_clause("snow-retention-rails-that-nobody-wrote")
        await rested(pilot)
        assert any("is not in the section" in note.message for note in app._notifications)
        await press(pilot, "o")
        assert any("Nothing is open." in note.message for note in app._notifications)
        assert document(app).list.cursor == before

    drive(session, "document", job)


@pytest.mark.parametrize("size", SIZES)
def test_without_unicode_the_document_and_its_reasons_are_ascii(
    session: Session, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SPECGEN_ASCII", "1")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = document(app)
        assert all(line.isascii() for line in all_lines(screen.list))
        for index in range(0, len(screen.list.rows), 15):
            screen.list.put_cursor(index)
            await pilot.pause()
            assert said(screen.strip).isascii()

    drive(session, "document", job, size)

"""What would remove the paragraph under the cursor and what needs it, told once it rests."""

from __future__ import annotations

from textual.pilot import Pilot

from specgen.session import Session
from specgen.study.why import why_paragraph
from tests.tui.app_support import wait_until
from tests.tui.lines_support import document, drive, paragraph, press, said
from tui.app import RoofApp
from tui.document_ways import ways_out


async def _rest_on(pilot: Pilot[None], app: RoofApp, name: str) -> None:
    """Put the cursor on a clause and wait until all is told of it."""
    screen = document(app)
    screen.go_to(name)
    number = paragraph(app).number
    heads = [block.head for block in ways_out(why_paragraph(app.session.engine, number))]
    await wait_until(pilot, lambda: all(head in said(screen.strip) for head in heads))


def test_a_paragraph_tells_which_other_answer_removes_it_and_leads_there(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await _rest_on(pilot, app, "fire-class")
        strip = document(app).strip
        told = said(strip)
        assert "goes if" in told
        assert "no class required (now Class A)" in told
        lead = next(lead for lead in reversed(strip.leads) if lead.id == "fire_class")
        await press(pilot, lead.key)
        assert app.screen is app.frame_of("roof")
        app.answer("fire_class", "none")
        assert "fire-class" not in session.engine.section.places

    drive(session, "document", job)


def test_what_stands_in_every_section_says_so(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        section = session.engine.section
        always = next(
            clause
            for clause, place in section.places.items()
            if (why := why_paragraph(session.engine, place)).removal is None and why.under
        )
        await _rest_on(pilot, app, always)
        assert "it stands in every section" in said(document(app).strip)

    drive(session, "document", job)


def test_a_paragraph_names_the_clauses_that_need_it(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        library, places = session.library, session.engine.section.places
        needing, needed = next(
            (each.id, clause)
            for each in library.clauses.values()
            if each.id in places
            for clause in each.needs
            if clause in places and each.id not in library.clauses[clause].needs
        )
        await _rest_on(pilot, app, needed)
        assert "needed" in said(document(app).strip)
        assert needing in {lead.id for lead in document(app).strip.leads}

    drive(session, "document", job, size=(120, 40))


def test_another_answer_makes_it_be_sought_again(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await _rest_on(pilot, app, "fire-class")
        assert "(now Class A)" in said(document(app).strip)
        app.answer("fire_class", "class-b")
        strip = document(app).strip
        await wait_until(pilot, lambda: "(now Class B)" in said(strip))
        assert "(now Class A)" not in said(strip)

    drive(session, "document", job)

"""The findings screen: each a key from its place and its answers, settled or answered for."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot
from textual.widgets import Button, Input

from specgen.brief import read_brief
from specgen.library import Library
from specgen.session import Session
from specgen.writers.findings_text import counted
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
from tui.finding_reason import change_by, in_words
from tui.findings import LEAD_KEYS, FindingsScreen
from tui.roof import RoofScreen
from tui.settle_all import SettleAll
from tui.waive import Waive


@pytest.fixture
def contradicting(session: Session) -> Session:
    """A session on a brief whose seam cannot stand at its slope."""
    session.answer("seam", "snap-lock")
    session.answer("lowest_slope", "1/4:12")
    assert len(session.report.conflicts) > 1
    return session


def on_conflict(screen: FindingsScreen, name: str = "snap-lock-below-2-12") -> None:
    screen.go_to(name)
    assert screen.finding is not None
    assert screen.finding.id == name


async def search_over(pilot: Pilot[None], app: RoofApp) -> SettleAll:
    """Wait until the search for the fewest changes has come to its end."""
    await rested(pilot)
    assert isinstance(app.screen, SettleAll)
    return app.screen


@pytest.mark.parametrize("size", SIZES)
def test_findings_stand_by_kind_the_gravest_first_each_with_its_place(
    contradicting: Session, size: tuple[int, int]
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = findings(app)
        report = contradicting.report
        found = [row.finding for row in screen.list.rows if row.finding is not None]
        assert found == list(report.standing)
        lines = all_lines(screen.list)
        assert max(map(len, lines)) <= size[0]
        heads = [row.head for row in screen.list.rows if row.head]
        kinds = [finding.kind for finding in report.standing]
        told = [counted(kind, kinds.count(kind)) for kind in dict.fromkeys(kinds)]
        assert [head[2:] for head in heads] == told
        for finding in report.standing:
            assert any(finding.place in line for line in lines)
        assert screen.finding == report.standing[0]

    drive(contradicting, "findings", job, size)


def test_a_finding_tells_why_its_source_its_answers_and_what_the_document_says_there(
    contradicting: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = findings(app)
        library = contradicting.library
        for _ in contradicting.report.standing:
            finding = screen.finding
            assert finding is not None
            told = said(screen.strip)
            assert f"{finding.kind} {finding.id}" in told
            assert " ".join(finding.because.split()) in told
            assert " ".join(finding.source.split()) in told
            for name in finding.answers:
                if name in library.questions:
                    shown = contradicting.engine.scope.shown(name)
                    assert f"{library.questions[name].label}: {shown}" in told
            await press(pilot, "down")

    drive(contradicting, "findings", job, (120, 40))


def test_each_way_to_settle_tells_what_the_engine_says_it_would_cause(
    contradicting: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = findings(app)
        on_conflict(screen)
        await rested(pilot)
        assert screen.finding is not None
        told = said(screen.strip)
        for number, way in enumerate(screen.finding.settle, 1):
            change = change_by(contradicting.engine, way)
            assert change is not None
            assert f"[{number}]" in told
            if change.settled:
                assert f"settles {in_words(change.settled)}" in told
            if change.raised:
                assert f"raises {in_words(change.raised)}" in told
        assert contradicting.typed_of("seam") == "snap-lock"

    drive(contradicting, "findings", job, (120, 40))


def test_a_digit_settles_that_way_and_undo_restores_the_answer(contradicting: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = findings(app)
        on_conflict(screen)
        finding = screen.finding
        assert finding is not None
        before = dict(contradicting.typed)
        conflicts = contradicting.report.conflicts
        await press(pilot, "1")
        assert {name: contradicting.typed_of(name) for name in finding.settle[0]} == dict(
            finding.settle[0]
        )
        assert finding.id not in {each.id for each in contradicting.report.standing}
        assert finding.says not in " ".join(all_lines(screen.list))
        for _ in finding.settle[0]:
            await press(pilot, "ctrl+z")
        assert dict(contradicting.typed) == before
        assert contradicting.report.conflicts == conflicts
        assert any(row.finding == finding for row in screen.list.rows)

    drive(contradicting, "findings", job)


def test_from_a_finding_to_its_place_to_the_question_to_the_answer_and_it_is_gone(
    session: Session,
) -> None:
    session.answer("seam", "snap-lock")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        on_conflict(findings(app))
        finding = findings(app).finding
        assert finding is not None
        await press(pilot, "enter")
        assert paragraph(app).number == finding.place
        assert finding in paragraph(app).findings
        await press(pilot, lead(document(app).strip, "finding").key)
        assert findings(app).finding == finding
        await press(pilot, lead(findings(app).strip, "question", "seam").key)
        assert isinstance(app.screen, RoofScreen)
        assert app.screen.question == "seam"
        choices = [choice.id for choice in session.library.questions["seam"].choices]
        steps = choices.index("double-lock") - choices.index("snap-lock")
        await press(pilot, *["down" if steps > 0 else "up"] * abs(steps), "enter")
        assert session.typed_of("seam") == "double-lock"
        await press(pilot, "f3")
        assert finding.says not in " ".join(all_lines(findings(app).list))
        assert not session.report.conflicts

    drive(session, "findings", job)


def test_a_waiver_needs_a_reason_and_a_name_and_is_kept_in_the_brief(
    contradicting: Session, library: Library
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = findings(app)
        on_conflict(screen)
        finding = screen.finding
        assert finding is not None
        await press(pilot, "w", "enter")
        assert isinstance(app.screen, Waive)
        app.screen.query_one("#by", Input).focus()
        await press(pilot, "enter")
        assert "needs a reason" in str(app.screen.query_one("#fault").render())
        assert not contradicting.waivers
        await press(pilot, *"tested", "enter", "enter")
        assert isinstance(app.screen, Waive)
        assert "needs a name" in str(app.screen.query_one("#fault").render())
        await press(pilot, *"Ada", "enter")
        assert [(w.check, w.reason, w.by) for w in contradicting.waivers] == [
            (finding.id, "tested", "Ada")
        ]
        assert "waived: 1" in " ".join(all_lines(screen.list))
        assert finding.id not in {each.id for each in contradicting.report.standing}
        on_conflict(screen)
        await rested(pilot)
        assert "Ada: tested" in said(screen.strip)
        app.action_save()
        await rested(pilot)
        kept = read_brief(contradicting.path, library).waivers
        assert [waiver.check for waiver in kept] == [finding.id]

    drive(contradicting, "findings", job)


def test_a_waiver_is_taken_back_and_undo_restores_it(contradicting: Session) -> None:
    contradicting.waive("snap-lock-below-2-12", "tested", "Ada")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = findings(app)
        on_conflict(screen)
        await press(pilot, "1")
        assert contradicting.typed_of("seam") == "snap-lock", "what is waived is not settled"
        await press(pilot, "x")
        assert not contradicting.waivers
        assert screen.finding is not None
        assert screen.finding.waived is None
        await press(pilot, "ctrl+z")
        assert [waiver.by for waiver in contradicting.waivers] == ["Ada"]
        await press(pilot, "x", "w", *"so", "enter")
        assert isinstance(app.screen, Waive)
        await press(pilot, "escape")
        assert not contradicting.waivers

    drive(contradicting, "findings", job)


def test_a_waiver_that_waives_nothing_is_a_finding_that_a_key_removes(session: Session) -> None:
    session.waive("snap-lock-below-2-12", "tested", "Ada")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = findings(app)
        screen.go_to("waiver-without-finding")
        assert "Ada" in said(screen.strip) or "Ada" in " ".join(seen(screen.list))
        await press(pilot, "w")
        assert app.screen is screen, "it cannot be waived itself"
        await press(pilot, "x")
        assert not session.waivers
        assert not any("waives nothing" in line for line in all_lines(screen.list))

    drive(session, "findings", job)


def test_settling_everything_leaves_no_conflict_and_undo_brings_all_back(
    contradicting: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        before = dict(contradicting.typed)
        await pilot.press("s")
        screen = await search_over(pilot, app)
        ways = screen.list.rows
        assert ways
        assert all(len(way.answers) == len(ways[0].answers) for way in ways)
        for way in ways:
            change = change_by(contradicting.engine, way.answers)
            assert change is not None
            left = {f.id for f in contradicting.engine.conflicts} - {f.id for f in change.settled}
            assert not left
            assert not [f for f in change.raised if f.kind == "conflict"]
        await press(pilot, "1")
        assert not contradicting.report.conflicts
        assert "conflict" not in " ".join(row.head for row in findings(app).list.rows)
        for _ in ways[0].answers:
            await press(pilot, "ctrl+z")
        assert dict(contradicting.typed) == before

    drive(contradicting, "findings", job)


def test_an_answer_that_is_to_be_kept_is_left_alone_by_the_next_proposal(
    contradicting: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await pilot.press("s")
        screen = await search_over(pilot, app)
        kept = screen.strip.leads[0]
        assert any(kept.id in way.answers for way in screen.list.rows)
        await pilot.press(kept.key)
        await search_over(pilot, app)
        assert contradicting.fixed == {kept.id}
        assert screen.list.rows
        assert not any(kept.id in way.answers for way in screen.list.rows)
        release = next(each for each in screen.strip.leads if each.kind == "release")
        assert release.id == kept.id
        await pilot.press(release.key)
        await search_over(pilot, app)
        assert not contradicting.fixed
        await press(pilot, "escape")
        assert contradicting.report.conflicts

    drive(contradicting, "findings", job)


def test_with_no_conflict_there_is_nothing_to_settle(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        before = dict(session.typed)
        await pilot.press("s")
        screen = await search_over(pilot, app)
        assert "There is no conflict" in str(screen.query_one("#says").render())
        await press(pilot, "enter")
        assert app.screen.__class__ is FindingsScreen
        assert dict(session.typed) == before

    drive(session, "findings", job)


def test_a_click_takes_a_way_and_a_second_click_on_a_row_leads_to_its_place(
    contradicting: Session,
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = findings(app)
        index = next(
            index
            for index, row in enumerate(screen.list.rows)
            if row.finding is not None and row.finding.id == "snap-lock-below-2-12"
        )
        await click_row(pilot, screen.list, index)
        finding = screen.finding
        assert finding is not None
        assert finding.id == "snap-lock-below-2-12"
        await click_row(pilot, screen.list, index, times=2)
        assert paragraph(app).number == finding.place
        await press(pilot, "f3")
        await click_lead(pilot, screen.strip, lead(screen.strip, "way", "0"))
        assert finding not in contradicting.report.standing

    drive(contradicting, "findings", job, (120, 40))


def test_waiving_works_by_mouse_too(contradicting: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        on_conflict(findings(app))
        await press(pilot, "w")
        app.screen.query_one("#reason", Input).value = "tested"
        app.screen.query_one("#by", Input).value = "Ada"
        await pilot.click("#waive")
        await rested(pilot)
        assert [waiver.by for waiver in contradicting.waivers] == ["Ada"]
        await press(pilot, "up")
        on_conflict(findings(app), contradicting.report.standing[0].id)
        await press(pilot, "w")
        assert app.screen.query_one("#by", Input).value == "Ada"
        await pilot.click(app.screen.query_one("#leave", Button))
        await rested(pilot)
        assert len(contradicting.waivers) == 1

    drive(contradicting, "findings", job, (120, 40))


def test_the_cursor_comes_to_a_conflict_that_an_answer_raised(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await press(pilot, "end")
        app.answer("seam", "snap-lock")
        await rested(pilot)
        finding = findings(app).finding
        assert finding is not None
        assert finding.kind == "conflict"
        here = findings(app).list
        assert any(line.startswith("▸ !") for line in seen(here))

    drive(session, "findings", job)


def test_a_brief_without_answers_has_nothing_found(new: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = findings(app)
        assert new.report.standing == ()
        assert "Nothing is found." in " ".join(seen(screen.list))
        await press(pilot, "1", "w", "x", "enter", "down", "up")
        assert app.screen is screen

    drive(new, "findings", job)


def test_no_letter_of_a_lead_is_also_a_key_of_the_screen() -> None:
    keys = {key for bound in FindingsScreen.BINDINGS for key in bound.key.split(",")}  # type: ignore[union-attr]
    assert not keys & set(LEAD_KEYS)


@pytest.mark.parametrize("size", SIZES)
def test_without_unicode_findings_and_their_ways_are_ascii(
    contradicting: Session, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SPECGEN_ASCII", "1")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = findings(app)
        assert all(line.isascii() for line in all_lines(screen.list))
        for _ in contradicting.report.standing:
            await pilot.pause(0.1)
            assert said(screen.strip).isascii()
            await pilot.press("down")
        await pilot.press("s")
        await search_over(pilot, app)
        lines = app.screen._compositor.render_strips()
        shown = ["".join(segment.text for segment in line) for line in lines]
        assert all(line.isascii() for line in shown), shown

    drive(contradicting, "findings", job, size)

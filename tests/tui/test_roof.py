"""The roof screen: questions, beside each choice what it would cause, by keyboard and mouse."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot

from specgen.domain import can_be_tried
from specgen.library import Library
from specgen.options import options_of
from specgen.session import Session
from specgen.values import NOT_ASKED
from tests.tui.roof_support import choices_shown, drive, settled, shown
from tui.asked import asked_of
from tui.consequences import consequence
from tui.roof import RoofScreen
from tui.roof_drawing import RoofDrawing
from tui.topics import Topics
from tui.trials import spans_of, trials_of

SIZES = [(80, 24), (120, 40), (60, 20)]


def test_only_questions_that_apply_are_asked_and_next_leads_through_all_of_them(
    new: Session,
) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        asked = asked_of(new.engine)
        screen.go_to(asked.questions[0])
        for question in asked.questions:
            assert screen.question == question
            assert new.engine.scope.lookup(question)[0] is not NOT_ASKED or (
                new.library.questions[question].optional
            )
            await pilot.press("pagedown")
        assert screen.question == asked.questions[-1]
        await pilot.press("pageup")
        assert screen.question == asked.questions[-2]

    drive(new, job)


def test_every_choice_shows_on_its_line_what_it_would_cause(session: Session) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        pilot.app.go_to_question("seam")  # type: ignore[attr-defined]
        await settled(pilot)
        lines = choices_shown(screen)
        assert len(lines) == 4
        options = {option.answer: option for option in options_of(session.engine, "seam")}
        for choice, line in zip(session.library.questions["seam"].choices, lines, strict=True):
            change = options[choice.id].change
            if options[choice.id].current:
                assert line.startswith("▸ * ")
                assert "as answered" in line
                continue
            conflicts = [f for f in change.raised if f.kind == "conflict"]
            assert f"!{len(conflicts)} " in line
            assert f"+{len(change.entered)} -{len(change.left)} " in line
            assert " = " in line

    drive(session, job, (120, 40))


def test_what_the_card_says_of_a_choice_is_what_the_engine_says(session: Session) -> None:
    for question in session.library.questions.values():
        if not can_be_tried(question) or question.kind == "choices":
            continue
        trials = trials_of(session.engine, question)
        if question.id not in asked_of(session.engine).questions:
            continue
        options = {option.answer: option for option in options_of(session.engine, question.id)}
        for trial in trials:
            trial.run(session.engine, question)
            option = options[str(trial.raw)]
            assert trial.change == option.change
            assert trial.picked == option.current
            assert len(trial.counsel) == len(option.counsel)


def test_figures_that_cause_the_same_are_put_together(session: Session) -> None:
    question = session.library.questions["lowest_slope"]
    trials = trials_of(session.engine, question)
    for trial in trials:
        trial.run(session.engine, question)
    spans = spans_of(trials)
    assert spans[0].first is trials[0]
    assert spans[-1].last is trials[-1]
    assert 1 < len(spans) < len(trials)


def test_enter_answers_an_open_question_and_goes_to_the_next_open_one(new: Session) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        screen.go_to("issue")
        await pilot.press("down", "down", "enter")
        await settled(pilot)
        assert new.typed_of("issue") == "for-bid"
        assert screen.question == "issue_date"
        await pilot.press(*"2027-03-15", "enter")
        await settled(pilot)
        assert new.typed_of("issue_date") == "2027-03-15"
        assert screen.question == "code"

    drive(new, job)


def test_a_changed_answer_stays_on_the_screen_and_the_drawing_follows(session: Session) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        screen.go_to("seam")
        await settled(pilot)
        await pilot.press("down", "enter")
        await settled(pilot)
        assert session.typed_of("seam") == "batten"
        assert screen.question == "seam"
        assert "batten seam" in "\n".join(shown(screen, RoofDrawing))
        await pilot.press("ctrl+z")
        await settled(pilot)
        assert session.typed_of("seam") == "double-lock"

    drive(session, job)


def test_a_wrong_figure_is_refused_beside_the_field_and_a_right_one_weighed(
    session: Session,
) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        screen.go_to("panel_run")
        await settled(pilot)
        would = screen.query_one("#would")
        before = session.typed_of("panel_run")
        await pilot.press("ctrl+a", "ctrl+k", *"4000 ft", "enter")
        await pilot.pause()
        assert "above what is sensible" in str(would.render())
        assert session.typed_of("panel_run") == before
        await pilot.press("ctrl+a", "ctrl+k", *"80 ft")
        await pilot.pause()
        assert "would cause:" in str(would.render())
        await pilot.press("enter")
        await settled(pilot)
        assert session.typed_of("panel_run") == "80 ft"

    drive(session, job)


def test_several_choices_are_picked_one_by_one_and_an_answer_is_taken_back(
    session: Session,
) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        screen.go_to("penetrations")
        await settled(pilot)
        picked = list(session.typed_of("penetrations") or ())  # type: ignore[call-overload]
        await pilot.press("home", "space")
        await settled(pilot)
        now = session.typed_of("penetrations")
        assert isinstance(now, list)
        assert set(now) ^ set(picked) == {"pipes"}
        await pilot.press("delete")
        await settled(pilot)
        assert session.typed_of("penetrations") is None
        assert "penetrations" in screen.asked.open
        await pilot.press("enter")
        assert session.typed_of("penetrations") is None  # none of them has to be meant
        await pilot.press("enter")
        await settled(pilot)
        assert session.typed_of("penetrations") == []

    drive(session, job)


def test_a_click_picks_a_choice_at_the_second_time(session: Session) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        screen.go_to("seam")
        await settled(pilot)
        await pilot.click("#choices", offset=(8, 0))
        await pilot.pause()
        assert session.typed_of("seam") == "double-lock"
        await pilot.click("#choices", offset=(8, 0))
        await settled(pilot)
        assert session.typed_of("seam") == "snap-lock"

    drive(session, job)


def test_topics_count_answered_of_asked(session: Session) -> None:
    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        screen.go_to("seam")
        await pilot.pause()
        count = len(screen.asked.topics["panel"])
        assert f"▸panel *{count} " in str(screen.query_one(Topics).render())
        await pilot.press("delete")
        await settled(pilot)
        left = sum(name in screen.asked.open for name in screen.asked.topics["panel"])
        total = len(screen.asked.topics["panel"])
        assert f"▸panel o{total - left}/{total} " in str(screen.query_one(Topics).render())
        await pilot.press("right_square_bracket")
        await pilot.pause()
        assert session.library.questions[screen.question].topic == "attachment"

    drive(session, job)


@pytest.mark.parametrize("size", SIZES)
def test_without_unicode_the_screen_is_ascii(
    session: Session, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SPECGEN_ASCII", "1")

    async def job(pilot: Pilot[None], screen: RoofScreen) -> None:
        for question in ("seam", "insulation", "panel_run", "uplift_tests", "test_records"):
            screen.go_to(question)
            await settled(pilot)
            lines = [*shown(screen, RoofDrawing), *choices_shown(screen)]
            await pilot.press("ctrl+r")
            await pilot.pause()
            lines += shown(screen, RoofDrawing)
            assert all(line.isascii() for line in lines), lines

    drive(session, job, size)


def test_what_changes_nothing_says_so(library: Library, session: Session) -> None:
    question = library.questions["climate_zone"]
    trials = trials_of(session.engine, question)
    same = next(trial for trial in trials if trial.picked)
    same.run(session.engine, question)
    assert consequence(same.change, library) == [("changes nothing else", "muted")]

"""The study screens: the guided reading, an exercise marked and graded, the score that is kept."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from specgen.library import Library
from specgen.session import Session
from specgen.study.grading import Mark, grade
from specgen.study.practice import Planted, exercise
from specgen.study.score import Tally, read_score
from tests.tui.app_support import come_to, drive_app, lines_shown, text_shown, told, wait_until
from tests.tui.lines_support import SIZES, all_lines, click_row, press, rested, said
from tui.app import RoofApp
from tui.dialog import Dialog
from tui.head import PLACES
from tui.kind_finder import KindFinder
from tui.practice_screen import PracticeScreen
from tui.reading_screen import ReadingScreen
from tui.score_list import TopicRow, topic_rows
from tui.study import StudyScreen

SEED = 11
LEVEL = 2


@pytest.fixture(autouse=True)
def one_seed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(StudyScreen, "next_seed", lambda self: SEED)


@pytest.fixture
def app(session: Session) -> RoofApp:
    return RoofApp(session, first="study")


@pytest.fixture(scope="module")
def planted(library: Library) -> tuple[Planted, ...]:
    """The faults of the exercise that the tests are given."""
    return exercise(library, LEVEL, SEED).planted


async def _reading(pilot: Pilot[None]) -> ReadingScreen:
    await pilot.press("r")
    await come_to(pilot, ReadingScreen)
    await rested(pilot)
    screen = pilot.app.screen
    assert isinstance(screen, ReadingScreen)
    return screen


async def _practice(pilot: Pilot[None]) -> PracticeScreen:
    await pilot.press(str(LEVEL), "p")
    await come_to(pilot, PracticeScreen)
    await rested(pilot)
    screen = pilot.app.screen
    assert isinstance(screen, PracticeScreen)
    return screen


async def _mark(pilot: Pilot[None], screen: PracticeScreen, place: str, words: str) -> None:
    """Mark a place by keys alone, the kind of fault found by typing its words."""
    await _go_to(pilot, screen, place)
    await pilot.press("m")
    await come_to(pilot, KindFinder)
    await pilot.press(*("space" if letter == " " else letter for letter in words if letter != ","))
    await rested(pilot)
    await pilot.press("enter")
    await come_to(pilot, PracticeScreen)
    await rested(pilot)


async def _go_to(pilot: Pilot[None], screen: PracticeScreen, place: str) -> None:
    """Move the cursor to a place with the arrow keys, article by article and then on."""
    await pilot.press("home")
    article = ".".join(place.split(".")[:2])
    for key, wanted in (("right", article), ("down", place)):
        for _ in screen.list.rows:
            if _row(screen).number == wanted:
                break
            await pilot.press(key)
    assert _row(screen).number == place


async def _grade(pilot: Pilot[None]) -> None:
    """Grade what is marked, fewer faults than were planted or not."""
    await press(pilot, "g")
    if isinstance(pilot.app.screen, Dialog):
        await press(pilot, "g")


def _row(screen: PracticeScreen) -> Any:
    row = screen.list.row
    assert row is not None
    return row


def _words(screen: PracticeScreen, kind: str) -> str:
    return screen.under_way.exercise.kind(kind).words


def _sound_place(screen: PracticeScreen, planted: Iterable[Planted]) -> str:
    """A paragraph in which nothing was planted."""
    wrong = {place for each in planted for place in (each.place, *each.also)}
    rows = (row for row in screen.list.rows if row.kind == "paragraph" and row.number)
    return next(row.number for row in rows if row.number not in wrong)


# -- the guided reading --------------------------------------------------------------------------


def test_the_whole_reading_goes_from_stop_to_stop_and_back_to_the_studies(app: RoofApp) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _reading(pilot)
        stops = screen.under_way.reading.stops
        assert len(stops) == 15
        for stop in stops:
            assert f"Stop {stop.number} of 15" in lines_shown(app)[2]
            row = screen.article.row
            assert row is not None
            assert row.number == stop.place
            assert " ".join(stop.why.split()) in said(screen.strip)
            assert stop.question in said(screen.strip)
            assert not any(option.says in said(screen.strip) for option in stop.options)
            await pilot.press(str(stop.right + 1))
            await rested(pilot)
            for option in stop.options:
                assert " ".join(option.says.split()) in said(screen.strip)
            await pilot.press("enter")
            await rested(pilot)
        assert isinstance(app.screen, StudyScreen)
        assert any("15 of 15 questions answered right." in notice for notice in told(app))
        assert "at stop 15 of 15, 15 of 15 right" in text_shown(app)

    drive_app(app, job)


def test_the_first_answer_counts_and_a_wrong_one_is_told_as_wrong(app: RoofApp) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _reading(pilot)
        stop = screen.under_way.stop
        wrong = 2 if stop.right == 0 else 1
        await press(pilot, str(wrong))
        assert "- yours" in said(screen.strip)
        await press(pilot, str(stop.right + 1))
        assert "0 of 1 right" in lines_shown(app)[2]
        assert "+ yours" not in said(screen.strip)

    drive_app(app, job)


def test_an_option_can_be_clicked_or_chosen_with_the_arrows(app: RoofApp) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _reading(pilot)
        await press(pilot, "down", "enter")
        assert screen.under_way.picked == {0: 1}
        await press(pilot, "n")
        lead = screen.strip.leads[2]
        await press(pilot, "end")
        line = next(
            n for n, pieces in enumerate(screen.strip._lines) if any(p.lead == 2 for p in pieces)
        )
        y = line - screen.strip.scroll_offset.y + 1
        await pilot.click(screen.strip, offset=(14, y))
        await rested(pilot)
        assert lead.key == "3"
        assert screen.under_way.picked == {0: 1, 1: 2}

    drive_app(app, job, size=(120, 40))


def test_a_reading_is_gone_on_with_where_it_was_left(app: RoofApp) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await _reading(pilot)
        await press(pilot, "1", "n", "n", "f2")
        await press(pilot, "f6")
        assert "at stop 3 of 15" in text_shown(app)
        await press(pilot, "r")
        assert "Stop 3 of 15" in lines_shown(app)[2]
        await press(pilot, "b")
        assert "Stop 2 of 15" in lines_shown(app)[2]
        await press(pilot, "escape")
        assert isinstance(app.screen, StudyScreen)

    drive_app(app, job)


def test_a_stop_leads_to_its_clause_in_the_document(app: RoofApp) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _reading(pilot)
        clause = screen.under_way.stop.clause
        await press(pilot, "d")
        assert app.screen is app.frame_of("document")
        assert app.screen.list.row.clause == clause  # type: ignore[attr-defined]

    drive_app(app, job)


# -- practice ------------------------------------------------------------------------------------


def test_every_fault_marked_right_is_found_and_the_score_is_kept(
    app: RoofApp, planted: tuple[Planted, ...], score_kept_apart: Path
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _practice(pilot)
        for each in planted:
            await _mark(pilot, screen, each.place, _words(screen, each.kind))
        assert screen.under_way.marks == [Mark(each.place, each.kind) for each in planted]
        await _grade(pilot)
        given = screen.under_way.grade
        assert given == grade(screen.under_way.exercise, screen.under_way.marks)
        assert given is not None
        assert given.points == given.most > 0
        assert f"{given.points} of {given.most} points" in lines_shown(app)[2]
        assert {row.mark for row in screen.list.rows if row.mark} == {"found"}

    drive_app(app, job)
    score, set_aside = read_score(score_kept_apart)
    assert not set_aside
    assert score.exercises == 1
    assert sum(tally.found for tally in score.topics.values()) == len(planted)
    assert {each.topic for each in planted} == set(score.topics)


def test_what_was_missed_is_told_at_its_place_with_reason_and_source(
    app: RoofApp, planted: tuple[Planted, ...]
) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _practice(pilot)
        await _grade(pilot)
        shown = " ".join(" ".join(all_lines(screen.list)).split())
        for each in planted:
            assert _row(screen).number == each.place
            assert _row(screen).mark == "missed"
            for words in (each.says, each.because, each.source):
                assert " ".join(words.split()) in said(screen.strip)
            assert f"missed: {each.says}"[:40] in shown
            await press(pilot, "n")

    drive_app(app, job)


def test_wrong_marks_are_told_as_wrong(app: RoofApp, planted: tuple[Planted, ...]) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _practice(pilot)
        first = planted[0]
        other = next(kind for kind in screen.under_way.exercise.kinds if kind.id != first.kind)
        await _mark(pilot, screen, first.place, other.words)
        sound = _sound_place(screen, planted)
        await _mark(pilot, screen, sound, _words(screen, first.kind))
        await _grade(pilot)
        states = {row.number: row.mark for row in screen.list.rows if row.mark}
        assert states[sound] == "sound"
        assert states[first.place] == "other"
        assert all(states[each.place] == "missed" for each in planted[1:])

    drive_app(app, job)


def test_a_mark_is_taken_back_by_key_and_by_click(app: RoofApp) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _practice(pilot)
        kind = screen.under_way.exercise.kinds[0]
        place = _row(screen).number
        await _mark(pilot, screen, place, kind.words)
        assert screen.under_way.marks == [Mark(place, kind.id)]
        assert kind.words in said(screen.strip)
        await press(pilot, "x")
        assert screen.under_way.marks == []
        await _mark(pilot, screen, place, kind.words)
        await press(pilot, "tab", "enter")
        assert screen.under_way.marks == []

    drive_app(app, job)


def test_a_second_click_on_a_paragraph_asks_what_is_wrong(app: RoofApp) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _practice(pilot)
        index = next(n for n, row in enumerate(screen.list.rows) if row.kind == "paragraph")
        await click_row(pilot, screen.list, index, times=2)
        await come_to(pilot, KindFinder)
        await press(pilot, "escape")
        assert screen.under_way.marks == []

    drive_app(app, job)


def test_the_list_of_kinds_narrows_as_one_types_and_says_what_each_means(app: RoofApp) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _practice(pilot)
        kinds = screen.under_way.exercise.kinds
        await pilot.press("m")
        await come_to(pilot, KindFinder)
        assert f"{len(kinds)} found" in text_shown(app)
        await press(pilot, *"missing")
        count = int(next(line for line in lines_shown(app) if " found " in line).split()[1])
        assert 0 < count < len(kinds)
        await press(pilot, *"zzz")
        assert "No kind of fault is called so." in text_shown(app)

    drive_app(app, job)


def test_articles_without_a_fault_are_folded_until_they_are_asked_for(app: RoofApp) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _practice(pilot)
        articles = screen.under_way.exercise.articles

        def others() -> list[str]:
            rows = (row.number for row in screen.list.rows if row.kind == "paragraph")
            return [number for number in rows if ".".join(number.split(".")[:2]) not in articles]

        assert not others()
        await press(pilot, "end", "a")
        assert others()
        assert _row(screen).number in screen.under_way.exercise.places
        screen.list.put_cursor([row.number for row in screen.list.rows].index(others()[0]))
        await press(pilot, "m")
        assert isinstance(app.screen, PracticeScreen)
        assert any("No fault is planted in this article." in notice for notice in told(app))
        await press(pilot, "a")
        assert not others()

    drive_app(app, job)


def test_an_exercise_is_gone_on_with_and_cannot_be_marked_once_graded(app: RoofApp) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        screen = await _practice(pilot)
        kind = screen.under_way.exercise.kinds[0]
        await _mark(pilot, screen, _row(screen).number, kind.words)
        await press(pilot, "escape")
        assert "1 mark made" in text_shown(app)
        await press(pilot, "o")
        assert isinstance(app.screen, PracticeScreen)
        await _grade(pilot)
        assert app.screen.under_way.grade is not None
        await press(pilot, "m", "x")
        assert isinstance(app.screen, PracticeScreen)
        assert len(app.screen.under_way.marks) == 1
        before = app.screen
        await pilot.press("r")
        await wait_until(
            pilot, lambda: isinstance(app.screen, PracticeScreen) and app.screen is not before
        )
        assert app.screen.under_way.grade is None

    drive_app(app, job)


# -- the score -----------------------------------------------------------------------------------


def test_weak_topics_stand_first_and_are_practiced_more(
    app: RoofApp, planted: tuple[Planted, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[tuple[str, ...]] = []
    made = exercise

    def noted(library: Library, level: int, seed: int, weak: Iterable[str] = ()) -> Any:
        asked.append(tuple(weak))
        return made(library, level, seed)

    monkeypatch.setattr("tui.study.exercise", noted)

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await _practice(pilot)
        assert asked == [()]
        await _grade(pilot)
        await press(pilot, "escape")
        screen = app.screen
        assert isinstance(screen, StudyScreen)
        topics = list(dict.fromkeys(row.topic for row in screen.topics.rows))
        assert set(topics) == {each.topic for each in planted}
        assert all(row.weak and row.found == 0 for row in screen.topics.rows)
        assert "weak" in text_shown(app)
        await pilot.press("p")
        await come_to(pilot, PracticeScreen)
        assert set(asked[1]) == set(topics)
        await press(pilot, "escape", "tab", "enter")
        await come_to(pilot, PracticeScreen)
        assert asked[2] == (topics[0],)

    drive_app(app, job)


def test_a_bar_is_as_long_as_the_share_that_was_found() -> None:
    from specgen.study.score import Score

    score = Score(3, {"wording": Tally(4, 4), "seams": Tally(0, 3), "tests": Tally(1, 3)})
    rows = topic_rows(score)
    assert [row.topic for row in rows] == ["seams", "tests", "wording"]
    assert rows[0] == TopicRow("seams", 0, 3, True)
    assert not rows[2].weak


def test_a_damaged_score_is_set_aside_and_said(app: RoofApp, score_kept_apart: Path) -> None:
    score_kept_apart.write_text("no score at all", encoding="utf-8")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await rested(pilot)
        assert told(app)
        assert "stands here once an exercise is graded" in text_shown(app)

    drive_app(app, job)
    kept = [path.read_text(encoding="utf-8") for path in score_kept_apart.parent.iterdir()]
    assert "no score at all" in kept


def test_a_score_that_cannot_be_kept_is_said_and_the_exercise_is_graded_all_the_same(
    app: RoofApp, score_kept_apart: Path
) -> None:
    score_kept_apart.mkdir()

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        before = len(told(app))
        screen = await _practice(pilot)
        await _grade(pilot)
        assert screen.under_way.grade is not None
        assert len(told(app)) > before > 0

    drive_app(app, job)
    assert not list(score_kept_apart.iterdir())


# -- everywhere ----------------------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
def test_the_head_names_every_screen_at_any_size(app: RoofApp, size: tuple[int, int]) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        for number, title in enumerate(PLACES.values(), 1):
            assert f"{number} {title}" in lines_shown(app)[1]

    drive_app(app, job, size=size)


@pytest.mark.parametrize("size", SIZES)
def test_without_unicode_the_study_screens_are_ascii(
    session: Session, monkeypatch: pytest.MonkeyPatch, size: tuple[int, int]
) -> None:
    monkeypatch.setenv("SPECGEN_ASCII", "1")

    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        await _reading(pilot)
        for _ in range(3):
            await press(pilot, "1")
            assert text_shown(app).isascii()
            await press(pilot, "n")
        await press(pilot, "escape")
        screen = await _practice(pilot)
        await _mark(pilot, screen, _row(screen).number, screen.under_way.exercise.kinds[0].words)
        assert text_shown(app).isascii()
        await _grade(pilot)
        assert text_shown(app).isascii()
        await press(pilot, "escape")
        assert "weak" in text_shown(app)
        assert text_shown(app).isascii()

    drive_app(RoofApp(session, first="study"), job, size=size)


def test_a_brief_that_goes_away_says_so_and_is_left_without_asking(session: Session) -> None:
    async def job(pilot: Pilot[None], app: RoofApp) -> None:
        assert "not kept" in lines_shown(app)[0]
        assert "nothing of it is kept" in text_shown(app)
        app.answer("project_name", "Another name")
        await press(pilot, "ctrl+s")
        assert any("goes away" in notice for notice in told(app))
        await press(pilot, "ctrl+q")
        assert not app.is_running

    drive_app(RoofApp(session, first="study", kept=False), job)
    assert "Another name" not in session.path.read_text(encoding="utf-8")

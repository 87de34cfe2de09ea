"""Practice: a section with faults in it, marked paragraph by paragraph, then graded."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial
from typing import ClassVar

from textual import events, on
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from specgen.faults import BadInput
from specgen.study.grading import Grade, Mark, grade
from specgen.study.score import read_score, save_score, score_file, with_grade
from tui.dialog import Dialog, Way
from tui.document_rows import Row
from tui.lead_strip import Lead, LeadStrip
from tui.led_frame import LedFrame
from tui.marks import cut, plain, times
from tui.practice_list import PaperRow, PracticeList, marked_rows, paper_rows, shown_rows
from tui.practice_reason import practice_reason
from tui.studies import SOON_SECONDS, ExerciseUnderWay

# The letters that are no keys of this screen.
LEAD_KEYS = "bcdefhijklopqstuvwyz"


class PracticeScreen(LedFrame):
    """One exercise; what is marked stays with it when the screen goes away."""

    place = "study"
    help_text = (
        "A section of an invented project in which faults were planted. Read it; where something is"
        " wrong, m marks the paragraph and asks what: type some letters of it. What is missing is"
        " marked at the title of its article. x takes a mark back. Articles without a fault are"
        " folded to their titles; a unfolds them.\n"
        "g grades. Then signs in the margin say + found, ~ the place seen but not what is wrong,"
        " - missed, x nothing wrong here; under each stands what was wrong, and below why, on what"
        " authority. n goes to the next of them. The score is kept by topic, and what is missed"
        " comes up more often."
    )
    DEFAULT_CSS = """
    PracticeScreen #exercise { height: 1; width: 100%; padding: 0 1; background: $surface; }
    PracticeScreen LeadStrip { height: 42%; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("m,enter", "mark", "mark"),
        Binding("x,delete", "unmark", "take back"),
        Binding("g", "grade", "grade"),
        Binding("n", "next(1)", "next mark"),
        Binding("a", "whole", "whole section", show=False),
        Binding("N", "next(-1)", "mark before", show=False),
        Binding("r", "another", "another exercise"),
        Binding("right_square_bracket,right", "article(1)", "next article", show=False),
        Binding("left_square_bracket,left", "article(-1)", "article before", show=False),
        Binding("escape", "leave_practice", "to study"),
    ]

    def __init__(self, under_way: ExerciseUnderWay, another: Callable[[], None]) -> None:
        """``another`` begins another exercise of the same level."""
        super().__init__()
        self.under_way = under_way
        self._another = another
        exercise = under_way.exercise
        self._rows = paper_rows(exercise.outline, exercise.articles)
        self._whole = False

    def compose_body(self) -> Iterable[Widget]:
        self.headline = Static("", id="exercise", markup=False)
        self.list = PracticeList("paper", self._tell)
        self.strip = LeadStrip(LEAD_KEYS)
        return self.headline, self.list, self.strip

    def on_mount(self) -> None:
        self.list.focus()
        # Lines are laid out once it is known how wide they are, and a key may come before.
        self.set_timer(SOON_SECONDS, partial(self._show, 0))

    @on(events.Resize)
    def _resized(self) -> None:
        self._title()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Until it is graded it is marked; after that only another one is to be had."""
        graded = self.under_way.grade is not None
        if action in ("mark", "unmark", "grade"):
            return not graded
        return graded if action == "another" else super().check_action(action, parameters)

    # -- what is shown -------------------------------------------------------------------------

    def _show(self, cursor: int) -> None:
        rows = shown_rows(self._rows, self._whole)
        rows = marked_rows(rows, self.under_way.states(), self.under_way.notes())
        self.list.put_rows(rows, cursor)
        self._tell()
        self._title()

    def _tell(self) -> None:
        row = self.list.row
        if row is not None:
            self.strip.show(practice_reason(row, self.under_way))

    def _title(self) -> None:
        exercise = self.under_way.exercise
        left = f"Level {exercise.level}: {exercise.project}, {exercise.location}"
        right = self._standing()
        room = max(0, self.size.width - 2)
        left = cut(plain(left), max(0, room - len(right) - 2))
        gap = " " * max(2, room - len(left) - len(right))
        self.headline.update(Content.assemble((left, "bold"), gap, right))

    def _standing(self) -> str:
        exercise, given = self.under_way.exercise, self.under_way.grade
        if given is not None:
            found = sum(each.verdict == "found" for each in given.faults)
            said = f"{found} of {times(len(given.faults), 'fault')} found"
            return f"{said}, {given.points} of {given.most} points"
        faults = times(len(exercise.planted), "fault")
        where = times(len(exercise.articles), "article")
        return f"{faults} in {where}, {len(self.under_way.marks)} marked"

    # -- marking -------------------------------------------------------------------------------

    @on(PracticeList.Chosen)
    def action_mark(self) -> None:
        """Ask what is wrong under the cursor, and mark it."""
        from tui.kind_finder import KindFinder

        row = self.list.row
        if row is None or self.under_way.grade is not None:
            return
        if isinstance(row, PaperRow) and not row.read:
            self.notify("No fault is planted in this article.", timeout=2)
            return

        def chosen(kind: str) -> None:
            mark = Mark(row.number, kind)
            if self.under_way.grade is None and mark not in self.under_way.marks:
                self.under_way.marks.append(mark)
                self._show(self.list.cursor)

        self.app.push_screen(KindFinder(row.number, self.under_way.exercise.kinds, chosen))

    def action_unmark(self) -> None:
        """Take back the last mark under the cursor."""
        row = self.list.row
        marks = self.under_way.marks_at(row.number) if row is not None else []
        if marks:
            self._take_back(marks[-1])
        else:
            self.notify("Nothing is marked here.", timeout=2)

    def _take_back(self, mark: Mark) -> None:
        self.under_way.marks.remove(mark)
        self._show(self.list.cursor)

    def action_whole(self) -> None:
        """Show what is not part of the exercise as well, or no longer."""
        row = self.list.row
        self._whole = not self._whole
        self._show(self._row_at(row.number) if row is not None else 0)

    # -- grading -------------------------------------------------------------------------------

    def action_grade(self) -> None:
        """Grade what is marked; ask first where there are more faults than marks."""
        faults, marked = len(self.under_way.exercise.planted), len(self.under_way.marks)
        if marked >= faults:
            self._grade()
            return

        def chosen(key: str | None) -> None:
            if key == "g":
                self._grade()

        says = f"{times(faults, 'fault')} planted, {times(marked, 'mark')} made."
        ways = (Way("g", "grade it"), Way("b", "back to reading"))
        self.app.push_screen(Dialog("Grade it now?", says, ways), chosen)

    def _grade(self) -> None:
        given = grade(self.under_way.exercise, self.under_way.marks)
        self.under_way.grade = given
        self.refresh_bindings()
        first = next((f for f in given.faults if f.verdict != "found"), given.faults[0])
        self._show(self._row_at(first.planted.place))
        self._keep(given)

    def _keep(self, given: Grade) -> None:
        """Add a grade to the score as it is kept."""
        path = score_file()
        try:
            score, set_aside = read_score(path)
            save_score(path, with_grade(score, given))
        except BadInput as error:
            set_aside = str(error)
        if set_aside:
            self.notify(set_aside, title="Your score", severity="warning", markup=False)

    def action_another(self) -> None:
        """Begin another exercise, once this one is graded."""
        self._another()

    # -- moving --------------------------------------------------------------------------------

    def _row_at(self, place: str) -> int:
        places = [row.number for row in shown_rows(self._rows, self._whole)]
        return places.index(place) if place in places else 0

    def action_next(self, step: int) -> None:
        """Go to the next place that has a sign, round the end."""
        rows = self.list.rows
        for distance in range(1, len(rows) + 1):
            index = (self.list.cursor + step * distance) % len(rows)
            if rows[index].mark and self.list.can_choose(rows[index]):
                self.list.put_cursor(index)
                return
        self.notify("Nothing is marked.", timeout=2)

    def action_article(self, step: int) -> None:
        """Go to the title of the next article or the one before."""
        heads = [
            index
            for index, row in enumerate(self.list.rows)
            if row.kind == "article" and self.list.can_choose(row)
        ]
        ahead = [index for index in heads if (index - self.list.cursor) * step > 0]
        if ahead:
            self.list.put_cursor(min(ahead) if step > 0 else max(ahead))

    def action_leave_practice(self) -> None:
        self.roof_app.show("study")

    # -- leading on ----------------------------------------------------------------------------

    def follow(self, lead: Lead) -> None:
        row: Row | None = self.list.row
        if lead.kind == "place":
            self.list.put_cursor(self._row_at(lead.id))
            self.list.focus()
        elif row is not None and self.under_way.grade is None:
            self._take_back(Mark(row.number, lead.id))

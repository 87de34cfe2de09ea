"""The study screen: a guided reading, practice on planted faults, and the score by topic."""

from __future__ import annotations

import gc
import random
from collections.abc import Callable, Iterable
from functools import partial
from typing import ClassVar

from textual import events, on
from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static
from textual.worker import Worker, WorkerState

from specgen.faults import BadInput
from specgen.study.guided import Reading, guided_reading
from specgen.study.practice import LEVELS, Exercise, exercise
from specgen.study.score import Score, read_score, score_file, weak_topics
from tui.busy import Busy
from tui.cursor_list import CursorList, Part
from tui.frame import Frame
from tui.marks import plain, times
from tui.practice_screen import PracticeScreen
from tui.reading_screen import ReadingScreen
from tui.score_list import ScoreList, topic_rows
from tui.studies import ExerciseUnderWay, ReadingUnderWay

MOST_SEEDS = 1_000_000


class StudyList(CursorList):
    """What there is to do, a line each."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space", "screen.begin", "begin"),
        Binding("left", "screen.level_by(-1)", "easier", show=False),
        Binding("right", "screen.level_by(1)", "harder", show=False),
    ]

    def clicked(self, again: bool) -> None:
        if again:
            self.screen.action_begin()  # type: ignore[attr-defined]


class StudyScreen(Frame):
    """Leads to the reading and to exercises, and holds them while other screens are shown."""

    place = "study"
    help_text = (
        "Guided reading: the section of one roof, stop by stop, in the order in which a specifier"
        " thinks, each stop a paragraph, its reason and a question.\n"
        "Practice: a section of an invented project with planted faults, for you to find; 1 to 5"
        " set how hard they are to see. What is found and missed is counted by topic, weak topics"
        " first; they come up more often. Tab goes to the topics: enter there practices one."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("r", "read", "guided reading"),
        Binding("p", "practice", "practice"),
        Binding("o", "go_on", "go on", show=False),
        *(Binding(str(n), f"level({n})", f"level {n}", show=False) for n in LEVELS),
    ]
    DEFAULT_CSS = """
    StudyScreen #about { height: auto; padding: 1 1 0 1; }
    StudyScreen StudyList { height: auto; padding: 0 1; margin-top: 1; }
    StudyScreen Busy { padding: 0 1; margin-top: 1; }
    StudyScreen #score { height: auto; padding: 0 1; text-style: bold; }
    """
    AUTO_FOCUS = "StudyList"

    def __init__(self) -> None:
        super().__init__()
        self.level = 1
        self._reading: ReadingUnderWay | None = None
        self._exercise: ExerciseUnderWay | None = None
        self._score = Score()
        self.working = False

    def compose_body(self) -> Iterable[Widget]:
        self.about = Static("", id="about", markup=False)
        self.list = StudyList("studies")
        self.busy = Busy()
        self.over = Static("", id="score", markup=False)
        self.topics = ScoreList("topics", lambda: None)
        return self.about, self.list, self.busy, self.over, self.topics

    def on_mount(self) -> None:
        about = "Read why a section says what it says, then find what is wrong in one."
        if not self.roof_app.is_kept:
            about += (
                " The other screens show the roof of the guided reading: change what you like in"
                " it, nothing of it is kept. Only your score is."
            )
        self.about.update(plain(about))

    @on(events.ScreenResume)
    def _come_back(self) -> None:
        """Show the score as it is kept now, and what is under way."""
        try:
            self._score, set_aside = read_score(score_file())
        except BadInput as error:
            set_aside = str(error)
        if set_aside:
            title = "Your score"
            self.notify(set_aside, title=title, severity="warning", timeout=8, markup=False)
        rows = topic_rows(self._score)
        over = "Your score by topic, the weak ones first"
        if not rows:
            over = "Your score by topic stands here once an exercise is graded."
        self.over.update(f"{over}   {times(self._score.exercises, 'exercise')}" if rows else over)
        self.topics.put_rows(rows, 0)
        self.topics.display = bool(rows)
        self._show_list()

    def _show_list(self) -> None:
        rows = [self._reading_row(), self._practice_row()]
        if self._exercise is not None:
            rows.append(_under_way_row(self._exercise))
        self.list.put_rows(rows)
        self.list.refresh(layout=True)

    def _reading_row(self) -> list[Part]:
        more = "stop by stop: a paragraph, its reason, a question"
        if self._reading is not None:
            stops = len(self._reading.reading.stops)
            right = f"{self._reading.right} of {len(self._reading.picked)} right"
            more = f"at stop {self._reading.stop.number} of {stops}, {right}"
        return [("r  ", "number"), ("guided reading".ljust(19), "strong"), (more, "muted")]

    def _practice_row(self) -> list[Part]:
        name = f"practice, level {self.level}"
        more = f"find {times(self.level, 'fault')} in a section; 1 to 5 set the level"
        return [("p  ", "number"), (name.ljust(19), "strong"), (more, "muted")]

    # -- what is asked for ---------------------------------------------------------------------

    def action_begin(self) -> None:
        """Begin what the cursor is on."""
        (self.action_read, self.action_practice, self.action_go_on)[self.list.cursor]()

    def action_level(self, level: int) -> None:
        """Set the level of the next exercise."""
        self.level = level
        self._show_list()

    def action_level_by(self, step: int) -> None:
        self.action_level(min(max(self.level + step, LEVELS[0]), LEVELS[-1]))

    def action_read(self) -> None:
        """Begin the guided reading, or go on with it."""
        if self._reading is not None:
            self.app.push_screen(ReadingScreen(self._reading))
        else:
            self._work(partial(guided_reading, self.library), "Opening the guided reading")

    def action_practice(self) -> None:
        """Begin an exercise, of weak topics rather than of others."""
        self._practice(weak_topics(self._score))

    def action_practice_topic(self) -> None:
        """Begin an exercise on the topic under the cursor."""
        row = self.topics.row
        if row is not None:
            self._practice((row.topic,))

    def action_go_on(self) -> None:
        """Go on with the exercise that was begun."""
        if self._exercise is None:
            self.notify("No exercise is begun.", timeout=2)
        else:
            self.app.push_screen(PracticeScreen(self._exercise, self._another))

    def next_seed(self) -> int:
        """The seed of the next exercise."""
        return random.SystemRandom().randrange(MOST_SEEDS)

    def _practice(self, weak: tuple[str, ...]) -> None:
        work = partial(exercise, self.library, self.level, self.next_seed(), weak)
        self._work(work, "Writing a section with faults in it")

    def _another(self) -> None:
        """Another exercise, from the page of an exercise that is graded."""
        self.roof_app.show("study")
        self.action_practice()

    # -- beside the keys -----------------------------------------------------------------------

    def _work(self, work: Callable[[], Reading | Exercise], says: str) -> None:
        if self.working:
            self.notify("One moment.", timeout=2)
            return
        self.working = True
        self.busy.begin(says)
        made = partial(_made, work)
        self.run_worker(made, name="study", thread=True, exit_on_error=False)

    @on(Worker.StateChanged)
    def _worked(self, event: Worker.StateChanged) -> None:
        if event.worker.name != "study":
            return
        if event.state is WorkerState.SUCCESS:
            self._take_up(event.worker.result)
        elif event.state is WorkerState.ERROR:
            self._say_failed(event.worker.error)
        else:
            return
        self.working = False
        self.busy.end()
        self._show_list()

    def _take_up(self, made: object) -> None:
        """Show what was made, if one still waits for it here."""
        here = self.app.screen is self
        if isinstance(made, Reading):
            self._reading = ReadingUnderWay(made)
            if here:
                self.action_read()
        elif isinstance(made, Exercise):
            self._exercise = ExerciseUnderWay(made)
            if here:
                self.action_go_on()

    def _say_failed(self, error: BaseException | None) -> None:
        says = "\n".join(map(str, error.faults)) if isinstance(error, BadInput) else str(error)
        self.notify(says, title="Not to be had", severity="error", timeout=12, markup=False)


def _made(work: Callable[[], Reading | Exercise]) -> Reading | Exercise:
    """What work makes. It stays as long as the screens do: looking through it for garbage again
    and again would keep the keys waiting."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        return work()
    finally:
        if collecting:
            gc.freeze()
            gc.enable()


def _under_way_row(under_way: ExerciseUnderWay) -> list[Part]:
    asked = under_way.exercise
    standing = f"{times(len(under_way.marks), 'mark')} made"
    name = "go on with it"
    if under_way.grade is not None:
        standing = f"{under_way.grade.points} of {under_way.grade.most} points"
        name = "look at it again"
    more = f"{asked.project}, level {asked.level}, {standing}"
    return [("o  ", "number"), (name.ljust(19), "strong"), (more, "muted")]

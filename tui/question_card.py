"""The card of one question: what is asked, why, its source, and its choices or a field."""

from __future__ import annotations

import textwrap
from collections.abc import Callable

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Resize
from textual.message import Message
from textual.timer import Timer
from textual.widgets import Input, Static

from specgen.engine import Engine
from specgen.questions import Question, describe_range
from specgen.units import DIMENSIONS
from tui.answer_field import AnswerField
from tui.choices import Choices
from tui.consequences import consequence, in_full
from tui.cursor_list import CursorList
from tui.marks import plain, times
from tui.slices import in_slices
from tui.trials import Trial, picked_of, trial_of_typed, trials_of

LEAST_CHOICES, LEAST_DETAIL = 3, 2


class QuestionCard(Vertical):
    """The question on the screen.

    It posts Given when an answer is given or taken back, and Considered when another answer is
    being weighed (``trial`` is None when none is).
    """

    DEFAULT_CSS = """
    QuestionCard { height: 1fr; padding: 0 1; }
    QuestionCard > #ask { text-style: bold; height: auto; }
    QuestionCard > #why { color: $text-muted; }
    QuestionCard > #would { height: 1; }
    QuestionCard > #detail { height: 1fr; padding: 0 2; }
    """

    class Given(Message):
        def __init__(self, question: str, raw: object, onward: bool) -> None:
            super().__init__()
            self.question = question
            self.raw = raw
            self.onward = onward

    class Considered(Message):
        def __init__(self, trial: Trial | None) -> None:
            super().__init__()
            self.trial = trial

    class Rows(Message):
        """The rows of a question of kind table are to be edited."""

    def __init__(self) -> None:
        super().__init__(id="card")
        self.engine: Engine | None = None
        self.question: Question | None = None
        self._timer: Timer | None = None
        self._weighing = False

    def compose(self) -> ComposeResult:
        yield Static("", id="ask", markup=False)
        yield Static("", id="why", markup=False)
        yield AnswerField("field")
        yield Static("", id="would", markup=False)
        yield Choices("choices")
        yield Static("", id="detail", markup=False)

    @property
    def choices(self) -> Choices:
        return self.query_one(Choices)

    @property
    def field(self) -> AnswerField:
        return self.query_one(AnswerField)

    @property
    def by_choice(self) -> bool:
        """Whether the question on the card is answered by picking."""
        return self.question is not None and self.question.kind in ("choice", "choices", "yes-no")

    # -- what is shown -------------------------------------------------------------------------

    def show(self, engine: Engine, question: Question, raw: object, *, anew: bool) -> None:
        """Show a question and its answer as typed; ``anew`` puts the cursor on the answer."""
        self.engine, self.question = engine, question
        table = question.kind == "table"
        self.query_one("#ask", Static).update(plain(question.ask))
        trials = trials_of(engine, question)
        if table:
            trials = [_rows(question, raw)]
        cursor = None
        if anew:
            cursor = next((at for at, trial in enumerate(trials) if trial.picked), 0)
        self.choices.put(
            trials,
            engine.library,
            cursor=cursor,
            several=question.kind == "choices",
            figures=not self.by_choice and not table,
            bare=table,
        )
        self.field.display = not self.by_choice and not table
        self.query_one("#would").display = self.field.display
        if self.field.display and (anew or not self.field.has_focus):
            self.field.begin(raw if isinstance(raw, str) else "", hint_of(question))
        self._would(_how(question))
        self._fit()
        self._detail()
        if anew:
            self._weighing = False
            self._focus()
        if not table:
            self._try(trials)

    def say(self, says: str) -> None:
        """Say beside the field why an answer was not taken."""
        target = "#would" if self.field.display else "#detail"
        self.query_one(target, Static).update(Content.styled(f"! {plain(says)}", "bold $error"))

    def _focus(self) -> None:
        (self.field if self.field.display else self.choices).focus()

    def focus_answer(self) -> None:
        """Put the cursor where the question is answered."""
        self._focus()

    def _fit(self) -> None:
        """Give the reason what the choices leave; with little room the choices scroll."""
        question, width = self.question, self.size.width - 2
        if question is None or width < 20:
            return
        why = f"{question.why} ({question.source})"
        lines = textwrap.wrap(plain(why), width) or [""]
        room = self.size.height - -(-len(question.ask) // width) - (2 if self.field.display else 0)
        wanted = max(1, len(self.choices.trials)) if not self.field.display else LEAST_CHOICES
        left = room - wanted - LEAST_DETAIL
        shown = min(len(lines), max(2, left))
        if shown < len(lines):
            lines = [*lines[: shown - 1], textwrap.shorten(
                " ".join(lines[shown - 1 :]), width, placeholder=plain("…"))]  # fmt: skip
        static = self.query_one("#why", Static)
        static.styles.height = len(lines)
        static.update("\n".join(lines))
        most = max(LEAST_CHOICES, room - len(lines) - (1 if self.by_choice else 0))
        self.choices.styles.height = min(wanted, most) if not self.field.display else "1fr"
        self.query_one("#detail").display = not self.field.display

    @on(Resize)
    def _resized(self) -> None:
        self._fit()

    def _detail(self) -> None:
        trial = self.choices.trial
        assert self.engine is not None
        text = in_full(trial, self.engine.library) if trial is not None else ""
        self.query_one("#detail", Static).update(text)

    # -- what each would cause -----------------------------------------------------------------

    def _try(self, trials: list[Trial]) -> None:
        """Try every answer, a little at a time, so that no key waits for it."""
        if self._timer is not None:
            self._timer.stop()
        engine, question = self.engine, self.question
        assert engine is not None
        assert question is not None
        order = list(trials)
        if self.choices.trial in order:
            order.insert(0, order.pop(order.index(self.choices.trial)))

        def trying(trial: Trial) -> Callable[[], None]:
            return lambda: trial.run(engine, question)

        self._timer = in_slices(self, [trying(trial) for trial in order], self._tried)

    def _tried(self) -> None:
        self.choices.tell()
        self._detail()
        self._consider()

    def _consider(self) -> None:
        """Tell which other answer the cursor is on, once it was moved there."""
        trial = self.choices.trial
        if not self._weighing:
            return
        other = trial is not None and not trial.picked and trial.following is not None
        self.post_message(self.Considered(trial if other else None))

    @on(CursorList.Moved)
    def _moved(self, event: CursorList.Moved) -> None:
        event.stop()
        self._weighing = True
        self._detail()
        self._consider()

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        question, engine = self.question, self.engine
        if question is None or engine is None:
            return
        if not event.value.strip() or question.kind in ("text", "date"):
            self._would(_how(question))
            self.post_message(self.Considered(None))
            return
        found = trial_of_typed(engine, question, event.value)
        if isinstance(found, str):
            self._would(f"{question.label} {found}")
            self.post_message(self.Considered(None))
            return
        parts = consequence(found.change, engine.library)
        self._would("would cause: " + plain("".join(text for text, _ in parts)))
        self.post_message(self.Considered(found))

    def _would(self, text: str) -> None:
        self.query_one("#would", Static).update(plain(text))

    # -- answering -----------------------------------------------------------------------------

    @on(Choices.Picked)
    def _picked(self, event: Choices.Picked) -> None:
        event.stop()
        assert self.question is not None
        assert self.engine is not None
        if self.question.kind == "table":
            self.post_message(self.Rows() if event.trial is not None else self._taken_back())
        elif event.trial is not None:
            self._give(event.trial.raw, event.onward)
        elif event.onward:
            self._give([c.id for c in picked_of(self.engine, self.question)], True)
        else:
            self.post_message(self._taken_back())

    def _taken_back(self) -> Given:
        assert self.question is not None
        return self.Given(self.question.id, None, False)

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self._give(event.value.strip() or None, True)

    def _give(self, raw: object, onward: bool) -> None:
        assert self.question is not None
        self.post_message(self.Given(self.question.id, raw, onward))


def _rows(question: Question, raw: object) -> Trial:
    """The one line by which the rows of a table are opened."""
    count = len(raw) if isinstance(raw, list) else 0
    columns = ", ".join(column.label for column in question.columns)
    return Trial(None, f"{times(count, 'row')}; enter opens them", False, columns)


def hint_of(question: Question) -> str:
    """What stands in an empty field."""
    if question.kind in DIMENSIONS:
        return f"such as {plain(DIMENSIONS[question.kind].example)}"
    hints = {"date": "2027-03-15", "number": "a number", "text": "type it, then enter"}
    return hints.get(question.kind, "")


def _how(question: Question) -> str:
    """Between which bounds an answer lies, and what is usual."""
    parts = [describe_range(question)]
    if question.usual:
        parts.append(f"Usual: {question.usual}.")
    if question.optional:
        parts.append("May stay empty.")
    return " ".join(part for part in parts if part)

"""The roof screen: the roof drawn, and beneath it one question after the other."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.events import Resize
from textual.widget import Widget

from specgen.engine import Change
from specgen.values import Open
from tui.answer_field import AnswerField
from tui.asked import Asked, asked_of
from tui.consequences import came_of
from tui.frame import Frame
from tui.leads import LeadList, Leads
from tui.marks import plain
from tui.question_card import QuestionCard
from tui.roof_drawing import VIEWS, RoofDrawing
from tui.topics import Topics

LEAST_DRAWING, DRAWING_SHARE, LEAST_CARD = 7, 0.43, 10


class RoofScreen(Frame):
    """Answering, with the roof in sight."""

    place = "roof"
    help_text = (
        "The roof as it stands, in section or in plan, and one question at a time beneath it. "
        "Beside each choice stands what choosing it would cause: ! conflicts raised, what it "
        "settles, clauses in (+), out (-) and reworded (~), and the number that moves (=); the "
        "roof is drawn as it would be. Enter answers and goes to the next open question; space "
        "answers and stays; delete takes an answer back; w (in a field ctrl+g) shows the whole "
        "reason; [ and ] lead from topic to topic. In the drawing, up and down choose a "
        "layer or a zone, and enter leads to its questions, numbers and clauses."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("pagedown", "beside(1)", "next"),
        Binding("pageup", "beside(-1)", "previous"),
        Binding("ctrl+o", "next_open", "next open"),
        Binding("ctrl+r", "turn", "section or plan"),
        Binding("ctrl+l", "to_drawing", "the roof"),
        Binding("right_square_bracket,ctrl+pagedown", "topic(1)", "next topic", show=False),
        Binding("left_square_bracket,ctrl+pageup", "topic(-1)", "topic before", show=False),
        Binding("w,ctrl+g", "why", "why, in full", show=False),
        Binding("o", "next_open", "next open", show=False),
        Binding("v", "turn", "section or plan", show=False),
        Binding("right", "beside(1)", "next", show=False),
        Binding("left", "beside(-1)", "previous", show=False),
    ]
    AUTO_FOCUS = None

    def __init__(self) -> None:
        super().__init__()
        self.question = ""
        self._asked: Asked | None = None
        self._onward = False
        self._note = ""

    def compose_body(self) -> Iterable[Widget]:
        yield RoofDrawing()
        yield Topics()
        yield QuestionCard()
        leads = Leads()
        leads.display = False
        yield leads

    @property
    def asked(self) -> Asked:
        """What is asked with the answers as they stand."""
        if self._asked is None:
            self._asked = asked_of(self.session.engine)
        return self._asked

    @property
    def drawing(self) -> RoofDrawing:
        return self.query_one(RoofDrawing)

    @property
    def card(self) -> QuestionCard:
        return self.query_one(QuestionCard)

    def on_mount(self) -> None:
        first = self.asked.questions
        self._show(self.asked.next_open("") or (first[0] if first else ""))

    @on(Resize)
    def _share_out(self, event: Resize) -> None:
        body = event.size.height - 3
        most = body - 1 - LEAST_CARD
        self.drawing.styles.height = max(LEAST_DRAWING, min(most, round(body * DRAWING_SHARE)))

    # -- what the app asks ---------------------------------------------------------------------

    def go_to(self, name: str) -> None:
        """Show a question; one that is not asked, by the first that it waits on."""
        if name not in self.library.questions:
            return
        value, _ = self.session.engine.scope.lookup(name)
        if name not in self.asked.questions and isinstance(value, Open):
            name = self.session.engine.scope.first_question(value.waits_on)
        if name not in self.asked.questions:
            label = self.library.questions[name].label
            self.notify(f"{label}: not asked with these answers.", timeout=4, markup=False)
            return
        self._show(name)

    def refresh_from(self, change: Change | None) -> None:
        """Repaint after a change, and go on to the next question if that was asked for."""
        self._asked = None
        self._note = came_of(change)
        onward, self._onward = self._onward, False
        following = self.asked.next_open(self.question) if onward else None
        if following is None and self.question not in self.asked.questions:
            following = self.asked.beside(self.question, 0)
        if following is not None and following != self.question:
            self._show(following)
        else:
            self._paint(anew=False)

    def refused(self, question: str, says: str) -> None:
        self._onward = False
        self.card.say(says)

    # -- showing -------------------------------------------------------------------------------

    def _show(self, question: str) -> None:
        """Put a question on the card and the cursor on its answer."""
        if not question:
            return
        self.question = question
        self._card_shown(True)
        self._paint(anew=True)

    def _paint(self, *, anew: bool) -> None:
        question = self.library.questions[self.question]
        engine = self.session.engine
        raw = self.session.typed_of(question.id)
        self.drawing.show(engine, question.id, self._note)
        self.query_one(Topics).show(self.asked, question.topic)
        anew = anew or not self._answering
        keep = self.focused
        self.card.show(engine, question, raw, anew=anew)
        leads = self.query_one(Leads)
        if leads.display and self.drawing.part is not None:
            leads.show(engine, self.drawing.part)
            if keep is not None:
                keep.focus()

    @property
    def _answering(self) -> bool:
        """Whether the focus is where answers are given."""
        return self.focused in (self.card.choices, self.card.field)

    def _card_shown(self, shown: bool) -> None:
        self.card.display = shown
        self.query_one(Leads).display = not shown

    # -- from question to question -------------------------------------------------------------

    def action_beside(self, step: int) -> None:
        self._note = ""
        self._show(self.asked.beside(self.question, step))

    def action_next_open(self) -> None:
        following = self.asked.next_open(self.question)
        if following is None:
            left = self.question in self.asked.open
            self.notify("This is the last open question." if left else "No question is open.")
            return
        self._note = ""
        self._show(following)

    def action_why(self) -> None:
        """Show the whole reason for the question, where the card has no room for it."""
        question = self.library.questions[self.question]
        says = plain(f"{question.why} ({question.source})")
        self.notify(says, title=plain(question.ask), timeout=20, markup=False)

    def action_topic(self, step: int) -> None:
        self.query_one(Topics).action_step(step)

    @on(Topics.Wanted)
    def _topic_wanted(self, event: Topics.Wanted) -> None:
        question = self.asked.first_of(event.topic)
        topics = self.query_one(Topics)
        stay = topics.has_focus
        if question is not None:
            self._show(question)
        if stay:
            topics.focus()

    @on(AnswerField.Beside)
    def _beside_wanted(self, event: AnswerField.Beside) -> None:
        self.action_beside(event.step)

    @on(QuestionCard.Given)
    def _given(self, event: QuestionCard.Given) -> None:
        was_open = event.question in self.asked.open
        if event.raw == self.session.typed_of(event.question):
            if event.onward:
                self.action_beside(1)
            return
        self._onward = event.onward and event.raw is not None and was_open
        self.roof_app.answer(event.question, event.raw)

    @on(QuestionCard.Rows)
    def _rows_wanted(self) -> None:
        self.roof_app.edit_table(self.question)

    @on(QuestionCard.Considered)
    def _considered(self, event: QuestionCard.Considered) -> None:
        """Draw the roof as it would be with the answer under the cursor."""
        trial = event.trial
        if trial is None or trial.following is None:
            self.drawing.show(self.session.engine, self.question, self._note)
        else:
            note = f"as it would be: {trial.label}"
            self.drawing.show(trial.following, self.question, note)

    # -- the drawing ---------------------------------------------------------------------------

    def action_turn(self) -> None:
        """Show the plan instead of the section, or the reverse."""
        self.drawing.turn(VIEWS[1 - VIEWS.index(self.drawing.view)])

    @on(RoofDrawing.View)
    def _view_wanted(self, event: RoofDrawing.View) -> None:
        self.drawing.turn(event.view)

    @on(RoofDrawing.Chosen)
    def _chosen(self, event: RoofDrawing.Chosen) -> None:
        self._card_shown(False)
        self.query_one(Leads).show(self.session.engine, event.part)

    def action_to_drawing(self) -> None:
        self.drawing.show(self.session.engine, self.question, self._note)
        self.drawing.focus()

    def action_to_leads(self) -> None:
        self.query_one(LeadList).focus()

    def action_to_card(self) -> None:
        self._card_shown(True)
        self.card.focus_answer()

    @on(LeadList.Followed)
    def _followed(self, event: LeadList.Followed) -> None:
        lead = event.lead
        if lead.kind == "question":
            self._show(lead.id)
        elif lead.kind == "clause":
            self.roof_app.go_to_clause(lead.id)
        else:
            self.roof_app.go_to_number(lead.id)

"""The field in which a figure, words or a date are typed."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import Input


class AnswerField(Input):
    """One line; enter answers, up and down lead to the questions before and after."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "submit", "answer"),
        Binding("up", "beside(-1)", "previous", show=False),
        Binding("down", "beside(1)", "next", show=False),
        Binding("escape", "restore", "as it was", show=False),
    ]

    class Beside(Message):
        """Another question is wanted, so many places on."""

        def __init__(self, step: int) -> None:
            super().__init__()
            self.step = step

    def __init__(self, widget_id: str | None = None) -> None:
        super().__init__(id=widget_id, select_on_focus=False)
        self._before = ""

    def begin(self, text: str, hint: str) -> None:
        """Show an answer as it was typed, and how one is written where there is none."""
        self._before = text
        self.placeholder = hint
        with self.prevent(Input.Changed):
            self.value = text
        self.cursor_position = len(text)

    def action_beside(self, step: int) -> None:
        self.post_message(self.Beside(step))

    def action_restore(self) -> None:
        self.value = self._before

"""What the app tells the screen that is shown."""

from __future__ import annotations

from textual.message import Message

from specgen.engine import Change


class Answered(Message):
    """The brief has changed. ``change`` is None where everything may have changed."""

    def __init__(self, change: Change | None) -> None:
        super().__init__()
        self.change = change


class Refused(Message):
    """An answer was not taken: nothing has changed, and ``says`` tells why."""

    def __init__(self, question: str, says: str) -> None:
        super().__init__()
        self.question = question
        self.says = says


class Saved(Message):
    """Whether the brief is saved, or its findings' waivers, has changed; no answer has."""

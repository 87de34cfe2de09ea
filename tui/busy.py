"""The sign that something is being done: a bar that moves, in any terminal."""

from __future__ import annotations

from textual.content import Content
from textual.timer import Timer
from textual.widgets import Static

from tui.marks import marks, plain

STEP_SECONDS = 0.1
BAR_WIDTH, BLOCK_WIDTH = 20, 5


class Busy(Static):
    """One line; empty while nothing is being done."""

    DEFAULT_CSS = "Busy { height: 1; width: 100%; }"

    def __init__(self) -> None:
        super().__init__("", markup=False)
        self._timer: Timer | None = None
        self._says = ""
        self._step = 0

    def begin(self, says: str) -> None:
        """Say what is being done, and move."""
        self._says, self._step = plain(says), 0
        self._paint()
        if self._timer is None:
            self._timer = self.set_interval(STEP_SECONDS, self._paint)

    def end(self) -> None:
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        self.update("")

    def _paint(self) -> None:
        at = self._step % (BAR_WIDTH + BLOCK_WIDTH)
        self._step += 1
        bar = "".join(
            marks().full if at - BLOCK_WIDTH <= place < at else marks().empty
            for place in range(BAR_WIDTH)
        )
        self.update(Content(f"{bar}  {self._says}"))

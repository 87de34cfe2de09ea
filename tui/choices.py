"""The choices of a question, beside each of them what choosing it would cause."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.message import Message

from specgen.library import Library
from tui.consequences import consequence
from tui.cursor_list import CursorList, Part
from tui.marks import ANSWERED, cut
from tui.trials import Trial, spans_of

LEAST_LABEL, GAP = 12, 2


class Choices(CursorList):
    """Trials one under the other; of figures, the ranges in which they cause the same."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "pick(True)", "answer"),
        Binding("space", "pick(False)", "answer, stay", show=False),
        Binding("space", "pick_or_not", "pick or not"),
        Binding("enter", "done", "done"),
        Binding("delete,backspace", "take_back", "take back", show=False),
    ]

    class Picked(Message):
        """A choice was picked, or (None) the answer taken back; ``onward`` to the next question."""

        def __init__(self, trial: Trial | None, onward: bool) -> None:
            super().__init__()
            self.trial = trial
            self.onward = onward

    def __init__(self, widget_id: str | None = None) -> None:
        super().__init__(widget_id)
        self.trials: Sequence[Trial] = ()
        self._several = False
        self._figures = False
        self._bare = False
        self._meant = False
        self._library: Library | None = None

    @property
    def trial(self) -> Trial | None:
        """The one that the cursor is on; None where there is nothing to pick."""
        if self._figures or not self.trials:
            return None
        return self.trials[min(self.cursor, len(self.trials) - 1)]

    def put(
        self,
        trials: Sequence[Trial],
        library: Library,
        *,
        cursor: int | None,
        several: bool = False,
        figures: bool = False,
        bare: bool = False,
    ) -> None:
        """Show the trials of another question, or of other answers; ``bare`` ones are not tried."""
        self.trials, self._library = trials, library
        self._several, self._figures, self._bare = several, figures, bare
        self._has_cursor = not figures
        self._meant = self._meant and cursor is None
        self.refresh_bindings()
        self.can_focus = bool(trials) and not figures
        self.tell(cursor)

    def tell(self, cursor: int | None = None) -> None:
        """Say again what each would cause, as far as it was tried."""
        if self._figures:
            spans = [(span.label, span.first, False) for span in spans_of(self.trials)]
        else:
            spans = [(trial.label, trial, trial.picked) for trial in self.trials]
        room = max(LEAST_LABEL, self.size.width * 9 // 20)
        width = min(room, max((len(label) for label, _, _ in spans), default=0)) + GAP
        self.put_rows([self._row(*span, width) for span in spans], cursor)

    def _row(self, label: str, trial: Trial, picked: bool, width: int) -> list[Part]:
        assert self._library is not None
        mark = ANSWERED if picked else " "
        sign = "" if self._figures else f"({mark}) " if self._several else f"{mark} "
        lead = (f"{sign}{cut(label, width - GAP).ljust(width)}", "strong" if picked else "plain")
        if self._bare:
            return [lead]
        if picked and not self._several:
            return [lead, ("as answered", "muted")]
        if self._several and picked:
            return [lead, ("without it: ", "muted"), *consequence(trial.change, self._library)]
        return [lead, *consequence(trial.change, self._library)]

    def on_resize(self) -> None:
        if self._library is not None:
            self.tell()
        super().on_resize()

    def clicked(self, again: bool) -> None:
        if again or self._several:
            self.action_pick_or_not()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Of several choices each is picked or not, and then it is done; of others one is it."""
        if action in ("pick_or_not", "done"):
            return self._several
        return not self._several if action == "pick" else True

    def action_pick(self, onward: bool) -> None:
        """Answer with the choice under the cursor."""
        if self.trial is not None:
            self.post_message(self.Picked(self.trial, onward))

    def action_pick_or_not(self) -> None:
        """Pick the choice under the cursor, or no longer."""
        if self.trial is not None:
            self.post_message(self.Picked(self.trial, False))

    def action_done(self) -> None:
        """Keep what is picked and go on; that nothing is picked has to be meant."""
        if not self._meant and not any(trial.picked for trial in self.trials):
            self._meant = True
            self.notify("Nothing is picked. Space picks; enter once more means: none of them.")
            return
        self.post_message(self.Picked(None, True))

    def action_take_back(self) -> None:
        if not self._figures:
            self.post_message(self.Picked(None, False))

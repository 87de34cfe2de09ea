"""The field in which a cell is typed, over the cell, with what is to be said of it below."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.geometry import Region
from textual.widgets import Input, Static

from tui.marks import cut, plain

LEAST_WIDTH = 10


class CellNote(Static):
    """What is said of the cell that is typed: how it is written, or why it is not taken."""

    DEFAULT_CSS = """
    CellNote {
        position: absolute; layer: over; display: none; height: 1; width: 30;
        background: $panel; color: $text-muted; padding: 0 1;
    }
    CellNote.-fault { color: $error; text-style: bold; }
    """

    def __init__(self) -> None:
        super().__init__("", id="note", markup=False)


class CellField(Input):
    """A cell being typed; enter and tab take it, up and down go through the choices.

    ``fault`` tells at every key why the text is not taken, or nothing.
    """

    DEFAULT_CSS = """
    CellField { position: absolute; layer: over; display: none; width: 20; }
    """
    # Shown on the last line, and clickable; the keys themselves are taken by RecordKeys.
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "take(1)", "take it"),
        Binding("down", "offer(1)", "next choice"),
        Binding("up", "offer(-1)", "choice before", show=False),
        Binding("tab", "take(1)", "take it, next cell", show=False),
        Binding("shift+tab", "take(-1)", "take it, cell before", show=False),
        Binding("escape", "restore", "as it was"),
    ]

    def __init__(
        self, note: CellNote, taken: Callable[[str, int], None], left: Callable[[], None]
    ) -> None:
        """``taken`` is called with the text, and by how many cells the cursor then goes on;
        ``left`` when the cell stays as it was. ``keys`` must be set before it is used.
        """
        super().__init__("", id="cell", select_on_focus=False)
        self.keys: Callable[[events.Key], None]
        self._note, self._taken, self._left = note, taken, left
        self._offers: Sequence[str] = ()
        self._hint = ""
        self._fault: Callable[[str], str] = lambda text: ""
        self._where = self._space = Region()

    def on_key(self, event: events.Key) -> None:
        self.keys(event)

    def begin(
        self,
        text: str,
        where: Region,
        room: Region,
        offers: Sequence[str],
        hint: str,
        fault: Callable[[str], str],
    ) -> None:
        """Show the field over a cell, in the room that there is."""
        self._offers, self._hint, self._fault = offers, hint, fault
        self._where, self._space = where, room
        with self.prevent(Input.Changed):
            self.value = text
        self.cursor_position = len(text)
        self.display = self._note.display = True
        self._tell()
        self.screen.set_focus(self)

    def leave(self) -> None:
        """Take the field away."""
        self.display = self._note.display = False

    def say(self, fault: str) -> None:
        """Say what is wrong with the text; with nothing wrong, how it is written."""
        says = plain(f"! {fault}" if fault else self._hint)
        note, where, space = self._note, self._where, self._space
        wide = min(space.width, max(len(says) + 2, where.width))
        below = where.y + 1 < space.height
        note.set_class(bool(fault), "-fault")
        note.styles.width = wide
        note.styles.offset = (_inside(where.x, wide, space.width), where.y + (1 if below else -1))
        note.update(Content(cut(says, wide - 2)))

    def action_offer(self, step: int) -> None:
        """Put the next choice, or the one before, into the field."""
        if not self._offers:
            return
        now = self.value.strip()
        if now in self._offers:
            place = (self._offers.index(now) + step) % len(self._offers)
        else:
            begun = [n for n, each in enumerate(self._offers) if _begins(each, now)]
            place = begun[0] if begun else (0 if step > 0 else len(self._offers) - 1)
        self.value = self._offers[place]
        self.cursor_position = len(self.value)

    def action_take(self, step: int) -> None:
        """Give the text, if it is taken; else say why not."""
        if not self._tell():
            self._taken(self.value.strip(), step)

    def action_restore(self) -> None:
        """Leave the cell as it was."""
        self._left()

    def on_input_changed(self, event: Input.Changed) -> None:
        event.stop()
        self._tell()

    def _tell(self) -> str:
        """Say why the text is not taken, else how it is written; give the reason."""
        where, space = self._where, self._space
        wide = min(space.width, max(where.width, LEAST_WIDTH, len(self.value) + 1))
        self.styles.width = wide
        self.styles.offset = (_inside(where.x, wide, space.width), where.y)
        text = self.value.strip()
        fault = self._fault(text) if text else ""
        self.say(fault)
        return fault


def _inside(left: int, wide: int, room: int) -> int:
    """A left edge at which something so wide is in the room."""
    return min(max(0, left), max(0, room - wide))


def _begins(offer: str, text: str) -> bool:
    return bool(text) and offer.lower().startswith(text.lower())

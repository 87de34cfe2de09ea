"""A list of one-line rows with a cursor, drawn by the line API: by keyboard and by mouse."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.app import RenderResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from tui.marks import cut, marks, plain

Part = tuple[str, str]
"""A text, and the component class (without its prefix) that gives it its look."""


class CursorList(Widget, can_focus=True):
    """Rows of parts; it scrolls by itself so that the cursor is seen."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        f"list--{name}"
        for name in ("plain", "strong", "muted", "conflict", "settled", "number", "open")
    }
    DEFAULT_CSS = """
    CursorList { height: auto; width: 100%; }
    CursorList > .list--strong { text-style: bold; }
    CursorList > .list--muted { color: $secondary; }
    CursorList > .list--conflict { color: $error; text-style: bold; }
    CursorList > .list--settled { color: $success; }
    CursorList > .list--number { color: $primary; }
    CursorList > .list--open { color: $warning; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", "up", show=False),
        Binding("down", "move(1)", "down", show=False),
        Binding("home", "move(-1000)", "first", show=False),
        Binding("end", "move(1000)", "last", show=False),
    ]

    class Moved(Message):
        """The cursor has come to another row."""

        def __init__(self, sender: CursorList) -> None:
            super().__init__()
            self.sender = sender

        @property
        def control(self) -> CursorList:
            return self.sender

    def __init__(self, widget_id: str | None = None) -> None:
        super().__init__(id=widget_id)
        self.cursor = 0
        self._rows: Sequence[Sequence[Part]] = ()
        self._top = 0
        self._has_cursor = True

    @property
    def count(self) -> int:
        return len(self._rows)

    def put_rows(self, rows: Sequence[Sequence[Part]], cursor: int | None = None) -> None:
        """Show these rows, the cursor where it was or on the one given."""
        self._rows = rows
        if cursor is not None:
            self.cursor = cursor
        self.cursor = min(max(self.cursor, 0), max(0, len(rows) - 1))
        self._keep_in_sight()
        self.refresh()

    def action_move(self, step: int) -> None:
        """Move the cursor."""
        cursor = min(max(self.cursor + step, 0), max(0, len(self._rows) - 1))
        if cursor != self.cursor:
            self.cursor = cursor
            self._keep_in_sight()
            self.refresh()
            self.post_message(self.Moved(self))

    def on_click(self, event: events.Click) -> None:
        row = self._top + event.y
        if 0 <= row < len(self._rows):
            again = row == self.cursor
            self.action_move(row - self.cursor)
            self.clicked(again)

    def clicked(self, again: bool) -> None:
        """A row was clicked, ``again`` if the cursor was on it."""

    def on_mouse_scroll_down(self) -> None:
        self.action_move(1)

    def on_mouse_scroll_up(self) -> None:
        self.action_move(-1)

    def on_resize(self) -> None:
        self._keep_in_sight()

    def on_focus(self) -> None:
        self.refresh()

    def on_blur(self) -> None:
        self.refresh()

    def _keep_in_sight(self) -> None:
        height = max(1, self.size.height)
        top = min(self._top, max(0, len(self._rows) - height))
        self._top = max(min(top, self.cursor), self.cursor - height + 1)

    def get_content_height(self, container: object, viewport: object, width: int) -> int:
        return max(1, len(self._rows))

    def render(self) -> RenderResult:
        return ""

    def render_line(self, y: int) -> Strip:
        width, row = self.size.width, self._top + y
        base = self.rich_style
        if row >= len(self._rows):
            return Strip.blank(width, base)
        here = row == self.cursor and self._has_cursor
        sign = marks().cursor if here else " "
        more = self._more(y, row)
        lit = here and self.has_focus
        look = Style(bold=True, reverse=True) if lit else Style(bold=here)
        segments = [Segment(f"{sign} ", base + look)]
        room = width - 4
        for text, name in self._rows[row]:
            style = base + look
            if not lit:
                style = base + self.get_component_rich_style(f"list--{name}", partial=True) + look
            shown = cut(plain(text), max(0, room))
            room -= len(shown)
            segments.append(Segment(shown, style))
        strip = Strip(segments).adjust_cell_length(width - 2, base + look)
        return Strip.join([strip, Strip([Segment(f" {more}", base)])]).simplify()

    def _more(self, y: int, row: int) -> str:
        """A sign that there are rows above or below those shown."""
        if y == 0 and row > 0:
            return marks().up
        last = y == self.size.height - 1 and row < len(self._rows) - 1
        return marks().below if last else " "

"""A list of rows of one or more lines, drawn by the line API: only the lines on screen are made."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from typing import ClassVar, Generic, TypeVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.strip import Strip

from tui.lines import Lines
from tui.marks import marks
from tui.wrapping import Line

RowType = TypeVar("RowType")


class LineList(Lines, Generic[RowType], can_focus=True):
    """Rows with a cursor. A subclass says which lines a row has and whether it can be chosen."""

    DEFAULT_CSS = "LineList { height: 1fr; }"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", "up", show=False),
        Binding("down", "move(1)", "down", show=False),
        Binding("pageup", "page(-1)", "page up", show=False),
        Binding("pagedown", "page(1)", "page down", show=False),
        Binding("home", "edge(-1)", "first", show=False),
        Binding("end", "edge(1)", "last", show=False),
    ]

    class Chosen(Message):
        """The row under the cursor was chosen: by a second click."""

    def __init__(self, widget_id: str, moved: Callable[[], None]) -> None:
        """``moved`` is called as soon as the cursor has come to another row.

        A message would arrive when the cursor is painted already, and what is told of the row
        would come a frame after it.
        """
        super().__init__(id=widget_id)
        self._moved = moved
        self.rows: Sequence[RowType] = ()
        self.cursor = 0
        self._lines: list[list[Line]] = []
        self._tops: list[int] = []
        self._made: dict[object, list[Line]] = {}
        self._made_for = -1

    # -- what a list of some kind gives --------------------------------------------------------

    def lines_of(self, row: RowType, width: int) -> list[Line]:
        """The lines of a row, each of at most so many cells."""
        raise NotImplementedError

    def key_of(self, row: RowType) -> object:
        """What the lines of a row are made of; rows of equal keys have the same lines."""
        return row

    def can_choose(self, row: RowType) -> bool:
        """Whether the cursor may stand on a row."""
        return True

    # -- rows and the cursor -------------------------------------------------------------------

    @property
    def row(self) -> RowType | None:
        """The row under the cursor."""
        return self.rows[self.cursor] if self.cursor < len(self.rows) else None

    def put_rows(self, rows: Sequence[RowType], cursor: int) -> None:
        """Show these rows, the cursor on one of them or the nearest that can be chosen.

        The cursor's line keeps its height on the screen.
        """
        above = self._top_of(self.cursor) - self.scroll_offset.y
        self.rows = rows
        self._lay_out()
        self.cursor = self._nearest(min(max(cursor, 0), max(0, len(rows) - 1)))
        self.scroll_to_line(self._top_of(self.cursor) - above)
        self._keep_in_sight()
        self.refresh()

    def put_cursor(self, index: int) -> None:
        """Move the cursor to a row, if it can be chosen, and tell."""
        if 0 <= index < len(self.rows) and self.can_choose(self.rows[index]):
            before, self.cursor = self.cursor, index
            self._keep_in_sight()
            if index != before:
                self._refresh_row(before)
                self._refresh_row(index)
                self._moved()

    def action_move(self, step: int) -> None:
        """Move the cursor by a row that can be chosen."""
        index = self.cursor + step
        while 0 <= index < len(self.rows) and not self.can_choose(self.rows[index]):
            index += step
        if 0 <= index < len(self.rows):
            self.put_cursor(index)
        elif step < 0:
            self.scroll_to_line(0)

    def action_page(self, way: int) -> None:
        """Move the cursor by a screenful."""
        if self.rows:
            line = self._top_of(self.cursor) + way * max(1, self.size.height - 2)
            index = self._row_at(min(max(line, 0), max(0, self._height - 1)))
            if index == self.cursor:
                index += way
            self.put_cursor(self._nearest(min(max(index, 0), len(self.rows) - 1), way))

    def action_edge(self, way: int) -> None:
        """Move the cursor to the first row or the last."""
        if self.rows:
            self.put_cursor(self._nearest(0 if way < 0 else len(self.rows) - 1, -way))
        if way < 0:
            self.scroll_to_line(0)

    def on_click(self, event: events.Click) -> None:
        line = self.scroll_offset.y + event.y
        if self.rows and line < self._height:
            index = self._row_at(line)
            again = index == self.cursor and event.chain > 1
            self.put_cursor(index)
            if again:
                self.post_message(self.Chosen())

    def _nearest(self, index: int, way: int = 1) -> int:
        """A row that can be chosen: this one, else the next one that way, else the other way."""
        for step in (way, -way):
            at = index
            while 0 <= at < len(self.rows):
                if self.can_choose(self.rows[at]):
                    return at
                at += step
        return index

    # -- lines ---------------------------------------------------------------------------------

    @property
    def _height(self) -> int:
        return self.virtual_size.height

    def _top_of(self, index: int) -> int:
        return self._tops[index] if index < len(self._tops) else 0

    def _row_at(self, line: int) -> int:
        return max(0, bisect_right(self._tops, line) - 1)

    def _lay_out(self) -> None:
        """Make the lines of every row, those of rows that were there before taken over."""
        width = max(20, self.scrollable_content_region.width - 3)
        known = self._made if width == self._made_for else {}
        made: dict[object, list[Line]] = {}
        self._lines, self._tops, height = [], [], 0
        for row in self.rows:
            key = self.key_of(row)
            lines = made.get(key) or known.get(key) or self.lines_of(row, width)
            made[key] = lines
            self._lines.append(lines)
            self._tops.append(height)
            height += len(lines)
        self._made, self._made_for = made, width
        self.put_height(height)

    def _refresh_row(self, index: int) -> None:
        if index < len(self._lines):
            self.refresh_rows(self._tops[index], len(self._lines[index]))

    def on_resize(self) -> None:
        self._lay_out()
        self._keep_in_sight()
        self.refresh()

    def _keep_in_sight(self) -> None:
        """Scroll so that the row under the cursor is seen, its first line if it is too long."""
        if not self._tops:
            return
        top = self._top_of(self.cursor)
        bottom = top + len(self._lines[self.cursor])
        now, height = self.scroll_offset.y, max(1, self.size.height)
        wanted = max(now, bottom + 1 - height)
        wanted = min(wanted, max(0, top - 1))
        self.scroll_to_line(wanted)

    def on_focus(self) -> None:
        self.refresh()

    def on_blur(self) -> None:
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """One line of the screen: the sign of the cursor, then the line's pieces."""
        width, line = self.size.width, self.scroll_offset.y + y
        base = self.rich_style
        if not self.rows or line >= self._height:
            return Strip.blank(width, base)
        index = self._row_at(line)
        here = index == self.cursor
        sign = "  "
        if here:
            base += self.get_component_rich_style("line--cursor", partial=True)
            first = line == self._tops[index]
            sign = f"{marks().cursor if first else marks().down} "
        pieces = self._lines[index][line - self._tops[index]]
        segments = self.segments_of(pieces, base)
        segments.insert(0, Segment(sign, base + Style(bold=here and self.has_focus)))
        return Strip(segments).adjust_cell_length(width, base)

"""A table of cells with a cursor, drawn by the line API: only the lines on screen are made."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Region
from textual.message import Message
from textual.strip import Strip

from specgen.questions import Question
from tui.lines import Lines
from tui.marks import cut, marks
from tui.record_layout import GAP, columns_of
from tui.record_rows import Rows
from tui.wrapping import shown, width_of

# More columns than are shown, that way.
LEFT, RIGHT = "<", ">"
SIGNS = {"+": "in", "-": "out", "o": "gap", "!": "conflict", "~": "ambiguity"}


class RecordGrid(Lines, can_focus=True):
    """The rows of a table below their heads; the numbers of the rows stay where they are.

    The line after the last row begins a new one.
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {"line--head"}
    DEFAULT_CSS = """
    RecordGrid { height: 1fr; }
    RecordGrid > .line--head { color: $secondary; text-style: bold; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "type", "change"),
        Binding("space", "next_offer", "choice"),
        Binding("up", "move(-1, 0)", "row above", show=False),
        Binding("down", "move(1, 0)", "row below", show=False),
        Binding("left,shift+tab", "move(0, -1)", "cell before", show=False),
        Binding("right,tab", "move(0, 1)", "next cell", show=False),
        Binding("home", "edge(-1)", "first cell", show=False),
        Binding("end", "edge(1)", "last cell", show=False),
        Binding("ctrl+home", "move(-1000000, 0)", "first row", show=False),
        Binding("ctrl+end", "move(1000000, 0)", "last row", show=False),
        Binding("pageup", "page(-1)", "page up", show=False),
        Binding("pagedown", "page(1)", "page down", show=False),
    ]

    class Pasted(Message):
        """Cells are to be set from the cursor on."""

        def __init__(self, text: str) -> None:
            super().__init__()
            self.text = text

    def __init__(
        self,
        question: Question,
        rows: Rows,
        sign_of: Callable[[int], str],
        moved: Callable[[], None],
        typed: Callable[[str | None], None],
        next_offer: Callable[[], None],
    ) -> None:
        """``sign_of`` tells how a row stands; ``moved`` is called when the cursor has moved.

        ``typed`` is called with what is typed into the cell under the cursor, None to change what
        is there; ``next_offer`` when the cell is to take the next of its choices. They are no
        messages: keys that follow fast would overtake them. ``keys`` must be set before it is used.
        """
        super().__init__(id="grid")
        self._moved = moved
        self._typed, self._next_offer = typed, next_offer
        self.keys: Callable[[events.Key], None]
        self.rows = rows
        self.row = self.column = 0
        self._question = question
        self._sign_of = sign_of
        self._widths: Sequence[int] = ()
        self._lefts: Sequence[int] = ()
        self._heads: Sequence[Sequence[str]] = ()
        self._across = 0

    # -- what is shown -------------------------------------------------------------------------

    def show(self) -> None:
        """Show the rows as they are now."""
        self._lay_out()
        self.row = min(self.row, len(self.rows))
        self._keep_in_sight()
        self.refresh()

    @property
    def lead(self) -> int:
        """The width of the number of a row and its sign."""
        return len(str(max(99, len(self.rows)))) + 6

    @property
    def head_height(self) -> int:
        return len(self._heads) + 1

    def cell_region(self) -> Region:
        """Where the cell under the cursor is in this widget."""
        left = self.lead + self._lefts[self.column] - self._across
        top = self.head_height + self.row - self.scroll_offset.y
        return Region(left, top, self._widths[self.column], 1)

    def _lay_out(self) -> None:
        columns = columns_of(self._question, self.rows)
        self._widths, self._lefts, self._heads = columns.widths, columns.lefts, columns.heads
        self.put_height(self.head_height + len(self.rows) + 1)

    # -- the cursor ----------------------------------------------------------------------------

    def put_cursor(self, row: int, column: int) -> None:
        """Move the cursor to a cell, and tell."""
        row = min(max(row, 0), len(self.rows))
        column = min(max(column, 0), len(self.rows.ids) - 1)
        if (row, column) == (self.row, self.column):
            return
        before, across = self.row, self._across
        beside = column != self.column
        self.row, self.column = row, column
        self._keep_in_sight()
        if self._across != across:
            self.refresh()
        else:
            self.refresh_rows(self.head_height + before, 1)
            self.refresh_rows(self.head_height + row, 1)
            if beside:
                self.refresh(Region(0, 0, self.size.width, self.head_height))
        self._moved()

    def action_move(self, down: int, across: int) -> None:
        """Move the cursor; past the end of a row, to the next."""
        row, column = self.row + down, self.column + across
        last = len(self.rows.ids) - 1
        if column > last and self.row < len(self.rows):
            row, column = row + 1, 0
        elif column < 0 and self.row > 0:
            row, column = row - 1, last
        self.put_cursor(row, column)

    def action_edge(self, way: int) -> None:
        """Move the cursor to the first cell of the row, or the last."""
        self.put_cursor(self.row, 0 if way < 0 else len(self.rows.ids) - 1)

    def action_page(self, way: int) -> None:
        """Move the cursor by a screenful of rows."""
        self.put_cursor(self.row + way * max(1, self._height - 1), self.column)

    @property
    def _height(self) -> int:
        """How many rows are in sight."""
        return max(1, self.scrollable_content_region.height - self.head_height)

    def _keep_in_sight(self) -> None:
        if not self._widths:
            return
        height = self._height
        self.scroll_to_line(min(max(self.scroll_offset.y, self.row - height + 1), self.row))
        left, width = self._lefts[self.column], self._widths[self.column]
        self._across = min(max(self._across, left + width + 1 - self._room), left)

    @property
    def _room(self) -> int:
        """How many cells of a line are for the columns."""
        return max(1, self.scrollable_content_region.width - self.lead)

    def action_type(self) -> None:
        self._typed(None)

    def action_next_offer(self) -> None:
        self._next_offer()

    def type_character(self, character: str) -> None:
        """Begin to type the cell under the cursor."""
        self._typed(character)

    def on_key(self, event: events.Key) -> None:
        self.keys(event)

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        self.post_message(self.Pasted(event.text))

    def on_click(self, event: events.Click) -> None:
        place = event.get_content_offset(self)
        if place is None or place.y < self.head_height:
            return
        row = place.y - self.head_height + self.scroll_offset.y
        x = place.x - self.lead + self._across
        columns = [n for n, left in enumerate(self._lefts) if place.x < self.lead or x >= left]
        column = self.column if place.x < self.lead or not columns else columns[-1]
        again = (row, column) == (self.row, self.column)
        if row <= len(self.rows):
            self.put_cursor(row, column)
            if again:
                self.action_type()

    def on_mouse_scroll_right(self) -> None:
        self.action_move(0, 1)

    def on_mouse_scroll_left(self) -> None:
        self.action_move(0, -1)

    def on_resize(self) -> None:
        self._keep_in_sight()

    def on_focus(self) -> None:
        self.refresh()

    def on_blur(self) -> None:
        self.refresh()

    # -- lines ---------------------------------------------------------------------------------

    def render_line(self, y: int) -> Strip:
        """A line: heads first, which stay; then the rows in sight, and the line for a new one."""
        width, base = self.size.width, self.rich_style
        if not self._widths:
            return Strip.blank(width, base)
        if y < self.head_height:
            return self._head_line(y, width, base)
        row = y - self.head_height + self.scroll_offset.y
        if row > len(self.rows):
            return Strip.blank(width, base)
        here = row == self.row
        if here:
            base += self._look("cursor")
        sign = marks().cursor if here else " "
        number, state = (f"{row + 1}", self._sign_of(row)) if row < len(self.rows) else ("+", " ")
        muted = self._look("muted")
        lead = [
            Segment(f"{sign} {number.rjust(self.lead - 6)} ", base + muted),
            Segment(f"{state}  ", base + self._look(SIGNS.get(state, "muted"))),
        ]
        if row < len(self.rows):
            return self._scrolled(lead, self._cells(row, base, here), width, base)
        says, look = ("new row: type, or enter", self._lit()) if here else ("new row", muted)
        return Strip([*lead, Segment(says, base + look)]).adjust_cell_length(width, base)

    def _head_line(self, y: int, width: int, base: Style) -> Strip:
        if y == len(self._heads):
            last = self._lefts[-1] + self._widths[-1]
            before = LEFT if self._across else marks().across
            after = RIGHT if last > self._across + self._room else marks().across
            rule = marks().across * (self._room - 2)
            rule = f"{marks().across * (self.lead - 1)}{before}{rule}{after}{marks().across}"
            return Strip([Segment(rule, base + self._look("muted"))]).adjust_cell_length(width)
        is_unit = y == len(self._heads) - 1
        cells = []
        for place, each in enumerate(self._widths):
            text = self._heads[y][place]
            pad = " " * (each - width_of(text))
            here = place == self.column and not is_unit
            style = base + self._look("muted" if is_unit else "head")
            text = pad + text if self._is_figure(place) else text + pad
            cells.append(Segment(text, style + Style(bold=here)))
            cells.append(Segment(" " * GAP, base))
        return self._scrolled([Segment(" " * self.lead, base)], cells, width, base)

    def _cells(self, row: int, base: Style, here: bool) -> list[Segment]:
        segments = []
        for place, each in enumerate(self._widths):
            text = self.rows[row][self.rows.ids[place]]
            fault = self.rows.fault(place, text)
            look = ""
            if fault:
                look, text = ("gap", text or marks().dot) if not text else ("conflict", text)
            text = cut(shown(text), each)
            pad = " " * max(0, each - width_of(text))
            text = pad + text if self._is_figure(place) else text + pad
            style = base + self._look(look) if look else base
            if here and place == self.column:
                style += self._lit()
            segments.append(Segment(text, style))
            segments.append(Segment(" " * GAP, base))
        return segments

    def _scrolled(
        self, lead: Sequence[Segment], cells: Sequence[Segment], width: int, base: Style
    ) -> Strip:
        """The number of the row, and beside it the cells as far as they are scrolled."""
        x = self._across
        room = max(0, width - self.lead)
        strip = Strip(cells).adjust_cell_length(
            max(x + room, sum(s.cell_length for s in cells)), base
        )
        return Strip.join([Strip(lead), strip.crop(x, x + room)]).adjust_cell_length(width, base)

    def _is_figure(self, column: int) -> bool:
        return self._question.columns[column].kind != "text"

    def _lit(self) -> Style:
        return Style(reverse=self.has_focus, bold=True, underline=not self.has_focus)

    def _look(self, name: str) -> Style:
        return self.get_component_rich_style(f"line--{name}", partial=True)

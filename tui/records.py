"""The rows of a question of kind table, entered and edited cell by cell."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import partial
from typing import ClassVar

from textual import events, on
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.geometry import Region
from textual.widget import Widget
from textual.widgets import Static

from specgen.calculations.coverage import Coverage
from specgen.engine import Change
from tui.cell_field import CellField, CellNote
from tui.consequences import came_of
from tui.frame import Frame
from tui.lead_strip import Block, LeadStrip
from tui.marks import plain, times
from tui.record_columns import offers, written
from tui.record_cover import Cover, cover_of
from tui.record_grid import RecordGrid
from tui.record_keys import RecordKeys
from tui.record_reason import row_reason, sign_of
from tui.record_rows import Row, Rows, pasted


class RecordsScreen(Frame):
    """A table of the brief. Each change of a finished row is one answer, which undo takes back."""

    place = "rows"
    help_text = (
        "The rows of a table of the brief. Type to fill a cell, or enter to change it; what is not"
        " taken is said below the cell at once. Space puts the next choice into it; in the field"
        " up and down go through them.\n"
        "A row is in the brief as soon as every cell is filled; until then it is marked o. Test"
        " records are marked + where they cover this roof and - where they do not; below the rows"
        " stands why. Rows copied from a spreadsheet can be pasted at the cursor."
    )
    CSS = """
    RecordsScreen CellField, RecordsScreen CellField:focus {
        padding: 0; background: $accent 30%; text-style: bold;
    }
    """
    DEFAULT_CSS = """
    RecordsScreen > #body { layers: base over; }
    RecordsScreen #title { height: 1; width: 100%; padding: 0 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+n,insert", "add", "new"),
        Binding("ctrl+d", "copy", "copy"),
        Binding("delete", "delete", "delete"),
        Binding("ctrl+up,alt+up", "move_row(-1)", "move row up", show=False),
        Binding("ctrl+down,alt+down", "move_row(1)", "move row down", show=False),
        Binding("ctrl+g", "in_full", "all that is said below", show=False),
        Binding("escape", "back", "back"),
    ]

    def __init__(self, question: str) -> None:
        super().__init__()
        self._table = question
        self._said_of = Cover()
        self._of_row: Mapping[int, Coverage] = {}
        self._came = ""
        self._blocks: list[Block] = []

    def compose_body(self) -> Iterable[Widget]:
        question = self.library.questions[self._table]
        self.rows = Rows(question, self.session)
        self.grid = RecordGrid(
            question, self.rows, self._sign, self._tell, self._type, self._next_offer
        )
        self.strip = LeadStrip("")
        self.strip.styles.height = "40%"
        self.strip.can_focus = False
        note = CellNote()
        self.field = CellField(note, self._taken, self._leave_cell)
        keys = RecordKeys(self.grid, self.field)
        self.grid.keys = partial(keys.take, at_field=False)
        self.field.keys = partial(keys.take, at_field=True)
        self.headline = Static("", id="title", markup=False)
        yield self.headline
        yield self.grid
        yield self.strip
        yield self.field
        yield note

    def on_mount(self) -> None:
        self._show()
        self.grid.focus()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A screen that is not made yet takes no key."""
        return self.is_mounted and super().check_action(action, parameters)

    # -- what is shown -------------------------------------------------------------------------

    def refresh_from(self, change: Change | None) -> None:
        """Take up the rows as the brief has them, and show what the change did."""
        self.rows.take_up()
        self._came = came_of(change)
        self._show()

    def _show(self) -> None:
        self._said_of = cover_of(self.session.engine.scope, self._table)
        finished = [n for n in range(len(self.rows)) if self.rows.is_finished(self.rows[n])]
        known = len(finished) == len(self._said_of.each)
        self._of_row = dict(zip(finished, self._said_of.each, strict=True)) if known else {}
        self.grid.show()
        self._title(len(finished))
        self._tell()

    def _title(self, finished: int) -> None:
        """What the table is, how many rows it has and how many cover this roof; what came of it."""
        label = self.rows.question.label
        says = times(finished, "row")
        if self._of_row:
            covering = sum(each.covered for each in self._of_row.values())
            says += f", {covering} {'covers' if covering == 1 else 'cover'} this roof"
        if len(self.rows) > finished:
            says += f"; {len(self.rows) - finished} begun"
        left = Content.assemble((plain(f"{label[:1].upper()}{label[1:]}"), "bold"),
                                plain(f": {says}"))  # fmt: skip
        room = self.size.width - 3 - left.cell_length - len(self._came)
        came = Content.styled(plain(self._came), "$accent") if room >= 0 else Content("")
        self.headline.update(Content.assemble(left, " " * max(1, room), came))

    def _sign(self, place: int) -> str:
        return sign_of(self.rows, place, self._of_row.get(place))

    def _tell(self) -> None:
        grid = self.grid
        coverage = self._of_row.get(grid.row)
        scope = self.session.engine.scope
        self._blocks = row_reason(
            self.rows, grid.row, grid.column, self._said_of, coverage, scope, self._offers()
        )
        self.strip.show(self._blocks)

    def _offers(self) -> list[str]:
        scope = self.session.engine.scope
        rows = (self.rows[place] for place in range(len(self.rows)))
        return offers(scope, self.rows.question, self.grid.column, rows)

    def action_in_full(self) -> None:
        """Show all that is said below, where there is no room for it."""
        says = "\n".join(f"{b.head} {_words(b)}".strip() for b in self._blocks)
        self.notify(says, timeout=20, markup=False)

    # -- cells ---------------------------------------------------------------------------------

    def _type(self, typed: str | None) -> None:
        """Open the field over the cell under the cursor."""
        grid = self.grid
        row = self.rows[grid.row] if grid.row < len(self.rows) else None
        if row is None and typed is None:
            grid.put_cursor(grid.row, 0)
        column = grid.column
        about = self.rows.question.columns[column]
        text = typed if typed is not None else row[about.id] if row else ""
        found = self._offers()
        hint = written(about) if about.kind != "text" or not found else ""
        if found:
            hint += f"{'; ' if hint else ''}up and down: {', '.join(found[:3])}"
        inside = grid.cell_region()
        where = Region(inside.x, inside.y + 1, inside.width, 1)  # the title is above the grid
        room = Region(0, 0, grid.size.width, grid.size.height + 1)
        self.field.begin(
            text, where, room, found, hint, lambda typed: self.rows.fault(column, typed)
        )

    def _next_offer(self) -> None:
        """Put the next choice into the cell under the cursor."""
        found = self._offers()
        if not found:
            self.notify("Nothing is likely here; type it.", timeout=2)
            return
        grid, name = self.grid, self.rows.ids[self.grid.column]
        now = self.rows[grid.row][name] if grid.row < len(self.rows) else ""
        following = found[(found.index(now) + 1) % len(found)] if now in found else found[0]
        self._put(grid.row, grid.column, following)

    def _leave_cell(self) -> None:
        """Leave the cell as it was."""
        self.field.leave()
        self.set_focus(self.grid)

    def _taken(self, text: str, step: int) -> None:
        """Set the cell, and go on: in a row that is begun, to its next empty cell."""
        grid, rows = self.grid, self.rows
        row, column = grid.row, grid.column
        begun = row >= len(rows) or not rows.is_finished(rows[row])
        if not text and not begun:
            self.field.say(f"{rows.question.columns[column].label} cannot be empty; esc leaves it")
            return
        self._leave_cell()
        if text or row < len(rows):
            self._put(row, column, text)
        if row >= len(rows):
            return
        gap = rows.first_gap(row, column + 1) if step > 0 and text else None
        if gap is not None:
            grid.put_cursor(row, gap)
        else:
            grid.action_move(0, step)

    def _put(self, row: int, column: int, text: str) -> None:
        if row < len(self.rows) and self.rows[row][self.rows.ids[column]] == text:
            return
        self.rows.put(row, column, text)
        self._give()

    @on(RecordGrid.Pasted)
    def _paste(self, message: RecordGrid.Pasted) -> None:
        """Set cells from the cursor on, all of them as one answer."""
        cells = pasted(message.text)
        if not cells:
            return
        refused = self.rows.put_block(self.grid.row, self.grid.column, cells)
        self._give()
        if refused:
            says = f"{times(refused, 'cell')} of what was pasted cannot be taken as it is."
            self.notify(says, severity="warning", timeout=6, markup=False)

    # -- rows ----------------------------------------------------------------------------------

    def action_add(self) -> None:
        """Begin a row below the one under the cursor."""
        place = min(self.grid.row + 1, len(self.rows))
        self.rows.add(place)
        self._give()
        self.grid.put_cursor(place, 0)

    def action_copy(self) -> None:
        """Copy the row under the cursor below itself."""
        place = self.grid.row
        if place < len(self.rows):
            self.rows.copy(place)
            self._give()
            self.grid.put_cursor(place + 1, self.grid.column)

    def action_delete(self) -> None:
        """Delete the row under the cursor."""
        place = self.grid.row
        if place >= len(self.rows):
            return
        row: Row = self.rows.delete(place)
        self._give()
        if self.rows.is_finished(row):
            self.notify(f"Row {place + 1} is deleted; ^Z takes it back.", timeout=3)

    def action_move_row(self, step: int) -> None:
        """Move the row under the cursor up or down."""
        if self.grid.row < len(self.rows):
            place = self.rows.move(self.grid.row, step)
            self._give()
            self.grid.put_cursor(place, self.grid.column)

    def _give(self) -> None:
        """Give the finished rows as one answer, if they are others than the brief has."""
        self.rows.keep_begun()
        answer = self.rows.answer
        if answer != self.session.typed_of(self._table):
            self.roof_app.answer(self._table, answer)
            self.grid.show()
        else:
            self._show()

    def refused(self, question: str, says: str) -> None:
        self.rows.take_up()
        self._show()
        super().refused(question, says)

    def action_back(self) -> None:
        """Go back to where the table was opened."""
        self.app.pop_screen()

    @on(events.Resize)
    def _place_anew(self) -> None:
        self.call_after_refresh(self._show)


def _words(block: Block) -> str:
    return plain("".join(item.text for item in block.items))

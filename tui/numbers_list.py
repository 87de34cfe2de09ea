"""The list of the numbers screen: rows of the ledger, with looks of their own."""

from __future__ import annotations

from typing import ClassVar

from tui.line_list import LineList
from tui.number_lines import NumberRow
from tui.wrapping import Line


class NumbersList(LineList[NumberRow]):
    """Rows of the ledger; the cursor passes over titles."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"line--figure", "line--rule"}
    DEFAULT_CSS = """
    NumbersList > .line--figure { color: $primary; text-style: bold; }
    NumbersList > .line--rule { color: $secondary 50%; }
    NumbersList > .line--moved { color: $accent; text-style: bold; }
    """

    @property
    def room(self) -> int:
        """How many cells a line has."""
        return max(50, self.scrollable_content_region.width - 2)

    def key_of(self, row: NumberRow) -> object:
        return row.lines

    def can_choose(self, row: NumberRow) -> bool:
        return row.subject.kind != "head"

    def lines_of(self, row: NumberRow, width: int) -> list[Line]:
        return list(row.lines)

    def show_from(self, place: int | None) -> None:
        """Scroll so that a row stands near the top, with what is below it in sight."""
        if place is not None:
            self.scroll_to_line(self._top_of(place) - 1)

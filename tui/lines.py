"""Lines of several looks, drawn by the line API: what the lists and strips of lines share."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region, Size
from textual.scroll_view import ScrollView

from tui.wrapping import Piece

LOOKS = (
    "plain", "strong", "muted", "gap", "gone", "conflict", "omission", "ambiguity", "caution",
    "in", "out", "reworded", "moved", "key", "lead",
)  # fmt: skip


class Lines(ScrollView):
    """A widget of lines. Its height is told by ``put_height``, which lays out nothing else."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {f"line--{look}" for look in (*LOOKS, "cursor")}
    DEFAULT_CSS = """
    Lines {
        width: 100%; overflow-x: hidden; overflow-y: scroll;
        scrollbar-background: $background; scrollbar-background-hover: $background;
        scrollbar-background-active: $background; scrollbar-color: $secondary 40%;
        scrollbar-color-hover: $secondary; scrollbar-color-active: $secondary;
    }
    Lines > .line--strong { text-style: bold; }
    Lines > .line--muted { color: $secondary; }
    Lines > .line--gap { color: $warning; text-style: bold; }
    Lines > .line--gone { color: $secondary; text-style: strike; }
    Lines > .line--conflict { color: $error; text-style: bold; }
    Lines > .line--omission { color: $warning; text-style: bold; }
    Lines > .line--ambiguity { color: $accent; text-style: bold; }
    Lines > .line--caution { color: $secondary; text-style: bold; }
    Lines > .line--in { color: $success; text-style: bold; }
    Lines > .line--out { color: $error; text-style: bold; }
    Lines > .line--reworded { color: $accent; text-style: bold; }
    Lines > .line--moved { color: $secondary; }
    Lines > .line--key { color: $accent; text-style: bold; }
    Lines > .line--lead { color: $primary; }
    Lines > .line--cursor { background: $panel; }
    """

    def put_height(self, height: int) -> None:
        """So many lines there are.

        The scrollbar always shows, so nothing has to move, unless the widget is as high as these.
        """
        size = Size(0, height)
        if self.styles.is_auto_height:
            self.virtual_size = size
        elif size != self.virtual_size:
            self.set_reactive(Lines.virtual_size, size)
            self._scroll_update(size)

    def scroll_to_line(self, line: int) -> None:
        """Scroll at once so that a line is the first one shown, as far as there are lines."""
        height = self.scrollable_content_region.height
        line = max(0, min(line, self.virtual_size.height - height))
        if line != self.scroll_offset.y:
            self.scroll_to(y=line, animate=False, force=True, immediate=True)

    def refresh_rows(self, first: int, count: int) -> None:
        """Draw so many lines again, those of them that are shown."""
        top = first - self.scroll_offset.y
        shown = Region(0, top, self.size.width, count).intersection(self.size.region)
        if shown:
            self.refresh(shown)

    def segments_of(self, pieces: Iterable[Piece], base: Style, lit: int = -2) -> list[Segment]:
        """The segments of pieces on a ground; those of the lead that is lit are reversed."""
        segments = []
        for text, look, lead in pieces:
            style = base + self.get_component_rich_style(f"line--{look}", partial=True)
            segments.append(Segment(text, style + _LIT if lead == lit else style))
        return segments


_LIT = Style(reverse=True)

"""The looks: a light and a dark theme of our own, and how common widgets are drawn."""

from __future__ import annotations

from rich.color import Color
from rich.segment import Segment, Segments
from rich.style import Style
from textual.scrollbar import ScrollBar, ScrollBarRender
from textual.theme import Theme

# Slate and zinc by night, drafting paper by day.
DARK = Theme(
    name="slate",
    primary="#7fa7c9",
    secondary="#9aa8b5",
    accent="#d8b26a",
    warning="#e0a23c",
    error="#ef7d6c",
    success="#8dbf8a",
    foreground="#dfe4e8",
    background="#14181c",
    surface="#1a1f24",
    panel="#232a31",
    dark=True,
)
LIGHT = Theme(
    name="paper",
    primary="#1f5a86",
    secondary="#55626e",
    accent="#7a4b00",
    warning="#8a5200",
    error="#a3241a",
    success="#2c6b2f",
    foreground="#1b2126",
    background="#faf8f2",
    surface="#f3f0e7",
    panel="#e5e0d2",
    dark=False,
)
LOOKS = (DARK, LIGHT)

STYLE = """
Screen { background: $background; color: $foreground; }
ModalScreen { background: $background 60%; }
Input, Input:focus { border: none; height: 1; padding: 0 1; background: $surface; }
Input:focus { background: $panel; text-style: bold; }
OptionList, OptionList:focus { border: none; background: $background; padding: 0; }
DataTable { background: $background; }
Button, Button:hover, Button:focus {
    border: none; height: 1; min-width: 8; padding: 0 2; background: $panel; color: $foreground;
    text-style: none;
}
Button:focus { text-style: bold reverse; }
Toast { border-left: none; padding: 0 1; }
Toast .toast--title { text-style: bold; }
* {
    scrollbar-size-vertical: 1; scrollbar-size-horizontal: 1;
    link-style: none; link-color: $foreground; link-background: transparent;
    link-style-hover: bold underline; link-background-hover: transparent;
    link-color-hover: $accent;
}
"""


class PlainScrollBar(ScrollBarRender):
    """A scrollbar in ASCII."""

    @classmethod
    def render_bar(
        cls,
        size: int = 25,
        virtual_size: float = 50,
        window_size: float = 20,
        position: float = 0,
        thickness: int = 1,
        vertical: bool = True,
        back_color: Color | None = None,
        bar_color: Color | None = None,
    ) -> Segments:
        style = Style(bgcolor=back_color, color=bar_color)
        full, empty = ("#", "|") if vertical else ("#", "-")
        start = end = 0
        if window_size and size and virtual_size and size != virtual_size:
            start = int(position / virtual_size * size)
            end = min(size, start + max(1, round(window_size / virtual_size * size)))
        bars = [full if start <= at < end else empty for at in range(int(size))]
        if vertical:
            lines = [Segment(bar * thickness, style) for bar in bars]
            return Segments(lines, new_lines=True)
        row = [Segment(bar, style) for bar in bars]
        return Segments([*row, Segment.line()] * thickness, new_lines=False)


def draw_scrollbars(*, plain: bool) -> None:
    """Draw every scrollbar from here on in ASCII, or as Textual does."""
    ScrollBar.renderer = PlainScrollBar if plain else ScrollBarRender

"""The roof, drawn by the line API: in section or in plan, its parts to be chosen."""

from __future__ import annotations

from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.app import RenderResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from specgen.engine import Engine
from tui.marks import cut, marks, plain
from tui.roof_parts import DrawnRoof, Piece, RoofPart, drawn_plan, drawn_section

VIEWS = ("section", "plan")


class RoofDrawing(Widget, can_focus=True):
    """The drawing over its whole height, a title line first.

    The parts that the question on the screen decides are drawn strongly; with the focus on the
    drawing one part is chosen, and Chosen tells which.
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        f"roof--{name}"
        for name in ("metal", "clip", "layer", "open", "zone", "muted", "asked", "note", "view")
    }
    DEFAULT_CSS = """
    RoofDrawing { width: 100%; padding: 0 1; }
    RoofDrawing > .roof--metal { color: $primary; text-style: bold; }
    RoofDrawing > .roof--clip { color: $accent; }
    RoofDrawing > .roof--layer { color: $secondary; }
    RoofDrawing > .roof--open { color: $warning; }
    RoofDrawing > .roof--zone { color: $primary; }
    RoofDrawing > .roof--muted { color: $secondary; }
    RoofDrawing > .roof--asked { color: $accent; text-style: bold; }
    RoofDrawing > .roof--note { color: $warning; }
    RoofDrawing > .roof--view { text-style: bold; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "choose(-1)", "part above", show=False),
        Binding("down", "choose(1)", "part below", show=False),
        Binding("enter", "screen.to_leads", "what it leads to"),
        Binding("escape", "screen.to_card", "back to the question"),
    ]

    class Chosen(Message):
        """A layer or a zone was chosen."""

        def __init__(self, part: RoofPart) -> None:
            super().__init__()
            self.part = part

    class View(Message):
        """The title line was clicked: section or plan."""

        def __init__(self, view: str) -> None:
            super().__init__()
            self.view = view

    def __init__(self) -> None:
        super().__init__(id="drawing")
        self.view = "section"
        self.chosen = 0
        self._engine: Engine | None = None
        self._question = ""
        self._note = ""
        self._drawn: DrawnRoof | None = None
        self._columns = 0

    @property
    def parts(self) -> tuple[RoofPart, ...]:
        return self._ready().parts if self._engine is not None else ()

    @property
    def part(self) -> RoofPart | None:
        """The part that is chosen."""
        parts = self.parts
        return parts[min(self.chosen, len(parts) - 1)] if parts else None

    def show(self, engine: Engine, question: str, note: str = "") -> None:
        """Draw the roof of an engine's answers, those parts strongly that a question decides."""
        if engine is not self._engine:
            self._engine, self._drawn = engine, None
        self._question, self._note = question, note
        self.refresh()

    def turn(self, view: str) -> None:
        """Show the section or the plan."""
        if view != self.view:
            self.view, self._drawn, self.chosen = view, None, 0
            self.refresh()
            self._tell()

    def action_choose(self, step: int) -> None:
        """Choose the part above or below."""
        if self.parts:
            self.chosen = min(max(self.chosen + step, 0), len(self.parts) - 1)
            self.refresh()
            self._tell()

    def choose_for(self, question: str) -> None:
        """Choose the first part that a question decides, if there is one."""
        for at, part in enumerate(self.parts):
            if question in part.questions:
                self.chosen = at
                break
        self.chosen = min(self.chosen, max(0, len(self.parts) - 1))
        self.refresh()

    def on_focus(self) -> None:
        self.choose_for(self._question)
        if self.part is not None:
            self.post_message(self.Chosen(self.part))

    def on_blur(self) -> None:
        self.refresh()

    def on_resize(self) -> None:
        self._drawn = None

    def on_mouse_scroll_down(self) -> None:
        self.action_choose(1)

    def on_mouse_scroll_up(self) -> None:
        self.action_choose(-1)

    def on_click(self, event: events.Click) -> None:
        x, y = event.x - 1, event.y
        if y == 0:
            if x < 20:
                self.post_message(self.View(VIEWS[0] if x < 10 else VIEWS[1]))
            return
        owner = self._owner_at(x, y - 1)
        for at, part in enumerate(self.parts):
            if part.id == owner:
                self.chosen = at
                self.refresh()
                self._tell()

    def _owner_at(self, x: int, y: int) -> str:
        """The part under a place of the drawing or of the legend."""
        drawn = self._ready()
        pad = self._pad(drawn)
        if x > self._columns:
            at, lines = x - self._columns - 3, drawn.legend
            y -= self._legend_pad(drawn, pad)
        else:
            at, lines = x, drawn.drawing
            y -= pad
        if not 0 <= y < len(lines):
            return ""
        for text, owner in lines[y]:
            at -= len(text) + (3 if lines is drawn.legend else 0)
            if at < 0:
                return owner
        return lines[y][-1][1] if lines is drawn.legend and lines[y] else ""

    def _tell(self) -> None:
        if self.part is not None and self.has_focus:
            self.post_message(self.Chosen(self.part))

    def _ready(self) -> DrawnRoof:
        if self._drawn is None:
            assert self._engine is not None
            width, rows = self.size.width, max(4, self.size.height - 1)
            self._columns = max(24, width * 21 // 40)
            draw = drawn_section if self.view == "section" else drawn_plan
            self._drawn = draw(self._engine, self._columns, rows)
        return self._drawn

    def _pad(self, drawn: DrawnRoof) -> int:
        """Blank rows over the drawing, which stands on the ground."""
        return max(0, self.size.height - 1 - len(drawn.drawing))

    def _legend_pad(self, drawn: DrawnRoof, pad: int) -> int:
        return pad if self.view == "section" else 0

    def render(self) -> RenderResult:
        return ""

    def render_line(self, y: int) -> Strip:
        width, base = self.size.width, self.rich_style
        if self._engine is None or not width:
            return Strip.blank(width, base)
        drawn = self._ready()
        if y == 0:
            return self._title(drawn, width, base)
        pad = self._pad(drawn)
        segments: list[Segment] = []
        line = y - 1 - pad
        for text, owner in drawn.drawing[line] if 0 <= line < len(drawn.drawing) else ():
            segments.append(Segment(text, base + self._look(owner)))
        art = Strip(segments).adjust_cell_length(self._columns, base)
        line = y - 1 - self._legend_pad(drawn, pad)
        named = drawn.legend[line] if 0 <= line < len(drawn.legend) else ()
        legend = self._legend(named, width - self._columns, base)
        return Strip.join([art, legend]).adjust_cell_length(width, base)

    def _look(self, owner: str, *, legend: bool = False) -> Style:
        part = next((part for part in self.parts if part.id == owner), None)
        if part is None:
            return self.get_component_rich_style("roof--muted", partial=True)
        name = part.look
        if self._is_asked(part) or (self._is_chosen(part) and part.look == "zone"):
            name = "asked"
        elif legend and not self._is_chosen(part):
            return self.get_component_rich_style("roof--muted", partial=True)
        look = self.get_component_rich_style(f"roof--{name}", partial=True)
        if self._is_chosen(part):
            look += Style(bold=True, reverse=legend or part.look != "zone")
        return look

    def _is_asked(self, part: RoofPart) -> bool:
        return self.view == "section" and self._question in part.questions

    def _is_chosen(self, part: RoofPart) -> bool:
        return self.has_focus and part is self.part

    def _legend(self, named: tuple[Piece, ...], room: int, base: Style) -> Strip:
        """The layers of a row by name: a sign before the one chosen, or asked about."""
        segments: list[Segment] = []
        left = room - 1
        share = max(8, (room - 1) // max(1, len(named)))
        for place, (name, owner) in enumerate(named):
            part = next((part for part in self.parts if part.id == owner), None)
            marked = part is not None and (self._is_chosen(part) or self._is_asked(part))
            sign = marks().cursor if marked else marks().across if owner else " "
            wanted = left if place == len(named) - 1 else max(share, left - share)
            text = shortened(name, max(4, wanted - 3))
            style = base + self._look(owner, legend=True)
            segments += [Segment(f" {sign} ", style), Segment(text, style)]
            left -= len(text) + 3
        return Strip(segments).adjust_cell_length(room, base)

    def _title(self, drawn: DrawnRoof, width: int, base: Style) -> Strip:
        """Section or plan, the one shown in brackets; what would be, or the scale."""
        segments = []
        muted = base + self.get_component_rich_style("roof--muted", partial=True)
        strong = base + self.get_component_rich_style("roof--view", partial=True)
        for view in VIEWS:
            here = view == self.view
            text = f"{marks().cursor if here else ' '}{view} "
            segments.append(Segment(text + " ", strong if here else muted))
        left = sum(len(segment.text) for segment in segments)
        note = plain(self._note or drawn.says)
        text = cut(note, max(0, width - left - 1)).rjust(width - left)
        look = base + self.get_component_rich_style("roof--note", partial=True)
        segments.append(Segment(text, look if self._note else muted))
        return Strip(segments).adjust_cell_length(width, base)


def shortened(name: str, width: int) -> str:
    """A name cut to a width, before its first comma if what follows can be kept."""
    head, comma, tail = name.partition(", ")
    room = width - len(tail) - 2
    if len(name) <= width or not comma or room < 10:
        return cut(name, width)
    return f"{cut(head, room)}, {tail}"

"""The strip below a list: what is told of the row under the cursor, and where it leads by a key."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.strip import Strip

from tui.lines import Lines
from tui.marks import marks
from tui.wrapping import HARD_SPACE, Line, Piece, shown, width_of, wrap

HEAD_WIDTH = 9


@dataclass(frozen=True, slots=True)
class Lead:
    """Where a key leads: ``kind`` is question, clause, place, finding, number or way.

    ``key`` is given by the strip where it is empty; ``told`` says more behind the lead.
    """

    kind: str
    id: str
    text: str
    key: str = ""
    told: tuple[Piece, ...] = ()
    look: str = "lead"


@dataclass(frozen=True, slots=True)
class Block:
    """A short head, and words and leads that run on behind it."""

    head: str
    items: tuple[Piece | Lead, ...]


class LeadStrip(Lines, can_focus=True):
    """Blocks; their leads are followed by their keys, by a click, or by enter when focused."""

    DEFAULT_CSS = """
    LeadStrip {
        height: 38%; min-height: 7; max-height: 15;
        border-top: $edge $secondary;
    }
    LeadStrip:focus { border-top: $edge $accent; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space", "follow", "go there"),
        Binding("left,up", "move(-1)", "back", show=False),
        Binding("right,down", "move(1)", "on", show=False),
        Binding("home", "move(-1000)", "first", show=False),
        Binding("end", "move(1000)", "last", show=False),
        Binding("escape", "screen.to_list", "back to the list"),
    ]

    class Followed(Message):
        """A lead is to be followed."""

        def __init__(self, lead: Lead) -> None:
            super().__init__()
            self.lead = lead

    def __init__(self, keys: str) -> None:
        """``keys`` are the letters that leads may have."""
        super().__init__(id="strip")
        self.leads: list[Lead] = []
        self.cursor = 0
        self._keys = keys
        self._blocks: list[tuple[str, list[Piece]]] = []
        self._lines: list[Line] = []

    def show(self, blocks: Sequence[Block], *, stay: bool = False) -> None:
        """Tell these blocks, from the top; or ``stay`` where it is, with the cursor."""
        free = iter(self._keys)
        self.leads = []
        self._blocks = []
        for block in blocks:
            pieces: list[Piece] = []
            for item in block.items:
                if isinstance(item, Piece):
                    pieces.append(item._replace(text=shown(item.text)))
                else:
                    lead = item if item.key else replace(item, key=next(free, ""))
                    pieces += [*_pieces_of(lead, len(self.leads)), Piece(f"{HARD_SPACE} ")]
                    self.leads.append(lead)
            self._blocks.append((block.head, pieces))
        self.cursor = min(self.cursor, max(0, len(self.leads) - 1)) if stay else 0
        self._lay_out()
        if not stay:
            self.scroll_to_line(0)
        self.refresh()

    def lead_of(self, key: str) -> Lead | None:
        """The lead that a key follows."""
        return next((lead for lead in self.leads if lead.key == key), None)

    def first(self, *kinds: str) -> Lead | None:
        """The first lead of some kinds."""
        return next((lead for lead in self.leads if lead.kind in kinds), None)

    def action_follow(self) -> None:
        """Follow the lead under the cursor."""
        if self.leads:
            self.post_message(self.Followed(self.leads[self.cursor]))

    def action_move(self, step: int) -> None:
        """Move the cursor among the leads."""
        self.cursor = min(max(self.cursor + step, 0), max(0, len(self.leads) - 1))
        line = self._line_of(self.cursor)
        height = max(1, self.scrollable_content_region.height)
        now = self.scroll_offset.y
        if step > 0 and self.cursor == len(self.leads) - 1:
            line = max(line, len(self._lines) - 1)
        wanted = 0 if self.cursor == 0 else min(max(now, line - height + 1), line)
        self.scroll_to_line(wanted)
        self.refresh()

    def on_click(self, event: events.Click) -> None:
        place = event.get_content_offset(self)
        if place is None:
            return
        line = self.scroll_offset.y + place.y
        at = 0
        for text, _, lead in self._lines[line] if line < len(self._lines) else ():
            at += width_of(text)
            if place.x < at:
                if lead >= 0:
                    self.cursor = lead
                    self.action_follow()
                return

    def on_resize(self) -> None:
        self._lay_out()
        self.refresh()

    def on_focus(self) -> None:
        self.refresh()

    def on_blur(self) -> None:
        self.refresh()

    def _line_of(self, lead: int) -> int:
        places = (n for n, line in enumerate(self._lines) if any(p.lead == lead for p in line))
        return next(places, 0)

    def _lay_out(self) -> None:
        width = max(20, self.scrollable_content_region.width - 2)
        lines: list[Line] = []
        for head, pieces in self._blocks:
            indent = HEAD_WIDTH if head else 0
            for index, line in enumerate(wrap(pieces, width - indent)):
                name = head if index == 0 else ""
                margin = Piece(f" {name.ljust(indent)}", "muted")
                lines.append((margin, *line))
        self._lines = lines
        self.put_height(len(lines))

    def render_line(self, y: int) -> Strip:
        """One line: the head of a block, then its words and leads."""
        width, base = self.size.width, self.rich_style
        line = self.scroll_offset.y + y
        if line >= len(self._lines):
            return Strip.blank(width, base)
        lit = self.cursor if self.has_focus else -2
        segments = self.segments_of(self._lines[line], base, lit)
        return Strip(segments).adjust_cell_length(width, base)


def _pieces_of(lead: Lead, index: int) -> Iterable[Piece]:
    """A lead as it is drawn: its key in brackets, its text, and what is told behind it."""
    yield Piece(f"[{lead.key or marks().dot}]", "key", index)
    text = shown(lead.text).replace(" ", HARD_SPACE)
    yield Piece(f"{HARD_SPACE}{text}", lead.look, index)
    yield Piece(" ")
    yield from (piece._replace(text=shown(piece.text)) for piece in lead.told)


def told(text: str, look: str = "plain") -> tuple[Piece, ...]:
    """A text as the items of a block."""
    return (Piece(text, look),)

"""Dialogs: a few ways to go on, each with a key of its own; and a line to be typed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Input, Static

from tui.cursor_list import CursorList, Part
from tui.marks import plain
from tui.modal import Modal

BOX_CSS = """
@ { align: center middle; background: $background 60%; }
@ > Vertical {
    width: 90%; max-width: 88; height: auto; max-height: 90%;
    border: $edge $accent; background: $surface; padding: 0 1;
}
@ .head { text-style: bold; height: auto; }
@ .says { height: auto; margin-bottom: 1; }
@ .keys { color: $text-muted; height: auto; margin-top: 1; }
@ .fault { color: $error; height: auto; }
"""


@dataclass(frozen=True, slots=True)
class Way:
    """One way to go on: its key, what it does in a few words, and what that means."""

    key: str
    does: str
    means: str = ""


class WayList(CursorList):
    """The ways of a dialog, one a line."""

    def clicked(self, again: bool) -> None:
        self.screen.action_choose()  # type: ignore[attr-defined]


class Dialog(Modal[str]):
    """Gives the key of the way that is chosen; empty if none is."""

    DEFAULT_CSS = BOX_CSS.replace("@", "Dialog")
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space", "choose", "choose"),
        Binding("escape", "leave", "back"),
    ]

    def __init__(self, head: str, says: str, ways: Sequence[Way]) -> None:
        super().__init__()
        self._head, self._says = plain(head), plain(says)
        self.ways = ways

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Static(self._head, classes="head", markup=False)
            yield Static(self._says, classes="says", markup=False)
            yield WayList("ways")
            yield Static("a letter or enter chooses   esc goes back", classes="keys")

    def on_mount(self) -> None:
        width = max(len(way.does) for way in self.ways) + 2
        rows: list[list[Part]] = [
            [
                (f"{way.key}  ", "number"),
                (way.does.ljust(width), "strong"),
                (way.means, "muted"),
            ]
            for way in self.ways
        ]
        found = self.query_one(WayList)
        found.put_rows(rows, 0)
        found.focus()

    def on_key(self, event: events.Key) -> None:
        if any(way.key == event.character for way in self.ways):
            event.stop()
            self.dismiss(event.character)

    def action_choose(self) -> None:
        self.dismiss(self.ways[self.query_one(WayList).cursor].key)

    def action_leave(self) -> None:
        self.dismiss("")


class AskLine(Modal[str]):
    """Asks for one line; gives it, or nothing. ``refuse`` says why a line is not taken, or not."""

    DEFAULT_CSS = BOX_CSS.replace("@", "AskLine")
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "back")]

    def __init__(
        self, head: str, text: str, refuse: Callable[[str], str] = lambda line: ""
    ) -> None:
        super().__init__()
        self._head, self._text, self._refuse = plain(head), text, refuse

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Static(self._head, classes="head", markup=False)
            yield Input(self._text, select_on_focus=False)
            yield Static("", classes="fault", markup=False)
            yield Static("enter takes it   esc goes back", classes="keys")

    @on(Input.Submitted)
    def _given(self, event: Input.Submitted) -> None:
        line = event.value.strip()
        says = self._refuse(line) if line else "Type a name, or esc."
        if says:
            self.query_one(".fault", Static).update(Content(f"! {plain(says)}"))
        else:
            self.dismiss(line)

    def action_leave(self) -> None:
        self.dismiss("")

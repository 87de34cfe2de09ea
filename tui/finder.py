"""Finding something by typing: a line to type in, and below it what fits, the best first."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widget import Widget
from textual.widgets import Input, Static

from tui.cursor_list import CursorList, Part
from tui.dialog import BOX_CSS
from tui.modal import Modal

MOST_SHOWN = 200


@dataclass(frozen=True, slots=True)
class Found:
    """Something that can be found: how it is shown, and what happens when it is chosen."""

    row: tuple[Part, ...]
    go: Callable[[], None]


class FoundList(CursorList):
    """What fits what was typed."""

    def clicked(self, again: bool) -> None:
        self.screen.action_go()  # type: ignore[attr-defined]


class Finder(Modal[None]):
    """A subclass says in ``fitting`` what fits; enter goes there."""

    head: ClassVar[str] = ""
    hint: ClassVar[str] = ""
    nothing: ClassVar[str] = "Nothing fits."

    DEFAULT_CSS = (
        BOX_CSS.replace("@", "Finder")
        + """
    Finder { align: center top; }
    Finder > Vertical { width: 94%; max-width: 112; height: 90%; margin-top: 1; }
    Finder FoundList { height: 1fr; }
    Finder #how { color: $text-muted; height: 1; }
    """
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "back"),
        Binding("up", "move(-1)", "up", show=False, priority=True),
        Binding("down", "move(1)", "down", show=False, priority=True),
        Binding("pageup", "move(-10)", "up", show=False, priority=True),
        Binding("pagedown", "move(10)", "down", show=False, priority=True),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._found: Sequence[Found] = ()

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Static(self.head, classes="head", markup=False)
            yield Input(placeholder=self.hint)
            yield FoundList("found")
            yield from self.more()
            yield Static("", id="how", markup=False)

    def on_mount(self) -> None:
        if self.query(Input):  # a key that came at once may have sent it away already
            self.query_one(Input).focus()
            self._find("")

    def more(self) -> Iterable[Widget]:
        """What stands below the list."""
        return ()

    def fitting(self, typed: str) -> Sequence[Found]:
        """What fits what was typed, the best first."""
        raise NotImplementedError

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        self._find(event.value)

    def _find(self, typed: str) -> None:
        found = self.fitting(typed.strip())
        self._found = found[:MOST_SHOWN]
        self.query_one(FoundList).put_rows([each.row for each in self._found], 0)
        how = f"{len(found)} found" if found else self.nothing
        self.query_one("#how", Static).update(f"{how}   arrows choose   enter goes   esc goes back")

    def action_move(self, step: int) -> None:
        self.query_one(FoundList).action_move(step)

    @on(Input.Submitted)
    def action_go(self) -> None:
        """Do or go to what the cursor is on."""
        if not self._found:
            return
        chosen = self._found[self.query_one(FoundList).cursor]
        self.dismiss()
        self.app.call_later(chosen.go)

    def action_leave(self) -> None:
        self.dismiss()

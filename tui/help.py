"""Help: what a screen is for, every key that works on it, and what the signs mean."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from tui.dialog import BOX_CSS
from tui.head import PLACES
from tui.keyline import MOVES, own_bindings, shown_key
from tui.marks import ANSWERED, IN, KINDS, MOVED, OPEN, OUT, REWORDED, plain
from tui.modal import Modal

EVERYWHERE = {
    f"F1 to F{len(PLACES)}": "the screens; a click on a name does the same",
    "^P": "every action by its name",
    "^F": "search questions, clauses, standards, findings and numbers",
    "^Z  ^Y": "undo, redo; as far back as the brief was opened",
    "^S": "save the brief",
    "^T": "light or dark",
    "?  F9": "this help; F9 also while you type",
    "^Q": "leave; what is not saved is kept beside the brief",
}
SIGNS = (
    *((sign, kind) for kind, sign in KINDS.items()),
    (OPEN, "an open question or decision"),
    (ANSWERED, "answered, picked"),
    (IN, "beside a choice: clauses that come in"),
    (OUT, "clauses that go out"),
    (REWORDED, "clauses that are reworded"),
    (MOVED, "a number that moves"),
)


class Help(Modal[None]):
    """Help on a screen."""

    DEFAULT_CSS = (
        BOX_CSS.replace("@", "Help")
        + """
    Help > Vertical { height: 90%; }
    Help VerticalScroll { height: 1fr; }
    Help #text { height: auto; }
    """
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,question_mark,f9,enter,q", "leave", "back"),
    ]

    def __init__(self, screen: Screen[object]) -> None:
        super().__init__()
        self._keys = keys_of(screen)
        self._text = str(getattr(screen, "help_text", ""))
        self._place = str(getattr(screen, "place", "")).title()

    def compose(self) -> ComposeResult:
        with Vertical():
            head = f"{self._place}: what it is and how it is used" if self._place else "Help"
            yield Static(head, classes="head", markup=False)
            with VerticalScroll():
                yield Static(Content("\n").join(self._lines()), id="text", markup=False)
            yield Static("arrows scroll   esc goes back", classes="keys")

    def on_mount(self) -> None:
        self.query_one(VerticalScroll).focus()

    def action_leave(self) -> None:
        self.dismiss()

    def _lines(self) -> Iterator[Content]:
        yield Content(plain(self._text))
        yield from _table("Keys here", self._keys)
        yield from _table("Keys everywhere", EVERYWHERE.items())
        yield from _table("Signs", SIGNS)


def _table(head: str, rows: Iterable[tuple[str, str]]) -> Iterator[Content]:
    rows = list(rows)
    if not rows:
        return
    width = max(len(key) for key, _ in rows) + 2
    yield Content("")
    yield Content.styled(head, "bold")
    for key, says in rows:
        yield Content.assemble((f"  {key.ljust(width)}", "bold $accent"), plain(says))


def keys_of(screen: Screen[object]) -> list[tuple[str, str]]:
    """The keys of what has the focus on a screen and of the screen, one line an action."""
    keys: dict[str, list[str]] = {}
    moves = False
    for _, binding in own_bindings(screen):
        if not binding.description:
            continue
        if binding.description in MOVES:
            moves = True
            continue
        said = keys.setdefault(binding.description, [])
        if shown_key(binding.key) not in said:
            said.append(shown_key(binding.key))
    rows = [("  ".join(found), says) for says, found in keys.items()]
    return [*rows, *([("arrows", "move the cursor")] if moves else ()), ("tab", "the next part")]

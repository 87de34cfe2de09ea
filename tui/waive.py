"""Answering for a finding: a reason and a name."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.widgets import Button, Input, Static

from specgen.checks import Finding
from tui.modal import Modal
from tui.wrapping import shown

LONGEST = 400
DIALOG_CSS = """
@ { align: center middle; background: $background 60%; }
@ > Vertical {
    width: 90%; max-width: 92; height: auto; max-height: 90%;
    border: $edge $accent; background: $surface; padding: 0 1;
}
@ .head { height: auto; text-style: bold; }
@ .says { height: auto; margin-top: 1; }
@ .muted { color: $text-muted; height: auto; }
@ .fault { color: $error; height: auto; }
@ Horizontal { height: 1; }
@ Input { background: $background; }
@ Input:focus { background: $panel; }
@ Button { margin-right: 2; }
"""


class Waive(Modal[tuple[str, str] | None]):
    """Asks for a reason and a name; gives both, or None."""

    DEFAULT_CSS = DIALOG_CSS.replace("@", "Waive")
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "leave it standing")]

    def __init__(self, finding: Finding, alike: int, by: str) -> None:
        """``alike`` is how many findings of its check the waiver would hold for."""
        super().__init__()
        self._alike = alike
        self._finding = finding
        self._by = by

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Static(self._head(), classes="head", markup=False)
            yield Static(shown(self._finding.says), classes="muted", markup=False)
            yield Static("Why it may stand:", classes="says")
            yield Input(id="reason", max_length=LONGEST)
            yield Static("Who answers for it:", classes="says")
            yield Input(self._by, id="by", max_length=LONGEST)
            yield Static("", id="fault", classes="fault", markup=False)
            with Horizontal():
                yield Button("waive", id="waive")
                yield Button("leave it standing (esc)", id="leave")

    def _head(self) -> str:
        kind = self._finding.kind
        if self._alike < 2:
            return f"Let this {kind} stand, and say why"
        return f"Let this {kind} stand, with {self._alike - 1} more that its check finds"

    def on_mount(self) -> None:
        self.query_one("#reason", Input).focus()

    @on(Input.Submitted, "#reason")
    def _reason_given(self) -> None:
        self.query_one("#by", Input).focus()

    @on(Input.Submitted, "#by")
    @on(Button.Pressed, "#waive")
    def _given(self) -> None:
        """Waive, if there are a reason and a name."""
        for field, says in (("reason", "A waiver needs a reason."), ("by", "It needs a name.")):
            entry = self.query_one(f"#{field}", Input)
            if not entry.value.strip():
                self.query_one("#fault", Static).update(f"! {says}")
                entry.focus()
                return
        reason, by = (self.query_one(f"#{field}", Input).value for field in ("reason", "by"))
        self.dismiss((reason.strip(), by.strip()))

    @on(Button.Pressed, "#leave")
    def action_leave(self) -> None:
        self.dismiss(None)

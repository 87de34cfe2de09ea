"""What all screens share: the head above, the keys below, and being told of changes."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, ClassVar, cast

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Container
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from specgen.engine import Change
from specgen.library import Library
from specgen.session import Session
from tui.head import Head, Places
from tui.keyline import KeyLine
from tui.messages import Answered, Refused, Saved

if TYPE_CHECKING:
    from tui.app import RoofApp

LEAST_WIDTH, LEAST_HEIGHT = 60, 20


class Frame(Screen[None]):
    """A screen of the app.

    A screen says what is in its ``compose_body``, repaints in ``refresh_from`` what a change
    touched, and puts the cursor on what it is asked for in ``go_to``. ``name`` (roof, document,
    findings, numbers, write) is its place in the head; ``help_text`` is shown with its keys.
    """

    help_text: ClassVar[str] = ""
    place: ClassVar[str] = ""

    DEFAULT_CSS = """
    Frame { layout: vertical; }
    Frame > #body { height: 1fr; width: 100%; }
    Frame > #too-small { display: none; height: 1fr; width: 100%; content-align: center middle; }
    Frame.-too-small > * { display: none; }
    Frame.-too-small > #too-small { display: block; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._shown = -1
        self._wanted: str | None = None
        self._made = False

    @property
    def roof_app(self) -> RoofApp:
        return cast("RoofApp", self.app)

    @property
    def session(self) -> Session:
        return self.roof_app.session

    @property
    def library(self) -> Library:
        return self.roof_app.library

    # -- what a screen gives -------------------------------------------------------------------

    def compose_body(self) -> Iterable[Widget]:
        """The widgets between the head and the keys."""
        return ()

    def refresh_from(self, change: Change | None) -> None:
        """Repaint what a change touched; everything if it is None."""

    def go_to(self, name: str) -> None:
        """Put the cursor on a question, clause, check or calculation, by its id."""

    def refused(self, question: str, says: str) -> None:
        """Say beside the field that an answer was not taken."""
        self.notify(says, title=self.library.questions[question].label, severity="warning")

    # -- how it works --------------------------------------------------------------------------

    def compose(self) -> ComposeResult:
        yield Head()
        yield Places(self.place)
        with Container(id="body"):
            yield from self.compose_body()
        yield Static("", id="too-small", markup=False)
        yield KeyLine()

    def arrive(self, name: str | None) -> None:
        """Called before the screen is shown: what the cursor is wanted on, or None."""
        self._wanted = name

    @on(events.Mount)
    def _all_made(self) -> None:
        self._made = True
        self.call_after_refresh(self.catch_up)

    @on(events.ScreenResume)
    def _resumed(self) -> None:
        self.call_after_refresh(self.catch_up)

    def catch_up(self) -> None:
        """Take up what has changed while another screen was shown."""
        if not self._made:
            return
        revision = self.roof_app.revision
        if self._shown != revision:
            first = self._shown < 0
            self._shown = revision
            self.query_one(Head).show(self.session)
            if not first or revision:
                self.refresh_from(None)
        wanted, self._wanted = self._wanted, None
        if wanted is not None:
            self.go_to(wanted)

    @on(Answered)
    def _answered(self, message: Answered) -> None:
        message.stop()
        self._shown = self.roof_app.revision
        self.query_one(Head).show(self.session)
        self.refresh_from(message.change)

    @on(Refused)
    def _refused(self, message: Refused) -> None:
        message.stop()
        self.refused(message.question, message.says)

    @on(Saved)
    def _saved(self, message: Saved) -> None:
        message.stop()
        self.query_one(Head).show(self.session)

    @on(events.Resize)
    def _measure(self, event: events.Resize) -> None:
        small = event.size.width < LEAST_WIDTH or event.size.height < LEAST_HEIGHT
        self.set_class(small, "-too-small")
        if small:
            says = (
                f"This terminal is {event.size.width} x {event.size.height}.\n"
                f"specgen needs {LEAST_WIDTH} x {LEAST_HEIGHT}.\nMake it larger, or ctrl+q."
            )
            self.query_one("#too-small", Static).update(says)

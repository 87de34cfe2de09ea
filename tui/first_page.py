"""The first page: the briefs in this folder to choose from, or a name for a new one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar, cast

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Input, Static

from specgen.faults import BadInput
from specgen.files import is_folder
from specgen.journal import BriefTaken
from specgen.library import Library
from specgen.session import Session
from tui.briefs_here import ENDINGS, BriefHere, briefs_in
from tui.cursor_list import CursorList, Part
from tui.dialog import Dialog, Way
from tui.keyline import KeyLine
from tui.marks import cut, plain, times

if TYPE_CHECKING:
    from tui.app import RoofApp

WELCOME = (
    "Answer questions about a standing seam metal roof, the ones that matter first. "
    "The roof is drawn as you answer, its numbers are computed, what contradicts is said, and the "
    "section of the specification is written. Answers are kept as you give them."
)
NEW_NAME = "roof.yaml"


class BriefList(CursorList):
    """The briefs of this folder."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space", "screen.open_chosen", "open"),
        Binding("down", "down", "down", show=False),
    ]

    def clicked(self, again: bool) -> None:
        if again:
            self.screen.action_open_chosen()  # type: ignore[attr-defined]

    def action_down(self) -> None:
        """One down; from the last to the name of a new one."""
        if self.cursor >= self.count - 1:
            self.screen.query_one(Input).focus()
        else:
            self.action_move(1)


class NewName(Input):
    """The name of a new brief."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "submit", "begin"),
        Binding("up", "screen.to_list", "to the briefs"),
    ]


class FirstPage(Screen[None]):
    """Gives the app a session on the brief that is chosen."""

    DEFAULT_CSS = """
    FirstPage > .title { height: 1; padding: 0 1; background: $panel; text-style: bold; }
    FirstPage > Vertical { height: 1fr; padding: 1 2; }
    FirstPage .says { height: auto; margin-bottom: 1; max-width: 90; }
    FirstPage .over { height: 1; color: $text-muted; }
    FirstPage BriefList { height: auto; max-height: 50%; margin-bottom: 1; }
    FirstPage NewName, FirstPage NewName:focus { max-width: 60; background: $panel; }
    FirstPage .fault { color: $error; height: auto; margin-top: 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("tab", "app.focus_next", "briefs or new")]
    AUTO_FOCUS = None

    def __init__(self, library: Library, wanted: Path | None = None) -> None:
        super().__init__()
        self._library = library
        self._wanted = wanted
        self._briefs: list[BriefHere] = []

    def compose(self) -> ComposeResult:
        yield Static("specgen", classes="title")
        with Vertical():
            yield Static(WELCOME, classes="says", markup=False)
            yield Static("Briefs in this folder", classes="over", id="here")
            yield BriefList("briefs")
            yield Static("A new brief, by the name of its file", classes="over")
            yield NewName(NEW_NAME, select_on_focus=True)
            yield Static("", classes="fault", markup=False)
        yield KeyLine()

    def on_mount(self) -> None:
        self._briefs = briefs_in(Path(), self._library)
        here = bool(self._briefs)
        self.query_one("#here").display = self.query_one(BriefList).display = here
        if any(brief.path == Path(NEW_NAME) for brief in self._briefs):
            self.query_one(NewName).value = ""
            self.query_one(NewName).placeholder = "such as lodge.yaml"
        self._list_briefs()
        (self.query_one(BriefList) if here else self.query_one(NewName)).focus()
        if self._wanted is not None:
            self.call_after_refresh(self._open, self._wanted)

    @on(events.Resize)
    def _list_briefs(self) -> None:
        width = max((len(brief.path.name) for brief in self._briefs), default=0) + 2
        rows = [list(_row(brief, width)) for brief in self._briefs]
        self.query_one(BriefList).put_rows(rows)

    def action_to_list(self) -> None:
        if self._briefs:
            self.query_one(BriefList).focus()

    # -- opening -------------------------------------------------------------------------------

    def action_open_chosen(self) -> None:
        """Open the brief under the cursor."""
        if self._briefs:
            self._open(self._briefs[self.query_one(BriefList).cursor].path)

    @on(Input.Submitted)
    def _named(self, event: Input.Submitted) -> None:
        name = event.value.strip()
        if not name:
            self._say("Type a name for the new brief, such as lodge.yaml.")
            return
        path = Path(name).expanduser()
        if not is_folder(path) and path.suffix.lower() not in ENDINGS:
            path = path.with_name(path.name + ENDINGS[0])
        self._open(path)

    def _open(self, path: Path) -> None:
        """Open a brief, or say why not."""
        self._say("")
        try:
            if is_folder(path):
                says = f"{path} is a folder; name a file in it."
                self._say(says)
                return
            session = Session(path, self._library)
        except BriefTaken:
            self._ask_taken(path)
        except BadInput as error:
            self._say("\n".join(str(fault) for fault in error.faults[:6]))
        except (OSError, ValueError) as error:
            self._say(f"{path}: it cannot be opened: {error}.")
        else:
            cast("RoofApp", self.app).open(session)

    def _ask_taken(self, path: Path) -> None:
        """The brief is open elsewhere; neither writes over the other."""
        says = (
            f"{path} is open in another window or by somebody else, and only one can write it. "
            "Leave it there first, or work on another brief."
        )
        ways = (Way("t", "try again"), Way("b", "back to the briefs"))

        def chosen(key: str | None) -> None:
            if key == "t":
                self._open(path)

        self.app.push_screen(Dialog("This brief is open elsewhere", says, ways), chosen)

    def _say(self, says: str) -> None:
        self.query_one(".fault", Static).update(Content(plain(says)))


def _row(brief: BriefHere, width: int) -> Iterator[Part]:
    yield (brief.path.name.ljust(width), "strong")
    if brief.fault:
        yield (f"cannot be read: {brief.fault}", "conflict")
        return
    if brief.project:
        yield (f"{cut(brief.project, 40)}  ", "plain")
    yield (times(brief.answers, "answer"), "muted")
    if brief.left:
        yield (f", {brief.left} of them not saved", "open")

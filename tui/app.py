"""The app: one session, its screens, and the ways from one to another."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar, cast

from textual.app import App
from textual.binding import Binding, BindingType
from textual.screen import ModalScreen, Screen

from specgen.engine import Change
from specgen.faults import BadInput
from specgen.library import Library
from specgen.questions import AnswerError
from specgen.session import Session
from tui.frame import Frame
from tui.head import PLACES
from tui.looks import LOOKS, STYLE, draw_scrollbars
from tui.marks import marks, unicode_wanted
from tui.messages import Answered, Refused, Saved

if TYPE_CHECKING:
    from textual.message import Message

# The screens, imported when they are first shown.
SCREENS_IN = {
    "roof": ("tui.roof", "RoofScreen"),
    "document": ("tui.document", "DocumentScreen"),
    "findings": ("tui.findings", "FindingsScreen"),
    "numbers": ("tui.numbers", "NumbersScreen"),
    "write": ("tui.write", "WriteScreen"),
    "study": ("tui.study", "StudyScreen"),
}
WATCH_SECONDS = 2.0


def session_of(app: App[object]) -> Session:
    """The session of the app that a widget stands in."""
    return cast("RoofApp", app).session


def frame_class(place: str) -> type[Frame]:
    """The class of the screen at a place."""
    module, kind = SCREENS_IN[place]
    return cast("type[Frame]", getattr(import_module(module), kind))


class RoofApp(App[None]):
    """The screens on one brief.

    Given no session, it opens with a page on which a brief is chosen. ``revision`` counts the
    brief's changes, so that a screen that was not shown knows that it must repaint. The caller
    closes the session that is open at the end.
    """

    TITLE = "specgen"
    ENABLE_COMMAND_PALETTE = False
    CSS = STYLE
    # Each place keeps its own stack of screens, in a mode; this is the mode that is shown first.
    DEFAULT_MODE = "first"

    BINDINGS: ClassVar[list[BindingType]] = [
        *(
            Binding(f"f{n},ctrl+{n}", f"show('{name}')", title, show=False, priority=True)
            for n, (name, title) in enumerate(PLACES.items(), 1)
        ),
        Binding("question_mark,f9", "help", "help"),
        Binding("ctrl+p", "palette", "actions", priority=True),
        Binding("ctrl+f", "search", "search", priority=True),
        Binding("ctrl+z", "undo", "undo", priority=True),
        Binding("ctrl+y", "redo", "redo", show=False, priority=True),
        Binding("ctrl+s", "save", "save", priority=True),
        Binding("ctrl+t", "theme", "light or dark", show=False, priority=True),
        Binding("ctrl+q", "leave", "leave", priority=True),
        Binding("ctrl+c", "leave", "leave", show=False, priority=True),
    ]

    def __init__(
        self,
        session: Session | None = None,
        *,
        first: str = "roof",
        library: Library | None = None,
        wanted: Path | None = None,
        kept: bool = True,
    ) -> None:
        """``library`` is needed where there is no session; ``wanted`` a brief to open at once.

        ``kept`` is false for a brief that goes away with the app, and is said to.
        """
        self._session = session
        self._library = library
        self._wanted = wanted
        self.is_kept = kept
        self.revision = 0
        self.changed_on_disk = False
        self._first = first if session is not None else ""
        self._frames: dict[str, Frame] = {}
        draw_scrollbars(plain=not unicode_wanted())
        super().__init__()
        self.add_mode(self.DEFAULT_MODE, self._first_screen)
        for place in PLACES:
            self.add_mode(place, partial(self.frame_of, place))
        for look in LOOKS:
            self.register_theme(look)
        self.theme = LOOKS[0].name

    def on_mount(self) -> None:
        self.set_interval(WATCH_SECONDS, self._watch)
        if self._session is not None:
            self._begun()

    # -- the brief that is open ----------------------------------------------------------------

    @property
    def session(self) -> Session:
        assert self._session is not None, "no brief is open yet"
        return self._session

    @property
    def is_open(self) -> bool:
        """Whether a brief is open; until then its first page is shown."""
        return self._session is not None

    @property
    def written_beside(self) -> Path:
        """The path that what is written is named after: the brief's, or here if it goes away."""
        return self.session.path if self.is_kept else Path(self.session.path.name)

    @property
    def library(self) -> Library:
        if self._session is not None:
            return self._session.library
        assert self._library is not None
        return self._library

    def open(self, session: Session) -> None:
        """Begin with a brief that was chosen on the first page."""
        self._session = session
        self.show("roof")
        self._begun()

    def _begun(self) -> None:
        if self.session.recovered:
            from tui.keeping import offer_recovered

            self.call_after_refresh(offer_recovered, self)

    def _watch(self) -> None:
        """Notice that somebody else has changed the brief."""
        if self._session is None or self.session.changed_on_disk == self.changed_on_disk:
            return
        self.changed_on_disk = self.session.changed_on_disk
        self.saved()
        if self.changed_on_disk:
            says = "Nothing was written over. ctrl+s shows what can be done."
            title = f"{self.session.path.name} was changed by another program"
            self.notify(says, title=title, severity="warning", timeout=8, markup=False)

    # -- changing the brief --------------------------------------------------------------------

    def answer(self, question: str, raw: object) -> bool:
        """Give, change or (None) take back an answer; whether it was taken.

        The screen that is shown is sent Answered, or Refused with the reason.
        """
        return self.answer_all({question: raw})

    def answer_all(self, answers: Mapping[str, object]) -> bool:
        """Give several answers, one after the other, repainting once; whether all were taken."""
        before = self.session.engine
        taken = True
        for question, raw in answers.items():
            try:
                self.session.answer(question, raw)
            except AnswerError as error:
                self._tell(Refused(question, _sentence(str(error))))
                taken = False
                break
            except BadInput as error:
                self.notify(str(error), title="Not kept", severity="error", markup=False)
                taken = False
                break
        if self.session.engine is not before:
            self.changed(before.change_to(self.session.engine))
        return taken

    def changed(self, change: Change | None) -> None:
        """Tell the screen that the brief has changed; None where everything may have."""
        self.revision += 1
        self._tell(Answered(change))

    def waive(self, check: str, reason: str, by: str) -> None:
        """Waive a finding."""
        self.session.waive(check, reason, by)
        self.changed(None)

    def unwaive(self, check: str) -> None:
        """Take a waiver back."""
        self.session.unwaive(check)
        self.changed(None)

    def action_undo(self) -> None:
        self._step(self.session.undo, "Nothing to undo.")

    def action_redo(self) -> None:
        self._step(self.session.redo, "Nothing to redo.")

    def action_save(self) -> None:
        from tui.keeping import save

        save(self)

    def saved(self) -> None:
        """Tell the screen that the brief was saved, or that it differs from what is on disk."""
        self.changed_on_disk = self.session.changed_on_disk
        self._tell(Saved())

    # -- where one is --------------------------------------------------------------------------

    async def action_show(self, place: str) -> None:
        self.show(place)

    def show(self, place: str, name: str | None = None) -> None:
        """Show a screen, its cursor on a question, clause, check or calculation if one is named."""
        while len(self.screen_stack) > 1:
            self.pop_screen()
        frame = self.frame_of(place)
        frame.arrive(name)
        if self.screen is frame:
            frame.catch_up()
        else:
            self.switch_mode(self.DEFAULT_MODE if place == self._first else place)

    def frame_of(self, place: str) -> Frame:
        """A screen by its place, made when it is first wanted."""
        frame = self._frames.get(place)
        if frame is None:
            frame = self._frames[place] = frame_class(place)()
        return frame

    def _first_screen(self) -> Screen[None]:
        if self._first:
            return self.frame_of(self._first)
        from tui.first_page import FirstPage

        return FirstPage(self.library, self._wanted)

    def go_to_question(self, question: str) -> None:
        self.show("roof", question)

    def go_to_clause(self, clause: str) -> None:
        self.show("document", clause)

    def go_to_finding(self, check: str) -> None:
        self.show("findings", check)

    def go_to_number(self, calculation: str) -> None:
        self.show("numbers", calculation)

    def edit_table(self, question: str) -> None:
        """Open the rows of a question of kind table."""
        from tui.records import RecordsScreen

        self.push_screen(RecordsScreen(question))

    # -- what is the same everywhere -----------------------------------------------------------

    def get_css_variables(self) -> dict[str, str]:
        return {**super().get_css_variables(), "edge": marks().edge}

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """In a dialog, and until a brief is open, less is to be had."""
        if action not in _EVERYWHERE:
            return True
        if not self.is_open:
            return action in _WITHOUT_A_BRIEF and not isinstance(self.screen, ModalScreen)
        return action in _IN_DIALOGS or not isinstance(self.screen, ModalScreen)

    def action_theme(self) -> None:
        names = [look.name for look in LOOKS]
        self.theme = names[(names.index(self.theme) + 1) % len(names)]

    def action_palette(self) -> None:
        from tui.palette import Palette

        self.push_screen(Palette(self.screen))

    def action_search(self) -> None:
        from tui.search import Search

        self.push_screen(Search(self))

    def action_help(self) -> None:
        from tui.help import Help

        self.push_screen(Help(self.screen))

    def action_leave(self) -> None:
        from tui.keeping import leave

        leave(self)

    def _step(self, step: Callable[[], Change | None], nothing: str) -> None:
        try:
            change = step()
        except BadInput as error:
            self.notify(str(error), title="Not kept", severity="error", markup=False)
            return
        if change is None:
            self.notify(nothing, timeout=2)
        else:
            self.changed(change)

    def _tell(self, message: Message) -> None:
        """Send the screens that are shown a message, whatever stands over them."""
        for screen in self.screen_stack:
            if isinstance(screen, Frame):
                screen.post_message(message)


_EVERYWHERE = {"show", "palette", "search", "undo", "redo", "save", "help", "theme", "leave"}
_WITHOUT_A_BRIEF = {"theme", "leave"}
_IN_DIALOGS = {"theme"}


def _sentence(says: str) -> str:
    says = says[:1].upper() + says[1:]
    return says if says.endswith((".", "?")) else says + "."

"""The head of every screen: the project, what is saved, what is found and open, and the screens."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from textual.content import Content
from textual.timer import Timer
from textual.widgets import Static

from specgen.library import FINDING_KINDS
from specgen.session import Session
from specgen.values import Open
from tui.marks import COLORS, KINDS, OPEN, cut, marks, plain

PLACES = {
    "roof": "Roof",
    "document": "Document",
    "findings": "Findings",
    "numbers": "Numbers",
    "write": "Write",
    "study": "Study",
}
PAUSE_SECONDS = 0.2


def open_count(session: Session) -> int:
    """How many questions are asked and not answered."""
    scope = session.engine.scope
    questions = session.library.questions.values()
    return sum(
        1
        for question in questions
        if isinstance(value := scope.lookup(question.id)[0], Open) and question.id in value.waits_on
    )


class Head(Static):
    """The first line.

    What the answers contradict is counted at once; what only the assembled section shows, when
    nothing has been answered for a moment, so that no key waits for it.
    """

    DEFAULT_CSS = "Head { height: 1; width: 100%; padding: 0 1; background: $panel; }"

    def __init__(self) -> None:
        super().__init__()
        self._session: Session | None = None
        self._in_section: Sequence[str] = ()
        self._counting: Timer | None = None

    def on_mount(self) -> None:
        from tui.app import session_of

        self.show(session_of(self.app))

    def on_resize(self) -> None:
        self._paint()

    def show(self, session: Session) -> None:
        """Show a session as it stands."""
        self._session = session
        self._paint()
        if self._counting is not None:
            self._counting.stop()
        self._counting = self.set_timer(PAUSE_SECONDS, self._count_in_section)

    def _count_in_section(self) -> None:
        """Count the findings that only the section shows, by kind."""
        if self._session is not None:
            known = self._session.engine.found
            standing = self._session.report.standing
            self._in_section = [f.kind for f in standing if f.id not in known]
            self._paint()

    def _paint(self) -> None:
        session = self._session
        if session is None:
            return
        name = str(session.typed_of("project_name") or session.path.name)
        typed = session.typed_of("issue") is not None
        issue = session.engine.scope.shown("issue") if typed else "issue open"
        unsaved = len(session.unsaved)
        state = f"{unsaved} unsaved" if unsaved else "saved"
        if getattr(self.app, "changed_on_disk", False):
            state = "changed on disk"
        if not getattr(self.app, "is_kept", True):
            state = "not kept"
        waived = {waiver.check for waiver in session.waivers}
        kinds = [f.kind for f in session.engine.found.values() if f.id not in waived]
        kinds += self._in_section
        counts = Content("  ").join(
            Content.styled(f"{KINDS[kind]} {kinds.count(kind)}", COLORS[kind])
            for kind in FINDING_KINDS
        )
        right = Content.assemble(state, "   ", counts, f"   {OPEN} {open_count(session)} open")
        room = max(0, self.size.width - 2 - right.cell_length)
        left = plain(f"{name}  {issue}" if room > len(name) + len(issue) + 4 else name)
        left = cut(left, max(0, room - 2))
        self.update(Content.assemble((left, "bold"), " " * max(2, room - len(left)), right))


class Places(Static):
    """The second line: the screens, each by its key or by a click; a sign shows where one is."""

    DEFAULT_CSS = """
    Places { height: 1; width: 100%; padding: 0 1; background: $panel; color: $text-muted; }
    """

    def __init__(self, place: str) -> None:
        super().__init__("", markup=False)
        self._place = place

    def on_resize(self) -> None:
        """Show the names; where they do not fit, closer together and by the figure of the key."""
        names = Content("  ").join(self._parts("F"))
        fits = names.cell_length <= self.size.width
        self.update(names if fits else Content("").join(self._parts("")))

    def _parts(self, key: str) -> Iterator[Content]:
        for number, (name, title) in enumerate(PLACES.items(), 1):
            here = name == self._place
            sign = marks().cursor if here else " "
            part = Content.styled(f"{sign}{key}{number} {title}", "bold reverse" if here else "")
            yield part.stylize(f"@click=app.show('{name}')")

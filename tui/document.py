"""The document screen: the section as it stands, and below it why each paragraph is there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import ClassVar

from textual import events, on
from textual.binding import Binding, BindingType
from textual.timer import Timer
from textual.widget import Widget
from textual.worker import Worker, WorkerState

from specgen.engine import Change
from tui.document_list import DocumentList
from tui.document_reason import reason_of
from tui.document_rows import Key, Row, found_at, found_before, marked, rows_of
from tui.document_ways import WaysOut
from tui.last_draft import LastDraft, Mark, last_draft, mark_of
from tui.lead_strip import LeadStrip
from tui.led_frame import LedFrame
from tui.messages import Saved

# The letters that are no keys of this screen.
LEAD_KEYS = "abcdeghijklmpqrstuvwxyz"
PAUSE_SECONDS = 0.03


class DocumentScreen(LedFrame):
    """The section, live."""

    place = "document"
    help_text = (
        "The section as it stands. Signs before a paragraph: + in, - out, ~ reworded, = number"
        " moved since the last draft; then what is found there (! ? ~ .); o waits on an answer.\n"
        "Below is why the paragraph under the cursor stands there. Each question, number, clause"
        " and finding has a letter: press it to go there. Tab steps into them with the arrows. At"
        " the end stands which other answer would remove it, and which clauses need it."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "settle", "to its question"),
        Binding("o", "next('open')", "next open"),
        Binding("O", "next('open', -1)", "open before", show=False),
        Binding("n", "next('changed')", "next change"),
        Binding("N", "next('changed', -1)", "change before", show=False),
        Binding("f", "next('found')", "next finding"),
        Binding("F", "next('found', -1)", "finding before", show=False),
        Binding("right_square_bracket,right", "article(1)", "next article", show=False),
        Binding("left_square_bracket,left", "article(-1)", "article before", show=False),
        Binding("escape", "to_list", "back to the list", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._draft: LastDraft | None = None
        self._draft_rows: dict[Key, Row] = {}
        self._mark: Mark | None = None
        self._checking: Timer | None = None
        self._ways = WaysOut(self)

    def compose_body(self) -> Iterable[Widget]:
        self.list = DocumentList("document", self._tell_reason)
        self.strip = LeadStrip(LEAD_KEYS)
        return self.list, self.strip

    def on_mount(self) -> None:
        self.refresh_from(None)
        self.list.focus()

    @on(events.ScreenResume)
    def _look_for_a_draft(self) -> None:
        """Read the last draft again if there is another, beside what is going on."""
        mark = mark_of(self.session.path)
        if mark != self._mark:
            self._mark = mark
            path, library = self.session.path, self.library
            self.run_worker(
                lambda: last_draft(path, library), name="draft", thread=True, exit_on_error=False
            )

    @on(Saved)
    def _saved_to(self) -> None:
        self._look_for_a_draft()

    @on(Worker.StateChanged)
    def _worked(self, event: Worker.StateChanged) -> None:
        if self._ways.found(event):
            self._tell_reason(stay=True)
        if event.worker.name == "draft" and event.state == WorkerState.SUCCESS:
            self._draft = event.worker.result
            before = rows_of(self._draft.section) if self._draft is not None else []
            self._draft_rows = {row.key: row for row in before}
            self.refresh_from(None)

    # -- what is shown -------------------------------------------------------------------------

    def refresh_from(self, change: Change | None) -> None:
        """Show the document at once; what is found in it follows when no key is waiting."""
        rows = rows_of(self.session.engine.section)
        if self._draft is not None:
            rows = marked(rows, list(self._draft_rows.values()))
        rows = found_before(rows, self.list.rows)
        self.list.put_rows(rows, self._place_of_cursor(rows))
        self._tell_reason()
        if self._checking is not None:
            self._checking.stop()
        self._checking = self.set_timer(PAUSE_SECONDS, self._check)

    def _check(self) -> None:
        """Set what is found beside the paragraphs that it is about."""
        rows = found_at(self.list.rows, self.session.report.standing)
        if rows != self.list.rows:
            self.list.put_rows(rows, self.list.cursor)
            self._tell_reason(stay=True)

    def _place_of_cursor(self, rows: Sequence[Row]) -> int:
        """Where the paragraph under the cursor is now.

        Of an open decision that is taken, the first clause that waited on it; if nothing of it is
        there, the paragraph before it.
        """
        standing = {row.key: index for index, row in enumerate(rows) if not row.gone}
        places = {row.key: index for index, row in enumerate(rows)}
        for row in reversed(self.list.rows[: self.list.cursor + 1]):
            taken = [standing[key] for key in (row.key, *row.waiting) if key in standing]
            if taken:
                return taken[0]
            if row.key in places:
                return places[row.key]
        return 0

    def _tell_reason(self, *, stay: bool = False) -> None:
        row = self.list.row
        if row is None:
            return
        named = self._draft.named if self._draft is not None else ""
        was = self._draft_rows.get(row.key)
        engine = self.session.engine
        blocks = reason_of(row, engine, named, was)
        self.strip.show([*blocks, *self._ways.blocks_of(row, engine)], stay=stay)

    # -- moving --------------------------------------------------------------------------------

    def go_to(self, name: str) -> None:
        """Put the cursor on a clause, or on a place such as 2.3.A.1."""
        index = self._find(name)
        if index is None:
            self.notify(f"{name} is not in the section as it stands.", markup=False)
        else:
            self.list.put_cursor(index)
            self.list.focus()

    def _find(self, name: str) -> int | None:
        """The row of a clause or place; of a clause that waits, its open decision."""
        rows = list(enumerate(self.list.rows))
        for index, row in rows:
            if not row.gone and name in (row.clause, row.number) and row.kind == "paragraph":
                return index
        for index, row in rows:
            decision = row.paragraph.decision if row.paragraph is not None else None
            if decision is not None and name in decision.clauses:
                return index
        return next((index for index, row in rows if row.clause == name), None)

    def action_next(self, kind: str, step: int = 1) -> None:
        """Go to the next open place, change or finding, round the end."""
        wanted, none = _NEXT[kind]
        rows = self.list.rows
        for distance in range(1, len(rows) + 1):
            index = (self.list.cursor + step * distance) % len(rows)
            if self.list.can_choose(rows[index]) and wanted(rows[index]):
                self.list.put_cursor(index)
                return
        self.notify(none, timeout=2)

    def action_article(self, step: int) -> None:
        """Go to the first paragraph of the next article or the one before."""
        heads = [index for index, row in enumerate(self.list.rows) if row.kind == "article"]
        at = self.list.cursor
        ahead = [index + 1 for index in heads if (index + 1 - at) * step > 0]
        if ahead:
            self.list.put_cursor(min(ahead) if step > 0 else max(ahead))

    # -- leading on ----------------------------------------------------------------------------

    @on(DocumentList.Chosen)
    def action_settle(self) -> None:
        """Go to the question that the paragraph waits on, or the first that it came from."""
        self.follow_first("question", none="No question leads here.")

    def ways(self) -> Mapping[str, Callable[[str], object]]:
        app = self.roof_app
        return {
            "question": app.go_to_question,
            "number": app.go_to_number,
            "finding": app.go_to_finding,
            "clause": self.go_to,
        }


_NEXT: dict[str, tuple[Callable[[Row], bool], str]] = {
    "open": (lambda row: bool(row.questions) and not row.gone, "Nothing is open."),
    "changed": (lambda row: row.mark in ("in", "out", "reworded"), "Nothing has changed."),
    "found": (lambda row: bool(row.findings), "Nothing is found in the document."),
}

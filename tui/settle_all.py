"""Settling everything: the fewest changes that leave no conflict, to choose from."""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import LoadingIndicator, Static
from textual.worker import Worker, WorkerState, get_current_worker

from specgen.engine import Change, Engine
from specgen.settle import Settlement, settle, typed_answers
from tui.finding_reason import answer_words, caused, change_by
from tui.lead_strip import Block, Lead, LeadStrip, told
from tui.line_list import LineList
from tui.marks import KINDS, times
from tui.modal import Modal
from tui.waive import DIALOG_CSS
from tui.wrapping import Line, Piece, shown, wrap

if TYPE_CHECKING:
    from tui.app import RoofApp

LEAD_KEYS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True, slots=True)
class Way:
    """One set of changes: what it says, the answers as typed, and what it would cause."""

    number: int
    words: tuple[str, ...]
    answers: Mapping[str, object]
    change: Change | None


class WayList(LineList[Way]):
    """Ways to settle everything, each with its changes and what they cause."""

    def key_of(self, row: Way) -> object:
        return row.number, row.words, id(row.change)

    def lines_of(self, row: Way, width: int) -> list[Line]:
        lines: list[Line] = []
        for index, words in enumerate(row.words):
            key = Piece(f"[{row.number}] " if index == 0 else "    ", "key")
            first, *rest = wrap([Piece(shown(words), "strong")], width - 4)
            lines += [(key, *first), *((Piece("    "), *line) for line in rest)]
        change = row.change
        library = self.screen.library  # type: ignore[attr-defined]
        told_of = wrap(caused(change, library) or [Piece("")], width - 4)
        return lines + [(Piece("    "), *line) for line in told_of]


class SettleAll(Modal[dict[str, object] | None]):
    """Searches, beside the keys; gives the answers of the way that is chosen, or None.

    An answer that is to be kept is marked as fixed in the brief, and the search starts anew.
    """

    DEFAULT_CSS = (
        DIALOG_CSS.replace("@", "SettleAll")
        + """
    SettleAll > Vertical { max-width: 110; }
    SettleAll WayList { height: auto; max-height: 45vh; }
    SettleAll LoadingIndicator { height: 3; }
    SettleAll LeadStrip { height: auto; min-height: 2; max-height: 18vh; }
    SettleAll Lines { scrollbar-background: $surface; }
    """
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "apply", "apply"),
        Binding("escape", "leave", "leave it"),
        *(Binding(str(n), f"number({n})", f"apply {n}", show=False) for n in range(1, 10)),
    ]

    def __init__(self, roof_app: RoofApp) -> None:
        super().__init__()
        self._app = roof_app
        self.library = roof_app.library
        self._found: Settlement | None = None
        self._search: Worker[tuple[Settlement, list[Way]]] | None = None

    def compose(self) -> ComposeResult:
        self.list = WayList("ways", self._tell)
        self.strip = LeadStrip(LEAD_KEYS)
        with Vertical():
            yield Static("", id="says", classes="says", markup=False)
            yield LoadingIndicator()
            yield self.list
            yield self.strip
            yield Static(
                "enter or a digit applies   a letter keeps an answer   esc leaves it",
                classes="muted",
                markup=False,
            )

    def on_mount(self) -> None:
        self._start()

    def _start(self) -> None:
        """Search in a thread, with what stands now."""
        self._say("Searching for the fewest changes that leave no conflict ...")
        self.query_one(LoadingIndicator).display = True
        self.list.put_rows([], 0)
        self.strip.show([])
        session = self._app.session
        engine, fixed = session.engine, session.fixed
        waived = frozenset(waiver.check for waiver in session.waivers)
        self._search = self.run_worker(
            lambda: _ways(engine, settle(engine, fixed, waived, _stopped)),
            thread=True, exclusive=True, exit_on_error=False,
        )  # fmt: skip

    @on(Worker.StateChanged)
    def _searched(self, event: Worker.StateChanged) -> None:
        if event.worker is not self._search or event.state in (
            WorkerState.PENDING, WorkerState.RUNNING, WorkerState.CANCELLED,
        ):  # fmt: skip
            return
        self.query_one(LoadingIndicator).display = False
        if event.state == WorkerState.ERROR or event.worker.result is None:
            self._say(f"The search failed: {event.worker.error}")
            return
        self._found, ways = event.worker.result
        self.list.put_rows(ways, 0)
        self._say(_summary(self._found))
        self._tell()
        (self.strip if self.strip.leads and not ways else self.list).focus()

    def _say(self, says: str) -> None:
        self.query_one("#says", Static).update(shown(says))

    def _tell(self) -> None:
        """The answers that the way under the cursor would change, and those that are kept."""
        self.strip.show(list(self._blocks()))

    def _blocks(self) -> Iterator[Block]:
        engine, session = self._app.session.engine, self._app.session
        way = self.list.row
        if way is not None:
            yield Block("keep", tuple(self._kept(name, engine) for name in way.answers))
        for finding, _ in self._found.stuck if self._found is not None else ():
            yield Block(KINDS[finding.kind], told(finding.says, finding.kind))
        fixed = [name for name in engine.library.questions if name in session.fixed]
        if fixed:
            leads = (self._kept(name, engine, kind="release") for name in fixed)
            yield Block("let go", tuple(leads))

    def _kept(self, name: str, engine: Engine, kind: str = "keep") -> Lead:
        label = engine.library.questions[name].label
        return Lead(kind, name, f"{label}:", told=told(engine.scope.shown(name)))

    # -- choosing ------------------------------------------------------------------------------

    def action_number(self, number: int) -> None:
        """Apply the way of a number."""
        for way in self.list.rows:
            if way.number == number:
                self.dismiss(dict(way.answers))
                return

    @on(WayList.Chosen)
    def action_apply(self) -> None:
        """Apply the way under the cursor."""
        way = self.list.row
        self.dismiss(dict(way.answers) if way is not None else None)

    def action_leave(self) -> None:
        self.dismiss(None)

    def action_to_list(self) -> None:
        self.list.focus()

    def on_key(self, event: events.Key) -> None:
        lead = self.strip.lead_of(event.character) if event.character else None
        if lead is not None:
            event.stop()
            self._follow(lead)

    @on(LeadStrip.Followed)
    def _followed(self, message: LeadStrip.Followed) -> None:
        self._follow(message.lead)

    def _follow(self, lead: Lead) -> None:
        """Keep an answer, or let go of it, and search again."""
        self._app.session.set_fixed(lead.id, lead.kind == "keep")
        self._app.changed(None)
        self._start()


def _stopped() -> bool:
    """Whether the search is not wanted any more; lets the keys have their turn."""
    time.sleep(0.0001)
    return get_current_worker().is_cancelled


def _ways(engine: Engine, found: Settlement) -> tuple[Settlement, list[Way]]:
    """The ways that were found, each told and tried."""
    ways = []
    for number, way in enumerate(found.ways, 1):
        answers = typed_answers(way)
        words = (_words(engine, name, raw) for name, raw in answers.items())
        ways.append(Way(number, tuple(words), answers, change_by(engine, answers)))
    return found, ways


def _words(engine: Engine, name: str, raw: object) -> str:
    label = engine.library.questions[name].label
    now = engine.scope.shown(name)
    return f"{label}: {answer_words(name, raw, engine.library)} (now {now})"


def _summary(found: Settlement) -> str:
    if found.searched == 0 and not found.stuck:
        return "There is no conflict to settle."
    if found.ways:
        return f"Changing {times(found.searched, 'answer')} leaves no conflict:"
    if found.complete:
        return "No change of the answers that are free to change leaves no conflict."
    return (
        f"No change of up to {times(found.searched, 'answer')} leaves no conflict; the search"
        " went no further. Settle one by hand, and search again."
    )

"""Where a layer or a zone leads: its questions, its clauses, its numbers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.widgets import Static

from specgen.dependence import names_in
from specgen.engine import Engine
from specgen.values import NOT_ASKED, Open
from tui.cursor_list import CursorList, Part
from tui.marks import ANSWERED, IN, MOVED, OPEN, cut, plain, times
from tui.roof_parts import RoofPart


@dataclass(frozen=True, slots=True)
class Lead:
    """One place that a part leads to: ``kind`` is question, clause or number."""

    kind: str
    id: str
    row: tuple[Part, ...]


class LeadList(CursorList):
    """The leads of one part."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space", "follow", "go there"),
        Binding("escape", "screen.to_drawing", "back to the roof"),
    ]

    class Followed(Message):
        """A lead is to be followed."""

        def __init__(self, lead: Lead) -> None:
            super().__init__()
            self.lead = lead

    def __init__(self) -> None:
        super().__init__("lead-list")
        self.leads: list[Lead] = []

    def clicked(self, again: bool) -> None:
        self.action_follow()

    def action_follow(self) -> None:
        """Go where the row under the cursor leads."""
        if self.leads:
            self.post_message(self.Followed(self.leads[self.cursor]))


class Leads(Vertical):
    """The card of a part of the roof."""

    DEFAULT_CSS = """
    Leads { height: 1fr; padding: 0 1; }
    Leads > #part { text-style: bold; height: 1; }
    Leads > #lead-list { height: 1fr; }
    """

    def __init__(self) -> None:
        super().__init__(id="leads")

    def compose(self) -> ComposeResult:
        yield Static("", id="part", markup=False)
        yield LeadList()

    def show(self, engine: Engine, part: RoofPart) -> None:
        """Show where a part leads with the answers of an engine."""
        self.query_one("#part", Static).update(part.name)
        found = self.query_one(LeadList)
        found.leads = list(leads_of(engine, part))
        found.put_rows([lead.row for lead in found.leads], 0)


def leads_of(engine: Engine, part: RoofPart) -> Iterator[Lead]:
    """The questions of a part and its numbers (of a zone these first), then the clauses."""
    scope = engine.scope
    asked = [name for name in part.questions if scope.lookup(name)[0] is not NOT_ASKED]
    sides = (_questions(engine, asked), _numbers(engine, part, asked))
    for side in reversed(sides) if part.values else sides:
        yield from side
    yield from _clauses(engine, {*asked, *part.values})


def _questions(engine: Engine, asked: Sequence[str]) -> Iterator[Lead]:
    scope, questions = engine.scope, engine.library.questions
    for name in asked:
        value = scope.lookup(name)[0]
        still = isinstance(value, Open)
        if isinstance(value, Open) and name not in value.waits_on:
            continue
        row = (
            (f"{OPEN if still else ANSWERED} ", "open" if still else "plain"),
            (f"{plain(questions[name].label)}: ", "muted"),
            ("open" if still else plain(scope.shown(name)), "strong"),
        )
        yield Lead("question", name, row)


def _numbers(engine: Engine, part: RoofPart, asked: Sequence[str]) -> Iterator[Lead]:
    """The values that a part shows; where it names none, those computed from its questions."""
    scope = engine.scope
    for result in scope.results():
        reads = not part.values and not {*asked}.isdisjoint(result.calculation.inputs)
        for provided in result.calculation.provides:
            value = scope.lookup(provided.id)[0]
            if value is NOT_ASKED or not (reads or provided.id in part.values):
                continue
            rows = times(len(value), "row") if isinstance(value, tuple) else None
            row = (
                (f"{MOVED} ", "number"),
                (f"{plain(provided.label)}: ", "muted"),
                (plain(rows or scope.shown(provided.id)), "number"),
            )
            yield Lead("number", result.calculation.id, row)


def _clauses(engine: Engine, names: Set[str]) -> Iterator[Lead]:
    """The clauses in the section that read one of these names."""
    for standing in engine.standings.values():
        if standing.stands is True and not names.isdisjoint(names_in(standing.clause)):
            text = cut(plain(standing.text), 300)
            row = ((f"{IN} ", "plain"), (f"{standing.clause.article}: ", "muted"), (text, "plain"))
            yield Lead("clause", standing.clause.id, row)

"""Each calculation of a brief as its writers show it: values, tables, what is open or refused."""

from __future__ import annotations

from dataclasses import dataclass

from specgen.calculations.record import Step
from specgen.computing.registry import Provided
from specgen.questions import Column
from specgen.scope import Result, Scope
from specgen.section import Table
from specgen.showing import figure
from specgen.values import NOT_ASKED, Open, Value
from specgen.wording import print_value

RESISTANCES = ("computed_r", "code_r")
SUBJECT_TO = (
    "Every figure here is subject to the local code and to a licensed design professional, who"
    " checks it before it is built from."
)


@dataclass(frozen=True, slots=True)
class ShownTable:
    """A table with its label; ``numeric`` says of each column whether it holds figures."""

    label: str
    table: Table
    numeric: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class Shown:
    """A calculation as it is shown.

    ``state`` is computed, open, refused or not needed; ``values`` are label and value, ``settles``
    the questions, in the library's order, whose answers it waits for.
    """

    result: Result
    state: str
    values: tuple[tuple[str, str], ...] = ()
    tables: tuple[ShownTable, ...] = ()
    settles: tuple[tuple[str, str], ...] = ()

    @property
    def title(self) -> str:
        return self.result.calculation.title

    @property
    def steps(self) -> tuple[Step, ...]:
        return self.result.outcome.steps if self.result.outcome else ()

    @property
    def cautions(self) -> tuple[str, ...]:
        return self.result.outcome.cautions if self.result.outcome else ()


def shown_results(scope: Scope) -> tuple[Shown, ...]:
    """Every calculation, in the order in which they build on each other."""
    return tuple(_shown(scope, result) for result in scope.results())


def _shown(scope: Scope, result: Result) -> Shown:
    settles = tuple(
        (name, question.ask)
        for name, question in scope.library.questions.items()
        if name in result.waits_on
    )
    if result.outcome is None:
        state = "refused" if result.refused else "open" if settles else "not needed"
        return Shown(result, state, settles=settles)
    values, tables = [], []
    for provided in result.calculation.provides:
        value = result.outcome.values.get(provided.id, NOT_ASKED)
        if value is NOT_ASKED or isinstance(value, Open):
            continue
        if provided.kind == "table":
            tables.append(shown_table(scope, provided.label, provided.columns, value))
        else:
            values.append((provided.label, _value(scope, provided, value)))
    return Shown(result, "computed", tuple(values), tuple(tables))


def _value(scope: Scope, provided: Provided, value: Value) -> str:
    shown = print_value(value, scope.printer)
    return f"R-{shown}" if provided.id in RESISTANCES else shown


def shown_table(scope: Scope, label: str, columns: tuple[Column, ...], value: Value) -> ShownTable:
    """A table with its cells as the brief's units show them; a cell without a value is a dash."""
    rows = value if isinstance(value, tuple) else ()
    cells = tuple(
        tuple("-" if cell is NOT_ASKED else print_value(cell, scope.printer) for cell in row)
        for row in rows
        if isinstance(row, tuple)
    )
    head = tuple(column.label for column in columns)
    return ShownTable(label, Table(head, cells), tuple(c.kind != "text" for c in columns))


def heading(scope: Scope) -> tuple[tuple[str, str], ...]:
    """Project, number, place, issue and date, as far as the library asks for them."""
    names = ("project_name", "project_number", "place", "issue", "issue_date")
    labels = ("Project", "Number", "Place", "Issue", "Date")
    found = []
    for name, label in zip(names, labels, strict=True):
        if name in scope.library.questions and (shown := scope.shown(name)) != "not asked":
            found.append((label, shown))
    return tuple(found)


def step_value(value: float) -> str:
    """A step's figure, to five significant figures, powers of ten where it is very small."""
    size = abs(value)
    if size and (size < 1e-3 or size >= 1e7):
        return f"{value:.4g}"
    whole = len(str(int(size))) if size >= 1 else 0
    return figure(value, min(5, max(0, 5 - whole)))


def capital(text: str) -> str:
    """The text with a capital at its beginning."""
    return text[:1].upper() + text[1:]


def sentence(text: str) -> str:
    """The text with a capital at its beginning and a stop at its end."""
    text = capital(text.strip())
    return text if text.endswith((".", "?", "!")) else f"{text}."

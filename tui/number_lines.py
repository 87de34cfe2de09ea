"""The ledger of calculations as rows: each a heading, and below it what it is made of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from specgen.calculations.record import Step
from specgen.library import Library
from specgen.scope import Scope
from specgen.values import NOT_ASKED, Open
from specgen.writers.calculations_shown import Shown, capital, sentence, step_value
from tui.marks import ANSWERED, KINDS, MOVED, OPEN, cut, marks
from tui.marks import NOT_ASKED as NOT_NEEDED
from tui.number_tables import table_lines
from tui.wrapping import Line, Piece, shown, width_of, wrap

STATES: Mapping[str, str] = {
    "computed": ANSWERED,
    "open": OPEN,
    "refused": KINDS["conflict"],
    "not needed": NOT_NEEDED,
}
# The column of a computed table that says most.
TELLING = {"computed_pressures": 1, "computed_spacing": 2, "ultimate_to_ask": 2}
# Beyond it a line is hard to follow from its label to its figure.
WIDEST = 96
IN = "    "


@dataclass(frozen=True, slots=True)
class Subject:
    """What a row is about: a calculation, and of it a question, a value, a step or a drawing.

    ``kind`` is calculation, question, value, step, caution, drawing, table or head; ``name`` is the
    id of the question or value, or the place of the step.
    """

    kind: str
    calculation: str = ""
    name: str = ""


@dataclass(frozen=True, slots=True)
class NumberRow:
    """A row of the ledger: its lines, and what they are about."""

    subject: Subject
    lines: tuple[Line, ...]
    step: Step | None = None


def head_row(title: str, calculation: str = "") -> NumberRow:
    """A title between rows, on which the cursor does not stand."""
    line = (Piece(f"  {title}", "muted"),)
    return NumberRow(Subject("head", calculation, title), ((), line))


def heading_row(each: Shown, width: int, unfolded: bool, moved: bool) -> NumberRow:
    """A calculation in one line: how it stands, its telling figure, its cautions, if it moved."""
    width = min(width, WIDEST)
    fold = marks().below if unfolded else "+"
    cautions = f"{KINDS['caution']} {len(each.cautions)}" if each.cautions else ""
    tail = f"{cautions:>5}"
    room = width - 11
    telling = cut(shown(headline(each)), room // 2)
    title = cut(shown(each.title), room - width_of(telling) - 2)
    gap = max(2, room - len(title) - width_of(telling))
    state = {"refused": "conflict", "open": "gap"}.get(each.state, "muted")
    figure = {"refused": "conflict", "open": "gap", "computed": "figure"}.get(each.state, "muted")
    line = (
        Piece(f"{fold} ", "muted"),
        Piece(f"{STATES[each.state]} ", state),
        Piece(title, "muted" if each.state == "not needed" else "strong"),
        Piece(" " + marks().dot * (gap - 2) + " ", "rule"),
        Piece(telling, figure),
        Piece(f" {MOVED if moved else ' '}", "moved"),
        Piece(tail, "caution"),
    )
    return NumberRow(Subject("calculation", each.result.calculation.id), (line,))


def headline(each: Shown) -> str:
    """The figure of a calculation that says most, or how it stands."""
    if each.state == "refused":
        return "outside its method"
    if each.state == "open":
        count = len(each.settles)
        return f"open: waits on {count} {'answer' if count == 1 else 'answers'}"
    if each.state != "computed":
        return "not needed"
    labels = {provided.label: provided.id for provided in each.result.calculation.provides}
    for table in each.tables:
        column = TELLING.get(labels.get(table.label, ""))
        rows = table.table.rows
        if column is not None and rows:
            first, last = rows[0][column], rows[-1][column]
            return f"{last} at {rows[-1][0]}" if first == last else f"{first} to {last}"
    return each.values[0][1] if each.values else ""


def body_rows(
    scope: Scope, each: Shown, before: Shown | None, width: int, formulas: bool
) -> Iterator[NumberRow]:
    """What a calculation gives, what to heed, what it is made from and how it is worked out."""
    width = min(width, WIDEST)
    calculation = each.result.calculation.id
    if each.state == "refused":
        says = wrap([Piece(shown(sentence(each.result.refused)), "conflict")], width - 6)
        yield NumberRow(Subject("caution", calculation, "refused"), _hung(says, "conflict"))
    yield from _values(each, before, width)
    yield from _tables(each, before, width)
    if each.cautions:
        yield head_row("To heed", calculation)
    for place, caution in enumerate(each.cautions):
        says = wrap([Piece(shown(sentence(caution)))], width - 6)
        yield NumberRow(Subject("caution", calculation, str(place)), _hung(says, "caution"))
    yield from _inputs(scope, each, width)
    yield from _steps(each, width, formulas)


def _hung(lines: list[Line], kind: str) -> tuple[Line, ...]:
    """Lines hung behind the sign of their kind."""
    sign, blank = Piece(f"{IN}{KINDS[kind]} ", kind), Piece(f"{IN}  ")
    return tuple((blank if n else sign, *line) for n, line in enumerate(lines))


def _inputs(scope: Scope, each: Shown, width: int) -> Iterator[NumberRow]:
    """Each input with its value; what is open first."""
    calculation = each.result.calculation
    listed = dict.fromkeys((*(name for name, _ in each.settles), *calculation.inputs))
    made_from = [name for name in listed if scope.lookup(name)[0] is not NOT_ASKED]
    if made_from:
        yield head_row("Made from", calculation.id)
    for name in made_from:
        waits = isinstance(scope.lookup(name)[0], Open)
        kind = "question" if name in scope.library.questions else "value"
        yield _two(
            OPEN if waits else " ",
            label_of(scope.library, name),
            "open" if waits else input_shown(scope, name),
            Subject(f"from {kind}", calculation.id, name),
            width,
            "gap" if waits else "plain",
        )


def input_shown(scope: Scope, name: str) -> str:
    """An input as a line has room for it: a table by the number of its rows."""
    value, _ = scope.lookup(name)
    if scope.library.kind_of(name) == "table":
        count = len(value) if isinstance(value, tuple) else 0
        return f"{count} {'row' if count == 1 else 'rows'}"
    return scope.shown(name)


def label_of(library: Library, name: str) -> str:
    """What a question or a computed value is called."""
    question = library.questions.get(name)
    if question is not None:
        return question.label
    calculation = library.calculations.get(name)
    provided = calculation.provides if calculation is not None else ()
    return next((each.label for each in provided if each.id == name), name.replace("_", " "))


def _values(each: Shown, before: Shown | None, width: int) -> Iterator[NumberRow]:
    if not each.values:
        return
    calculation = each.result.calculation
    ids = {provided.label: provided.id for provided in calculation.provides}
    was = dict(before.values) if before is not None else {}
    yield head_row("Gives", calculation.id)
    for label, value in each.values:
        moved = before is not None and was.get(label, value) != value
        told = f"{value}  (was {was[label]})" if moved else value
        subject = Subject("value", calculation.id, ids[label])
        look = "moved" if moved else "figure"
        yield _two(MOVED if moved else " ", label, told, subject, width, look)


def _two(mark: str, label: str, value: str, subject: Subject, width: int, look: str) -> NumberRow:
    """A label and its value in two columns."""
    column = min(48, max(24, width * 52 // 100))
    label = cut(shown(capital(label)), column)
    value = cut(shown(value), max(8, width - column - 6))
    pad = " " * (column - width_of(label) + 2)
    line = (Piece(f"  {mark} ", look), Piece(label + pad), Piece(value, look))
    return NumberRow(subject, (line,))


def _tables(each: Shown, before: Shown | None, width: int) -> Iterator[NumberRow]:
    calculation = each.result.calculation
    ids = {provided.label: provided.id for provided in calculation.provides}
    was = {table.label: table.table.rows for table in before.tables} if before is not None else {}
    for table in each.tables:
        yield head_row(capital(table.label), calculation.id)
        rows = table.table.rows
        known = was.get(table.label, rows)
        moved = [known != rows and row not in known for row in rows]
        lines = table_lines(table.table, table.numeric, width, moved)
        yield NumberRow(Subject("value", calculation.id, ids[table.label]), tuple(lines))


def _steps(each: Shown, width: int, formulas: bool) -> Iterator[NumberRow]:
    """Each step with its symbol and figure; with its formula, and with the figures put in."""
    if not each.steps:
        return
    calculation = each.result.calculation.id
    yield head_row("Worked out", calculation)
    symbols = min(12, max(width_of(shown(step.symbol)) for step in each.steps))
    for place, step in enumerate(each.steps):
        figure = shown(f"{step_value(step.value)} {step.unit}".rstrip())
        room = width - symbols - width_of(figure) - 10
        label = cut(shown(step.label), max(8, room))
        symbol = shown(step.symbol)
        lead = f"{IN}{symbol}{' ' * max(0, symbols - width_of(symbol))}  "
        gap = " " * max(1, room - width_of(label) + 2)
        mark = f" {KINDS['caution']}" if step.caution else ""
        lines: list[Line] = [
            (Piece(lead, "lead"), Piece(label + gap), Piece(figure, "figure"),
             Piece(mark, "caution"))
        ]  # fmt: skip
        if formulas and step.formula:
            indent = " " * (symbols + 8)
            worked = wrap([Piece(shown(formula_of(step)), "muted")], width - len(indent))
            lines += [(Piece(indent), *line) for line in worked]
        yield NumberRow(Subject("step", calculation, str(place)), tuple(lines), step)


def formula_of(step: Step) -> str:
    """A step's formula, and the same with the figures put in."""
    worked = f" = {step.worked}" if step.worked and step.worked != step.formula else ""
    return f"{step.formula}{worked}"


def table_rows(scope: Scope, width: int) -> Iterator[NumberRow]:
    """Each table of the brief that is asked for, with how many rows it has."""
    found = list(_asked_tables(scope))
    if found:
        yield head_row("Tables that you fill in")
    for name, label, state in found:
        look = "gap" if state == "open" else "figure"
        mark = OPEN if state == "open" else ANSWERED if state != "none" else " "
        yield _two(mark, label, state, Subject("table", "", name), min(width, WIDEST), look)


def _asked_tables(scope: Scope) -> Iterator[tuple[str, str, str]]:
    for question in scope.library.questions.values():
        if question.kind != "table":
            continue
        value, _ = scope.lookup(question.id)
        if isinstance(value, tuple):
            yield question.id, question.label, input_shown(scope, question.id)
        elif isinstance(value, Open) and question.id in value.waits_on:
            yield question.id, question.label, "open"
        elif value is NOT_ASKED and question.optional and scope.holds(question.when)[0] is True:
            yield question.id, question.label, "none"

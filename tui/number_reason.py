"""What is told of a row of the ledger: where a figure comes from, and which clauses read it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from specgen.dependence import dependence_of, names_in
from specgen.engine import Engine
from specgen.values import Open
from specgen.writers.calculations_shown import Shown, capital, sentence
from tui.lead_strip import Block, Lead, told
from tui.marks import IN, KINDS, MOVED, OPEN, OUT, cut
from tui.number_lines import NumberRow, formula_of, headline, input_shown, label_of
from tui.wrapping import Piece

MOST_CLAUSES = 12
ASKED = 90


def number_reason(
    row: NumberRow, engine: Engine, now: Mapping[str, Shown], before: Mapping[str, Shown]
) -> list[Block]:
    """Everything that is known of a row; ``now`` and ``before`` are calculations by their ids."""
    kind, name = row.subject.kind, row.subject.name
    each = now.get(row.subject.calculation)
    if kind == "table":
        return list(_table(engine, name))
    if each is None:
        return []
    if kind == "calculation":
        return list(_calculation(engine, each, before.get(row.subject.calculation)))
    if kind == "from question":
        return list(_input(engine, name))
    if kind == "from value":
        return list(_computed_input(engine, name, now))
    if kind == "value":
        return list(_value(engine, each, name))
    if kind == "step" and row.step is not None:
        return list(_step(row))
    return [_title(each.title), *_waits(engine, each)]


def _title(text: str, more: str = "") -> Block:
    text = f"{capital(text)}:" if more else capital(text)
    return Block("", (Piece(text, "strong"), Piece(f" {more}", "plain")))


def _calculation(engine: Engine, each: Shown, before: Shown | None) -> Iterator[Block]:
    yield _title(each.title, headline(each))
    if each.state == "refused":
        refused = Piece(sentence(each.result.refused), "conflict")
        yield Block(f"{KINDS['conflict']} no figure", (refused,))
    yield from _waits(engine, each)
    moved = list(_moved(each, before))
    if moved:
        yield Block(f"{MOVED} moved", (Piece("; ".join(moved), "moved"),))
    clauses = {
        name: None for p in each.result.calculation.provides for name in _readers(engine, p.id)
    }
    if clauses:
        yield Block("read by", tuple(_clauses(engine, list(clauses))))
    sources = dict.fromkeys(step.source for step in each.steps if step.source)
    if sources:
        yield Block("source", told("; ".join(sources), "muted"))


def _moved(each: Shown, before: Shown | None) -> Iterator[str]:
    if before is None:
        return
    was = dict(before.values)
    for label, value in each.values:
        if was.get(label, value) != value:
            yield f"{label} {was[label]} to {value}"
    tables = {table.label: table.table.rows for table in before.tables}
    for table in each.tables:
        if tables.get(table.label, table.table.rows) != table.table.rows:
            yield table.label
    if before.state != each.state:
        yield f"{before.state}, now {each.state}"


def _waits(engine: Engine, each: Shown) -> Iterator[Block]:
    for name, ask in each.settles:
        head = "answer" if each.state == "refused" else f"{OPEN} open"
        yield Block(head, (Lead("question", name, cut(ask, ASKED), look="gap"),))


def _input(engine: Engine, name: str) -> Iterator[Block]:
    question = engine.library.questions[name]
    yield _title(question.label, input_shown(engine.scope, name))
    asked = Lead("question", name, cut(question.ask, ASKED))
    yield Block("question", (asked,))
    if question.kind == "table":
        yield Block("rows", (Lead("rows", name, "open its rows"),))
    others = [
        Lead("number", result.calculation.id, result.calculation.title)
        for result in engine.scope.results()
        if name in result.calculation.inputs and result.outcome is not None
    ]
    if others:
        yield Block("used by", tuple(others))
    yield Block("why", told(question.why))
    yield Block("source", told(question.source, "muted"))


def _computed_input(engine: Engine, name: str, now: Mapping[str, Shown]) -> Iterator[Block]:
    calculation = engine.library.calculations[name]
    yield _title(label_of(engine.library, name), input_shown(engine.scope, name))
    yield Block("from", (Lead("number", calculation.id, calculation.title),))
    each = now.get(calculation.id)
    if each is not None:
        yield from _waits(engine, each)
    yield from _read_by(engine, name)


def _value(engine: Engine, each: Shown, name: str) -> Iterator[Block]:
    value = dict(each.values).get(label_of(engine.library, name), "")
    yield _title(label_of(engine.library, name), value)
    yield from _read_by(engine, name)
    takers = [
        Lead("number", result.calculation.id, result.calculation.title)
        for result in engine.scope.results()
        if name in result.calculation.inputs
    ]
    if takers:
        yield Block("used by", tuple(takers))
    found = engine.found
    reading = dependence_of(engine.library).reach(name).checks
    for finding in (found[check] for check in engine.library.checks if check in found):
        if finding.id in reading:
            lead = Lead("finding", finding.id, cut(finding.says, 200), look=finding.kind)
            yield Block(f"{KINDS[finding.kind]} found", (lead,))


def _read_by(engine: Engine, name: str) -> Iterator[Block]:
    clauses = _readers(engine, name)
    if clauses:
        yield Block("read by", tuple(_clauses(engine, clauses)))
    else:
        yield Block("read by", told("no clause; it stands in the calculation record", "muted"))


def _readers(engine: Engine, name: str) -> list[str]:
    """The clauses that read a value, those first that name it, then those it reaches."""
    library = engine.library
    reached = dependence_of(library).reach(name).clauses
    direct = [clause for clause in reached if name in names_in(library.clauses[clause])]
    rank = {clause: place for place, clause in enumerate(library.clauses)}
    return sorted(reached, key=lambda clause: (clause not in direct, rank[clause]))


def _clauses(engine: Engine, clauses: list[str]) -> Iterator[Lead | Piece]:
    """Clauses with their place, those that stand first; each leads into the document."""
    places = engine.section.places
    stands = {clause: _standing(engine, clause) for clause in clauses}
    order = {IN: 0, OPEN: 1, OUT: 2}
    ranked = sorted(clauses, key=lambda clause: order[stands[clause]])
    inside = [clause for clause in ranked if stands[clause] != OUT]
    for clause in inside[:MOST_CLAUSES]:
        look = "gap" if stands[clause] == OPEN else "lead"
        yield Lead("clause", clause, f"{places.get(clause, OPEN)} {clause}", look=look)
    if len(inside) > MOST_CLAUSES:
        yield Piece(f"and {len(inside) - MOST_CLAUSES} more ", "muted")
    outside = ranked[len(inside) :]
    if outside:
        yield Piece(f"{OUT} not in the section: {', '.join(outside)}", "muted")


def _standing(engine: Engine, clause: str) -> str:
    standing = engine.standings.get(clause)
    if standing is None or standing.stands is False:
        return OUT
    return OPEN if isinstance(standing.stands, Open) else IN


def _step(row: NumberRow) -> Iterator[Block]:
    step = row.step
    assert step is not None
    yield _title(f"{step.symbol}: {step.label}")
    if step.formula:
        yield Block("formula", told(formula_of(step), "lead"))
    if step.caution:
        yield Block(f"{KINDS['caution']} heed", told(step.caution))
    if step.source:
        yield Block("source", told(step.source, "muted"))
    if not step.formula:
        yield Block("", told("given, or taken from its source", "muted"))


def _table(engine: Engine, name: str) -> Iterator[Block]:
    question = engine.library.questions[name]
    yield _title(question.label, input_shown(engine.scope, name))
    yield Block("rows", (Lead("rows", name, "open its rows"),))
    yield Block("question", (Lead("question", name, cut(question.ask, ASKED)),))
    yield Block("why", told(question.why))
    yield Block("source", told(question.source, "muted"))

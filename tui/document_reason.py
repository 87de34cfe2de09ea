"""Why a paragraph stands in the document, as the blocks of a strip."""

from __future__ import annotations

from collections.abc import Iterator

from specgen.engine import Engine
from specgen.section import Reason
from tui.document_rows import SIGNS, Row
from tui.lead_strip import Block, Lead, told
from tui.marks import KINDS, OPEN, cut, times
from tui.wrapping import Piece

STATES = {
    "in": "in since",
    "out": "out since",
    "reworded": "reworded since",
    "moved": "moved since",
}
HEAD_QUESTIONS = {
    "project": ("project_name", "project_number"),
    "place": ("place",),
    "issue": ("issue",),
    "date": ("issue_date",),
}


def reason_of(row: Row, engine: Engine, named: str, was: Row | None) -> list[Block]:
    """Everything that is known of a row; ``named`` says what it is compared with, ``was`` it there.

    What can be done comes first: what it waits on, what is found; then why, from what, with what.
    """
    return [
        _title(row, named),
        *_waits(row, engine),
        *_found(row),
        *_was(row, was),
        *(_page_head(row, engine) if row.kind == "head" else ()),
        *(_reasons(row, row.paragraph.reason, engine) if row.paragraph is not None else ()),
    ]


def _title(row: Row, named: str) -> Block:
    what = row.clause or ("page head" if row.kind == "head" else "computed from the section")
    if row.paragraph is not None and row.paragraph.decision is not None:
        what = "open decision"
    pieces = [Piece(f"{row.number}  {what}" if row.number else what, "strong")]
    if row.mark:
        pieces.append(Piece(f"  {SIGNS[row.mark]} {STATES[row.mark]} {named}", row.mark))
    if row.paragraph is not None and row.paragraph.reason.office:
        pieces.append(Piece("  the office's clause", "muted"))
    return Block("", tuple(pieces))


def _waits(row: Row, engine: Engine) -> Iterator[Block]:
    if row.gone:
        return
    decision = row.paragraph.decision if row.paragraph is not None else None
    for question in row.questions:
        ask = engine.library.questions[question].ask
        count = len(decision.clauses) if decision is not None else 0
        more = told(f"{times(count, 'requirement')} held up", "muted") if count else ()
        yield Block(f"{OPEN} open", (Lead("question", question, ask, told=more, look="gap"),))


def _found(row: Row) -> Iterator[Block]:
    for finding in row.findings:
        there = f"{finding.id} {finding.place}"
        lead = Lead("finding", there, cut(finding.says, 400), look=finding.kind)
        yield Block(f"{KINDS[finding.kind]} found", (lead,))


def _was(row: Row, was: Row | None) -> Iterator[Block]:
    if was is None or row.gone:
        return
    if row.mark == "reworded":
        yield Block("was", told(was.words, "muted"))
    elif row.mark == "moved" and was.number != row.number:
        yield Block("was", told(was.number, "muted"))


def _page_head(row: Row, engine: Engine) -> Iterator[Block]:
    names = [
        name for name in HEAD_QUESTIONS[str(row.key[1])]
        if name in engine.library.questions and name not in row.questions
    ]  # fmt: skip
    leads = tuple(_answer(name, engine.scope.shown(name), engine) for name in names)
    if leads:
        yield Block("from", leads)


def _reasons(row: Row, reason: Reason, engine: Engine) -> Iterator[Block]:
    if reason.why:
        yield Block("why", told(reason.why))
    if reason.answers:
        answers = (_answer(name, value, engine) for name, value in reason.answers)
        yield Block("answers", tuple(answers))
    if reason.calculations:
        yield Block("numbers", tuple(_numbers(reason, engine)))
    if reason.needs:
        leads = _beside(reason, engine)
        yield from (Block("beside" if n == 0 else "and", (lead,)) for n, lead in enumerate(leads))
    if reason.cites:
        yield Block("cites", tuple(_cites(reason, engine)))
    decision = row.paragraph.decision if row.paragraph is not None else None
    if decision is not None:
        yield Block("waiting", told(", ".join(decision.clauses)))
    if reason.source:
        yield Block("source", told(reason.source))


def _answer(name: str, value: str, engine: Engine) -> Lead:
    """A question with its answer, and where it leads."""
    return Lead("question", name, engine.library.questions[name].label + ":", told=told(value))


def _numbers(reason: Reason, engine: Engine) -> Iterator[Lead]:
    for name, value in reason.calculations:
        calculation = engine.library.calculations[name]
        label = next((each.label for each in calculation.provides if each.id == name), name)
        yield Lead("number", calculation.id, label + ":", told=told(value))


def _beside(reason: Reason, engine: Engine) -> Iterator[Lead]:
    """The clauses that must stand with this one, each with its place and why it is there."""
    for clause in reason.needs:
        place = engine.section.places.get(clause, "")
        why = engine.library.clauses[clause].why
        yield Lead("clause", clause, f"{place} {clause}".strip(), told=told(why, "muted"))


def _cites(reason: Reason, engine: Engine) -> Iterator[Piece]:
    for index, cited in enumerate(reason.cites):
        standard = engine.library.standards[cited]
        current = standard.status == "current"
        status = "" if current else f", {standard.status}"
        stop = "; " if index < len(reason.cites) - 1 else ""
        yield Piece(f"{cited}, {standard.title.rstrip('.')}{status}{stop}",
                    "plain" if current else "ambiguity")  # fmt: skip

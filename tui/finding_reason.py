"""A finding in full, with the ways to settle it and what each would cause, as blocks of a strip."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from specgen.checks import Finding
from specgen.domain import typed
from specgen.engine import Change, Engine
from specgen.faults import BadInput
from specgen.library import FINDING_KINDS, Library
from specgen.questions import AnswerError, read_answer
from specgen.section import Section, numbered, open_questions
from specgen.values import Choice, Value
from specgen.writers.findings_text import counted
from tui.consequences import clauses_moved, number_moved
from tui.findings_list import FindingRow
from tui.lead_strip import Block, Lead, told
from tui.marks import KINDS, MOVED, marks
from tui.wrapping import Piece


def finding_reason(
    row: FindingRow, finding: Finding, engine: Engine, trials: Sequence[Change | None]
) -> list[Block]:
    """Everything that is known of a finding.

    ``trials`` are what its ways to settle would cause, none as long as they are not tried.
    """
    waived = finding.waived is not None
    return [
        _title(finding),
        *_waived(finding),
        *(() if waived else _ways(row, finding, engine, trials)),
        Block("why", told(finding.because)),
        *_answers(finding, engine),
        *_there(finding, engine.section),
        Block("source", told(finding.source)),
    ]


def change_by(engine: Engine, way: Mapping[str, object]) -> Change | None:
    """What answers as typed would cause; None if they cannot be tried."""
    try:
        values = {name: _value(engine.library, name, raw) for name, raw in way.items()}
        return engine.change_to(engine.answering_all(values))
    except (BadInput, AnswerError):
        return None


def way_words(way: Mapping[str, object], library: Library) -> str:
    """A way to settle in the words of its questions and choices."""
    return "; ".join(
        f"{library.questions[name].label}: {answer_words(name, raw, library)}"
        for name, raw in way.items()
    )


def answer_words(name: str, raw: object, library: Library) -> str:
    """An answer as typed, in the words by which it is picked."""
    try:
        value = _value(library, name, raw)
    except AnswerError:
        return str(raw)
    if isinstance(value, Choice):
        return value.label
    if isinstance(value, tuple):
        labels = [choice.label for choice in value if isinstance(choice, Choice)]
        return ", ".join(labels) or "none"
    return typed(value)


def caused(change: Change | None, library: Library) -> tuple[Piece, ...]:
    """What a way would cause, as pieces; nothing where it was not tried."""
    if change is None:
        return ()
    told_of: list[Piece] = []
    if change.settled:
        told_of.append(Piece(f"settles {in_words(change.settled)}", "in"))
    if change.raised:
        told_of.append(Piece(f"raises {in_words(change.raised)}", change.raised[0].kind))
    clauses = clauses_moved(change)
    if clauses:
        told_of.append(Piece(f"clauses {clauses}"))
    number = number_moved(change, library)
    if number:
        told_of.append(Piece(f"{MOVED} {number}", "lead"))
    told_of = told_of or [Piece("changes nothing else", "muted")]
    pieces = [Piece(f"{marks().arrow} ", "muted")]
    for index, piece in enumerate(told_of):
        pieces += [Piece("; ", "muted"), piece] if index else [piece]
    for finding in change.raised:
        if finding.kind == "conflict":
            pieces.append(Piece(f" {KINDS['conflict']} {finding.says}", "conflict"))
    return tuple(pieces)


def in_words(findings: Sequence[Finding]) -> str:
    """Findings by their kinds: ``2 conflicts, 1 caution``."""
    kinds = [finding.kind for finding in findings]
    return ", ".join(counted(kind, kinds.count(kind)) for kind in FINDING_KINDS if kind in kinds)


def _value(library: Library, name: str, raw: object) -> Value:
    return read_answer(library.questions[name], raw)


def _title(finding: Finding) -> Block:
    kind = Piece(f"{KINDS[finding.kind]} {finding.kind}  ", finding.kind)
    items: list[Piece | Lead] = [kind, Piece(f"{finding.id}  ", "strong")]
    if finding.place:
        items.append(Lead("place", finding.place, f"at {finding.place}", key="enter"))
    return Block("", tuple(items))


def _waived(finding: Finding) -> Iterator[Block]:
    if finding.waived is not None:
        reason, by = finding.waived
        back = Lead("unwaive", finding.id, "take the waiver back", key="x")
        yield Block("waived", (Piece(f"{by}: {reason} "), back))


def _ways(
    row: FindingRow, finding: Finding, engine: Engine, trials: Sequence[Change | None]
) -> Iterator[Block]:
    if row.lapsed is not None:
        back = Lead("unwaive", row.lapsed.check, "take the waiver back", key="x")
        yield Block("settle", (back,))
    for index, way in enumerate(finding.settle):
        words = way_words(way, engine.library)
        more = caused(trials[index], engine.library) if index < len(trials) else ()
        key = str(index + 1) if index < 9 else ""
        head = "settle" if index == 0 else "or"
        yield Block(head, (Lead("way", str(index), words, key=key, told=more),))


def _there(finding: Finding, section: Section) -> Iterator[Block]:
    """What the document says at the place of a finding."""
    if finding.place:
        yield Block("there", told(text_at(section, finding.place), "muted"))


def text_at(section: Section, place: str) -> str:
    """What the section says at a place such as 2.3.A.1."""
    for article in section.articles():
        if place.startswith(f"{article.number}."):
            for paragraph, number in numbered(article):
                if number == place:
                    return section.plain(paragraph.spans)
    return ""


def _answers(finding: Finding, engine: Engine) -> Iterator[Block]:
    """The questions and numbers that decided a finding; of an open decision, what is open."""
    questions = engine.library.questions
    names = [name for name in finding.answers if name in questions]
    head = "answers"
    if not names and finding.id.startswith("open-decision"):
        names = [waiting.question for waiting in open_questions(engine.section)]
        head = "open"
    if names:
        yield Block(head, tuple(_answer(name, engine) for name in names))
    numbers = [name for name in finding.answers if name not in questions]
    if numbers:
        yield Block("numbers", tuple(_number(name, engine) for name in numbers))


def _answer(name: str, engine: Engine) -> Lead:
    label = engine.library.questions[name].label
    return Lead("question", name, f"{label}:", told=told(engine.scope.shown(name)))


def _number(name: str, engine: Engine) -> Lead:
    library = engine.library
    calculation = library.calculations[name]
    label = next((each.label for each in calculation.provides if each.id == name), name)
    tabled = library.kind_of(name) == "table"
    value = "as tabled" if tabled else engine.scope.shown(name)
    return Lead("number", calculation.id, f"{label}:", told=told(value))

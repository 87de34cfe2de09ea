"""Searching everything: questions, findings, numbers, clauses and standards; enter goes there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from specgen.values import NOT_ASKED, Open
from tui.cursor_list import Part
from tui.finder import Finder, Found
from tui.marks import ANSWERED, IN, KINDS, MOVED, OPEN, OUT, cut, plain

if TYPE_CHECKING:
    from tui.app import RoofApp

WIDEST = 200


@dataclass(frozen=True, slots=True)
class Entry:
    """Something to be searched: its name and all that is searched, both in small letters."""

    name: str
    words: str
    found: Found


class Search(Finder):
    """Everything that holds every word that was typed; what it is called by comes first."""

    head: ClassVar[str] = "Search questions, findings, numbers, clauses and standards"
    hint: ClassVar[str] = "words, such as sealant, E1592 or uplift"
    nothing: ClassVar[str] = "Nothing holds these words."

    def __init__(self, app: RoofApp) -> None:
        super().__init__()
        self._entries = list(entries_of(app))

    def fitting(self, typed: str) -> Sequence[Found]:
        if not typed:
            return []
        words = plain(typed).lower().split()
        found = [
            (_rank(entry, words), index, entry)
            for index, entry in enumerate(self._entries)
            if all(word in entry.words for word in words)
        ]
        found.sort(key=lambda each: each[:2])
        return [entry.found for _, _, entry in found]


def _rank(entry: Entry, words: Sequence[str]) -> int:
    """0 where words of the name begin with those typed, 1 where it holds them, 2 where not."""
    wanted = [word for word in words if not entry.words.startswith(word)]  # not its kind
    if all(any(part.startswith(word) for part in entry.name.split()) for word in wanted):
        return 0 if entry.name else 2
    return 1 if all(word in entry.name for word in wanted) else 2


def entries_of(app: RoofApp) -> Iterator[Entry]:
    """All that can be searched, with the answers as they stand."""
    yield from _questions(app)
    yield from _findings(app)
    yield from _numbers(app)
    yield from _clauses(app)
    yield from _standards(app)


def _entry(sign: str, kind: str, name: str, more: str, hidden: str, go: partial[None]) -> Entry:
    row: tuple[Part, ...] = (
        (f"{sign} ", "number"),
        (kind.ljust(10), "muted"),
        (name, "strong"),
        (f"  {cut(more, WIDEST)}" if more else "", "plain"),
    )
    words = plain(f"{kind} {name} {more} {hidden}").lower()
    # A clause has no name that somebody would look for; its article stands there.
    called = "" if kind == "clause" else plain(name).lower()
    return Entry(called, words, Found(row, go))


def _questions(app: RoofApp) -> Iterator[Entry]:
    scope = app.session.engine.scope
    for question in app.library.questions.values():
        value = scope.lookup(question.id)[0]
        sign = OPEN if isinstance(value, Open) else " " if value is NOT_ASKED else ANSWERED
        hidden = f"{question.id} {question.topic} " + " ".join(c.label for c in question.choices)
        go = partial(app.go_to_question, question.id)
        more = f"{scope.shown(question.id)}  {question.ask}"
        yield _entry(sign, "question", question.label, more, hidden, go)


def _findings(app: RoofApp) -> Iterator[Entry]:
    for finding in app.session.report.standing:
        go = partial(app.go_to_finding, finding.id)
        hidden = f"{finding.id} {finding.because}"
        yield _entry(KINDS[finding.kind], finding.kind, finding.says, "", hidden, go)


def _numbers(app: RoofApp) -> Iterator[Entry]:
    scope = app.session.engine.scope
    for result in scope.results():
        go = partial(app.go_to_number, result.calculation.id)
        for provided in result.calculation.provides:
            value = scope.lookup(provided.id)[0]
            if value is NOT_ASKED:
                continue
            shown = f"{len(value)} rows" if isinstance(value, tuple) else scope.shown(provided.id)
            hidden = f"{result.calculation.title} {provided.id}"
            yield _entry(MOVED, "number", provided.label, shown, hidden, go)


def _clauses(app: RoofApp) -> Iterator[Entry]:
    """Clauses in the section or waiting; one that is out leads to the question that decided."""
    scope = app.session.engine.scope
    for standing in app.session.engine.standings.values():
        clause = standing.clause
        hidden = f"{clause.id} {' '.join(clause.cites)}"
        if standing.stands is False:
            asked = standing.because & app.library.questions.keys()
            if not asked:
                continue
            name = clause.id.replace("-", " ")
            more = f"out: {clause.why}"
            go = partial(app.go_to_question, scope.first_question(frozenset(asked)))
            yield _entry(OUT, "clause", name, more, hidden, go)
            continue
        sign = OPEN if isinstance(standing.stands, Open) else IN
        text = standing.text or f"waits on an answer: {clause.why}"
        go = partial(app.go_to_clause, clause.id)
        yield _entry(sign, "clause", clause.article, text, hidden, go)


def _standards(app: RoofApp) -> Iterator[Entry]:
    """The register; a standard leads to the first paragraph that cites it."""
    citing: dict[str, str] = {}
    for standing in app.session.engine.standings.values():
        if standing.stands is True:
            for name in standing.clause.cites:
                citing.setdefault(name, standing.clause.id)
    for standard in app.library.standards.values():
        clause = citing.get(standard.id)
        go = partial(app.go_to_clause, clause) if clause else partial(_not_cited, app, standard.id)
        sign = IN if clause else OUT
        more = f"{standard.title}, {standard.status}"
        yield _entry(sign, "standard", standard.id, more, standard.publisher, go)


def _not_cited(app: RoofApp, name: str) -> None:
    app.notify(f"No paragraph of this section cites {name}.", timeout=4, markup=False)

"""How each clause of the library stands for a set of answers: in, out or open, and with which text.

The section is put together from standings, and so are the differences between two sets of answers;
a clause that reads nothing that changed keeps its standing.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from specgen.library import Clause
from specgen.scope import Scope
from specgen.section import Submittal, Table, Warranty
from specgen.spans import Gap, Span, Words
from specgen.units import Quantity
from specgen.values import NOT_ASKED, Open
from specgen.wording import UNITS, Text, print_value

# A page carries tables of so many columns; wider ones are turned, so many records abreast.
MOST_COLUMNS = 6
RECORDS_ABREAST = 4


@dataclass(frozen=True, slots=True)
class Standing:
    """A clause as it stands: ``stands`` is True, False or Open.

    ``because`` are the answers and calculations that decided it and that its text read,
    ``decided_by`` those of them that decided it; what it stands under has decided too. The rest is
    filled in only where it stands: the text as spans, its tables, the submittals and the warranty
    that it causes.
    """

    clause: Clause
    stands: bool | Open
    because: frozenset[str]
    decided_by: frozenset[str]
    spans: tuple[Span, ...] = ()
    tables: tuple[Table, ...] = ()
    submittals: tuple[Submittal, ...] = ()
    warranty: Warranty | None = None

    @property
    def text(self) -> str:
        """The text as plain words, an article by its id where it refers to one."""
        return "".join(
            span.text if isinstance(span, Words | Gap) else f"Article {span.article}"
            for span in self.spans
        )


Standings = Mapping[str, Standing]


def standings_of(
    scope: Scope, known: Standings | None = None, changed: Collection[str] = ()
) -> dict[str, Standing]:
    """The standing of every clause whose parent stands, by the clause's id.

    ``known`` standings are kept for clauses not in ``changed``.
    """
    found: dict[str, Standing] = {}

    def take(clauses: Iterable[Clause]) -> None:
        for clause in clauses:
            standing = known.get(clause.id) if known and clause.id not in changed else None
            if standing is None:
                standing = standing_of(clause, scope)
            found[clause.id] = standing
            if standing.stands is True:
                take(scope.library.children.get(clause.id, ()))

    for clauses in scope.library.top_level.values():
        take(clauses)
    return found


def standing_of(clause: Clause, scope: Scope) -> Standing:
    """How one clause stands.

    Raises BadInput, naming its file and line, where it prints an answer that is not asked for.
    """
    stands, because = _stands(clause, scope)
    if stands is not True:
        return Standing(clause, stands, because, because)
    spans, read = scope.text_of(clause.text, clause)
    if clause.table is not None and _shows_figures(clause, scope):
        read |= {UNITS}
    names = {kind.id: kind.name for kind in scope.library.submittal_kinds}
    warranty = None
    if clause.warrants is not None:
        what = _words(clause.warrants.what, clause, scope)
        years = _words(clause.warrants.years, clause, scope)
        warranty = Warranty(what, years, clause.warrants.by, clause.id)
    return Standing(
        clause=clause,
        stands=True,
        because=because | read,
        decided_by=because,
        spans=spans,
        tables=_tables(clause, scope),
        submittals=tuple(
            Submittal(names[kind], _words(text, clause, scope), clause.article, clause.id)
            for kind, text in clause.submits
        ),
        warranty=warranty,
    )


def _stands(clause: Clause, scope: Scope) -> tuple[bool | Open, frozenset[str]]:
    """Whether a clause is in: its condition holds and the table that it prints is answered."""
    stands, because = scope.holds(clause.when)
    if stands is True and clause.table is not None:
        table, read = scope.lookup(clause.table)
        because |= read
        stands = table if isinstance(table, Open) else table is not NOT_ASKED
    return stands, because


def _words(text: Text, clause: Clause, scope: Scope) -> str:
    """What a clause submits or warrants, as plain words; it refers to no article."""
    spans, _ = scope.text_of(text, clause)
    words = (
        f"({span.text})" if isinstance(span, Gap) else span.text
        for span in spans
        if isinstance(span, Words | Gap)
    )
    return "".join(words)


def _tables(clause: Clause, scope: Scope) -> tuple[Table, ...]:
    """The table that a clause prints; one of many columns lies on its side, in pieces."""
    if clause.table is None:
        return ()
    value, _ = scope.lookup(clause.table)
    assert isinstance(value, tuple)  # its clause stands only where it is answered
    rows = tuple(
        tuple(print_value(cell, scope.printer) for cell in row)
        for row in value
        if isinstance(row, tuple)
    )
    head = tuple(column.label for column in scope.library.columns_of(clause.table))
    if len(head) <= MOST_COLUMNS:
        return (Table(head, rows),)
    return tuple(
        _on_its_side(head, rows[first : first + RECORDS_ABREAST], first + 1)
        for first in range(0, len(rows), RECORDS_ABREAST)
    )


def _shows_figures(clause: Clause, scope: Scope) -> bool:
    """Whether the table that a clause prints holds a quantity."""
    value, _ = scope.lookup(clause.table or "")
    rows = value if isinstance(value, tuple) else ()
    return any(isinstance(cell, Quantity) for row in rows if isinstance(row, tuple) for cell in row)


def _on_its_side(head: tuple[str, ...], rows: tuple[tuple[str, ...], ...], first: int) -> Table:
    """Records as columns, numbered from ``first``, with what each line holds at its left."""
    numbers = tuple(f"No. {first + index}" for index in range(len(rows)))
    return Table(("Record", *numbers), tuple(zip(head, *rows, strict=True)))

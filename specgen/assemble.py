"""A brief and a library become a section."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from specgen.conditions import LanguageError
from specgen.faults import BadInput, Fault
from specgen.integrity import cites_literally
from specgen.library import ArticlePlan, Clause, Library
from specgen.scope import Scope
from specgen.section import (
    Article,
    OpenDecision,
    Paragraph,
    Part,
    Reason,
    Section,
    Submittal,
    Table,
    Warranty,
    label_for,
)
from specgen.spans import ArticleReference, Gap, Span, Words, join_words
from specgen.values import NOT_ASKED, Open
from specgen.wording import Text, print_value

# A page carries tables of so many columns; wider ones are turned, so many records abreast.
MOST_COLUMNS = 6
RECORDS_ABREAST = 4


def assemble(scope: Scope) -> Section:
    """The section that the answers of ``scope`` make of its library.

    Raises BadInput, naming the clause's file and line, where a clause prints an answer that is not
    asked for this roof.
    """
    return _Assembly(scope).section()


@dataclass
class _Waiting:
    """Clauses of one article that wait on the same question, and where the first would stand."""

    clauses: list[str] = field(default_factory=list)


class _Assembly:
    def __init__(self, scope: Scope) -> None:
        self.scope = scope
        self.library: Library = scope.library
        self.submittals: list[Submittal] = []
        self.warranties: list[Warranty] = []
        self.cited: set[str] = set()

    def section(self) -> Section:
        written = {
            plan.id: self._written(plan) for part in self.library.parts for plan in part.articles
        }
        parts = []
        for part_number, part in enumerate(self.library.parts, 1):
            articles: list[Article] = []
            for plan in part.articles:
                paragraphs = [*written[plan.id], *self._computed(plan)]
                if paragraphs:
                    number = f"{part_number}.{len(articles) + 1}"
                    labelled = _labelled(paragraphs, 1)
                    articles.append(Article(plan.id, number, plan.title, labelled))
            parts.append(Part(part_number, part.title, tuple(articles)))
        return Section(
            number=self.library.number,
            title=self.library.title,
            project=self._head("project_name"),
            place=self._head("place"),
            issue=self._head("issue"),
            date=self._head("issue_date"),
            parts=tuple(parts),
            submittals=tuple(self.submittals),
            warranties=tuple(self.warranties),
        )

    def _head(self, name: str) -> Span:
        value, _ = self.scope.lookup(name)
        if isinstance(value, Open):
            return Gap(name, f"open: {self.scope.label_of(name)}")
        return Words(print_value(value, self.scope.printer))

    # -- clauses -----------------------------------------------------------------------------

    def _written(self, plan: ArticlePlan) -> list[Paragraph]:
        waiting: dict[str, _Waiting] = {}
        placed: list[Paragraph | str] = []
        self._take(self.library.top_level.get(plan.id, ()), 1, placed, waiting)
        return [
            self._decision(item, waiting[item], 1) if isinstance(item, str) else item
            for item in placed
        ]

    def _take(
        self,
        clauses: Iterable[Clause],
        level: int,
        placed: list[Paragraph | str],
        waiting: dict[str, _Waiting],
    ) -> None:
        """Put the paragraphs of clauses into ``placed``, and each question waited on once."""
        for clause in clauses:
            holds, because = self._stands(clause)
            if isinstance(holds, Open):
                question = self.scope.first_question(holds.waits_on)
                if question not in waiting:
                    waiting[question] = _Waiting()
                    placed.append(question)
                waiting[question].clauses.extend(self._with_children(clause))
            elif holds:
                placed.append(self._paragraph(clause, because, level))

    def _stands(self, clause: Clause) -> tuple[bool | Open, frozenset[str]]:
        """Whether a clause is in: its condition holds and the table that it prints is answered."""
        holds, because = self.scope.holds(clause.when)
        if holds is True and clause.table is not None:
            table, read = self.scope.lookup(clause.table)
            because |= read
            holds = table if isinstance(table, Open) else table is not NOT_ASKED
        return holds, because

    def _with_children(self, clause: Clause) -> Iterable[str]:
        yield clause.id
        for child in self.library.children.get(clause.id, ()):
            yield from self._with_children(child)

    def _paragraph(self, clause: Clause, because: frozenset[str], level: int) -> Paragraph:
        spans, read = self._text(clause)
        text = "".join(span.text for span in spans if isinstance(span, Words))
        cites = tuple(cited for cited in clause.cites if cites_literally(text, cited))
        self.cited.update(cites)
        tables = self._tables(clause)
        self._register(clause)
        placed: list[Paragraph | str] = []
        waiting: dict[str, _Waiting] = {}
        self._take(self.library.children.get(clause.id, ()), level + 1, placed, waiting)
        children = [
            self._decision(item, waiting[item], level + 1) if isinstance(item, str) else item
            for item in placed
        ]
        return Paragraph(
            label="",
            level=level,
            spans=spans,
            reason=Reason(
                clause=clause.id,
                answers=self._answers(because | read),
                calculations=self._calculations(because | read),
                cites=cites,
                needs=clause.needs,
                why=clause.why,
                source=clause.source,
                office=clause.office,
            ),
            children=tuple(children),
            tables=tables,
        )

    def _text(self, clause: Clause) -> tuple[tuple[Span, ...], frozenset[str]]:
        try:
            return self.scope.text_of(clause.text)
        except LanguageError as error:
            says = f"{clause.id}: {error}; narrow its `when`."
            raise BadInput([Fault(clause.file, clause.line, says)]) from None

    def _answers(self, names: frozenset[str]) -> tuple[tuple[str, str], ...]:
        questions = [name for name in self.library.questions if name in names]
        return tuple((name, self.scope.shown(name)) for name in questions)

    def _calculations(self, names: frozenset[str]) -> tuple[tuple[str, str], ...]:
        computed = [name for name in self.library.calculations if name in names]
        return tuple(
            (name, "as tabled" if self.library.kind_of(name) == "table" else self.scope.shown(name))
            for name in computed
        )

    def _decision(self, name: str, waiting: _Waiting, level: int) -> Paragraph:
        """The paragraph that stands where clauses wait on a question."""
        question = self.library.questions[name]
        count = len(waiting.clauses)
        settles = "" if count == 1 else f" {count} requirements wait on it here."
        text = f"Open decision: {question.label}. {question.ask}{settles}"
        return Paragraph(
            label="",
            level=level,
            spans=(Gap(name, text),),
            reason=Reason("", why=question.why, source=question.source),
            decision=OpenDecision(name, question.ask, tuple(waiting.clauses)),
        )

    def _tables(self, clause: Clause) -> tuple[Table, ...]:
        """The table that a clause prints; one of many columns lies on its side, in pieces."""
        if clause.table is None:
            return ()
        value, _ = self.scope.lookup(clause.table)
        assert isinstance(value, tuple)  # its clause stands only where it is answered
        printer = self.scope.printer
        rows = tuple(tuple(print_value(cell, printer) for cell in row) for row in value)  # type: ignore[union-attr]
        head = tuple(column.label for column in self.library.columns_of(clause.table))
        if len(head) <= MOST_COLUMNS:
            return (Table(head, rows),)
        return tuple(
            _on_its_side(head, rows[first : first + RECORDS_ABREAST], first + 1)
            for first in range(0, len(rows), RECORDS_ABREAST)
        )

    def _register(self, clause: Clause) -> None:
        """Note what a clause has submitted and warranted."""
        names = {kind.id: kind.name for kind in self.library.submittal_kinds}
        for kind, text in clause.submits:
            what = self._words(text, clause)
            self.submittals.append(Submittal(names[kind], what, clause.article, clause.id))
        if clause.warrants is not None:
            what = self._words(clause.warrants.what, clause)
            years = self._words(clause.warrants.years, clause)
            self.warranties.append(Warranty(what, years, clause.warrants.by, clause.id))

    def _words(self, text: Text, clause: Clause) -> str:
        spans, _ = self._text(replace(clause, text=text))
        return "".join(
            span.text if isinstance(span, Words) else f"({getattr(span, 'text', span)})"
            for span in spans
        )

    # -- computed articles -------------------------------------------------------------------

    def _computed(self, plan: ArticlePlan) -> list[Paragraph]:
        if plan.lists == "standards":
            return self._standards()
        return self._submittals(plan.id) if plan.lists == "submittals" else []

    def _standards(self) -> list[Paragraph]:
        """The standards cited anywhere, by publisher."""
        why = "Every standard that the section cites is listed once, with its title."
        by_publisher: dict[str, list[str]] = {}
        for cited in sorted(self.cited, key=_natural):
            standard = self.library.standards[cited]
            by_publisher.setdefault(standard.publisher, []).append(cited)
        return [
            _computed_paragraph(
                (Words(f"{publisher}:"),),
                why,
                [(Words(f"{cited}, {self._title(cited)}."),) for cited in standards],
            )
            for publisher, standards in sorted(by_publisher.items())
        ]

    def _title(self, cited: str) -> str:
        return self.library.standards[cited].title.rstrip(".")

    def _submittals(self, article: str) -> list[Paragraph]:
        """The submittals that the clauses in this section cause, by kind, those alike joined."""
        paragraphs = []
        for kind in self.library.submittal_kinds:
            places: dict[str, list[str]] = {}
            for submittal in self.submittals:
                if submittal.kind == kind.name:
                    places.setdefault(submittal.what, []).append(submittal.article)
            if kind.article != article or not places:
                continue
            items = [_item(what, found) for what, found in places.items()]
            why = "Each submittal is caused by the requirement that its article states."
            paragraphs.append(_computed_paragraph((Words(kind.lead),), why, items))
        return paragraphs


def _on_its_side(head: tuple[str, ...], rows: tuple[tuple[str, ...], ...], first: int) -> Table:
    """Records as columns, numbered from ``first``, with what each line holds at its left."""
    numbers = tuple(f"No. {first + index}" for index in range(len(rows)))
    lines = zip(head, *rows, strict=True)
    return Table(("Record", *numbers), tuple(lines))


def _item(what: str, articles: list[str]) -> tuple[Span, ...]:
    """An item of a submittal list, closing with the articles that ask for it."""
    spans: list[Span] = [Words(f"{what[:1].upper()}{what[1:]} (")]
    for index, article in enumerate(dict.fromkeys(articles)):
        if index:
            spans.append(Words(", "))
        spans.append(ArticleReference(article))
    return join_words([*spans, Words(").")])


def _computed_paragraph(
    lead: tuple[Span, ...],
    why: str,
    items: list[tuple[Span, ...]],
) -> Paragraph:
    reason = Reason("", why=why, source="computed from the section")
    children = tuple(Paragraph("", 2, spans, reason) for spans in items)
    return Paragraph("", 1, lead, reason, children)


def _natural(designation: str) -> list[tuple[int, str]]:
    """A key that sorts ASTM C90 before ASTM C920 and C578 before C1289."""
    return [
        (int(piece), "") if piece.isdigit() else (0, piece)
        for piece in re.split(r"(\d+)", designation)
    ]


def _labelled(paragraphs: Iterable[Paragraph], level: int) -> tuple[Paragraph, ...]:
    return tuple(
        replace(
            paragraph,
            label=label_for(level, index),
            children=_labelled(paragraph.children, level + 1),
        )
        for index, paragraph in enumerate(paragraphs)
    )

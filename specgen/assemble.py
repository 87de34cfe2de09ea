"""A brief and a library become a section."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

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
    Warranty,
    label_for,
)
from specgen.spans import ArticleReference, Gap, Span, Words, join_words
from specgen.standing import Standing, Standings, standings_of
from specgen.values import NOT_ASKED, Open
from specgen.wording import print_value


def assemble(scope: Scope, standings: Standings | None = None) -> Section:
    """The section that the answers of ``scope`` make of its library.

    ``standings`` saves working them out again. Raises BadInput, naming the clause's file and line,
    where a clause prints an answer that is not asked for this roof or refers to an article that
    says nothing for it.
    """
    return _Assembly(scope, standings_of(scope) if standings is None else standings).section()


@dataclass
class _Waiting:
    """Clauses of one article that wait on the same question, and where the first would stand."""

    clauses: list[str] = field(default_factory=list)


class _Assembly:
    def __init__(self, scope: Scope, standings: Standings) -> None:
        self.scope = scope
        self.library: Library = scope.library
        self.standings = standings
        self.submittals: list[Submittal] = []
        self.warranties: list[Warranty] = []
        self.cited: set[str] = set()

    def section(self) -> Section:
        written = {
            plan.id: self._placed(self.library.top_level.get(plan.id, ()), 1)
            for part in self.library.parts
            for plan in part.articles
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
        self._judge_references(parts)
        return Section(
            number=self.library.number,
            title=self.library.title,
            project=self._project(),
            place=self._head("place"),
            issue=self._head("issue"),
            date=self._head("issue_date"),
            parts=tuple(parts),
            submittals=tuple(self.submittals),
            warranties=tuple(self.warranties),
        )

    def _project(self) -> Span:
        """The project's name, and its number where it has one."""
        name = self._head("project_name")
        if "project_number" not in self.library.questions or isinstance(name, Gap):
            return name
        number = self._head("project_number")
        if not number.text:
            return name
        both = f"{name.text}, {number.text}"
        return Gap(number.question, both) if isinstance(number, Gap) else Words(both)

    def _head(self, name: str) -> Words | Gap:
        """An answer as the head of a page shows it; nothing where it is rightly left out."""
        value, _ = self.scope.lookup(name)
        if isinstance(value, Open):
            question = self.scope.first_question(value.waits_on)
            return Gap(question, f"open: {self.scope.label_of(question)}")
        return Words("" if value is NOT_ASKED else print_value(value, self.scope.printer))

    def _judge_references(self, parts: Iterable[Part]) -> None:
        """BadInput for a clause that refers to an article in which nothing stands."""
        articles = [article for part in parts for article in part.articles]
        there = {article.id for article in articles}
        faults = []
        for paragraph in (paragraph for article in articles for paragraph in article.walk()):
            for span in paragraph.spans:
                if isinstance(span, ArticleReference) and span.article not in there:
                    clause = self.library.clauses[paragraph.reason.clause]
                    says = (
                        f"{clause.id}: it refers to the article {span.article}, which says nothing"
                        " for this roof; narrow its `when`."
                    )
                    faults.append(Fault(clause.file, clause.line, says))
        if faults:
            raise BadInput(faults)

    # -- clauses -----------------------------------------------------------------------------

    def _placed(self, clauses: Iterable[Clause], level: int) -> list[Paragraph]:
        """The paragraphs of clauses that stand, and one open decision a question waited on."""
        waiting: dict[str, _Waiting] = {}
        placed: list[Paragraph | str] = []
        for clause in clauses:
            standing = self.standings[clause.id]
            if isinstance(standing.stands, Open):
                question = self.scope.first_question(standing.stands.waits_on)
                if question not in waiting:
                    waiting[question] = _Waiting()
                    placed.append(question)
                waiting[question].clauses.extend(self._with_children(clause))
            elif standing.stands:
                placed.append(self._paragraph(standing, level))
        return [
            self._decision(item, waiting[item], level) if isinstance(item, str) else item
            for item in placed
        ]

    def _with_children(self, clause: Clause) -> Iterable[str]:
        yield clause.id
        for child in self.library.children.get(clause.id, ()):
            yield from self._with_children(child)

    def _paragraph(self, standing: Standing, level: int) -> Paragraph:
        clause = standing.clause
        text = "".join(span.text for span in standing.spans if isinstance(span, Words))
        cites = tuple(cited for cited in clause.cites if cites_literally(text, cited))
        self.cited.update(cites)
        self.submittals.extend(standing.submittals)
        if standing.warranty is not None:
            self.warranties.append(standing.warranty)
        return Paragraph(
            label="",
            level=level,
            spans=standing.spans,
            reason=Reason(
                clause=clause.id,
                answers=self._answers(standing.because),
                calculations=self._calculations(standing.because),
                cites=cites,
                needs=clause.needs,
                why=clause.why,
                source=clause.source,
                office=clause.office,
            ),
            children=tuple(self._placed(self.library.children.get(clause.id, ()), level + 1)),
            tables=standing.tables,
        )

    def _answers(self, names: frozenset[str]) -> tuple[tuple[str, str], ...]:
        ordered = sorted(names & self.library.questions.keys(), key=self.library.rank_of)
        return tuple((name, self.scope.shown(name)) for name in ordered)

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

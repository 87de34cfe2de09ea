"""A brief and a library become a section."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from specgen.faults import BadInput, Fault
from specgen.grounds import Grounds
from specgen.integrity import cites_literally
from specgen.library import ArticlePlan, Clause, Library
from specgen.listing import standards_listed, submittals_listed
from specgen.scope import Scope
from specgen.section import (
    Article,
    OpenDecision,
    Paragraph,
    Part,
    Section,
    Submittal,
    Warranty,
    label_for,
)
from specgen.spans import ArticleReference, Gap, Span, Words
from specgen.standing import Standing, Standings, standings_of
from specgen.values import NOT_ASKED, Open
from specgen.wording import print_value


@dataclass(frozen=True, slots=True)
class Written:
    """A top clause's paragraph as it was last written, all below it included, with what it causes.

    It is good as long as ``standings``, those of the clause and of all below it, are the same.
    """

    standings: tuple[Standing | None, ...]
    paragraph: Paragraph
    cited: tuple[tuple[str, str], ...]
    submittals: tuple[Submittal, ...]
    warranties: tuple[Warranty, ...]


def assemble(
    scope: Scope,
    standings: Standings | None = None,
    written: dict[str, Written] | None = None,
) -> Section:
    """The section that the answers of ``scope`` make of its library.

    ``standings`` saves working them out again; from ``written`` paragraphs are taken that are still
    good, and those written anew are put there. Raises BadInput, naming the clause's file and line,
    where a clause prints an answer that is not asked for this roof or refers to an article that
    says nothing for it.
    """
    if standings is None:
        standings = standings_of(scope)
    return _Assembly(scope, standings, {} if written is None else written).section()


@dataclass
class _Waiting:
    """Clauses of one article that wait on the same question, and where the first would stand."""

    clauses: list[str] = field(default_factory=list)


class _Assembly:
    def __init__(self, scope: Scope, standings: Standings, written: dict[str, Written]) -> None:
        self.scope = scope
        self.library: Library = scope.library
        self.standings = standings
        self.written = written
        self.submittals: list[Submittal] = []
        self.warranties: list[Warranty] = []
        self.cited: list[tuple[str, str]] = []
        self.grounds = Grounds(scope, standings)

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
                paragraphs = [*written[plan.id], *self._computed(plan, len(written[plan.id]))]
                if paragraphs:
                    number = f"{part_number}.{len(articles) + 1}"
                    articles.append(Article(plan.id, number, plan.title, tuple(paragraphs)))
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

    def _placed(self, clauses: Sequence[Clause], level: int) -> list[Paragraph]:
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
                waiting[question].clauses.extend(self.library.subtrees[clause.id])
            elif standing.stands:
                label = label_for(level, len(placed))
                if level == 1:
                    placed.append(self._kept_paragraph(standing, label))
                else:
                    placed.append(self._paragraph(standing, level, label))
        return [
            self._decision(item, waiting[item], level, label_for(level, index), clauses)
            if isinstance(item, str)
            else item
            for index, item in enumerate(placed)
        ]

    def _kept_paragraph(self, standing: Standing, label: str) -> Paragraph:
        """The paragraph of a clause that stands under no other, from those still good or anew."""
        clause = standing.clause.id
        standings = tuple(self.standings.get(name) for name in self.library.subtrees[clause])
        known = self.written.get(clause)
        if known is None or not _same(known.standings, standings):
            before = len(self.cited), len(self.submittals), len(self.warranties)
            paragraph = self._paragraph(standing, 1, label)
            self.written[clause] = Written(
                standings,
                paragraph,
                tuple(self.cited[before[0] :]),
                tuple(self.submittals[before[1] :]),
                tuple(self.warranties[before[2] :]),
            )
            return paragraph
        self.cited.extend(known.cited)
        self.submittals.extend(known.submittals)
        self.warranties.extend(known.warranties)
        if known.paragraph.label != label:
            known = replace(known, paragraph=replace(known.paragraph, label=label))
            self.written[clause] = known
        return known.paragraph

    def _paragraph(self, standing: Standing, level: int, label: str) -> Paragraph:
        clause = standing.clause
        text = "".join(span.text for span in standing.spans if isinstance(span, Words))
        cites = tuple(cited for cited in clause.cites if cites_literally(text, cited))
        self.cited.extend((cited, clause.id) for cited in cites)
        self.submittals.extend(standing.submittals)
        if standing.warranty is not None:
            self.warranties.append(standing.warranty)
        return Paragraph(
            label=label,
            level=level,
            spans=standing.spans,
            reason=self.grounds.reason_of(clause, cites),
            children=tuple(self._placed(self.library.children.get(clause.id, ()), level + 1)),
            tables=standing.tables,
        )

    def _decision(
        self, name: str, waiting: _Waiting, level: int, label: str, siblings: Sequence[Clause]
    ) -> Paragraph:
        """The paragraph that stands where clauses wait on a question."""
        question = self.library.questions[name]
        count = len(waiting.clauses)
        settles = "" if count == 1 else f" {count} requirements wait on it here."
        text = f"Open decision: {question.label}. {question.ask}{settles}"
        return Paragraph(
            label=label,
            level=level,
            spans=(Gap(name, text),),
            reason=self.grounds.computed_reason(
                question.why, question.source, self.grounds.waiting(name, siblings)
            ),
            decision=OpenDecision(name, question.ask, tuple(waiting.clauses)),
        )

    # -- computed articles -------------------------------------------------------------------

    def _computed(self, plan: ArticlePlan, after: int) -> list[Paragraph]:
        """What is computed into an article, after so many paragraphs of its own."""
        if plan.lists == "standards":
            cited: dict[str, list[str]] = {}
            for name, clause in self.cited:
                cited.setdefault(name, []).append(clause)
            return standards_listed(self.grounds, cited, after)
        if plan.lists == "submittals":
            return submittals_listed(self.grounds, plan.id, self.submittals, after)
        return []


def _same(some: tuple[Standing | None, ...], others: tuple[Standing | None, ...]) -> bool:
    """Whether these are the very same standings: a standing worked out anew is another."""
    return all(one is other for one, other in zip(some, others, strict=True))

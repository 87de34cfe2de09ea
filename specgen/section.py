"""The assembled document: parts, articles and paragraphs, each knowing why it is there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from specgen.spans import ArticleReference, Gap, Span

LEVELS = 4


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a paragraph stands in the section.

    ``clause`` is its clause's id, or empty for a paragraph that the program computed; ``answers``
    are the (question, answer as shown) pairs that its condition and text read, with those that its
    place under other clauses read; ``calculations`` the same of computed values; ``placed_by`` the
    names of those that decide that it stands, where the rest only word it; ``caused_by`` the
    clauses behind a paragraph that the program computed; ``needs`` the clauses that must stand
    beside it.
    """

    clause: str
    answers: tuple[tuple[str, str], ...] = ()
    calculations: tuple[tuple[str, str], ...] = ()
    placed_by: tuple[str, ...] = ()
    caused_by: tuple[str, ...] = ()
    cites: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    why: str = ""
    source: str = ""
    office: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table printed below a paragraph: its columns' heads, and rows of as many cells."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class OpenDecision:
    """What a paragraph that is an open decision waits on: the question, and the clauses held up."""

    question: str
    ask: str
    clauses: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One paragraph at ``level`` 1 to 4; ``label`` is its own number (``A.``, ``1.``, ``a.``)."""

    label: str
    level: int
    spans: tuple[Span, ...]
    reason: Reason
    children: tuple[Paragraph, ...] = ()
    tables: tuple[Table, ...] = ()
    decision: OpenDecision | None = None

    def walk(self) -> Iterator[Paragraph]:
        """This paragraph and all below it, in reading order."""
        yield self
        for child in self.children:
            yield from child.walk()

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """The places in this paragraph's text that wait on a question."""
        return tuple(span for span in self.spans if isinstance(span, Gap))


@dataclass(frozen=True, slots=True)
class Article:
    """An article; ``number`` is as printed (``1.1``)."""

    id: str
    number: str
    title: str
    paragraphs: tuple[Paragraph, ...]

    def walk(self) -> Iterator[Paragraph]:
        for paragraph in self.paragraphs:
            yield from paragraph.walk()


@dataclass(frozen=True, slots=True)
class Part:
    number: int
    title: str
    articles: tuple[Article, ...]


@dataclass(frozen=True, slots=True)
class Warranty:
    """One warranty for the register: what, for how long, by whom, from which clause."""

    what: str
    years: str
    by: str
    clause: str


@dataclass(frozen=True, slots=True)
class Submittal:
    """One submittal for the register: its kind's name, what, and the clause that causes it."""

    kind: str
    what: str
    article: str
    clause: str


@dataclass(frozen=True)
class Section:
    """A section as it will be written.

    ``project``, ``place``, ``issue`` and ``date`` head the pages; each is a Gap where it is open
    and Words where it is decided.
    """

    number: str
    title: str
    project: Span
    place: Span
    issue: Span
    date: Span
    parts: tuple[Part, ...]
    submittals: tuple[Submittal, ...]
    warranties: tuple[Warranty, ...]

    @cached_property
    def article_numbers(self) -> dict[str, str]:
        """The number of each article by its id."""
        return {article.id: article.number for article in self.articles()}

    @cached_property
    def places(self) -> dict[str, str]:
        """The full number (``2.3.A.1``) of each clause's paragraph, by the clause's id."""
        places: dict[str, str] = {}
        for article in self.articles():
            for paragraph, number in numbered(article):
                places.setdefault(paragraph.reason.clause, number)
        return places

    @cached_property
    def required(self) -> tuple[tuple[Paragraph, str, str], ...]:
        """Each paragraph that a clause wrote, with its number and its plain text."""
        return tuple(
            (paragraph, number, self.plain(paragraph.spans))
            for article in self.articles()
            for paragraph, number in numbered(article)
            if paragraph.reason.clause
        )

    def articles(self) -> Iterator[Article]:
        for part in self.parts:
            yield from part.articles

    def paragraphs(self) -> Iterator[Paragraph]:
        """Every paragraph in reading order."""
        for article in self.articles():
            yield from article.walk()

    def plain(self, spans: tuple[Span, ...]) -> str:
        """Spans as plain text, references with their numbers and gaps in parentheses."""
        return "".join(self.plain_span(span) for span in spans)

    def plain_span(self, span: Span) -> str:
        if isinstance(span, ArticleReference):
            return f"Article {self.article_numbers[span.article]}"
        return f"({span.text})" if isinstance(span, Gap) else span.text


def numbered(article: Article) -> Iterator[tuple[Paragraph, str]]:
    """Each paragraph of an article with its full number, such as ``2.3.A.1``."""

    def below(paragraphs: tuple[Paragraph, ...], prefix: str) -> Iterator[tuple[Paragraph, str]]:
        for paragraph in paragraphs:
            number = f"{prefix}.{paragraph.label.rstrip('.)')}"
            yield paragraph, number
            yield from below(paragraph.children, number)

    yield from below(article.paragraphs, article.number)


def label_for(level: int, index: int) -> str:
    """The label of the index-th paragraph (from 0) at a level: A., 1., a. or 1)."""
    if level == 1:
        return f"{_letters(index).upper()}."
    if level == 3:
        return f"{_letters(index)}."
    return f"{index + 1}." if level == 2 else f"{index + 1})"


def _letters(index: int) -> str:
    """a to z, then aa to zz, as word processors count."""
    return chr(ord("a") + index % 26) * (index // 26 + 1)


@dataclass(frozen=True, slots=True)
class OpenQuestion:
    """A question that something in the section waits on: how many places, in which articles."""

    question: str
    places: int
    articles: tuple[str, ...]


def open_questions(section: Section) -> tuple[OpenQuestion, ...]:
    """Everything that is open in a section, in reading order of the first place that waits."""
    places: dict[str, list[str]] = {}
    for head in (section.project, section.place, section.issue, section.date):
        if isinstance(head, Gap):
            places.setdefault(head.question, []).append("page heads")
    for article in section.articles():
        for paragraph in article.walk():
            if paragraph.decision is not None:
                held = places.setdefault(paragraph.decision.question, [])
                held += [article.number] * len(paragraph.decision.clauses)
                continue
            for gap in paragraph.gaps:
                places.setdefault(gap.question, []).append(article.number)
    return tuple(
        OpenQuestion(question, len(found), tuple(dict.fromkeys(found)))
        for question, found in places.items()
    )

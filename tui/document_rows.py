"""The section as rows of a list, and what has changed in it since it was drafted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from specgen.checks import Finding
from specgen.section import Paragraph, Section, numbered
from specgen.spans import ArticleReference, Gap, Span, Words, words_of
from tui.marks import IN, MOVED, OUT, REWORDED, plain

Key = tuple[object, ...]

# The sign of each state of a paragraph against the last draft, and the look it is drawn with.
SIGNS: Mapping[str, str] = {"in": IN, "out": OUT, "reworded": REWORDED, "moved": MOVED, "": " "}


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the document.

    ``kind`` is head, title, part, article, paragraph or end. ``text`` are (text, question) pairs;
    the question is empty but for a place that waits on it. ``mark`` is in, out, reworded, moved or
    empty; ``key`` is what the paragraph is, wherever it stands.
    """

    key: Key
    kind: str
    number: str
    label: str
    level: int
    text: tuple[tuple[str, str], ...]
    tables: tuple[tuple[tuple[str, ...], ...], ...] = ()
    paragraph: Paragraph | None = field(default=None, compare=False)
    mark: str = ""
    findings: tuple[Finding, ...] = ()

    @property
    def words(self) -> str:
        return "".join(text for text, _ in self.text)

    @property
    def questions(self) -> tuple[str, ...]:
        """The questions that this row waits on, in reading order."""
        return tuple(dict.fromkeys(question for _, question in self.text if question))

    @property
    def clause(self) -> str:
        return self.paragraph.reason.clause if self.paragraph is not None else ""

    @property
    def waiting(self) -> tuple[Key, ...]:
        """The keys that the clauses held up by this open decision will have."""
        decision = self.paragraph.decision if self.paragraph is not None else None
        return tuple(("clause", name) for name in decision.clauses) if decision is not None else ()

    @property
    def gone(self) -> bool:
        return self.mark == "out"


def rows_of(section: Section) -> list[Row]:
    """Every row of a section in reading order, none of them marked."""
    return list(_distinct(_rows(section)))


def found_at(rows: Sequence[Row], findings: Sequence[Finding]) -> list[Row]:
    """The rows with the findings that have their place there, and no others."""
    by_place: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.place:
            by_place.setdefault(finding.place, []).append(finding)
    return [
        _with(row, tuple(by_place.get(row.number, ())) if row.number and not row.gone else ())
        for row in rows
    ]


def found_before(rows: Sequence[Row], before: Sequence[Row]) -> list[Row]:
    """The rows with the findings that the same rows had before."""
    known = {row.key: row.findings for row in before if row.findings}
    return [_with(row, known.get(row.key, ()) if not row.gone else ()) for row in rows]


def _with(row: Row, findings: tuple[Finding, ...]) -> Row:
    return row if row.findings == findings else replace(row, findings=findings)


def marked(rows: Sequence[Row], before: Sequence[Row]) -> list[Row]:
    """The rows marked by what differs from a draft, and what is gone from it where it stood."""
    was = {row.key: row for row in before}
    now = {row.key for row in rows}
    gone = _gone_after(before, now)
    merged = list(gone.get(None, ()))
    for row in rows:
        mark = _mark(row, was.get(row.key))
        merged.append(replace(row, mark=mark) if mark else row)
        merged.extend(gone.get(row.key, ()))
    return merged


def _mark(row: Row, was: Row | None) -> str:
    if was is None:
        return "in"
    if row.text != was.text or row.tables != was.tables:
        return "moved" if _spans_of(row) == _spans_of(was) is not None else "reworded"
    return "moved" if row.number != was.number else ""


def _spans_of(row: Row) -> object:
    paragraph = row.paragraph
    return (paragraph.spans, paragraph.tables) if paragraph is not None else None


def _gone_after(before: Sequence[Row], now: set[Key]) -> dict[Key | None, list[Row]]:
    """The rows of a draft that are gone, by the row that they followed and that is still there."""
    gone: dict[Key | None, list[Row]] = {}
    last: Key | None = None
    for row in before:
        if row.key in now:
            last = row.key
        else:
            gone.setdefault(last, []).append(replace(row, mark="out"))
    return gone


def _rows(section: Section) -> Iterator[Row]:
    heads = (section.project, section.place, section.issue, section.date)
    for name, head in zip(("project", "place", "issue", "date"), heads, strict=True):
        yield Row(("head", name), "head", "", "", 0, (_text(section, head),))
    yield Row(("title",), "title", "", "", 0, ((f"SECTION {section.number} {section.title}", ""),))
    for part in section.parts:
        title = f"PART {part.number} - {part.title}"
        yield Row(("part", part.number), "part", "", "", 0, ((plain(title), ""),))
        for article in part.articles:
            yield Row(
                ("article", article.id), "article", article.number, article.number, 0,
                ((plain(article.title), ""),),
            )  # fmt: skip
            parents: list[Key] = [("article", article.id)]
            for paragraph, number in numbered(article):
                del parents[paragraph.level :]
                key = _key_of(paragraph, parents[-1])
                parents.append(key)
                yield Row(
                    key, "paragraph", number, paragraph.label, paragraph.level,
                    _texts(section, paragraph),
                    tuple((table.head, *table.rows) for table in paragraph.tables),
                    paragraph,
                )  # fmt: skip
    yield Row(("end",), "end", "", "", 0, (("END OF SECTION", ""),))


def _texts(section: Section, paragraph: Paragraph) -> tuple[tuple[str, str], ...]:
    decision = paragraph.decision
    if decision is not None:
        return ((plain(words_of(paragraph.spans)), decision.question),)
    return tuple(_text(section, span) for span in paragraph.spans)


def _text(section: Section, span: Span) -> tuple[str, str]:
    text = plain(section.plain_span(span))
    return (text, span.question) if isinstance(span, Gap) else (text, "")


def _key_of(paragraph: Paragraph, parent: Key) -> Key:
    """What a paragraph is: its clause; the question it waits on; or, of a computed one, the words
    before the articles that it refers to."""
    if paragraph.reason.clause:
        return ("clause", paragraph.reason.clause)
    if paragraph.decision is not None:
        return ("open", parent, paragraph.decision.question)
    first = paragraph.spans[0] if paragraph.spans else Words("")
    text = first.article if isinstance(first, ArticleReference) else first.text
    return ("computed", parent, text)


def _distinct(rows: Iterator[Row]) -> Iterator[Row]:
    """The same rows, each with a key of its own."""
    seen: dict[Key, int] = {}
    for row in rows:
        count = seen[row.key] = seen.get(row.key, 0) + 1
        yield row if count == 1 else replace(row, key=(*row.key, count))

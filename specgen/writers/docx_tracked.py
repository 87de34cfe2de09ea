"""Two sections as one Word document whose differences are tracked changes.

Accepting every change leaves the section after, rejecting every change the section before. Where
one paragraph takes the place of another of its level, the text is replaced and the paragraph stays,
so that its number does not move while the changes are read.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import replace

from docx.document import Document

from specgen.brief import Brief
from specgen.section import Paragraph, Section
from specgen.spans import ArticleReference, Gap, Words
from specgen.study.tracked import Differences, Line, RowDifference, TableDifference
from specgen.study.wordwise import Piece
from specgen.writers.docx import NOTE_AUTHOR, PageHeads, WrittenBody, build_docx
from specgen.writers.docx_pieces import (
    AFTER_TABLE_SPACING,
    OPEN_RUN,
    TEXT_WIDTH,
    bookmark_of,
    column_widths,
    head_row,
    marked,
    paragraph,
    reference,
    row,
    run,
    table_around,
)
from specgen.writers.docx_styles import LEVELS

STYLES = {"part": "Part", "article": "Article"}
_TRACKED = {"in": "w:ins", "out": "w:del"}
# Bookmarks of headings and paragraphs count apart, as in a drafted document.
_HEADINGS = 1_000_000


def write_tracked(
    after: Section,
    brief: Brief,
    found: Differences,
    *,
    author: str = NOTE_AUTHOR,
    when: datetime.datetime | None = None,
) -> bytes:
    """The bytes of the document; ``brief`` is the one after, ``when`` the time on each change."""
    moment = when or datetime.datetime.now(datetime.UTC)
    marker = _Marker(author, moment.strftime("%Y-%m-%dT%H:%M:%SZ"))
    heads = PageHeads(*(marker.runs(pieces) for pieces in found.heads))

    def body(document: Document) -> WrittenBody:
        writer = _Body(after, marker)
        return WrittenBody(writer.xml(found), writer.bookmarks)

    return build_docx(after, brief, body, heads)


class _Marker:
    """Writes what is tracked, each change with its own number, author and time."""

    def __init__(self, author: str, when: str) -> None:
        self.author = author
        self.when = when
        self.count = 0

    def change(self, element: str, content: str = "") -> str:
        """An element of a tracked change around its content."""
        self.count += 1
        start = (
            f'<{element} w:id="{2_000_000 + self.count}" w:author="{self.author}"'
            f' w:date="{self.when}"'
        )
        return f"{start}>{content}</{element}>" if content else f"{start}/>"

    def runs(self, pieces: Sequence[Piece]) -> str:
        """Pieces as runs, what is in or out inside its tracked change."""
        return "".join(self._piece(piece) for piece in pieces)

    def _piece(self, piece: Piece) -> str:
        deleted = piece.state == "out"
        if isinstance(piece.span, ArticleReference):
            number = piece.shown.removeprefix("Article ")
            runs = reference(piece.span.article, number, deleted=deleted)
        else:
            shade = OPEN_RUN if isinstance(piece.span, Gap) else ""
            runs = run(piece.shown, shade, "w:delText" if deleted else "w:t")
        return runs if piece.state == "same" else self.change(_TRACKED[piece.state], runs)

    def mark(self, state: str) -> str:
        """The properties of a paragraph's mark that came in or went out."""
        return f"<w:rPr>{self.change(_TRACKED[state])}</w:rPr>" if state in _TRACKED else ""

    def row(self, state: str) -> str:
        """The properties of a table's row that came in or went out."""
        return self.change(_TRACKED[state]) if state in _TRACKED else ""


class _Body:
    """Writes the body's XML, counting bookmarks as it goes."""

    def __init__(self, after: Section, marker: _Marker) -> None:
        self.after = after
        self.marker = marker
        self.bookmarks: list[tuple[str, Paragraph]] = []
        self.headings = 0

    def xml(self, found: Differences) -> str:
        section = self.after
        pieces = [
            paragraph("SectionNumber", run(f"SECTION {section.number}")),
            paragraph("SectionTitle", run(section.title)),
        ]
        pieces += [self._line(line) for line in _parted(list(_in_place(found.lines)))]
        pieces.append(paragraph("SectionEnd", run("END OF SECTION")))
        return "".join(pieces)

    def _line(self, line: Line) -> str:
        level = LEVELS[line.level + 1]
        style = STYLES.get(line.role, level.style)
        held = line.paragraph
        keep = "<w:keepNext/>" if held and (held.children or held.tables) else ""
        content = self._bookmarked(line, self.marker.runs(line.pieces))
        text = paragraph(style, content, keep + self.marker.mark(line.state))
        tables = (self._table(each, level.left) for each in line.tables)
        return text + "".join(tables)

    def _bookmarked(self, line: Line, runs: str) -> str:
        if line.article is not None:
            self.headings += 1
            return marked(bookmark_of(line.article.id), _HEADINGS + self.headings, runs)
        if line.paragraph is None or line.state == "out":
            return runs
        name = f"_P{len(self.bookmarks) + 1}"
        self.bookmarks.append((name, line.paragraph))
        return marked(name, len(self.bookmarks) - 1, runs)

    # -- tables ------------------------------------------------------------------------------

    def _table(self, each: TableDifference, indent: int) -> str:
        widths = column_widths(each.table, TEXT_WIDTH - indent)
        whole = each.state if each.state in _TRACKED else "same"
        head = [self._cell("ScheduleHead", (_piece(cell, whole),), whole)
                for cell in each.table.head]  # fmt: skip
        rows = [self._row(one, widths) for one in each.rows]
        shown = head_row(head, widths, self.marker.row(whole)) + "".join(rows)
        below = f"<w:p><w:pPr>{AFTER_TABLE_SPACING}{self.marker.mark(whole)}</w:pPr></w:p>"
        return table_around(shown, widths, indent) + below

    def _row(self, one: RowDifference, widths: Sequence[int]) -> str:
        cells = [self._cell("ScheduleCell", cell, one.state) for cell in one.cells]
        return row(cells, widths, self.marker.row(one.state))

    def _cell(self, style: str, pieces: Sequence[Piece], state: str) -> str:
        return paragraph(style, self.marker.runs(pieces), self.marker.mark(state))


def _piece(text: str, state: str) -> Piece:
    return Piece(state, Words(text), text)


def _in_place(lines: Sequence[Line]) -> Iterator[Line]:
    """The lines, a paragraph that goes joined with the one that comes in its place."""
    gone: list[Line] = []
    for line in lines:
        if line.state == "out":
            gone.append(line)
        elif line.state == "in" and gone and _alike(gone[0], line):
            yield _replaced(gone.pop(0), line)
        else:
            yield from gone
            gone.clear()
            yield line
    yield from gone


def _alike(gone: Line, come: Line) -> bool:
    return gone.role == come.role == "paragraph" and gone.level == come.level


def _replaced(gone: Line, come: Line) -> Line:
    pieces = (*gone.pieces, *come.pieces)
    return replace(
        come, state="changed", before=gone.before, pieces=pieces,
        tables=(*gone.tables, *come.tables),
    )  # fmt: skip


def _parted(lines: Sequence[Line]) -> list[Line]:
    """The lines, a text that ends as the next one begins turned about at its end.

    Some word processors take two insertions, or two deletions, that touch across the end of a
    paragraph for one, and with it the end of the paragraph, which stays.
    """
    parted: list[Line] = []
    begins = "same"
    for line in reversed(lines):
        pieces = line.pieces
        tail = _tail(pieces)
        if line.state == "changed" and tail and tail[-1].state == begins:
            first = [piece for piece in tail if piece.state == begins]
            last = [piece for piece in tail if piece.state != begins]
            pieces = (*pieces[: len(pieces) - len(tail)], *first, *last)
        parted.append(replace(line, pieces=pieces))
        begins = pieces[0].state if pieces else "same"
    return parted[::-1]


def _tail(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces at the end of a text that changed."""
    tail: list[Piece] = []
    for piece in reversed(pieces):
        if piece.state == "same":
            break
        tail.insert(0, piece)
    return tail

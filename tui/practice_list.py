"""The section of an exercise as a list: what is marked in its margin, and how it was graded."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from specgen.review.outline import Block, Outline
from tui.document_list import SIGNS_WIDTH, DocumentList
from tui.document_rows import Row
from tui.marks import ANSWERED
from tui.wrapping import Line, Piece, shown, wrap

# What stands before a paragraph: marked; and once it is graded, how the mark did.
SIGNS: Mapping[str, str] = {
    "marked": ANSWERED,
    "found": "+",
    "other": "~",
    "missed": "-",
    "sound": "x",
}
LOOKS: Mapping[str, str] = {
    "marked": "gap",
    "found": "in",
    "other": "reworded",
    "missed": "out",
    "sound": "caution",
}


NO_FAULT = "no fault is planted here"
_MARKED = ("article", "paragraph")


@dataclass(frozen=True, slots=True)
class PaperRow(Row):
    """A row of the section; ``mark`` is one of SIGNS or empty, ``notes`` are written under it.

    ``read`` is false in an article that is not part of the exercise.
    """

    notes: tuple[str, ...] = ()
    read: bool = True


def paper_rows(outline: Outline, articles: Collection[str]) -> list[PaperRow]:
    """The rows of an outline in reading order, tables with the paragraph that they stand under.

    ``articles`` are the numbers of those that are to be read.
    """
    rows: list[PaperRow] = []
    for block in outline.blocks:
        if block.kind == "row" and rows:
            rows[-1] = _with_cells(rows[-1], tuple(block.text.split("\t")))
            continue
        if block.kind == "article":
            rows.append(PaperRow((block.index, "above"), "above", "", "", 0, ()))
        read = block.kind not in _MARKED or _article_of(block.place) in articles
        rows.append(_row_of(block, read))
    return rows


def marked_rows(
    rows: Sequence[PaperRow], marks: Mapping[str, str], notes: Mapping[str, tuple[str, ...]]
) -> list[PaperRow]:
    """The rows with what stands in their margin and under them, by place."""
    return [_with(row, marks.get(row.number, ""), notes.get(row.number, ())) for row in rows]


class PracticeList(DocumentList):
    """Articles and paragraphs can be marked; what is graded is told under them."""

    def key_of(self, row: Row) -> object:
        notes = row.notes if isinstance(row, PaperRow) else ()
        return super().key_of(row), notes, isinstance(row, PaperRow) and row.read

    def can_choose(self, row: Row) -> bool:
        unread = isinstance(row, PaperRow) and not row.read
        return bool(row.number) and (row.kind == "paragraph" or not unread)

    def lines_of(self, row: Row, width: int) -> list[Line]:
        """The lines of a row; the empty one above an article is a row of its own, so that the
        cursor stands at the title."""
        if row.kind == "above":
            return [()]
        lines = super().lines_of(row, width)
        return [*(lines[1:] if row.kind == "article" else lines), *_note_lines(row, width)]

    def _look(self, row: Row, waits: bool) -> str:
        unread = isinstance(row, PaperRow) and not row.read
        return "muted" if unread else super()._look(row, waits)

    def _signs(self, row: Row) -> tuple[Piece, ...]:
        return (Piece(f" {SIGNS.get(row.mark, ' ')}  ", LOOKS.get(row.mark, "plain")),)


def _note_lines(row: Row, width: int) -> Iterator[Line]:
    if not isinstance(row, PaperRow):
        return
    look = LOOKS.get(row.mark, "muted")
    margin = Piece(" " * SIGNS_WIDTH)
    for note in row.notes:
        for index, line in enumerate(wrap([Piece(shown(note), look)], width - SIGNS_WIDTH - 2)):
            yield (margin, Piece("^ " if index == 0 else "  ", look), *line)


def shown_rows(rows: Sequence[PaperRow], whole: bool) -> list[PaperRow]:
    """All rows; or without the paragraphs of the articles that are not to be read."""
    return [row for row in rows if whole or row.read or row.kind != "paragraph"]


def _article_of(place: str) -> str:
    return ".".join(place.split(".")[:2])


def _row_of(block: Block, read: bool) -> PaperRow:
    kind = {"paragraph": "paragraph", "article": "article", "part": "part"}.get(block.kind, "title")
    text = f"{block.number} - {block.text}" if kind == "part" and block.number else block.text
    if kind == "article" and not read:
        text += f" - {NO_FAULT}"
    place = block.place if kind in _MARKED else ""
    label = block.number if place else ""
    words = ((shown(text), ""),)
    return PaperRow((block.index,), kind, place, label, block.level, words, read=read)


def _with_cells(row: PaperRow, cells: tuple[str, ...]) -> PaperRow:
    """A row of a table added to the last one, or the first of another where it is not as wide."""
    cells = tuple(shown(cell) for cell in cells)
    last = row.tables[-1] if row.tables else ()
    if last and len(last[0]) == len(cells):
        return replace(row, tables=(*row.tables[:-1], (*last, cells)))
    return replace(row, tables=(*row.tables, (cells,)))


def _with(row: PaperRow, mark: str, notes: tuple[str, ...]) -> PaperRow:
    same = row.mark == mark and row.notes == notes
    return row if same else replace(row, mark=mark, notes=notes)

"""The section of an exercise as a list: what is marked in its margin, and how it was graded."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
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


@dataclass(frozen=True, slots=True)
class PaperRow(Row):
    """A row of the section; ``mark`` is one of SIGNS or empty, ``notes`` are written under it."""

    notes: tuple[str, ...] = ()


def paper_rows(outline: Outline) -> list[PaperRow]:
    """The rows of an outline in reading order, tables with the paragraph that they stand under."""
    rows: list[PaperRow] = []
    for block in outline.blocks:
        if block.kind == "row" and rows:
            rows[-1] = _with_cells(rows[-1], tuple(block.text.split("\t")))
            continue
        if block.kind == "article":
            rows.append(PaperRow((block.index, "above"), "above", "", "", 0, ()))
        rows.append(_row_of(block))
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
        return super().key_of(row), notes

    def can_choose(self, row: Row) -> bool:
        return bool(row.number) and row.kind in ("article", "paragraph")

    def lines_of(self, row: Row, width: int) -> list[Line]:
        """The lines of a row; the empty one above an article is a row of its own, so that the
        cursor stands at the title."""
        if row.kind == "above":
            return [()]
        lines = super().lines_of(row, width)
        return [*(lines[1:] if row.kind == "article" else lines), *_note_lines(row, width)]

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


def _row_of(block: Block) -> PaperRow:
    kind = {"paragraph": "paragraph", "article": "article", "part": "part"}.get(block.kind, "title")
    text = f"{block.number} - {block.text}" if kind == "part" and block.number else block.text
    place = block.place if kind in ("article", "paragraph") else ""
    label = block.number if place else ""
    return PaperRow((block.index,), kind, place, label, block.level, ((shown(text), ""),))


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

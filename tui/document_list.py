"""The document as a list of paragraphs: numbered, indented, open places and changes marked."""

from __future__ import annotations

from specgen.section import Table
from specgen.writers.text import table_lines
from tui.document_rows import SIGNS, Row
from tui.line_list import LineList
from tui.marks import KINDS, OPEN
from tui.wrapping import Line, Piece, shown, width_of, wrap

SIGNS_WIDTH = 4
INDENT = 3


class DocumentList(LineList[Row]):
    """Rows of the document; two columns of signs stand before each."""

    def key_of(self, row: Row) -> object:
        kinds = tuple(finding.kind for finding in row.findings)
        return row.kind, row.label, row.level, row.text, row.tables, row.mark, kinds

    def lines_of(self, row: Row, width: int) -> list[Line]:
        signs = self._signs(row)
        blank = Piece(" " * SIGNS_WIDTH)
        label = f"{row.label} " if row.kind == "article" else row.label.ljust(INDENT + 1)
        if row.kind != "article" and row.kind != "paragraph":
            label = ""
        margin = " " * (INDENT * max(0, row.level - 1))
        indent = len(margin) + len(label)
        pieces = [Piece(text, self._look(row, bool(question))) for text, question in row.text]
        lines: list[Line] = []
        for index, line in enumerate(wrap(pieces, width - SIGNS_WIDTH - indent)):
            lead = margin + (label if index == 0 else " " * len(label))
            before = signs if index == 0 else (blank,)
            lines.append((*before, Piece(lead, self._look(row, False)), *line))
        for rows in row.tables:
            lines += self._table(row, rows, width - SIGNS_WIDTH - indent, indent)
        return [(), *lines] if row.kind in ("title", "part", "article", "end") else lines

    def can_choose(self, row: Row) -> bool:
        return row.kind in ("head", "paragraph")

    def _table(
        self, row: Row, rows: tuple[tuple[str, ...], ...], width: int, indent: int
    ) -> list[Line]:
        """A table in columns; where they do not fit, its rows one after the other in words."""
        margin = Piece(" " * (SIGNS_WIDTH + indent))
        look = self._look(row, False)
        head, *body = rows
        columns = table_lines(Table(head, tuple(body)), "")
        if all(width_of(line) <= width for line in columns):
            return [(margin, Piece(shown(line), look)) for line in columns]
        lines: list[Line] = []
        for cells in body:
            told = "; ".join(f"{name}: {cell}" for name, cell in zip(head, cells, strict=True))
            wrapped = wrap([Piece(shown(told), look)], width - 2)
            lines += [
                (margin, Piece("- " if index == 0 else "  ", "muted"), *line)
                for index, line in enumerate(wrapped)
            ]
        return lines

    def _signs(self, row: Row) -> tuple[Piece, ...]:
        found = row.findings[0].kind if row.findings else ""
        waits = OPEN if row.questions and not row.gone else " "
        return (
            Piece(SIGNS[row.mark], row.mark or "plain"),
            Piece(KINDS.get(found, " "), found or "plain"),
            Piece(f"{waits} ", "gap"),
        )

    def _look(self, row: Row, waits: bool) -> str:
        if row.gone:
            return "gone"
        if waits:
            return "gap"
        return "plain" if row.kind in ("paragraph", "head") else "strong"

"""How wide each column of a table is drawn, and its head."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from specgen.questions import Question
from tui.record_columns import unit_of
from tui.record_rows import Rows
from tui.wrapping import Piece, shown, width_of, wrap

LEAST_CELL, MOST_CELL, GAP = 6, 26, 2


@dataclass(frozen=True, slots=True)
class Columns:
    """The width of each column and where it begins; the lines of their heads, units last."""

    widths: Sequence[int]
    lefts: Sequence[int]
    heads: Sequence[Sequence[str]]


def columns_of(question: Question, rows: Rows) -> Columns:
    """Columns as wide as their heads and their cells ask, within bounds."""
    heads: list[list[str]] = []
    widths: list[int] = []
    for place, column in enumerate(question.columns):
        label, unit = shown(column.label), unit_of(column)
        words = max(width_of(word) for word in [*label.split(), unit])
        name = rows.ids[place]
        cells = max((width_of(rows[n][name]) for n in range(len(rows))), default=0)
        short = min(width_of(label), 12)
        widths.append(max(LEAST_CELL, words, short, min(cells, MOST_CELL)))
        lines = wrap([Piece(label)], widths[-1])
        heads.append([*("".join(piece.text for piece in line) for line in lines), unit])
    deep = max(map(len, heads))
    lines_of_heads = [
        [head[level - deep + len(head)] if level >= deep - len(head) else "" for head in heads]
        for level in range(deep)
    ]
    lefts = [sum(width + GAP for width in widths[:n]) for n in range(len(widths))]
    return Columns(widths, lefts, lines_of_heads)

"""Tables, the roof plan and the movement chart as lines of the ledger."""

from __future__ import annotations

import re
from collections.abc import Sequence

from specgen.drawing_chart import Chart, chart_lines
from specgen.drawing_plan import RoofPlan, area_shown, feet_shown
from specgen.scope import Scope
from specgen.section import Table
from tui.marks import MOVED, cut, marks, unicode_wanted
from tui.plan_art import plan_art, zone_mark
from tui.wrapping import HARD_SPACE, Line, Piece, shown, width_of, wrap

IN = "    "
GAP = 2
LEAST = 6
_CURVE = str.maketrans({"|": "│", "-": "─", "+": "┴", "*": "•", ":": "┊", "O": "◆"})
_IN_PARENTHESES = re.compile(r"\([^)]*\)")
HERE = "◆"


def table_lines(
    table: Table, numeric: Sequence[bool], width: int, moved: Sequence[bool] = ()
) -> list[Line]:
    """A table under its heads, figures to the right; rows that moved are marked."""
    cells = [[shown(cell) for cell in row] for row in table.rows]
    widths = _widths(table.head, cells, width - len(IN) - GAP * (len(table.head) - 1))
    heads = [
        wrap([Piece(_tied(head), "muted")], each)
        for head, each in zip(table.head, widths, strict=True)
    ]
    deep = max(map(len, heads))
    lines: list[Line] = []
    for level in range(deep):
        words = []
        for head in heads:
            at = level - (deep - len(head))
            words.append("".join(piece.text for piece in head[at]) if at >= 0 else "")
        lines.append(_set(words, widths, numeric, " ", "muted"))
    rule = [marks().across * each for each in widths]
    lines.append(_set(rule, widths, numeric, " ", "rule"))
    for place, row in enumerate(cells):
        has_moved = place < len(moved) and moved[place]
        look = "moved" if has_moved else "plain"
        lines.append(_set(row, widths, numeric, MOVED if has_moved else " ", look))
    return lines


def _tied(head: str) -> str:
    """A head in which no line breaks between parentheses."""
    return _IN_PARENTHESES.sub(lambda found: found[0].replace(" ", HARD_SPACE), shown(head))


def _set(
    cells: Sequence[str], widths: Sequence[int], numeric: Sequence[bool], mark: str, look: str
) -> Line:
    """A line of cells, each in its column."""
    parts = []
    for cell, width, figures in zip(cells, widths, numeric, strict=True):
        cell = cut(cell, width)
        pad = " " * (width - width_of(cell))
        parts.append(pad + cell if figures else cell + pad)
    return (Piece(f"  {mark} {(' ' * GAP).join(parts)}".rstrip(), look),)


def _widths(heads: Sequence[str], rows: Sequence[Sequence[str]], room: int) -> list[int]:
    """How wide each column is: as its cells ask, the widest narrowed where there is no room."""
    columns = list(zip(*rows, strict=True)) if rows else [()] * len(heads)
    widths = []
    for head, column in zip(heads, columns, strict=True):
        words = max((width_of(word) for word in _tied(head).split(" ")), default=0)
        cells = max((width_of(cell) for cell in column), default=0)
        widths.append(max(LEAST if head else 2, words, cells, min(width_of(head), 14)))
    while sum(widths) > room and max(widths) > LEAST:
        widths[widths.index(max(widths))] -= 1
    return widths


def chart_as_lines(chart: Chart, width: int) -> list[Line]:
    """Movement against length of panel, this roof marked on the line."""
    drawn = chart_lines(chart, max(30, min(64, width - 16)), 9)
    *body, figures = drawn
    sign = HERE if unicode_wanted() else "O"
    if unicode_wanted():
        body = [_drawn(line) for line in body]
    lines: list[Line] = []
    for text in [*body, figures]:
        before, here, after = text.partition(sign)
        pieces = [Piece(IN), Piece(before, "lead")]
        pieces += [Piece(here, "gap"), Piece(after, "lead")] if here else []
        lines.append(tuple(pieces))
    if chart.mark is not None:
        lines.append((Piece(IN), Piece(sign, "gap"), Piece("  this roof", "muted")))
    return lines


def _drawn(line: str) -> str:
    """A line of the chart in box characters; what stands before its axis is kept."""
    for axis in ("|", " +"):
        before, sign, after = line.partition(axis)
        if sign:
            corner = "│" if axis == "|" else " └"
            return before + corner + after.translate(_CURVE)
    return line


def plan_as_lines(scope: Scope, plan: RoofPlan, width: int) -> list[Line]:
    """The roof in plan by roof zone, to scale, and its key."""
    plain = not unicode_wanted()
    art = plan_art(plan, min(60, width - 16), 14, plain=plain)
    across, up = (shown(feet_shown(scope, feet)) for feet in plan.size)
    columns = max(map(len, art.lines))
    lines: list[Line] = [(Piece(IN), Piece(_dimension(across, columns), "muted"))]
    middle = len(art.lines) // 2
    for place, text in enumerate(art.lines):
        side = f"  {up}" if place == middle else ""
        lines.append((Piece(IN), Piece(text.ljust(columns), "lead"), Piece(side, "muted")))
    if art.widened:
        says = "A strip narrower than a character is drawn one character wide."
        lines += [(Piece(IN), *line) for line in wrap([Piece(says, "muted")], width - 4)]
    lines.append(())
    count = len(plan.zones)
    spaced = any(zone.spacing for zone in plan.zones)
    head = ["", "Zone", "Area in plan", "Uplift, allowable", *(["Clips"] if spaced else [])]
    rows = [
        (
            zone_mark(zone.rank, count, plain=plain) * 2,
            zone.name,
            area_shown(scope, zone.area),
            zone.uplift or "-",
            *((zone.spacing or "-",) if spaced else ()),
        )
        for zone in plan.zones
    ]
    numeric = [False, False, *(True for _ in head[2:])]
    lines += table_lines(Table(tuple(head), tuple(rows)), numeric, width)
    return lines


def _dimension(text: str, columns: int) -> str:
    """A dimension as long as the plan is wide, its text in the middle."""
    if columns < len(text) + 6:
        return text
    line = f" {text} ".center(columns - 2, marks().across)
    end = marks().down
    return f"{end}{line}{end}"

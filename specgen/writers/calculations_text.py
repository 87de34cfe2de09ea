"""The calculation record for a terminal: 80 columns of ASCII, drawings in characters."""

from __future__ import annotations

import re
import textwrap
import unicodedata
from collections.abc import Iterable

from specgen.drawing_chart import Chart, chart_lines, chart_of, moved_shown
from specgen.drawing_plan import RoofPlan, area_shown, feet_shown, roof_plan
from specgen.drawing_raster import raster
from specgen.scope import Scope
from specgen.section import Table
from specgen.showing import figure
from specgen.writers.calculations_shown import (
    SUBJECT_TO,
    Shown,
    ShownTable,
    capital,
    heading,
    sentence,
    shown_results,
)

WIDTH = 80
MARGIN = "  "
GAP = "  "
TIE = "\x1f"  # stands for a space at which no line breaks


def write_calculations_text(scope: Scope) -> str:
    """Every calculation with its values, drawings, cautions, and what is open or refused."""
    results = shown_results(scope)
    lines = ["CALCULATION RECORD"]
    lines += [f"{label}: {value}" for label, value in heading(scope)]
    for shown in results:
        if shown.state != "not needed":
            lines += ["", *_calculation(scope, shown)]
    spared = [shown.title for shown in results if shown.state == "not needed"]
    if spared:
        lines += ["", f"Not needed for these answers: {'; '.join(spared)}."]
    lines += ["", SUBJECT_TO]
    return "\n".join(_fitted(lines)) + "\n"


def _calculation(scope: Scope, shown: Shown) -> list[str]:
    lines = [shown.title.upper(), "-" * len(shown.title)]
    if shown.state == "refused":
        lines += _wrapped(f"Not computed: {sentence(shown.result.refused)}")
    if shown.settles:
        label = "Settled by:" if shown.state == "refused" else "Open; settled by:"
        lines += [f"{MARGIN}{label}"]
        width = max(len(name) for name, _ in shown.settles)
        for name, ask in shown.settles:
            lines += _wrapped(ask, f"{MARGIN * 2}{name.ljust(width)}{GAP}")
    lines += _values(shown)
    for table in shown.tables:
        lines += ["", f"{MARGIN}{capital(table.label)}", *table_block(table)]
    outcome = shown.result.outcome
    if outcome is not None:
        plan = roof_plan(scope, outcome.plan)
        chart = chart_of(scope, outcome.series)
        lines += _plan(scope, plan) if plan else []
        lines += _chart(chart) if chart else []
    if shown.cautions:
        lines.append("")
    for caution in shown.cautions:
        lines += _wrapped(sentence(caution), "! ", "  ")
    return lines


def _values(shown: Shown) -> list[str]:
    """Labels and values in two columns, the values below each other."""
    if not shown.values:
        return []
    room = WIDTH - len(MARGIN) - 2
    width = min(max(len(label) for label, _ in shown.values), room // 2 + 12)
    lines = []
    for label, value in shown.values:
        first, *rest = textwrap.wrap(capital(label), width) or [""]
        lead = f"{MARGIN}{first.ljust(width)}{GAP}"
        lines += _wrapped(value, lead)
        lines += [f"{MARGIN}  {line}" for line in rest]
    return lines


def _plan(scope: Scope, plan: RoofPlan) -> list[str]:
    """The plan to scale with its dimensions on the edges and a key below."""
    drawn = raster(plan)
    width, height = plan.size
    columns = max(len(line) for line in drawn.lines)
    side = feet_shown(scope, height)
    lines = ["", f"{MARGIN}Roof plan by zone", ""]
    lines.append(f"{MARGIN}{_dimension(feet_shown(scope, width), columns)}")
    lines.append(f"{MARGIN}+{'-' * columns}+ -")
    middle = len(drawn.lines) // 2
    for number, line in enumerate(drawn.lines):
        mark = f" {side}" if number == middle else " |"
        lines.append(f"{MARGIN}|{line.ljust(columns)}|{mark}")
    lines.append(f"{MARGIN}+{'-' * columns}+ -")
    across, up = (feet_shown(scope, feet) for feet in drawn.cell)
    says = f"To scale: a character stands for {across} across by {up} up."
    if drawn.widened:
        says += " A strip narrower than that is drawn one character wide."
    lines += [*_wrapped(says), ""]
    spaced = any(zone.spacing for zone in plan.zones)
    head = ("Mark", "Zone", "Area in plan", "Uplift, allowable")
    rows = [
        (zone.mark, zone.name, area_shown(scope, zone.area), zone.uplift or "-")
        for zone in plan.zones
    ]
    if spaced:
        head = (*head, "Clip spacing")  # type: ignore[assignment]
        rows = [(*row, zone.spacing or "-") for row, zone in zip(rows, plan.zones, strict=True)]  # type: ignore[misc]
    numeric = (False, False, True, True, True)[: len(head)]
    return [*lines, *table_block(ShownTable("", Table(head, tuple(rows)), numeric))]


def _dimension(text: str, columns: int) -> str:
    """A dimension line as long as the plan is wide, its text in the middle."""
    if columns < len(text) + 6:
        return f" {text}"
    return f"|{f' {text} '.center(columns, '-')}|"


def _chart(chart: Chart) -> list[str]:
    lines = ["", f"{MARGIN}Movement against length of panel", ""]
    rows = [
        (
            figure(x, 2),
            moved_shown(chart, y),
            "this roof" if chart.mark is not None and x == chart.mark[0] else "",
        )
        for x, y in chart.rows
    ]
    head = (f"Length, {chart.x_unit}", f"Movement, {chart.y_unit}", "")
    lines += table_block(ShownTable("", Table(head, tuple(rows)), (True, True, False)))
    lines += ["", *(f"{MARGIN}{line}" for line in chart_lines(chart))]
    if chart.mark is not None:
        lines.append(f"{MARGIN}O  this roof")
    return lines


def table_block(shown: ShownTable) -> list[str]:
    """A table as aligned columns under a rule, figures to the right, no wider than the page."""
    head = [re.sub(r"\([^)]*\)", _tied, _ascii(label)) for label in shown.table.head]
    body = [
        [
            re.sub(r" (?!\()", TIE, _ascii(cell)) if figures else _ascii(cell)
            for cell, figures in zip(row, shown.numeric, strict=True)
        ]
        for row in shown.table.rows
    ]
    widths = _widths([head, *body])
    lines = []
    for number, row in enumerate([head, *body]):
        cells = [_cell(cell, width) for cell, width in zip(row, widths, strict=True)]
        deep = max(len(cell) for cell in cells)
        for cell in cells:
            spare = [""] * (deep - len(cell))
            cell[:] = [*spare, *cell] if number == 0 else [*cell, *spare]
        for line in zip(*cells, strict=True):
            aligned = (
                word.rjust(width) if figures else word.ljust(width)
                for word, width, figures in zip(line, widths, shown.numeric, strict=True)
            )
            lines.append(f"{MARGIN}{GAP.join(aligned)}".rstrip().replace(TIE, " "))
        if number == 0:
            rule = ("-" * width if label else "" for width, label in zip(widths, row, strict=True))
            lines.append(f"{MARGIN}{GAP.join(rule)}".rstrip())
    return lines


def _widths(rows: list[list[str]]) -> list[int]:
    """How wide each column is: as its cells ask, narrowed to their longest words for the page."""
    columns = list(zip(*rows, strict=True))
    room = WIDTH - len(MARGIN) - len(GAP) * (len(columns) - 1)
    least = [
        max(len(word) for cell in column for word in [*cell.split(" "), ""]) for column in columns
    ]
    widths = [
        max([least[i], *(len(cell) for cell in column[1:])]) for i, column in enumerate(columns)
    ]
    while sum(widths) > room:
        loose = [i for i, width in enumerate(widths) if width > least[i]] or range(len(widths))
        widths[max(loose, key=lambda i: widths[i])] -= 1
    for i, column in enumerate(columns):
        widths[i] += max(0, min(room - sum(widths), min(len(column[0]), 18) - widths[i]))
    return widths


def _cell(cell: str, width: int) -> list[str]:
    return textwrap.wrap(cell, width, break_on_hyphens=False) or [""]


def _tied(match: re.Match[str]) -> str:
    return match[0].replace(" ", TIE)


def _wrapped(text: str, lead: str = MARGIN, hang: str | None = None) -> list[str]:
    text, lead = _ascii(text), _ascii(lead)
    if len(lead) > WIDTH - 24:
        return [lead.rstrip(), *_wrapped(text, MARGIN * 3)]
    indent = " " * len(lead) if hang is None else hang
    return textwrap.wrap(text, WIDTH, initial_indent=lead, subsequent_indent=indent) or [lead]


def _fitted(lines: Iterable[str]) -> list[str]:
    """The lines in ASCII, one that is too long wrapped."""
    fitted = []
    for line in map(_ascii, lines):
        fitted += [line] if len(line) <= WIDTH else textwrap.wrap(line, WIDTH)
    return fitted


_PLAIN = str.maketrans(
    {"°": "deg ", "µ": "u", "−": "-", "–": "-", "—": "-", "×": "x", "’": "'", "‘": "'", "“": '"',
     "”": '"', "…": "...", "²": "2", "³": "3", "≤": "<=", "≥": ">=", "ß": "ss", "ø": "o", "æ": "ae"}
)  # fmt: skip


def _ascii(text: str) -> str:
    """The text in ASCII: signs spelled, accents left off, what has no equal a question mark."""
    if text.isascii():
        return text
    text = text.replace(" °F", " degF").replace(" °C", " degC").translate(_PLAIN)
    bare = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    return bare.encode("ascii", "replace").decode("ascii")

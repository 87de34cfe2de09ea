"""What other answers change, for the terminal and as plain values for JSON."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from specgen.checks import Finding
from specgen.study.tracked import Line, TableDifference
from specgen.study.whatif import WhatIf
from specgen.study.wordwise import Piece
from specgen.writers.laid_out import block, columns, counted, entry, plain_values

SIGNS = {"in": "+", "out": "-", "changed": "~"}
MARKS = {"in": "++", "out": "~~", "same": ""}
HEADS = ("project", "place", "issue", "date")


def write_whatif(found: WhatIf) -> str:
    """The answers, the findings, the numbers, then every paragraph in, out or reworded.

    In a reworded paragraph what went out stands between ~~ and ~~, what came in between ++ and ++.
    """
    changed = found.differences.changed
    lines: list[str] = []
    rows = [(each.question, f"{each.before} -> {each.after}") for each in found.answers]
    lines += block("Answers", columns(rows))
    lines += [_summary(found), ""]
    lines += block("Findings raised", _findings(found.raised, full=True))
    lines += block("Findings settled", _findings(found.settled, full=False))
    moved = [(each.label, f"{each.before} -> {each.after}") for each in found.numbers]
    lines += block("Numbers moved", columns(moved, most=44))
    lines += block("Newly open", entry(", ".join(found.opened)) if found.opened else [])
    lines += block("No longer open", entry(", ".join(found.closed)) if found.closed else [])
    for name, pieces in zip(HEADS, found.differences.heads, strict=True):
        if any(piece.state != "same" for piece in pieces):
            lines += [*entry(f"~ page head, {name}: {_inline(pieces)}", ""), ""]
    article = ""
    for line in _in_articles(found.differences.lines):
        if line.role == "paragraph":
            lines += _paragraph(line)
        elif line.after != article or line.state != "same":
            article = line.after
            lines += ["", _heading(line)] if lines and lines[-1] else [_heading(line)]
    if not changed:
        lines.append("The section stays as it is.")
    return "\n".join(lines).rstrip() + "\n"


def whatif_json(found: WhatIf) -> dict[str, object]:
    """Every field of the difference; paragraphs that stay as they are are left out."""
    return {
        "answers": plain_values(found.answers),
        "raised": plain_values(found.raised),
        "settled": plain_values(found.settled),
        "numbers": plain_values(found.numbers),
        "opened": list(found.opened),
        "closed": list(found.closed),
        "heads": {
            name: _pieces(pieces)
            for name, pieces in zip(HEADS, found.differences.heads, strict=True)
            if any(piece.state != "same" for piece in pieces)
        },
        "lines": [
            {
                "role": line.role,
                "state": line.state,
                "before": line.before,
                "after": line.after,
                "clause": line.paragraph.reason.clause if line.paragraph is not None else "",
                "pieces": _pieces(line.pieces),
                "tables": [
                    {
                        "state": table.state,
                        "head": list(table.table.head),
                        "rows": [
                            {"state": row.state, "cells": [_pieces(cell) for cell in row.cells]}
                            for row in table.rows
                        ],
                    }
                    for table in line.tables
                ],
            }
            for line in found.differences.changed
        ],
    }


def _pieces(pieces: Sequence[Piece]) -> list[dict[str, str]]:
    return [{"state": piece.state, "text": piece.shown} for piece in pieces]


def _summary(found: WhatIf) -> str:
    paragraphs = [line for line in found.differences.changed if line.role == "paragraph"]
    counts = {state: sum(1 for line in paragraphs if line.state == state) for state in SIGNS}
    return (
        f"{counted(counts['in'], 'paragraph')} in, {counts['out']} out,"
        f" {counts['changed']} reworded; {counted(len(found.raised), 'finding')} raised,"
        f" {len(found.settled)} settled."
    )


def _findings(findings: Iterable[Finding], *, full: bool) -> list[str]:
    lines: list[str] = []
    for each in findings:
        place = f" at {each.place}" if each.place else ""
        lines += entry(f"{each.kind} {each.id}{place}: {each.says}")
        if full:
            lines += entry(each.because, "      ", "")
    return lines


def _in_articles(lines: Iterable[Line]) -> Iterable[Line]:
    """The lines that differ, below the heading of their article; other headings left out."""
    heading: Line | None = None
    for line in lines:
        if line.role == "article":
            heading = line
        if line.state == "same":
            continue
        if line.role == "paragraph" and heading is not None and heading.state == "same":
            yield heading
            heading = None
        yield line


def _heading(line: Line) -> str:
    sign = f"{SIGNS[line.state]} " if line.state in SIGNS else ""
    return f"{sign}{line.after or line.before} {line.read('after') or line.read('before')}"


def _paragraph(line: Line) -> list[str]:
    number = line.after or line.before
    was = f" (was {line.before})" if line.moved else ""
    text = _inline(line.pieces) if line.state == "changed" else _whole(line)
    lines = entry(f"{SIGNS[line.state]} {number}{was}  {text}", hang="    ")
    for table in line.tables:
        if table.state != "same":
            lines += _table(table)
    return lines


def _whole(line: Line) -> str:
    return line.read("before" if line.state == "out" else "after")


def _inline(pieces: Sequence[Piece]) -> str:
    """Pieces in one text, what went out between ~~ and ~~, what came in between ++ and ++."""
    shown: list[str] = []
    for index, piece in enumerate(pieces):
        mark = MARKS[piece.state]
        apart = index and piece.state == "in" and pieces[index - 1].state == "out"
        shown.append(f"{' ' if apart else ''}{mark}{piece.shown}{mark}")
    return "".join(shown)


def _table(table: TableDifference) -> list[str]:
    lines = entry(" | ".join(table.table.head), "        ")
    for row in table.rows:
        if row.state != "same":
            cells = " | ".join(_inline(cell) for cell in row.cells)
            if row.state != "changed":
                cells = " | ".join("".join(p.shown for p in cell) for cell in row.cells)
            lines += entry(f"{SIGNS[row.state]} {cells}", "      ", "    ")
    return lines

"""What is told of a row of a table and of the cell under the cursor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from specgen.calculations.coverage import Coverage
from specgen.questions import Question
from specgen.scope import Scope
from specgen.writers.calculations_shown import capital
from tui.lead_strip import Block, told
from tui.marks import IN, KINDS, OPEN, OUT
from tui.record_columns import means, written
from tui.record_cover import Cover, carried_by
from tui.record_rows import Rows
from tui.wrapping import Piece

BEGUN, INVALID = OPEN, KINDS["conflict"]


def sign_of(rows: Rows, place: int, coverage: Coverage | None) -> str:
    """How a row stands: it covers this roof or not, is not finished, or has what is not taken."""
    row = rows[place]
    if not rows.is_finished(row):
        texts = [(n, row[name]) for n, name in enumerate(rows.ids) if row[name]]
        return INVALID if any(rows.fault(n, text) for n, text in texts) else BEGUN
    if coverage is None:
        return " "
    return IN if coverage.covered else OUT


def row_reason(
    rows: Rows,
    place: int,
    column: int,
    cover: Cover,
    coverage: Coverage | None,
    scope: Scope,
    offers: Sequence[str],
) -> list[Block]:
    """Everything that is known of a row, then of its cell."""
    question = rows.question
    if place >= len(rows):
        asked = Block("question", told(question.ask))
        why = Block("why", told(question.why))
        return [_title("A new row"), *_cell(question, column, offers), asked, why]
    row = rows[place]
    name = row.get("report") or row[rows.ids[0]]
    blocks = [_title(f"Row {place + 1} of {len(rows)}", name)]
    blocks += _standing(rows, place, cover, coverage)
    if coverage is not None and coverage.covered and name:
        zones = carried_by(scope, name)
        says = ", ".join(zones) if zones else "no roof zone: other records carry more, or wider"
        blocks.append(Block("carries", told(says)))
    text = row[rows.ids[column]]
    blocks += _cell(question, column, offers, rows.fault(column, text) if text else "")
    return blocks


def _title(text: str, more: str = "") -> Block:
    return Block("", (Piece(f"{text}:" if more else text, "strong"), Piece(f" {more}")))


def _standing(rows: Rows, place: int, cover: Cover, coverage: Coverage | None) -> Iterator[Block]:
    row, question = rows[place], rows.question
    if not rows.is_finished(row):
        gaps = [
            question.columns[n].label.lower()
            for n, name in enumerate(rows.ids)
            if rows.fault(n, row[name])
        ]
        says = f"not in the brief until it is finished; it wants {', '.join(gaps)}"
        yield Block(f"{OPEN} begun", (Piece(says, "gap"),))
    elif cover.waits_on:
        labels = [f"the {_label(name)}" for name in cover.waits_on]
        yield Block(f"{OPEN} covers", (Piece(f"not known before {', '.join(labels)}", "gap"),))
    elif coverage is not None and coverage.covered:
        yield Block(f"{IN} covers", (Piece("this roof.", "in"), Piece(" "),
                                     *told(" ".join(coverage.cautions))))  # fmt: skip
    elif coverage is not None:
        yield Block(f"{OUT} covers", (Piece("not this roof.", "out"), Piece(" "),
                                      *told(" ".join(coverage.reasons))))  # fmt: skip


def _label(name: str) -> str:
    return name.replace("_", " ")


def _cell(
    question: Question, column: int, offers: Sequence[str], fault: str = ""
) -> Iterator[Block]:
    """What a column means and how it is written, and what space puts into the cell."""
    about = question.columns[column]
    meaning = means(question, about)
    yield Block("cell", (Piece(capital(about.label), "strong"),
                         Piece(f": {meaning}; " if meaning else ": "),
                         Piece(written(about), "muted")))  # fmt: skip
    if fault:
        yield Block(f"{INVALID} wants", (Piece(fault, "gap"),))
    if offers:
        yield Block("choices", told("; ".join(offers), "muted"))

"""Answers that stand in tables: columns told by their heads, cells read as the question does."""

from __future__ import annotations

import re
from collections.abc import Iterator

from specgen.library import Library
from specgen.questions import AnswerError, Question, read_answer
from specgen.review.figures import typed
from specgen.review.outline import Block, Outline
from specgen.review.passages import plain
from specgen.review.shapes import Anchor, Statement

SURE = 0.9

# The heads of columns as the trade writes them (common practice), by question and column.
HEADS: dict[str, dict[str, re.Pattern[str]]] = {
    "clip_schedule": {
        "zone": re.compile(r"zone|area|location|part of roof", re.I),
        "spacing": re.compile(r"spacing|on cent(?:er|re)|o\.?c\.?\b|apart", re.I),
    },
    "zone_pressures": {
        "zone": re.compile(r"zone|area|location|part of roof", re.I),
        "upward": re.compile(r"uplift|upward|negative|suction|outward|net up", re.I),
        "downward": re.compile(r"downward|positive|inward|net down", re.I),
    },
    "listed_products": {
        "manufacturer": re.compile(r"manufacturer|maker|company", re.I),
        "system": re.compile(r"system|product|panel|profile|series", re.I),
    },
}  # fmt: skip
_UNIT = re.compile(r"\(?\b(psf|psi|kpa|pa|lbf?/sq ?ft|in|inches|ft|mm|m)\b\.?\)?\s*$", re.I)
_BARE = re.compile(r"[-+]?\d[\d.,/ -]*")


def statements_in_tables(outline: Outline, library: Library) -> Iterator[Statement]:
    """What the tables of a document answer, one statement a row."""
    rows: list[Block] = []
    for block in (*outline.blocks, None):
        if block is not None and block.kind == "row":
            rows.append(block)
            continue
        if len(rows) > 1:
            yield from _of_table(rows, library)
        rows = []


def _of_table(rows: list[Block], library: Library) -> Iterator[Statement]:
    head = [cell.strip() for cell in rows[0].text.split("\t")]
    if len(head) < 2:
        return
    for name, patterns in HEADS.items():
        question = library.questions.get(name)
        columns = _columns(head, patterns)
        if question is None or columns is None:
            continue
        for block in rows[1:]:
            statement = _row(block, question, head, columns)
            if statement is not None:
                yield statement


def _columns(head: list[str], patterns: dict[str, re.Pattern[str]]) -> dict[str, int] | None:
    """The place of each column; None where one is missing, or where two could be it."""
    found: dict[str, int] = {}
    for name, pattern in patterns.items():
        places = [place for place, cell in enumerate(head) if pattern.search(cell)]
        if len(places) != 1 or places[0] in found.values():
            return None
        found[name] = places[0]
    return found


def _row(
    block: Block, question: Question, head: list[str], columns: dict[str, int]
) -> Statement | None:
    cells = [cell.strip() for cell in block.text.split("\t")]
    if len(cells) < len(head):
        return None
    kinds = {column.id: column.kind for column in question.columns}
    raw = {
        name: _cell(kinds[name], plain(cells[place]), head[place])
        for name, place in columns.items()
    }
    try:
        value = read_answer(question, [raw])
    except AnswerError:
        return None
    text = block.text
    return Statement(
        question.id, [raw], value, Anchor(block.index, 0, len(text)), text, SURE, "", ""
    )


def _cell(kind: str, cell: str, head: str) -> str:
    """A cell as a brief takes it, its unit from the head of the column where it has none."""
    if kind == "text":
        return cell
    if _BARE.fullmatch(cell):
        unit = _UNIT.search(plain(head))
        cell = f"{cell} {unit[1]}" if unit else cell
    return typed(kind, cell).lstrip("-+") if kind == "pressure" else typed(kind, cell)

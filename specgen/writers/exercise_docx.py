"""An exercise as a Word document for a class, and its answer key as another.

The numbers of the section are typed text, as the exercise has them: a list that counts itself would
close the gap of an article that was lost. Neither document carries a record of the brief.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from specgen.review.outline import Block
from specgen.section import Table
from specgen.study.practice_shapes import Exercise
from specgen.writers.docx import PageHeads, Titles, plain_docx
from specgen.writers.docx_pieces import (
    TEXT_WIDTH,
    head_row,
    paragraph,
    row,
    run,
    table,
    table_around,
)
from specgen.writers.docx_styles import LEVELS
from specgen.writers.practice_text import task_of

_BOLD = "<w:rPr><w:b/></w:rPr>"
_ROOM_TO_WRITE = '<w:trHeight w:val="500" w:hRule="atLeast"/>'
_NEW_PAGE = "<w:pageBreakBefore/>"
_AIR = '<w:spacing w:before="0" w:after="120"/>'
_MARKS = (
    ("No.", 700),
    ("Place", 1500),
    ("What is wrong", 3200),
    ("Why, and what it should say", 0),
)
_KEY = (("Place", 1300), ("What is wrong", 4200), ("Why, and on what authority", 0))
_APART = '<w:spacing w:before="480" w:after="40"/>'
_CLOSE = '<w:spacing w:before="20" w:after="20"/>'
_POINTS = (
    "Two points for the place and what is wrong, one for the place alone; one off for a mark where"
    " nothing of its kind was planted."
)
_SPARE_ROWS = 3


def write_exercise_docx(exercise: Exercise) -> bytes:
    """The bytes of the exercise: what is to be done, the section, and a table for the marks."""
    body = "".join(
        (
            *_task(exercise),
            *_section(exercise.outline.blocks),
            *_marks(exercise),
        )
    )
    return _document(exercise, body, "Exercise")


def write_key_docx(exercise: Exercise) -> bytes:
    """The bytes of the answer key: each fault with its place, reason, source and right words."""
    kinds = {kind.id: kind.words for kind in exercise.kinds}
    rows = [
        (
            (planted.place, *(f"also {place}" for place in planted.also[:3])),
            (_first_upper(f"{kinds[planted.kind]}."), planted.says),
            (planted.because, f"Source: {planted.source.rstrip('.')}.", *_was(planted.was)),
        )
        for planted in exercise.planted
    ]
    body = "".join(
        (
            paragraph("SectionTitle", run("ANSWER KEY")),
            _ruled_table(_KEY, rows),
            paragraph("ScheduleCell", run(_POINTS), _APART),
        )
    )
    return _document(exercise, body, "Answer key")


def _was(was: str) -> tuple[str, ...]:
    return (f"It was: {was}",) if was else ()


def _document(exercise: Exercise, body: str, what: str) -> bytes:
    heads = PageHeads(
        project=run(exercise.project),
        place=run(exercise.location),
        issue=run(f"{what}, level {exercise.level}"),
        date=run(f"No. {exercise.seed}"),
    )
    outline = exercise.outline
    return plain_docx(body, Titles(outline.number, outline.title, exercise.project), heads)


# ------------------------------------------------------------------------------------ the section


def _task(exercise: Exercise) -> Iterator[str]:
    yield paragraph("SectionTitle", run(f"EXERCISE, LEVEL {exercise.level}"))
    yield paragraph("Normal", run("Name: ____________________    Date: ____________"), _AIR)
    yield paragraph("Normal", run(task_of(exercise)), _AIR)
    told = " The project, its place and its reports are invented."
    yield paragraph("Normal", run(f"Write your marks in the table on the last pages.{told}"), _AIR)


def _section(blocks: Iterable[Block]) -> Iterator[str]:
    left = 0
    for is_row, group in groupby(blocks, key=lambda block: block.kind == "row"):
        if is_row:
            head, *rows = [tuple(block.text.split("\t")) for block in group]
            yield table(Table(head, tuple(rows)), left)
            continue
        for block in group:
            left = LEVELS[block.level + 1].left if block.kind == "paragraph" else left
            yield _block(block)


def _block(block: Block) -> str:
    if block.kind == "paragraph":
        return _numbered(block, block.level + 1)
    if block.kind == "article":
        return _numbered(block, 1)
    if block.kind == "part":
        return paragraph("Part", run(f"{block.number} - {block.text}"), _typed(0))
    if block.kind == "title":
        style = _title_style(block)
        return paragraph(style, run(block.text), _APART if style == "SectionNumber" else "")
    return ""  # the page's head has the project's name


def _title_style(block: Block) -> str:
    if block.text.startswith("SECTION "):
        return "SectionNumber"
    return "SectionEnd" if block.text.startswith("END OF") else "SectionTitle"


def _numbered(block: Block, level: int) -> str:
    """A heading or paragraph with its number typed before it."""
    tab = "<w:r><w:tab/></w:r>" if block.number else ""
    content = f"{run(block.number)}{tab}{run(block.text)}"
    return paragraph(LEVELS[level].style, content, _typed(level))


def _typed(level: int) -> str:
    """What takes a paragraph out of the list that counts itself, set in as the list sets it."""
    left, hanging = LEVELS[level].left, LEVELS[level].hanging
    return (
        '<w:numPr><w:ilvl w:val="0"/><w:numId w:val="0"/></w:numPr>'
        f'<w:tabs><w:tab w:val="left" w:pos="{left}"/></w:tabs>'
        f'<w:ind w:left="{left}" w:hanging="{hanging}"/>'
    )


# -------------------------------------------------------------------------------------- the marks


def _marks(exercise: Exercise) -> Iterator[str]:
    yield paragraph("SectionTitle", run("YOUR MARKS"), _NEW_PAGE)
    count = len(exercise.planted) + _SPARE_ROWS
    rows = [((f"{number}",), ("",), ("",), ("",)) for number in range(1, count + 1)]
    yield _ruled_table(_MARKS, rows, _ROOM_TO_WRITE)
    yield paragraph("SectionTitle", run("WHAT CAN BE WRONG"), '<w:spacing w:before="360"/>')
    for kind in exercise.kinds:
        words = run(f"{_first_upper(kind.words)}. ", _BOLD)
        yield paragraph("ScheduleCell", words + run(kind.means), _CLOSE)


def _ruled_table(
    columns: Sequence[tuple[str, int]],
    rows: Iterable[Sequence[Sequence[str]]],
    properties: str = "",
) -> str:
    """A table of cells that each hold some paragraphs; a column of no width takes what is left."""
    left = TEXT_WIDTH - sum(width for _, width in columns)
    widths = [width or left for _, width in columns]
    head = head_row([paragraph("ScheduleHead", run(title)) for title, _ in columns], widths)
    body = "".join(row([_cell(cell) for cell in cells], widths, properties) for cells in rows)
    return table_around(head + body, widths, 0)


def _cell(texts: Sequence[str]) -> str:
    return "".join(paragraph("ScheduleCell", run(text)) for text in texts)


def _first_upper(text: str) -> str:
    return text[:1].upper() + text[1:]

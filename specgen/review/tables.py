"""Tables: those that hold values stay rows, those that lay out a text become its paragraphs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from specgen.review.cleaning import clean
from specgen.review.labels import Label, label_of, split_label
from specgen.review.lines import Line

Cell = list[Line]
Row = list[Cell]
# Labels that end in a stop or a parenthesis number a text; a bare 1 or A may count items.
_LONG_TEXT = 30


def lines_of_table(rows: list[Row]) -> Iterator[Line]:
    """The lines of a table, in reading order."""
    rows = [row for row in rows if any(row)]
    if _lays_out(rows):
        for row in rows:
            yield from _laid_out(row)
    else:
        for row in rows:
            yield from _row(row)


def _lays_out(rows: list[Row]) -> bool:
    """Whether the cells are paragraphs: a frame around a text, or a numbered text set in columns.

    It is where no row has two cells with text, where a part or two articles are headed in it, or
    where most rows start with a number of at least two kinds, or are a number and a text.
    """
    if all(sum(map(bool, row)) <= 1 for row in rows):
        return True
    labels = [label for row in rows for cell in row for line in cell[:1]
              if (label := _label(line)) is not None]  # fmt: skip
    forms = {label.form for label in labels if label.form not in ("other", "•")}
    heads = sum(label.form == "path" and len(label.path) == 2 for label in labels)
    if "part" in forms or heads >= 2:
        return True
    first = [label for row in rows if (label := _label(_first(row))) is not None]
    if len(first) * 2 < len(rows):
        return False
    kinds = {(label.form, len(label.path)) for label in first if label.form not in ("other", "•")}
    if len(kinds) >= 2:
        return True
    return len(rows) >= 2 and all(_numbered_text(row) for row in rows)


def _numbered_text(row: Row) -> bool:
    """Whether a row is one number alone and one text of some length."""
    filled = [cell for cell in row if cell]
    if len(filled) == 1:
        return True
    label = _label(filled[0][0])
    return (
        len(filled) == 2
        and label is not None
        and not label.shown[-1].isalnum()
        and _alone(filled[0])
        and len(filled[1][0].text) >= _LONG_TEXT
    )


def _first(row: Row) -> Line:
    return next(cell[0] for cell in row if cell)


def _label(line: Line) -> Label | None:
    if line.number:
        return label_of(line.number)
    return split_label(line.text.strip())[0]


def _alone(cell: Cell) -> bool:
    """Whether a cell holds a number and nothing else."""
    if len(cell) != 1:
        return False
    line = cell[0]
    if line.number:
        return not line.text.strip()
    label, rest = split_label(line.text.strip())
    if label is None:
        text = line.text.strip()
        return bool(text) and len(text) <= 3 and text.isalnum()
    return not rest


def _laid_out(row: Row) -> Iterator[Line]:
    filled = [cell for cell in row if cell]
    if len(filled) == 1:
        yield from filled[0]
        return
    head, texts = filled[0], filled[1:]
    if _alone(head):
        yield from _numbered(head[0], texts)
    elif all(_is_pair(head, cell) for cell in texts):
        for number, text in zip(head, texts[0], strict=True):
            yield from _numbered(number, [[text]])
    elif all(len(cell) == 1 for cell in filled):
        yield from _row(row)
    else:
        for cell in filled:
            yield from cell


def _is_pair(head: Cell, cell: Cell) -> bool:
    """Whether two cells hold numbers and as many texts, one beside the other."""
    return len(head) == len(cell) > 1 and all(_alone([line]) for line in head)


def _numbered(number: Line, texts: list[Cell]) -> Iterator[Line]:
    """A text with its number from the cell before it; what stands below it in its cell follows."""
    beside = [cell[0] for cell in texts]
    text = "\t".join(line.text for line in beside)
    typed = "" if number.number else number.text.strip()
    if typed and typed.isalnum() and not typed.startswith(("PART", "part")):
        typed += "."
    yield replace(
        beside[0],
        text=f"{typed}\t{text}" if typed else text,
        origin=_origin([number, *beside]),
        columns=len(beside) > 1,
        number=number.number or beside[0].number,
        list=number.list or beside[0].list,
        depth=max(number.depth, beside[0].depth),
        outline=max(number.outline, beside[0].outline),
        hidden=all(line.hidden for line in beside),
        notes=tuple(note for line in (number, *beside) for note in line.notes),
    )
    for cell in texts:
        yield from cell[1:]


def _row(row: Row) -> Iterator[Line]:
    """A row of values as one line, its cells joined by tabs; tables and boxes in it follow."""
    lines = [line for cell in row for line in cell]
    own = [[line for line in cell if line.kind in ("body", "page")] for cell in row]
    held = [line for cell in own for line in cell]
    if held:
        text = "\t".join(" ".join(clean(f"{line.number} {line.text}") for line in c) for c in own)
        yield replace(
            held[0],
            text=text.rstrip("\t"),
            origin=_origin(held),
            number="",
            list="",
            depth=-1,
            outline=-1,
            bold=all(line.bold for line in held),
            hidden=all(line.hidden for line in held),
            kind="page" if held[0].kind == "page" else "row",
            notes=tuple(note for line in held for note in line.notes),
        )
    yield from (line for line in lines if line.kind not in ("body", "page"))


def _origin(lines: list[Line]) -> tuple[str, tuple[int, ...]]:
    """Where the lines stand, taken together; those of another part keep out."""
    part = lines[0].origin[0]
    places = [place for line in lines for place in line.origin[1] if line.origin[0] == part]
    return part, tuple(dict.fromkeys(places))

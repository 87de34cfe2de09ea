"""Two sections of one library set against each other: what came in, went out and was reworded.

Paragraphs are the same where their clause is, open decisions where their question and place are,
computed lines where what they list is. Inside a paragraph the difference is by words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from specgen.section import Article, Paragraph, Part, Section, Table, numbered
from specgen.spans import Words
from specgen.study.wordwise import Piece, compared, pieces_of

# A cell this short is replaced whole; a figure cut in two is hard to read.
SHORT_CELL = 24


@dataclass(frozen=True, slots=True)
class RowDifference:
    """A row of a table: ``state`` same, in, out or changed, and its cells as pieces."""

    state: str
    cells: tuple[tuple[Piece, ...], ...]


@dataclass(frozen=True, slots=True)
class TableDifference:
    """A table: ``state`` same, in, out or changed; ``table`` is that of after, or the one out."""

    state: str
    table: Table
    rows: tuple[RowDifference, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """A part's or article's heading or a paragraph: ``state`` is same, in, out or changed.

    ``before`` and ``after`` are its numbers, empty where it does not stand; ``paragraph`` and
    ``article`` are those of after, or of before where it is out.
    """

    role: str
    state: str
    level: int
    before: str
    after: str
    pieces: tuple[Piece, ...]
    tables: tuple[TableDifference, ...] = ()
    paragraph: Paragraph | None = None
    article: Article | None = None

    @property
    def moved(self) -> bool:
        """Whether it stands in both with different numbers."""
        return bool(self.before and self.after) and self.before != self.after

    def read(self, side: str) -> str:
        """The text as it was (``before``) or is (``after``)."""
        left_out = "in" if side == "before" else "out"
        return "".join(piece.shown for piece in self.pieces if piece.state != left_out)


@dataclass(frozen=True, slots=True)
class Differences:
    """Every line of both sections, merged in reading order; ``heads`` are project, place, issue and
    date, as the pages carry them."""

    lines: tuple[Line, ...]
    heads: tuple[tuple[Piece, ...], ...]

    @property
    def changed(self) -> tuple[Line, ...]:
        """The lines that differ."""
        return tuple(line for line in self.lines if line.state != "same")


def differences(before: Section, after: Section) -> Differences:
    """What differs between two sections of one library."""
    was, now = list(_lines(before)), list(_lines(after))
    matcher = SequenceMatcher(None, [e.key for e in was], [e.key for e in now], autojunk=False)
    merged: list[Line] = []
    for change, i, j, k, m in matcher.get_opcodes():
        if change == "equal":
            merged += [_both(a, b) for a, b in zip(was[i:j], now[k:m], strict=True)]
        else:
            merged += [_only(each, "out") for each in was[i:j]]
            merged += [_only(each, "in") for each in now[k:m]]
    heads = zip(_heads(before), _heads(after), strict=True)
    return Differences(tuple(merged), tuple(compared(a, b) for a, b in heads))


# ------------------------------------------------------------------------------------------ lines


@dataclass(frozen=True, slots=True)
class _Entry:
    """A line of one section, with what makes it the same line in another."""

    key: tuple[object, ...]
    role: str
    level: int
    number: str
    pieces: tuple[Piece, ...]
    paragraph: Paragraph | None = None
    article: Article | None = None


def _lines(section: Section) -> Iterator[_Entry]:
    for part in section.parts:
        yield _heading("part", part, section)
        for article in part.articles:
            yield _heading("article", article, section)
            keys: dict[str, tuple[object, ...]] = {"": (article.id,)}
            for paragraph, number in numbered(article):
                above = keys.get(number.rpartition(".")[0], keys[""])
                key = keys[number] = _key(paragraph, above)
                pieces = pieces_of(section, paragraph.spans)
                yield _Entry(
                    (*key, paragraph.level), "paragraph", paragraph.level, number, pieces, paragraph
                )


def _heading(role: str, held: Part | Article, section: Section) -> _Entry:
    pieces = pieces_of(section, (Words(held.title),))
    article = held if isinstance(held, Article) else None
    key = (role, article.id if article is not None else held.number)
    return _Entry(key, role, 0, str(held.number), pieces, article=article)


def _key(paragraph: Paragraph, above: tuple[object, ...]) -> tuple[object, ...]:
    """What a paragraph is, wherever it stands and however it is worded."""
    if paragraph.reason.clause:
        return ("clause", paragraph.reason.clause)
    if paragraph.decision is not None:
        return (*above, "open", paragraph.decision.question)
    first = paragraph.spans[0] if paragraph.spans else Words("")
    return (*above, "computed", first.text if isinstance(first, Words) else "")


def _only(each: _Entry, state: str) -> Line:
    pieces = tuple(Piece(state, piece.span, piece.shown) for piece in each.pieces)
    tables = each.paragraph.tables if each.paragraph is not None else ()
    return Line(
        role=each.role,
        state=state,
        level=each.level,
        before=each.number if state == "out" else "",
        after=each.number if state == "in" else "",
        pieces=pieces,
        tables=tuple(_whole(table, state) for table in tables),
        paragraph=each.paragraph,
        article=each.article,
    )


def _both(was: _Entry, now: _Entry) -> Line:
    pieces = compared(was.pieces, now.pieces)
    before = was.paragraph.tables if was.paragraph is not None else ()
    after = now.paragraph.tables if now.paragraph is not None else ()
    tables = tuple(_tables(before, after))
    changed = any(p.state != "same" for p in pieces) or any(t.state != "same" for t in tables)
    state = "changed" if changed else "same"
    return Line(
        now.role, state, now.level, was.number, now.number, pieces, tables, now.paragraph,
        now.article,
    )  # fmt: skip


# ----------------------------------------------------------------------------------------- tables


def _tables(before: Sequence[Table], after: Sequence[Table]) -> Iterator[TableDifference]:
    for index in range(max(len(before), len(after))):
        was = before[index] if index < len(before) else None
        now = after[index] if index < len(after) else None
        if was is not None and now is not None and was.head == now.head:
            rows = tuple(_rows(was, now))
            state = "changed" if any(row.state != "same" for row in rows) else "same"
            yield TableDifference(state, now, rows)
            continue
        if was is not None:
            yield _whole(was, "out")
        if now is not None:
            yield _whole(now, "in")


def _whole(table: Table, state: str) -> TableDifference:
    return TableDifference(state, table, tuple(_row(row, state) for row in table.rows))


def _row(cells: tuple[str, ...], state: str) -> RowDifference:
    return RowDifference(state, tuple(_cell(cell, state) for cell in cells))


def _rows(was: Table, now: Table) -> Iterator[RowDifference]:
    """Rows that begin alike are the same row; a table's first column names what it is about."""
    old, new = _named_rows(was), _named_rows(now)
    matcher = SequenceMatcher(None, list(old), list(new), autojunk=False)
    rows_was, rows_now = list(old.values()), list(new.values())
    for change, i, j, k, m in matcher.get_opcodes():
        if change == "equal":
            pairs = zip(rows_was[i:j], rows_now[k:m], strict=True)
            yield from (_row_changed(a, b) if a != b else _row(b, "same") for a, b in pairs)
        else:
            yield from (_row(row, "out") for row in rows_was[i:j])
            yield from (_row(row, "in") for row in rows_now[k:m])


def _named_rows(table: Table) -> dict[tuple[str, int], tuple[str, ...]]:
    """The rows by their first cell and how often it stood above."""
    found: dict[tuple[str, int], tuple[str, ...]] = {}
    for row in table.rows:
        count = sum(1 for name, _ in found if name == row[0])
        found[row[0], count] = row
    return found


def _row_changed(was: tuple[str, ...], now: tuple[str, ...]) -> RowDifference:
    cells = (
        compared(_cell(a), _cell(b)) if min(len(a), len(b)) > SHORT_CELL
        else _replaced_whole(a, b)
        for a, b in zip(was, now, strict=True)
    )  # fmt: skip
    return RowDifference("changed", tuple(cells))


def _replaced_whole(was: str, now: str) -> tuple[Piece, ...]:
    return _cell(now) if was == now else (*_cell(was, "out"), *_cell(now, "in"))


def _cell(text: str, state: str = "same") -> tuple[Piece, ...]:
    return (Piece(state, Words(text), text),)


def _heads(section: Section) -> Iterator[tuple[Piece, ...]]:
    for head in (section.project, section.place, section.issue, section.date):
        yield pieces_of(section, (head,))

"""Lines of a typed page put back together into paragraphs and rows.

A line goes on the paragraph above it where that line was full, so that its first word had no room
there, or where it hangs below the paragraph's own text. A number of its own starts a paragraph.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from specgen.review.cleaning import kept_apart
from specgen.review.headings import is_end, section_of
from specgen.review.labels import Label, split_label
from specgen.review.lines import Line

MOST_LINES = 100_000
LONGEST_LINE = 200_000
_GAP = re.compile(r"(?: {2,}\t?|\t)[ \t]{0,200}")
_RULE = re.compile(r"[\s|+=_*~:.\u2500-\u257f-]{1,2000}")
_WIDEST_PAGE = 140


@dataclass(frozen=True, slots=True)
class Typed:
    """A line as typed: its number in the file from 1, its column, its text without that."""

    at: int
    column: int
    text: str

    @property
    def width(self) -> int:
        return self.column + len(self.text)


@dataclass(slots=True)
class _Open:
    """A paragraph or a row that may go on: its lines, and the columns at which its number, the text
    behind that, and what stands behind gaps in it begin."""

    first: Typed
    label: Label | None
    hangs: tuple[int, ...]
    is_row: bool
    lines: list[Typed] = field(default_factory=list)


def typed_lines(text: str) -> list[Typed | None]:
    """The lines of a text, None for a blank one."""
    found: list[Typed | None] = []
    for at, line in enumerate(text.split("\n"), start=1):
        shown = kept_apart(line[:LONGEST_LINE])
        bare = shown.strip()
        if not bare or (_RULE.fullmatch(bare) and not bare.isalnum()):
            found.append(None)
            continue
        lead = shown[: len(shown) - len(shown.lstrip())]
        found.append(Typed(at, len(lead.expandtabs(8)), bare))
    return found


def paragraphs_of(lines: Sequence[Typed | None], *, hyphens: frozenset[str]) -> Iterator[Line]:
    """The paragraphs and rows of typed lines; ``hyphens`` are the words met in one piece, which a
    hyphen at the end of a line may have cut."""
    width = _page_width(lines)
    tabular = _tabular(lines)
    present: _Open | None = None
    blank = True
    for index, line in enumerate(lines):
        if line is None:
            blank = True
            continue
        if present is not None and _goes_on(present, line, blank, width, index in tabular):
            present.lines.append(line)
        else:
            if present is not None:
                yield _line(present, hyphens)
            present = _opened(line, index in tabular)
        blank = False
    if present is not None:
        yield _line(present, hyphens)


def _opened(line: Typed, is_row: bool) -> _Open:
    label, rest = split_label(line.text)
    text_at = line.column + len(line.text) - len(rest) if label and rest else line.column
    gaps = [column for column in _columns(line) if column > text_at]
    return _Open(line, label, (text_at, *gaps), is_row, [line])


def _columns(line: Typed) -> list[int]:
    """The columns at which a line's text, and each piece of it behind a gap, begins."""
    return [line.column, *(line.column + match.end() for match in _GAP.finditer(line.text))]


def _goes_on(present: _Open, line: Typed, blank: bool, width: int, tabular: bool) -> bool:
    """Whether a line goes on the paragraph or row that is open."""
    if blank or width == 0:
        return False
    if present.is_row:
        return _goes_on_row(present, line)
    last = present.lines[-1]
    if tabular or is_end(line.text) or section_of(last.text) or section_of(line.text):
        return False
    label, rest = split_label(line.text)
    first_word = line.text.split(None, 1)[0]
    full = last.width + 1 + len(first_word) > width
    if label is not None and not ((full or not rest) and _is_figure(label, rest, line, present)):
        return False
    if present.label is not None and present.label.form == "part":
        return False
    if last.text.isupper() != line.text.isupper() and present.first.text.isupper():
        return False
    if full:
        return line.column >= present.first.column - 1 or present.label is None
    hangs = present.label is not None and line.column > present.first.column
    long = last.width >= 0.7 * width or not last.text.endswith((".", ":", ";"))
    return hangs and long and any(abs(line.column - hang) <= 2 for hang in present.hangs)


def _goes_on_row(present: _Open, line: Typed) -> bool:
    """Whether a line holds the rest of some cells of a row: fewer pieces than that has cells, each
    at the column of one, and in its first cell no more than that has room for."""
    columns, cells = _columns(line), [present.first.column, *present.hangs[1:]]
    if "|" in line.text or len(columns) >= len(cells) or split_label(line.text)[0] is not None:
        return False
    if columns[0] == cells[0] and line.width >= cells[1] - 1:
        return False
    return all(any(abs(column - cell) <= 1 for cell in cells) for column in columns)


def _is_figure(label: Label, rest: str, line: Typed, present: _Open) -> bool:
    """Whether what looks like a number is the next word of a sentence: nothing follows it, or it
    stands where the text hangs, and the paragraph's own number stood before that."""
    if label.form == "•" or present.label is None:
        return False
    hang = present.hangs[0]
    return hang > present.first.column and (line.column == hang or not rest)


def _line(present: _Open, hyphens: frozenset[str]) -> Line:
    if present.is_row:
        text = _cells(present, hyphens)
    else:
        text = present.lines[0].text
        for line in present.lines[1:]:
            text = _joined(text, line.text, hyphens)
    return Line(
        text=text,
        origin=("", tuple(line.at for line in present.lines)),
        indent=present.first.column,
        kind="row" if present.is_row else "body",
    )


def _cells(present: _Open, hyphens: frozenset[str]) -> str:
    """The cells of a row joined by tabs, each with what later lines add to it."""
    text = present.first.text
    if "|" in text:
        return "\t".join(cell.strip() for cell in text.strip("| ").split("|"))
    cells = _GAP.split(text)
    starts = [present.first.column, *present.hangs[1:]]
    for line in present.lines[1:]:
        for column, piece in zip(_columns(line), _GAP.split(line.text), strict=False):
            apart = [abs(start - column) for start in starts]
            nearest = apart.index(min(apart))
            if nearest < len(cells):
                cells[nearest] = _joined(cells[nearest], piece, hyphens)
    return "\t".join(cells)


def _joined(text: str, more: str, hyphens: frozenset[str]) -> str:
    if not text.endswith("-") or text.endswith((" -", "--")) or not more[0].isalnum():
        return f"{text} {more}"
    cut = text.rsplit(None, 1)[-1][:-1] + re.split(r"[^\w]", more, maxsplit=1)[0]
    return text[:-1] + more if cut.lower() in hyphens else text + more


def _page_width(lines: Sequence[Typed | None]) -> int:
    """The column at which the text was wrapped: 0 for one whose paragraphs are single lines, and
    more than any line has where too few lines come near the longest to tell."""
    widths = sorted(line.width for line in lines if line is not None)
    if not widths or widths[len(widths) * 49 // 50] > _WIDEST_PAGE:
        return 0
    width = widths[len(widths) * 49 // 50]
    near = sum(width - 14 <= one for one in widths)
    return width if near >= 3 else _WIDEST_PAGE * 10


def _tabular(lines: Sequence[Typed | None]) -> frozenset[int]:
    """The indexes of lines that are rows of a table: cells between bars, or set apart by gaps at
    least twice, or once where a neighbor has a gap at the same column."""
    gaps: dict[int, tuple[int, ...]] = {}
    narrow: dict[int, set[int]] = {}
    found = set()
    for index, line in enumerate(lines):
        if line is None or section_of(line.text) or split_label(line.text)[0] is not None:
            continue
        text = line.text
        if (text.startswith("|") and text.count("|") >= 2) or text.count(" | ") >= 2:
            found.add(index)
            continue
        # Two spaces alone may part sentences; they part cells where a row beside has that column.
        narrow[index] = {line.column + match.end() for match in _GAP.finditer(text)}
        places = tuple(
            line.column + match.end()
            for match in _GAP.finditer(text)
            if match.start() and (match.end() - match.start() >= 3 or "\t" in match[0])
        )
        if places:
            gaps[index] = places
    indexes = sorted(gaps)
    for before, after in pairwise(indexes):
        between = [line for line in lines[before + 1 : after] if line is not None]
        if not between and set(gaps[before]) & set(gaps[after]):
            found.update((before, after))
    found.update(index for index, places in gaps.items() if len(places) >= 2)
    beside = {
        index
        for row in found
        for index in (_above(lines, row), row + 1)
        if narrow.get(index, set()) & narrow.get(row, set())
    }
    return frozenset(found | beside)


def _above(lines: Sequence[Typed | None], index: int) -> int:
    """The line above a row, past the rule that may part a table's head from its rows."""
    return index - 2 if index >= 2 and lines[index - 1] is None else index - 1

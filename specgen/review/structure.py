"""From lines to a section: parts, articles, levels, and the number that each place is cited by."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from specgen.review import headings
from specgen.review.cleaning import clean
from specgen.review.labels import Label, label_of, split_label
from specgen.review.levels import DEEPEST, Levels
from specgen.review.lines import Line, Reading
from specgen.review.outline import Block, Note, Outline

# Word's layout marks this much of a document as text boxes before they are taken for its text.
_MOSTLY = 0.6
MOST_LOOSE = 20
Parsed = tuple[Line, Label | None, str]


def outline_of(reading: Reading, name: str) -> Outline:
    """The outline of a document from its lines in reading order."""
    lines = [one for line in _whole_text_in_boxes(reading.lines) for one in _broken(line)]
    parsed = [one for line in lines for one in _headed(*_parsed(line))]
    builder = _Builder(headings.habits_of(parsed))
    for one in parsed:
        builder.add(*one)
    return builder.outline(name, reading.says)


def _parsed(line: Line) -> Parsed:
    text = line.text.strip()
    tidy = _cells if line.columns else clean
    if line.number:
        return line, label_of(line.number), tidy(text)
    if line.kind == "row":
        return line, None, _cells(text)
    label, rest = split_label(text)
    return line, label, tidy(rest)


def _headed(line: Line, label: Label | None, rest: str) -> Iterator[Parsed]:
    """The line, or the heading of an article and the paragraph that goes on behind it."""
    heads = label is not None and label.form == "path" and len(label.path) == 2
    found = headings.run_in(rest) if heads and line.kind == "body" else None
    if found is None:
        yield line, label, rest
        return
    yield line, label, found[0]
    yield replace(line, number="", list="", depth=-1, notes=()), None, found[1]


def _cells(text: str) -> str:
    return "\t".join(clean(cell) for cell in text.split("\t")).rstrip("\t")


def _broken(line: Line) -> Iterator[Line]:
    """The line, or its pieces where line breaks in it stand before numbers of their own."""
    if "\n" not in line.text:
        yield line
        return
    pieces: list[str] = []
    for piece in line.text.split("\n"):
        label, rest = split_label(piece.strip())
        if pieces and (label is None or not rest):
            pieces[-1] = f"{pieces[-1]}\n{piece}"
        else:
            pieces.append(piece)
    yield replace(line, text=pieces[0])
    for piece in pieces[1:]:
        if piece.strip():
            yield replace(line, text=piece, number="", list="", depth=-1, notes=())


def _whole_text_in_boxes(lines: list[Line]) -> list[Line]:
    """The lines, those of text boxes as ordinary ones where most of the text stands in boxes."""
    boxed = sum(len(line.text) for line in lines if line.kind == "aside")
    rest = sum(len(line.text) for line in lines if line.kind in ("body", "row"))
    if boxed <= _MOSTLY * (boxed + rest):
        return lines
    return [replace(line, kind="body") if line.kind == "aside" else line for line in lines]


class _Builder:
    """Places one line after another."""

    def __init__(self, habits: headings.Habits) -> None:
        self.habits = habits
        self.blocks: list[Block] = []
        self.notes: list[Note] = []
        self.number = self.title = ""
        self.part = 0
        self.article = ""
        self.ended = False
        self.placed = False
        self.levels = Levels()
        # The place and level below which labels count: the article's, or those of the last path
        # of figures.
        self.base = ("", 0)
        self.place_above = ""

    def add(self, line: Line, label: Label | None, rest: str) -> None:
        at = len(self.blocks)
        self._place(line, label, rest)
        self.notes += [Note(says, at) for says in line.notes]

    def outline(self, name: str, says: list[str]) -> Outline:
        if not self.number:
            above = ("page", "row", "loose")
            heads = [block.text for block in self.blocks if block.kind in above and not block.part]
            self.number = next(filter(None, map(headings.number_in_head, heads)), "")
        if not self.title:
            self.title = self._title_above()
        notes = [Note(one) for one in says]
        if self.blocks and not self.habits.parts:
            notes.append(Note("No headings of parts were found."))
        if self.blocks and not any(block.kind == "article" for block in self.blocks):
            notes.append(Note("No headings of articles were found."))
        if not self.number:
            notes.append(Note("No section number was found."))
        loose = [block for block in self.blocks if block.kind == "loose"]
        for block in loose[:MOST_LOOSE]:
            shown = block.text if len(block.text) <= 60 else f"{block.text[:57]}..."
            told = f'No place was found for "{shown}"; it is read all the same.'
            notes.append(Note(told, block.index))
        if len(loose) > MOST_LOOSE:
            more = len(loose) - MOST_LOOSE
            notes.append(Note(f"No place was found for {more} more paragraphs; they are read too."))
        return Outline(name, self.number, self.title, tuple(self.blocks), (*notes, *self.notes))

    def _title_above(self) -> str:
        """A title in capitals in the line before the section's number or its first part."""
        for before, block in pairwise(self.blocks):
            if block.kind in ("title", "part"):
                stands_above = before.kind == "page" and before.text.isupper()
                return before.text if stands_above else ""
        return ""

    # ------------------------------------------------------------------------------- placing

    def _place(self, line: Line, label: Label | None, rest: str) -> None:
        if line.kind == "page" or headings.is_entry(rest):
            self._put("page", line, clean(line.text))
        elif line.kind == "row":
            if self.placed or self.ended or not self._heads_section(line, label, rest):
                self._put("row", line, rest, place=self.place_above)
        elif line.kind == "aside":
            number = label.shown if label else ""
            self._put("loose", line, rest, number=number)
        elif headings.is_end(rest):
            self.ended = True
            self._put("title", line, rest)
        elif not self.ended and not self.placed and self._heads_section(line, label, rest):
            return
        elif self.placed and label is None and headings.section_of(rest):
            says = f'Another section starts here, "{rest[:80]}"; its parts are read with the rest.'
            self.notes.append(Note(says, len(self.blocks)))
            self._put("title", line, rest)
        elif part := headings.part_of(line, label, rest, self.part):
            self._open_part(part, line, label, rest)
        elif headings.is_article(line, label, rest, self.habits, self.part):
            self._open_article(line, label, rest)
        elif self._goes_on_title(line, label):
            self._title_of_part(line, rest)
        else:
            self._paragraph(line, label, rest)

    def _heads_section(self, line: Line, label: Label | None, rest: str) -> bool:
        """Whether a line before the first part is the section's number or title."""
        text = clean(line.text)
        if not self.number:
            found = headings.section_of(text, named=False)
            if found is None:
                return False
            self.number, self.title = found
            self._put("title", line, text)
            return True
        heads = headings.part_of(line, label, rest, 0) or label is not None
        before = self.blocks[-1].kind == "title"
        unfinished = self.title.lower().endswith((" and", " for", " of", " with", ",", "-", "/"))
        if heads or not before or (self.title and not unfinished) or len(text) > 120:
            return False
        self.title = f"{self.title} {text}".strip()
        self._put("title", line, text)
        return True

    def _heads_document(self, label: Label | None, rest: str) -> bool:
        """Whether a line before the first part is a project's name or the like."""
        return self.habits.parts and label is None and headings.is_heading_matter(rest)

    def _open_part(self, part: int, line: Line, label: Label | None, rest: str) -> None:
        self.part, self.article = part, ""
        self.placed, self.ended = True, False
        self.levels, self.base = Levels(), ("", 0)
        number = "" if label is None else label.shown
        self.place_above = f"PART {part}"
        self._put("part", line, rest, number=number, place=self.place_above)

    def _goes_on_title(self, line: Line, label: Label | None) -> bool:
        """Whether a line is the title of a part whose heading was its number alone."""
        last = self.blocks[-1] if self.blocks else None
        return (
            last is not None and last.kind == "part" and not last.text
            and label is None and len(line.text) <= 60
        )  # fmt: skip

    def _title_of_part(self, line: Line, rest: str) -> None:
        self._put("part", line, rest)

    def _open_article(self, line: Line, label: Label | None, rest: str) -> None:
        number = "" if label is None else label.shown
        if label is not None and label.form == "path":
            part = int(label.path[0])
            if part <= 3:
                self.part = part
        self.placed = True
        self.article = headings.title_text(rest)
        place = "" if label is None else label.cited
        self.levels, self.base = Levels(), (place, 0)
        self.place_above = place
        self._put("article", line, rest, number=number, place=place)

    def _paragraph(self, line: Line, label: Label | None, rest: str) -> None:
        if not self.placed and not self.ended and self._heads_document(label, rest):
            self._put("page", line, rest)
            return
        if self.ended or not (self.placed or label is not None):
            number = label.shown if label else ""
            self._put("loose", line, rest, number=number)
            return
        if label is None:
            below = self.levels.beside(line) if self.levels.level or not self.base[1] else 0
            self._put("paragraph", line, rest, level=min(self.base[1] + below, DEEPEST))
            return
        if label.form == "path":
            place = ".".join(label.path)
            level = min(max(len(label.path) - 2, 1), DEEPEST)
            self.levels, self.base = Levels(), (place, level)
        else:
            level = min(self.base[1] + self.levels.enter(label, line), DEEPEST)
            cited = self.levels.cited
            place = f"{self.base[0]}.{cited}" if self.base[0] and cited else cited
        self.place_above = place or self.place_above
        self._put("paragraph", line, rest, number=label.shown, place=place, level=level)

    def _put(
        self, kind: str, line: Line, text: str, *, number: str = "", place: str = "", level: int = 0
    ) -> None:
        inside = kind not in ("title", "page", "part")
        self.blocks.append(
            Block(
                index=len(self.blocks),
                kind=kind,
                text=text,
                number=number,
                place=place,
                level=level,
                part=self.part if kind not in ("title", "page") else 0,
                article=self.article if inside else "",
                hidden=line.hidden,
                origin=line.origin,
            )
        )

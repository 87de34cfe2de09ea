"""A DOCX as its lines in reading order: paragraphs, rows, running heads, text boxes, footnotes."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import Any

from specgen.review.cleaning import clean, kept_apart
from specgen.review.docx_notes import says_of
from specgen.review.docx_numbering import Numbered, Numbering
from specgen.review.docx_package import Package, Unreadable, W
from specgen.review.docx_styles import Look, Style, Styles, look_of
from specgen.review.docx_text import MARKUP, Paragraph, TextReader, alternatives
from specgen.review.lines import Line, Reading
from specgen.review.tables import lines_of_table

MOST_PARAGRAPHS = 50_000
_P, _TABLE = f"{{{W}}}p", f"{{{W}}}tbl"
_VAL = f"{{{W}}}val"
_TAKEN_OUT = frozenset((f"{{{W}}}del", f"{{{W}}}moveFrom"))


def read_docx(content: bytes) -> Reading:
    """The lines of a DOCX; raises Unreadable for what is no sound one of ordinary size."""
    package = Package(content)
    root = package.xml(package.main)
    body = None if root is None else root.find(f"{{{W}}}body")
    if body is None:
        raise Unreadable("the document has no text; open it in Word and save it anew.")
    return _Document(package, root).read(body)


class _Document:
    """What the parts of one document share: styles, counts, footnotes, comments."""

    def __init__(self, package: Package, root: Any) -> None:
        self.package = package
        self.root = root
        self.ties = package.relationships(package.main)
        self.styles = Styles(self._tied("styles"))
        self.numbering = Numbering(self._tied("numbering"), self.styles)
        self.texts = TextReader(self.styles)
        # Whether even a paragraph that says nothing of itself is numbered, by the default style.
        self.numbers_all = bool(self.styles.style("").look.list_id)
        self.says: list[str] = []
        self.comments: dict[str, str] = {}
        for comment in self._children("comments", "comment"):
            words = clean(" ".join("".join(p.itertext(f"{{{W}}}t")) for p in comment.iter(_P)))
            self.comments[comment.get(f"{{{W}}}id", "")] = words[:200]
        self.footnotes: dict[tuple[str, str], Any] = {}
        for kind, name in (("footnotes", "footnote"), ("endnotes", "endnote")):
            for element in self._children(kind, name):
                self.footnotes[kind, element.get(f"{{{W}}}id", "")] = element

    def read(self, body: Any) -> Reading:
        lines = list(islice(_Part(self, self.package.main, self.root).lines(body, "body"),
                            MOST_PARAGRAPHS + 1))  # fmt: skip
        if len(lines) > MOST_PARAGRAPHS:
            raise Unreadable(f"it has more than {MOST_PARAGRAPHS:,} paragraphs; no section does.")
        lines.extend(self._running_heads())
        says = [*self.says, *says_of(self.package, self.ties, self.texts.tally)]
        return Reading(lines, list(dict.fromkeys(says)))

    def part_of(self, kind: str) -> str:
        """The name of the part tied to the body in that way; empty for none."""
        for tie in self.ties.values():
            if tie.kind == kind and not tie.external:
                return tie.target
        return ""

    def _running_heads(self) -> Iterator[Line]:
        """Each running head and foot once, however many pages show it."""
        said: set[str] = set()
        targets = [
            tie.target
            for tie in self.ties.values()
            if tie.kind in ("header", "footer") and not tie.external
        ]
        for target in dict.fromkeys(targets):
            root = self.package.xml(target)
            for line in () if root is None else _Part(self, target, root).lines(root, "page"):
                if line.text not in said:
                    said.add(line.text)
                    yield line

    def _tied(self, kind: str) -> Any:
        target = self.part_of(kind)
        return self.package.xml(target) if target else None

    def _children(self, kind: str, name: str) -> Iterator[Any]:
        root = self._tied(kind)
        yield from () if root is None else root.iterchildren(f"{{{W}}}{name}")


class _Part:
    """Reads one part of the package: the body, a running head, the footnotes."""

    def __init__(self, document: _Document, name: str, root: Any) -> None:
        self.document = document
        self.name = name
        # Kept, since an element stands for itself only as long as somebody holds it.
        self.paragraphs = list(root.iter(_P))
        self.position = {element: index for index, element in enumerate(self.paragraphs)}

    def lines(self, container: Any, kind: str) -> Iterator[Line]:
        """The lines of a body, a cell, a text box, a running head."""
        children = list(_blocks(container, self.document.says))
        held: list[tuple[Paragraph, int]] = []
        for index, element in enumerate(children):
            if element.tag == _TABLE:
                yield from lines_of_table(self._rows(element, kind))
                continue
            if not len(element) and not held and not self.document.numbers_all:
                continue
            name, own, mark = _properties(element)
            style = self.document.styles.style(name)
            found = self.document.texts.read(element, style)
            held.append((found, self.position[element]))
            last = index + 1 == len(children) or children[index + 1].tag != _P
            if not last and mark is not None and any(one.tag in _TAKEN_OUT for one in mark):
                # Without its mark, a paragraph runs on into the next one.
                self.document.texts.tally.deleted += 1
                continue
            parts, held = held, []
            yield from self._paragraph(parts, style, own, mark, kind)

    def _rows(self, table: Any, kind: str) -> list[list[list[Line]]]:
        """The lines of each cell of each row that no tracked change takes out."""
        rows = []
        for row in _within(table, "tr"):
            properties = row.find(f"{{{W}}}trPr")
            if properties is not None and properties.find(f"{{{W}}}del") is not None:
                self.document.texts.tally.deleted += 1
                continue
            cells = []
            for cell in _within(row, "tc"):
                if cell.find(f"{{{W}}}tcPr/{{{W}}}cellDel") is not None:
                    self.document.texts.tally.deleted += 1
                    continue
                cells.append(list(self.lines(cell, kind)))
            rows.append(cells)
        return rows

    def _paragraph(
        self, parts: list[tuple[Paragraph, int]], style: Style, own: Look, mark: Any, kind: str
    ) -> Iterator[Line]:
        """The line of a paragraph, put together from those that run on into it, then its boxes and
        footnotes."""
        found = [one for one, _ in parts]
        text = kept_apart("".join(one.text for one in found))
        letters = sum(one.letters for one in found)
        hidden = letters > 0 and letters == sum(one.hidden_letters for one in found)
        numbered = None
        if kind != "page" and not (hidden and mark is not None and look_of(None, mark).hidden):
            numbered = self.document.numbering.number(style, own.list_id, own.depth)
        if numbered or text.strip():
            outline = style.look.outline if own.outline is None else own.outline
            yield Line(
                text=text,
                origin=(self.name, tuple(position for _, position in parts)),
                number=numbered.shown if numbered else "",
                list=numbered.list if numbered else "",
                depth=numbered.depth if numbered else -1,
                outline=outline if outline is not None and 0 <= outline <= 8 else -1,
                indent=_indent(own, style, numbered),
                style=style.name,
                bold=letters > 0 and letters == sum(one.bold_letters for one in found),
                capitals=letters > 0 and letters == sum(one.capital_letters for one in found),
                hidden=hidden,
                kind="page" if _in_contents(found, style, text) else kind,
                notes=tuple(self._notes(found, hidden)),
            )
        for one in found:
            for box in one.boxes:
                yield from self.lines(box, "page" if kind == "page" else "aside")
            for notes, name in one.footnotes:
                element = self.document.footnotes.pop((notes, name), None)
                if element is not None:
                    part = _Part(self.document, self.document.part_of(notes), element.getparent())
                    yield from part.lines(element, "aside")

    def _notes(self, found: list[Paragraph], hidden: bool) -> Iterator[str]:
        for one in found:
            yield from one.says
            if one.hidden_letters and not hidden:
                yield f'Some words here are hidden: "{clean(one.hidden_words)}".'
            for name in one.comments:
                words = self.document.comments.pop(name, None)
                if words:
                    yield f'A comment stands here: "{words}".'
        if hidden:
            yield "This is formatted as hidden text; a printed copy does not show it."


def _blocks(container: Any, says: list[str]) -> Iterator[Any]:
    """The paragraphs and tables of a container, out of whatever wraps them."""
    for child in container:
        tag = child.tag
        if tag in (_P, _TABLE):
            yield child
        elif tag == f"{{{MARKUP}}}AlternateContent":
            for branch in alternatives(child):
                yield from _blocks(branch, says)
        elif tag in (f"{{{W}}}altChunk", f"{{{W}}}subDoc"):
            says.append("The document takes in another file, and that text is not read.")
        elif tag not in _TAKEN_OUT and len(child):
            yield from _blocks(child, says)


def _within(element: Any, name: str) -> Iterator[Any]:
    """The rows of a table or the cells of a row, out of whatever wraps them."""
    for child in element:
        if child.tag == f"{{{W}}}{name}":
            yield child
        elif child.tag in (f"{{{W}}}sdt", f"{{{W}}}sdtContent", f"{{{W}}}customXml"):
            yield from _within(child, name)


def _properties(paragraph: Any) -> tuple[str, Look, Any]:
    """A paragraph's style id, its own look, and the properties of its mark or None."""
    properties = paragraph.find(f"{{{W}}}pPr")
    if properties is None:
        return "", Look(), None
    style = properties.find(f"{{{W}}}pStyle")
    name = "" if style is None else style.get(_VAL, "")
    return name, look_of(properties, None), properties.find(f"{{{W}}}rPr")


def _indent(own: Look, style: Style, numbered: Numbered | None) -> int:
    """The left indent: the paragraph's own, else that of a list it names itself, else the style's,
    else that of the style's list."""
    of_list = numbered.indent if numbered else None
    if own.list_id is not None and own.indent is None and of_list is not None:
        return of_list
    for indent in (own.indent, style.look.indent, of_list):
        if indent is not None:
            return indent
    return 0


def _in_contents(found: list[Paragraph], style: Style, text: str) -> bool:
    """Whether a line is one of a table of contents."""
    if style.name.startswith("toc "):
        return True
    ends = not text.strip() or text.rstrip()[-1].isdigit()
    return ends and any(one.in_contents for one in found)

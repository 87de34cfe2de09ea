"""A document changed: paragraphs reworded, taken out or added, as an outline and as a DOCX."""

from __future__ import annotations

import copy
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from lxml import etree

from specgen.faults import BadInput, Fault
from specgen.files import replace_file, same_file
from specgen.review.docx_package import Package, Unreadable, W
from specgen.review.docx_words import spots_of
from specgen.review.headings import title_text
from specgen.review.outline import Block, Outline
from specgen.review.renumbering import Standing, renumbered
from specgen.review.shapes import Edit

_P, _T, _ROW = f"{{{W}}}p", f"{{{W}}}t", f"{{{W}}}tr"
_BREAKS = tuple(f"{{{W}}}{name}" for name in ("tab", "br", "cr"))
_SPACE = "{http://www.w3.org/XML/1998/namespace}space"


def edited(outline: Outline, edits: Iterable[Edit]) -> Outline:
    """The outline after the edits, its paragraphs numbered anew.

    Paragraphs below the place of an edit keep their numbers in step, as a word processor or a
    careful typist would; articles keep theirs, since other text refers to them. Notes stay with
    their blocks. An added block has the place of a next paragraph of its level, and no origin.
    """
    standing, moved = _changed(outline, edits)
    numbered = renumbered(outline.blocks, standing)
    notes = tuple(
        note if note.block is None else replace(note, block=moved[note.block])
        for note in outline.notes
        if note.block is None or note.block in moved
    )
    title = outline.title
    for old in outline.blocks:
        if old.kind == "title" and old.text == title and old.index in moved:
            title = numbered[moved[old.index]].text
    return Outline(outline.name, outline.number, title, tuple(numbered), notes)


def edit_docx(path: Path, outline: Outline, edits: Iterable[Edit], out: Path) -> None:
    """Write to ``out`` the document at ``path``, of which ``outline`` was read, after the edits.

    A paragraph's new text has the formatting of its first run; a typed number before it stays, in
    step with those around it. Raises BadInput if the document cannot be read or the copy written;
    the document itself is never touched.
    """
    if same_file(path, out):
        raise BadInput([Fault(str(out), None, "this is the document itself; name another file.")])
    try:
        package = Package(path.read_bytes())
        changed = _Parts(package, outline)
        changed.apply(tuple(edits))
        replace_file(out, package.rewritten(changed.contents()))
    except OSError as error:
        says = f"it cannot be read: {error.strerror}."
        raise BadInput([Fault(str(path), None, says)]) from None
    except Unreadable as error:
        raise BadInput([Fault(str(path), None, str(error))]) from None


def _changed(outline: Outline, edits: Iterable[Edit]) -> tuple[list[Standing], dict[int, int]]:
    """The blocks after the edits, and where each block that stays has gone."""
    texts: dict[int, str | None] = {}
    added: dict[int, list[str]] = {}
    for edit in edits:
        if edit.after:
            added.setdefault(edit.block, []).append(edit.text or "")
        else:
            texts[edit.block] = edit.text
    standing: list[Standing] = []
    moved: dict[int, int] = {}
    # The name of an article that is reworded, by the name that its blocks carry.
    article: dict[str, str] = {}
    for old in outline.blocks:
        text = texts.get(old.index, old.text)
        if old.kind == "article":
            name = old.article if old.index not in texts or text is None else title_text(text)
            article = {old.article: name}
        if text is not None:
            moved[old.index] = len(standing)
            name = article.get(old.article, old.article)
            block = replace(old, index=len(standing), text=text, article=name)
            standing.append(Standing(block, old))
        for words in added.get(old.index, ()):
            new = _added(old, words, article.get(old.article, old.article))
            standing.append(Standing(replace(new, index=len(standing)), old, added=True))
    return standing, moved


def _added(old: Block, text: str, article: str) -> Block:
    """A block below one, of its kind; below a heading, a paragraph without a number."""
    new = replace(old, text=text, article=article, origin=("", ()), hidden=False)
    if old.kind in ("paragraph", "row", "loose", "page"):
        return new
    return replace(new, kind="paragraph", number="", place="", level=1)


class _Parts:
    """The parts of a package that edits reach, changed in place."""

    def __init__(self, package: Package, outline: Outline) -> None:
        self.package = package
        self.outline = outline
        self._roots: dict[str, Any] = {}
        self._paragraphs: dict[str, list[Any]] = {}

    def apply(self, edits: tuple[Edit, ...]) -> None:
        """Make the edits, and bring typed numbers into step."""
        standing, _ = _changed(self.outline, edits)
        numbered = list(zip(renumbered(self.outline.blocks, standing), standing, strict=True))
        # First what is added, while what it is made after is still as it was read; each goes right
        # below its block, so that the last of several goes in first.
        for block, one in reversed(numbered):
            if one.added:
                self._add(one.old, block)
        for block, one in numbered:
            if not one.added and block.number != one.old.number:
                self._renumber(one.old, block.number)
        for edit in sorted(edits, key=lambda one: one.text is None):
            if not edit.after:
                self._change(self.outline.blocks[edit.block], edit.text)

    def contents(self) -> dict[str, bytes]:
        """The bytes of each part that was reached."""
        return {
            name: etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)
            for name, root in self._roots.items()
        }

    def _of(self, block: Block) -> list[Any]:
        part, places = block.origin
        if part not in self._roots:
            root = self.package.xml(part)
            if root is None:
                raise Unreadable("it is not the document that was read; read it again.")
            self._roots[part] = root
            self._paragraphs[part] = list(root.iter(_P))
        paragraphs = self._paragraphs[part]
        if any(place >= len(paragraphs) for place in places) or not places:
            raise Unreadable("it is not the document that was read; read it again.")
        return [paragraphs[place] for place in places]

    def _change(self, block: Block, text: str | None) -> None:
        paragraphs = self._of(block)
        if text is None:
            self._take_out(block, paragraphs)
        elif block.kind == "row":
            _reword_row(paragraphs, block.text, text)
        else:
            _reword(paragraphs, block.text, text)

    def _add(self, beside: Block, new: Block) -> None:
        paragraphs = self._of(beside)
        typed = bool(new.number) and any(spots_of(paragraphs, beside.number + beside.text))
        text = f"{new.number}\t{new.text}" if typed else new.text
        _add_below(paragraphs[-1], text, as_row=beside.kind == "row")

    def _take_out(self, block: Block, paragraphs: list[Any]) -> None:
        """The paragraph or row out; of one that holds several blocks, this block's words."""
        shared = [one for one in self.outline.blocks if one.origin == block.origin]
        row = next(paragraphs[0].iterancestors(_ROW), None)
        if len(shared) > 1:
            _reword(paragraphs, block.text, "")
        elif row is not None and all(p in set(row.iter(_P)) for p in paragraphs):
            rest = [p for p in row.iter(_P) if p not in paragraphs and "".join(p.itertext(_T))]
            if rest:
                for paragraph in paragraphs:
                    _empty(paragraph)
            else:
                row.getparent().remove(row)
        else:
            for paragraph in paragraphs:
                _remove(paragraph)

    def _renumber(self, block: Block, number: str) -> None:
        """The typed number of a block that stays; an automatic one counts itself."""
        spots = spots_of(self._of(block), block.number + block.text)
        if any(spots):
            _put(spots[: len(block.number)], number)


def _reword(paragraphs: Sequence[Any], old: str, new: str) -> None:
    """Put ``new`` in the place of ``old``: in the element of its first character, the rest of its
    characters taken out of theirs."""
    spots = spots_of(paragraphs, old)
    if not any(spots):
        raise Unreadable("it is not the document that was read; read it again.")
    _put(spots, new)


def _reword_row(paragraphs: Sequence[Any], old: str, new: str) -> None:
    """Reword a row cell by cell where it keeps its cells; else all of it goes into its first."""
    before, now = old.split("\t"), new.split("\t")
    if len(before) != len(now):
        _reword(paragraphs, old, new)
        return
    spots = spots_of(paragraphs, old)
    if not spots:
        raise Unreadable("it is not the document that was read; read it again.")
    place = 0
    for cell, words in zip(before, now, strict=True):
        if cell != words and cell:
            _put(spots[place : place + len(cell)], words)
        place += len(cell) + 1


def _put(spots: Sequence[Any], new: str) -> None:
    shown = [spot for spot in spots if spot is not None]
    first, last = shown[0], shown[-1]
    reached: dict[Any, list[int]] = {}
    for spot in shown:
        reached.setdefault(spot.element, []).append(spot.offset)
    for element, offsets in reached.items():
        text = element.text or ""
        start = first.offset if element is first.element else 0
        end = last.offset + 1 if element is last.element else len(text)
        words = new if element is first.element else ""
        if element.tag != _T:
            continue
        element.text = text[:start] + words + text[max(end, max(offsets) + 1) :]
        element.set(_SPACE, "preserve")
    _drop_breaks_between(first.element, last.element)


def _drop_breaks_between(first: Any, last: Any) -> None:
    """Tabs and breaks that stood between the words that are gone."""
    if first is last or first.getparent() is None:
        return
    paragraph = next(first.iterancestors(_P), None)
    if paragraph is None:
        return
    inside = False
    for element in list(paragraph.iter()):
        if element is last:
            return
        run = element.getparent()
        if inside and element.tag in _BREAKS and run.tag == f"{{{W}}}r":
            run.remove(element)
        inside = inside or element is first


def _remove(paragraph: Any) -> None:
    """The paragraph out, unless a cell or the end of a page layout hangs on it: then its text."""
    parent = paragraph.getparent()
    alone = sum(child.tag == _P for child in parent) == 1
    if alone or paragraph.find(f"{{{W}}}pPr/{{{W}}}sectPr") is not None:
        _empty(paragraph)
    else:
        parent.remove(paragraph)


def _empty(paragraph: Any) -> None:
    for element in list(paragraph):
        if element.tag != f"{{{W}}}pPr":
            paragraph.remove(element)


def _add_below(paragraph: Any, text: str, *, as_row: bool) -> None:
    """A paragraph or row below one like it, with the formatting of its first run of text."""
    row = next(paragraph.iterancestors(_ROW), None) if as_row else None
    if row is None:
        new = copy.deepcopy(paragraph)
        for ends in new.iterfind(f"{{{W}}}pPr/{{{W}}}sectPr"):
            ends.getparent().remove(ends)
        _fill(new, text)
        paragraph.addnext(new)
        return
    new = copy.deepcopy(row)
    cells = text.split("\t")
    for index, own in enumerate(new.iter(_P)):
        _fill(own, cells[index] if index < len(cells) else "")
    row.addnext(new)


def _fill(paragraph: Any, text: str) -> None:
    """Give a copied paragraph one run that says ``text``."""
    run = next((r for r in paragraph.iter(f"{{{W}}}r") if r.find(_T) is not None), None)
    properties = None if run is None else run.find(f"{{{W}}}rPr")
    _empty(paragraph)
    new = etree.SubElement(paragraph, f"{{{W}}}r")
    if properties is not None:
        new.append(copy.deepcopy(properties))
    for index, piece in enumerate(text.split("\t")):
        if index:
            etree.SubElement(new, f"{{{W}}}tab")
        element = etree.SubElement(new, _T)
        element.text = piece
        element.set(_SPACE, "preserve")

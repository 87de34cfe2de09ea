"""A copy of a document with each finding as a Word comment on the words that it is about."""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from specgen.faults import BadInput, Fault
from specgen.files import replace_file, same_file
from specgen.review.docx_package import Package, Unreadable, W
from specgen.review.docx_words import Spot, after, cut_before, ends_element, run_of, spots_of
from specgen.review.outline import Block, Outline
from specgen.review.shapes import Found

AUTHOR, INITIALS = "specgen", "sg"
_P, _BOX = f"{{{W}}}p", f"{{{W}}}txbxContent"
_PLAIN_TYPE = b"application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"
_OTHER_TYPES = (
    b"application/vnd.ms-word.document.macroEnabled.main+xml",
    b"application/vnd.ms-word.template.macroEnabledTemplate.main+xml",
    b"application/vnd.openxmlformats-officedocument.wordprocessingml.template.main+xml",
)


def annotate(path: Path, outline: Outline, found: Sequence[Found], out: Path) -> None:
    """Write to ``out`` the document at ``path``, of which ``outline`` was read, with a comment for
    each finding; all else stays as it is, but macros, which a DOCX cannot carry.

    A finding on a running head, a footnote or a text box, where Word allows no comment, stands on
    the nearest paragraph of the body; one on the whole document on its first. Raises BadInput if
    the document cannot be read or the copy not written; the document itself is never touched.
    """
    if same_file(path, out):
        raise BadInput([Fault(str(out), None, "this is the document itself; name another file.")])
    try:
        content = path.read_bytes()
        if content[:2] != b"PK":
            says = "comments go into a DOCX alone; write the findings to a page instead."
            raise BadInput([Fault(str(path), None, says)])
        replace_file(out, _annotated(content, outline, found))
    except OSError as error:
        says = f"it cannot be read: {error.strerror}."
        raise BadInput([Fault(str(path), None, says)]) from None
    except Unreadable as error:
        raise BadInput([Fault(str(path), None, str(error))]) from None


def _annotated(content: bytes, outline: Outline, found: Sequence[Found]) -> bytes:
    import docx

    package = Package(content)
    package.hold_to_bounds()
    stream = io.BytesIO(_as_plain_document(package, content))
    try:
        document = docx.Document(stream)
        for name, tie in list(document.part.rels.items()):
            if tie.reltype.endswith("/vbaProject"):
                del document.part.rels[name]
        commenter = _Commenter(document, package.main, outline)
        for one in found:
            commenter.comment(one)
        copy = io.BytesIO()
        document.save(copy)
    except (KeyError, ValueError, TypeError, AttributeError, IndexError, SyntaxError) as error:
        # What python-docx raises for a package that reads but is not put together by the rules.
        says = "comments cannot be put into this file; open it in Word, save it as DOCX and try it."
        raise Unreadable(says) from error
    return copy.getvalue()


def _as_plain_document(package: Package, content: bytes) -> bytes:
    """The package with a template or a document with macros declared as an ordinary document."""
    name = "[Content_Types].xml"
    types = package.content(name) or b""
    if not any(other in types for other in _OTHER_TYPES):
        return content
    for other in _OTHER_TYPES:
        types = types.replace(other, _PLAIN_TYPE)
    return package.rewritten({name: types})


class _Commenter:
    """Puts comments into an open document."""

    def __init__(self, document: Any, main: str, outline: Outline) -> None:
        self.document = document
        self.main = main
        self.outline = outline
        # Kept, since cutting a run must not change the count of what was read.
        self.paragraphs = list(document.part.element.iter(_P))

    def comment(self, found: Found) -> None:
        from docx.text.run import Run

        runs = self._runs(found)
        if runs is None:
            return
        ends = [Run(run, self.document) for run in runs]
        self.document.add_comment(ends, text=comment_text(found), author=AUTHOR, initials=INITIALS)

    def _runs(self, found: Found) -> tuple[Any, Any] | None:
        """The first and the last run that a finding is about."""
        if found.at is not None and 0 <= found.at.block < len(self.outline.blocks):
            block = self.outline.blocks[found.at.block]
            paragraphs = self._own(block)
            spots = spots_of(paragraphs, block.text)
            start, end = found.at.start, found.at.end
            chosen = spots[start:end] if end > start else spots
            shown = [spot for spot in chosen if spot is not None]
            if shown:
                return _cut(shown[0], shown[-1])
            whole = _all_runs(paragraphs)
            if whole is not None:
                return whole
            return self._nearest(block)
        return self._first()

    def _own(self, block: Block) -> list[Any]:
        """The paragraphs of a block that can carry a comment."""
        part, places = block.origin
        if part != self.main:
            return []
        own = [self.paragraphs[place] for place in places if place < len(self.paragraphs)]
        return [paragraph for paragraph in own if not _in_box(paragraph)]

    def _nearest(self, block: Block) -> tuple[Any, Any] | None:
        """The runs of the last paragraph before a block that can carry a comment."""
        for index in range(block.index - 1, -1, -1):
            before = self.outline.blocks[index]
            if block.kind == "page":
                break
            runs = _all_runs(self._own(before))
            if runs is not None:
                return runs
        return self._first()

    def _first(self) -> tuple[Any, Any] | None:
        for block in self.outline.blocks:
            runs = _all_runs(self._own(block))
            if runs is not None:
                return runs
        return None


def comment_text(found: Found) -> str:
    """What a finding's comment says: what, why, the source, and the clause that would settle it."""
    finding = found.finding
    lines = [f"{finding.kind.capitalize()}: {finding.says}", finding.because]
    if found.fills_with:
        lines.append(f"This would say it: {found.fills_with}")
    if finding.source:
        lines.append(f"Source: {finding.source}.")
    return "\n".join(line for line in lines if line)


def _cut(first: Spot, last: Spot) -> tuple[Any, Any] | None:
    """The runs from one spot to another, cut so that they hold those words alone."""
    if not ends_element(last):
        cut_before(after(last))
    else:
        following = last.element.getnext()
        if following is not None and run_of(following) is not None:
            cut_before(Spot(following, 0))
    same = first.element is last.element
    start = cut_before(first)
    end = start if same else run_of(last.element)
    return None if start is None or end is None else (start, end)


def _all_runs(paragraphs: Sequence[Any]) -> tuple[Any, Any] | None:
    runs = [
        run
        for paragraph in paragraphs
        for run in paragraph.iter(f"{{{W}}}r")
        if not _in_box(run) and not _taken_out(run) and next(run.iter(_BOX), None) is None
    ]
    return (runs[0], runs[-1]) if runs else None


def _in_box(element: Any) -> bool:
    return next(element.iterancestors(_BOX), None) is not None


def _taken_out(run: Any) -> bool:
    return next(run.iterancestors(f"{{{W}}}del", f"{{{W}}}moveFrom"), None) is not None

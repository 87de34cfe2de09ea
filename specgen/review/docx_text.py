"""The text of one paragraph of a DOCX as a reader sees it, tracked changes accepted."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from specgen.review.docx_package import W
from specgen.review.docx_styles import Style, Styles, is_on, whole

M = "http://schemas.openxmlformats.org/officeDocument/2006/math"
MARKUP = "http://schemas.openxmlformats.org/markup-compatibility/2006"
_VAL = f"{{{W}}}val"
_BOX = f"{{{W}}}txbxContent"
_FIELD_BUTTON = re.compile(r"\s*(?:MACRO|GOTO)BUTTON\s+\S+\s+(.*)", re.IGNORECASE | re.DOTALL)
_AUTOMATIC = re.compile(r"\s*(?:AUTONUM|AUTONUMLGL|AUTONUMOUT|LISTNUM)\b", re.IGNORECASE)
# Symbols of the Symbol and Wingdings fonts, which a file keeps as codes of those fonts.
_SYMBOLS = {0xA3: "\u2264", 0xB3: "\u2265", 0xB0: "\xb0", 0xB1: "\xb1", 0xB4: "\xd7", 0xB2: '"',
            0xA2: "'", 0xD7: "\xb7", 0xA8: "\u2610", 0xFE: "\u2612", 0xFC: "\u2713"}  # fmt: skip


@dataclass(slots=True)
class Field:
    """A field that is being read: its instruction, and whether its result has begun."""

    code: str = ""
    in_result: bool = False
    form: str = ""


@dataclass(slots=True)
class Paragraph:
    """What stands in a paragraph: the pieces of its text, each with the element that holds it, and
    what hangs on it. ``bold`` and ``hidden`` are true where all of its text is."""

    pieces: list[tuple[str, Any]] = field(default_factory=list)
    boxes: list[Any] = field(default_factory=list)
    footnotes: list[tuple[str, str]] = field(default_factory=list)
    comments: list[str] = field(default_factory=list)
    says: list[str] = field(default_factory=list)
    hidden_words: str = ""
    letters: int = 0
    bold_letters: int = 0
    hidden_letters: int = 0
    capital_letters: int = 0
    in_contents: bool = False

    @property
    def text(self) -> str:
        return "".join(text for text, _ in self.pieces)


@dataclass(slots=True)
class Tally:
    """What was met while reading and is told of once for the document."""

    inserted: int = 0
    deleted: int = 0
    moved: int = 0
    pictures: int = 0
    objects: int = 0
    art: list[str] = field(default_factory=list)


@dataclass(slots=True)
class _Run:
    """The look of the run that is being read."""

    bold: bool
    hidden: bool
    capitals: bool


class TextReader:
    """Reads paragraphs in order, since a field may run from one into the next."""

    def __init__(self, styles: Styles) -> None:
        self._styles = styles
        self._fields: list[Field] = []
        self._out = Paragraph()
        self._run = _Run(False, False, False)
        self._look = _Run(False, False, False)
        self.tally = Tally()

    def read(self, element: Any, style: Style) -> Paragraph:
        """The paragraph that a ``w:p`` in a style holds."""
        self._out = out = Paragraph()
        look = style.look
        self._look = _Run(bool(look.bold), bool(look.hidden), bool(look.capitals))
        out.in_contents = self._in_contents()
        self._inline(element)
        # An instruction that its paragraph leaves open is damaged; the text after it is not.
        self._fields = [one for one in self._fields if one.in_result]
        out.in_contents = out.in_contents or self._in_contents()
        return out

    def _in_contents(self) -> bool:
        return any(one.code.lstrip()[:3].upper() == "TOC" for one in self._fields)

    def _inline(self, parent: Any) -> None:
        for child in parent:
            handler = _HANDLERS.get(child.tag)
            if handler is not None:
                handler(self, child)
            elif child.tag not in _SKIPPED and len(child):
                self._inline(child)

    def _add(self, text: str, element: Any) -> None:
        for one in self._fields:
            if not one.in_result:
                self._fields[-1].code += text[:2000]
                return
        out, run = self._out, self._run
        out.pieces.append((text, element))
        letters = sum(map(str.isalnum, text))
        out.letters += letters
        out.bold_letters += letters * run.bold
        out.capital_letters += letters * run.capitals
        if run.hidden and letters:
            out.hidden_letters += letters
            out.hidden_words = f"{out.hidden_words}{text}"[:200]

    # ------------------------------------------------------------------------------ handlers

    def run(self, element: Any) -> None:
        before = self._run
        self._run = self._look
        properties = element.find(f"{{{W}}}rPr")
        if properties is not None and len(properties):
            self._run = self._look_of(properties)
        self._inline(element)
        self._run = before

    def _look_of(self, properties: Any) -> _Run:
        look = self._look
        bold, hidden, capitals = look.bold, look.hidden, look.capitals
        for child in properties:
            tag = child.tag
            if tag == f"{{{W}}}rStyle":
                style = self._styles.style(child.get(_VAL, "")).look
                bold = bold if style.bold is None else style.bold
                hidden = hidden if style.hidden is None else style.hidden
                capitals = capitals if style.capitals is None else style.capitals
            elif tag == f"{{{W}}}b":
                bold = is_on(child)
            elif tag == f"{{{W}}}vanish":
                hidden = is_on(child)
            elif tag == f"{{{W}}}caps":
                capitals = is_on(child)
        return _Run(bold, hidden, capitals)

    def text(self, element: Any) -> None:
        if element.text:
            # A line that breaks inside the file's own text is a space to a reader.
            self._add(element.text.replace("\n", " "), element)

    def tab(self, element: Any) -> None:
        self._add("\t", element)

    def line_break(self, element: Any) -> None:
        self._add("\n", element)

    def hyphen(self, element: Any) -> None:
        self._add("-", element)

    def symbol(self, element: Any) -> None:
        try:
            code = int(element.get(f"{{{W}}}char", ""), 16)
        except ValueError:
            return
        private = 0xF000 <= code <= 0xF0FF
        known = _SYMBOLS.get(code - 0xF000) if private else None
        usable = 32 <= code < 0xD800 or 0xF900 <= code < 0x11_0000
        self._add(known or (chr(code) if usable else "\u2022"), element)

    def inserted(self, element: Any) -> None:
        self.tally.inserted += 1
        self._inline(element)

    def deleted(self, element: Any) -> None:
        self.tally.deleted += 1

    def moved_here(self, element: Any) -> None:
        self.tally.moved += 1
        self._inline(element)

    def control(self, element: Any) -> None:
        properties = element.find(f"{{{W}}}sdtPr")
        if properties is not None and properties.find(f"{{{W}}}showingPlcHdr") is not None:
            self._out.says.append("A form field here has not been filled in.")
        self._inline(element)

    def simple_field(self, element: Any) -> None:
        code = element.get(f"{{{W}}}instr", "")
        frame = Field(code, True)
        self._fields.append(frame)
        before = len(self._out.pieces)
        self._inline(element)
        # A field inside may have been left open; what was opened here is closed here.
        while self._fields and self._fields.pop() is not frame:
            pass
        if len(self._out.pieces) == before:
            self._without_result(frame, element)

    def field_mark(self, element: Any) -> None:
        kind = element.get(f"{{{W}}}fldCharType", "")
        if kind == "begin":
            data = element.find(f"{{{W}}}ffData")
            form = "" if data is None else _form_value(data)
            if len(self._fields) < 100:
                self._fields.append(Field(form=form))
        elif kind == "separate" and self._fields:
            self._fields[-1].in_result = True
        elif kind == "end" and self._fields:
            frame = self._fields.pop()
            if not frame.in_result:
                self._without_result(frame, element)

    def _without_result(self, frame: Field, element: Any) -> None:
        button = _FIELD_BUTTON.match(frame.code)
        if frame.form:
            self._add(frame.form, element)
        elif button:
            self._add(button[1].strip(), element)
        elif _AUTOMATIC.match(frame.code):
            self._out.says.append("A number that a field counts here is not read.")

    def instruction(self, element: Any) -> None:
        if self._fields and not self._fields[-1].in_result:
            self._fields[-1].code += (element.text or "")[:2000]

    def alternative(self, element: Any) -> None:
        for branch in alternatives(element):
            self._inline(branch)

    def drawing(self, element: Any) -> None:
        waiting = list(element)[::-1]
        while waiting:
            found = waiting.pop()
            if found.tag == _BOX:
                self._out.boxes.append(found)
            elif found.tag == f"{{{MARKUP}}}AlternateContent":
                waiting.extend(alternatives(found))
            else:
                name = found.tag.rpartition("}")[2]
                if name in ("blip", "imagedata"):
                    self.tally.pictures += 1
                elif name in ("OLEObject", "chart", "relIds"):
                    self.tally.objects += 1
                elif name == "textpath" and found.get("string"):
                    self.tally.art.append(found.get("string")[:80])
                waiting.extend(list(found)[::-1])

    def footnote(self, element: Any) -> None:
        kind = "endnotes" if element.tag.endswith("endnoteReference") else "footnotes"
        self._out.footnotes.append((kind, element.get(f"{{{W}}}id", "")))

    def comment(self, element: Any) -> None:
        name = element.get(f"{{{W}}}id", "")
        if name not in self._out.comments:
            self._out.comments.append(name)


def alternatives(element: Any) -> Iterator[Any]:
    """The branch of an alternative that a present word processor shows: the first choice."""
    choice = element.find(f"{{{MARKUP}}}Choice")
    branch = element.find(f"{{{MARKUP}}}Fallback") if choice is None else choice
    if branch is not None:
        yield branch


def _form_value(data: Any) -> str:
    """What an old form field shows where no result is stored: its choice or its box."""
    choices = data.find(f"{{{W}}}ddList")
    if choices is not None:
        entries = [entry.get(_VAL, "") for entry in choices.iterchildren(f"{{{W}}}listEntry")]
        chosen = choices.find(f"{{{W}}}result")
        index = (0 if chosen is None else whole(chosen.get(_VAL))) or 0
        return entries[index] if 0 <= index < len(entries) else ""
    box = data.find(f"{{{W}}}checkBox")
    if box is not None:
        state = box.find(f"{{{W}}}checked")
        state = box.find(f"{{{W}}}default") if state is None else state
        return "\u2612" if state is not None and is_on(state) else "\u2610"
    return ""


_HANDLERS: dict[str, Callable[[TextReader, Any], None]] = {
    f"{{{W}}}r": TextReader.run,
    f"{{{W}}}t": TextReader.text,
    f"{{{M}}}t": TextReader.text,
    f"{{{W}}}tab": TextReader.tab,
    f"{{{W}}}ptab": TextReader.tab,
    f"{{{W}}}br": TextReader.line_break,
    f"{{{W}}}cr": TextReader.line_break,
    f"{{{W}}}noBreakHyphen": TextReader.hyphen,
    f"{{{W}}}sym": TextReader.symbol,
    f"{{{W}}}ins": TextReader.inserted,
    f"{{{W}}}del": TextReader.deleted,
    f"{{{W}}}moveFrom": TextReader.deleted,
    f"{{{W}}}moveTo": TextReader.moved_here,
    f"{{{W}}}sdt": TextReader.control,
    f"{{{W}}}fldSimple": TextReader.simple_field,
    f"{{{W}}}fldChar": TextReader.field_mark,
    f"{{{W}}}instrText": TextReader.instruction,
    f"{{{MARKUP}}}AlternateContent": TextReader.alternative,
    f"{{{W}}}drawing": TextReader.drawing,
    f"{{{W}}}pict": TextReader.drawing,
    f"{{{W}}}object": TextReader.drawing,
    f"{{{W}}}footnoteReference": TextReader.footnote,
    f"{{{W}}}endnoteReference": TextReader.footnote,
    f"{{{W}}}commentReference": TextReader.comment,
    f"{{{W}}}commentRangeStart": TextReader.comment,
}
_SKIPPED = frozenset(
    f"{{{W}}}{name}"
    for name in ("pPr", "rPr", "sdtPr", "sdtEndPr", "fldData", "rt", "rubyPr", "smartTagPr",
                 "customXmlPr", "delText", "delInstrText")
)  # fmt: skip

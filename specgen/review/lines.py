"""What a reader of a file hands on: its lines in order, with what their look says of them."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Line:
    """One paragraph, row or running head as its file holds it, before its place is known.

    ``text`` is all that is read in it, a typed number included; ``number`` the one that a word
    processor sets before it. ``list`` and ``depth`` name the automatic list and its level from 0
    (-1: in none). ``outline`` is the heading level from 0 (-1: no heading), ``indent`` how far its
    text stands from the margin (twips in a DOCX, columns in a text; None where that says nothing),
    ``style`` the style's name in lower case. ``kind`` is ``body``, ``row``, ``page`` (running head
    or foot, table of contents) or ``aside`` (text box, footnote). ``columns`` whether its tabs part
    the cells of a table. ``notes`` are sentences on how it was read.
    """

    text: str
    origin: tuple[str, tuple[int, ...]]
    number: str = ""
    list: str = ""
    depth: int = -1
    outline: int = -1
    indent: int | None = None
    style: str = ""
    bold: bool = False
    capitals: bool = False
    hidden: bool = False
    kind: str = "body"
    columns: bool = False
    notes: tuple[str, ...] = ()


@dataclass(slots=True)
class Reading:
    """The lines of a file, and what is to be said of the file as a whole."""

    lines: list[Line] = field(default_factory=list)
    says: list[str] = field(default_factory=list)

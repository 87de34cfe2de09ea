"""A document as a reader sees it: its blocks in order, each with its number, place and text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property


@dataclass(frozen=True, slots=True)
class Block:
    """One paragraph of a document, or one row of a table.

    ``index`` is its position among the blocks; ``kind`` one of ``title`` (section number, title,
    END OF SECTION), ``part``, ``article``, ``paragraph``, ``row`` (a table's row, its cells joined
    by tabs), ``page`` (running head or foot, table of contents, a project's name above the number)
    and ``loose`` (kept, though no place was found for it); ``number`` the number that a reader sees
    before it (``A.``, ``2.03``), empty for none;
    ``place`` the number that a reader would cite (``2.3.A.1``), empty where there is none;
    ``level`` 1 to 6 for a paragraph, 0 for all else; ``part`` 1 to 3, 0 before the first;
    ``article`` the title of the article it stands in; ``text`` what is read after the number, with
    tracked changes accepted; ``hidden`` whether the text is formatted as hidden; ``origin`` where
    its file holds it: for a DOCX the package part and the position of the ``w:p`` elements (of a
    row: all of its cells) among all of that part, for a text the line numbers from 1.
    """

    index: int
    kind: str
    text: str
    number: str = ""
    place: str = ""
    level: int = 0
    part: int = 0
    article: str = ""
    hidden: bool = False
    origin: tuple[str, tuple[int, ...]] = ("", ())


@dataclass(frozen=True, slots=True)
class Note:
    """What a reader of the outline must know: tracked changes, hidden text, what found no place.

    ``says`` is a sentence; ``block`` the block it is about, or None for the whole document.
    """

    says: str
    block: int | None = None


@dataclass(frozen=True)
class Outline:
    """A document read: ``name`` of the file, the section's ``number`` and ``title`` (empty where
    none was found), its ``blocks`` in reading order, and ``notes`` on how it was read."""

    name: str
    number: str
    title: str
    blocks: tuple[Block, ...]
    notes: tuple[Note, ...] = ()

    def said(self) -> Iterator[Block]:
        """The blocks that require something: paragraphs, rows and what found no place."""
        return (block for block in self.blocks if block.kind in ("paragraph", "row", "loose"))

    @cached_property
    def by_article(self) -> dict[tuple[int, str], tuple[Block, ...]]:
        """The blocks of each article, by part and title."""
        found: dict[tuple[int, str], list[Block]] = {}
        for block in self.said():
            found.setdefault((block.part, block.article), []).append(block)
        return {key: tuple(blocks) for key, blocks in found.items()}

"""A Markdown text as its lines: headings, lists with the numbers they show, tables, plain words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from specgen.review.cleaning import clean
from specgen.review.lines import Line, Reading
from specgen.review.text_reading import words_of
from specgen.review.wrapping import paragraphs_of, typed_lines

DEEPEST_NESTING = 20
# Beyond this a paragraph is taken as it stands, since its marks cost more with every one before.
LONGEST_MARKED = 8_000
_TAG = re.compile(r"<[^<>]{0,2000}>")
_COMMENT = re.compile(r"<!--(.*?)(?:-->|\Z)", re.DOTALL)
_BREAKS = ("softbreak", "hardbreak")


def read_markdown(text: str) -> Reading:
    """The lines of a Markdown text, which the reader of a page made of it sees."""
    from markdown_it import MarkdownIt

    parser = MarkdownIt("commonmark", {"maxNesting": DEEPEST_NESTING}).enable("table")
    # Marks inside paragraphs are read one paragraph at a time, so that each stays bounded.
    tokens = MarkdownIt("commonmark", {"maxNesting": DEEPEST_NESTING}).enable("table")
    tokens.core.ruler.disable("inline")
    return _Reader(parser, words_of([text])).read(tokens.parse(text))


class _Reader:
    """Turns the parser's tokens into lines."""

    def __init__(self, parser: Any, words: frozenset[str]) -> None:
        self._parser = parser
        self._words = words
        self._lists: list[str] = []
        self._counts: list[int] = []
        self._made = 0
        self._number = ""
        self._cells: list[str] | None = None

    def read(self, tokens: list[Any]) -> Reading:
        reading = Reading()
        heading = -1
        for token in tokens:
            kind = token.type
            if kind == "heading_open":
                heading = int(token.tag[1:]) - 1
            elif kind == "heading_close":
                heading = -1
            elif kind in ("ordered_list_open", "bullet_list_open"):
                self._made += 1
                self._lists.append(f"list {self._made}")
                self._counts.append(int(token.attrGet("start") or 1))
            elif kind in ("ordered_list_close", "bullet_list_close"):
                self._lists.pop()
                self._counts.pop()
                self._number = ""
            elif kind == "list_item_open":
                # A page counts on from the first number, whatever the others say.
                self._number = f"{self._counts[-1]}{token.markup}" if token.info else "•"
                self._counts[-1] += 1
            elif kind == "tr_open":
                self._cells = []
            elif kind == "tr_close":
                reading.lines.append(_row(self._cells or [], token, reading.lines))
                self._cells = None
            else:
                reading.lines.extend(self._text(token, heading))
        return reading

    def _text(self, token: Any, heading: int) -> Iterator[Line]:
        origin = _origin(token)
        if token.type == "inline":
            text, bold = self._plain(token.content)
            if self._cells is not None:
                self._cells.append(clean(text))
            elif text.strip() or self._number:
                yield self._line(text, bold or heading >= 0, heading, origin)
        elif token.type in ("code_block", "fence"):
            first = origin[1][0] if origin[1] else 1
            first += token.type == "fence"
            for line in paragraphs_of(typed_lines(token.content), hyphens=self._words):
                places = tuple(first - 1 + place for place in line.origin[1])
                yield replace(line, origin=("", places), indent=(line.indent or 0) + 4)
        elif token.type == "html_block":
            yield from _markup(token.content, origin)

    def _line(
        self, text: str, bold: bool, heading: int, origin: tuple[str, tuple[int, ...]]
    ) -> Line:
        number, self._number = self._number, ""
        return Line(
            text=text,
            origin=origin,
            number=number,
            list=self._lists[-1] if number and self._lists else "",
            depth=len(self._lists) - 1 if number else -1,
            outline=heading,
            # A paragraph broken by hand hides how far its later lines stand from the margin.
            indent=None if self._lists or "\n" in text else 0,
            bold=bold,
        )

    def _plain(self, content: str) -> tuple[str, bool]:
        """The words of a paragraph, and whether all of them are bold."""
        if len(content) > LONGEST_MARKED:
            return content, False
        pieces: list[str] = []
        strong, light = 0, False
        for child in self._parser.parseInline(content)[0].children or ():
            if child.type in _BREAKS:
                pieces.append("\n")
            elif child.type == "strong_open":
                strong += 1
            elif child.type == "strong_close":
                strong -= 1
            elif child.type == "html_inline":
                pieces.append(" " if child.content.lower().startswith("<br") else "")
            elif child.content:
                pieces.append(child.content)
                light = light or (not strong and not child.content.isspace())
        return "".join(pieces), bool(pieces) and not light


def _row(cells: list[str], token: Any, before: list[Line]) -> Line:
    origin = _origin(token)
    if not origin[1] and before:
        origin = before[-1].origin
    return Line("\t".join(cells).rstrip("\t"), origin, kind="row")


def _origin(token: Any) -> tuple[str, tuple[int, ...]]:
    return ("", tuple(range(token.map[0] + 1, token.map[1] + 1)) if token.map else ())


def _markup(content: str, origin: tuple[str, tuple[int, ...]]) -> Iterator[Line]:
    """The words of a piece of HTML; its comments are hidden text."""
    for words in _COMMENT.findall(content):
        if words.strip():
            note = "This is a comment of the text's markup; a page made of it does not show it."
            yield Line(clean(words), origin, hidden=True, notes=(note,))
    shown = clean(_TAG.sub(" ", _COMMENT.sub(" ", content)))
    if shown:
        yield Line(shown, origin)

"""The sources of the documents: their lines, and the numbers that each layout gives them.

A text is written with ``#`` for a part, ``##`` for an article, ``-`` for a paragraph (two spaces
deeper for each level) and ``| a | b |`` for a row of a table. ``@`` before a designation stands for
it and its title. ``{art:TITLE}`` is the number of an article; ``{#D.}`` before a text is a number
typed by hand. ``{+in+}`` and ``{-out-}`` are tracked changes, ``{~hidden~}``, ``{=marked=}`` and
``{>a comment<}`` what they say.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from specgen.loading import load_library
from specgen.yamlread import Mapping, Sequence, read_yaml

HERE = Path(__file__).resolve().parent
CLEAN = sorted((HERE / "clean").glob("*.yaml"))
FLAWED = sorted((HERE / "flawed").glob("*.yaml"))
# Layouts that number articles 1.01 and not 1.1.
TWO_DIGITS = frozenset({"typed", "typed-plain", "terse", "typed-office", "sheets"})
_BY_HAND = re.compile(r"\{#([^}]*)\}\s*")
_ARTICLE = re.compile(r"\{art:([^}]*)\}")
_STANDARD = re.compile(r"@ (.+)")
_PIECE = re.compile(r"\{(?P<mark>[+\-~=>])(?P<inside>.*?)(?:[+\-~=<])\}")
PIECES = {"+": "inserted", "-": "deleted", "~": "hidden", "=": "marked", ">": "comment"}


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a document: ``kind`` as in an outline; ``number`` as a reader sees it and
    ``place`` as he cites it, of an unnumbered row that of what stands above it; ``cells`` where it
    stands in a table."""

    kind: str
    text: str
    level: int = 0
    cells: tuple[str, ...] = ()
    number: str = ""
    place: str = ""
    article: str = ""


@dataclass(frozen=True, slots=True)
class Source:
    """A document's source; ``answers`` is the brief that its text comes to."""

    name: str
    style: str
    file: str
    running: tuple[str, ...]
    number: str
    title: str
    answers: object
    lines: tuple[Line, ...]


@cache
def read_source(path: Path) -> Source:
    """The source at ``path``, with its lines numbered."""
    content = read_yaml(path)
    assert isinstance(content, Mapping)
    fields = content
    running = fields["running"]
    assert isinstance(running, Sequence)
    style = str(fields["style"])
    return Source(
        name=path.stem,
        style=style,
        file=str(fields.get("file", path.stem)),
        running=tuple(str(item) for item in running),
        number=str(fields["number"]),
        title=str(fields["title"]),
        answers=fields.get("answers"),
        lines=_with_articles(tuple(_numbered(_lines(str(fields["text"])), style))),
    )


def brief_of(path: Path) -> str:
    """The answers of the source at ``path`` as the text of a brief."""
    text = path.read_text(encoding="utf-8")
    answers = text[text.index("\nanswers:\n") + 10 : text.index("\ntext: |")]
    return re.sub(r"^  ", "", answers, flags=re.M) + "\n"


def pieces(text: str) -> Iterator[tuple[str, str]]:
    """The pieces of a text, each with what it is: ``plain``, or a value of PIECES."""
    at = 0
    for found in _PIECE.finditer(text):
        if found.start() > at:
            yield "plain", text[at : found.start()]
        yield PIECES[found["mark"]], found["inside"]
        at = found.end()
    if at < len(text):
        yield "plain", text[at:]


def shown(text: str) -> str:
    """The text as read with every tracked change accepted, hidden words among it."""
    read = "".join(part for kind, part in pieces(text) if kind not in ("deleted", "comment"))
    return read.strip()


def _lines(text: str) -> Iterator[Line]:
    for raw in text.splitlines():
        bare = raw.strip()
        if bare.startswith("## "):
            yield Line("article", bare[3:])
        elif bare.startswith("# "):
            yield Line("part", bare[2:])
        elif bare.startswith("|"):
            yield Line("row", "", cells=tuple(_cells(bare)))
        elif bare.startswith("- "):
            yield Line("paragraph", _standard(bare[2:], ", "), level=1 + _indent(raw) // 2)


def _indent(raw: str) -> int:
    return len(raw) - len(raw.lstrip())


def _cells(row: str) -> list[str]:
    cells = [cell.strip() for cell in row.strip("|").split("|")]
    if cells[0].startswith("@ "):
        return _standard(cells[0], "|").split("|")
    return cells


def _standard(text: str, between: str) -> str:
    found = _STANDARD.fullmatch(text)
    if not found:
        return text
    return f"{found[1]}{between}{load_library().standards[found[1]].title}"


def _numbered(lines: Iterator[Line], style: str) -> Iterator[Line]:
    """The lines with the numbers that a layout gives them."""
    part = article = rows = 0
    counts = [0] * 7
    prefix = title = last = ""
    trail = [""] * 7
    for line in lines:
        by_hand, text = _by_hand(line.text)
        line = replace(line, text=text)
        if line.kind == "part":
            part, article = part + 1, 0
            yield replace(line, number=f"PART {part}", place=f"PART {part}")
        elif line.kind == "article":
            article, rows, counts, title = article + 1, 0, [0] * 7, text
            if by_hand:
                article = int(by_hand.split(".")[1])
            prefix = f"{part}.{article:02}" if style in TWO_DIGITS else f"{part}.{article}"
            last = prefix
            yield replace(line, number=prefix, place=prefix, article=title)
        elif line.kind == "row":
            rows += 1
            number = _row_number(style, prefix, rows)
            if not number:
                yield replace(line, place=last, article=title)
                continue
            last = number if style == "tables" else f"{prefix}.{number.strip('.')}"
            yield replace(line, kind="paragraph", level=1, number=number, place=last, article=title)
        else:
            counts[line.level] += 1
            counts[line.level + 1 :] = [0] * (6 - line.level)
            number = by_hand or _label(style, line.level, counts[line.level])
            trail[line.level] = number.strip(".")
            last = ".".join([prefix, *trail[1 : line.level + 1]])
            yield replace(line, number=number, place=last, article=title)


def _by_hand(text: str) -> tuple[str, str]:
    found = _BY_HAND.match(text)
    return (found[1], text[found.end() :]) if found else ("", text)


def _row_number(style: str, prefix: str, row: int) -> str:
    if style == "tables":
        return f"{prefix}.{row}"
    return f"{chr(64 + row)}." if style == "sheets" else ""


def _label(style: str, level: int, count: int) -> str:
    if style == "pointed":
        return f".{count}"
    return {1: f"{chr(64 + count)}.", 2: f"{count}."}.get(level, f"{chr(96 + count)}.")


def _with_articles(lines: tuple[Line, ...]) -> tuple[Line, ...]:
    numbers = {line.text: line.number for line in lines if line.kind == "article"}

    def filled(text: str) -> str:
        return _ARTICLE.sub(lambda found: numbers[found[1]], text)

    return tuple(
        replace(line, text=filled(line.text), cells=tuple(filled(cell) for cell in line.cells))
        for line in lines
    )

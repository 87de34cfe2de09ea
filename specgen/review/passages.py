"""A document cut into the passages that are understood one by one: sentences in their places."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from specgen.review.outline import Block, Outline

LONGEST_PASSAGE = 800
LONGEST_ABOVE = 160

# One character for one, so that a place in the text stays what it is.
_PLAIN = str.maketrans(
    {
        "\u00a0": " ", "\u2002": " ", "\u2003": " ", "\u2009": " ", "\u202f": " ",
        "\u2010": "-", "\u2011": "-", "\u2012": "-", "\u2013": "-", "\u2014": "-", "\u2212": "-",
        "\u2018": "'", "\u2019": "'", "\u201c": '"', "\u201d": '"', "\u2032": "'", "\u2033": '"',
        "\u00d7": "x", "\u2044": "/", "\n": " ", "\r": " ", "\v": " ", "\t": "|",
    }
)  # fmt: skip
_END = re.compile(
    r"(?<=[.;?!])(?<!\b[A-Z]\.)(?<!\bNo\.)(?<!\bin\.)(?<!\bft\.)(?<!\bga\.)(?<!\boz\.)"
    r"(?<!\bsq\.)(?<!\bmin\.)(?<!\bmax\.)(?<!o\.c\.)\s+|;\s*"
)
# A question requires nothing, nor does what a writer left open.
_ASKED = re.compile(r"\?\s*$")
_OPEN = re.compile(r"\(?open decision", re.IGNORECASE)
_GAP = re.compile(r"\(open: [^()]{1,120}\)", re.IGNORECASE)
_LABEL = re.compile(r"[^:|]{1,60}(?=[:|])|[^.:|]{1,40}?(?= - )")
_PLACES = (
    ("references", re.compile(r"referenc|standards?\b|publications|codes cited", re.I)),
    ("definitions", re.compile(r"definitions?\b|terms\b|meanings", re.I)),
    ("submittals", re.compile(r"submit|closeout|quality control submittals", re.I)),
)
_RELATED = re.compile(
    r"related|(?:work|items?|products?) (?:of|in|by|under|specified|furnished|provided)"
    r"[a-z ]{0,30} (?:other|elsewhere|others)|specified (?:elsewhere|in other)|elsewhere"
    r"|(?:see|refer to) (?:also )?(?:section|division)",
    re.IGNORECASE,
)
_SECTION = re.compile(r"(?:section|division) \d{2}[ \d.]{0,12}", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Passage:
    """A sentence of a block, from ``start`` in the block's text, its characters made plain.

    ``label`` is what stands before the colon that opens the block; ``above`` what it stands under,
    the nearest first, with the beginning of its block where it does not stand there itself, and
    the title of the article last; ``place`` one of PLACES where nothing is
    required, else empty.
    """

    block: int
    start: int
    text: str
    label: str
    above: tuple[str, ...]
    place: str


def plain(text: str) -> str:
    """A text with the characters of typesetting made plain and what is left open blanked, none
    added and none taken away."""
    return _GAP.sub(lambda gap: " " * len(gap[0]), text.translate(_PLAIN))


def passages_of(outline: Outline) -> Iterator[Passage]:
    """The passages of a document, in reading order."""
    open_blocks: list[tuple[int, str]] = []
    article = ""
    for block in outline.blocks:
        if block.kind in ("part", "article", "title", "page"):
            open_blocks = []
            article = block.article or block.text
            continue
        text = plain(block.text)
        if block.hidden or _OPEN.match(text):
            continue
        level = block.level or (open_blocks[-1][0] + 1 if open_blocks else 1)
        if block.kind == "paragraph":
            while open_blocks and open_blocks[-1][0] >= level:
                open_blocks.pop()
        above = tuple(each for _, each in reversed(open_blocks))
        title = block.article or article
        place = _place_of(text, above, title)
        yield from _sentences(block, text, (*above, title), place)
        if block.kind == "paragraph":
            open_blocks.append((level, text[:LONGEST_ABOVE]))


def _sentences(block: Block, text: str, above: tuple[str, ...], place: str) -> Iterator[Passage]:
    found = _LABEL.match(text)
    label = found[0] if found else ""
    start = 0
    bounds = [match.end() for match in _END.finditer(text)] if len(text) > 40 else []
    for end in (*bounds, len(text)):
        for begin in range(start, end, LONGEST_PASSAGE):
            piece = text[begin : min(end, begin + LONGEST_PASSAGE)]
            if len(piece.strip()) > 2 and not _ASKED.search(piece):
                over = above if begin == 0 else (text[:LONGEST_ABOVE], *above)
                yield Passage(block.index, begin, piece, label, over, place)
        start = end


def _place_of(text: str, above: tuple[str, ...], title: str) -> str:
    if any(_RELATED.search(each[:80]) for each in (title, *above)):
        return "related"
    if _RELATED.match(text) or _SECTION.match(text):
        return "related"
    for name, pattern in _PLACES:
        if pattern.search(title):
            return name
    return ""

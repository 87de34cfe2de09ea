"""A document cut into the passages that are understood one by one: sentences in their places."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from specgen.patterns import spells_out
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
# Short words that end in a stop and no sentence, though a capital or a figure follows.
_SHORT = (
    "No", "in", "ft", "ga", "oz", "sq", "min", "max", "o.c", "exp", "Exp", "cat", "Cat", "occ",
    "Occ", "gr", "Gr", "cl", "Cl", "sec", "Sec", "sect", "Sect", "div", "Div", "temp", "Temp",
    "approx", "nom", "Nom", "galv", "Galv", "elev", "Elev", "ht", "Ht",
)  # fmt: skip
# No sentence opens with a small letter. An initial ends none, but a class, an exposure or a degree
# may: Class A, 240 degrees F.
_END = re.compile(
    r"[.?!](?<!\b[EG-Z]\.)"
    + "".join(rf"(?<!\b{re.escape(word)}\.)" for word in _SHORT)
    + r"\s+(?![a-z])|;\s*"
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
    ("alternates", re.compile(r"\balternat|substitution|unit prices|allowances", re.I)),
)
_ALTERNATE = re.compile(
    r"(?:(?:add|deduct)(?:itive|ive)? )?(?:bid )?(?:alternate|alternative|option)\b(?! to\b)", re.I
)
_RELATED = re.compile(
    r"related|(?:work|items?|products?) (?:of|in|by|under|specified|furnished|provided)"
    r"[a-z ]{0,30} (?:other|elsewhere|others)|specified (?:elsewhere|in other)|elsewhere"
    r"|(?:see|refer to) (?:also )?(?:section|division)",
    re.IGNORECASE,
)
_SECTION = re.compile(
    r"(?:section |division )?\d{2} ?\d{2} ?\d{2}\b|(?:section|division) \d", re.IGNORECASE
)
# A sentence that hands what it names to another section.
_HANDED = re.compile(
    r"[^.:|]{2,60}: (?:see )?section \d"
    r"|.{2,80}\b(?:is|are)\b[^.;]{0,40}\b(?:in|under|by) section \d",
    re.IGNORECASE,
)
# Parts of the building that are no roof, or another one.
_OTHER_PART = re.compile(
    r"(?:(?:all|the|an?|metal|wall|interior|exterior|zinc|steel|copper|alumin\w{2,3}) ){0,2}"
    r"(?:walls?|soffits?|siding|fa[c\u00e7]ades?|cladding|porch(?:es)?|canop(?:y|ies)|flat roofs?)"
    r"\b",
    re.IGNORECASE,
)
_ROOF = re.compile(r"\broof", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Passage:
    """A sentence of a block, from ``start`` in the block's text, its characters made plain.

    ``label`` is what stands before the colon that opens the sentence, else the block, ``head``
    before that of the block; ``above`` what it stands under, the nearest first, with the beginning
    of its block where it does not stand there itself, and the title of the article last; ``place``
    one of PLACES where nothing is required, else empty; ``spelled`` whether an amount in it is
    written in words.
    """

    block: int
    start: int
    text: str
    label: str
    head: str
    above: tuple[str, ...]
    place: str
    spelled: bool


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
            if block.kind == "title" and not block.hidden:
                yield Passage(block.index, 0, plain(block.text), "", "", (), "title", False)
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
        place = _place_of(above, title)
        yield from _sentences(block, text, (*above, title), place)
        if block.kind == "paragraph":
            open_blocks.append((level, text[:LONGEST_ABOVE]))


def _sentences(block: Block, text: str, above: tuple[str, ...], place: str) -> Iterator[Passage]:
    found = _LABEL.match(text)
    label = found[0] if found else ""
    start = 0
    bounds = [match.end() for match in _END.finditer(text)] if len(text) > 24 else []
    for end in (*bounds, len(text)):
        for begin in range(start, end, LONGEST_PASSAGE):
            piece = text[begin : min(end, begin + LONGEST_PASSAGE)]
            if len(piece.strip()) > 2 and not _ASKED.search(piece):
                over = above if begin == 0 else (text[:LONGEST_ABOVE], *above)
                there = place or _place_of_sentence(piece)
                own = _LABEL.match(piece) if begin else None
                named = own[0] if own else label
                spelled = spells_out(piece)
                yield Passage(block.index, begin, piece, named, label, over, there, spelled)
        start = end


def _place_of(above: tuple[str, ...], title: str) -> str:
    if any(_RELATED.search(each[:80]) for each in (title, *above)):
        return "related"
    if _OTHER_PART.match(title) and not _ROOF.search(title):
        return "related"
    if any(_ALTERNATE.match(each) for each in above):
        return "alternates"
    for name, pattern in _PLACES:
        if pattern.search(title):
            return name
    return ""


def _place_of_sentence(text: str) -> str:
    text = text.lstrip()
    if any(each.match(text) for each in (_RELATED, _SECTION, _HANDED)):
        return "related"
    if _OTHER_PART.match(text) and not _ROOF.search(text[:60]):
        return "related"
    return "alternates" if _ALTERNATE.match(text) else ""

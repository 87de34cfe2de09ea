"""References that lead nowhere, and numbers that skip or stand twice."""

from __future__ import annotations

import re
from collections.abc import Iterator

from specgen.review.kinds import found_of
from specgen.review.outline import Block, Outline
from specgen.review.shapes import Found

_PATH = r"\d{1,2}\.\d{1,2}(?:[.\s]?[A-Z]{1,2}(?![a-z])(?:[.\s]?\d{1,2}(?:[.\s]?[a-z](?![a-z]))?)?)?"
_REFERENCE = re.compile(
    rf"\b(?i:Articles?|Paragraphs?|Sub-?paragraphs?|Clauses?|Sections?)\s(?P<first>{_PATH})"
    rf"(?P<more>(?:\s?(?:,|and|or|to|through|&|–|-)\s?(?:"
    rf"(?:Articles?|Paragraphs?)\s)?{_PATH}){{0,6}})"
)
# Another document's articles: the building code's, a standard's, the contract's.
_ELSEWHERE = re.compile(
    r"^[\s,]{0,2}(?:of|in)\s(?!this\b|part\b)"
    r"|^\s?(?:IBC|IRC|of the (?:code|general))",
    re.IGNORECASE,
)
_ELSEWHERE_BEFORE = re.compile(
    r"(?:IBC|IRC|IECC|FBC|Code|ASTM \S+|UL \d+|ASCE(?:/SEI)? \S+|Conditions|NFPA \d+|Division"
    r" \d+)[,\s]{1,3}"
    r"(?:Chapter \d+,?\s)?$"
)


def references_found(outline: Outline) -> Iterator[Found]:
    """References to articles and paragraphs that the document does not have."""
    places = {_shape(block.place) for block in outline.blocks if block.place}
    articles = {place[:2] for place in places}
    if len(articles) < 4:
        return  # too little was numbered to say that a number is wrong
    for block in outline.blocks:
        if block.kind in ("article", "part", "page") or block.hidden:
            continue
        told: set[tuple[str, ...]] = set()
        for start, end in _references(block):
            shape = _shape(block.text[start:end])
            if shape in told or shape in places or _is_near(shape, places, articles):
                continue
            told.add(shape)
            says = f"It refers to {block.text[start:end].strip()}, which is not there."
            yield found_of("reference-broken", says, block, start, end)


def _references(block: Block) -> Iterator[tuple[int, int]]:
    """The numbers that a block refers to in this document, as bounds in its text."""
    for match in _REFERENCE.finditer(block.text):
        before, after = block.text[: match.start()], block.text[match.end() :]
        if _ELSEWHERE.match(after) or _ELSEWHERE_BEFORE.search(before):
            continue
        for number in re.finditer(_PATH, match[0]):
            yield match.start() + number.start(), match.start() + number.end()


def _shape(place: str) -> tuple[str, ...]:
    """A number as its pieces, leading zeros dropped: 2.03.A gives 2, 3, A."""
    pieces = re.findall(r"\d+|[A-Za-z]+", place)
    return tuple(str(int(piece)) if piece.isdigit() else piece for piece in pieces)


def _is_near(
    shape: tuple[str, ...], places: set[tuple[str, ...]], articles: set[tuple[str, ...]]
) -> bool:
    """Whether a number's article is there and numbers nothing that could be told apart."""
    if shape[:2] not in articles:
        return False
    if len(shape) <= 2:
        return True
    # An article whose paragraphs carry no letters cannot be held to one.
    return not any(place[:2] == shape[:2] and len(place) > 2 for place in places)


def numbers_found(outline: Outline) -> Iterator[Found]:
    """Numbers that skip or stand twice among neighbors, in what was numbered by hand or by rule."""
    last: dict[tuple[str, ...], tuple[int, Block]] = {}
    seen: dict[tuple[str, ...], Block] = {}
    for block in outline.blocks:
        if block.kind not in ("article", "paragraph") or not block.place or not block.number:
            continue
        shape = _shape(block.place)
        count = _count(shape[-1])
        if count == 0 or len(shape) < 2:
            continue
        above = shape[:-1]
        known = last.get(above)
        last[above] = (count, block)
        if shape in seen:
            says = f"The number {block.place} stands twice."
            yield found_of("number-repeated", says, block)
        elif known is not None and count > known[0] + 1:
            says = f"The numbers go from {known[1].place} to {block.place}."
            yield found_of("number-skipped", says, block)
        elif known is None and count == 2:
            says = f"The numbers begin with {block.place}."
            yield found_of("number-skipped", says, block)
        seen.setdefault(shape, block)


def _count(piece: str) -> int:
    """Where a number stands in its row, from 1; 0 for what cannot be told."""
    if piece.isdigit():
        return int(piece)
    if len(piece) == 1:
        return ord(piece.lower()) - ord("a") + 1
    if len(set(piece)) == 1:  # aa follows z
        return 26 * (len(piece) - 1) + ord(piece[0].lower()) - ord("a") + 1
    return 0

"""Finding one's way in an outline: what stands below a paragraph, and what an article is for."""

from __future__ import annotations

import re
from collections.abc import Iterator

from specgen.review.outline import Block, Outline

_REFERENCES = re.compile(
    r"\breference(?:s|d)?\b|\bstandards\b|\bcodes\b|\bpublications\b", re.IGNORECASE
)
_SUBMITTALS = re.compile(r"\bsubmittals?\b|\bsubmissions?\b", re.IGNORECASE)
_RELATED = re.compile(
    r"\brelated (?:work|sections?|requirements)|\bother sections\b", re.IGNORECASE
)


def family(outline: Outline, block: Block) -> Iterator[Block]:
    """A paragraph and all that stands below it: deeper levels, and the rows of its tables."""
    yield block
    for below in outline.blocks[block.index + 1 :]:
        if below.kind == "page":
            continue
        if below.kind != "row" and (below.kind != "paragraph" or below.level <= block.level):
            return
        yield below


def parents(outline: Outline, block: Block) -> Iterator[Block]:
    """The paragraphs above a block that it stands under, the nearest first."""
    level = block.level if block.kind == "paragraph" else 99
    for above in reversed(outline.blocks[: block.index]):
        if above.kind in ("article", "part") or level <= 1:
            return
        if above.kind == "paragraph" and above.level < level:
            level = above.level
            yield above


def lists_standards(block: Block) -> bool:
    """Whether a block stands in the article that lists the standards cited."""
    return block.part <= 1 and _REFERENCES.search(block.article) is not None


def asks_for_submittals(block: Block) -> bool:
    """Whether a block stands in an article of submittals."""
    return _SUBMITTALS.search(block.article) is not None


def is_related_work(outline: Outline, block: Block) -> bool:
    """Whether a block names work that other sections specify."""
    if _RELATED.search(block.article):
        return True
    return any(_RELATED.search(each.text) for each in (block, *parents(outline, block)))


def has_parts(outline: Outline) -> bool:
    """Whether the products and the execution of a section were found."""
    there = {block.part for block in outline.said()}
    return {2, 3} <= there

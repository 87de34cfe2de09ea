"""A document as ground for planting faults: its blocks, answers and standards, and edits of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from specgen.engine import Engine
from specgen.library import Library
from specgen.review.designations import Named
from specgen.review.navigating import family, lists_standards
from specgen.review.outline import Block, Outline
from specgen.review.shapes import Edit, Statement, Understanding
from specgen.review.standards_named import named_standards

Site = TypeVar("Site")

# A kind of fault is planted at so many places of one document at most.
MOST_PLACES = 4


@dataclass(frozen=True)
class Ground:
    """A document to plant in."""

    outline: Outline
    understanding: Understanding
    library: Library

    @cached_property
    def engine(self) -> Engine:
        """The answers that the document states."""
        return Engine(self.library, self.understanding.answers)

    @cached_property
    def named(self) -> tuple[Named, ...]:
        """The standards that it names, in reading order."""
        return named_standards(self.outline, self.library)

    @cached_property
    def requiring(self) -> tuple[Block, ...]:
        """The blocks that require something, the list of standards left out."""
        return tuple(
            block
            for block in self.outline.said()
            if block.part and not block.hidden and not lists_standards(block)
        )

    def statements(self, question: str) -> list[Statement]:
        """The statements that give a question the answer which the document comes to."""
        answer = self.understanding.answers.get(question)
        return [
            each
            for each in self.understanding.statements
            if each.question == question and each.value is not None and each.value == answer
        ]

    def block(self, statement: Statement) -> Block:
        return self.outline.blocks[statement.at.block]

    def without(self, blocks: Sequence[Block]) -> tuple[Edit, ...]:
        """Edits that take blocks out with all below them, and an article that they leave empty."""
        gone = {below.index for block in blocks for below in family(self.outline, block)}
        for article in self.outline.blocks:
            if article.kind != "article":
                continue
            held = [
                each.index
                for each in self.outline.by_article.get((article.part, article.article), ())
            ]
            if held and gone.issuperset(held):
                gone.add(article.index)
        return tuple(Edit(index, None) for index in sorted(gone))


def swapped(block: Block, start: int, end: int, words: str) -> Edit:
    """An edit that puts other words in the place of some."""
    return Edit(block.index, block.text[:start] + words + block.text[end:])


def spread(sites: Sequence[Site], most: int = MOST_PLACES) -> Iterator[Site]:
    """A few of many sites, spread over the document."""
    step = max(1, -(-len(sites) // most))
    yield from sites[::step]


def varied(options: Sequence[str], index: int) -> str:
    """One of several wordings, by the place that it is for."""
    return options[index % len(options)]

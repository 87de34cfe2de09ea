"""A section of our own as an outline, so that what reads a stranger's document reads it too."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from specgen.review.outline import Block, Outline
from specgen.section import Article, Section, numbered


def outline_of_section(section: Section, name: str = "") -> Outline:
    """The outline that reading the section's document gives, without its running heads."""
    blocks = tuple(
        replace(block, index=index, origin=("section", (index,)))
        for index, block in enumerate(_blocks(section))
    )
    return Outline(name, section.number, section.title, blocks)


def _blocks(section: Section) -> Iterator[Block]:
    yield Block(0, "title", f"SECTION {section.number}")
    yield Block(0, "title", section.title)
    for part in section.parts:
        head = f"PART {part.number}"
        yield Block(0, "part", part.title, number=head, place=head, part=part.number)
        for article in part.articles:
            yield from _article(section, part.number, article)
    yield Block(0, "title", "END OF SECTION")


def _article(section: Section, part: int, article: Article) -> Iterator[Block]:
    within = Block(0, "article", article.title, part=part, article=article.title)
    yield replace(within, number=article.number, place=article.number)
    for paragraph, place in numbered(article):
        yield replace(
            within,
            kind="paragraph",
            text=section.plain(paragraph.spans),
            number=paragraph.label,
            place=place,
            level=paragraph.level,
        )
        for table in paragraph.tables:
            for cells in (table.head, *table.rows):
                yield replace(within, kind="row", text="\t".join(cells), place=place)

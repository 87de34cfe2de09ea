"""Small documents for the tests of review, read from typed text."""

from __future__ import annotations

from textwrap import dedent

from specgen.library import Library
from specgen.review.findings import review
from specgen.review.lines import Reading
from specgen.review.outline import Outline
from specgen.review.reading import read_bytes
from specgen.review.shapes import Found, Review
from specgen.review.structure import outline_of

HEAD = """
SECTION 07 41 13 - METAL ROOF PANELS

"""


def outline(text: str, name: str = "typed.txt") -> Outline:
    """The outline of a section typed as text, under its number and title."""
    reading: Reading = read_bytes((HEAD + dedent(text)).encode(), ".txt")
    return outline_of(reading, name)


def reviewed(text: str, library: Library) -> Review:
    """The review of a section typed as text."""
    return review(outline(text), library)


def ids(found: Review | tuple[Found, ...] | list[Found]) -> list[str]:
    """The ids of findings, in their order."""
    each = found.found if isinstance(found, Review) else found
    return [one.finding.id for one in each]


def words(document: Outline, found: Found) -> str:
    """The words of a document that a finding is on."""
    assert found.at is not None
    text = document.blocks[found.at.block].text
    return text[found.at.start : found.at.end] if found.at.end > found.at.start else text

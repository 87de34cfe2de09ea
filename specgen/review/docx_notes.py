"""What is to be said of a DOCX as a whole: changes, pictures, what is not read or not fetched."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from specgen.review.docx_package import Package, Relationship
from specgen.review.docx_text import Tally

# Ties whose text stands in another file of the package, and what that file holds.
_NOT_READ = {
    "aFChunk": "an inserted file",
    "subDocument": "a subdocument",
    "diagramData": "a diagram",
    "chart": "a chart",
    "package": "an embedded file",
    "oleObject": "an embedded object",
}


def says_of(package: Package, ties: Mapping[str, Relationship], tally: Tally) -> Iterator[str]:
    """Sentences on how the document was read."""
    if tally.inserted or tally.deleted or tally.moved:
        yield (
            "The document carries tracked changes "
            f"({_counted(tally.inserted, 'insertion')}, {_counted(tally.deleted, 'deletion')}); "
            "it is read as if all were accepted."
        )
    kinds = [_NOT_READ[tie.kind] for tie in ties.values() if tie.kind in _NOT_READ]
    for kind in dict.fromkeys(kinds):
        yield f"The document holds {kind}, whose text is not read."
    if tally.pictures:
        yield f"Pictures are not read; the document shows {tally.pictures}."
    for words in dict.fromkeys(tally.art):
        yield f'Word art reads "{words}".'
    if any(name.endswith("vbaproject.bin") for name in package.names):
        yield "The document carries macros; they are neither run nor read."
    outside = [tie for tie in ties.values() if tie.external and tie.kind != "hyperlink"]
    if outside:
        yield "The document points to files outside itself; none of them is fetched."


def _counted(count: int, what: str) -> str:
    return f"{count} {what}" + ("" if count == 1 else "s")

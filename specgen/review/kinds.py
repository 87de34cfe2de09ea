"""The findings that review gives of a document beside the library's checks, in one table."""

from __future__ import annotations

from dataclasses import dataclass

from specgen.checks import Finding
from specgen.review.needs import NEEDS
from specgen.review.outline import Block
from specgen.review.shapes import Anchor, Found


@dataclass(frozen=True, slots=True)
class FoundKind:
    """A kind of finding: its gravity, why it is one, on what authority, and what to do."""

    id: str
    kind: str
    because: str
    source: str
    do: str


_OF_THE_DOCUMENT = (
    FoundKind(
        "standard-withdrawn",
        "ambiguity",
        "Nobody tests or certifies to a withdrawn standard, so nobody can show that it is met.",
        "the register of standards",
        "Cite what took its place, and read its requirement again: classes may have new names.",
    ),
    FoundKind(
        "standard-superseded",
        "ambiguity",
        "Two editions give two answers, and the later one is the one that is printed and taught.",
        "the register of standards",
        "Cite what took its place, in the edition that the building code adopts.",
    ),
    FoundKind(
        "standard-mistitled",
        "ambiguity",
        "A number with another standard's title leaves open which of the two is meant.",
        "the register of standards",
        "Decide which standard is meant, and give its number with its own title.",
    ),
    FoundKind(
        "standard-not-for-roofs",
        "ambiguity",
        "A method written for windows and walls mounts another specimen than a roof, and its report"
        " says nothing of the panel's seams as they lie.",
        "the scopes that the methods' titles state",
        "Name the method for metal roof panels, with its own pressure and criterion.",
    ),
    FoundKind(
        "standard-not-listed",
        "caution",
        "A reader of the list misses it, and where the list fixes the editions it has none.",
        "common practice",
        "Add it to the list, or take the citation out.",
    ),
    FoundKind(
        "standard-not-cited",
        "caution",
        "A listed standard that no paragraph uses requires nothing, or tells of a paragraph that"
        " was lost.",
        "common practice",
        "Take it off the list, or restore the paragraph that used it.",
    ),
    FoundKind(
        "choice-left",
        "ambiguity",
        "A choice that the writer did not make is made by the lowest bidder.",
        "common practice",
        "Choose one, and take the brackets out.",
    ),
    FoundKind(
        "blank-left",
        "ambiguity",
        "What is left blank is priced as nothing and built as anything.",
        "common practice",
        "Fill it in, or take the requirement out.",
    ),
    FoundKind(
        "undecided-left",
        "ambiguity",
        "A decision put off in writing is priced differently by each bidder.",
        "common practice",
        "Decide it before the section is issued, or say who decides it and by when.",
    ),
    FoundKind(
        "writers-note-left",
        "ambiguity",
        "A note to the writer is read by the bidder as a requirement, or as one that may fall.",
        "common practice",
        "Do what the note says, and take it out.",
    ),
    FoundKind(
        "other-project-named",
        "ambiguity",
        "Another project's name shows that the text was carried over, with whatever else was right"
        " for that project alone.",
        "common practice",
        "Put this project's name, and read the requirements around it again.",
    ),
    FoundKind(
        "other-section-headed",
        "ambiguity",
        "Pages headed with another number are filed, priced and answered under that number.",
        "common practice",
        "Correct the head or foot of the pages.",
    ),
    FoundKind(
        "product-without-installation",
        "omission",
        "A product that Part 3 does not set is delivered, and then built in by guess.",
        "common practice",
        "Say in Part 3 how it is installed, or take the product out.",
    ),
    FoundKind(
        "installation-without-product",
        "omission",
        "What Part 2 does not describe may be anything that can be installed so.",
        "common practice",
        "Describe it in Part 2, or say by which other section it is furnished.",
    ),
    FoundKind(
        "test-without-criterion",
        "omission",
        "A method without a pressure, a rate or a class can be run by anybody, failed by nobody.",
        "common practice",
        "State with the method the pressure and the result that pass.",
    ),
    FoundKind(
        "vague-words",
        "ambiguity",
        "Words without a measure are read one way by who prices and another by who inspects.",
        "common practice",
        "Say how much, by which standard or as decided by whom and when.",
    ),
    FoundKind(
        "reference-broken",
        "ambiguity",
        "A reference that leads nowhere tells of a requirement that moved or was lost.",
        "common practice",
        "Point it to where the requirement stands now.",
    ),
    FoundKind(
        "number-skipped",
        "caution",
        "A hole in the numbers tells of a paragraph taken out, and references count past it.",
        "common practice",
        "Number again, and see that nothing was lost that should stand.",
    ),
    FoundKind(
        "number-repeated",
        "ambiguity",
        "A reference to a number that stands twice leads to two requirements.",
        "common practice",
        "Number again.",
    ),
    FoundKind(
        "same-words-other-figures",
        "conflict",
        "Two figures for one requirement leave the choice to whoever gains by it.",
        "common practice",
        "Keep one of the two paragraphs, with the figure that is meant.",
    ),
    FoundKind(
        "brief-differs",
        "conflict",
        "The section and the office's record of what was decided cannot both be built.",
        "the brief",
        "Correct the section, or the brief if the decision has changed.",
    ),
)
_MISSING = tuple(
    FoundKind(
        f"missing-{need.id}", "omission", need.because, need.source, "Add the requirement; the"
        " clause below would fill it."
    )
    for need in NEEDS
)  # fmt: skip
KINDS = {kind.id: kind for kind in (*_OF_THE_DOCUMENT, *_MISSING)}


def found_of(
    name: str,
    says: str,
    block: Block | None = None,
    start: int = 0,
    end: int = 0,
    *,
    fills: str = "",
    fills_with: str = "",
) -> Found:
    """A finding of a kind in the table, on the words of a block from ``start`` to ``end``."""
    kind = KINDS[name]
    finding = Finding(
        id=name,
        kind=kind.kind,
        says=says,
        because=kind.because,
        source=kind.source,
        place=place_of(block) if block is not None else "",
        answers=(),
        settle=(),
    )
    at = Anchor(block.index, start, end) if block is not None else None
    return Found(finding, at, fills, fills_with)


def place_of(block: Block) -> str:
    """The place of a block as a reader would cite it; empty where it has none."""
    if block.place:
        return block.place
    if block.kind == "page":
        return "page head or foot"
    return "title" if block.kind == "title" else ""


def quoted(block: Block, start: int, end: int, most: int = 90) -> str:
    """Words of a block in quotation marks, cut to a length that a line can carry."""
    words = " ".join((block.text[start:end] if end else block.text).split())
    if len(words) > most:
        words = words[: most - 1].rsplit(" ", 1)[0] + " …"
    return f"“{words}”"

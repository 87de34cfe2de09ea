"""What every form of a review shows of a finding: place, words, reason, source, what to do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from specgen.library import FINDING_KINDS
from specgen.review.advising import to_do
from specgen.review.outline import Outline
from specgen.review.shapes import Found, Review
from specgen.writers.findings_text import HEADS, counted

WHOLE = "whole section"
LONGEST_QUOTE = 320
SUBJECT_TO = (
    "A review reads words; it does not design. What it finds on wind, structure, fire and height is"
    " for the licensed design professional of the project to judge, under the local code."
)


@dataclass(frozen=True, slots=True)
class Shown:
    """A finding as it is shown: the words around it as (before, said, after), ``fills`` the
    clause that would fill it, with its text."""

    id: str
    place: str
    quote: tuple[str, str, str]
    says: str
    because: str
    source: str
    do: str
    fills: str
    fills_with: str


def shown_of(review: Review, found: Found) -> Shown:
    """A finding with its words and what to do about it."""
    finding = found.finding
    return Shown(
        id=finding.id,
        place=finding.place or (WHOLE if found.at is None else "unnumbered"),
        quote=quote_of(review.outline, found),
        says=finding.says,
        because=finding.because,
        source=finding.source,
        do=to_do(found, review.engine.library),
        fills=found.fills,
        fills_with=found.fills_with,
    )


def by_kind(review: Review) -> Iterator[tuple[str, str, tuple[Shown, ...]]]:
    """The findings kind by kind, the gravest first: the kind, its head with the count, and they."""
    for kind in FINDING_KINDS:
        found = [each for each in review.found if each.finding.kind == kind]
        if found:
            yield kind, counted(kind, len(found)), tuple(shown_of(review, each) for each in found)


def counts_of(review: Review) -> dict[str, int]:
    """How many findings of each kind there are."""
    return {
        kind: sum(1 for each in review.found if each.finding.kind == kind) for kind in FINDING_KINDS
    }


def summary_of(counts: dict[str, int]) -> str:
    """The counts in one line: ``2 conflicts, 1 omission, no ambiguities, no cautions``."""
    words = (
        counted(kind, counts[kind]) if counts[kind] else f"no {HEADS[kind][1]}"
        for kind in FINDING_KINDS
    )
    return ", ".join(words)


def quote_of(outline: Outline, found: Found) -> tuple[str, str, str]:
    """The words that a finding is on, with what stands before and after them in their block.

    A long block is cut around them; all three are empty where a finding is on no words.
    """
    at = found.at
    if at is None:
        return "", "", ""
    text = outline.blocks[at.block].text
    if at.start == at.end:
        return "", _cut(text, LONGEST_QUOTE), ""
    before, said, after = text[: at.start], text[at.start : at.end], text[at.end :]
    room = max(40, (LONGEST_QUOTE - len(said)) // 2)
    if len(before) > room:
        before = "… " + before[-room:].partition(" ")[2]
    if len(after) > room:
        after = after[:room].rpartition(" ")[0] + " …"
    return before.replace("\t", " | "), said.replace("\t", " | "), after.replace("\t", " | ")


def _cut(text: str, most: int) -> str:
    text = text.replace("\t", " | ")
    return text if len(text) <= most else text[: most - 2].rpartition(" ")[0] + " …"


@dataclass(frozen=True, slots=True)
class CoverageRow:
    """How a topic is covered: ``answered`` of ``raised`` questions, those unanswered by label."""

    topic: str
    raised: int
    answered: int
    where: str
    unanswered: tuple[str, ...]


def coverage_rows(review: Review) -> list[CoverageRow]:
    """The topics in the order of the library."""
    questions = review.engine.library.questions
    return [
        CoverageRow(
            topic=each.topic,
            raised=len(each.raised),
            answered=len(each.answered),
            where=", ".join(each.where),
            unanswered=tuple(
                questions[name].label for name in each.raised if name not in each.answered
            ),
        )
        for each in review.coverage
    ]


def notes_of(outline: Outline) -> list[str]:
    """How the document was read, each note with its place."""
    found = []
    for note in outline.notes:
        place = outline.blocks[note.block].place if note.block is not None else ""
        found.append(f"{place}: {note.says}" if place else note.says)
    return found


def titled(outline: Outline) -> str:
    """What a document is: its section's number and title, or its file's name."""
    return " ".join(word for word in (outline.number, outline.title) if word) or outline.name

"""A review as one page of HTML that needs nothing beside it, for screen and print."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files

from jinja2 import Environment, StrictUndefined, Template

from specgen.library import FINDING_KINDS
from specgen.review.shapes import Review
from specgen.writers.findings_text import HEADS
from specgen.writers.review_shown import (
    SUBJECT_TO,
    Shown,
    by_kind,
    counts_of,
    coverage_rows,
    notes_of,
    summary_of,
    titled,
)

# What each kind of finding means for whoever reads the page first.
MEANS = {
    "conflict": "cannot both be built, or cannot stand on this roof",
    "omission": "needed, and not said",
    "ambiguity": "read one way by who prices and another by who inspects",
    "caution": "may be right, and is worth a second look",
}


@dataclass(frozen=True, slots=True)
class Group:
    """The findings of one kind, numbered on from those before."""

    kind: str
    head: str
    means: str
    found: tuple[tuple[int, Shown], ...]


@dataclass(frozen=True, slots=True)
class AnswerRow:
    """An answer that the document gives: the question, the answer, its place and its words."""

    label: str
    answer: str
    place: str
    words: str


def write_review_html(review: Review) -> str:
    """The page: counts, findings kind by kind, coverage by topic, what is stated, how it was"
    " read."""
    outline, counts = review.outline, counts_of(review)
    return _template().render(
        title=titled(outline),
        name=outline.name,
        summary=summary_of(counts),
        counts=[
            (HEADS[kind][counts[kind] != 1], counts[kind], MEANS[kind]) for kind in FINDING_KINDS
        ],
        groups=_groups(review),
        coverage=coverage_rows(review),
        answers=_answers(review),
        notes=notes_of(outline),
        subject_to=SUBJECT_TO,
    )


def _template() -> Template:
    jinja = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True)
    jinja.filters["capital"] = lambda words: words[:1].upper() + words[1:]
    page = files(__package__).joinpath("review.html").read_text(encoding="utf-8")
    return jinja.from_string(page)


def _groups(review: Review) -> list[Group]:
    groups, number = [], 1
    for kind, head, found in by_kind(review):
        numbered = tuple(enumerate(found, number))
        groups.append(Group(kind, head, MEANS[kind], numbered))
        number += len(found)
    return groups


def _answers(review: Review) -> list[AnswerRow]:
    """What the document states, in the order in which the library asks."""
    rows = []
    for name, question in review.engine.library.questions.items():
        statement = review.understanding.given_by.get(name)
        if statement is None:
            continue
        answer = review.engine.scope.shown(name)
        if question.kind == "table":
            value = review.understanding.answers[name]
            count = len(value) if isinstance(value, tuple) else 0
            answer = f"{count} {'row' if count == 1 else 'rows'}"
        elif question.kind == "number" and question.unit:
            answer = f"{answer} {question.unit}"
        block = review.outline.blocks[statement.at.block]
        words = " ".join(statement.words.replace("\t", " | ").split())
        rows.append(AnswerRow(question.label, answer, block.place, words))
    return rows

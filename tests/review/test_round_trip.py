"""A section that the library drafts, read again: every answer that its text states, none wrongly.

What a text states is told by the section's own reasons: an answer that a clause prints and whose
words stand in its paragraph, or one that a clause of its own stands for. An absence is stated where
such a paragraph says no.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from specgen.brief import read_brief
from specgen.engine import Engine
from specgen.library import Library
from specgen.review.section_outline import outline_of_section
from specgen.review.understanding import same, understand
from specgen.values import Choice, Value
from specgen.wording import Branches, Printed, Text
from tests.support import EXAMPLES, ROOT

BRIEFS = [*sorted(EXAMPLES.glob("*.yaml")), *sorted((ROOT / "tests/reviewed/clean").glob("*.yaml"))]
_NO = re.compile(r"\b(?:no|not|none|without)\b", re.IGNORECASE)

# Answers by which a paragraph stands that does not say them: seams that meet in line across a ridge
# are asked for where panels are straight, and an open bid is worded apart from a public one.
UNSAID = {"panel_plan", "public_work"}
# Computed and printed by name: a reader takes them from the text as if they were answers.
COMPUTED = {"roof_snow_load": "roof_snow"}


@pytest.mark.parametrize("path", BRIEFS, ids=lambda path: path.stem)
def test_every_answer_that_a_draft_states_is_recovered_and_none_wrongly(
    path: Path, library: Library
) -> None:
    engine = Engine(library, read_brief(path, library).answers)
    found = understand(outline_of_section(engine.section), library).answers
    wrongly = {
        name: value
        for name, value in found.items()
        if not alike(value, engine.answers.get(name)) and not _computed(name, value, engine)
    }
    assert wrongly == {}
    assert sorted(stated(engine) - found.keys() - UNSAID) == []


def alike(first: Value, second: Value | None) -> bool:
    """Whether an answer found is the one given; rows cell by cell."""
    if second is None:
        return False
    if isinstance(first, tuple) and isinstance(second, tuple) and isinstance(first[:1], tuple):
        pairs = list(zip(first, second, strict=False))
        return len(first) == len(second) and all(
            all(same(a, b) for a, b in zip(one, two, strict=True))
            if isinstance(one, tuple) and isinstance(two, tuple)
            else one == two
            for one, two in pairs
        )
    return same(first, second)


def _computed(name: str, value: Value, engine: Engine) -> bool:
    if name == "units_shown" and name not in engine.answers:
        return isinstance(value, Choice) and value.id == "both"  # as a draft shows them till then
    if name not in COMPUTED:
        return False
    computed, _ = engine.scope.lookup(COMPUTED[name])
    return same(value, computed)


def stated(engine: Engine) -> set[str]:
    """The questions whose answers the text of a section states."""
    section = engine.section
    texts = {
        paragraph.reason.clause: section.plain(paragraph.spans)
        for paragraph in section.paragraphs()
        if paragraph.reason.clause
    }
    found = {name for clause, text in texts.items() for name in _printed(engine, clause, text)}
    return found | {name for name in engine.answers if _has_a_clause(engine, name, texts)}


def _printed(engine: Engine, clause: str, text: str) -> Iterator[str]:
    """The questions that a clause prints and whose answer stands in its paragraph."""
    for name in _prints(engine.library.clauses[clause].text):
        if name in engine.answers:
            shown = re.escape(engine.scope.shown(name))
            if re.search(rf"(?<![\w.]){shown}(?!\w)", text):
                yield name


def _prints(text: Text) -> Iterator[str]:
    pieces = list(text.pieces)
    while pieces:
        piece = pieces.pop()
        if isinstance(piece, Printed):
            yield from piece.value.names
        elif isinstance(piece, Branches):
            pieces += [inner for _, branch in piece.branches for inner in branch]


def _has_a_clause(engine: Engine, name: str, texts: dict[str, str]) -> bool:
    """Whether a paragraph stands for this answer and for no other, by its own condition."""
    question = engine.library.questions[name]
    value = engine.answers[name]
    if question.kind == "choices" and isinstance(value, tuple):
        fewer = [tuple(c for c in question.choices if c in value and c != left) for left in value]
        return bool(fewer) and all(_only_with(engine, name, [less], texts) for less in fewer)
    if question.kind not in ("choice", "yes-no"):
        return False
    choices: list[Value] = [*question.choices] if question.choices else [True, False]
    only = _only_with(engine, name, [other for other in choices if other != value], texts)
    absent = value is False or (isinstance(value, Choice) and value.id == "none")
    return any(not absent or _NO.search(texts[clause]) for clause in only)


def _only_with(engine: Engine, name: str, others: list[Value], texts: dict[str, str]) -> set[str]:
    """The paragraphs that leave with each other answer, whose conditions read the question."""
    library = engine.library
    facts = {f.id for f in library.facts.values() if name in f.condition.names} | {name}
    only = {
        clause
        for clause in texts
        if (when := library.clauses[clause].when) is not None and when.names & facts
    }
    for other in others:
        standings = engine.answering(name, other).standings
        only = {
            clause
            for clause in only
            if (standing := standings.get(clause)) is None or standing.stands is not True
        }
    return only

"""Why a clause is absent, and that the smallest change brings it in."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.brief import read_brief
from specgen.domain import can_be_tried, domain_of
from specgen.engine import Engine
from specgen.faults import BadInput
from specgen.library import Library
from specgen.study.absent import why_absent
from specgen.study.asking import explain_absence
from specgen.study.explained import AbsentWhy, ParagraphWhy
from tests.support import EXAMPLES


def stands(engine: Engine, name: str) -> bool:
    """Whether a clause is in: a clause under one that is out has no standing at all."""
    standing = engine.standings.get(name)
    return standing is not None and standing.stands is True


def test_what_is_said_to_bring_a_clause_in_does(library: Library, example: Path) -> None:
    engine = Engine(library, read_brief(example, library).answers)
    found_ways = 0
    for name in library.clauses:
        found = why_absent(engine, name)
        assert (found is None) == (name in engine.section.places), name
        if found is None:
            continue
        for changes in found.ways.changes:
            after = engine.answering_all(changes)
            assert stands(after, name), (name, changes)
        found_ways += bool(found.ways.ways)
        if found.ways.ways:
            assert found.text
    assert found_ways > 300


def test_no_single_answer_does_what_is_said_to_take_two(library: Library) -> None:
    engine = Engine(library, read_brief(EXAMPLES / "snow-country-lodge.yaml", library).answers)
    taking_two = [
        name
        for name in library.clauses
        if (found := why_absent(engine, name)) is not None
        and found.ways.ways
        and len(found.ways.ways[0]) == 2
    ]
    assert len(taking_two) > 20
    for question in library.questions.values():
        if can_be_tried(question):
            for value in domain_of(library, question.id):
                after = engine.answering(question.id, value)
                assert not [name for name in taking_two if stands(after, name)], question.id


def test_a_clause_held_out_by_the_one_above_it_says_so(library: Library) -> None:
    engine = Engine(library, read_brief(EXAMPLES / "low-slope-library.yaml", library).answers)
    found = explain_absence(engine, "ice-barrier-steep")
    assert isinstance(found, AbsentWhy)
    assert found.held_by == "install-ice-barrier"
    assert [ground.turned for ground in found.grounds] == ["ice barrier: yes"]


def test_a_clause_that_waits_says_for_what(library: Library) -> None:
    engine = Engine(library, read_brief(EXAMPLES / "five-answers.yaml", library).answers)
    found = explain_absence(engine, "seam-sealant-field")
    assert isinstance(found, AbsentWhy)
    assert found.state == "open"
    assert [ground.names for ground in found.grounds] == [("seam_sealant",)]
    assert all(ground.is_open for ground in found.grounds)


def test_a_clause_that_is_there_is_explained_as_it_stands(library: Library) -> None:
    engine = Engine(library, read_brief(EXAMPLES / "low-slope-library.yaml", library).answers)
    assert isinstance(explain_absence(engine, "seam-sealant-factory"), ParagraphWhy)


def test_a_clause_of_no_library_answers_with_the_nearest(library: Library) -> None:
    engine = Engine(library, {})
    hint = r"no clause seam-sealant-feld\. Did you mean seam-sealant-field"
    with pytest.raises(BadInput, match=hint):
        explain_absence(engine, "seam-sealant-feld")

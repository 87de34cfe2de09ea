"""Why a paragraph stands: it names what matters, and what it says would remove it does."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.brief import read_brief
from specgen.engine import Engine
from specgen.faults import BadInput
from specgen.library import Library
from specgen.section import Paragraph
from specgen.study.asking import explain, numbers_of
from specgen.study.explained import AbsentWhy, FindingWhy, NameWhy, ParagraphWhy, StandardWhy
from specgen.study.naming import paragraphs_numbered
from specgen.study.why import why_paragraph
from specgen.writers.why_text import why_json, write_overview, write_why
from tests.study.test_reasons import Key, keyed
from tests.support import EXAMPLES


@pytest.fixture(scope="module")
def engine(library: Library) -> Engine:
    return Engine(library, read_brief(EXAMPLES / "low-slope-library.yaml", library).answers)


def explained(engine: Engine, name: str) -> ParagraphWhy:
    found = explain(engine, name)
    assert isinstance(found, ParagraphWhy)
    return found


def keys_of(engine: Engine) -> dict[str, Key]:
    """What each paragraph is, by its number."""
    by_identity = {id(paragraph): key for key, paragraph in keyed(engine.section).items()}
    return {
        number: by_identity[id(paragraph)]
        for number, paragraph in paragraphs_numbered(engine.section).items()
        if id(paragraph) in by_identity
    }


def gone(paragraph: Paragraph, key: Key, after: Engine) -> bool:
    """Whether a paragraph stands no more: its clause, its decision, or the line that it lists."""
    if paragraph.reason.clause:
        standing = after.standings.get(paragraph.reason.clause)
        return standing is None or standing.stands is False
    if paragraph.decision is None:
        return not _listed(paragraph, after)
    return key not in keyed(after.section)


def _listed(paragraph: Paragraph, after: Engine) -> bool:
    """Whether a computed line, or for a list's head any line of it, still stands."""
    lines = paragraph.children or (paragraph,)
    begins = [after.section.plain(line.spans[:1]) for line in lines]
    texts = [
        after.section.plain(each.spans)
        for each in after.section.paragraphs()
        if not each.reason.clause and each.decision is None
    ]
    return any(text.startswith(each) for text in texts for each in begins)


def test_what_it_says_would_remove_a_paragraph_does(library: Library, example: Path) -> None:
    engine = Engine(library, read_brief(example, library).answers)
    paragraphs = paragraphs_numbered(engine.section)
    faults, tried = [], 0
    for number, key in keys_of(engine).items():
        removal = why_paragraph(engine, number).removal
        for changes in removal.changes if removal is not None else ():
            tried += 1
            after = engine.answering_all(changes)
            if not gone(paragraphs[number], key, after):
                faults.append(f"{number} stays with {changes}")
    assert not faults
    assert tried > 100


def test_a_figure_said_to_remove_it_from_there_on_does_so_beyond(engine: Engine) -> None:
    found = explained(engine, "tape-low-slope-double")
    assert found.removal is not None
    way = next(w for w in found.removal.ways if w[0].question == "lowest_slope")
    assert way[0].says == "3:12 or more"
    for slope in way[0].values:
        question = engine.library.questions["lowest_slope"]
        from specgen.questions import read_answer

        after = engine.answering("lowest_slope", read_answer(question, slope))
        assert "tape-low-slope-double" not in after.section.places


def test_only_what_stands_in_every_section_has_nothing_that_would_remove_it(
    library: Library, example: Path
) -> None:
    engine = Engine(library, read_brief(example, library).answers)
    empty = Engine(library, {}).section.places
    for number in numbers_of(engine):
        found = why_paragraph(engine, number)
        if found.kind == "clause" and found.removal is None:
            assert found.clause in empty, number


def test_the_grounds_are_said_as_they_are_true(engine: Engine) -> None:
    says = {g.says for g in explained(engine, "tape-low-slope-double").grounds}
    assert "lowest slope below 3:12" in says
    ground = explained(engine, "seam-sealant-range").grounds[0]
    assert ground.turned.startswith("seam sealant: not ")
    assert ground.why == "A seam holds standing water only if it is sealed."


def test_a_paragraph_tells_what_it_needs_and_what_needs_it(engine: Engine) -> None:
    product = explained(engine, "walkway-product")
    installed = explained(engine, "install-walkways")
    assert {each.clause: each.state for each in product.needs} == {
        "install-walkways": "in",
        "seam-clamps": "in",
    }
    assert "walkway-product" in {each.clause for each in installed.needed_by}
    assert all(each.place for each in product.needs)


def test_numbers_come_with_what_they_are_computed_from(engine: Engine) -> None:
    found = explained(engine, "clip-spacing-computed")
    spacing = next(each for each in found.numbers if each.name == "computed_spacing")
    assert {"test_records", "panel_width"} <= set(spacing.inputs)
    assert "wind_speed" not in {given.question for given in found.given}


def test_a_clause_by_its_name_is_its_paragraph(engine: Engine) -> None:
    place = engine.section.places["seam-sealant-factory"]
    assert explain(engine, "seam-sealant-factory") == explain(engine, place)
    assert explain(engine, place.lower()) == explain(engine, place)


def test_a_listed_standard_tells_which_clauses_cite_it(engine: Engine) -> None:
    found = explain(engine, "astm e2140")
    assert isinstance(found, StandardWhy)
    assert {each.clause for each, _ in found.uses} == {"static-head-test"}
    line = explained(engine, found.listed_at)
    assert [each.clause for each in line.caused_by] == ["static-head-test"]
    assert line.kind == "computed"


def test_every_use_of_every_standard_is_told(engine: Engine) -> None:
    for name in engine.library.standards:
        found = explain(engine, name)
        assert isinstance(found, StandardWhy)
        citing = {p.reason.clause for p in engine.section.paragraphs() if name in p.reason.cites}
        assert {each.clause for each, _ in found.uses} == citing
        assert bool(found.listed_at) == bool(citing)


def test_an_open_decision_names_its_question_and_every_clause_that_waits(library: Library) -> None:
    engine = Engine(library, read_brief(EXAMPLES / "five-answers.yaml", library).answers)
    waiting = [
        (number, paragraph.decision)
        for number, paragraph in paragraphs_numbered(engine.section).items()
        if paragraph.decision is not None
    ]
    assert len(waiting) > 20
    for number, decision in waiting:
        found = explained(engine, number)
        assert (found.kind, found.question) == ("open", decision.question)
        assert tuple(each.clause for each in found.caused_by) == decision.clauses
        assert found.removal is not None
        assert found.removal.ways, number


def test_what_hangs_on_a_question_is_all_that_changes_with_it(engine: Engine) -> None:
    """Whatever any answer to it moves is among what is told."""
    from specgen.domain import domain_of

    for name in ("seam", "lowest_slope", "metal", "support"):
        found = explain(engine, name)
        assert isinstance(found, NameWhy)
        clauses = {each.id for each in found.clauses}
        checks = {each.id for each in found.checks}
        for value in domain_of(engine.library, name):
            change = engine.change_to(engine.answering(name, value))
            moved = {*change.entered, *change.left, *change.reworded}
            upper = {engine.library.clauses[each].under for each in moved}
            assert moved - clauses <= {each for each in moved if _under(engine, each, clauses)}
            assert upper is not None
            assert {each.id for each in (*change.raised, *change.settled)} <= checks


def _under(engine: Engine, clause: str, clauses: set[str]) -> bool:
    """Whether a clause stands under one of these."""
    upper = engine.library.clauses[clause].under
    return upper is not None and (upper in clauses or _under(engine, upper, clauses))


def test_a_finding_is_settled_by_what_is_said_to_settle_it(library: Library, example: Path) -> None:
    engine = Engine(library, read_brief(example, library).answers)
    for name in library.checks:
        found = explain(engine, name)
        assert isinstance(found, FindingWhy)
        assert (found.state == "found") == (name in engine.found)
        for changes in found.ways.changes if found.ways is not None else ():
            after = engine.answering_all(changes)
            assert (name in after.found) == (found.state != "found"), (name, changes)


@pytest.mark.parametrize(
    ("name", "hint"),
    [
        ("2.3.A.99", "There is 2.3.A"),
        ("9.9.A", "no paragraph 9.9.A"),
        ("seam_selant", "Did you mean seam_sealant"),
        ("ASTM E214", "Did you mean ASTM E2140"),
        ("seam-sealant-factry", "Did you mean seam-sealant-factory"),
        ("snap-lock-below-2", "Did you mean snap-lock-below-2-12"),
        ("", "there is no paragraph"),
    ],
)
def test_a_bad_name_answers_with_the_nearest_right_one(
    engine: Engine, name: str, hint: str
) -> None:
    with pytest.raises(BadInput, match=hint):
        explain(engine, name)


def test_a_name_in_another_hand_is_understood(engine: Engine) -> None:
    assert explain(engine, "Seam_Sealant_Factory") == explain(engine, "seam-sealant-factory")
    assert explain(engine, "clip_travel") != explain(engine, "clip-travel")


def test_every_explanation_can_be_read_and_carried(engine: Engine) -> None:
    import json

    library = engine.library
    names = [*numbers_of(engine), *library.questions, *library.standards, *library.checks,
             *library.facts, *library.calculations, *list(library.clauses)[::9]]  # fmt: skip
    for name in names:
        found = explain(engine, name)
        text = write_why(found)
        assert max(map(len, text.splitlines())) <= 120, name
        assert "None" not in text.replace("None of", ""), name
        assert json.loads(json.dumps(why_json(found)))["explains"]


def test_the_overview_has_every_clause_in_its_place(engine: Engine) -> None:
    text = write_overview(engine.section, engine.library)
    for clause, place in engine.section.places.items():
        if clause:
            assert f"  {place} {clause}" in text


def test_an_absent_clause_is_told_by_what_keeps_it_out(engine: Engine) -> None:
    assert isinstance(explain(engine, "seam-sealant-field"), AbsentWhy)

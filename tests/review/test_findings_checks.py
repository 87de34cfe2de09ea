"""The library's checks on what a document states, and the document against the office's brief."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.library import Library
from specgen.review.against_brief import against_brief
from specgen.review.findings import review
from specgen.review.section_outline import outline_of_section
from tests.review.outlines import ids, outline, reviewed, words
from tests.review.test_findings_missing import short
from tests.support import EXAMPLES, brief_of, section_of

SNAP = short("1:12").replace("double-lock seams", "snap-lock seams")


def test_a_check_fires_from_what_the_document_states_on_its_words(library: Library) -> None:
    read = outline(SNAP)
    found = {each.finding.id: each for each in review(read, library).found}
    conflict = found["snap-lock-below-2-12"]
    assert conflict.finding.kind == "conflict"
    assert conflict.at is not None
    said = words(read, conflict) + conflict.finding.says
    assert "1:12" in said
    assert "snap-lock" in said.lower()
    assert conflict.finding.place in ("2.2.A", "3.1.A")


def test_what_the_document_does_not_say_raises_no_check(library: Library) -> None:
    silent = SNAP.replace("The lowest slope is 1:12.", "")
    assert "snap-lock-below-2-12" not in ids(reviewed(silent, library))


def test_findings_stand_by_gravity_and_then_as_they_are_read(library: Library) -> None:
    done = reviewed(SNAP.replace("Sweep the roof", "Sweep properly the roof"), library)
    kinds = [each.finding.kind for each in done.found]
    assert kinds == sorted(kinds, key=("conflict", "omission", "ambiguity", "caution").index)
    assert done.conflicts == tuple(e for e in done.found if e.finding.kind == "conflict")
    for kind in set(kinds):
        at = [e.at.block for e in done.found if e.finding.kind == kind and e.at is not None]
        assert at == sorted(at)


def test_coverage_counts_what_is_answered_of_what_the_roof_raises(library: Library) -> None:
    done = reviewed(SNAP, library)
    assert {each.topic for each in done.coverage} <= {q.topic for q in library.questions.values()}
    panel = next(each for each in done.coverage if each.topic == "panel")
    assert set(panel.answered) <= set(panel.raised)
    assert {"metal", "seam", "panel_thickness"} <= set(panel.answered)
    assert "2.2.A" in panel.where


def test_what_differs_from_the_brief_is_a_conflict_on_the_documents_words(
    library: Library, tmp_path: Path
) -> None:
    brief = brief_of("panel_width: 18 in\nseam: snap-lock\nmetal: aluminum\n", library, tmp_path)
    read = outline(SNAP)
    done = review(read, library)
    found = list(against_brief(read, done.understanding, library, brief))
    assert set(ids(found)) == {"brief-differs"}
    said = [each.finding.says for each in found]
    assert len(said) == 2
    assert any("18 in" in each for each in said)
    assert any("aluminum" in each for each in said)


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.yaml")), ids=lambda path: path.stem)
def test_a_draft_of_ours_agrees_with_the_brief_that_it_was_drafted_from(
    path: Path, library: Library, tmp_path: Path
) -> None:
    text = path.read_text(encoding="utf-8")
    brief = brief_of(text, library, tmp_path)
    read = outline_of_section(section_of(text, library, tmp_path))
    done = review(read, library, brief)
    assert [each.finding.says for each in done.found if each.finding.id == "brief-differs"] == []
    assert done.conflicts == ()

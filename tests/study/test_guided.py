"""The guided reading: its stops stand in the section, say where their facts come from, and can be
answered by whoever read what came before."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.brief import read_brief
from specgen.faults import BadInput
from specgen.library import Library
from specgen.loading import load_library
from specgen.study.guided import brief_of_reading, guided_reading
from tests.support import EXAMPLES, SMALL_LIBRARY, write_folder
from tests.test_sources import _is_named

READING = """
title: A small roof
brief: {metal: coated-steel}
stops:
- title: the metal
  clause: CLAUSE
  why: So it is.
  source: common practice
  question: Which?
  options:
  - {text: One, right: yes, says: Right.}
  - {text: Two, right: no, says: Wrong.}
  - {text: Three, right: no, says: Wrong.}
"""


def test_there_are_fifteen_stops_each_at_a_paragraph_of_the_section(library: Library) -> None:
    reading = guided_reading(library)
    section = reading.engine.section
    assert [stop.number for stop in reading.stops] == list(range(1, 16))
    assert len({stop.clause for stop in reading.stops}) == 15
    for stop in reading.stops:
        assert section.places[stop.clause] == stop.place
        assert stop.place.startswith(stop.article.split()[0] + ".")
        assert stop.text in {text for _, _, text in section.required}


def test_the_example_of_the_reading_is_the_one_among_the_examples(library: Library) -> None:
    example = read_brief(EXAMPLES / "low-slope-library.yaml", library)
    assert guided_reading(library).engine.answers == example.answers
    assert brief_of_reading(library) == example.typed
    assert guided_reading(library).engine.conflicts == ()


def test_each_question_has_three_answers_one_right_and_a_word_on_each(library: Library) -> None:
    for stop in guided_reading(library).stops:
        assert len(stop.options) == 3
        assert sum(option.right for option in stop.options) == 1
        assert stop.options[stop.right].right
        assert stop.question.endswith((".", "?"))
        assert all(option.says.endswith(".") for option in stop.options)
    right = [stop.right for stop in guided_reading(library).stops]
    assert max(map(right.count, range(3))) < 8, "the right answer stands too often at one place"


def test_every_fact_of_the_reading_has_a_source(library: Library) -> None:
    assert not [stop.title for stop in guided_reading(library).stops if not _is_named(stop.source)]


def test_it_tells_why_a_low_steel_roof_is_sealed_double_locked_and_tested(library: Library) -> None:
    reading = guided_reading(library)
    told = " ".join(
        f"{stop.why} {' '.join(option.says for option in stop.options)}" for stop in reading.stops
    )
    for words in ("below 2:12", "stand under water", "folded twice", "sealed", "ASTM E2140"):
        assert words in told
    last = reading.stops[-1]
    assert "1:12" in last.question
    answer = last.options[last.right].text
    for words in ("stand over the seam", "double fold", "sealant", "ASTM E2140"):
        assert words in answer


def test_the_figures_that_it_tells_are_those_of_the_section(library: Library) -> None:
    reading = guided_reading(library)
    scope = reading.engine.scope
    why = {stop.clause: stop.why for stop in reading.stops}
    assert scope.shown("panel_movement") in why["clip-travel"]
    assert "11/16 in" in why["clip-travel"]
    assert scope.shown("panel_run").startswith("46 ft")
    assert "5.2" not in why["static-head-test"]
    assert "31 psf" in why["static-head-test"]
    assert round(6 * 62.4 / 12) == 31


def test_a_library_without_a_reading_says_so(small: Library) -> None:
    with pytest.raises(BadInput, match="has no guided reading"):
        guided_reading(small)


def test_a_stop_that_is_no_clause_is_told_with_its_line(tmp_path: Path) -> None:
    folder = write_folder(tmp_path, {**SMALL_LIBRARY, "reading.yaml": READING})
    with pytest.raises(BadInput, match=r"reading\.yaml, line 4: the metal: there is no clause"):
        load_library(folder)


def test_two_right_answers_and_a_wrong_brief_are_told(tmp_path: Path) -> None:
    clause = next(iter(load_library(write_folder(tmp_path / "a", SMALL_LIBRARY)).clauses))
    twice = READING.replace("CLAUSE", clause).replace("right: no", "right: yes", 1)
    folder = write_folder(tmp_path / "b", {**SMALL_LIBRARY, "reading.yaml": twice})
    with pytest.raises(BadInput, match="three options, one of them right"):
        load_library(folder)
    unknown = READING.replace("CLAUSE", clause).replace("metal: coated-steel", "hue: red")
    folder = write_folder(tmp_path / "c", {**SMALL_LIBRARY, "reading.yaml": unknown})
    with pytest.raises(BadInput, match="there is no question hue"):
        load_library(folder)


def test_an_office_may_ask_otherwise_and_the_reading_says_so(tmp_path: Path) -> None:
    office = write_folder(tmp_path, {"questions/project.yaml": """
- {id: place, ask: "How far?", label: place, kind: length, why: So., source: common practice}
"""})  # fmt: skip
    with pytest.raises(BadInput, match="the brief of the reading: place"):
        guided_reading(load_library(overlays=[office]))


def test_an_office_that_takes_out_a_stop_is_told_which(tmp_path: Path) -> None:
    office = write_folder(tmp_path, {"part-2-products/panels.yaml": """
- id: panel-pan-striated
  at: panels
  text: Pan without lines.
  why: The office has it so.
- id: panel-seam-double-lock
  at: panels
  when: not penetrations
  text: Seam as the office has it.
  why: The office has it so.
""".replace("when: not penetrations", "when: seam == 'batten'")})  # fmt: skip
    with pytest.raises(BadInput, match="stops at panel-seam-double-lock"):
        guided_reading(load_library(overlays=[office]))

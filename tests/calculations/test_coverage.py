"""Which record stands for which project."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.coverage import Assembly, TestRecord, covers
from specgen.calculations.coverage_synonyms import Field
from specgen.calculations.coverage_words import label_of, read_words
from specgen.calculations.record import OutsideMethod
from specgen.library import Library

NAN = float("nan")
ROOF = Assembly(
    support="steel-deck-insulated",
    metal="coated-steel",
    thickness_in=0.0239,
    width_in=16,
    seam="double-lock",
    clip="two-piece",
)
RECORD = TestRecord(
    test="UL 1897",
    support="steel deck with insulation above",
    metal="metallic-coated steel",
    thickness_in=0.0239,
    width_in=16,
    seam="double-lock",
    clip="two-piece",
    spacing_in=24,
    ultimate_psf=90,
    design_factor=2,
    report="Invented report 1102",
)
FRAMING = replace(RECORD, support="open framing", test="ASTM E1592")
PURLINS = replace(ROOF, support="open-framing")
FIELD_OF_QUESTION: dict[str, Field] = {
    "support": "support",
    "metal": "metal",
    "seam": "seam",
    "clip_kind": "clip",
}


@pytest.mark.parametrize("question", FIELD_OF_QUESTION)
def test_each_choice_is_known_by_its_id_its_label_and_its_text(
    library: Library, question: str
) -> None:
    field = FIELD_OF_QUESTION[question]
    for choice in library.questions[question].choices:
        for words in (choice.id, choice.label, choice.text, choice.label.upper()):
            found = read_words(field, words)
            assert (found.choice, found.details) == (choice.id, ()), words
        assert label_of(choice.id, "") != "''"


@pytest.mark.parametrize(
    ("field", "one", "other"),
    [
        ("seam", "double-lock", "Double-lock seam, 180 degrees"),
        ("seam", "double-lock", "180° double folded standing seam"),
        ("seam", "single-lock", "90 degree single-lock"),
        ("seam", "snap-lock", "snaplock"),
        ("clip", "two-piece", "2-piece sliding clip"),
        ("clip", "two-piece", "floating"),
        ("clip", "one-piece", "fixed clip"),
        ("metal", "aluminum", "Aluminium sheet"),
        ("metal", "coated-steel", "24 ga aluminum-zinc coated steel, AZ50"),
        ("metal", "zinc", "rolled titanium zinc"),
        ("metal", "copper", "16 oz copper sheet"),
        ("support", "steel-deck", "metal roof deck"),
        ("support", "open-framing", "purlins"),
        ("support", "steel-deck-insulated", "rigid insulation over steel deck"),
    ],
)
def test_words_of_the_trade_for_one_thing_are_the_same(field: Field, one: str, other: str) -> None:
    assert read_words(field, one).sameness == read_words(field, other).sameness


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("seam", "double-lock, 90 degrees"),
        ("seam", "mechanically seamed"),
        ("support", "steel deck, no insulation above"),
        ("support", "plywood over steel deck"),
        ("support", "insulation below steel deck"),
        ("metal", "titanium"),
        ("clip", "one-piece sliding two-piece"),
    ],
)
def test_words_that_are_not_known_or_contradict_each_other_stand_for_no_choice(
    field: Field, text: str
) -> None:
    assert read_words(field, text).choice == ""


def test_a_record_of_the_very_assembly_covers_without_a_word() -> None:
    found = covers(RECORD, ROOF)
    assert (found.covered, found.reasons, found.cautions) == (True, (), ())


@given(st.floats(0.0239, 0.125), st.floats(2, 16))
def test_a_heavier_sheet_and_a_narrower_panel_stay_covered(thick: float, wide: float) -> None:
    assert covers(RECORD, replace(ROOF, thickness_in=thick, width_in=wide)).covered


@given(st.floats(0.01, 0.125), st.floats(0.01, 0.125), st.floats(2, 60), st.floats(2, 60))
def test_what_covers_a_sheet_covers_a_heavier_and_narrower_one(
    thin: float, more: float, wide: float, less: float
) -> None:
    thin, more = sorted((thin, more))
    less, wide = sorted((less, wide))
    if covers(RECORD, replace(ROOF, thickness_in=thin, width_in=wide)).covered:
        assert covers(RECORD, replace(ROOF, thickness_in=more, width_in=less)).covered


@pytest.mark.parametrize(
    ("change", "first", "second"),
    [
        ({"metal": "aluminum"}, "metallic-coated steel", "aluminum"),
        ({"support": "wood-deck"}, "steel deck with insulation above", "wood panel deck"),
        ({"support": "steel-deck"}, "steel deck with insulation above", "steel deck"),
        ({"seam": "single-lock"}, "double-lock seam", "single-lock seam"),
        ({"seam": "snap-lock"}, "double-lock seam", "snap-lock seam"),
        ({"clip": "one-piece"}, "two-piece clip", "one-piece clip"),
        ({"thickness_in": 0.0179}, "0.0239 in", "0.0179 in"),
        ({"width_in": 18.0}, "16 in", "18 in"),
        ({"metal": "unobtainium"}, "metallic-coated steel", "'unobtainium'"),
    ],
)
def test_what_differs_is_not_covered_and_the_reason_is_a_sentence_with_both_values(
    change: dict[str, str | float], first: str, second: str
) -> None:
    found = covers(RECORD, replace(ROOF, **change))  # type: ignore[arg-type]
    assert not found.covered
    assert len(found.reasons) == 1
    assert first in found.reasons[0]
    assert second in found.reasons[0]
    assert found.reasons[0].endswith(".")


def test_every_reason_is_given_at_once() -> None:
    other = replace(ROOF, metal="copper", seam="batten", clip="one-piece", width_in=20)
    assert len(covers(RECORD, other).reasons) == 4


@pytest.mark.parametrize("test", ["UL 580", "UL 1897", "TAS 125", "UL 580 / UL 1897", "ul580"])
def test_a_record_made_on_a_deck_does_not_serve_open_framing(test: str) -> None:
    found = covers(replace(FRAMING, test=test), PURLINS)
    assert not found.covered
    assert "solid support" in found.reasons[0]
    assert "open framing" in found.reasons[0]


@pytest.mark.parametrize(
    "test", ["ASTM E1592", "ASTM E 1592-05(2017)", "FM 4471", "TAS 125, E1592"]
)
def test_a_record_made_for_spanning_panels_serves_open_framing(test: str) -> None:
    assert covers(replace(FRAMING, test=test), PURLINS).covered


def test_a_record_over_open_framing_does_not_transfer_to_a_deck() -> None:
    assert not covers(FRAMING, ROOF).covered


def test_purlins_in_words_that_are_not_known_are_still_open() -> None:
    words = "cold-formed girts bridged at thirds"
    found = covers(replace(RECORD, support=words), replace(ROOF, support=words))
    assert not found.covered


def test_an_unknown_support_in_the_same_words_is_covered_with_a_caution() -> None:
    words = "cement-fiber plank"
    found = covers(replace(RECORD, support=words), replace(ROOF, support=words))
    assert found.covered
    assert "solid" in found.cautions[0]


def test_e1592_over_wood_sheathing_is_a_caution_and_no_refusal() -> None:
    record = replace(RECORD, test="ASTM E1592", support="plywood deck")
    found = covers(record, replace(ROOF, support="plywood deck"))
    assert found.covered
    assert any("acting together" in text for text in found.cautions)


def test_e1592_over_a_deck_asks_for_pull_tests_of_the_clips() -> None:
    found = covers(replace(RECORD, test="ASTM E1592"), ROOF)
    assert found.covered
    assert any("pull" in text for text in found.cautions)


def test_a_sheet_outside_the_scope_of_e1592_is_a_caution() -> None:
    record = replace(FRAMING, thickness_in=0.063)
    found = covers(record, replace(PURLINS, thickness_in=0.063))
    assert any("0.012 to 0.05 in" in text for text in found.cautions)


def test_a_test_that_is_no_uplift_test_covers_nothing() -> None:
    found = covers(replace(RECORD, test="ASTM E1646"), ROOF)
    assert not found.covered
    assert "ASTM E1646" in found.reasons[0]


@pytest.mark.parametrize(
    ("field", "tested", "planned", "covered", "cautions"),
    [
        ("metal", "aluminum, alloy 3004", "aluminum, alloy 3105", False, 0),
        ("metal", "aluminum, alloy 3004", "aluminum", True, 1),
        ("metal", "aluminum", "aluminum, alloy 3004", True, 1),
        ("metal", "steel, Grade 50", "coated-steel, grade 50", True, 0),
        ("support", "5/8 in plywood", "19/32 in plywood", False, 0),
        ("support", "5/8 in plywood", "5/8 in OSB deck", False, 0),
        ("support", "5/8 in plywood", "wood-deck", True, 1),
        ("clip", "two-piece, stainless steel", "two-piece, galvanized steel", False, 0),
        ("clip", "two-piece steel", "two-piece, metallic-coated steel", True, 0),
        ("seam", "2 in double-lock", "1-1/2 in double-lock", False, 0),
        ("seam", "2 in double-lock", "double-lock 180 degrees", True, 1),
    ],
)
def test_a_detail_that_both_name_must_agree_and_one_alone_is_a_caution(
    field: str, tested: str, planned: str, covered: bool, cautions: int
) -> None:
    record = replace(RECORD, **{field: tested})  # type: ignore[arg-type]
    found = covers(record, replace(ROOF, **{field: planned}))  # type: ignore[arg-type]
    assert found.covered is covered
    assert len(found.cautions) == cautions


def test_ways_of_writing_one_gauge_are_one_sheet_with_a_caution() -> None:
    # 0.0236, 0.0239 and 0.024 in are all written for 24 ga (common practice)
    found = covers(replace(RECORD, thickness_in=0.024), replace(ROOF, thickness_in=0.0236))
    assert found.covered
    assert "0.0236" in found.cautions[0]
    assert not covers(replace(RECORD, thickness_in=0.0276), ROOF).covered


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("thickness_in", 0.0),
        ("thickness_in", NAN),
        ("width_in", -16.0),
        ("width_in", 1e9),
        ("spacing_in", 0.0),
        ("ultimate_psf", -90.0),
        ("ultimate_psf", float("inf")),
        ("design_factor", 0.5),
        ("design_factor", NAN),
        ("report", " "),
        ("seam", ""),
    ],
)
def test_a_senseless_figure_in_a_record_is_refused_by_its_name(
    name: str, value: float | str
) -> None:
    with pytest.raises(OutsideMethod, match=name):
        replace(RECORD, **{name: value})  # type: ignore[arg-type]


@pytest.mark.parametrize(("name", "value"), [("width_in", NAN), ("thickness_in", 2), ("metal", "")])
def test_a_senseless_figure_in_an_assembly_is_refused_by_its_name(
    name: str, value: float | str
) -> None:
    with pytest.raises(OutsideMethod, match=name):
        replace(ROOF, **{name: value})  # type: ignore[arg-type]


@given(st.text(max_size=40), st.sampled_from(["support", "metal", "seam", "clip"]))
def test_any_text_at_all_is_read_and_is_the_same_as_itself(text: str, field: Field) -> None:
    assert read_words(field, text).sameness == read_words(field, text).sameness

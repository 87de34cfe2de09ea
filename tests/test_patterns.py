"""The language of recognizers: what its patterns find, and which are refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.faults import BadInput
from specgen.library import Library
from specgen.loading import load_library
from specgen.patterns import FIGURES, PatternError, compiled, read_pattern
from specgen.review.figures import typed
from tests.support import write_folder


@pytest.mark.parametrize(
    ("source", "text", "found"),
    [
        ("double lock", "a double-lock seam", "double-lock"),
        ("walk ?ways?", "walkways and walk-way", "walkways"),
        ("thickness~{sheet}", "Thickness of sheet: 24 gauge", "Thickness of sheet: 24 gauge"),
        ("seam: flat", "Seam|flat", "Seam|flat"),
        ("rib", "ribbon", None),
        ("lap {length}", "lap 6 in (152 mm) at ends", "lap 6 in (152 mm)"),
    ],
)
def test_a_pattern_finds_what_it_stands_for(source: str, text: str, found: str | None) -> None:
    match = compiled(source).search(text)
    assert (match[0] if match else None) == found


@pytest.mark.parametrize(
    ("source", "says"),
    [
        ("seam.*high", "without an end"),
        ("seam+", "without an end"),
        ("seam.{2,}", "without an end"),
        ("(?:seam.{0,9}){0,9}", "repeats inside"),
        ("(?:(?:seam )?lock ?){0,20}", "repeats inside"),
        ("seam.{0,500}", "more than 80 times"),
        ("(seam)~\\1", "refers back"),
        ("(?<!no)seam", "of a kind that is not taken here"),
        ("seam(", "does not compile"),
        ("[0-9]{1,3}", "holds no word"),
        ("seam~{furlongs}", "has no figure furlongs"),
        ("a~b~c~d~e seam", "more than 3 gaps"),
        ("seam" * 100, "longer than"),
    ],
)
def test_a_pattern_that_could_stall_or_never_sift_is_refused(source: str, says: str) -> None:
    with pytest.raises(PatternError, match=says):
        read_pattern("yes", source)


def test_the_words_that_sift_stand_in_each_text_that_a_pattern_finds(library: Library) -> None:
    said = [
        (pattern, compiled(pattern.source))
        for recognizer in library.recognizers.values()
        for pattern in recognizer.says
    ]
    texts = [clause.text.source for clause in library.clauses.values()]
    hits = 0
    for pattern, expression in said:
        for text in texts:
            match = expression.search(text)
            if match is not None:
                hits += 1
                assert any(cue in match[0].lower() for cue in pattern.cues) or any(
                    cue in text.lower() for cue in pattern.cues
                ), (pattern, text)
    assert hits > 500


@pytest.mark.parametrize(
    ("kind", "name", "text", "brief"),
    [
        ("length", "length", "1-1/2 inches", "1-1/2 in"),
        ("length", "length", "10'-6\"", "10 ft 6 in"),
        ("length", "length", "12-inch", "12 in"),
        ("thickness", "sheet", "24-gauge", "24 ga"),
        ("thickness", "sheet", "20 ounces per square foot", "20 oz"),
        ("slope", "slope", "1/4 inch per foot", "1/4:12"),
        ("slope", "slope", "3 in 12", "3:12"),
        ("slope", "slope", "4/12", "4:12"),
        ("slope", "slope", "ten in twelve", "10:12"),
        ("slope", "slope", "8 inches to the foot", "8:12"),
        ("slope", "pitch", "2-1/2:12", "2-1/2:12"),
        ("slope", "slope", "1 in 40", "2.5 percent"),
        ("length", "length", "eighteen-inch", "18 in"),
        ("thickness", "sheet", "twenty-four gauge", "24 ga"),
        ("thickness", "sheet", ".050", ".050 in"),
        ("pressure", "pressure", "1.2 kN/m2", "1.2 kPa"),
        ("temperature", "temperature", "minus 20 deg F", "-20 degF"),
        ("temperature", "temperature", "70 degrees C", "70 degC"),
        ("leakage", "leakage", "0.3 L/(s·m2)", "0.3 L/s per sq m"),
        ("pressure", "pressure", "6.24 pounds per square foot", "6.24 psf"),
        ("number", "count", "twenty (20)", "20"),
        ("date", "date", "March 15, 2027", "2027-03-15"),
    ],
)
def test_a_figure_is_caught_whole_and_made_into_what_a_brief_takes(
    kind: str, name: str, text: str, brief: str
) -> None:
    match = compiled(f"so {{{name}}}").search(f"so {text} it is")
    assert match is not None
    assert match["figure"] == text
    assert typed(kind, match["figure"]) == brief
    assert name in FIGURES


@pytest.mark.parametrize(
    ("entry", "says"),
    [
        ("{id: a, question: seams, says: {yes: [seams]}}", "there is no question seams"),
        ("{id: a, question: seam, says: {triple-lock: [seams]}}", "has no choice 'triple-lock'"),
        ("{id: a, question: seam, says: {figure: ['seam {length}']}}", "takes no figure"),
        ("{id: a, question: panel_width, says: {figure: [wide]}}", "captures no figure"),
        ("{id: a, question: seam, says: {batten: ['a.*b']}}", "without an end"),
        ("{id: a, question: seam, says: {batten: [seam]}, near: ['a+']}", "without an end"),
        ("{id: a, question: seam, says: {mention: [seam]}}", "by negated alone"),
        ("{id: a, question: seam, says: {batten: [seam]}, also: [preface]}", "no such place"),
        ("{id: a, question: seam, says: {batten: [seam]}, sure: 2}", "sure is above 0"),
        ("{id: a, question: seam, says: {batten: [seam]}, given: seems}", "seems"),
    ],
)
def test_a_recognizer_that_does_not_hold_together_is_told(
    tmp_path: Path, entry: str, says: str
) -> None:
    folder = write_folder(tmp_path, {"recognizers/panel.yaml": f"- {entry}\n"})
    with pytest.raises(BadInput) as caught:
        load_library(overlays=[folder])
    (fault,) = caught.value.faults
    assert says in fault.says
    assert fault.file.endswith("panel.yaml")
    assert fault.line == 1

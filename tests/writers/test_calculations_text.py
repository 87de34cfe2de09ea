"""The calculation record in a terminal."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.library import Library
from specgen.scope import Scope
from specgen.section import Table
from specgen.writers.calculations_shown import ShownTable, shown_results
from specgen.writers.calculations_text import WIDTH, table_block, write_calculations_text
from tests.writers.test_calculations_shown import BRIEF, record_of


@pytest.mark.parametrize("system", ["inch-pound", "si", "both"])
def test_the_record_is_ascii_and_no_wider_than_a_terminal(
    library: Library, tmp_path: Path, system: str
) -> None:
    brief = BRIEF.replace("units_shown: inch-pound", f"units_shown: {system}")
    brief = brief.replace("Upfield", "Überlingen – 東 " + "x" * 120)
    text = write_calculations_text(record_of(library, tmp_path, brief))
    assert text.isascii()
    assert max(map(len, text.splitlines())) <= WIDTH
    assert "\x1f" not in text
    assert "Uberlingen - ?" in text


def test_every_value_and_row_is_there(library: Library, tmp_path: Path) -> None:
    scope = record_of(library, tmp_path)
    text = " ".join(write_calculations_text(scope).split())
    for shown in shown_results(scope):
        if shown.state == "computed":
            assert shown.title.upper() in text
        for label, value in shown.values:
            assert label[1:] in text
            assert value in text
        for table in shown.tables:
            for row in table.table.rows:
                assert row[0] in text
                assert row[1] in text


def test_the_plan_has_a_mark_a_pressure_and_a_spacing_for_each_zone(
    library: Library, tmp_path: Path
) -> None:
    text = write_calculations_text(record_of(library, tmp_path))
    assert "- 100 ft -" in text
    assert "| 40 ft" in text
    keys = {line.split()[0]: line for line in text.splitlines() if " sq ft " in line}
    assert set(keys) == {".", ":", "+"}
    assert "47.9 psf" in keys["+"]
    assert "12 in" in keys["+"]
    corner = next(line for line in text.splitlines() if line.startswith("  |+"))
    assert corner.rstrip(" |").endswith("+")


def test_the_chart_marks_this_roof(library: Library, tmp_path: Path) -> None:
    text = write_calculations_text(record_of(library, tmp_path))
    assert "46          0.66  this roof" in text
    assert "O  this roof" in text


def test_what_is_refused_or_open_names_the_question(library: Library, tmp_path: Path) -> None:
    text = " ".join(write_calculations_text(record_of(library, tmp_path)).split())
    assert "Not computed: Panel width is 90 in; the limits are 6 to 36 <in>." in text
    assert f"panel_width {library.questions['panel_width'].ask}" in text
    assert f"ground_snow {library.questions['ground_snow'].ask}" in text


def test_cautions_begin_with_a_mark_and_the_last_words_defer(
    library: Library, tmp_path: Path
) -> None:
    text = write_calculations_text(record_of(library, tmp_path))
    assert "\n! Check the zones & their widths against the printed figure.\n" in text
    assert "local code and to a licensed design" in text.splitlines()[-2]


def test_a_brief_without_answers_is_shown_as_open(library: Library) -> None:
    text = write_calculations_text(Scope(library, {}))
    assert "Project: open" in text
    assert "Open; settled by:" in text


def test_a_table_breaks_between_a_figure_and_its_conversion() -> None:
    rows = tuple((f"Zone {i}", *(["28.1 psf (1.35 kPa)"] * 4)) for i in range(3))
    head = ("Roof zone", *(["Uplift, allowable (0.6 W)"] * 4))
    block = table_block(ShownTable("", Table(head, rows), (False, True, True, True, True)))
    assert max(map(len, block)) <= WIDTH
    cells = [line.split() for line in block]
    assert ["(0.6", "W)"] * 4 in [cell[-8:] for cell in cells]
    assert any(line.count("28.1 psf") == 4 for line in block)
    assert any(line.count("(1.35 kPa)") >= 1 for line in block)


def test_a_table_of_many_columns_still_fits() -> None:
    row = tuple(f"a rather long cell number {i}" for i in range(12))
    shown = ShownTable("", Table(tuple(f"Heading {i}" for i in range(12)), (row,)), (False,) * 12)
    assert max(map(len, table_block(shown))) <= WIDTH

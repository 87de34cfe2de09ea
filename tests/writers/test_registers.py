"""The register of submittals and warranties."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import openpyxl

from specgen.assemble import assemble
from specgen.brief import read_brief
from specgen.library import Library
from specgen.scope import Scope
from specgen.section import Section
from specgen.writers.registers import submittal_rows, warranty_rows, write_csv, write_xlsx
from tests.support import EXAMPLES, section_of
from tests.test_assemble import COMPLETE


def _library_section(library: Library) -> Section:
    brief = read_brief(EXAMPLES / "low-slope-library.yaml", library)
    return assemble(Scope(library, brief.answers))


def test_each_submittal_names_the_paragraph_that_causes_it(small: Library, tmp_path: Path) -> None:
    section = section_of(COMPLETE, small, tmp_path)
    assert submittal_rows(section) == [
        ("submittal", "Product data", "sheet", "2.1", "2.1.A", "steel-sheet")
    ]


def test_csv_and_workbook_carry_the_same_rows(library: Library) -> None:
    section = _library_section(library)
    rows = list(csv.reader(io.StringIO(write_csv(section))))
    book = openpyxl.load_workbook(io.BytesIO(write_xlsx(section)))
    sheets = [
        [str(cell or "") for cell in row]
        for sheet in book.worksheets
        for row in sheet.iter_rows(values_only=True)
    ]
    assert rows == sheets
    assert len(rows) == 2 + len(submittal_rows(section)) + len(warranty_rows(section))


def test_the_warranties_of_the_section_are_registered_with_their_years(library: Library) -> None:
    rows = warranty_rows(_library_section(library))
    assert len(rows) >= 3
    assert all(row[3].split()[0].isdigit() for row in rows)


def test_a_cell_that_a_spreadsheet_would_run_is_defused(small: Library, tmp_path: Path) -> None:
    section = section_of(COMPLETE, small, tmp_path)
    object.__setattr__(section.submittals[0], "what", "=HYPERLINK(1)")
    assert "'=HYPERLINK(1)" in write_csv(section)

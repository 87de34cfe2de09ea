"""The register of submittals and warranties of a section, as CSV or as a workbook."""

from __future__ import annotations

import contextlib
import csv
import io
import tempfile
from collections.abc import Iterable
from typing import TYPE_CHECKING

from specgen.faults import BadInput, Fault
from specgen.section import Section

if TYPE_CHECKING:
    from openpyxl import Workbook

SUBMITTAL_HEAD = ("Register", "Kind", "Item", "Article", "Paragraph", "Clause")
WARRANTY_HEAD = ("Register", "By", "Item", "Years", "Paragraph", "Clause")
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def submittal_rows(section: Section) -> list[tuple[str, ...]]:
    """One row a submittal, in reading order of the clauses that cause them."""
    return [
        (
            "submittal",
            item.kind,
            item.what,
            section.article_numbers[item.article],
            section.places[item.clause],
            item.clause,
        )
        for item in section.submittals
    ]


def warranty_rows(section: Section) -> list[tuple[str, ...]]:
    """One row a warranty."""
    return [
        ("warranty", item.by, item.what, item.years, section.places[item.clause], item.clause)
        for item in section.warranties
    ]


def write_csv(section: Section) -> str:
    """Both registers in one file, each under its own head, told apart by the first column."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream)
    for head, rows in (
        (SUBMITTAL_HEAD, submittal_rows(section)),
        (WARRANTY_HEAD, warranty_rows(section)),
    ):
        writer.writerow(head)
        writer.writerows(_harmless(row) for row in rows)
    return stream.getvalue()


def write_xlsx(section: Section) -> bytes:
    """A workbook with a sheet for submittals and one for warranties."""
    from openpyxl import Workbook
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    book = Workbook()
    book.remove(book.worksheets[0])
    widths = (12, 24, 70, 12, 12, 34)
    for name, head, rows in (
        ("Submittals", SUBMITTAL_HEAD, submittal_rows(section)),
        ("Warranties", WARRANTY_HEAD, warranty_rows(section)),
    ):
        sheet = book.create_sheet(name)
        sheet.append(head)
        for row in rows:
            sheet.append(_harmless(row))
        for cell in sheet[1]:
            cell.font = Font(bold=True)
        for index, width in enumerate(widths, 1):
            sheet.column_dimensions[get_column_letter(index)].width = width
        for line in sheet.iter_rows(min_row=2, min_col=3, max_col=3):
            line[0].alignment = Alignment(wrap_text=True, vertical="top")
        sheet.freeze_panes = "A2"
    return _saved(book)


def _saved(book: Workbook) -> bytes:
    """The workbook's file. BadInput if the disk takes no more: its sheets pass through there."""
    stream = io.BytesIO()
    # What openpyxl leaves half written complains again, on stderr, as it is thrown away.
    with contextlib.redirect_stderr(io.StringIO()):
        try:
            book.save(stream)
            return stream.getvalue()
        except Exception as error:
            full = f"it cannot be written: {tempfile.gettempdir()} takes no more ({error})."
            error.__traceback__ = None
    raise BadInput([Fault("the register", None, full)])


def _harmless(row: Iterable[str]) -> list[str]:
    """Cells that a spreadsheet would take for a formula get a leading apostrophe."""
    return [f"'{cell}" if cell.startswith(_FORMULA) else cell for cell in row]

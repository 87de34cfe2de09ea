"""What is found, grouped by kind, the gravest first; what is waived, last."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from specgen.brief import Waiver
from specgen.checks import Finding
from specgen.library import FINDING_KINDS
from specgen.report import Report
from specgen.writers.findings_text import counted
from tui.line_list import LineList
from tui.marks import KINDS
from tui.wrapping import Line, Piece, shown, wrap

PLACE_WIDTH = 9
LAPSED = "waiver-without-finding"


@dataclass(frozen=True, slots=True)
class FindingRow:
    """A finding, or the head of a group (without one). ``lapsed`` is the waiver it is about."""

    head: str
    finding: Finding | None = None
    lapsed: Waiver | None = None


def finding_rows(report: Report, waivers: tuple[Waiver, ...]) -> list[FindingRow]:
    """The rows of a report."""
    return list(_rows(report, waivers)) or [FindingRow("Nothing is found.")]


def _rows(report: Report, waivers: tuple[Waiver, ...]) -> Iterator[FindingRow]:
    used = {finding.id for finding in report.waived}
    lapsed = iter({w.check: w for w in waivers if w.check not in used}.values())
    for kind in FINDING_KINDS:
        found = [finding for finding in report.standing if finding.kind == kind]
        if found:
            yield FindingRow(f"{KINDS[kind]} {counted(kind, len(found))}")
        for finding in found:
            waiver = next(lapsed, None) if finding.id == LAPSED else None
            yield FindingRow("", finding, waiver)
    if report.waived:
        yield FindingRow(f"waived: {len(report.waived)}")
        for finding in report.waived:
            yield FindingRow("", finding)


class FindingsList(LineList[FindingRow]):
    """The rows of a report, each with its kind and its place."""

    def key_of(self, row: FindingRow) -> object:
        found = row.finding
        return (
            (row.head,)
            if found is None
            else (found.kind, found.place, found.says, found.waived is None)
        )

    def can_choose(self, row: FindingRow) -> bool:
        return row.finding is not None

    def lines_of(self, row: FindingRow, width: int) -> list[Line]:
        finding = row.finding
        if finding is None:
            return [(), *wrap([Piece(row.head, "strong")], width)]
        look = "muted" if finding.waived is not None else "plain"
        sign = Piece(f"{KINDS[finding.kind]} ", finding.kind)
        place = Piece((finding.place or "").ljust(PLACE_WIDTH) + " ", "muted")
        blank = Piece(" " * (PLACE_WIDTH + 3))
        lines = wrap([Piece(shown(finding.says), look)], width - PLACE_WIDTH - 3)
        first = (sign, place, *lines[0])
        return [first, *((blank, *line) for line in lines[1:])]

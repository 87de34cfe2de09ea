"""Findings for the terminal and as plain values for JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping

from specgen.checks import Finding
from specgen.library import FINDING_KINDS
from specgen.report import Report

WIDTH = 88
HEADS = {
    "conflict": ("conflict", "conflicts"),
    "omission": ("omission", "omissions"),
    "ambiguity": ("ambiguity", "ambiguities"),
    "caution": ("caution", "cautions"),
}


def write_findings(report: Report) -> str:
    """The findings grouped by kind, each with place, reason, source and ways to settle."""
    lines: list[str] = []
    for kind in FINDING_KINDS:
        found = [finding for finding in report.standing if finding.kind == kind]
        if found:
            lines += [counted(kind, len(found)).upper(), ""]
            for finding in found:
                lines += [*_lines(finding), ""]
    if report.waived:
        lines += ["WAIVED", ""]
        for finding in report.waived:
            lines += [*_lines(finding), ""]
    lines.append(summary(report))
    return "\n".join(lines) + "\n"


def summary(report: Report) -> str:
    """How many findings of each kind stand, and how many are waived, in one line."""
    counts = [
        counted(kind, sum(1 for finding in report.standing if finding.kind == kind))
        for kind in FINDING_KINDS
    ]
    waived = f"; {len(report.waived)} waived" if report.waived else ""
    return ", ".join(counts) + waived + "."


def counted(kind: str, count: int) -> str:
    one, many = HEADS[kind]
    return f"{count} {one if count == 1 else many}"


def findings_json(report: Report) -> dict[str, object]:
    """Every field of every finding."""
    return {
        "standing": [_values(finding) for finding in report.standing],
        "waived": [_values(finding) for finding in report.waived],
    }


def settle_words(way: Mapping[str, object]) -> str:
    """One way to settle a finding: the answers that it would change."""
    return " and ".join(f"{name}: {_typed(answer)}" for name, answer in way.items())


def _typed(answer: object) -> str:
    if isinstance(answer, list):
        return f"[{', '.join(map(str, answer))}]"
    return str(answer)


def _lines(finding: Finding) -> list[str]:
    place = f" at {finding.place}" if finding.place else ""
    lines = [f"  {finding.id}{place}", *_wrapped(finding.says, "    ")]
    lines += _wrapped(finding.because, "    ")
    lines += _wrapped(f"Source: {finding.source}.", "    ")
    ways = [settle_words(way) for way in finding.settle]
    if ways:
        lines += _wrapped(f"To settle: {'; or '.join(ways)}.", "    ")
    if finding.waived is not None:
        reason, by = finding.waived
        lines += _wrapped(f"Waived by {by}: {reason}", "    ")
    return lines


def _wrapped(text: str, margin: str) -> Iterable[str]:
    return textwrap.wrap(
        text, WIDTH, initial_indent=margin, subsequent_indent=margin, break_on_hyphens=False
    )


def _values(finding: Finding) -> dict[str, object]:
    return {
        "id": finding.id,
        "kind": finding.kind,
        "says": finding.says,
        "because": finding.because,
        "source": finding.source,
        "place": finding.place,
        "answers": list(finding.answers),
        "settle": [dict(way) for way in finding.settle],
        "waived": None
        if finding.waived is None
        else {"reason": finding.waived[0], "by": finding.waived[1]},
    }

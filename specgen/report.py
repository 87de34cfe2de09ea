"""All that is found in a brief and its section, set against what the brief waives."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from specgen.brief import Brief, Waiver
from specgen.checks import Finding, by_gravity, findings_of
from specgen.document_checks import DOCUMENT_CHECKS, document_findings
from specgen.faults import nearest
from specgen.scope import Scope
from specgen.section import Section


@dataclass(frozen=True, slots=True)
class Report:
    """The findings of one brief: those that stand, those waived, the gravest kind first."""

    standing: tuple[Finding, ...]
    waived: tuple[Finding, ...]

    @property
    def conflicts(self) -> tuple[Finding, ...]:
        return tuple(finding for finding in self.standing if finding.kind == "conflict")


def report_of(brief: Brief, scope: Scope, section: Section) -> Report:
    """Everything found in a brief and its section, set against the brief's waivers."""
    findings = [*findings_of(scope, section), *document_findings(scope, section)]
    known = [*scope.library.checks, *(check.id for check in DOCUMENT_CHECKS)]
    return report_on(findings, brief.waivers, known)


def report_on(
    findings: Iterable[Finding], waivers: Iterable[Waiver], known: Iterable[str]
) -> Report:
    """Findings set against waivers; a waiver that no longer applies is itself a finding.

    ``known`` are the ids of all checks, to tell a waiver of none from one that has lapsed.
    """
    by_check = {waiver.check: waiver for waiver in waivers}
    standing, waived = [], []
    for finding in findings:
        waiver = by_check.get(finding.id)
        if waiver is None:
            standing.append(finding)
        else:
            waived.append(replace(finding, waived=(waiver.reason, waiver.by)))
    found = {finding.id for finding in waived}
    ids = list(known)
    for waiver in by_check.values():
        if waiver.check not in found:
            standing.append(_lapsed(waiver, ids))
    return Report(by_gravity(standing), tuple(waived))


def _lapsed(waiver: Waiver, known: list[str]) -> Finding:
    if waiver.check in known:
        says = f"The waiver of {waiver.check} by {waiver.by} waives nothing: it is not found here."
        because = "A waiver that outlives its finding would hide the next one of its kind."
    else:
        says = f"There is no check {waiver.check[:60]} to waive.{nearest(waiver.check, known)}"
        because = "A waiver works by the id of its check."
    return Finding(
        id="waiver-without-finding",
        kind="caution",
        says=says,
        because=because,
        source="common practice",
        place="",
        answers=(),
        settle=(),
    )

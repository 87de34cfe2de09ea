"""What a brief contradicts or leaves out: the library's checks held against it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from specgen.library import FINDING_KINDS, Check
from specgen.scope import Scope
from specgen.section import Section
from specgen.spans import words_of
from specgen.values import Open


@dataclass(frozen=True, slots=True)
class Finding:
    """What a check says of this brief or section.

    ``id`` is the check's; ``place`` the number of the paragraph or article it concerns, empty where
    it has none; ``answers`` the questions and calculations that decided it; ``settle`` the answers
    that would settle it, as typed; ``waived`` the reason and name of a waiver, or None.
    """

    id: str
    kind: str
    says: str
    because: str
    source: str
    place: str
    answers: tuple[str, ...]
    settle: tuple[Mapping[str, object], ...]
    waived: tuple[str, str] | None = None


def findings_of(scope: Scope, section: Section | None = None) -> tuple[Finding, ...]:
    """Every finding of the library's checks, the gravest kind first, else in library order.

    With a section, each finding is given its place in it.
    """
    found = (finding_of(check, scope, section) for check in scope.library.checks.values())
    return by_gravity(finding for finding in found if finding is not None)


def finding_of(check: Check, scope: Scope, section: Section | None = None) -> Finding | None:
    """What one check says, or None if it does not hold or is still open."""
    holds, because = scope.holds(check.when)
    if isinstance(holds, Open) or not holds:
        return None
    spans, _ = scope.text_of(check.says, check)
    place = section.places.get(check.place or "", "") if section is not None else ""
    names = (*scope.library.questions, *scope.library.calculations)
    return Finding(
        id=check.id,
        kind=check.kind,
        says=words_of(spans),
        because=check.because,
        source=check.source,
        place=place,
        answers=tuple(name for name in names if name in because),
        settle=check.settle,
    )


def by_gravity(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Conflicts first, then omissions, ambiguities and cautions."""
    return tuple(sorted(findings, key=lambda finding: FINDING_KINDS.index(finding.kind)))

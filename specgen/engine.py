"""A library and answers held together, from which the next answer changes only what reads it.

An engine is a picture of one set of answers and never changes; `answering` gives the next. Two of
them are compared to see what an answer did to the document, the numbers and the conflicts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from specgen.assemble import Written, assemble
from specgen.checks import Finding, by_gravity, finding_of
from specgen.dependence import dependence_of
from specgen.library import Library
from specgen.scope import Scope
from specgen.section import Section
from specgen.standing import Standing, standings_of
from specgen.values import Value


@dataclass(frozen=True, slots=True)
class Change:
    """What differs between two engines over one library.

    Clauses by id, computed values as (name, before, after) as shown.
    """

    raised: tuple[Finding, ...]
    settled: tuple[Finding, ...]
    entered: tuple[str, ...]
    left: tuple[str, ...]
    reworded: tuple[str, ...]
    computed: tuple[tuple[str, str, str], ...]


class Engine:
    """One set of answers over a library: its scope, the standing of its clauses, its findings."""

    def __init__(self, library: Library, answers: Mapping[str, Value]) -> None:
        self.library = library
        self.scope = Scope(library, answers)
        self.standings: dict[str, Standing] = standings_of(self.scope)
        # Shared with the engines that follow, which write anew only what has changed.
        self.written: dict[str, Written] = {}
        self.found: dict[str, Finding] = {}
        for check in library.checks.values():
            finding = finding_of(check, self.scope)
            if finding is not None:
                self.found[check.id] = finding

    @property
    def answers(self) -> Mapping[str, Value]:
        return self.scope.answers

    @property
    def findings(self) -> tuple[Finding, ...]:
        """The findings of the library's checks, the gravest first."""
        return by_gravity(self.found[name] for name in self.library.checks if name in self.found)

    @property
    def conflicts(self) -> tuple[Finding, ...]:
        return tuple(finding for finding in self.findings if finding.kind == "conflict")

    @cached_property
    def section(self) -> Section:
        """The section as it stands."""
        return assemble(self.scope, self.standings, self.written)

    def answering(self, question: str, value: Value | None) -> Engine:
        """The engine with one answer given, changed or (None) taken back."""
        return self.answering_all({question: value})

    def answering_all(self, changes: Mapping[str, Value | None]) -> Engine:
        """The engine with several answers given, changed or taken back."""
        dependence = dependence_of(self.library)
        reaches = [dependence.reach(question) for question in changes]
        names = frozenset().union(*(reach.names for reach in reaches))
        calculations = frozenset().union(*(reach.calculations for reach in reaches))
        clauses = frozenset().union(*(reach.clauses for reach in reaches))
        checks = frozenset().union(*(reach.checks for reach in reaches))
        answers = {**self.answers, **changes}
        kept = {name: value for name, value in answers.items() if value is not None}
        following = Engine.__new__(Engine)
        following.library = self.library
        following.written = self.written
        following.scope = self.scope.answering(kept, names, calculations)
        following.standings = standings_of(following.scope, self.standings, clauses)
        following.found = {
            name: finding for name, finding in self.found.items() if name not in checks
        }
        for name in checks:
            finding = finding_of(self.library.checks[name], following.scope)
            if finding is not None:
                following.found[name] = finding
        return following

    def change_to(self, following: Engine) -> Change:
        """What the answers of another engine change of this one's."""
        before, after = self.standings, following.standings
        entered = [name for name, now in after.items() if _in(now) and not _in(before.get(name))]
        left = [name for name, was in before.items() if _in(was) and not _in(after.get(name))]
        reworded = [
            name
            for name, now in after.items()
            if (was := before.get(name)) is not None
            and was is not now
            and _in(now)
            and _in(was)
            and (was.spans != now.spans or was.tables != now.tables)
        ]
        raised = [f for name, f in following.found.items() if self.found.get(name) != f]
        settled = [f for name, f in self.found.items() if name not in following.found]
        return Change(
            raised=by_gravity(raised),
            settled=by_gravity(settled),
            entered=tuple(entered),
            left=tuple(left),
            reworded=tuple(reworded),
            computed=tuple(self._computed_changes(following)),
        )

    def _computed_changes(self, following: Engine) -> list[tuple[str, str, str]]:
        changes = []
        for name in self.library.calculations:
            before, _ = self.scope.lookup(name)
            after, _ = following.scope.lookup(name)
            if before is not after and before != after:
                changes.append((name, self.scope.shown(name), following.scope.shown(name)))
        return changes


def _in(standing: Standing | None) -> bool:
    return standing is not None and standing.stands is True

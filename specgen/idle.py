"""What in a library is never used: found by searching the answers, and not by hope.

A condition is searched by giving answers only to the questions that it waits on, one at a time,
until it is yes or can no longer be: three-valued logic cuts off every branch that is already no.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from specgen.conditions import Expression
from specgen.dependence import names_in
from specgen.domain import domain_of
from specgen.library import Clause, Library
from specgen.questions import read_answer
from specgen.scope import Scope
from specgen.values import NOT_ASKED, Open, Value

MOST_STEPS = 20000


@dataclass(frozen=True, slots=True)
class IdleParts:
    """Ids of what nothing uses: standards no clause cites, questions and facts nothing reads,
    clauses that can never appear and checks that can never fire."""

    standards: tuple[str, ...]
    questions: tuple[str, ...]
    facts: tuple[str, ...]
    clauses: tuple[str, ...]
    checks: tuple[str, ...]

    def heads(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        yield "Standards that no clause cites (kept for reviewing other documents)", self.standards
        yield "Questions that no condition, text or calculation reads", self.questions
        yield "Facts that nothing reads", self.facts
        yield "Clauses that can never appear", self.clauses
        yield "Checks that can never fire", self.checks


def idle_parts(library: Library) -> IdleParts:
    """Everything of a library that is never used."""
    read = _read_names(library)
    cited = {cited for clause in library.clauses.values() for cited in clause.cites}
    return IdleParts(
        standards=tuple(name for name in library.standards if name not in cited),
        questions=tuple(name for name in library.questions if name not in read),
        facts=tuple(name for name in library.facts if name not in read),
        clauses=tuple(
            clause.id for clause in library.clauses.values() if not can_appear(clause, library)
        ),
        checks=tuple(
            check.id
            for check in library.checks.values()
            if not _raised_by_its_brief(library, check.raises, check.when)
            and satisfying(library, [check.when]) is None
        ),
    )


def can_appear(clause: Clause, library: Library) -> bool:
    """Whether some answers put a clause, and all that it stands under, into the section."""
    conditions = []
    upper: Clause | None = clause
    while upper is not None:
        if upper.when is not None:
            conditions.append(upper.when)
        upper = library.clauses[upper.under] if upper.under is not None else None
    if satisfying(library, conditions) is not None:
        return True
    # What hangs on a table of matching rows is not hit by trying: start from briefs that have one.
    return any(satisfying(library, conditions, seed) is not None for seed in _seeds(library))


def _seeds(library: Library) -> Iterator[dict[str, Value]]:
    """The sample briefs of checks that answer a table."""
    for check in library.checks.values():
        for typed in (check.raises, check.spares):
            if any(library.questions[name].kind == "table" for name in typed):
                yield _read(library, typed)


def satisfying(
    library: Library, conditions: list[Expression], given: dict[str, Value] | None = None
) -> dict[str, Value] | None:
    """Answers that make every condition yes, or None if there are none among those worth trying."""
    steps = 0

    def search(answers: dict[str, Value]) -> dict[str, Value] | None:
        nonlocal steps
        steps += 1
        if steps > MOST_STEPS:
            return None
        scope = Scope(library, answers)
        waits_on: frozenset[str] = frozenset()
        for condition in conditions:
            holds, because = scope.holds(condition)
            if isinstance(holds, Open):
                waits_on = waits_on or holds.waits_on
            elif not holds:
                waits_on = _optional(scope, because, answers)
                if not waits_on:
                    return None
                break
        if not waits_on:
            return answers
        # A calculation that refused its inputs waits on an answer that is given already.
        waits_on -= answers.keys()
        if not waits_on:
            return None
        question = scope.first_question(waits_on)
        for value in domain_of(library, question):
            found = search({**answers, question: value})
            if found is not None:
                return found
        return None

    return search(dict(given or {}))


def _optional(scope: Scope, because: frozenset[str], answers: dict[str, Value]) -> frozenset[str]:
    """Optional questions left unanswered that made a condition no: they may yet be answered."""
    return frozenset(
        name
        for name in because
        if name in scope.library.questions
        and scope.library.questions[name].optional
        and name not in answers
        and scope.lookup(name)[0] is NOT_ASKED
        and domain_of(scope.library, name)
    )


def _raised_by_its_brief(library: Library, raises: Mapping[str, object], when: Expression) -> bool:
    return Scope(library, _read(library, raises)).holds(when)[0] is True


def _read(library: Library, typed: Mapping[str, object]) -> dict[str, Value]:
    return {name: read_answer(library.questions[name], raw) for name, raw in typed.items()}


def _read_names(library: Library) -> set[str]:
    """Every name that something reads."""
    names: set[str] = set()
    for clause in library.clauses.values():
        names |= names_in(clause)
    for calculation in set(library.calculations.values()):
        names.update(calculation.inputs)
    expressions = [
        *(fact.condition for fact in library.facts.values()),
        *(check.when for check in library.checks.values()),
        *(each for check in library.checks.values() for each in check.says.expressions),
        *(arises for arises in library.arises.values() if arises is not None),
        *(question.when for question in library.questions.values() if question.when is not None),
        *(advice.when for advice in library.advice.values() if advice.when is not None),
        *(each for advice in library.advice.values() for each in advice.says.expressions),
    ]
    names.update(name for expression in expressions for name in expression.names)
    # The heads of every page read these.
    return names | {
        "project_name",
        "project_number",
        "place",
        "issue",
        "issue_date",
        "units_shown",
    }

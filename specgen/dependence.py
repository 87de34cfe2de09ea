"""What reads what: the clauses, calculations and checks that one answer can change."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from specgen.computing.registry import reads_of
from specgen.library import Clause, Library
from specgen.wording import UNITS


@dataclass(frozen=True, slots=True)
class Reach:
    """What an answer can change: names of facts, questions and computed values, and by id the
    clauses, calculations and checks that read one of them."""

    names: frozenset[str]
    clauses: frozenset[str]
    calculations: frozenset[str]
    checks: frozenset[str]


class Dependence:
    """The readers of every name of a library, worked out once."""

    def __init__(self, library: Library) -> None:
        self.library = library
        self._names: dict[str, set[str]] = {}
        self._clauses: dict[str, set[str]] = {}
        self._checks: dict[str, set[str]] = {}
        self._calculations: dict[str, set[str]] = {}
        self._reach: dict[str, Reach] = {}
        self._index()

    def reach(self, question: str) -> Reach:
        """Everything that an answer to this question can change."""
        known = self._reach.get(question)
        if known is None:
            known = self._reach[question] = self._reach_of(question)
        return known

    def _reach_of(self, question: str) -> Reach:
        names = {question}
        stack = [question]
        while stack:
            for reader in self._names.get(stack.pop(), ()):
                if reader not in names:
                    names.add(reader)
                    stack.append(reader)
        clauses = _readers(self._clauses, names)
        if question == UNITS:
            clauses = frozenset(self.library.clauses)
        return Reach(
            names=frozenset(names),
            clauses=clauses,
            calculations=_readers(self._calculations, names),
            checks=frozenset(self.library.checks)
            if question == UNITS
            else _readers(self._checks, names),
        )

    def _index(self) -> None:
        library = self.library
        for fact in library.facts.values():
            _note(self._names, fact.condition.names, fact.id)
        for question in library.questions.values():
            if question.when is not None:
                _note(self._names, question.when.names, question.id)
        for provided, calculation in library.calculations.items():
            reads = reads_of(calculation, library.arises[calculation.id])
            _note(self._names, reads, provided)
            _note(self._calculations, reads, calculation.id)
        for clause in library.clauses.values():
            _note(self._clauses, names_in(clause), clause.id)
        for check in library.checks.values():
            said = (name for each in check.says.expressions for name in each.names)
            _note(self._checks, (*check.when.names, *said), check.id)


def names_in(clause: Clause) -> frozenset[str]:
    """Every name that a clause reads: in its condition, its text, its table and its lists."""
    texts = [clause.text, *(text for _, text in clause.submits)]
    if clause.warrants is not None:
        texts += [clause.warrants.what, clause.warrants.years]
    names = {name for text in texts for each in text.expressions for name in each.names}
    if clause.when is not None:
        names |= clause.when.names
    if clause.table is not None:
        names.add(clause.table)
    return frozenset(names)


def _note(index: dict[str, set[str]], names: Iterable[str], reader: str) -> None:
    for name in names:
        index.setdefault(name, set()).add(reader)


def _readers(index: dict[str, set[str]], names: Iterable[str]) -> frozenset[str]:
    return frozenset(reader for name in names for reader in index.get(name, ()))


@lru_cache(maxsize=4)
def dependence_of(library: Library) -> Dependence:
    """The dependence of a library; the same library gives the same one."""
    return Dependence(library)

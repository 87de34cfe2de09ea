"""The fewest answers to change so that a clause goes, comes in, or a finding is settled.

Found by trying: as long as the outcome is not the wanted one, at least one of the answers that
decided it must change, so the search branches on those alone. Nothing is proposed that was not
tried on this brief.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from specgen.dependence import dependence_of
from specgen.domain import domain_of
from specgen.engine import Engine
from specgen.library import Check, Clause, Library
from specgen.scope import Scope
from specgen.study.steps import Changes, Step, as_typed, told
from specgen.units import Quantity
from specgen.values import NOT_ASKED, Open, Value

MOST_ANSWERS = 5
MOST_WAYS = 6
# Sets of answers tried beyond single ones: beyond this the answer would keep a reader waiting.
MOST_TRIALS = 320

# Whether the wanted outcome is there, and the names that decide the outcome.
Goal = Callable[[Scope], tuple[bool, frozenset[str]]]


@dataclass(frozen=True, slots=True)
class Ways:
    """The smallest sets of changes, each of as many answers; none if none was found.

    ``tried`` is the number of answers up to which what is worth trying was tried.
    """

    ways: tuple[tuple[Step, ...], ...]
    changes: tuple[Mapping[str, Value | None], ...]
    tried: int


def ways_to(engine: Engine, goal: Goal, first: frozenset[str] = frozenset()) -> Ways:
    """The smallest changes of answers that reach a goal.

    Where changing one of the questions in ``first`` alone reaches it, no other is tried: those that
    a condition compares are told before those that bear on it through a calculation.
    """
    if first:
        found = _Search(engine, goal, first).found(1)
        if found:
            return _as_ways(engine, found, 1)
    search = _Search(engine, goal, None)
    for size in range(1, MOST_ANSWERS + 1):
        found = search.found(size)
        if found:
            return _as_ways(engine, found, size)
        if search.given_up:
            return Ways((), (), size - 1)
    return Ways((), (), MOST_ANSWERS)


def _as_ways(engine: Engine, found: list[list[Changes]], size: int) -> Ways:
    ways = [told(engine, group) for group in found]
    return Ways(tuple(steps for steps, _ in ways), tuple(changes for _, changes in ways), size)


def compared_by(engine: Engine, clause: Clause) -> frozenset[str]:
    """The questions that a clause's conditions compare, and not only through a calculation."""
    names: set[str] = set()
    for each in lineage(clause, engine.scope):
        names |= each.when.names if each.when is not None else set()
        names |= {each.table} if each.table is not None else set()
    return read_directly(engine.library, names)


def read_directly(library: Library, names: Iterable[str]) -> frozenset[str]:
    """The questions behind names: facts and what has a question asked taken for what they read,
    computed values left out."""
    stack = list(names)
    found: set[str] = set()
    while stack:
        name = stack.pop()
        if name in library.facts:
            stack.extend(library.facts[name].condition.names)
        elif name in library.questions and name not in found:
            found.add(name)
            when = library.questions[name].when
            stack.extend(when.names if when is not None else ())
    return frozenset(found)


def clause_stands(clause: Clause, wanted: bool) -> Goal:
    """A clause in the section (wanted), or out of it with nothing open about it."""

    def goal(scope: Scope) -> tuple[bool, frozenset[str]]:
        stands, because = how_it_stands(clause, scope)
        return stands is wanted, because

    return goal


def how_it_stands(clause: Clause, scope: Scope) -> tuple[bool | Open, frozenset[str]]:
    """Whether a clause and all that it stands under are in, and the names that decide it."""
    names: frozenset[str] = frozenset()
    waiting: Open | None = None
    for each in lineage(clause, scope):
        stands, because = scope.holds(each.when)
        if stands is True and each.table is not None:
            table, read = scope.lookup(each.table)
            because |= read
            stands = table if isinstance(table, Open) else table is not NOT_ASKED
        if stands is False:
            return False, because
        names |= because
        if isinstance(stands, Open):
            waiting = waiting or stands
    return (True if waiting is None else waiting), names


def lineage(clause: Clause, scope: Scope) -> Iterator[Clause]:
    """A clause and what it stands under, the uppermost first."""
    if clause.under is not None:
        yield from lineage(scope.library.clauses[clause.under], scope)
    yield clause


def check_settled(check: Check, wanted: bool = True) -> Goal:
    """A check that finds nothing (wanted), or that finds something."""

    def goal(scope: Scope) -> tuple[bool, frozenset[str]]:
        holds, because = scope.holds(check.when)
        return (holds is False) if wanted else (holds is True), because

    return goal


# ----------------------------------------------------------------------------------------- search


class _Search:
    """Iterative deepening over sets of changed answers."""

    def __init__(self, engine: Engine, goal: Goal, among: frozenset[str] | None) -> None:
        self.engine = engine
        self.goal = goal
        self.among = among
        self.given_up = False
        self.trials = 0

    def found(self, size: int) -> list[list[Changes]]:
        """Every set of so many changes that reaches the goal, those of the same questions and the
        same choices, but for the last, together."""
        groups: dict[tuple[object, ...], list[Changes]] = {}
        self._deepen(self.engine.scope, {}, size, groups)
        apart: dict[frozenset[str], list[Changes]] = {}
        for group in groups.values():
            apart.setdefault(frozenset(group[0]), group)
        return list(apart.values())[:MOST_WAYS]

    def _deepen(
        self,
        scope: Scope,
        changes: Changes,
        left: int,
        groups: dict[tuple[object, ...], list[Changes]],
    ) -> None:
        _, because = self.goal(scope)
        here = _state(scope, because)
        for name in self._movable(because, changes):
            leads_on: dict[object, tuple[Scope, Changes]] = {}
            for value in self._answers(name):
                if left > 1 or changes:
                    self.trials += self._cost(name, because)
                    if self.trials > MOST_TRIALS:
                        self.given_up = True
                        return
                tried: Changes = {**changes, name: value}
                following = self._answering(scope, tried, name)
                reached, decides = self.goal(following)
                if reached and left == 1:
                    group = (*((n, as_typed(v)) for n, v in changes.items()), name)
                    groups.setdefault(group, []).append(tried)
                elif not reached and left > 1 and _state(following, decides) != here:
                    # Of figures that leave the same things to decide, one leads on for all.
                    apart = None if isinstance(value, Quantity | float) else as_typed(value)
                    leads_on.setdefault((_state(following, decides), apart), (following, tried))
            for following, tried in leads_on.values():
                self._deepen(following, tried, left - 1, groups)
                if self.given_up:
                    return

    def _cost(self, name: str, because: frozenset[str]) -> int:
        """A trial that computes again takes as long as many that only compare."""
        if because.isdisjoint(self.engine.library.calculations):
            return 1
        return 1 + 10 * len(dependence_of(self.engine.library).reach(name).calculations)

    def _movable(self, because: frozenset[str], changes: Changes) -> list[str]:
        questions = self.engine.library.questions
        free = (because & questions.keys()) - changes.keys()
        if self.among is not None:
            free &= self.among
        return sorted(free, key=self.engine.library.rank_of)

    def _answers(self, name: str) -> Iterator[Value | None]:
        """The answers to try to a question: each but the present one, and none if it may be."""
        present = self.engine.answers.get(name)
        for value in domain_of(self.engine.library, name):
            if value != present:
                yield value
        if self.engine.library.questions[name].optional and present is not None:
            yield None

    def _answering(self, scope: Scope, changes: Changes, name: str) -> Scope:
        reach = dependence_of(self.engine.library).reach(name)
        answers = {**self.engine.answers, **changes}
        kept = {key: value for key, value in answers.items() if value is not None}
        return scope.answering(kept, reach.names, reach.calculations)


def _state(scope: Scope, decides: frozenset[str]) -> object:
    """What decides an outcome, and what of it has no answer yet: a step must change one of them."""
    return decides, frozenset(decides - scope.answers.keys())

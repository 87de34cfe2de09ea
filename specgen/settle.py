"""The fewest answers to change so that no conflict is left.

Every way out changes at least one of the answers that decided a conflict, so a search that branches
on those, one conflict at a time, misses none among the answers it tries; it goes deeper only when
all ways of fewer changes have failed. Answers that the brief marks as fixed are never touched, and
a conflict that somebody answers for in a waiver is left to stand.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from specgen.checks import Finding
from specgen.conditions import Comparison, Name, parts_of
from specgen.domain import can_be_tried, domain_of, takes, typed
from specgen.engine import Engine
from specgen.units import Quantity
from specgen.values import NOT_ASKED, Open, Value

MOST_CHANGES = 6
MOST_WAYS = 6
PATIENCE_SECONDS = 20.0


@dataclass(frozen=True, slots=True)
class Settlement:
    """What settling comes to.

    ``ways`` are the smallest sets of changes, as (question, answer as typed) pairs, all of the same
    size, none if there is no conflict. ``stuck`` are conflicts that no answer free to change
    settles, with the fixed answers that contradict each other. ``searched`` is how many changes
    were searched completely; ``complete`` whether the search came to its end.
    """

    ways: tuple[tuple[tuple[str, str], ...], ...]
    stuck: tuple[tuple[Finding, tuple[str, ...]], ...]
    searched: int
    complete: bool

    @property
    def settled(self) -> bool:
        return not self.stuck and (bool(self.ways) or self.searched == 0)


def settle(
    engine: Engine,
    fixed: frozenset[str] = frozenset(),
    waived: frozenset[str] = frozenset(),
    stopped: Callable[[], bool] = lambda: False,
) -> Settlement:
    """The smallest changes that leave the engine's answers without a conflict.

    ``fixed`` are questions whose answers may not change, ``waived`` checks whose conflicts count
    for nothing. ``stopped`` is asked before each answer that is tried, and ends the search.
    """
    conflicts = _standing(engine, waived)
    if not conflicts:
        return Settlement((), (), 0, True)
    search = _Search(fixed, waived, time.monotonic() + PATIENCE_SECONDS, stopped)
    stuck = _stuck(conflicts, fixed)
    for size in range(1, MOST_CHANGES + 1):
        ways = search.ways_of(engine, size)
        if ways:
            return Settlement(ways, (), size, True)
        if search.out_of_time:
            return Settlement((), stuck, size - 1, False)
        if not search.cut_short:
            return Settlement((), stuck, size, True)
    return Settlement((), stuck, MOST_CHANGES, False)


def _standing(engine: Engine, waived: frozenset[str]) -> tuple[Finding, ...]:
    """The conflicts that nobody answers for."""
    return tuple(finding for finding in engine.conflicts if finding.id not in waived)


def _stuck(
    conflicts: tuple[Finding, ...], fixed: frozenset[str]
) -> tuple[tuple[Finding, tuple[str, ...]], ...]:
    """Each conflict with the fixed answers that hold it."""
    return tuple(
        (finding, tuple(name for name in finding.answers if name in fixed)) for finding in conflicts
    )


def typed_answers(way: Iterable[tuple[str, str]]) -> dict[str, object]:
    """A way to settle as answers are typed, a list where several choices are picked."""
    return {
        name: [item.strip() for item in answer[1:-1].split(",") if item.strip()]
        if answer.startswith("[")
        else answer
        for name, answer in way
    }


class _Search:
    """Depth-first over changes, to a given depth; each set of changes is looked at once."""

    def __init__(
        self,
        fixed: frozenset[str],
        waived: frozenset[str],
        deadline: float,
        stopped: Callable[[], bool],
    ) -> None:
        self.fixed = fixed
        self.waived = waived
        self.deadline = deadline
        self.stopped = stopped
        self.out_of_time = False
        self.cut_short = False
        self.seen: set[frozenset[tuple[str, str]]] = set()
        self.found: dict[frozenset[str], tuple[float, tuple[tuple[str, str], ...]]] = {}

    def ways_of(self, engine: Engine, size: int) -> tuple[tuple[tuple[str, str], ...], ...]:
        self.seen.clear()
        self.found.clear()
        self.cut_short = False
        self._deepen(engine, engine, {}, size)
        ranked = sorted(self.found.values(), key=lambda found: found[0])
        return tuple(way for _, way in ranked[:MOST_WAYS])

    def _deepen(self, start: Engine, engine: Engine, changes: dict[str, Value], left: int) -> None:
        conflicts = _standing(engine, self.waived)
        if not conflicts:
            self._note(start, changes)
            return
        if _apart(conflicts) > left:
            self.cut_short = True
            return
        for name, value in _moves(engine, conflicts, self.fixed | changes.keys()):
            following = {**changes, name: value}
            key = frozenset((question, typed(answer)) for question, answer in following.items())
            if key in self.seen:
                continue
            self.seen.add(key)
            if time.monotonic() > self.deadline or self.stopped():
                self.out_of_time = True
                return
            self._deepen(start, engine.answering(name, value), following, left - 1)
            if self.out_of_time:
                return

    def _note(self, start: Engine, changes: Mapping[str, Value]) -> None:
        """Keep the nearest answers of each set of questions; of choices keep each."""
        quantities = {
            name for name, value in changes.items() if isinstance(value, Quantity | float)
        }
        key = frozenset(
            name if name in quantities else f"{name}={typed(value)}"
            for name, value in changes.items()
        )
        distance = sum(_distance(start, name, changes[name]) for name in quantities)
        way = tuple((name, typed(value)) for name, value in changes.items())
        if key not in self.found or distance < self.found[key][0]:
            self.found[key] = (distance, way)


def _apart(conflicts: tuple[Finding, ...]) -> int:
    """How many conflicts share no answer: each of them needs a change of its own."""
    taken: set[str] = set()
    count = 0
    for finding in sorted(conflicts, key=lambda finding: len(finding.answers)):
        if taken.isdisjoint(finding.answers):
            taken.update(finding.answers)
            count += 1
    return count


def _moves(
    engine: Engine, conflicts: tuple[Finding, ...], kept: frozenset[str]
) -> Iterator[tuple[str, Value]]:
    """Every change of one answer that decided the conflict with the fewest of them free."""
    questions = engine.library.questions

    def free(finding: Finding) -> list[str]:
        return [
            name
            for name in finding.answers
            if name in questions and name not in kept and can_be_tried(questions[name])
        ]

    finding = min(conflicts, key=lambda each: len(free(each)))
    for name in free(finding):
        current = engine.answers.get(name)
        for value in (*domain_of(engine.library, name), *_levelled(engine, finding, name)):
            if value != current:
                yield name, value


def _levelled(engine: Engine, finding: Finding, name: str) -> Iterator[Value]:
    """For a figure held against another figure, that other figure, if the question takes it."""
    for part in parts_of(engine.library.checks[finding.id].when.tree):
        if not isinstance(part, Comparison):
            continue
        sides = [part.first, *(other for _, other in part.steps)]
        if Name(name) in sides:
            for side in sides:
                if isinstance(side, Name) and side.name != name:
                    value, _ = engine.scope.lookup(side.name)
                    if isinstance(value, Open) or value is NOT_ASKED:
                        continue
                    if takes(engine.library.questions[name], value):
                        yield value


def _distance(start: Engine, name: str, value: Value) -> float:
    """How far a figure is from the one that the brief has, as a share of it."""
    current = start.answers.get(name)
    if isinstance(current, Quantity) and isinstance(value, Quantity):
        return abs(value.magnitude - current.magnitude) / max(abs(current.magnitude), 1e-6)
    if isinstance(current, float) and isinstance(value, float):
        return abs(value - current) / max(abs(current), 1e-6)
    return 0.0
